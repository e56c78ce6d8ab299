//! The board turned over or its mat lifted; the hinges are taken hold of here.

use egui::{
    CentralPanel, Color32, CursorIcon, EventFilter, FontId, Frame, Key, Panel, PointerButton,
    Pos2, Rect, Response, Role, Sense, Slider, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};
use sightedge_core::command::Command;
use sightedge_core::drawing::Drawing;
use sightedge_core::geometry::{Point, Rect as BoardRect, Size};
use sightedge_core::hinges::{Hinge, HingePlan, places};
use sightedge_core::length::{Length, Unit, parse};
use sightedge_core::material::Humidity;
use sightedge_core::plates::{self, Air, Look, Subject, Way};
use sightedge_core::spec::{HingeAt, Hinging};

use super::held;
use crate::action::Action;
use crate::canvas::overlay::inks;
use crate::canvas::paint::{Inks, paint};
use crate::canvas::{self, Eye, Lens, label_rect, starts_length, typed_text};
use crate::desk::Desk;
use crate::handle::step;
use crate::panels::Asks;
use crate::rooms::Hall;
use crate::textures::Wanted;
use crate::view::View;
use crate::widgets::{choice, quiet};
use crate::{theme, wording};

/// Text of figures on the board, in points.
const FIGURE: f32 = 12.0;
/// How near, in points, a hinge comes to rest where it would be planned.
const MAGNET: f32 = 6.0;
/// How much larger than true movement is drawn, unless it is drawn true.
const LARGER: u8 = 10;

/// How it is looked at, and what is in hand.
#[derive(Debug, Default)]
pub(super) struct Canvas {
    way: Way,
    /// Whether movement is drawn no larger than it is.
    no_larger: bool,
    /// The humidity that is shown; `None`: that at which it was hinged.
    now: Option<Humidity>,
    eye: Eye,
    /// The part of the window it takes up.
    room: Option<Rect>,
    drag: Option<Drag>,
    selected: Option<usize>,
    typed: Option<String>,
}

/// A hinge in hand.
#[derive(Debug)]
struct Drag {
    /// All of them as they were, and which one moves.
    start: Vec<HingeAt>,
    index: usize,
    /// From the hinge's middle to the pointer, on the board.
    grip: Length,
    at: Pos2,
    /// Where it came to rest by itself.
    rest: Option<Length>,
}

/// What a frame of the canvas works with.
#[derive(Clone, Copy)]
struct Scene<'a> {
    view: &'a View<'a>,
    plan: &'a HingePlan,
    lens: Lens,
    outer: Size,
    room: Rect,
}

impl Canvas {
    /// The humidity that is shown, within the range, and how large movement is drawn.
    pub(super) fn air(&self, view: &View<'_>) -> Air {
        let sheets = &view.derived.behind.sheets;
        let times = if self.no_larger { 1 } else { LARGER };
        let Some(movement) = sheets.first().map(|sheet| &sheet.movement) else {
            return Air { now: sightedge_core::movement::USUAL_ROOM, times };
        };
        let (dry, damp) = (movement.bound.dry.humidity, movement.bound.damp.humidity);
        Air { now: self.now.unwrap_or(movement.hinged_at).clamp(dry, damp), times }
    }

    /// What is wanted of the picture: only under the lifted mat is it seen.
    pub(super) fn wanted(&self, image: BoardRect, pixels_per_point: f32) -> Option<Wanted> {
        if self.way != Way::MatLifted {
            return None;
        }
        canvas::wanted(self.eye.lens?, self.room?, image, pixels_per_point)
    }

    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        view: &View<'_>,
        hall: Hall<'_>,
        asks: &mut Asks,
    ) {
        let palette = theme::palette(ui);
        let bar = Frame::new().fill(palette.panel).inner_margin(egui::Margin {
            left: 12,
            right: 12,
            top: 6,
            bottom: 6,
        });
        Panel::top("behind way").frame(bar).show(ui, |ui| {
            ui.horizontal(|ui| {
                let ways = [(Way::TurnedOver, "Turned over"), (Way::MatLifted, "Mat lifted")];
                if let Some(way) = choice(ui, "Seen", Some(self.way), &ways, 208.0) {
                    self.way = way;
                }
                let words = match self.way {
                    Way::TurnedOver => "Left and right as the maker sees the back",
                    Way::MatLifted => "From the front",
                };
                ui.add(egui::Label::new(quiet(ui, words)).truncate());
            });
        });
        Panel::bottom("behind air").frame(bar).show(ui, |ui| self.humidity(ui, view));
        CentralPanel::default().frame(Frame::new()).show(ui, |ui| {
            self.board(ui, desk, view, hall, asks);
        });
    }

    fn humidity(&mut self, ui: &mut Ui, view: &View<'_>) {
        let Some(sheet) = view.derived.behind.sheets.first() else { return };
        let bound = &sheet.movement.bound;
        let (dry, damp) = (bound.dry.humidity.tenths(), bound.damp.humidity.tenths());
        let now = self.air(view).now;
        ui.horizontal(|ui| {
            ui.label(quiet(ui, &format!("{} %", bound.dry.humidity.text())));
            let mut tenths = now.tenths();
            ui.spacing_mut().slider_width = (ui.available_width() - 318.0).max(80.0);
            let slider = Slider::new(&mut tenths, dry..=damp.max(dry)).show_value(false);
            let response = ui.add_enabled(damp > dry, slider);
            let words = format!("Humidity shown: {} %", now.text());
            response.widget_info(|| {
                let mut info = WidgetInfo::labeled(Role::Slider, true, &words);
                info.value = Some(f64::from(now.tenths()) / 10.0);
                info
            });
            if tenths != now.tenths() {
                self.now = Humidity::from_tenths(tenths);
            }
            ui.label(quiet(ui, &format!("{} %", bound.damp.humidity.text())));
            ui.add_space(4.0);
            ui.label(format!("now {} %", now.text()));
            let sizes = [(false, "10 × larger"), (true, "true")];
            let shown = Some(self.no_larger);
            if let Some(no_larger) = choice(ui, "Movement drawn", shown, &sizes, 190.0) {
                self.no_larger = no_larger;
            }
        });
    }

    fn board(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        view: &View<'_>,
        hall: Hall<'_>,
        asks: &mut Asks,
    ) {
        let room = ui.available_rect_before_wrap();
        let id = ui.scope_id().with("ground");
        let ground = ui.interact(room, id, Sense::click_and_drag());
        ui.advance_cursor_after_rect(room);
        self.room = Some(room);
        let painter = ui.painter_at(room);
        let surround = hall.settings.surround;
        painter.rect_filled(room, 0.0, Color32::from_gray(surround));
        let layout = &view.derived.layout;
        let outer = layout.exact.outer;
        let lens = self.look(ui, outer, layout.exact.backing, room, &ground);
        let of = Subject { mat: view.mat, layout, sheets: &view.derived.behind.sheets };
        let air = self.air(view);
        let look = Look { surround, ..Look::default() };
        let height = lens.length(FIGURE);
        let drawing = plates::behind(self.way, of, Some(air), &look, view.unit(), height);
        let under = match self.way {
            Way::TurnedOver => look.core,
            Way::MatLifted => view.mat.backing.board.colour,
        };
        let ink = inks(surround, Some(under));
        let ink = Inks { line: ink.board, ..ink };
        paint(&painter, lens, &drawing, ink, None, &|_| hall.pictures.to_vec());
        self.writing(&painter, lens, view, ink);
        let Some(plan) = held::plan(view) else { return };
        let scene = Scene { view, plan, lens, outer, room };
        self.hinges(ui, desk, scene, asks);
        self.keys(ui, scene, asks);
        self.tell(ui, scene);
    }

    /// What is written on the side that is seen.
    fn writing(&self, painter: &egui::Painter, lens: Lens, view: &View<'_>, ink: Inks) {
        let Some(inscription) = &view.derived.inscription else { return };
        if self.way == Way::TurnedOver {
            let items = plates::inscription::on_back(inscription, &view.derived.layout);
            let drawing = Drawing { items, ..Drawing::default() };
            paint(painter, lens, &drawing, ink, None, &|_| Vec::new());
        }
    }

    fn look(
        &mut self,
        ui: &Ui,
        outer: Size,
        backing: BoardRect,
        room: Rect,
        ground: &Response,
    ) -> Lens {
        self.eye.follow(ui, ground);
        if ground.double_clicked() {
            self.eye.fit = true;
        }
        let all = BoardRect::at_origin(outer);
        let all = if backing.size.is_positive() && !all.within(backing).least().is_negative() {
            self.way.seen(backing, outer)
        } else {
            all
        };
        let lens = match self.eye.lens {
            Some(lens) if !self.eye.fit => lens,
            _ => Lens::fit(all, room.shrink(28.0)),
        }
        .on_pixels(ui.pixels_per_point());
        self.eye.lens = Some(lens);
        lens
    }

    /// The part of the screen that takes hold of a hinge.
    fn grip(&self, hinge: &Hinge, scene: Scene<'_>) -> Rect {
        let on_screen =
            |rect: BoardRect| scene.lens.screen_rect(self.way.seen(rect, scene.outer));
        let tab = on_screen(hinge.tab);
        hinge.cross.map_or(tab, |cross| tab.union(on_screen(cross))).expand(3.0)
    }

    fn hinges(&mut self, ui: &mut Ui, desk: &Desk, scene: Scene<'_>, asks: &mut Asks) {
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
            let place = wording::length(hinge.x, view.unit());
            let name = format!("Hinge {}, {what}: {place}", index + 1);
            response.widget_info(|| WidgetInfo::labeled(Role::Slider, true, &name));
            self.eye.follow_on_handle(&response);
            if response.clicked() || response.drag_started_by(PointerButton::Primary) {
                response.request_focus();
            }
            if response.has_focus() {
                focused = Some(index);
                let filter = EventFilter {
                    horizontal_arrows: true,
                    vertical_arrows: true,
                    escape: true,
                    tab: false,
                };
                ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
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
            if response.hovered() && self.drag.is_none() {
                let words =
                    format!("{name}. Drag it along the edge; Enter: it holds the place.");
                response.clone().on_hover_text_at_pointer(words);
            }
            if response.double_clicked() {
                asks.run(held::locating(view, plan, index));
            }
            self.moved(ui, &response, index, desk, scene, asks);
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
        desk: &Desk,
        scene: Scene<'_>,
        asks: &mut Asks,
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
                let near = places(edge, drag.start.len())
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
                if let Some(kept) = desk.kept().chosen() {
                    let hinging = Hinging { at: list, ..kept.mat.behind.hinging.clone() };
                    let command = Command::SetHinging(view.variant, hinging);
                    asks.actions.push(Action::Draft(command));
                }
            }
        }
        if response.drag_stopped() && self.drag.is_some() {
            self.drag = None;
            let escape = ui.input(|input| input.key_pressed(Key::Escape));
            asks.actions.push(if escape { Action::GiveBack } else { Action::Keep });
        }
    }

    /// Arrows nudge, digits set, Enter makes it the one that holds the place, Esc gives back.
    fn keys(&mut self, ui: &Ui, scene: Scene<'_>, asks: &mut Asks) {
        let pressed = |key| ui.input(|input| input.key_pressed(key));
        if self.drag.is_some() {
            if pressed(Key::Escape) {
                self.drag = None;
                ui.stop_dragging();
                asks.actions.push(Action::GiveBack);
            }
            return;
        }
        let Scene { view, plan, .. } = scene;
        let Some(index) = self.selected else { return };
        let Some(hinge) = plan.hinges.get(index) else { return };
        let text = typed_text(ui);
        if self.typed.is_none() && text.starts_with(starts_length) && !pressed(Key::Escape) {
            self.typed = Some(String::new());
        }
        if let Some(typed) = &mut self.typed {
            if pressed(Key::Escape) {
                self.typed = None;
                return;
            }
            if pressed(Key::Backspace) {
                typed.pop();
            }
            typed.push_str(&text);
            if pressed(Key::Enter) {
                match parse(typed, view.unit()) {
                    Ok(x) => {
                        self.typed = None;
                        asks.run(held::moved_to(view, plan, index, x));
                    }
                    Err(error) => asks.said = Some(error.to_string()),
                }
            }
            return;
        }
        if pressed(Key::Enter) && !hinge.locates {
            asks.run(held::locating(view, plan, index));
            return;
        }
        let step = step(view.document, ui.input(|input| input.modifiers.alt));
        let times = |key| i64::try_from(ui.input(|input| input.num_presses(key))).unwrap_or(0);
        let steps = times(Key::ArrowRight) - times(Key::ArrowLeft);
        // The way the arrow points, on the side that is seen.
        let steps = if self.way == Way::TurnedOver { -steps } else { steps };
        if steps == 0 {
            return;
        }
        // Off the ruler, the first step goes to its next mark.
        let floor = hinge.x.floor_to(step);
        let from = if steps < 0 && floor != hinge.x { floor + step } else { floor };
        let x = from + step * steps;
        asks.run(held::moved_to(view, plan, index, x));
    }

    /// The number that rides along with a hinge in hand, or that is typed for it.
    fn tell(&self, ui: &Ui, scene: Scene<'_>) {
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
                (drag.at, told(view, plan, drag))
            }
            (None, Some(typed), Some(index)) => {
                let Some(hinge) = plan.hinges.get(index) else { return };
                let grip = self.grip(hinge, scene);
                let words = format!("{typed}| {}", view.unit().sign());
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
fn told(view: &View<'_>, plan: &HingePlan, drag: &Drag) -> Vec<String> {
    let unit = view.unit();
    let moved: Option<Length> = view
        .mat
        .behind
        .hinging
        .at
        .get(drag.index)
        .or(drag.start.get(drag.index))
        .map(|one| one.x);
    let Some(x) = moved else { return Vec::new() };
    let from_right = view.work.sheet.width - x;
    let mut lines = vec![
        format!("{} from the left", wording::length(x, unit)),
        format!("{} from the right", wording::length(from_right, unit)),
    ];
    let movement = view.derived.behind.sheets.first().map(|sheet| &sheet.movement);
    let at = plan.hinges.iter().position(|hinge| hinge.x == x && !hinge.locates);
    if let (Some(movement), Some(at)) = (movement, at) {
        let travel = |state: &sightedge_core::movement::State| {
            state.travel.get(at).map_or(Length::ZERO, |travel| travel.abs())
        };
        let most = travel(&movement.bound.dry).max(travel(&movement.bound.damp));
        let slack = plan.hinges.get(at).map(|hinge| hinge.slack).unwrap_or_default();
        let round = |length: Length| match unit {
            Unit::Inch => length.round_to(Length::inch_1000ths(1)),
            Unit::Millimetre => length.round_to(Length::um(10)),
        };
        lines.push(format!(
            "travels {} of {} slack",
            wording::length(round(most), unit),
            wording::length(round(slack), unit)
        ));
    }
    lines
}
