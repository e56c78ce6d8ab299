//! The grips of a board, wherever a board is shown: a grip is taken, dragged and let go; arrows
//! nudge the one that has the focus, digits set it, Esc cancels.

use egui::{
    Event, FontId, Id, Key, Modifiers, Painter, PointerButton, Pos2, Rect, Response, Role,
    Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2,
};

use super::label_rect;
use super::lens::Camera;
use crate::window::theme;

/// The grips of one board, each named by a `K`.
#[derive(Debug)]
pub(crate) struct Grips<K> {
    /// The one that has the focus.
    selected: Option<K>,
    /// The one that is dragged.
    held: Option<K>,
    /// What is typed for the one that has the focus.
    typed: Option<String>,
    /// The one that was found to have the focus in this frame.
    focused: Option<K>,
}

impl<K> Default for Grips<K> {
    fn default() -> Self {
        Self { selected: None, held: None, typed: None, focused: None }
    }
}

/// One grip in this frame.
pub(crate) struct Grip {
    /// For its cursor and hint.
    pub(crate) response: Response,
    /// Where it was taken.
    pub(crate) taken: Option<Pos2>,
    /// Where the pointer is while it is dragged.
    pub(crate) moved_to: Option<Pos2>,
    /// That it was let go.
    pub(crate) end: Option<End>,
    /// Whether to draw that it can be taken: the pointer rests on it, or it has the focus.
    pub(crate) approached: bool,
}

/// How a drag ends.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum End {
    /// What was made of it stays.
    Kept,
    /// Everything is as it was before.
    Cancelled,
}

/// What the keys ask of the grips in this frame.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) enum Keys<K> {
    /// Nothing.
    None,
    /// The drag is cancelled.
    Cancelled,
    /// This was typed for a grip, and Enter pressed; see [`Grips::typed_is_set`].
    Typed(K, String),
    /// Whatever else is pressed is for this grip.
    Free(K),
}

impl<K: Copy + PartialEq> Grips<K> {
    /// Shows a grip at `rect`, which screen readers call `name`. All of a board's grips are shown
    /// in each frame, the one that lies on top last; then [`Self::shown`].
    pub(crate) fn show(
        &mut self,
        ui: &mut Ui,
        camera: &mut Camera,
        (key, id): (K, Id),
        rect: Rect,
        name: &str,
    ) -> Grip {
        let response = ui.interact(rect, id, Sense::click_and_drag());
        camera.follow_on_handle(&response);
        response.widget_info(|| WidgetInfo::labeled(Role::Slider, true, name));
        let begins = response.drag_started_by(PointerButton::Primary);
        if response.clicked() || begins {
            response.request_focus();
        }
        if response.has_focus() {
            self.focused = Some(key);
            hold_keys(ui, id);
        }
        let approached = self.held.is_none() && (response.hovered() || response.has_focus());
        let taken = ui.input(|input| input.pointer.press_origin()).filter(|_| begins);
        if taken.is_some() {
            self.typed = None;
            self.held = Some(key);
        }
        let held = self.held == Some(key);
        let dragged = held && response.dragged_by(PointerButton::Primary);
        let moved_to = response.interact_pointer_pos().filter(|_| dragged);
        let mut end = None;
        if held && response.drag_stopped() {
            self.held = None;
            let escape = ui.input(|input| input.key_pressed(Key::Escape));
            end = Some(if escape { End::Cancelled } else { End::Kept });
        }
        Grip { response, taken, moved_to, end, approached }
    }

    /// After the last grip of a frame: what was typed goes when the focus moves on.
    pub(crate) fn shown(&mut self) {
        let focused = self.focused.take();
        if self.selected != focused {
            self.selected = focused;
            self.typed = None;
        }
    }

    /// The one that has the focus.
    pub(crate) const fn selected(&self) -> Option<K> {
        self.selected
    }

    /// What is typed, and for which.
    pub(crate) fn typed(&self) -> Option<(K, &str)> {
        Some((self.selected?, self.typed.as_deref()?))
    }

    /// What was typed has been taken; what cannot be read stays to be mended.
    pub(crate) fn typed_is_set(&mut self) {
        self.typed = None;
    }

    /// What the keys of this frame ask for.
    pub(crate) fn keys(&mut self, ui: &Ui) -> Keys<K> {
        let escape = ui.input(|input| input.key_pressed(Key::Escape));
        if self.held.is_some() {
            if !escape {
                return Keys::None;
            }
            self.held = None;
            ui.stop_dragging();
            return Keys::Cancelled;
        }
        let Some(key) = self.selected else { return Keys::None };
        match type_on(ui, &mut self.typed) {
            Typing::On => Keys::None,
            Typing::Ends(typed) => Keys::Typed(key, typed),
            Typing::Nothing if escape => {
                ui.memory_mut(egui::Memory::stop_text_input);
                Keys::None
            }
            Typing::Nothing => Keys::Free(key),
        }
    }
}

/// What is typed in this frame.
enum Typing {
    /// Nothing.
    Nothing,
    /// Some more, or what was typed is cancelled.
    On,
    /// Enter sets this.
    Ends(String),
}

/// A digit begins, Backspace takes one back, Esc cancels, Enter sets.
fn type_on(ui: &Ui, typed: &mut Option<String>) -> Typing {
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

/// The grip with the focus takes arrows and Esc; Tab moves on.
fn hold_keys(ui: &Ui, id: Id) {
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
            Event::Text(text) => Some(text.as_str()),
            _ => None,
        });
        texts.collect()
    })
}

/// What a length starts with; other keys mean something else.
fn starts_length(c: char) -> bool {
    c.is_ascii_digit() || matches!(c, '.' | '-' | '−' | '½' | '¼' | '¾')
}

/// An arrow key in this frame.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Arrow {
    /// Left or right, rather than up or down.
    pub(crate) across: bool,
    /// Right or down.
    pub(crate) forwards: bool,
    /// How often it was pressed.
    pub(crate) times: i64,
    /// What was held beside it.
    pub(crate) held: Modifiers,
}

/// The arrow key that was pressed in this frame.
pub(crate) fn arrow(ui: &Ui) -> Option<Arrow> {
    let arrows = [
        (Key::ArrowLeft, true, false),
        (Key::ArrowRight, true, true),
        (Key::ArrowUp, false, false),
        (Key::ArrowDown, false, true),
    ];
    arrows.into_iter().find_map(|(key, across, forwards)| {
        let presses = presses(ui, key);
        let times = i64::try_from(presses.len()).ok()?;
        Some(Arrow { across, forwards, times, held: *presses.first()? })
    })
}

/// The presses of a key in this frame, each with what was held beside it: a slow frame gathers
/// several of them, and the letting go of all.
pub(crate) fn presses(ui: &Ui, wanted: Key) -> Vec<Modifiers> {
    ui.input(|input| {
        let presses = input.events.iter().filter_map(|event| match event {
            Event::Key { key, pressed: true, modifiers, .. } if *key == wanted => {
                Some(*modifiers)
            }
            _ => None,
        });
        presses.collect()
    })
}

/// Words beside the pointer, kept in view.
pub(crate) fn label(ui: &Ui, painter: &Painter, at: Pos2, text: &str) {
    let palette = theme::palette(ui);
    let font = FontId::proportional(theme::BODY);
    let galley = painter.layout_no_wrap(text.to_owned(), font, palette.text);
    let rect = label_rect(at, galley.size() + vec2(20.0, 12.0), painter.clip_rect());
    painter.rect(rect, 5.0, palette.panel, Stroke::new(1.0, palette.line), StrokeKind::Inside);
    painter.galley(rect.min + vec2(10.0, 6.0), galley, palette.text);
}
