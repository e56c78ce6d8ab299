//! The list at the left: works or shows, the search, the sums.

use std::path::PathBuf;

use egui::{Button, Key, RichText, TextEdit, Ui, WidgetInfo, vec2};
use sightedge_studio::{Money, State, WorkRow};

use super::form::{New, Page};
use super::home::Choosing;
use super::papers::Papers;
use super::talk::Ask;
use super::thumbs::{self, Thumbs};
use super::walk::{Scrolled, stepped, walk};
use super::{Editions, Listed};
use crate::window::context::ScreenContext;
use crate::window::{theme, widgets};
use sightedge_service::record::printouts::Whole;
use sightedge_service::{record, wording};

pub(super) const ROW: f32 = 52.0;

impl Editions {
    pub(super) fn list(&mut self, ui: &mut Ui, cx: ScreenContext<'_>) {
        let options = [(Listed::Works, "Works"), (Listed::Shows, "Shows")];
        let width = ui.available_width();
        if let Some(listed) = widgets::choice(ui, "List", Some(self.listed), &options, width) {
            self.listed = listed;
        }
        ui.add_space(8.0);
        match self.listed {
            Listed::Works => self.works(ui, cx),
            Listed::Shows => self.shows(ui),
        }
    }

    fn works(&mut self, ui: &mut Ui, cx: ScreenContext<'_>) {
        let edit = TextEdit::singleline(&mut self.search)
            .hint_text("Title, maker, number, buyer or show")
            .desired_width(f32::INFINITY);
        let response = ui.add(edit);
        let text = self.search.clone();
        response.widget_info(|| {
            let mut info = WidgetInfo::text_edit(true, "", &text, "Title, maker");
            info.label = Some("Search".to_owned());
            info
        });
        if response.has_focus() && ui.input(|input| input.key_pressed(Key::Escape)) {
            self.search.clear();
        }
        ui.add_space(4.0);
        let searching = response.has_focus();
        let Some(works) = &self.works else { return };
        let sought = record::sought(&self.search);
        let held = self.held.as_ref().filter(|(text, _)| *text == sought);
        let ask_held = held.is_none() && !sought.is_empty();
        if self.found.as_ref().is_none_or(|(text, _)| *text != sought) {
            let held = held.map(|(_, works)| works.as_slice()).unwrap_or_default();
            self.found = Some((sought.clone(), record::found(works, &sought, held)));
        }
        let shown = self.found.as_ref().map(|found| found.1.as_slice()).unwrap_or_default();
        let mut chosen = None;
        let foot = 28.0 + 24.0 * lines(record::sums_in_words(&self.sums).len());
        let tall = (ui.available_height() - foot - 16.0).max(80.0);
        let step = walk(ui, self.walking, searching);
        self.walking = None;
        let mut area = egui::ScrollArea::vertical().id_salt("works");
        let mut go_to = None;
        if let Some(step) = step {
            let at = shown.iter().position(|row| {
                works.get(*row).is_some_and(|row| Some(row.work.id) == self.chosen)
            });
            let to = stepped(at, step, shown.len());
            let row = to.and_then(|to| works.get(*shown.get(to)?));
            if let (Some(to), Some(row)) = (to, row) {
                chosen = Some(row.work.id);
                go_to = Some(row.work.id);
                if let Some(offset) = self.scrolled.with(to, tall) {
                    area = area.vertical_scroll_offset(offset);
                }
            }
        }
        let homes =
            thumbs::homes(cx.sessions.iter().map(|(_, session)| session.plan.as_path()));
        let output = area
            .max_height(tall)
            .min_scrolled_height(tall)
            .auto_shrink([false, false])
            .show_rows(ui, ROW, shown.len(), |ui, range| {
                ui.spacing_mut().item_spacing.y = theme::GAP;
                for row in shown.get(range).into_iter().flatten() {
                    let Some(row) = works.get(*row) else { continue };
                    let on = self.chosen == Some(row.work.id);
                    let response = work_row(ui, row, on, &mut self.thumbs, &homes);
                    // So that the arrows go on from here.
                    if go_to == Some(row.work.id) || response.clicked() {
                        response.request_focus();
                    }
                    if response.has_focus() {
                        self.walking = Some(response.id);
                    }
                    if response.clicked() {
                        chosen = Some(row.work.id);
                    }
                }
                if shown.is_empty() && !works.is_empty() {
                    ui.label(widgets::quiet(
                        ui,
                        "No work is called so, nor held by one who is.",
                    ));
                }
            });
        if ask_held && self.held.as_ref().is_none_or(|(text, _)| *text != sought) {
            // Told empty until it is known, so that it is asked once.
            self.held = Some((sought.clone(), Vec::new()));
            self.ask(Ask::Held(sought));
        }
        self.scrolled = Scrolled(output.state.clamped_offset().y);
        self.below(ui, cx);
        if let Some(work) = chosen
            && self.may_leave()
        {
            self.choose(work);
        }
    }

    /// Below the list: the sums, and what can be added.
    fn below(&mut self, ui: &mut Ui, cx: ScreenContext<'_>) {
        ui.add_space(8.0);
        for text in record::sums_in_words(&self.sums) {
            ui.add(egui::Label::new(widgets::quiet(ui, &text)).truncate());
        }
        let (mut add, mut home) = (false, false);
        ui.horizontal(|ui| {
            add = ui.add(Button::new("Add a work…")).clicked();
            let response = ui.add(Button::new("Record kept in…"));
            home = match &self.home {
                Some(home) => response.on_hover_text(home.folder.display().to_string()),
                None => response,
            }
            .clicked();
        });
        if add && self.may_leave() {
            let session = cx.session().filter(|_| self.work_of(cx).is_none());
            self.form = Some(Page::New(New::of(session, &self.maker)).into());
            (self.papers, self.choosing) = (None, None);
        }
        if home {
            self.choosing = Some(Choosing::default());
        }
    }

    fn shows(&mut self, ui: &mut Ui) {
        if self.shows.is_empty() {
            ui.label(widgets::quiet(
                ui,
                "No print is at a show. Choose a number, name the show and press To the show.",
            ));
        }
        let mut ask = None;
        for (name, count) in &self.shows {
            let on = self.show.as_ref().is_some_and(|(shown, _)| shown == name);
            let words = format!("{name}  ·  {count}");
            let button = Button::new(RichText::new(words))
                .selected(on)
                .frame_when_inactive(false)
                .min_size(vec2(ui.available_width(), theme::ROW));
            if ui.add(button).clicked() {
                ask = Some(name.clone());
            }
        }
        if let Some(name) = ask {
            self.papers = None;
            self.ask(Ask::Show(name));
        }
    }

    /// What hangs at the show that was chosen.
    pub(super) fn show_list(&mut self, ui: &mut Ui, cx: ScreenContext<'_>) {
        let Some((name, list)) = &self.show else {
            ui.label(widgets::quiet(ui, "Choose a show to see what hangs there."));
            return;
        };
        ui.horizontal(|ui| {
            ui.label(RichText::new(name).family(theme::strong()).size(theme::HEADING));
            let hint = "Wall labels, prices, a consignment list, labels, certificates";
            if ui.button("Papers…").on_hover_text(hint).clicked() {
                self.papers = Some(Papers::of_show(cx, name, list.clone()));
            }
        });
        let sums = record::sums_in_words(&record::sums_of(list.iter().map(|one| &one.2)));
        let parts = [wording::count(list.len(), "print")].into_iter().chain(sums);
        let sum = parts.collect::<Vec<_>>().join("  ·  ");
        ui.add(egui::Label::new(widgets::quiet(ui, &sum)).truncate());
        ui.add_space(8.0);
        let mut chosen = None;
        egui::ScrollArea::vertical().id_salt("at show").auto_shrink([false, false]).show_rows(
            ui,
            theme::ROW,
            list.len(),
            |ui, range| {
                for whole in list.get(range).into_iter().flatten() {
                    if shown_row(ui, whole).clicked() {
                        let (work, edition, print) = whole;
                        chosen = Some((work.id, (edition.id, print.kind, print.number)));
                    }
                }
            },
        );
        if let Some((work, place)) = chosen {
            self.listed = Listed::Works;
            self.choose(work);
            self.edition = Some(place.0);
            self.place = Some(place);
        }
    }
}

/// A print at a show: its number, its work, what it costs or that it is sold.
fn shown_row(ui: &mut Ui, (work, edition, print): &Whole) -> egui::Response {
    let palette = theme::palette(ui);
    let size = vec2(ui.available_width() - 14.0, theme::ROW);
    let (rect, response) = ui.allocate_exact_size(size, egui::Sense::click());
    if response.hovered() {
        ui.painter().rect_filled(rect, 4.0, palette.hover);
    }
    if response.has_focus() {
        let stroke = egui::Stroke::new(1.5, palette.accent);
        ui.painter().rect_stroke(rect, 4.0, stroke, egui::StrokeKind::Inside);
    }
    let written = edition.what.notation(print.kind, print.number);
    let price = print.now.price.as_ref().map(Money::to_string);
    let price = match (print.now.state, price) {
        (State::Sold, None) => "sold".to_owned(),
        (State::Sold, Some(price)) => format!("sold, {price}"),
        (_, price) => price.unwrap_or_else(|| "no price".to_owned()),
    };
    let by = if work.what.maker.is_empty() { "" } else { ", " };
    let title = format!("{}{by}{}", work.what.title, work.what.maker);
    let font = egui::FontId::proportional(theme::BODY);
    let middle = rect.center().y;
    let text = |x: f32, align, words: &str| {
        let at = egui::pos2(x, middle);
        ui.painter().text(at, align, words, font.clone(), palette.text)
    };
    let right = text(rect.right() - 8.0, egui::Align2::RIGHT_CENTER, &price);
    text(rect.left() + 8.0, egui::Align2::LEFT_CENTER, &widgets::fitted(ui, &written, 80.0));
    let left = rect.left() + 96.0;
    let title_shown = widgets::fitted(ui, &title, (right.left() - 16.0 - left).max(40.0));
    text(left, egui::Align2::LEFT_CENTER, &title_shown);
    let name = format!("{written}   {title}   {price}");
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, &name));
    response.on_hover_text("Show its edition")
}

fn lines(count: usize) -> f32 {
    f32::from(u8::try_from(count).unwrap_or(u8::MAX))
}

/// A work: its picture, and in two lines its title and what there is of it.
fn work_row(
    ui: &mut Ui,
    row: &WorkRow,
    on: bool,
    thumbs: &mut Thumbs,
    homes: &[PathBuf],
) -> egui::Response {
    let palette = theme::palette(ui);
    let (_, rect) = ui.allocate_space(vec2(ui.available_width(), ROW));
    // Its own, so that the focus stays with the work while the list moves.
    let id = egui::Id::unique(("work", row.work.id));
    let response = ui.interact(rect, id, egui::Sense::click());
    if on || response.hovered() {
        ui.painter().rect_filled(rect, 4.0, palette.hover);
    }
    if response.has_focus() || on {
        let colour = if response.has_focus() { palette.accent } else { palette.line };
        ui.painter().rect_stroke(
            rect,
            4.0,
            egui::Stroke::new(1.0, colour),
            egui::StrokeKind::Inside,
        );
    }
    let counts: Vec<String> = row
        .editions
        .iter()
        .map(|one| format!("{} of {}", one.totals.issued, one.edition.what.size))
        .collect();
    let counts = counts.join(", ");
    let below = format!("{}  ·  {counts} issued", row.work.catalogue);
    let maker = &row.work.what.maker;
    let below = if maker.is_empty() { below } else { format!("{below}  ·  {maker}") };
    let missing =
        thumbs.show(ui, thumbs::place(rect), egui::Align::Center, &row.work.what, homes);
    let missing = missing.map(str::to_owned);
    let wide = rect.width() - 64.0;
    let title = widgets::fitted(ui, &row.work.what.title, wide);
    let at = rect.left_top() + vec2(56.0, 8.0);
    ui.painter().text(
        at,
        egui::Align2::LEFT_TOP,
        title,
        egui::FontId::proportional(theme::BODY),
        palette.text,
    );
    let below = widgets::fitted(ui, &below, wide * 1.1);
    ui.painter().text(
        at + vec2(0.0, 19.0),
        egui::Align2::LEFT_TOP,
        below,
        egui::FontId::proportional(theme::SMALL),
        palette.quiet,
    );
    let name = format!("{} {}, {counts} issued", row.work.catalogue, row.work.what.title);
    response.widget_info(|| WidgetInfo::selected(egui::Role::RadioButton, true, on, &name));
    match missing {
        Some(words) => response.on_hover_text(words),
        None => response,
    }
}
