//! What screens and canvas ask for. Nothing changes while a frame is drawn: the asks are
//! carried out after it.

mod screen;

use std::path::PathBuf;

use sightedge_core::command::Command;
use sightedge_core::finding::Place;
use sightedge_core::material::OwnTables;
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
    /// Keeps what is under the hand, as one undo step.
    Commit,
    /// Gives back what was before the hand moved.
    Cancel,
    /// Shows a place on the board while the pointer rests on its finding.
    Point(Place),
    /// Ticks a step at the bench, or takes its tick back.
    Tick(Box<Step>),
    /// The person's own materials are these from now on.
    Materials(Box<OwnTables>),
    /// The person's usual words for inscriptions are these from now on.
    Words(Box<Words>),
    /// The head of printouts that leave the house.
    House(Box<House>),
    /// Something is kept between sessions.
    Keep(Keep),
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
    /// Takes the last step back.
    Undo,
    /// Does it again.
    Redo,
    /// Shows all of the board.
    Fit,
    /// Nearer.
    ZoomIn,
    /// Farther.
    ZoomOut,
    /// Dimension lines on or off.
    Dimensions,
    /// The outline of what is hidden on or off.
    Hidden,
    /// The magnified corner on or off.
    Corner,
    /// Light or dark.
    Theme,
    /// The plan to the right of the one in front.
    NextPlan,
    /// The plan to the left of it.
    PlanBefore,
    /// Goes to a place of work.
    Go(Screen),
}

impl AppCommand {
    /// Those that have a key.
    pub const KEYED: [Self; 16] = [
        Self::Open,
        Self::Save,
        Self::SaveAs,
        Self::Revert,
        Self::Close,
        Self::Undo,
        Self::Redo,
        Self::Fit,
        Self::ZoomIn,
        Self::ZoomOut,
        Self::Dimensions,
        Self::Hidden,
        Self::Corner,
        Self::Theme,
        Self::NextPlan,
        Self::PlanBefore,
    ];

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
            Self::ZoomIn => "Zoom in",
            Self::ZoomOut => "Zoom out",
            Self::Dimensions => "Dimensions",
            Self::Hidden => "Hidden edges",
            Self::Corner => "Section",
            Self::Theme => "Light or dark",
            Self::NextPlan => "Next plan",
            Self::PlanBefore => "Plan before",
            Self::Go(room) => room.label(),
        }
    }

    /// What it does, for the one who hesitates.
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Open | Self::OpenPath(_) => "Open a picture, or a plan",
            Self::OpenDemo => "Open a print of an invented studio",
            Self::Save => "Save the plan beside its picture",
            Self::SaveAs => "Save the plan under another name",
            Self::Revert => {
                "Go back to the plan as it was saved; undo brings your changes back"
            }
            Self::FindPicture => "Show where the picture lies now",
            Self::Close => "Close this plan",
            Self::Undo => "Take the last step back",
            Self::Redo => "Do it again",
            Self::Fit => "Show all of the board",
            Self::ZoomIn => "Nearer",
            Self::ZoomOut => "Farther",
            Self::Dimensions => "Dimension lines round the board",
            Self::Hidden => "Outline of what the mat hides: sheet, image, overlap",
            Self::Corner => {
                "A section through the window's left edge: how board, bevel, undermat and sheet meet"
            }
            Self::Theme => "A light or a dark window; the surround is set apart from it",
            Self::NextPlan => "Bring the next plan to the front",
            Self::PlanBefore => "Bring the plan before to the front",
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
            Self::ZoomIn => (Modifiers::COMMAND, Key::Plus),
            Self::ZoomOut => (Modifiers::COMMAND, Key::Minus),
            Self::Dimensions => (Modifiers::COMMAND, Key::D),
            Self::Hidden => (Modifiers::COMMAND, Key::H),
            Self::Corner => (Modifiers::COMMAND, Key::K),
            Self::Theme => (Modifiers::COMMAND, Key::T),
            Self::NextPlan => (Modifiers::CTRL, Key::Tab),
            Self::PlanBefore => (Modifiers::CTRL.plus(Modifiers::SHIFT), Key::Tab),
            Self::Go(room) => return room.shortcut(),
            Self::OpenPath(_) | Self::OpenDemo | Self::FindPicture => return None,
        };
        Some(KeyboardShortcut::new(modifiers, key))
    }

    /// What a pressed key asks for. All modifiers count: with Shift, a key is another one.
    pub fn of_key(modifiers: egui::Modifiers, key: egui::Key) -> Option<Self> {
        use egui::{Key, Modifiers};
        let screens = Screen::ALL.into_iter().map(Self::Go);
        if let Some(command) = Self::KEYED.into_iter().chain(screens).find(|command| {
            command.shortcut().is_some_and(|shortcut| {
                shortcut.logical_key == key && modifiers.matches_exact(shortcut.modifiers)
            })
        }) {
            return Some(command);
        }
        // Other hands know other keys; where plus shares its key, Shift may come with it.
        let plain = Modifiers { shift: false, ..modifiers };
        match key {
            Key::Y if modifiers.matches_exact(Modifiers::COMMAND) => Some(Self::Redo),
            Key::Plus | Key::Equals if plain.matches_exact(Modifiers::COMMAND) => {
                Some(Self::ZoomIn)
            }
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
        assert_eq!(AppCommand::of_key(both, Key::Equals), Some(AppCommand::ZoomIn));
        assert_eq!(AppCommand::of_key(both, Key::O), None);
        assert_eq!(AppCommand::of_key(Modifiers::COMMAND | Modifiers::ALT, Key::Z), None);
        assert_eq!(AppCommand::of_key(Modifiers::NONE, Key::Z), None);
    }
}
