//! A field for a folder, to be typed or chosen.

use std::path::{Path, PathBuf};

use egui::{Button, Role, TextEdit, Ui, WidgetInfo};

use super::{fitted, quiet};
use crate::window::theme;

/// A folder in a row of its own, to be typed or chosen; whether it is to be chosen.
pub fn folder_row(
    ui: &mut Ui,
    label: &str,
    name: &str,
    folder: &Path,
    wish: &mut Option<PathBuf>,
) -> bool {
    ui.add_space(theme::GAP);
    ui.label(quiet(ui, label));
    ui.horizontal(|ui| {
        ui.set_max_width(ui.available_width());
        let button = 76.0;
        let width = ui.available_width() - button - 8.0;
        let id = ui.make_persistent_id(name);
        let whole = folder.display().to_string();
        // While it is typed it is what was typed; at rest the end of a long path is what tells
        // folders apart.
        let focused = ui.memory(|memory| memory.has_focus(id));
        let typed = ui.data(|data| data.get_temp::<String>(id)).filter(|_| focused);
        let mut text = match typed {
            Some(typed) => typed,
            None if focused => whole.clone(),
            None => ending(ui, &whole, width - 28.0),
        };
        let edit = TextEdit::singleline(&mut text)
            .id(id)
            .desired_width(width - 16.0)
            .margin(egui::Margin::symmetric(8, 5));
        let response = ui.add(edit).on_hover_text(&whole);
        response.widget_info(|| {
            let mut info = WidgetInfo::labeled(Role::TextInput, true, name);
            info.current_text_value = Some(if focused { text.clone() } else { whole.clone() });
            info
        });
        if response.lost_focus() {
            ui.data_mut(|data| data.remove::<String>(id));
            if focused {
                *wish = Some(PathBuf::from(text.trim())).filter(|path| path.is_absolute());
            }
        } else if focused {
            ui.data_mut(|data| data.insert_temp(id, text));
        }
        ui.add_sized([button, theme::ROW], Button::new("Choose…"))
            .on_hover_text(format!("{name}: choose"))
            .clicked()
    })
    .inner
}

/// The end of a path that fits.
fn ending(ui: &Ui, path: &str, width: f32) -> String {
    let backwards: String = path.chars().rev().collect();
    let cut = fitted(ui, &backwards, width);
    cut.chars().rev().collect()
}
