//! What screens and canvas ask for. Nothing changes while a frame is drawn: the asks are
//! carried out after it.

mod screen;

use std::path::PathBuf;

use sightedge_core::command::Command;
use sightedge_core::finding::Place;
use sightedge_core::material::OwnTables;
use sightedge_core::spec::VariantId;
use sightedge_core::steps::Step;

use crate::window::session::SessionId;
use crate::window::workers::Keep;
use sightedge_papers::House;
use sightedge_service::usual_words::Words;

pub use screen::Screen;

/// One request.
#[derive(Clone, Debug)]
pub enum Action {
    /// A change of the document, as one undo step.
    Run(Command),
    /// The same of one of the open plans, in front or not.
    RunOn(SessionId, Command),
    /// A change under the hand: shown, not yet kept.
    Draft(Command),
    /// Brings one of the plan's mats to the front.
    BringForward(VariantId),
    /// Keeps what is under the hand, as one undo step.
    Commit,
    /// Drops it: all is as it was before the hand moved.
    Cancel,
    /// Shows a place on the board while the pointer rests on its finding.
    Point(Place),
    /// Ticks a step at the bench, or unticks it.
    Tick(Box<Step>),
    /// The person's own materials are these from now on.
    Materials(Box<OwnTables>),
    /// The person's usual words for inscriptions are these from now on.
    Words(Box<Words>),
    /// The head of printouts that leave the house.
    House(Box<House>),
    /// Something is kept between sessions.
    Keep(Keep),
    /// The figures of that place are folded from now on, or are not.
    Fold(Screen, bool),
    /// What the window itself does.
    Do(AppCommand),
}

/// What the window does apart from changing the document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AppCommand {
    /// Asks for a picture or a plan.
    Open,
    /// Opens this file.
    OpenPath(PathBuf),
    /// Opens the demo.
    OpenDemo,
    /// Saves the plan.
    Save,
    /// Saves the plan under another name.
    SaveAs,
    /// Goes back to what was last saved.
    Revert,
    /// Asks where the picture of the plan in front is now.
    FindPicture,
    /// Closes the plan in front.
    Close,
    /// Undoes the last step.
    Undo,
    /// Redoes it.
    Redo,
    /// Shows all of the board.
    Fit,
    /// Shows the board as large as it is, or all of it again.
    TrueSize,
    /// What is under the pointer, magnified, or not.
    Magnifier,
    /// The colours and the size of this screen.
    Monitor,
    /// Shows the board larger.
    ZoomIn,
    /// Shows it smaller.
    ZoomOut,
    /// Dimension lines on or off.
    Dimensions,
    /// The outline of what is hidden on or off.
    Hidden,
    /// The magnified corner on or off.
    Corner,
    /// The frame round the mat, or not.
    Frame,
    /// The plan's mats side by side, or the board again.
    Compare,
    /// The client's view, open or closed.
    Client,
    /// The plan's next mat.
    NextMat,
    /// The mat before it.
    MatBefore,
    /// Light or dark.
    Theme,
    /// The plan to the right of the one in front.
    NextPlan,
    /// The plan to the left of it.
    PlanBefore,
    /// Larger text, and all else with it.
    TextLarger,
    /// Smaller text.
    TextSmaller,
    /// Text at its usual size.
    TextUsual,
    /// The keys, the drags and the words of the job.
    Help,
    /// The next region of the window has the focus.
    NextRegion,
    /// The previous one has it.
    RegionBefore,
    /// Goes to a place of work.
    Go(Screen),
}

impl AppCommand {
    /// Those that have a key.
    pub const KEYED: [Self; 29] = [
        Self::Open,
        Self::Save,
        Self::SaveAs,
        Self::Revert,
        Self::Close,
        Self::Undo,
        Self::Redo,
        Self::Fit,
        Self::TrueSize,
        Self::Magnifier,
        Self::ZoomIn,
        Self::ZoomOut,
        Self::Dimensions,
        Self::Hidden,
        Self::Corner,
        Self::Frame,
        Self::Compare,
        Self::Client,
        Self::NextMat,
        Self::MatBefore,
        Self::Theme,
        Self::NextPlan,
        Self::PlanBefore,
        Self::TextLarger,
        Self::TextSmaller,
        Self::TextUsual,
        Self::Help,
        Self::NextRegion,
        Self::RegionBefore,
    ];

    /// The main button of a place: the one that most will press there.
    pub const MAIN: egui::KeyboardShortcut =
        egui::KeyboardShortcut::new(egui::Modifiers::COMMAND, egui::Key::Enter);

    /// On a button.
    pub const fn label(&self) -> &'static str {
        match self {
            Self::Open | Self::OpenPath(_) => "Open…",
            Self::OpenDemo => "Open the demo",
            Self::Save => "Save",
            Self::SaveAs => "Save as…",
            Self::Revert => "Revert",
            Self::FindPicture => "Show where it is…",
            Self::Close => "Close",
            Self::Undo => "Undo",
            Self::Redo => "Redo",
            Self::Fit => "Fit",
            Self::TrueSize => "True size",
            Self::Magnifier => "Magnifier",
            Self::Monitor => "Screen…",
            Self::ZoomIn => "Zoom in",
            Self::ZoomOut => "Zoom out",
            Self::Dimensions => "Dimensions",
            Self::Hidden => "Hidden edges",
            Self::Corner => "Section",
            Self::Frame => "Frame",
            Self::Compare => "Compare mats",
            Self::Client => "For the client",
            Self::NextMat => "Next mat",
            Self::MatBefore => "Previous mat",
            Self::Theme => "Light or dark",
            Self::NextPlan => "Next plan",
            Self::PlanBefore => "Previous plan",
            Self::TextLarger => "Larger text",
            Self::TextSmaller => "Smaller text",
            Self::TextUsual => "Usual text size",
            Self::Help => "Help",
            Self::NextRegion => "Next part of the window",
            Self::RegionBefore => "Previous part of the window",
            Self::Go(room) => room.label(),
        }
    }

    /// What it does, for the one who hesitates.
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Open | Self::OpenPath(_) => "Open a picture or a plan",
            Self::OpenDemo => "Open the picture of an invented studio, to try things out",
            Self::Save => "Save the plan beside its picture",
            Self::SaveAs => "Save the plan under another name",
            Self::Revert => "Go back to the plan as last saved; Undo restores your changes",
            Self::FindPicture => "Show where the picture is now",
            Self::Close => "Close this plan",
            Self::Undo => "Undo the last step",
            Self::Redo => "Redo what was undone",
            Self::Fit => "Show all of the board",
            Self::TrueSize => {
                "Show the board as large as it really is; once more shows all of it"
            }
            Self::Magnifier => "Show what is under the pointer at four times its true size",
            Self::Monitor => "The colour profile of this screen, and its true size",
            Self::ZoomIn => "Show the board larger",
            Self::ZoomOut => "Show the board smaller",
            Self::Dimensions => "Dimension lines round the board",
            Self::Hidden => "What the mat hides, in outline: sheet, image, overlap",
            Self::Corner => {
                "A section through the window's left edge: how board, bevel, undermat and sheet meet"
            }
            Self::Frame => {
                "The mat in its frame, as the finished piece will look, in place of dimension lines"
            }
            Self::Compare => "This plan’s mats side by side at one scale",
            Self::Client => {
                "The piece alone on a wall, full screen; on your second screen if there is one"
            }
            Self::NextMat => "Bring this plan’s next mat to the front",
            Self::MatBefore => "Bring this plan’s previous mat to the front",
            Self::Theme => "A light or a dark window; the surround has its own setting",
            Self::NextPlan => "Bring the next plan to the front",
            Self::PlanBefore => "Bring the previous plan to the front",
            Self::TextLarger => "Make the text and all else in the window larger",
            Self::TextSmaller => "Make the text and all else in the window smaller",
            Self::TextUsual => "Show text and all else in the window at 100 %",
            Self::Help => "The keys and drags of this place, and the words of the job",
            Self::NextRegion | Self::RegionBefore => {
                "Move between the list of places, the panel, the board and the checks"
            }
            Self::Go(room) => room.hint(),
        }
    }

    /// Its key. Bare letters are free, because typing a number on a handle takes digits only.
    pub fn shortcut(&self) -> Option<egui::KeyboardShortcut> {
        use egui::{Key, KeyboardShortcut, Modifiers};
        const COMMAND_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
        let (modifiers, key) = match self {
            Self::Open => (Modifiers::COMMAND, Key::O),
            Self::Save => (Modifiers::COMMAND, Key::S),
            Self::SaveAs => (COMMAND_SHIFT, Key::S),
            Self::Revert => (COMMAND_SHIFT, Key::R),
            Self::Close => (Modifiers::COMMAND, Key::W),
            Self::Undo => (Modifiers::COMMAND, Key::Z),
            Self::Redo => (COMMAND_SHIFT, Key::Z),
            Self::Fit => (Modifiers::COMMAND, Key::Num0),
            Self::TrueSize => (Modifiers::COMMAND, Key::Num9),
            Self::Magnifier => (Modifiers::COMMAND, Key::L),
            Self::ZoomIn => (Modifiers::COMMAND, Key::Plus),
            Self::ZoomOut => (Modifiers::COMMAND, Key::Minus),
            Self::Dimensions => (Modifiers::COMMAND, Key::D),
            Self::Hidden => (Modifiers::COMMAND, Key::H),
            Self::Corner => (Modifiers::COMMAND, Key::K),
            Self::Frame => (Modifiers::COMMAND, Key::F),
            Self::Compare => (Modifiers::COMMAND, Key::M),
            Self::Client => (Modifiers::NONE, Key::F11),
            Self::NextMat => (Modifiers::COMMAND, Key::PageDown),
            Self::MatBefore => (Modifiers::COMMAND, Key::PageUp),
            Self::Theme => (Modifiers::COMMAND, Key::T),
            Self::NextPlan => (Modifiers::CTRL, Key::Tab),
            Self::PlanBefore => (Modifiers::CTRL.plus(Modifiers::SHIFT), Key::Tab),
            Self::TextLarger => (COMMAND_SHIFT, Key::Plus),
            Self::TextSmaller => (COMMAND_SHIFT, Key::Minus),
            Self::TextUsual => (COMMAND_SHIFT, Key::Num0),
            Self::Help => (Modifiers::NONE, Key::F1),
            Self::NextRegion => (Modifiers::NONE, Key::F6),
            Self::RegionBefore => (Modifiers::SHIFT, Key::F6),
            Self::Go(room) => return room.shortcut(),
            Self::OpenPath(_) | Self::OpenDemo | Self::FindPicture | Self::Monitor => {
                return None;
            }
        };
        Some(KeyboardShortcut::new(modifiers, key))
    }

    /// What a pressed key asks for. All modifiers count: with Shift, a key is another one.
    pub fn of_key(modifiers: egui::Modifiers, key: egui::Key) -> Option<Self> {
        use egui::{Key, Modifiers};
        const COMMAND_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
        let screens = Screen::ALL.into_iter().map(Self::Go);
        if let Some(command) = Self::KEYED.into_iter().chain(screens).find(|command| {
            command.shortcut().is_some_and(|shortcut| {
                shortcut.logical_key == key && modifiers.matches_exact(shortcut.modifiers)
            })
        }) {
            return Some(command);
        }
        // Other hands know other keys; plus may share its key with the sign of equality.
        match key {
            Key::Y if modifiers.matches_exact(Modifiers::COMMAND) => Some(Self::Redo),
            Key::Equals if modifiers.matches_exact(Modifiers::COMMAND) => Some(Self::ZoomIn),
            Key::Equals if modifiers.matches_exact(COMMAND_SHIFT) => Some(Self::TextLarger),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use egui::{Key, Modifiers};

    use super::*;

    #[test]
    fn each_key_asks_for_its_own_command() {
        for command in AppCommand::KEYED.into_iter().chain(Screen::ALL.map(AppCommand::Go)) {
            let shortcut = command.shortcut().unwrap();
            let asked = AppCommand::of_key(shortcut.modifiers, shortcut.logical_key);
            assert_eq!(asked, Some(command));
        }
    }

    #[test]
    fn shift_makes_another_key() {
        let both = Modifiers::COMMAND | Modifiers::SHIFT;
        assert_eq!(AppCommand::of_key(both, Key::Z), Some(AppCommand::Redo));
        assert_eq!(AppCommand::of_key(Modifiers::COMMAND, Key::Z), Some(AppCommand::Undo));
        assert_eq!(AppCommand::of_key(Modifiers::COMMAND, Key::Y), Some(AppCommand::Redo));
        assert_eq!(AppCommand::of_key(both, Key::S), Some(AppCommand::SaveAs));
        assert_eq!(AppCommand::of_key(both, Key::Equals), Some(AppCommand::TextLarger));
        assert_eq!(AppCommand::of_key(both, Key::Minus), Some(AppCommand::TextSmaller));
        let command = Modifiers::COMMAND;
        assert_eq!(AppCommand::of_key(command, Key::Equals), Some(AppCommand::ZoomIn));
        assert_eq!(AppCommand::of_key(both, Key::O), None);
        assert_eq!(AppCommand::of_key(Modifiers::COMMAND | Modifiers::ALT, Key::Z), None);
        assert_eq!(AppCommand::of_key(Modifiers::NONE, Key::Z), None);
    }
}
