//! The hand behind the mat: a hinge taken hold of, dragged, nudged, typed.

use egui::{
    CursorIcon, FontId, Key, PointerButton, Pos2, Rect, Response, Role, Sense, Stroke,
    StrokeKind, Ui, WidgetInfo, pos2, vec2,
};
use sightedge_core::command::Command;
use sightedge_core::geometry::{Point, Rect as BoardRect, Seen};
use sightedge_core::hinges::{Hinge, HingePlan, places};
use sightedge_core::length::{Length, parse};
use sightedge_core::plates::AssemblyView;
use sightedge_core::spec::{HingeAt, Hinging};

use super::super::held;
use super::{Canvas, Scene};
use crate::window::canvas::{Typing, hold_keys, label_rect, type_on};
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
        let mut focused = None;
        for (index, hinge) in plan.hinges.iter().enumerate() {
            let rect = self.grip(hinge, scene).intersect(room);
            if !rect.is_positive() {
                continue;
            }
            let id = ui.scope_id().with(("hinge", index));
            let response = ui.interact(rect, id, Sense::click_and_drag());
            let what = if hinge.locates { "holds the place" } else { "lets the sheet move" };
            let place = wording::near(hinge.x, view.unit());
            let name = format!("Hinge {}, {what}: {place}", index + 1);
            response.widget_info(|| WidgetInfo::labeled(Role::Slider, true, &name));
            self.eye.follow_on_handle(&response);
            if response.clicked() || response.drag_started_by(PointerButton::Primary) {
                response.request_focus();
            }
            if response.has_focus() {
                focused = Some(index);
                hold_keys(ui, id);
            }
            if response.hovered() || response.dragged() {
                ui.set_cursor_icon(CursorIcon::ResizeHorizontal);
            }
            if self.drag.is_none() && (response.hovered() || response.has_focus()) {
                let accent = theme::palette(ui).accent;
                let wide = if response.has_focus() { 2.0 } else { 1.0 };
                let stroke = Stroke::new(wide, accent);
                ui.painter().rect_stroke(rect, 2.0, stroke, StrokeKind::Outside);
            }
            // What is typed shows there.
            if response.hovered() && self.drag.is_none() && self.typed.is_none() {
                let words =
                    format!("{name}. Drag it along the edge; Enter: it holds the place.");
                response.clone().on_hover_text_at_pointer(words);
            }
            if response.double_clicked() {
                requests.run(held::locating(view, plan, index));
            }
            self.moved(ui, &response, index, session, scene, requests);
        }
        if self.selected != focused {
            self.selected = focused;
            self.typed = None;
        }
    }

    fn moved(
        &mut self,
        ui: &Ui,
        response: &Response,
        index: usize,
        session: &PlanSession,
        scene: Scene<'_>,
        requests: &mut Requests,
    ) {
        let Scene { view, plan, lens, .. } = scene;
        let along = |at: Pos2| self.way.point(lens.board(at), scene.outer).x;
        if response.drag_started_by(PointerButton::Primary)
            && let Some(at) = ui.input(|input| input.pointer.press_origin())
            && let Some(hinge) = plan.hinges.get(index)
        {
            let middle = view.window.sheet.left() + hinge.x;
            let grip = along(at) - middle;
            let start = held::placed(plan);
            self.typed = None;
            self.drag = Some(Drag { start, index, grip, at, rest: None });
        }
        if response.dragged_by(PointerButton::Primary)
            && let Some(at) = response.interact_pointer_pos()
        {
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
        if response.drag_stopped() && self.drag.is_some() {
            self.drag = None;
            let escape = ui.input(|input| input.key_pressed(Key::Escape));
            requests.actions.push(if escape { Action::Cancel } else { Action::Commit });
        }
    }

    /// Arrows nudge, digits set, Enter makes it the one that holds the place, Esc gives back.
    pub(super) fn keys(&mut self, ui: &Ui, scene: Scene<'_>, requests: &mut Requests) {
        let pressed = |key| ui.input(|input| input.key_pressed(key));
        if self.drag.is_some() {
            if pressed(Key::Escape) {
                self.drag = None;
                ui.stop_dragging();
                requests.actions.push(Action::Cancel);
            }
            return;
        }
        let Scene { view, plan, .. } = scene;
        let Some(index) = self.selected else { return };
        let Some(hinge) = plan.hinges.get(index) else { return };
        match type_on(ui, &mut self.typed) {
            Typing::Nothing => {}
            Typing::On => return,
            Typing::Ends(typed) => {
                match parse(&typed, view.unit()) {
                    Ok(x) => {
                        self.typed = None;
                        requests.run(held::moved_to(view, plan, index, x));
                    }
                    Err(error) => requests.said = Some(error.to_string()),
                }
                return;
            }
        }
        if pressed(Key::Enter) && !hinge.locates {
            requests.run(held::locating(view, plan, index));
            return;
        }
        let step = step(view.document, ui.input(|input| input.modifiers.alt));
        let times = |key| i64::try_from(ui.input(|input| input.num_presses(key))).unwrap_or(0);
        let steps = times(Key::ArrowRight) - times(Key::ArrowLeft);
        // The way the arrow points, on the side that is seen.
        let steps = if self.way == AssemblyView::TurnedOver { -steps } else { steps };
        if steps == 0 {
            return;
        }
        let x = nudged(hinge.x, step, steps);
        requests.run(held::moved_to(view, plan, index, x));
    }

    /// The number that rides along with a hinge in hand, or that is typed for it.
    pub(super) fn tell(&self, ui: &Ui, scene: Scene<'_>) {
        let Scene { view, plan, lens, outer, room } = scene;
        let palette = theme::palette(ui);
        let (at, lines) = match (&self.drag, &self.typed, self.selected) {
            (Some(drag), ..) => {
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
            (None, Some(typed), Some(index)) => {
                let Some(hinge) = plan.hinges.get(index) else { return };
                let grip = self.grip(hinge, scene);
                let unit = view.unit().sign();
                let words = format!("{typed}| {unit} from the left, {}", Seen::Front.words());
                (pos2(grip.center().x, grip.bottom()), vec![words])
            }
            _ => return,
        };
        let font = FontId::proportional(theme::BODY);
        let words = lines.join("\n");
        let galley = ui.painter().layout_no_wrap(words, font, palette.text);
        let rect = label_rect(at, galley.size() + vec2(16.0, 10.0), room);
        let line = Stroke::new(1.0, palette.line);
        ui.painter().rect(rect, 4.0, palette.panel, line, StrokeKind::Inside);
        ui.painter().galley(rect.min + vec2(8.0, 5.0), galley, palette.text);
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
