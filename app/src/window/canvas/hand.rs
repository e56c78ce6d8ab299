//! The hand on the board: what is taken hold of, what is dragged, nudged and typed.

use egui::{CursorIcon, Key, PointerButton, Rect, Response, Role, Sense, Ui, WidgetInfo};
use sightedge_core::geometry::Side;

use super::drag::{self, Drag};
use super::lens::Lens;
use super::{Canvas, GRIP, overlay};
use crate::window::handle::{Handle, HandleContext, Others, Pull};
use crate::window::request::Action;
use crate::window::session::PlanSession;

impl Canvas {
    /// Takes hold of what can be dragged, the larger first, so that edges lie on top.
    pub(super) fn handles(
        &mut self,
        ui: &mut Ui,
        session: &PlanSession,
        lens: Lens,
        actions: &mut Vec<Action>,
    ) {
        let Some(cx) = session.handle_context() else { return };
        let (mut focused, mut under) = (None, None);
        let mut handles = Handle::all(cx);
        handles.sort_by_key(|handle| match handle {
            Handle::Window(_) | Handle::Sheet(_) => 0,
            Handle::Outer(_) => 1,
            Handle::Liner(..) => 2,
            Handle::Sight(..) => 3,
        });
        for handle in handles {
            let Some(rect) = grip(handle, cx, lens) else { continue };
            let rect = rect.intersect(self.room);
            if !rect.is_positive() {
                continue;
            }
            let id = ui.scope_id().with(handle);
            let response = ui.interact(rect, id, Sense::click_and_drag());
            self.eye.follow_on_handle(&response);
            let value = handle
                .value(cx, false)
                .map(|value| sightedge_service::wording::length(value, cx.document.unit))
                .unwrap_or_default();
            let name = format!("{}: {value}", handle.name(cx));
            response.widget_info(|| WidgetInfo::labeled(Role::Slider, true, &name));
            if response.clicked() || response.drag_started_by(PointerButton::Primary) {
                response.request_focus();
            }
            if response.has_focus() {
                focused = Some(handle);
                hold_keys(ui, id);
            }
            if self.drag.is_none() && (response.hovered() || response.has_focus()) {
                let edge = edge_of(handle, cx, lens).unwrap_or_else(|| rect.expand(GRIP));
                overlay::approach(ui, edge, handle, response.has_focus());
            }
            if response.hovered() || response.dragged() {
                ui.set_cursor_icon(cursor(handle, cx));
                // The one on top comes last.
                under = Some(handle);
            }
            // The whole window is too large a thing to explain itself wherever the pointer rests.
            let large = matches!(handle, Handle::Window(_) | Handle::Sheet(_));
            if response.hovered() && self.drag.is_none() && self.typed.is_none() && !large {
                response.clone().on_hover_text_at_pointer(&name);
            }
            self.moved(ui, &response, handle, session, lens, actions);
        }
        if self.selected != focused {
            self.selected = focused;
            self.typed = None;
            actions.push(Action::Select(focused));
        }
        let dragged = self.drag.as_ref().map(Drag::handle);
        let hint = dragged.or(under).or(focused).map(|handle| handle.hint(cx, drag::tie(ui)));
        if self.hint != hint {
            // The line at the foot is shown before the board.
            self.hint = hint;
            ui.request_repaint();
        }
    }

    fn moved(
        &mut self,
        ui: &Ui,
        response: &Response,
        handle: Handle,
        session: &PlanSession,
        lens: Lens,
        actions: &mut Vec<Action>,
    ) {
        if response.drag_started_by(PointerButton::Primary)
            && let Some(at) = ui.input(|input| input.pointer.press_origin())
        {
            self.typed = None;
            self.drag = Drag::begin(handle, session, lens, at);
        }
        if response.dragged_by(PointerButton::Primary)
            && let Some(drag) = &mut self.drag
            && drag.handle() == handle
            && let Some(at) = response.interact_pointer_pos()
        {
            let modifiers = ui.input(|input| input.modifiers);
            if let Some(command) = drag.follow(session, at, modifiers) {
                actions.push(Action::Draft(command));
            }
        }
        if response.drag_stopped() && self.drag.as_ref().is_some_and(|d| d.handle() == handle) {
            self.drag = None;
            // Esc ends a drag, too, and gives back.
            let escape = ui.input(|input| input.key_pressed(Key::Escape));
            actions.push(if escape { Action::Cancel } else { Action::Commit });
        }
    }

    /// Arrows nudge, digits set, Esc gives back.
    pub(super) fn keys(&mut self, ui: &Ui, session: &PlanSession, actions: &mut Vec<Action>) {
        let escape = ui.input(|input| input.key_pressed(Key::Escape));
        if self.drag.is_some() {
            if escape {
                self.drag = None;
                ui.stop_dragging();
                actions.push(Action::Cancel);
            }
            return;
        }
        let (Some(handle), Some(cx)) = (self.selected, session.handle_context()) else {
            return;
        };
        match type_on(ui, &mut self.typed) {
            Typing::Nothing => {}
            Typing::On => return,
            Typing::Ends(typed) => {
                let unit = cx.document.unit;
                let across = drag::across(handle, cx);
                let pull = Pull { across, tie: drag::tie_of_enter(ui), others: Others::Equal };
                if let Ok(length) = sightedge_core::length::parse(&typed, unit)
                    && let Some(command) = handle.set(cx, length, pull)
                {
                    self.typed = None;
                    actions.push(Action::Run(command));
                }
                return;
            }
        }
        if escape {
            ui.memory_mut(egui::Memory::stop_text_input);
            return;
        }
        if let Some(command) = drag::nudge(ui, handle, cx) {
            actions.push(Action::Run(command));
        }
    }
}

/// What is typed for something in hand, in this frame.
pub(crate) enum Typing {
    /// Nothing is typed.
    Nothing,
    /// It goes on, or was called off.
    On,
    /// Enter asks for this.
    Ends(String),
}

/// Types on: a figure begins, Backspace takes one back, Esc calls it off, Enter asks for it.
pub(crate) fn type_on(ui: &Ui, typed: &mut Option<String>) -> Typing {
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    let text = typed_text(ui);
    if typed.is_none() && text.starts_with(starts_length) && !pressed(Key::Escape) {
        *typed = Some(String::new());
    }
    let Some(own) = typed else { return Typing::Nothing };
    if pressed(Key::Escape) {
        *typed = None;
        return Typing::On;
    }
    if pressed(Key::Backspace) {
        own.pop();
    }
    own.push_str(&text);
    if pressed(Key::Enter) { Typing::Ends(own.clone()) } else { Typing::On }
}

/// What has the focus takes arrows and Esc for itself; Tab goes on.
pub(crate) fn hold_keys(ui: &Ui, id: egui::Id) {
    let filter = egui::EventFilter {
        horizontal_arrows: true,
        vertical_arrows: true,
        escape: true,
        tab: false,
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
}

/// Text typed in this frame, all of it: a slow frame gathers more than one key.
fn typed_text(ui: &Ui) -> String {
    ui.input(|input| {
        let texts = input.events.iter().filter_map(|event| match event {
            egui::Event::Text(text) => Some(text.as_str()),
            _ => None,
        });
        texts.collect()
    })
}

/// What a length starts with; other keys mean something else.
fn starts_length(c: char) -> bool {
    c.is_ascii_digit() || matches!(c, '.' | '-' | '−' | '½' | '¼' | '¾')
}

/// The strip or area that takes hold of a handle.
pub(super) fn grip(handle: Handle, cx: HandleContext<'_>, lens: Lens) -> Option<Rect> {
    match handle {
        Handle::Window(id) | Handle::Sheet(id) => {
            let sight = cx.layout.exact.opening(id)?.sight;
            Some(lens.screen_rect(sight).shrink(GRIP))
        }
        _ => edge_of(handle, cx, lens).map(|edge| edge.expand(GRIP)),
    }
}

/// The edge that a handle moves, as a line on the screen.
pub(super) fn edge_of(handle: Handle, cx: HandleContext<'_>, lens: Lens) -> Option<Rect> {
    let side = handle.side()?;
    let rect = lens.screen_rect(handle.rect(cx)?);
    Some(match side {
        Side::Top => Rect::from_min_max(rect.left_top(), rect.right_top()),
        Side::Right => Rect::from_min_max(rect.right_top(), rect.right_bottom()),
        Side::Bottom => Rect::from_min_max(rect.left_bottom(), rect.right_bottom()),
        Side::Left => Rect::from_min_max(rect.left_top(), rect.left_bottom()),
    })
}

fn cursor(handle: Handle, cx: HandleContext<'_>) -> CursorIcon {
    match handle.moves(cx) {
        (true, true) => CursorIcon::Move,
        (true, false) => CursorIcon::ResizeHorizontal,
        (false, _) => CursorIcon::ResizeVertical,
    }
}
