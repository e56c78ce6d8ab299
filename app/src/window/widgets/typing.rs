//! What is typed in a field: kept by Enter, Tab and a click elsewhere, given up by Esc.
//!
//! While nothing was typed, a field follows the plan, so that undo is seen in it at once. What
//! cannot be read stays in the field with the reason below it, until it is mended.

use egui::{Align2, FontId, Id, Key, Response, Role, TextEdit, Ui, WidgetInfo, vec2};

use super::hint::{Hint, with_row_hint};
use super::rows::problem;
use crate::window::theme;

/// A field to be typed in.
pub(super) struct Typing<'a> {
    pub(super) id: Id,
    /// Its name, for screen readers.
    pub(super) name: &'a str,
    /// What it shows at rest.
    pub(super) shown: &'a str,
    /// What it shows where it is empty.
    pub(super) empty: &'a str,
    pub(super) width: f32,
    /// What it asks for; none: its row's hint.
    pub(super) hint: Option<&'a Hint>,
}

/// What is typed while a field has the focus, or was refused.
#[derive(Clone, Debug, Default)]
struct Typed {
    text: String,
    /// What the field showed before anything was typed.
    shown: String,
    /// Whether the field had the focus when it was last shown: what was typed then is still to
    /// be kept.
    active: bool,
    /// Why it was refused.
    problem: Option<String>,
}

impl Typing<'_> {
    /// Shows it, with the unit that `sign` gives for a text; gives what `read` made of a text
    /// that was kept.
    pub(super) fn show<T>(
        self,
        ui: &mut Ui,
        sign: impl Fn(&str) -> &'static str,
        read: impl Fn(&str) -> Result<T, String>,
    ) -> (Response, Option<T>) {
        let id = self.id;
        let mut typed: Typed = ui.data(|data| data.get_temp(id)).unwrap_or_default();
        let focused = ui.memory(|memory| memory.has_focus(id));
        let left = !focused && !typed.active && typed.problem.is_none();
        let moved_on = typed.problem.is_some() && typed.shown != self.shown;
        if left || moved_on || typed.text == typed.shown {
            let shown = self.shown.to_owned();
            typed = Typed { text: shown.clone(), shown, active: typed.active, problem: None };
        }
        // What is being typed is undone before any step of the plan is.
        if focused
            && typed.text != typed.shown
            && ui.input_mut(|input| input.consume_key(egui::Modifiers::COMMAND, Key::Z))
        {
            typed.text.clone_from(&typed.shown);
            typed.problem = None;
        }
        // Esc and Enter may have taken the focus away before this field is shown.
        let (cancelled, entered) = if focused || typed.active {
            ui.input(|input| (input.key_pressed(Key::Escape), input.key_pressed(Key::Enter)))
        } else {
            (false, false)
        };
        let response = self.edit(ui, &mut typed.text, &sign);
        let mut made = None;
        if cancelled {
            typed.text.clone_from(&typed.shown);
            typed.problem = None;
            response.surrender_focus();
        } else if (entered || response.lost_focus()) && typed.text != typed.shown {
            match read(&typed.text) {
                Ok(value) => {
                    made = Some(value);
                    typed.text.clone_from(&typed.shown);
                    typed.problem = None;
                }
                Err(why) => {
                    typed.problem = Some(why);
                    // To be mended where it stands.
                    if entered {
                        response.request_focus();
                    }
                }
            }
        } else if response.changed() && typed.problem.is_some() {
            typed.problem = read(&typed.text).err();
        }
        if response.gained_focus() {
            select_all(ui, id, typed.text.chars().count());
            response.scroll_to_me(None);
        }
        typed.active = response.has_focus();
        let touched = typed.text != typed.shown;
        if touched && typed.active {
            tell_typing(ui.ctx());
        }
        let wrong = typed.problem.clone();
        let unread = touched && typed.active && read(&typed.text).is_err();
        ui.data_mut(|data| data.insert_temp(id, typed));
        if wrong.is_some() || unread {
            let stroke = egui::Stroke::new(1.5, theme::palette(ui).fault);
            let inside = egui::StrokeKind::Inside;
            ui.painter().rect_stroke(response.rect, 4.0, stroke, inside);
        }
        let response = match self.hint {
            Some(hint) => hint.on(ui, response),
            None => with_row_hint(ui, response),
        };
        if let Some(why) = wrong {
            problem(ui, &response, &why);
        }
        (response, made)
    }

    fn edit(
        &self,
        ui: &mut Ui,
        text: &mut String,
        sign: &dyn Fn(&str) -> &'static str,
    ) -> Response {
        let sign = sign(text);
        let right = if sign.is_empty() { 8 } else { 26 };
        let edit = TextEdit::singleline(text)
            .id(self.id)
            .hint_text(self.empty)
            .desired_width(self.width - 8.0 - f32::from(right))
            .margin(egui::Margin { left: 8, right, top: 5, bottom: 5 })
            .align(Align2::LEFT_CENTER)
            .min_size(vec2(self.width, theme::ROW));
        let response = ui.add_sized(vec2(self.width, theme::ROW), edit);
        if !sign.is_empty() {
            ui.painter().text(
                response.rect.right_center() - vec2(7.0, 0.0),
                Align2::RIGHT_CENTER,
                sign,
                FontId::proportional(theme::SMALL),
                theme::palette(ui).quiet,
            );
        }
        let shown = format!("{text} {sign}").trim_end().to_owned();
        response.widget_info(|| {
            let mut info = WidgetInfo::labeled(Role::TextInput, ui.is_enabled(), self.name);
            info.current_text_value = Some(shown.clone());
            info
        });
        response
    }
}

fn typing() -> Id {
    Id::unique("something is being typed")
}

/// Tells that something is being typed in a field, which then undoes its own text.
pub fn tell_typing(context: &egui::Context) {
    let now = context.cumulative_pass_nr();
    context.data_mut(|data| data.insert_temp(typing(), now));
}

/// Whether something was being typed in a field when it was last shown.
pub fn is_typing(context: &egui::Context) -> bool {
    let last: Option<u64> = context.data(|data| data.get_temp(typing()));
    last.is_some_and(|last| context.cumulative_pass_nr().saturating_sub(last) <= 1)
}

/// Selects the whole text of a field, `count` characters, so that typing replaces it.
pub fn select_all(ui: &Ui, id: Id, count: usize) {
    use egui::text::{CCursor, CCursorRange};
    let mut state = TextEdit::load_state(ui.ctx(), id).unwrap_or_default();
    state.cursor.set_char_range(Some(CCursorRange::two(CCursor::new(0), CCursor::new(count))));
    state.store(ui.ctx(), id);
}
