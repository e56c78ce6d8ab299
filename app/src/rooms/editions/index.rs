//! The list at the left: works or shows, the search, the sums.

use egui::{Button, Key, Rect, RichText, TextEdit, Ui, WidgetInfo, vec2};
use sightedge_studio::{Money, WorkRow};

use super::form::Form;
use super::home::Choosing;
use super::papers::Papers;
use super::pictures::Face;
use super::record::Ask;
use super::{Editions, Listed};
use crate::rooms::Hall;
use crate::{theme, widgets};

const ROW: f32 = 44.0;

impl Editions {
    pub(super) fn list(&mut self, ui: &mut Ui, hall: Hall<'_>) {
        let options = [(Listed::Works, "Works"), (Listed::Shows, "Shows")];
        let width = ui.available_width();
        if let Some(listed) = widgets::choice(ui, "List", Some(self.listed), &options, width) {
            self.listed = listed;
        }
        ui.add_space(8.0);
        match self.listed {
            Listed::Works => self.works(ui, hall),
            Listed::Shows => self.shows(ui),
        }
    }

    fn works(&mut self, ui: &mut Ui, hall: Hall<'_>) {
        let edit = TextEdit::singleline(&mut self.search)
            .hint_text("Title, maker or catalogue number")
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
        let Some(works) = &self.works else { return };
        let sought = self.search.trim().to_lowercase();
        if self.found.as_ref().is_none_or(|(text, _)| *text != sought) {
            self.found = Some((sought.clone(), found(works, &sought)));
        }
        let shown = self.found.as_ref().map(|found| found.1.as_slice()).unwrap_or_default();
        let mut chosen = None;
        self.pictures.begin(ui.ctx());
        let foot = 28.0 + 24.0 * lines(self.sums.len());
        let tall = (ui.available_height() - foot - 16.0).max(80.0);
        egui::ScrollArea::vertical()
            .id_salt("works")
            .max_height(tall)
            .min_scrolled_height(tall)
            .auto_shrink([false, false])
            .show_rows(ui, ROW, shown.len(), |ui, range| {
                ui.spacing_mut().item_spacing.y = theme::GAP;
                for row in shown.get(range).into_iter().flatten() {
                    let Some(row) = works.get(*row) else { continue };
                    let on = self.chosen == Some(row.work.id);
                    let longest = longest(ui);
                    let of = (row.work.id, row.work.what.picture.as_str());
                    let face = self.pictures.face(ui.ctx(), hall.small, of, longest);
                    if work_row(ui, row, on, &face) {
                        chosen = Some(row.work.id);
                    }
                }
                if shown.is_empty() && !works.is_empty() {
                    ui.label(widgets::quiet(ui, "No work is called so."));
                }
            });
        self.pictures.end();
        ui.add_space(8.0);
        for sum in &self.sums {
            let money = |cents| Money { cents, currency: sum.currency.clone() };
            let mut parts = Vec::new();
            for (count, what, cents) in [
                (sum.sold, "sold for", sum.sold_cents),
                (sum.offered, "offered at", sum.offered_cents),
            ] {
                if count > 0 {
                    parts.push(format!("{count} {what} {}", money(cents)));
                }
            }
            let text = parts.join("  ·  ");
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
        if add {
            let desk = hall.desk().filter(|_| self.work_of(hall).is_none());
            self.form = Some(Form::of(desk, &self.maker));
            (self.papers, self.choosing) = (None, None);
        }
        if home {
            self.choosing = Some(Choosing::default());
        }
        if let Some(work) = chosen {
            self.form = None;
            self.choose(work);
        }
    }

    fn shows(&mut self, ui: &mut Ui) {
        if self.shows.is_empty() {
            ui.label(widgets::quiet(
                ui,
                "No print is at a show. Choose a number and press To a show.",
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
    pub(super) fn show_list(&mut self, ui: &mut Ui, hall: Hall<'_>) {
        let Some((name, list)) = &self.show else {
            ui.label(widgets::quiet(ui, "Choose a show to see what hangs there."));
            return;
        };
        ui.horizontal(|ui| {
            ui.label(RichText::new(name).family(theme::strong()).size(theme::HEADING));
            let hint = "Wall labels, prices, a consignment list, labels, certificates";
            if ui.button("Papers…").on_hover_text(hint).clicked() {
                self.papers = Some(Papers::of_show(hall, name, list.clone()));
            }
        });
        ui.add_space(8.0);
        let mut chosen = None;
        egui::ScrollArea::vertical().id_salt("at show").auto_shrink([false, false]).show_rows(
            ui,
            theme::ROW,
            list.len(),
            |ui, range| {
                for (work, edition, print) in list.get(range).into_iter().flatten() {
                    let written = edition.what.notation(print.kind, print.number);
                    let price = print.now.price.as_ref().map(ToString::to_string);
                    let line = format!(
                        "{}   {}, {}   {}",
                        written,
                        work.what.title,
                        work.what.maker,
                        price.unwrap_or_default()
                    );
                    let button = Button::new(line).frame_when_inactive(false);
                    if ui.add(button).on_hover_text("Show its edition").clicked() {
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

fn lines(count: usize) -> f32 {
    f32::from(u8::try_from(count).unwrap_or(u8::MAX))
}

/// The places in the list of the works that are called so.
fn found(works: &[WorkRow], sought: &str) -> Vec<usize> {
    let called = |row: &WorkRow| {
        let what = &row.work.what;
        sought.is_empty()
            || [&row.work.catalogue, &what.title, &what.maker]
                .iter()
                .any(|text| text.to_lowercase().contains(sought))
    };
    works.iter().enumerate().filter(|(_, row)| called(row)).map(|(at, _)| at).collect()
}

/// The longer side of a picture in the list, in pixels; of few sizes, so that it is not made
/// anew at every change of scale.
fn longest(ui: &Ui) -> u32 {
    let sizes = [(1.0, 36), (1.5, 54), (2.0, 72), (3.0, 108)];
    let enough = sizes.iter().find(|(scale, _)| ui.pixels_per_point() <= *scale);
    enough.map_or(144, |(_, pixels)| *pixels)
}

/// The picture in its square, or a quiet empty one.
fn picture(ui: &Ui, square: Rect, face: &Face<'_>) {
    let palette = theme::palette(ui);
    match face {
        Face::Picture(texture) => {
            let size = texture.size_vec2();
            let fitted = size * (square.width() / size.x.max(size.y).max(1.0));
            let whole = Rect::from_min_max(egui::pos2(0.0, 0.0), egui::pos2(1.0, 1.0));
            let place = Rect::from_center_size(square.center(), fitted);
            ui.painter().image(texture.id(), place, whole, egui::Color32::WHITE);
        }
        Face::Waiting => {
            ui.painter().rect_filled(square.shrink(4.0), 2.0, palette.hover);
        }
        Face::None(_) => {
            let stroke = egui::Stroke::new(1.0, palette.line);
            let inside = egui::StrokeKind::Inside;
            ui.painter().rect_stroke(square.shrink(4.0), 2.0, stroke, inside);
        }
    }
}

/// A work in two lines: its title, and what there is of it; its picture before them.
fn work_row(ui: &mut Ui, row: &WorkRow, on: bool, face: &Face<'_>) -> bool {
    let palette = theme::palette(ui);
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), ROW), egui::Sense::click());
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
    let below =
        format!("{}  ·  {}  ·  {counts} issued", row.work.catalogue, row.work.what.maker);
    let square = Rect::from_min_size(rect.left_top() + vec2(6.0, 4.0), vec2(36.0, 36.0));
    picture(ui, square, face);
    let wide = rect.width() - 16.0 - 44.0;
    let title = widgets::fitted(ui, &row.work.what.title, wide);
    let at = rect.left_top() + vec2(52.0, 4.0);
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
    let clicked = response.clicked();
    if let Face::None(why) = face {
        response.on_hover_text(*why);
    }
    clicked
}
