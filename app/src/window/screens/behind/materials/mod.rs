//! Materials as tables: each cell is typed in; what is wrong is refused with the field and the
//! reason. What a person changes is their own and lies over what ships with the program.

mod cell;
mod columns;
mod past;

use egui::{CentralPanel, Frame, Margin, Panel, Role, ScrollArea, Ui, WidgetInfo, vec2};
use sightedge_core::material::{Cells, Kind, OwnTables, StepRow, cells};

use super::title;
use crate::window::context::{Requests, ScreenContext};
use crate::window::request::{Action, AppCommand};
use crate::window::theme;
use crate::window::widgets::quiet;
use columns::{BETWEEN, before, heads, text_in, widths};
use past::{Past, Way};

/// Which table is in front, and what is typed in it.
#[derive(Debug, Default)]
pub(super) struct Materials {
    kind: Kind,
    typed: Option<Typed>,
    /// Why the last cell was refused.
    wrong: Option<String>,
    /// The row that was added and is to be seen.
    fresh: Option<String>,
    past: Past,
}

/// A cell in hand.
#[derive(Debug)]
struct Typed {
    id: String,
    column: usize,
    text: String,
}

/// A button as wide as a sign, called `words`.
fn small_button(ui: &mut Ui, sign: &str, enabled: bool, words: &str, hint: &str) -> bool {
    let button = egui::Button::new(sign).min_size(vec2(34.0, theme::ROW));
    let response = ui.add_enabled(enabled, button);
    response.widget_info(|| WidgetInfo::labeled(Role::Button, enabled, words));
    response.on_hover_text(hint).clicked()
}

impl Materials {
    /// Puts a table in front.
    pub(super) fn turn_to(&mut self, kind: Kind) {
        let past = std::mem::take(&mut self.past);
        *self = Self { kind, past, ..Self::default() };
    }

    /// Undo and redo are the tables' here, so that no key changes a plan that is not in sight.
    pub(super) fn command(&mut self, command: &AppCommand) -> bool {
        self.past.asked = match command {
            AppCommand::Undo => Some(Way::Back),
            AppCommand::Redo => Some(Way::Forth),
            _ => return false,
        };
        true
    }

    /// What undo and redo would do.
    pub(super) fn steps(&self) -> (Option<&str>, Option<&str>) {
        self.past.names()
    }

    /// Changes the person's own rows, to be undone by that name.
    fn change(
        &mut self,
        name: String,
        own: OwnTables,
        cx: ScreenContext<'_>,
        requests: &mut Requests,
    ) {
        self.past.tell(name, self.kind, cx.own.clone());
        requests.actions.push(Action::Materials(Box::new(own)));
    }

    /// What was asked for since the last frame.
    fn go(&mut self, cx: ScreenContext<'_>, requests: &mut Requests) {
        let Some(way) = self.past.asked.take() else { return };
        let Some((name, kind, own)) = self.past.go(way, cx.own.clone()) else {
            let what = if way == Way::Back { "undo" } else { "redo" };
            requests.said = Some(format!(
                "Nothing to {what} in these tables. Changes of the plan are undone in Mat."
            ));
            return;
        };
        self.turn_to(kind);
        let words = if way == Way::Back { "Undid" } else { "Redid" };
        requests.said = Some(format!("{words}: {name}."));
        requests.actions.push(Action::Materials(Box::new(own)));
    }

    /// The list of tables.
    pub(super) fn kinds(&mut self, ui: &mut Ui) {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing = vec2(2.0, 2.0);
            for kind in Kind::ALL {
                let on = *kind == self.kind;
                let button = egui::Button::selectable(on, kind.name());
                let response = ui.add(button.min_size(vec2(0.0, theme::ROW)));
                let name = format!("Table: {}", kind.name());
                response
                    .widget_info(|| WidgetInfo::selected(Role::RadioButton, true, on, &name));
                if response.clicked() && !on {
                    self.turn_to(*kind);
                }
            }
        });
    }

    /// What is to be known of all tables, and of the one in front.
    fn notes(&self, ui: &mut Ui, cx: ScreenContext<'_>) {
        let place = cx.storage.materials_file().map_or_else(
            || "What you change is kept for this session.".to_owned(),
            |path| format!("What you change is your own and is kept in {}.", path.display()),
        );
        let words = format!(
            "{place} Each plan keeps its own copy of what it uses, so plans you made before stay \
             as they are: choose the row there again to use the change."
        );
        ui.add(egui::Label::new(quiet(ui, &words)).wrap());
        if self.kind == Kind::Steps {
            let when = StepRow::WHENS.get(1..).unwrap_or_default().join(", ");
            let words = format!(
                "Names in braces are filled in from the plan: {{{}}}. A bar | parts what is done, \
                 and the cautions. When: {when}, or nothing for every plan.",
                StepRow::FIGURES.join("}, {")
            );
            ui.add(egui::Label::new(quiet(ui, &words)).wrap());
        }
    }

    /// The table in front.
    pub(super) fn show(&mut self, ui: &mut Ui, cx: ScreenContext<'_>, requests: &mut Requests) {
        self.go(cx, requests);
        let palette = theme::palette(ui);
        let frame = Frame::new().fill(palette.panel).inner_margin(Margin::symmetric(12, 6));
        Panel::bottom("materials notes")
            .frame(frame)
            .show_separator_line(false)
            .show(ui, |ui| self.notes(ui, cx));
        let frame = Frame::new().fill(palette.panel).inner_margin(Margin::symmetric(12, 8));
        CentralPanel::default().frame(frame).show(ui, |ui| {
            ui.horizontal(|ui| {
                title(ui, self.kind.name());
                if ui.button("Add a row").clicked() {
                    self.add(cx, requests);
                }
                if self.kind == Kind::Steps && cx.own.has_order() {
                    let button = ui.button("The program’s order");
                    if button.on_hover_text("Drops your own order of the steps").clicked() {
                        let mut own = cx.own.clone();
                        own.forget_order();
                        self.change(
                            "the program’s order of steps".to_owned(),
                            own,
                            cx,
                            requests,
                        );
                    }
                }
                // What was typed is refused at its cell.
                let added = self.wrong.as_ref().filter(|_| self.typed.is_none());
                let words = added.cloned().unwrap_or_default();
                let text = egui::RichText::new(words).color(palette.fault);
                ui.add(egui::Label::new(text).truncate());
            });
            ui.add_space(4.0);
            ScrollArea::both().auto_shrink([false, false]).show(ui, |ui| {
                ui.spacing_mut().item_spacing = vec2(BETWEEN, 3.0);
                // The bar lies over what it scrolls.
                let widths = widths(self.kind, ui.available_width() - 12.0);
                let rows = cells(cx.tables, self.kind);
                heads(ui, self.kind, &widths);
                for (place, row) in rows.iter().enumerate() {
                    let ends = (place == 0, place + 1 == rows.len());
                    ui.horizontal_top(|ui| self.row(ui, (row, &widths), ends, cx, requests));
                }
            });
        });
    }

    fn row(
        &mut self,
        ui: &mut Ui,
        (row, widths): (&Cells, &[f32]),
        (first, last): (bool, bool),
        cx: ScreenContext<'_>,
        requests: &mut Requests,
    ) {
        let Some(id) = row.first() else { return };
        let own = cx.own.has(self.kind, id);
        let words = format!("{id}: restore");
        let hint = "Drops your change: a row of the program is restored, a row of your own \
                    goes. Undo restores yours";
        let room = before(self.kind).first().copied().unwrap_or_default();
        if !own {
            text_in(ui, room, egui::RichText::new(""));
        } else if small_button(ui, "×", true, &words, hint) {
            let mut own = cx.own.clone();
            own.remove(self.kind, id);
            self.typed = None;
            self.change(format!("{id} restored"), own, cx, requests);
            requests.said = Some(format!("Dropped your change of {id}. Undo restores it."));
        }
        if self.kind == Kind::Steps {
            for (sign, earlier, end) in [("↑", true, first), ("↓", false, last)] {
                let way = if earlier { "earlier" } else { "later" };
                let words = format!("{id}: {way}");
                let hint = format!("One place {way} in the order of work");
                if small_button(ui, sign, !end, &words, &hint) {
                    let mut own = cx.own.clone();
                    own.move_step(cx.tables, id, earlier);
                    self.change(format!("{id} moved {way}"), own, cx, requests);
                }
            }
        }
        for (column, (cell, width)) in row.iter().zip(widths).enumerate() {
            self.cell(ui, row, id, (column, cell, *width), own, cx, requests);
        }
    }

    /// A row of the person's own, like the last one.
    fn add(&mut self, cx: ScreenContext<'_>, requests: &mut Requests) {
        let rows = cells(cx.tables, self.kind);
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
        let mut own = cx.own.clone();
        match own.put(self.kind, row) {
            Ok(()) => {
                (self.typed, self.wrong) = (None, None);
                self.change(format!("{id} added"), own, cx, requests);
                self.fresh = Some(id);
            }
            Err(error) => self.wrong = Some(error.to_string()),
        }
    }
}
