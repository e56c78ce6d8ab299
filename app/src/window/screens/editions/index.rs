//! The list at the left: works, the search, the sums.

use std::path::PathBuf;

use egui::{Button, Key, TextEdit, Ui, WidgetInfo, vec2};
use sightedge_studio::WorkRow;

use super::Editions;
use super::form::{FormPage, New};
use super::messages::Request;
use super::thumbs::{self, Thumbs};
use super::walk::{ROW, Scrolled, stepped, walk};
use crate::window::context::ScreenContext;
use crate::window::{theme, widgets};
use sightedge_service::record;

/// What the list at the left shows.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(super) enum Listed {
    #[default]
    Works,
    Shows,
}

/// The lists at the left.
#[derive(Debug, Default)]
pub(super) struct Lists {
    pub(super) listed: Listed,
    search: String,
    /// The works the search finds, for the text it was made with.
    found: Option<(String, Vec<usize>)>,
    /// The row of the works that has the keys.
    walking: Option<egui::Id>,
    scrolled: Scrolled,
}

impl Lists {
    /// The works are others, or others are held by those who are called so.
    pub(super) fn forget_found(&mut self) {
        self.found = None;
    }
}

impl Editions {
    pub(super) fn list(&mut self, ui: &mut Ui, cx: ScreenContext<'_>) {
        let options = [(Listed::Works, "Works"), (Listed::Shows, "Shows")];
        let width = ui.available_width();
        let now = Some(self.lists.listed);
        if let Some(listed) = widgets::choice(ui, "List", now, &options, width) {
            self.lists.listed = listed;
        }
        ui.add_space(8.0);
        match self.lists.listed {
            Listed::Works => self.works(ui, cx),
            Listed::Shows => self.shows(ui),
        }
    }

    fn works(&mut self, ui: &mut Ui, cx: ScreenContext<'_>) {
        let edit = TextEdit::singleline(&mut self.lists.search)
            .hint_text("Title, maker, number, buyer or show")
            .desired_width(f32::INFINITY);
        let response = ui.add(edit);
        let text = self.lists.search.clone();
        response.widget_info(|| {
            let mut info = WidgetInfo::text_edit(true, "", &text, "Title, maker");
            info.label = Some("Search".to_owned());
            info
        });
        if response.has_focus() && ui.input(|input| input.key_pressed(Key::Escape)) {
            self.lists.search.clear();
        }
        ui.add_space(4.0);
        let searching = response.has_focus();
        let Some(works) = &self.cache.works else { return };
        let sought = record::sought(&self.lists.search);
        let held = self.cache.held.as_ref().filter(|(text, _)| *text == sought);
        let ask_held = held.is_none() && !sought.is_empty();
        if self.lists.found.as_ref().is_none_or(|(text, _)| *text != sought) {
            let held = held.map(|(_, works)| works.as_slice()).unwrap_or_default();
            self.lists.found = Some((sought.clone(), record::found(works, &sought, held)));
        }
        let shown =
            self.lists.found.as_ref().map(|found| found.1.as_slice()).unwrap_or_default();
        let now = self.chosen.as_ref().map(|chosen| chosen.work);
        let mut chosen = None;
        let foot = 28.0 + 24.0 * lines(record::sums_in_words(&self.cache.sums).len());
        let tall = (ui.available_height() - foot - 16.0).max(80.0);
        let step = walk(ui, self.lists.walking, searching);
        self.lists.walking = None;
        let mut area = egui::ScrollArea::vertical().id_salt("works");
        let mut go_to = None;
        if let Some(step) = step {
            let at = shown
                .iter()
                .position(|row| works.get(*row).is_some_and(|row| Some(row.work.id) == now));
            let to = stepped(at, step, shown.len());
            let row = to.and_then(|to| works.get(*shown.get(to)?));
            if let (Some(to), Some(row)) = (to, row) {
                chosen = Some(row.work.id);
                go_to = Some(row.work.id);
                if let Some(offset) = self.lists.scrolled.with(to, tall) {
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
                    let on = now == Some(row.work.id);
                    let response = work_row(ui, row, on, &mut self.thumbs, &homes);
                    // So that the arrows go on from here.
                    if go_to == Some(row.work.id) || response.clicked() {
                        response.request_focus();
                    }
                    if response.has_focus() {
                        self.lists.walking = Some(response.id);
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
        if ask_held && self.cache.held.as_ref().is_none_or(|(text, _)| *text != sought) {
            // Reply empty until it is known, so that it is asked once.
            self.cache.held = Some((sought.clone(), Vec::new()));
            self.ask(Request::Held(sought));
        }
        self.lists.scrolled = Scrolled(output.state.clamped_offset().y);
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
        for text in record::sums_in_words(&self.cache.sums) {
            ui.add(egui::Label::new(widgets::quiet(ui, &text)).truncate());
        }
        let (mut add, mut home) = (false, false);
        ui.horizontal(|ui| {
            add = ui.add(Button::new("Add a work…")).clicked();
            let response = ui.add(Button::new("Record kept in…"));
            home = match self.place.home() {
                Some(home) => response.on_hover_text(home.folder.display().to_string()),
                None => response,
            }
            .clicked();
        });
        if add && self.may_leave() {
            let session = cx.session().filter(|_| self.work_of(cx).is_none());
            self.open_form(FormPage::New(New::of(session, &self.cache.maker)));
        }
        if home {
            self.page.choose_home();
        }
    }
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
