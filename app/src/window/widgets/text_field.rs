//! A field of words: Enter and a click elsewhere keep what was typed, Esc gives back what was
//! there.

use egui::{Key, Role, TextEdit, Ui, WidgetInfo, vec2};

use crate::window::theme;

/// A field called `name`, showing `shown`; gives what was typed, once it is kept.
pub fn text(ui: &mut Ui, name: &str, shown: &str, hint: &str, width: f32) -> Option<String> {
    let id = ui.make_persistent_id(("text", name));
    let mut typed: String =
        ui.data(|data| data.get_temp(id)).unwrap_or_else(|| shown.to_owned());
    let focused = ui.memory(|memory| memory.has_focus(id));
    if !focused && ui.data(|data| data.get_temp::<bool>(id)).is_none_or(|active| !active) {
        shown.clone_into(&mut typed);
    }
    let escaped = focused && ui.input(|input| input.key_pressed(Key::Escape));
    let edit = TextEdit::singleline(&mut typed)
        .id(id)
        .hint_text(hint)
        .desired_width(width - 16.0)
        .margin(egui::Margin::symmetric(8, 5))
        .min_size(vec2(width, theme::ROW));
    let response = ui.add_sized(vec2(width, theme::ROW), edit);
    let (label, value) = (name.to_owned(), typed.clone());
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(Role::TextInput, true, &label);
        info.current_text_value = Some(value.clone());
        info
    });
    let mut kept = None;
    if escaped {
        shown.clone_into(&mut typed);
        response.surrender_focus();
    } else if response.lost_focus() && typed != shown {
        kept = Some(typed.clone());
        shown.clone_into(&mut typed);
    }
    let active = response.has_focus();
    ui.data_mut(|data| {
        data.insert_temp(id, typed);
        data.insert_temp(id, active);
    });
    kept
}
