//! The places of work in the order of the job, and the list of words that leads to them.

mod behind;
mod bench;
mod editions;
mod papers;
mod print;
pub mod sheets;

use egui::{Button, Key, KeyboardShortcut, Modifiers, RichText, Ui, vec2};

use sightedge_core::finding::{Finding, Severity};
use sightedge_core::material::{Own, Tables};

use crate::action::{Action, Deed};
use crate::canvas::Shown;
use crate::desk::Desk;
use crate::jobs::{Decoder, DeskId};
use crate::panels::Asks;
use crate::state::{Keep, Settings};
use crate::studio::prints::Prints;
use crate::textures::Wanted;
use crate::theme;

/// A place of work.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Room {
    /// The mat round the picture.
    #[default]
    Mat,
    /// What lies behind it.
    Behind,
    /// What is printed for the bench.
    Papers,
    /// The boards of a show out of the fewest sheets.
    Sheets,
    /// The steps, one at a time.
    Bench,
    /// What is numbered, where it is, what is sold.
    Editions,
}

impl Room {
    /// In the order of the job.
    pub const ALL: [Self; 6] =
        [Self::Mat, Self::Behind, Self::Papers, Self::Sheets, Self::Bench, Self::Editions];

    /// In the list.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Mat => "The mat",
            Self::Behind => "Behind it",
            Self::Papers => "Papers",
            Self::Sheets => "Cutting",
            Self::Bench => "Bench",
            Self::Editions => "Editions",
        }
    }

    /// What is done there.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Mat => "The window, the borders and the liners round the picture",
            Self::Behind => "Hinges, paper and air, the frame and the wall",
            Self::Papers => "Plan sheet, cutter’s card, templates and drawings for the bench",
            Self::Sheets => "All boards of a show out of the fewest sheets",
            Self::Bench => "The steps, one at a time, to be ticked",
            Self::Editions => "Works, their numbers, shows and what is sold",
        }
    }

    /// What the hand does there, for the line at the foot.
    const fn hand(self) -> &'static str {
        match self {
            Self::Mat => {
                "Drag an edge of the mat: all four sides change by the same amount. Shift moves \
                 this side alone, Ctrl opposite sides, Alt leaves the ruler; arrows nudge, \
                 digits set."
            }
            Self::Behind => behind::HINGES,
            Self::Papers => "Choose what to write and where; the pages are as they will print.",
            Self::Sheets => {
                "Choose plans and sheets, find the fewest, tick each sheet as it is cut."
            }
            Self::Bench => "Space ticks the step, arrows turn to the next or the one before.",
            Self::Editions => {
                "No two prints hold one number; what was wrong is corrected by a new entry."
            }
        }
    }

    /// Whether there is nothing to do there without an open plan.
    pub const fn needs_plan(self) -> bool {
        match self {
            Self::Mat | Self::Behind | Self::Papers | Self::Bench => true,
            Self::Sheets | Self::Editions => false,
        }
    }

    /// Its key: its place in the list.
    pub fn shortcut(self) -> Option<KeyboardShortcut> {
        const KEYS: [Key; 6] =
            [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6];
        let place = Self::ALL.iter().position(|room| *room == self)?;
        KEYS.get(place).map(|key| KeyboardShortcut::new(Modifiers::COMMAND, *key))
    }
}

/// What a place of work may see besides what it keeps itself.
#[derive(Clone, Copy, Debug)]
pub struct Hall<'a> {
    /// The open plans.
    pub desks: &'a [(DeskId, &'a Desk)],
    /// The one in front.
    pub front: Option<usize>,
    /// What is there of its picture.
    pub pictures: &'a [Shown],
    /// The window's settings.
    pub settings: &'a Settings,
    /// Where the window keeps what it remembers.
    pub keep: &'a Keep,
    /// The person's own materials.
    pub own: &'a Own,
    /// These, laid over the program's.
    pub tables: &'a Tables,
    /// Where pictures are decoded.
    pub decoder: &'a Decoder,
    /// The prints of the plan in front by the record, as far as it was heard.
    pub prints: Option<&'a Prints>,
}

impl<'a> Hall<'a> {
    /// The plan in front.
    pub fn desk(&self) -> Option<&'a Desk> {
        self.desks.get(self.front?).map(|(_, desk)| *desk)
    }
}

/// What each place of work keeps of its own.
#[derive(Debug, Default)]
pub struct Rooms {
    behind: behind::Behind,
    papers: papers::Papers,
    sheets: sheets::Sheets,
    bench: bench::Bench,
    editions: editions::Editions,
}

impl Rooms {
    /// What the hand does in that place, for the line at the foot.
    pub fn hand(&self, room: Room) -> &'static str {
        if room == Room::Behind { self.behind.hand() } else { room.hand() }
    }

    /// Shows a place of work in what is left of the window. The mat is shown by the window
    /// itself.
    pub fn show(&mut self, ui: &mut Ui, room: Room, hall: Hall<'_>, asks: &mut Asks) {
        let prints = hall.desk().and_then(|desk| self.editions.prints_of_plan(desk));
        let heard = Hall { prints, ..hall };
        match room {
            Room::Mat => {}
            Room::Behind => self.behind.show(ui, heard, asks),
            Room::Papers => self.papers.show(ui, hall, asks),
            Room::Sheets => self.sheets.show(ui, hall, asks),
            Room::Bench => {
                let wish = self.bench.show(ui, heard, asks);
                let to = match wish {
                    None => None,
                    Some(bench::Wish::Steps) => {
                        self.behind.edit_steps();
                        Some(Room::Behind)
                    }
                    Some(bench::Wish::Matted(whole)) => {
                        self.editions.note_matted(hall, &whole);
                        None
                    }
                    Some(bench::Wish::Papers(whole)) => {
                        self.editions.papers_of(hall, *whole);
                        Some(Room::Editions)
                    }
                };
                asks.actions.extend(to.map(|room| Action::Do(Deed::Go(room))));
            }
            Room::Editions => self.editions.show(ui, hall, asks),
        }
    }

    /// Listens to the studio's record, whatever place is in front.
    pub fn attend(&mut self, context: &egui::Context, hall: Hall<'_>, asks: &mut Asks) {
        self.editions.attend(context, hall, asks);
    }

    /// What the record says of the print that a plan has at the bench.
    pub fn at_bench(&self, desk: &Desk, settings: &Settings) -> Option<Finding> {
        let prints = self.editions.prints_of_plan(desk)?;
        prints.finding(desk.document(), &settings.words.wish())
    }

    /// Carries out what a place takes upon itself; whether it does.
    pub fn deed(&mut self, room: Room, deed: &Deed) -> bool {
        match room {
            Room::Behind => self.behind.deed(deed),
            Room::Papers => self.papers.deed(deed),
            Room::Editions => self.editions.deed(deed),
            _ => false,
        }
    }

    /// What undo and redo do in a place that has steps of its own; `None` where they are the
    /// plan's.
    pub fn steps(&self, room: Room) -> Option<(Option<&str>, Option<&str>)> {
        match room {
            Room::Behind => self.behind.steps(),
            Room::Editions => Some((self.editions.step(), None)),
            _ => None,
        }
    }

    /// Whether something is typed of the record that is nowhere else yet.
    pub fn is_typed(&self) -> bool {
        self.editions.is_typed()
    }

    /// Gives that up.
    pub fn give_up_typed(&mut self) {
        self.editions.give_up_typed();
    }

    /// Takes in the plans of a folder, to be cut together.
    pub fn gather(&mut self, context: &egui::Context, folder: std::path::PathBuf) {
        self.sheets.gather(context, folder);
    }

    /// What a place wants of the picture of the plan in front. The mat asks for itself.
    pub fn wanted(&self, room: Room, desk: &Desk, pixels_per_point: f32) -> Option<Wanted> {
        match room {
            Room::Behind => self.behind.wanted(desk, pixels_per_point),
            _ => None,
        }
    }

    /// What is asked for in the places of work and not answered yet.
    pub fn pending(&self) -> usize {
        self.editions.pending() + self.papers.pending() + self.sheets.pending()
    }

    /// Whether something waits in a place of work.
    pub fn waits(&self, room: Room, hall: Hall<'_>) -> bool {
        match room {
            Room::Mat => hall.desk().is_some_and(|desk| {
                let findings = &desk.derived().findings;
                findings.iter().any(|finding| finding.severity == Severity::Stop)
            }),
            Room::Papers => self.papers.waits(),
            Room::Sheets => self.sheets.waits(),
            Room::Behind => behind::Behind::waits(hall),
            Room::Bench | Room::Editions => false,
        }
    }
}

/// The list of places down the left edge; gives the one that was pressed.
pub fn rail(ui: &mut Ui, now: Room, open: bool, waits: impl Fn(Room) -> bool) -> Option<Room> {
    let mut pressed = None;
    ui.spacing_mut().item_spacing.y = 2.0;
    for room in Room::ALL {
        let on = room == now;
        let mut text = RichText::new(room.label());
        if on {
            text = text.family(theme::strong());
        }
        let button = Button::new(text)
            .frame_when_inactive(false)
            .selected(on)
            .min_size(vec2(ui.available_width(), 32.0));
        let mut hint = room.hint().to_owned();
        if let Some(shortcut) = room.shortcut() {
            hint = format!("{hint} ({})", ui.ctx().format_shortcut(&shortcut));
        }
        let waiting = waits(room);
        let response = ui.add_enabled(open || !room.needs_plan(), button).on_hover_text(hint);
        if waiting {
            hint_mark(ui, response.rect);
        }
        if response.clicked() {
            pressed = Some(room);
        }
    }
    pressed
}

/// The quiet mark of something that waits.
fn hint_mark(ui: &Ui, rect: egui::Rect) {
    let at = rect.right_center() - vec2(8.0, 0.0);
    ui.painter().circle_filled(at, 3.0, theme::palette(ui).accent);
}
