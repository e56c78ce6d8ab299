//! The list at the left: works, the search, the sums.

use std::path::PathBuf;

use egui::{Button, Key, Stroke, StrokeKind, TextEdit, Ui, WidgetInfo, vec2};
use sightedge_studio::{Print, WorkId, WorkRow};

use super::Editions;
use super::form::{FormPage, New};
use super::messages::Request;
use super::thumbs::{self, Thumbs};
use super::walk::{ROW, Scrolled, stepped, walk};
use crate::window::context::ScreenContext;
use crate::window::{theme, widgets};
use sightedge_service::record::{self, Withdrawn};

/// What the list at the left shows.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(super) enum Listed {
    #[default]
    Works,
    Shows,
}

/// A row of the list of works.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Row {
    /// The work at that place of the index.
    Work(usize),
    /// The print at that place of those whose buyer or show the search finds; it is of the work
    /// above.
    Print(usize),
}

/// The works that are found, each with the prints that the search finds by buyer or show.
fn rows(
    works: &[WorkRow],
    sought: &str,
    held: &[(WorkId, Print)],
    withdrawn: Withdrawn,
) -> Vec<Row> {
    let mut rows = Vec::new();
    for at in record::found(works, sought, held, withdrawn) {
        rows.push(Row::Work(at));
        let work = works.get(at).map(|row| row.work.id);
        let from = held.partition_point(|(of, _)| Some(*of) < work);
        let its = held.iter().enumerate().skip(from);
        let its = its.take_while(|(_, (of, _))| Some(*of) == work);
        rows.extend(its.map(|(at, _)| Row::Print(at)));
    }
    rows
}

/// The lists at the left.
#[derive(Debug, Default)]
pub(super) struct Lists {
    pub(super) listed: Listed,
    search: String,
    /// Whether the works that were withdrawn are listed, and no others.
    withdrawn: Withdrawn,
    /// The show that gets another name, as it is typed.
    pub(super) renaming: Option<String>,
    /// The show that an arrow led to.
    pub(super) walk_to: Option<String>,
    /// What the search finds, for the text it was made with.
    found: Option<(String, Vec<Row>)>,
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
        let searching = self.search_field(ui);
        let Some(works) = &self.cache.works else { return };
        let sought = record::sought(&self.lists.search);
        let held = self.cache.held.as_ref().filter(|(text, _)| *text == sought);
        let ask_held = held.is_none() && !sought.is_empty();
        let held = held.map(|(_, prints)| prints.as_slice()).unwrap_or_default();
        if self.lists.found.as_ref().is_none_or(|(text, _)| *text != sought) {
            let found = rows(works, &sought, held, self.lists.withdrawn);
            self.lists.found = Some((sought.clone(), found));
        }
        let shown =
            self.lists.found.as_ref().map(|found| found.1.as_slice()).unwrap_or_default();
        let now = self.chosen.as_ref().map(|chosen| chosen.work);
        let number = self.edition_in_front().and_then(|one| Some((one.id, one.number?)));
        let target = |row: Row| match row {
            Row::Work(at) => works.get(at).map(|row| (row.work.id, None)),
            Row::Print(at) => held.get(at).map(|(work, print)| (*work, Some(print))),
        };
        let on = |row: Row| match target(row) {
            Some((work, None)) => Some(work) == now,
            Some((work, Some(print))) => {
                Some(work) == now && number == Some((print.edition, (print.kind, print.number)))
            }
            None => false,
        };
        let mut chosen = None;
        let (withdrawn, more) = self.withdrawn_works(works);
        let foot = 28.0 + 24.0 * lines(record::sums_in_words(&self.cache.sums).len() + more);
        let tall = (ui.available_height() - foot - 16.0).max(80.0);
        let step = walk(ui, self.lists.walking, searching);
        self.lists.walking = None;
        let mut area = egui::ScrollArea::vertical().id_salt("works");
        let mut go_to = None;
        if let Some(step) = step {
            // A print in front is further down than its work.
            let at = shown.iter().rposition(|row| on(*row));
            let to = stepped(at, step, shown.len());
            if let Some((to, row)) = to.and_then(|to| Some((to, *shown.get(to)?))) {
                chosen = target(row);
                go_to = Some(row);
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
                for row in shown.get(range).into_iter().flatten().copied() {
                    let response = match row {
                        Row::Work(at) => {
                            let Some(of) = works.get(at) else { continue };
                            work_row(ui, of, on(row), &mut self.thumbs, &homes)
                        }
                        Row::Print(at) => {
                            let Some((work, print)) = held.get(at) else { continue };
                            let of = works.iter().find(|row| row.work.id == *work);
                            let Some(of) = of else { continue };
                            print_row(ui, of, print, on(row))
                        }
                    };
                    // So that the arrows go on from here.
                    if go_to == Some(row) || response.clicked() {
                        response.request_focus();
                    }
                    if response.has_focus() {
                        self.lists.walking = Some(response.id);
                    }
                    if response.clicked() {
                        chosen = target(row);
                    }
                }
                if shown.is_empty() && !works.is_empty() {
                    let told = nothing_found(&sought, self.lists.withdrawn);
                    ui.label(widgets::quiet(ui, told));
                }
            });
        let chosen = chosen.map(|(work, print)| {
            (work, print.map(|print| (print.edition, (print.kind, print.number))))
        });
        if ask_held && self.cache.held.as_ref().is_none_or(|(text, _)| *text != sought) {
            // Empty until it is known, so that it is asked once.
            self.cache.held = Some((sought.clone(), Vec::new()));
            self.ask(Request::Held(sought));
        }
        self.lists.scrolled = Scrolled(output.state.clamped_offset().y);
        self.below(ui, cx, withdrawn);
        if let Some((work, print)) = chosen
            && self.may_leave()
        {
            // A work is looked at anew; of one in front another print is.
            if print.is_none() || now != Some(work) {
                self.choose(work);
            }
            if let (Some(chosen), Some((edition, number))) = (&mut self.chosen, print) {
                chosen.look_at_number(edition, number);
                self.cache.history = None;
            }
        }
    }

    /// How many works are withdrawn, and the lines that say so.
    fn withdrawn_works(&self, works: &[WorkRow]) -> (usize, usize) {
        let count = works.iter().filter(|row| row.work.withdrawn).count();
        (count, usize::from(count > 0 || self.lists.withdrawn == Withdrawn::Only))
    }

    /// The field for the search; whether one types there.
    fn search_field(&mut self, ui: &mut Ui) -> bool {
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
        response.has_focus()
    }

    /// Below the list: the sums, and what can be added; `withdrawn` works are in the record.
    fn below(&mut self, ui: &mut Ui, cx: ScreenContext<'_>, withdrawn: usize) {
        ui.add_space(8.0);
        let mut only = self.lists.withdrawn == Withdrawn::Only;
        if withdrawn > 0 || only {
            let words = format!("Show withdrawn works ({withdrawn})");
            let hint = "Entered by mistake and taken off the list; they can be brought back";
            if ui.checkbox(&mut only, words).on_hover_text(hint).changed() {
                self.lists.withdrawn = if only { Withdrawn::Only } else { Withdrawn::Hidden };
                self.lists.forget_found();
            }
        }
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

/// What an empty list says.
const fn nothing_found(sought: &str, withdrawn: Withdrawn) -> &'static str {
    match (sought.is_empty(), withdrawn) {
        (true, Withdrawn::Only) => "No work is withdrawn.",
        (true, Withdrawn::Hidden) => "Every work is withdrawn.",
        (false, _) => "No work, buyer or show matches.",
    }
}

fn lines(count: usize) -> f32 {
    f32::from(u8::try_from(count).unwrap_or(u8::MAX))
}

/// The place of a row, which has an id of its own so that the focus stays with it while the list
/// moves; `on`: it is chosen.
fn row_place(ui: &mut Ui, id: egui::Id, on: bool) -> (egui::Rect, egui::Response) {
    let palette = theme::palette(ui);
    let (_, rect) = ui.allocate_space(vec2(ui.available_width(), ROW));
    let response = ui.interact(rect, id, egui::Sense::click());
    if on || response.hovered() {
        ui.painter().rect_filled(rect, 4.0, palette.hover);
    }
    if response.has_focus() || on {
        let colour = if response.has_focus() { palette.accent } else { palette.line };
        ui.painter().rect_stroke(rect, 4.0, Stroke::new(1.0, colour), StrokeKind::Inside);
    }
    (rect, response)
}

/// Two lines of a row, the second one quieter.
fn two_lines(ui: &Ui, rect: egui::Rect, first: &str, second: &str) {
    let palette = theme::palette(ui);
    let wide = rect.width() - 64.0;
    let at = rect.left_top() + vec2(56.0, 8.0);
    let text = |at, words: String, size, colour| {
        let font = egui::FontId::proportional(size);
        ui.painter().text(at, egui::Align2::LEFT_TOP, words, font, colour);
    };
    text(at, widgets::fitted(ui, first, wide), theme::BODY, palette.text);
    let below = widgets::fitted(ui, second, wide * 1.1);
    text(at + vec2(0.0, 19.0), below, theme::SMALL, palette.quiet);
}

/// A print that the search found by its buyer or show, below its work.
fn print_row(ui: &mut Ui, of: &WorkRow, print: &Print, on: bool) -> egui::Response {
    let (rect, response) = row_place(ui, egui::Id::unique(("held", print.id)), on);
    let edition = of.editions.iter().find(|one| one.edition.id == print.edition);
    let written = edition
        .map_or_else(String::new, |one| one.edition.what.notation(print.kind, print.number));
    let details = record::details_in_words(&print.now).join("  ·  ");
    two_lines(ui, rect, &written, &details);
    let name = format!("{} {written}, {details}", of.work.catalogue);
    response.widget_info(|| WidgetInfo::selected(egui::Role::RadioButton, true, on, &name));
    response.on_hover_text(name)
}

/// A work: its picture, and in two lines its title and what there is of it.
fn work_row(
    ui: &mut Ui,
    row: &WorkRow,
    on: bool,
    thumbs: &mut Thumbs,
    homes: &[PathBuf],
) -> egui::Response {
    let (rect, response) = row_place(ui, egui::Id::unique(("work", row.work.id)), on);
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
    two_lines(ui, rect, &row.work.what.title, &below);
    let name = format!("{} {}, {counts} issued", row.work.catalogue, row.work.what.title);
    response.widget_info(|| WidgetInfo::selected(egui::Role::RadioButton, true, on, &name));
    let whole = format!("{}\n{below}", row.work.what.title);
    response.on_hover_text(match missing {
        Some(words) => format!("{whole}\n{words}"),
        None => whole,
    })
}
