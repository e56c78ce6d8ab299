//! The handles on the board: what is dragged, nudged and typed.

use egui::{CursorIcon, Ui};

use super::drag::{self, Drag};
use super::edges::{edge_of, grip};
use super::grips::{End, Grip, Keys};
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
        let mut under = None;
        let mut handles = Handle::all(cx);
        handles.sort_by_key(|handle| match handle {
            Handle::Window(_) | Handle::Sheet(_) => 0,
            Handle::Outer(_) => 1,
            Handle::Undermat(..) => 2,
            Handle::Sight(..) => 3,
        });
        for handle in handles {
            let Some(rect) = grip(handle, cx, lens) else { continue };
            let rect = rect.intersect(self.room);
            if !rect.is_positive() {
                continue;
            }
            let id = ui.scope_id().with(handle);
            let value = handle
                .value(cx, false)
                .map(|value| sightedge_service::wording::length(value, cx.document.unit))
                .unwrap_or_default();
            let name = format!("{}: {value}", handle.name(cx));
            let found = self.grips.show(ui, &mut self.camera, (handle, id), rect, &name);
            let response = &found.response;
            if found.approached {
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
            let busy = self.drag.is_some() || self.grips.typed().is_some();
            if response.hovered() && !busy && !large {
                response.clone().on_hover_text_at_pointer(&name);
            }
            self.moved(ui, &found, handle, session, lens, actions);
        }
        self.grips.shown();
        let dragged = self.drag.as_ref().map(Drag::handle);
        let on = dragged.or(under).or(self.grips.selected());
        let hint = on.map(|handle| handle.hint(cx, drag::tie(ui)));
        if self.hint != hint {
            // The line at the foot is shown before the board.
            self.hint = hint;
            ui.request_repaint();
        }
    }

    fn moved(
        &mut self,
        ui: &Ui,
        found: &Grip,
        handle: Handle,
        session: &PlanSession,
        lens: Lens,
        actions: &mut Vec<Action>,
    ) {
        if let Some(at) = found.taken {
            self.drag = Drag::begin(handle, session, lens, at);
        }
        if let (Some(at), Some(drag)) = (found.moved_to, &mut self.drag) {
            let modifiers = ui.input(|input| input.modifiers);
            if let Some(command) = drag.follow(session, at, modifiers) {
                actions.push(Action::Draft(command));
            }
        }
        if let Some(end) = found.end
            && self.drag.take().is_some()
        {
            actions.push(match end {
                End::Kept => Action::Commit,
                End::Cancelled => Action::Cancel,
            });
        }
    }

    /// Arrows nudge, digits set, Esc cancels.
    pub(super) fn keys(&mut self, ui: &Ui, session: &PlanSession, actions: &mut Vec<Action>) {
        let Some(cx) = session.handle_context() else { return };
        match self.grips.keys(ui) {
            Keys::None => {}
            Keys::Cancelled => {
                self.drag = None;
                actions.push(Action::Cancel);
            }
            Keys::Typed(handle, typed) => {
                let across = drag::across(handle, cx);
                let pull = Pull { across, tie: drag::tie_of_enter(ui), others: Others::Equal };
                if let Ok(length) = sightedge_core::length::parse(&typed, cx.document.unit)
                    && let Some(command) = handle.set(cx, length, pull)
                {
                    self.grips.typed_is_set();
                    actions.push(Action::Run(command));
                }
            }
            Keys::Free(handle) => actions.extend(drag::nudge(ui, handle, cx).map(Action::Run)),
        }
    }
}

fn cursor(handle: Handle, cx: HandleContext<'_>) -> CursorIcon {
    match handle.moves(cx) {
        (true, true) => CursorIcon::Move,
        (true, false) => CursorIcon::ResizeHorizontal,
        (false, _) => CursorIcon::ResizeVertical,
    }
}
