//! Behind the mat: how the sheet is held and moves, what the mat goes into, how it hangs.

mod canvas;
mod figures;
mod frame;
mod held;
mod materials;
mod paper;
mod parts;
mod section;
mod written;

use egui::{Frame, Margin, Panel, RichText, ScrollArea, Ui, UiBuilder};
use sightedge_core::finding::Severity;
use sightedge_core::material::Kind;

use crate::window::context::{Requests, ScreenContext, View};
use crate::window::gesture::{self, Gesture};
use crate::window::request::{AppCommand, Screen};
use crate::window::screens::shared::checks;
use crate::window::screens::shared::side::{self, Fold};
use crate::window::session::PlanSession;
use crate::window::textures::Wanted;
use crate::window::theme;
use crate::window::widgets::regions::{Region, region};
use crate::window::widgets::{Hint, SidePanel, choice, hinted, label_column, measured};
use canvas::Canvas;
use materials::Materials;

/// What is worked on.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
enum Part {
    #[default]
    Sheet,
    Inscription,
    Frame,
    Materials,
}

/// What the place keeps of its own.
#[derive(Debug, Default)]
pub(super) struct Behind {
    part: Part,
    canvas: Canvas,
    materials: Materials,
}

/// As wide as the choice of what is worked on is in a panel that was not made wider.
const PARTS: f32 = 316.0;

impl Behind {
    /// The choice of what is worked on.
    fn choose(&mut self, ui: &mut Ui, width: f32) {
        let parts = [
            (Part::Sheet, "Sheet"),
            (Part::Inscription, "Inscription"),
            (Part::Frame, "Frame"),
            (Part::Materials, "Materials"),
        ];
        let hint = Hint::new(
            "The sheet and its hinges, what is written, the frame and the wall, or the tables of \
             materials",
        );
        let picked =
            hinted(ui, &hint, |ui| choice(ui, "Work on", Some(self.part), &parts, width));
        if let Some(part) = picked {
            self.part = part;
        }
    }

    /// Carries out what the place takes upon itself; whether it does.
    pub(super) fn command(&mut self, command: &AppCommand) -> bool {
        self.part == Part::Materials && self.materials.command(command)
    }

    /// What undo and redo do where they are not the plan's.
    pub(super) fn steps(&self) -> Option<(Option<&str>, Option<&str>)> {
        (self.part == Part::Materials).then(|| self.materials.steps())
    }

    /// Shows the place.
    pub(super) fn show(&mut self, ui: &mut Ui, cx: ScreenContext<'_>, requests: &mut Requests) {
        let Some(session) = cx.session() else { return };
        let Some(view) = View::of(session, None) else { return };
        let palette = theme::palette(ui);
        if self.part == Part::Materials {
            // The tables take all of the width.
            let frame = Frame::new().fill(palette.panel).inner_margin(Margin::symmetric(12, 8));
            Panel::top("materials kinds").frame(frame).show(ui, |ui| {
                self.choose(ui, PARTS);
                ui.add_space(4.0);
                self.materials.kinds(ui);
            });
            self.materials.show(ui, cx, requests);
            return;
        }
        let margin = Margin { left: 12, right: 4, top: 8, bottom: 4 };
        SidePanel::left("behind decisions", "Behind it").show(ui, margin, |ui| {
            self.choose(ui, ui.available_width() - 12.0);
            measured(ui, "what is measured behind");
            // An id of its own: what is measured comes and goes above it.
            let own = UiBuilder::new().scope_id(egui::Id::unique("decisions behind"));
            ui.scope_builder(own, |ui| {
                ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
                    // Room for the bar, which lies over what it scrolls.
                    ui.set_width(ui.available_width() - 12.0);
                    ui.spacing_mut().item_spacing.y = 2.0;
                    label_column(ui, 100.0);
                    match self.part {
                        Part::Sheet => {
                            paper::show(ui, &view, requests);
                            held::show(ui, &view, requests);
                        }
                        Part::Inscription => written::show(ui, &view, cx, requests),
                        Part::Frame | Part::Materials => frame::show(ui, &view, requests),
                    }
                });
            });
        });
        let side = SidePanel::right("behind judged", "Checks").mark(checks::gravest(&view));
        side.show(ui, Margin::symmetric(12, 8), |ui| {
            let screen = Screen::Behind;
            let fold = Fold { screen, folded: cx.settings.is_folded(screen.label()) };
            side::judged(ui, &view, fold, requests, |ui| match self.part {
                Part::Sheet => {
                    let now = self.canvas.air(&view).now;
                    figures::sheet(ui, &view, now, self.canvas.seen());
                }
                Part::Inscription => written::words(ui, &view),
                Part::Frame | Part::Materials => figures::package(ui, &view),
            });
        });
        region(ui, Region::Board, |ui| match self.part {
            Part::Sheet | Part::Inscription => {
                self.canvas.show(ui, session, &view, cx, requests);
            }
            Part::Frame | Part::Materials => section::show(ui, &view),
        });
    }

    /// What keys and drags do there.
    pub(super) const fn gestures(&self) -> &'static [Gesture] {
        match self.part {
            Part::Sheet => gesture::HINGES,
            Part::Inscription => gesture::INSCRIPTION,
            Part::Frame => gesture::FRAME,
            Part::Materials => gesture::MATERIALS,
        }
    }

    /// What is wanted of the picture of the plan in front.
    pub(super) fn wanted(
        &self,
        session: &PlanSession,
        pixels_per_point: f32,
    ) -> Option<Wanted> {
        if !matches!(self.part, Part::Sheet | Part::Inscription) {
            return None;
        }
        let view = View::of(session, None)?;
        self.canvas.wanted(view.window.image, pixels_per_point)
    }

    /// Shows the steps at the bench as they are written.
    pub(super) fn edit_steps(&mut self) {
        self.part = Part::Materials;
        self.materials.turn_to(Kind::Steps);
    }

    /// Whether something waits here: a Fault of what lies behind the mat.
    pub(super) fn waits(cx: ScreenContext<'_>) -> bool {
        cx.session().is_some_and(|session| {
            session
                .derived()
                .findings
                .iter()
                .any(|finding| finding.severity == Severity::Fault && is_behind(finding.rule))
        })
    }
}

/// Whether a rule judges what lies behind the mat.
fn is_behind(rule: &str) -> bool {
    [
        "hinge-",
        "movement-",
        "frame-",
        "hanging-",
        "package-",
        "glazing-",
        "mat-corners",
        "bag-",
        "inscription-",
    ]
    .iter()
    .any(|start| rule.starts_with(start))
}

/// A title over a part of the figures.
fn title(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(text).family(theme::strong()).size(theme::BODY));
}
