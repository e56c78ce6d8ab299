//! The board at true proportion with the picture in its window; the board is the control.

mod drag;
mod lens;
pub(crate) mod overlay;
pub(crate) mod paint;

use egui::{
    Color32, CursorIcon, Key, PointerButton, Rect, Response, Role, Sense, Ui, WidgetInfo, vec2,
};
use sightedge_core::finding::Place;
use sightedge_core::geometry::{Rect as BoardRect, Side};
use sightedge_core::plates::{self, Look};

pub use lens::Lens;
pub use paint::Shown;

use sightedge_pictures::colour::Vision;

use crate::action::Action;
use crate::desk::Desk;
use crate::handle::{Bench, Handle};
use crate::textures::Wanted;
use drag::Drag;

/// What of the board is shown beside it.
#[derive(Clone, Copy, Debug)]
pub struct Shows {
    /// Dimension lines.
    pub dimensions: bool,
    /// The outline of what is hidden.
    pub hidden: bool,
    /// The magnified corner.
    pub corner: bool,
    /// The grey round the board.
    pub surround: u8,
    /// Whose eyes it is seen with; `None` for those that see all colours.
    pub vision: Option<Vision>,
}

/// The canvas of one plan: how it is looked at, and what is in hand.
#[derive(Debug)]
pub struct Canvas {
    lens: Option<Lens>,
    /// Whether all of the board is kept in view.
    fit: bool,
    drag: Option<Drag>,
    /// What is typed for the selected handle.
    typed: Option<String>,
    /// The handle that has the focus.
    selected: Option<Handle>,
    /// The place that a finding points at.
    pub pointed: Option<Place>,
    room: Rect,
    /// Whether the board stays where the hand left it, though all of it is kept in view.
    left: bool,
    /// What was shown beside the board in the last frame: its room changes with that.
    beside: (bool, bool),
}

/// Half the width of the strip that takes hold of an edge, in points.
const GRIP: f32 = 5.0;

impl Default for Canvas {
    fn default() -> Self {
        Self {
            lens: None,
            fit: true,
            drag: None,
            typed: None,
            selected: None,
            pointed: None,
            room: Rect::NOTHING,
            left: false,
            beside: (false, false),
        }
    }
}

impl Canvas {
    /// Shows all of the board again.
    pub fn fit(&mut self) {
        self.fit = true;
        self.left = false;
    }

    /// Nearer or farther, about the middle.
    pub fn zoom(&mut self, factor: f32) {
        if let Some(lens) = self.lens {
            self.lens = Some(lens.zoomed(factor, self.room.center()));
            self.fit = false;
        }
    }

    /// The handle that is selected.
    pub const fn selected(&self) -> Option<Handle> {
        self.selected
    }

    /// How large the board is shown: pixels of the screen for each pixel at true size is not
    /// known here, so in points a millimetre.
    pub fn scale(&self) -> Option<f32> {
        self.lens.map(|lens| lens.scale)
    }

    /// What is wanted of the picture: its size in pixels of the screen, and what of it is seen.
    pub fn wanted(&self, image: BoardRect, pixels_per_point: f32) -> Option<Wanted> {
        let lens = self.lens?;
        let shown = lens.screen_rect(image);
        let (min, max) = (shown.min * pixels_per_point, shown.max * pixels_per_point);
        let size = max.round() - min.round();
        if !(size.x >= 1.0 && size.y >= 1.0) {
            return None;
        }
        let seen = shown.intersect(self.room);
        let share = |value: f32, from: f32, to: f32| (value - from) / (to - from);
        let part = Rect::from_min_max(
            egui::pos2(
                share(seen.left(), shown.left(), shown.right()),
                share(seen.top(), shown.top(), shown.bottom()),
            ),
            egui::pos2(
                share(seen.right(), shown.left(), shown.right()),
                share(seen.bottom(), shown.top(), shown.bottom()),
            ),
        );
        let size = sightedge_pictures::Size::new(pixels(size.x), pixels(size.y));
        Some(Wanted { size, seen: part })
    }

    /// Shows the board and takes the asks of the hand.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        shows: Shows,
        pictures: &[Shown],
    ) -> Vec<Action> {
        let mut actions = Vec::new();
        let room = ui.available_rect_before_wrap();
        if self.room != room {
            self.room = room;
            self.left = false;
        }
        let ground =
            ui.interact(self.room, ui.scope_id().with("ground"), Sense::click_and_drag());
        ui.advance_cursor_after_rect(self.room);
        let beside = (shows.dimensions, shows.corner);
        if self.beside != beside {
            self.beside = beside;
            self.left = false;
        }
        let painter = ui.painter_at(self.room);
        let surround = Color32::from_gray(shows.surround);
        painter.rect_filled(self.room, 0.0, surround);
        let Some(bench) = desk.bench() else { return actions };

        let lens = self.look(ui, bench, shows, &ground);
        let look = Look { surround: shows.surround, ..Look::default() };
        let front = plates::front(&bench.variant.mat, &bench.layout.exact, &look);
        let inks = overlay::inks(
            shows.surround,
            bench.variant.mat.layers.first().map(|l| l.board.colour),
        );
        paint::paint(&painter, lens, &front, inks, shows.vision, &|_| pictures.to_vec());
        overlay::plates(&painter, lens, bench, shows, inks);
        if let Some(place) = self.pointed {
            overlay::place(ui, &painter, lens, bench, place);
        }

        self.handles(ui, desk, lens, &mut actions);
        self.keys(ui, desk, &mut actions);
        if let Some(drag) = &self.drag {
            overlay::riding(ui, &painter, lens, bench, drag);
        } else if let (Some(typed), Some(handle)) = (&self.typed, self.selected) {
            overlay::typing(ui, &painter, lens, bench, handle, typed);
        }
        if shows.corner {
            overlay::corner(ui, self.room, bench, shows, inks);
        }
        actions
    }

    /// Where the board is seen in this frame: anchored while a hand moves something, else as
    /// panned and zoomed, else all of it.
    fn look(&mut self, ui: &Ui, bench: Bench<'_>, shows: Shows, ground: &Response) -> Lens {
        let board = BoardRect::at_origin(bench.layout.exact.outer);
        let pixels = ui.pixels_per_point();
        if let Some(drag) = &self.drag {
            let lens = drag.lens(bench);
            self.lens = Some(lens);
            self.left = true;
            return lens;
        }
        // Over the picture, too, which is a handle that lies on the ground.
        if ground.contains_pointer() {
            let (zoom, scroll, at) = ui.input(|input| {
                (input.zoom_delta(), input.smooth_scroll_delta().y, input.pointer.hover_pos())
            });
            let factor = zoom * (scroll * 0.004).exp();
            if (factor - 1.0).abs() > 1e-4
                && let (Some(lens), Some(at)) = (self.lens, at)
            {
                self.lens = Some(lens.zoomed(factor, at));
                self.fit = false;
            }
        }
        if ground.dragged() {
            self.lens = self.lens.map(|lens| lens.moved(ground.drag_delta()));
            self.fit = false;
            ui.set_cursor_icon(CursorIcon::Grabbing);
        }
        let margin: f32 = if shows.dimensions { 72.0 } else { 40.0 };
        // Under the eye that just looked at it nothing jumps, as long as all is in view.
        let stays = |lens: Lens| {
            self.left && self.room.shrink(margin / 2.0).contains_rect(lens.screen_rect(board))
        };
        let lens = match self.lens {
            Some(lens) if !self.fit || stays(lens) => lens,
            _ => {
                self.left = false;
                let beside = |part: Rect| fitted(bench, shows, part, margin);
                if shows.corner {
                    // Above the corner or beside it, whichever leaves the board larger.
                    let corner = overlay::corner_rect(self.room);
                    let above = beside(self.room.with_max_y(corner.top()));
                    let beside = beside(self.room.with_min_x(corner.right()));
                    if above.scale >= beside.scale { above } else { beside }
                } else {
                    beside(self.room)
                }
            }
        }
        .on_pixels(pixels);
        self.lens = Some(lens);
        lens
    }

    /// Takes hold of what can be dragged, the larger first, so that edges lie on top.
    fn handles(&mut self, ui: &mut Ui, desk: &Desk, lens: Lens, actions: &mut Vec<Action>) {
        let Some(bench) = desk.bench() else { return };
        let mut focused = None;
        let mut handles = Handle::all(bench);
        handles.sort_by_key(|handle| match handle {
            Handle::Window(_) | Handle::Sheet(_) => 0,
            Handle::Outer(_) => 1,
            Handle::Liner(..) => 2,
            Handle::Sight(..) => 3,
        });
        for handle in handles {
            let Some(rect) = grip(handle, bench, lens) else { continue };
            let rect = rect.intersect(self.room);
            if !rect.is_positive() {
                continue;
            }
            let id = ui.scope_id().with(handle);
            let response = ui.interact(rect, id, Sense::click_and_drag());
            if response.dragged() && !response.dragged_by(PointerButton::Primary) {
                // The other buttons move the board under the eye, never the plan.
                self.lens = self.lens.map(|lens| lens.moved(response.drag_delta()));
                self.fit = false;
            }
            let value = handle
                .value(bench, false)
                .map(|value| crate::wording::length(value, bench.document.unit))
                .unwrap_or_default();
            let name = format!("{}: {value}", handle.name(bench));
            response.widget_info(|| WidgetInfo::labeled(Role::Slider, true, &name));
            if response.clicked() || response.drag_started_by(PointerButton::Primary) {
                response.request_focus();
            }
            if response.has_focus() {
                focused = Some(handle);
                ui.memory_mut(|memory| {
                    memory.set_focus_lock_filter(
                        id,
                        egui::EventFilter {
                            horizontal_arrows: true,
                            vertical_arrows: true,
                            escape: true,
                            tab: false,
                        },
                    );
                });
            }
            if self.drag.is_none() && (response.hovered() || response.has_focus()) {
                let edge = edge_of(handle, bench, lens).unwrap_or_else(|| rect.expand(GRIP));
                overlay::approach(ui, edge, handle, response.has_focus());
            }
            if response.hovered() || response.dragged() {
                ui.set_cursor_icon(cursor(handle, bench));
            }
            // The whole window is too large a thing to explain itself wherever the pointer rests.
            let large = matches!(handle, Handle::Window(_) | Handle::Sheet(_));
            if response.hovered() && self.drag.is_none() && self.typed.is_none() && !large {
                response.clone().on_hover_text_at_pointer(&name);
            }
            self.moved(ui, &response, handle, desk, lens, actions);
        }
        if self.selected != focused {
            self.selected = focused;
            self.typed = None;
            actions.push(Action::Select(focused));
        }
    }

    fn moved(
        &mut self,
        ui: &Ui,
        response: &Response,
        handle: Handle,
        desk: &Desk,
        lens: Lens,
        actions: &mut Vec<Action>,
    ) {
        if response.drag_started_by(PointerButton::Primary)
            && let Some(at) = ui.input(|input| input.pointer.press_origin())
            && let Some(bench) = desk.bench()
        {
            self.typed = None;
            self.drag = Drag::begin(handle, bench, lens, at);
        }
        if response.dragged_by(PointerButton::Primary)
            && let Some(drag) = &mut self.drag
            && drag.handle() == handle
            && let Some(at) = response.interact_pointer_pos()
        {
            let modifiers = ui.input(|input| input.modifiers);
            if let Some(command) = drag.follow(desk, at, modifiers) {
                actions.push(Action::Draft(command));
            }
        }
        if response.drag_stopped() && self.drag.as_ref().is_some_and(|d| d.handle() == handle) {
            self.drag = None;
            // Esc ends a drag, too, and gives back.
            let escape = ui.input(|input| input.key_pressed(Key::Escape));
            actions.push(if escape { Action::GiveBack } else { Action::Keep });
        }
    }

    /// Arrows nudge, digits set, Esc gives back.
    fn keys(&mut self, ui: &Ui, desk: &Desk, actions: &mut Vec<Action>) {
        let escape = ui.input(|input| input.key_pressed(Key::Escape));
        if self.drag.is_some() {
            if escape {
                self.drag = None;
                ui.stop_dragging();
                actions.push(Action::GiveBack);
            }
            return;
        }
        let (Some(handle), Some(bench)) = (self.selected, desk.bench()) else { return };
        let text = typed_text(ui);
        if self.typed.is_none() && text.starts_with(starts_length) && !escape {
            self.typed = Some(String::new());
        }
        if let Some(typed) = &mut self.typed {
            if escape {
                self.typed = None;
                return;
            }
            let enter = ui.input(|input| input.key_pressed(Key::Enter));
            if ui.input(|input| input.key_pressed(Key::Backspace)) {
                typed.pop();
            }
            typed.push_str(&text);
            if enter {
                let unit = bench.document.unit;
                if let Ok(length) = sightedge_core::length::parse(typed, unit)
                    && let Some(command) =
                        handle.set(bench, length, drag::across(handle, bench), drag::tie(ui))
                {
                    self.typed = None;
                    actions.push(Action::Run(command));
                }
            }
            return;
        }
        if escape {
            ui.memory_mut(egui::Memory::stop_text_input);
            return;
        }
        if let Some(command) = drag::nudge(ui, handle, bench) {
            actions.push(Action::Run(command));
        }
    }
}

/// All of the board in `room`, with `margin` round it; where its dimensions need more, with all
/// of them.
fn fitted(bench: Bench<'_>, shows: Shows, room: Rect, margin: f32) -> Lens {
    let board = BoardRect::at_origin(bench.layout.exact.outer);
    let mut lens = Lens::fit(board, room.shrink(margin.min(room.width() / 6.0)));
    if shows.dimensions {
        let (figures, unit) = (&bench.layout.bench, bench.document.unit);
        // Figures keep their size on the screen, so that a smaller board needs more room again.
        for _ in 0..3 {
            let height = lens.length(overlay::FIGURE);
            let all = plates::dimensions(figures, unit, height).bounds;
            if room.contains_rect(lens.screen_rect(all)) {
                break;
            }
            lens = Lens::fit(all, room);
        }
    }
    lens
}

/// Text typed in this frame, all of it: a slow frame gathers more than one key.
pub(crate) fn typed_text(ui: &Ui) -> String {
    ui.input(|input| {
        let texts = input.events.iter().filter_map(|event| match event {
            egui::Event::Text(text) => Some(text.as_str()),
            _ => None,
        });
        texts.collect()
    })
}

/// What a length starts with; other keys mean something else.
pub(crate) fn starts_length(c: char) -> bool {
    c.is_ascii_digit() || matches!(c, '.' | '-' | '−' | '½' | '¼' | '¾')
}

/// The strip or area that takes hold of a handle.
fn grip(handle: Handle, bench: Bench<'_>, lens: Lens) -> Option<Rect> {
    match handle {
        Handle::Window(id) | Handle::Sheet(id) => {
            let sight = bench.layout.exact.opening(id)?.sight;
            Some(lens.screen_rect(sight).shrink(GRIP))
        }
        _ => edge_of(handle, bench, lens).map(|edge| edge.expand(GRIP)),
    }
}

/// The edge that a handle moves, as a line on the screen.
fn edge_of(handle: Handle, bench: Bench<'_>, lens: Lens) -> Option<Rect> {
    let exact = &bench.layout.exact;
    let (rect, side) = match handle {
        Handle::Sight(id, side) => (exact.opening(id)?.sight, side),
        Handle::Liner(id, layer, side) => {
            let cuts = &exact.opening(id)?.layers;
            let index = cuts.iter().position(|cut| cut.layer == layer)?;
            (cuts.get(index.checked_sub(1)?)?.sight.bounds, side)
        }
        Handle::Outer(side) => (BoardRect::at_origin(exact.outer), side),
        Handle::Window(_) | Handle::Sheet(_) => return None,
    };
    let rect = lens.screen_rect(rect);
    Some(match side {
        Side::Top => Rect::from_min_max(rect.left_top(), rect.right_top()),
        Side::Right => Rect::from_min_max(rect.right_top(), rect.right_bottom()),
        Side::Bottom => Rect::from_min_max(rect.left_bottom(), rect.right_bottom()),
        Side::Left => Rect::from_min_max(rect.left_top(), rect.left_bottom()),
    })
}

fn cursor(handle: Handle, bench: Bench<'_>) -> CursorIcon {
    match handle.moves(bench) {
        (true, true) => CursorIcon::Move,
        (true, false) => CursorIcon::ResizeHorizontal,
        (false, _) => CursorIcon::ResizeVertical,
    }
}

/// A colour of a board or a picture, which is no part of the theme.
pub fn srgb(red: u8, green: u8, blue: u8) -> Color32 {
    Color32::from_rgb(red, green, blue)
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a count of pixels on a screen, above zero"
)]
fn pixels(side: f32) -> u32 {
    side.round().clamp(1.0, 1e6) as u32
}

/// Tells on the canvas why there is no picture; says whether its button was pressed.
pub fn trouble(ui: &mut Ui, words: &str) -> bool {
    overlay::trouble(ui, words)
}

/// Room for a label beside a point, kept within `room`.
pub(crate) fn label_rect(at: egui::Pos2, size: egui::Vec2, room: Rect) -> Rect {
    let mut rect = Rect::from_min_size(at + vec2(18.0, 18.0), size);
    if rect.right() > room.right() - 4.0 {
        rect = rect.translate(vec2(-size.x - 36.0, 0.0));
    }
    if rect.bottom() > room.bottom() - 4.0 {
        rect = rect.translate(vec2(0.0, -size.y - 36.0));
    }
    rect
}
