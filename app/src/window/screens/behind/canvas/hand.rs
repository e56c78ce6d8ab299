//! The hand behind the mat: a hinge taken hold of, dragged, nudged, typed.

use egui::{CursorIcon, Key, Pos2, Rect, Stroke, StrokeKind, Ui, pos2};
use sightedge_core::command::Command;
use sightedge_core::geometry::{Point, Rect as BoardRect, Seen};
use sightedge_core::hinges::{Hinge, HingePlan, places};
use sightedge_core::length::{Length, parse};
use sightedge_core::plates::AssemblyView;
use sightedge_core::spec::{HingeAt, Hinging};

use super::super::held;
use super::{Canvas, Scene};
use crate::window::canvas::grips::{End, Grip, Keys, arrow, label};
use crate::window::context::{Requests, View};
use crate::window::handle::{nudged, step};
use crate::window::request::Action;
use crate::window::session::PlanSession;
use crate::window::theme;
use sightedge_service::wording;

/// How near, in points, a hinge comes to rest where it would be planned.
const MAGNET: f32 = 6.0;
/// A hinge in hand.
#[derive(Debug)]
pub(super) struct Drag {
    /// All of them as they were, and which one moves.
    start: Vec<HingeAt>,
    index: usize,
    /// From the hinge's middle to the pointer, on the board.
    grip: Length,
    at: Pos2,
    /// Where it came to rest by itself.
    rest: Option<Length>,
}

impl Canvas {
    /// The part of the screen that takes hold of a hinge.
    fn grip(&self, hinge: &Hinge, scene: Scene<'_>) -> Rect {
        let on_screen =
            |rect: BoardRect| scene.lens.screen_rect(self.way.seen(rect, scene.outer));
        let tab = on_screen(hinge.tab);
        hinge.cross.map_or(tab, |cross| tab.union(on_screen(cross))).expand(3.0)
    }

    pub(super) fn hinges(
        &mut self,
        ui: &mut Ui,
        session: &PlanSession,
        scene: Scene<'_>,
        requests: &mut Requests,
    ) {
        let Scene { view, plan, room, .. } = scene;
        for (index, hinge) in plan.hinges.iter().enumerate() {
            let rect = self.grip(hinge, scene).intersect(room);
            if !rect.is_positive() {
                continue;
            }
            let id = ui.scope_id().with(("hinge", index));
            let what = if hinge.locates { "holds the place" } else { "lets the sheet move" };
            let place = wording::near(hinge.x, view.unit());
            let name = format!("Hinge {}, {what}: {place}", index + 1);
            let found = self.grips.show(ui, &mut self.camera, (index, id), rect, &name);
            let response = &found.response;
            if response.hovered() || response.dragged() {
                ui.set_cursor_icon(CursorIcon::ResizeHorizontal);
            }
            if found.approached {
                let accent = theme::palette(ui).accent;
                let wide = if response.has_focus() { 2.0 } else { 1.0 };
                let stroke = Stroke::new(wide, accent);
                ui.painter().rect_stroke(rect, 2.0, stroke, StrokeKind::Outside);
            }
            // What is typed shows there.
            if response.hovered() && self.drag.is_none() && self.grips.typed().is_none() {
                let words =
                    format!("{name}. Drag it along the edge; Enter: it holds the place.");
                response.clone().on_hover_text_at_pointer(words);
            }
            if response.double_clicked() {
                requests.run(held::locating(view, plan, index));
            }
            self.moved(ui, &found, index, session, scene, requests);
        }
        self.grips.shown();
    }

    fn moved(
        &mut self,
        ui: &Ui,
        found: &Grip,
        index: usize,
        session: &PlanSession,
        scene: Scene<'_>,
        requests: &mut Requests,
    ) {
        let Scene { view, plan, lens, .. } = scene;
        let along = |at: Pos2| self.way.point(lens.board(at), scene.outer).x;
        if let (Some(at), Some(hinge)) = (found.taken, plan.hinges.get(index)) {
            let middle = view.window.sheet.left() + hinge.x;
            let grip = along(at) - middle;
            let start = held::placed(plan);
            self.drag = Some(Drag { start, index, grip, at, rest: None });
        }
        if let Some(at) = found.moved_to {
            let wanted = along(at);
            let freed = ui.input(|input| input.modifiers.alt);
            let tolerance = lens.length(MAGNET);
            if let Some(drag) = &mut self.drag {
                drag.at = at;
                let raw = wanted - drag.grip - view.window.sheet.left();
                let edge = view.work.sheet.width;
                let raw = raw.max(Length::ZERO).min(edge);
                let near = places(edge, drag.start.len(), view.unit())
                    .into_iter()
                    .filter(|place| !freed && (*place - raw).abs() <= tolerance)
                    .min_by_key(|place| (*place - raw).abs());
                drag.rest = near;
                let x = near.unwrap_or_else(|| raw.round_to(step(view.document, freed)));
                let mut list = drag.start.clone();
                if let Some(one) = list.get_mut(drag.index) {
                    one.x = x;
                }
                // On the plan as it is kept, so that a drag is one step.
                if let Some(kept) = session.kept().chosen() {
                    let hinging = Hinging { at: list, ..kept.mat.assembly.hinging.clone() };
                    let command = Command::SetHinging(view.variant, hinging);
                    requests.actions.push(Action::Draft(command));
                }
            }
        }
        if let Some(end) = found.end {
            self.drag = None;
            requests.actions.push(match end {
                End::Kept => Action::Commit,
                End::Cancelled => Action::Cancel,
            });
        }
    }

    /// Arrows nudge, digits set, Enter makes it the one that holds the place, Esc cancels.
    pub(super) fn keys(&mut self, ui: &Ui, scene: Scene<'_>, requests: &mut Requests) {
        let Scene { view, plan, .. } = scene;
        match self.grips.keys(ui) {
            Keys::None => {}
            Keys::Cancelled => {
                self.drag = None;
                requests.actions.push(Action::Cancel);
            }
            Keys::Typed(index, typed) => match parse(&typed, view.unit()) {
                Ok(x) => {
                    self.grips.typed_is_set();
                    requests.run(held::moved_to(view, plan, index, x));
                }
                Err(error) => requests.said = Some(error.to_string()),
            },
            Keys::Free(index) => {
                let Some(hinge) = plan.hinges.get(index) else { return };
                if ui.input(|input| input.key_pressed(Key::Enter)) && !hinge.locates {
                    requests.run(held::locating(view, plan, index));
                } else if let Some(arrow) = arrow(ui).filter(|arrow| arrow.across) {
                    // The way the arrow points, on the side that is seen.
                    let more = arrow.forwards != (self.way == AssemblyView::TurnedOver);
                    let steps = if more { arrow.times } else { -arrow.times };
                    let x = nudged(hinge.x, step(view.document, arrow.held.alt), steps);
                    requests.run(held::moved_to(view, plan, index, x));
                }
            }
        }
    }

    /// The number that rides along with a hinge in hand, or that is typed for it.
    pub(super) fn tell(&self, ui: &Ui, scene: Scene<'_>) {
        let Scene { view, plan, lens, outer, room } = scene;
        let palette = theme::palette(ui);
        let (at, lines) = match (&self.drag, self.grips.typed()) {
            (Some(drag), _) => {
                if let Some(rest) = drag.rest {
                    let x = view.window.sheet.left() + rest;
                    let on = |y| self.way.point(Point::new(x, y), outer);
                    let sheet = view.window.sheet;
                    let up = Length::mm(12);
                    let (from, to) =
                        (lens.screen(on(sheet.top() - up)), lens.screen(on(sheet.top() + up)));
                    let stroke = Stroke::new(1.5, palette.accent);
                    ui.painter().line_segment([from, to], stroke);
                }
                (drag.at, told(view, plan, drag, self.seen()))
            }
            (None, Some((index, typed))) => {
                let Some(hinge) = plan.hinges.get(index) else { return };
                let grip = self.grip(hinge, scene);
                let unit = view.unit().sign();
                let words = format!("{typed}| {unit} from the left, {}", Seen::Front.words());
                (pos2(grip.center().x, grip.bottom()), vec![words])
            }
            (None, None) => return,
        };
        label(ui, &ui.painter_at(room), at, &lines.join("\n"));
    }
}

/// What stands beside a hinge in hand.
fn told(view: &View<'_>, plan: &HingePlan, drag: &Drag, seen: Seen) -> Vec<String> {
    let unit = view.unit();
    let moved: Option<Length> = view
        .mat
        .assembly
        .hinging
        .at
        .get(drag.index)
        .or(drag.start.get(drag.index))
        .map(|one| one.x);
    let Some(x) = moved else { return Vec::new() };
    let other = view.work.sheet.width - x;
    let [left, right] = if seen == Seen::Back { [other, x] } else { [x, other] };
    let mut lines = vec![
        format!("{} from the left", wording::near(left, unit)),
        format!("{} from the right, {}", wording::near(right, unit), seen.words()),
    ];
    let movement = view.derived.assembly.sheets.first().map(|sheet| &sheet.movement);
    let at = plan.hinges.iter().position(|hinge| hinge.x == x && !hinge.locates);
    if let (Some(movement), Some(at)) = (movement, at) {
        let travel = |state: &sightedge_core::movement::State| {
            state.travel.get(at).map_or(Length::ZERO, |travel| travel.abs())
        };
        let most = travel(&movement.bound.dry).max(travel(&movement.bound.damp));
        let slack = plan.hinges.get(at).map(|hinge| hinge.slack).unwrap_or_default();
        lines.push(format!("travels {} of {} slack", most.fine(unit), slack.fine(unit)));
    }
    lines
}
