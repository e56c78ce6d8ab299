//! One cell of a table, as it is typed in.

use egui::{Align, Key, Margin, Role, Stroke, StrokeKind, TextEdit, Ui, WidgetInfo, vec2};
use sightedge_core::material::{Cells, Kind, cells};

use super::columns::{hint, text_in};
use super::{Materials, Typed};
use crate::window::context::{Requests, ScreenContext};
use crate::window::theme;
use crate::window::widgets::{fitted, select_all, tell_typing};

impl Materials {
    #[expect(clippy::too_many_arguments, reason = "a cell, its row and its table")]
    pub(super) fn cell(
        &mut self,
        ui: &mut Ui,
        row: &Cells,
        id: &str,
        (column, cell, width): (usize, &str, f32),
        own: bool,
        cx: ScreenContext<'_>,
        requests: &mut Requests,
    ) {
        let palette = theme::palette(ui);
        // The id is how plans and other rows know it: it is given once. A size has a name only.
        let named = own && self.kind.fields().first().is_some_and(|field| field.key == "name");
        if column == 0 && !named {
            let text = egui::RichText::new(id).size(theme::SMALL);
            let text = if own { text.color(palette.accent) } else { text.color(palette.quiet) };
            text_in(ui, width, text);
            return;
        }
        let here = self.typed.as_ref().filter(|typed| typed.id == id && typed.column == column);
        let mut text = here.map_or(cell, |typed| typed.text.as_str()).to_owned();
        let wrong = here.is_some() && self.wrong.is_some();
        // The words of a step are read whole; Enter keeps them, as in every other cell.
        let words = self.kind == Kind::Steps && column < 4;
        let edit = if words {
            TextEdit::multiline(&mut text)
        } else {
            TextEdit::singleline(&mut text)
        };
        let edit = edit.id_salt((self.kind.key(), id, column)).margin(Margin::symmetric(6, 5));
        let response = if words {
            let edit = edit.desired_rows(1).desired_width(width).return_key(None);
            let room = vec2(width, theme::ROW);
            let down = egui::Layout::top_down(Align::LEFT);
            let response = ui
                .allocate_ui_with_layout(room, down, |ui| {
                    ui.set_width(width);
                    ui.add(edit)
                })
                .inner;
            if response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
                response.surrender_focus();
            }
            response
        } else {
            ui.add_sized([width, theme::ROW], edit)
        };
        let heading = self.kind.fields().get(column).map_or("", |field| field.heading);
        let name = format!("{id}, {heading}");
        response.widget_info(|| {
            let mut info = WidgetInfo::labeled(Role::TextInput, true, &name);
            info.current_text_value = Some(text.clone());
            info
        });
        if wrong {
            let stroke = Stroke::new(1.5, palette.fault);
            ui.painter().rect_stroke(response.rect, 4.0, stroke, StrokeKind::Inside);
            if let Some(why) = &self.wrong {
                response.show_tooltip_text(why);
            }
        }
        if response.changed() {
            self.typed = Some(Typed { id: id.to_owned(), column, text: text.clone() });
            self.wrong = None;
        }
        if self.fresh.as_deref() == Some(id) {
            // A row that was just added is seen, and its first field typed in.
            self.fresh = None;
            response.request_focus();
            response.scroll_to_me(Some(Align::Center));
            select_all(ui, response.id, text.chars().count());
        }
        let cut = || fitted(ui, &text, width - 12.0) != text;
        let response = if wrong || response.has_focus() {
            response
        } else if !words && cut() {
            response.on_hover_text(&text)
        } else {
            let key = self.kind.fields().get(column).map_or("", |field| field.key);
            response.on_hover_text(hint(key))
        };
        let here = self.typed.as_ref().is_some_and(|one| one.id == id && one.column == column);
        if here && response.has_focus() {
            tell_typing(ui.ctx());
        }
        if !response.lost_focus() || !here {
            return;
        }
        if ui.input(|input| input.key_pressed(Key::Escape)) || text == cell {
            self.typed = None;
            self.wrong = None;
            return;
        }
        let mut changed = row.clone();
        if let Some(cell) = changed.get_mut(column) {
            *cell = text;
        }
        let mut own = cx.own.clone();
        if column == 0 {
            let new = changed.first().map(|new| new.trim().to_owned()).unwrap_or_default();
            if cells(cx.tables, self.kind).iter().any(|row| row.first() == Some(&new)) {
                self.wrong = Some(format!("{id}, name: \"{new}\" is taken: give another name"));
                return;
            }
            own.remove(self.kind, id);
        }
        match own.put(self.kind, changed) {
            Ok(()) => {
                self.typed = None;
                self.wrong = None;
                self.change(format!("{id}, {heading}"), own, cx, requests);
            }
            Err(error) => self.wrong = Some(error.to_string()),
        }
    }
}
