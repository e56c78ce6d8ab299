//! The mat round the picture: the maker's decisions, the board, what the checks say.

mod board;
mod colours;
mod compare;
mod figures;
mod layers;
mod mats;
mod picker;
mod print;
mod swatches;
mod units;
mod window;

use egui::{CentralPanel, Frame, Id, Margin, Panel, ScrollArea, Ui, UiBuilder};
use sightedge_core::finding::Finding;

pub use mats::Mats;

use crate::window::canvas::{Canvas, Shows, trouble};
use crate::window::context::{Requests, View};
use crate::window::request::{Action, AppCommand, Screen};
use crate::window::screens::shared::checks;
use crate::window::screens::shared::side::{self, Fold};
use crate::window::session::{PlanSession, SessionId};
use crate::window::textures::{About, Shown};
use crate::window::theme;
use crate::window::widgets::regions::{Region, region};
use crate::window::widgets::{SidePanel, label_column, measured};

/// What is shown of a plan in a frame.
#[derive(Clone, Copy, Debug)]
pub struct Scene<'a> {
    /// Keeps what is typed and scrolled apart from that of other plans.
    pub id: SessionId,
    /// The plan.
    pub session: &'a PlanSession,
    /// What is known of its picture.
    pub about: Option<&'a About>,
    /// What the record says of the print at the bench.
    pub at_bench: Option<&'a Finding>,
    /// What is there of the picture, the coarser first.
    pub pictures: &'a [Shown],
    /// Why there is no picture.
    pub error: Option<&'a str>,
    /// What is drawn over the board.
    pub shows: Shows,
    /// Whether the figures are folded.
    pub folded: bool,
}

/// A window so wide shows colours and checks beside each other.
const COLOURS_BESIDE: f32 = 1700.0;

/// Shows the decisions at the left, the checks at the right and the board between them.
pub fn show(
    ui: &mut Ui,
    (canvas, mats): (&mut Canvas, &mut Mats),
    scene: Scene<'_>,
    requests: &mut Requests,
) {
    if mats.is_comparing(scene.session) {
        compare::show(ui, mats, &scene, requests);
        return;
    }
    let Scene { id, session, about, at_bench, pictures, error, shows, folded } = scene;
    let window = ui.ctx().content_rect().width();
    if let Some(view) = View::of(session, about) {
        let view = View { at_bench, ..view };
        let margin = Margin { left: 12, right: 4, top: 4, bottom: 4 };
        SidePanel::left("decisions", "The mat").show(ui, margin, |ui| {
            measured(ui, "what is measured");
            // An id of its own: what is measured comes and goes above it.
            let own = UiBuilder::new().scope_id(Id::unique(("decisions", id)));
            ui.scope_builder(own, |ui| {
                ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
                    // Room for the bar, which lies over what it scrolls.
                    ui.set_width(ui.available_width() - 12.0);
                    label_column(ui, 84.0);
                    decisions(ui, &view, requests);
                });
            });
        });
        let open = colours::opened(ui, &view);
        let beside = window >= COLOURS_BESIDE;
        if let Some(index) = open {
            let panel = Frame::new().fill(theme::palette(ui).panel);
            let panel = panel.inner_margin(Margin::symmetric(12, 8));
            let place = Panel::right("colours").frame(panel).resizable(true);
            place.default_size(268.0).size_range(240.0..=420.0).show(ui, |ui| {
                ui.push_id(id, |ui| colours::show(ui, &view, index, requests));
            });
        }
        if open.is_none() || beside {
            let side = SidePanel::right("judged", "Checks").mark(checks::gravest(&view));
            side.show(ui, Margin::symmetric(12, 8), |ui| {
                let fold = Fold { screen: Screen::Mat, folded };
                side::judged(ui, &view, fold, requests, |ui| figures::figures(ui, &view));
            });
        }
    }
    mats::strip(ui, mats, &scene, requests);
    CentralPanel::default().frame(Frame::new()).show(ui, |ui| {
        ui.push_id(id, |ui| {
            let asked =
                region(ui, Region::Board, |ui| canvas.show(ui, session, shows, pictures));
            requests.actions.extend(asked);
            if error.is_some_and(|error| trouble(ui, error)) {
                requests.actions.push(Action::Do(AppCommand::FindPicture));
            }
        });
    });
}

/// The maker's decisions, in the order of the job.
fn decisions(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    print::show(ui, view, requests);
    window::show(ui, view, requests);
    board::show(ui, view, requests);
    layers::show(ui, view, requests);
    units::show(ui, view, requests);
}
