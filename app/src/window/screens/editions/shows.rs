//! Shows: their list at the left, and what hangs at the one that is chosen.

use egui::{Button, RichText, TextEdit, Ui, WidgetInfo, vec2};
use sightedge_studio::{Money, Note, State};

use super::Editions;
use super::index::Listed;
use super::messages::{Change, Outcome, Request, Undo};
use super::page::Page;
use super::printouts::Printouts;
use super::undo::{at_once, undone};
use super::walk::{stepped, walk};
use crate::window::context::ScreenContext;
use crate::window::{theme, widgets};
use sightedge_service::record::printouts::Whole;
use sightedge_service::{record, wording};

impl Editions {
    pub(super) fn shows(&mut self, ui: &mut Ui) {
        if self.cache.shows.is_empty() {
            ui.label(widgets::quiet(
                ui,
                "No print is at a show. Choose a number, type the name of the show and press To the show.",
            ));
        }
        let mut ask = None;
        let names: Vec<&String> = self.cache.shows.iter().map(|(name, _)| name).collect();
        let id = |name: &str| egui::Id::unique(("show", name));
        for (at, (name, count)) in self.cache.shows.iter().enumerate() {
            let on = self.cache.show.as_ref().is_some_and(|(shown, _)| shown == name);
            let words = format!("{name}  ·  {count}");
            let button = Button::new(RichText::new(words))
                .selected(on)
                .frame_when_inactive(false)
                .min_size(vec2(ui.available_width(), theme::ROW));
            let response = ui.push_id(id(name), |ui| ui.add(button)).inner;
            if response.clicked() {
                ask = Some(name.clone());
            }
            // The arrows choose at once, as in the list of works.
            if let Some(step) = walk(ui, Some(response.id), false) {
                let to = stepped(Some(at), step, names.len());
                if let Some(next) = to.and_then(|to| names.get(to)) {
                    ask = Some((*next).clone());
                    self.lists.walk_to = Some((*next).clone());
                }
            }
            if self.lists.walk_to.as_ref() == Some(name) && ask.is_none() {
                response.request_focus();
                self.lists.walk_to = None;
            }
        }
        if let Some(name) = ask {
            self.page.close_printouts();
            self.lists.renaming = None;
            self.ask(Request::Show(name));
        }
    }

    /// What hangs at the show that was chosen.
    pub(super) fn show_list(&mut self, ui: &mut Ui, cx: ScreenContext<'_>) {
        let Some((name, list)) = &self.cache.show else {
            ui.label(widgets::quiet(ui, "Choose a show to see what hangs there."));
            return;
        };
        let (mut printouts, mut renamed) = (None, None);
        ui.horizontal(|ui| {
            ui.label(RichText::new(name).family(theme::strong()).size(theme::HEADING));
            let hint = "Wall labels, prices, a consignment list, labels, certificates";
            if ui.button("Printouts…").on_hover_text(hint).clicked() {
                printouts = Some(Printouts::of_show(cx, name, list.clone()));
            }
            let hint = "Another name, for every print that is there or was sold there";
            if ui.button("Rename…").on_hover_text(hint).clicked() {
                self.lists.renaming = Some(name.clone());
            }
        });
        if let Some(typed) = &mut self.lists.renaming {
            let (mut done, mut leave) = (false, false);
            ui.horizontal(|ui| {
                ui.label(widgets::quiet(ui, "New name"));
                let response = ui.add(TextEdit::singleline(typed).desired_width(260.0));
                let value = typed.clone();
                response.widget_info(|| {
                    let mut info = WidgetInfo::text_edit(true, "", &value, "");
                    info.label = Some("New name of the show".to_owned());
                    info
                });
                let keys = |key| ui.input(|input| input.key_pressed(key));
                done = response.lost_focus() && keys(egui::Key::Enter);
                leave = response.lost_focus() && keys(egui::Key::Escape);
                done |= ui.button("Rename the show").clicked();
                leave |= ui.button("Cancel").clicked();
            });
            if done {
                renamed = Some((name.clone(), typed.clone()));
            }
            if done || leave {
                self.lists.renaming = None;
            }
        }
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
                        chosen = Some((work.id, edition.id, (print.kind, print.number)));
                    }
                }
            },
        );
        if let Some((from, to)) = renamed {
            self.rename(from, to);
        }
        if let Some(printouts) = printouts {
            self.page.open(Page::Printouts(Box::new(printouts)));
        }
        if let Some((work, edition, number)) = chosen {
            self.lists.listed = Listed::Works;
            self.choose(work);
            if let Some(chosen) = &mut self.chosen {
                chosen.look_at_number(edition, number);
            }
        }
    }

    fn rename(&mut self, from: String, to: String) {
        self.change(move |record| {
            let done = record::rename_show(record, &from, &to, &Note::at(&record::today()))?;
            let name = done.made.first().map(|print| print.now.place.clone());
            let name = name.unwrap_or(to);
            let what = format!("renaming {from}");
            let told = what.clone();
            let joined = if done.joined > 0 {
                format!(" It is one show now with the {} that were there.", done.joined)
            } else {
                String::new()
            };
            let said = format!("{from} is {name} now.{joined}");
            let undo: Change = Box::new(move |record| {
                record::several_back(record, &done.made, &done.were, &at_once())?;
                Ok(Outcome { said: undone(&told), show: Some(from), ..Outcome::default() })
            });
            let undo = Some(Undo::By(what, undo));
            Ok(Outcome { said, undo, show: Some(name), ..Outcome::default() })
        });
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
