//! The places of work in the order of the job, and the list of words that leads to them.

mod behind;
mod bench;
pub mod cutting;
mod editions;
pub mod mat;
mod printouts;
pub(crate) mod shared;

use egui::{Button, RichText, Ui, vec2};

use sightedge_core::finding::{Finding, Severity};

use crate::window::context::{Requests, ScreenContext};
use crate::window::gesture::{self, Gesture};
use crate::window::request::{Action, AppCommand, Screen};
use crate::window::session::PlanSession;
use crate::window::textures::Wanted;
use crate::window::theme;
use crate::window::widgets::regions::{self, Region};
use sightedge_service::settings::Settings;
use sightedge_service::storage::Storage;

/// What each place of work keeps of its own.
#[derive(Debug)]
pub struct Screens {
    behind: behind::Behind,
    printouts: printouts::Printouts,
    sheets: cutting::Sheets,
    bench: bench::BenchScreen,
    editions: editions::Editions,
}

impl Screens {
    /// As they are at the start. The folder where the record is kept is remembered in `storage`.
    pub fn new(storage: &Storage) -> Self {
        Self {
            behind: behind::Behind::default(),
            printouts: printouts::Printouts::default(),
            sheets: cutting::Sheets::default(),
            bench: bench::BenchScreen::default(),
            editions: editions::Editions::new(editions::RecordWorker::new(storage.clone())),
        }
    }

    /// What keys and drags do in that place.
    pub fn gestures(&self, room: Screen) -> &'static [Gesture] {
        match room {
            Screen::Mat => gesture::MAT,
            Screen::Behind => self.behind.gestures(),
            Screen::Printouts => gesture::PRINTOUTS,
            Screen::Cutting => gesture::CUTTING,
            Screen::Bench => gesture::BENCH,
            Screen::Editions => gesture::EDITIONS,
        }
    }

    /// Shows a place of work in what is left of the window. The mat is shown by the window
    /// itself.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        room: Screen,
        cx: ScreenContext<'_>,
        requests: &mut Requests,
    ) {
        let prints = cx.session().and_then(|session| self.editions.prints_of_plan(session));
        let heard = ScreenContext { prints, ..cx };
        // The mat and what lies behind it have regions of their own.
        let whole = !matches!(room, Screen::Mat | Screen::Behind);
        let asked = whole && regions::begin(ui, Region::Panel);
        match room {
            Screen::Mat => {}
            Screen::Behind => self.behind.show(ui, heard, requests),
            Screen::Printouts => self.printouts.show(ui, cx, requests),
            Screen::Cutting => self.sheets.show(ui, cx, requests),
            Screen::Bench => {
                let event = self.bench.show(ui, heard, requests);
                let to = match event {
                    None => None,
                    Some(bench::Event::Steps) => {
                        self.behind.edit_steps();
                        Some(Screen::Behind)
                    }
                    Some(bench::Event::Matted(whole)) => {
                        self.editions.note_matted(cx, &whole);
                        None
                    }
                    Some(bench::Event::Printouts(whole)) => {
                        self.editions.printouts_of(cx, *whole);
                        Some(Screen::Editions)
                    }
                };
                requests.actions.extend(to.map(|room| Action::Do(AppCommand::Go(room))));
            }
            Screen::Editions => self.editions.show(ui, cx, requests),
        }
        if asked {
            regions::finish(ui.ctx());
        }
    }

    /// Listens to the studio's record, whatever place is in front.
    pub fn poll_record(
        &mut self,
        context: &egui::Context,
        cx: ScreenContext<'_>,
        requests: &mut Requests,
    ) {
        self.editions.attend(context, cx, requests);
    }

    /// What the record says of the print that a plan has at the bench.
    pub fn at_bench(&self, session: &PlanSession, settings: &Settings) -> Option<Finding> {
        let prints = self.editions.prints_of_plan(session)?;
        prints.finding(session.document(), &settings.words.lettering())
    }

    /// Carries out what a place takes upon itself; whether it does.
    pub fn command(&mut self, room: Screen, command: &AppCommand) -> bool {
        match room {
            Screen::Behind => self.behind.command(command),
            Screen::Printouts => self.printouts.command(command),
            Screen::Editions => self.editions.command(command),
            _ => false,
        }
    }

    /// What undo and redo do in a place that has steps of its own; `None` where they are the
    /// plan's.
    pub fn steps(&self, room: Screen) -> Option<(Option<&str>, Option<&str>)> {
        match room {
            Screen::Behind => self.behind.steps(),
            Screen::Editions => Some((self.editions.step(), None)),
            _ => None,
        }
    }

    /// Whether something is typed of the record that is nowhere else yet.
    pub fn is_typed(&self) -> bool {
        self.editions.is_typed()
    }

    /// Discards it.
    pub fn give_up_typed(&mut self) {
        self.editions.give_up_typed();
    }

    /// Takes in the plans of a folder, to be cut together.
    pub fn gather(&mut self, context: &egui::Context, folder: std::path::PathBuf) {
        self.sheets.gather(context, folder);
    }

    /// What a place asks for of the picture of the plan in front. The mat asks for itself.
    pub fn wanted(
        &self,
        room: Screen,
        session: &PlanSession,
        pixels_per_point: f32,
    ) -> Option<Wanted> {
        match room {
            Screen::Behind => self.behind.wanted(session, pixels_per_point),
            _ => None,
        }
    }

    /// What is asked for in the places of work and not answered yet.
    pub fn pending(&self) -> usize {
        self.editions.pending() + self.printouts.pending() + self.sheets.pending()
    }

    /// Whether something waits in a place of work.
    pub fn waits(&self, room: Screen, cx: ScreenContext<'_>) -> bool {
        match room {
            Screen::Mat => cx.session().is_some_and(|session| {
                let findings = &session.derived().findings;
                findings.iter().any(|finding| finding.severity == Severity::Fault)
            }),
            Screen::Printouts => self.printouts.waits(),
            Screen::Cutting => self.sheets.waits(),
            Screen::Behind => behind::Behind::waits(cx),
            Screen::Bench | Screen::Editions => false,
        }
    }
}

/// The list of places down the left edge; gives the one that was pressed.
pub fn navigation(
    ui: &mut Ui,
    now: Screen,
    open: bool,
    waits: impl Fn(Screen) -> bool,
) -> Option<Screen> {
    let mut pressed = None;
    ui.spacing_mut().item_spacing.y = 2.0;
    for room in Screen::ALL {
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
