//! Materials as tables: each cell is typed in; what is wrong is refused with the field and the
//! reason. What a person changes is their own and lies over what ships with the program.

use egui::{
    CentralPanel, Frame, Key, Margin, Role, ScrollArea, Stroke, StrokeKind, TextEdit, Ui,
    WidgetInfo, vec2,
};
use sightedge_core::material::{Cells, Form, Kind, StepRow, cells};

use super::title;
use crate::action::Action;
use crate::panels::Asks;
use crate::rooms::Hall;
use crate::theme;
use crate::widgets::quiet;

/// Which table is in front, and what is typed in it.
#[derive(Debug, Default)]
pub(super) struct Materials {
    kind: Kind,
    typed: Option<Typed>,
    /// Why the last cell was refused.
    wrong: Option<String>,
}

/// A cell in hand.
#[derive(Debug)]
struct Typed {
    id: String,
    column: usize,
    text: String,
}

/// The width of the buttons that order a row, and of the one that gives it up.
const ORDER: f32 = 80.0;
const GIVE_UP: f32 = 38.0;

/// A button as wide as a sign, called `words`.
fn small_button(ui: &mut Ui, sign: &str, enabled: bool, words: &str, hint: &str) -> bool {
    let size = vec2(34.0, theme::ROW);
    let (rect, _) = ui.allocate_exact_size(size, egui::Sense::hover());
    let button = egui::Button::new(sign);
    let response = ui.add_enabled_ui(enabled, |ui| ui.put(rect, button)).inner;
    response.widget_info(|| WidgetInfo::labeled(Role::Button, enabled, words));
    response.on_hover_text(hint).clicked()
}

/// Text at the left of a cell.
fn text_in(ui: &mut Ui, width: f32, text: egui::RichText) {
    let left = egui::Layout::left_to_right(egui::Align::Center);
    ui.allocate_ui_with_layout(vec2(width, theme::ROW), left, |ui| {
        ui.set_min_width(width);
        ui.add(egui::Label::new(text).truncate());
    });
}

/// The width of a column, in points, by what it holds.
fn wide(kind: Kind, column: usize) -> f32 {
    let Some(field) = kind.fields().get(column) else { return 80.0 };
    // All of a step beside each other; its words wrap.
    if kind == Kind::Steps {
        return match field.key {
            "id" => 70.0,
            "title" => 126.0,
            "text" => 228.0,
            "cautions" => 124.0,
            _ => 98.0,
        };
    }
    match (field.key, field.form) {
        ("name", _) => 210.0,
        ("id" | "origin" | "process" | "fibre" | "grade" | "sheets", _) => 136.0,
        (_, Form::Whole | Form::OpenWhole | Form::YesNo) => 72.0,
        _ => 92.0,
    }
}

impl Materials {
    /// Puts a table in front.
    pub(super) fn turn_to(&mut self, kind: Kind) {
        *self = Self { kind, ..Self::default() };
    }

    /// The list of tables.
    pub(super) fn kinds(&mut self, ui: &mut Ui, hall: Hall<'_>) {
        ui.add_space(8.0);
        for kind in Kind::ALL {
            let on = *kind == self.kind;
            let size = vec2(ui.available_width(), 30.0);
            let button = egui::Button::selectable(on, kind.name()).min_size(size);
            let response = ui.add(button);
            let name = format!("Table: {}", kind.name());
            response.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, on, &name));
            if response.clicked() && !on {
                self.turn_to(*kind);
            }
        }
        ui.add_space(12.0);
        let place = hall.keep.materials_file().map_or_else(
            || "What you change is kept for this session.".to_owned(),
            |path| format!("What you change is your own and is kept in {}.", path.display()),
        );
        ui.add(egui::Label::new(quiet(ui, &place)).wrap());
        ui.add_space(6.0);
        let words = "A plan keeps its own copy of what it uses: a change here changes no plan \
                     that was made before. Choose it anew there to take it over.";
        ui.add(egui::Label::new(quiet(ui, words)).wrap());
        if self.kind == Kind::Steps {
            ui.add_space(6.0);
            let when = StepRow::WHENS.get(1..).unwrap_or_default().join(", ");
            let words = format!(
                "Names in braces are filled in from the plan: {{{}}}. What is done is read \
                 in parts, a bar between them, as between cautions. When: {when}, or nothing for every plan.",
                StepRow::FIGURES.join("}, {")
            );
            ui.add(egui::Label::new(quiet(ui, &words)).wrap());
        }
    }

    /// The table in front.
    pub(super) fn show(&mut self, ui: &mut Ui, hall: Hall<'_>, asks: &mut Asks) {
        let palette = theme::palette(ui);
        let frame = Frame::new().fill(palette.panel).inner_margin(Margin::symmetric(16, 10));
        CentralPanel::default().frame(frame).show(ui, |ui| {
            ui.horizontal(|ui| {
                title(ui, self.kind.name());
                if ui.button("Add a row").clicked() {
                    self.add(hall, asks);
                }
                if self.kind == Kind::Steps && hall.own.has_order() {
                    let button = ui.button("The program’s order");
                    if button.on_hover_text("Gives up your own order of the steps").clicked() {
                        let mut own = hall.own.clone();
                        own.forget_order();
                        asks.actions.push(Action::Materials(Box::new(own)));
                    }
                }
                let words = self.wrong.clone().unwrap_or_default();
                let text = egui::RichText::new(words).color(palette.stop);
                ui.add(egui::Label::new(text).truncate());
            });
            ui.add_space(4.0);
            ScrollArea::both().auto_shrink([false, false]).show(ui, |ui| {
                ui.spacing_mut().item_spacing = vec2(4.0, 3.0);
                let rows = cells(hall.tables, self.kind);
                ui.horizontal_top(|ui| {
                    text_in(ui, GIVE_UP, egui::RichText::new(""));
                    if self.kind == Kind::Steps {
                        text_in(ui, ORDER, quiet(ui, "order"));
                    }
                    for (column, field) in self.kind.fields().iter().enumerate() {
                        text_in(ui, wide(self.kind, column), quiet(ui, field.heading));
                    }
                });
                for (place, row) in rows.iter().enumerate() {
                    let ends = (place == 0, place + 1 == rows.len());
                    ui.horizontal_top(|ui| self.row(ui, row, ends, hall, asks));
                }
            });
        });
    }

    fn row(
        &mut self,
        ui: &mut Ui,
        row: &Cells,
        (first, last): (bool, bool),
        hall: Hall<'_>,
        asks: &mut Asks,
    ) {
        let Some(id) = row.first() else { return };
        let own = hall.own.has(self.kind, id);
        let words = format!("{id}: give up what you changed");
        let hint = "Give up what you changed; a row of the program comes back as it was";
        if !own {
            text_in(ui, GIVE_UP, egui::RichText::new(""));
        } else if small_button(ui, "×", true, &words, hint) {
            let mut own = hall.own.clone();
            own.remove(self.kind, id);
            self.typed = None;
            asks.actions.push(Action::Materials(Box::new(own)));
        }
        if self.kind == Kind::Steps {
            for (sign, earlier, end) in [("↑", true, first), ("↓", false, last)] {
                let way = if earlier { "earlier" } else { "later" };
                let words = format!("{id}: {way}");
                let hint = format!("One place {way} in the order of work");
                if small_button(ui, sign, !end, &words, &hint) {
                    let mut own = hall.own.clone();
                    own.move_step(hall.tables, id, earlier);
                    asks.actions.push(Action::Materials(Box::new(own)));
                }
            }
        }
        for (column, cell) in row.iter().enumerate() {
            self.cell(ui, row, id, (column, cell), own, hall, asks);
        }
    }

    #[expect(clippy::too_many_arguments, reason = "a cell, its row and its table")]
    fn cell(
        &mut self,
        ui: &mut Ui,
        row: &Cells,
        id: &str,
        (column, cell): (usize, &str),
        own: bool,
        hall: Hall<'_>,
        asks: &mut Asks,
    ) {
        let palette = theme::palette(ui);
        let width = wide(self.kind, column);
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
            let down = egui::Layout::top_down(egui::Align::LEFT);
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
            let stroke = Stroke::new(1.5, palette.stop);
            ui.painter().rect_stroke(response.rect, 4.0, stroke, StrokeKind::Inside);
        }
        if response.changed() {
            self.typed = Some(Typed { id: id.to_owned(), column, text: text.clone() });
            self.wrong = None;
        }
        let response = if !words && text.chars().count() > 24 && !response.has_focus() {
            response.on_hover_text(&text)
        } else {
            response
        };
        let here = self.typed.as_ref().is_some_and(|one| one.id == id && one.column == column);
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
        let mut own = hall.own.clone();
        if column == 0 {
            let new = changed.first().map(|new| new.trim().to_owned()).unwrap_or_default();
            if cells(hall.tables, self.kind).iter().any(|row| row.first() == Some(&new)) {
                self.wrong =
                    Some(format!("{id}, name: \"{new}\" is there already: another is wanted"));
                return;
            }
            own.remove(self.kind, id);
        }
        match own.put(self.kind, changed) {
            Ok(()) => {
                self.typed = None;
                self.wrong = None;
                asks.actions.push(Action::Materials(Box::new(own)));
            }
            Err(error) => self.wrong = Some(error.to_string()),
        }
    }

    /// A row of the person's own, like the last one.
    fn add(&mut self, hall: Hall<'_>, asks: &mut Asks) {
        let rows = cells(hall.tables, self.kind);
        let Some(mut row) = rows.last().cloned() else { return };
        let taken = |id: &str| rows.iter().any(|row| row.first().is_some_and(|one| one == id));
        // Letters alone, for steps know no digits.
        let pairs = ('a'..='z').flat_map(|a| ('a'..='z').map(move |b| format!("own-{a}{b}")));
        let free = std::iter::once("own".to_owned()).chain(pairs).find(|id| !taken(id));
        let Some(id) = free else { return };
        for (place, (cell, field)) in row.iter_mut().zip(self.kind.fields()).enumerate() {
            match field.key {
                _ if place == 0 => cell.clone_from(&id),
                "name" | "title" => "My own".clone_into(cell),
                "origin" => "measured".clone_into(cell),
                _ => {}
            }
        }
        let mut own = hall.own.clone();
        match own.put(self.kind, row) {
            Ok(()) => asks.actions.push(Action::Materials(Box::new(own))),
            Err(error) => self.wrong = Some(error.to_string()),
        }
    }
}
