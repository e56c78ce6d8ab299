//! The page of the work that is chosen, and what stands there before one is.

use std::path::Path;

use egui::{Align, RichText, Ui};
use sightedge_core::length::Unit;
use sightedge_studio::{Note, WorkRow};

use super::chosen::ChosenEdition;
use super::form::{Another, Details, FormPage, New, size_words};
use super::messages::{Numbered, Outcome};
use super::{Editions, thumbs};
use crate::window::context::{Requests, ScreenContext};
use crate::window::{theme, widgets};
use sightedge_service::record::{self, Correcting};

impl Editions {
    /// The work that is looked at: its editions and their numbers.
    pub(super) fn work(&mut self, ui: &mut Ui, cx: ScreenContext<'_>, requests: &mut Requests) {
        let row = self.chosen.as_ref().and_then(|chosen| self.cache.work(chosen.work)).cloned();
        let Some(row) = row else {
            self.nothing(ui, cx);
            return;
        };
        self.heading(ui, cx, &row);
        ui.add_space(8.0);
        let of = self.edition_in_front().map(|edition| edition.id);
        if self.cache.prints.editions.len() > 1 {
            let mut picked = None;
            ui.horizontal_wrapped(|ui| {
                for (n, one) in self.cache.prints.editions.iter().enumerate() {
                    let on = Some(one.edition().id) == of;
                    let name = self.called(one, n, cx.settings.unit());
                    if ui.selectable_label(on, name).clicked() {
                        picked = Some(one.edition().id);
                    }
                }
            });
            if let (Some(chosen), Some(picked)) = (&mut self.chosen, picked) {
                chosen.look_at(picked);
            }
        }
        let of = self.edition_in_front().map(|edition| edition.id);
        let Some(at) =
            self.cache.prints.editions.iter().position(|one| Some(one.edition().id) == of)
        else {
            return;
        };
        self.edition(ui, cx, at, requests);
    }

    /// The edition that is looked at, with the number that is chosen there.
    pub(super) fn edition_in_front(&self) -> Option<ChosenEdition> {
        self.chosen.as_ref()?.edition
    }

    /// What an edition is called among several: its name, else its size, else its place.
    fn called(&self, one: &Numbered, at: usize, unit: Unit) -> String {
        let what = &one.edition().what;
        if !what.name.is_empty() {
            return what.name.clone();
        }
        let format =
            self.cache.prints.formats.iter().find(|format| Some(format.id) == what.format);
        let words = format.map(|format| size_words(&format.what, unit));
        words.filter(|words| !words.is_empty()).unwrap_or_else(|| format!("Edition {}", at + 1))
    }

    /// The work itself: its picture, its title, what is known of it.
    fn heading(&mut self, ui: &mut Ui, cx: ScreenContext<'_>, row: &WorkRow) {
        let what = &row.work.what;
        let year = what.taken.map(|year| year.to_string());
        let about: Vec<&str> = [&row.work.catalogue, &what.maker]
            .into_iter()
            .map(String::as_str)
            .chain(year.as_deref())
            .chain([what.medium.as_str(), what.paper.as_str()])
            .filter(|text| !text.is_empty())
            .collect();
        let prints = self.cache.prints.editions.iter().flat_map(|one| &one.prints);
        let plans = prints.map(|print| Path::new(&print.now.plan_file));
        let open = cx.sessions.iter().map(|(_, session)| session.plan.as_path());
        let homes = thumbs::homes(plans.chain(open));
        let (mut correct, mut another, mut back) = (false, false, false);
        ui.horizontal_top(|ui| {
            let mut missing = None;
            if !what.picture.is_empty() {
                let (rect, _) =
                    ui.allocate_exact_size(egui::vec2(72.0, 72.0), egui::Sense::hover());
                missing = self.thumbs.show(ui, rect, Align::Min, what, &homes);
                ui.add_space(8.0);
            }
            ui.vertical(|ui| {
                ui.set_max_width(ui.available_width());
                let title =
                    RichText::new(&what.title).family(theme::strong()).size(theme::HEADING);
                ui.add(egui::Label::new(title).truncate());
                let sizes = self.cache.prints.formats.iter();
                let sizes: Vec<String> = sizes
                    .map(|one| size_words(&one.what, cx.settings.unit()))
                    .filter(|words| !words.is_empty())
                    .collect();
                for line in [about.join("  ·  "), sizes.join("  ·  ")] {
                    if !line.is_empty() {
                        let text = egui::Label::new(widgets::quiet(ui, &line)).truncate();
                        ui.add(text).on_hover_text(&line);
                    }
                }
                if let Some(missing) = missing {
                    ui.add(egui::Label::new(widgets::quiet(ui, missing)).wrap());
                }
                if row.work.withdrawn {
                    ui.label("Withdrawn: it was entered by mistake, and is off the list.");
                }
                ui.horizontal(|ui| {
                    if row.work.withdrawn {
                        back = ui.button("Bring it back").clicked();
                    }
                    correct = ui
                        .button("Correct the work…")
                        .on_hover_text("Title, years, medium, certificate, picture, sizes, number; withdraw it")
                        .clicked();
                    let first = self.cache.prints.editions.is_empty();
                    let words = if first { "Open an edition…" } else { "Another size…" };
                    another = ui.button(words).clicked();
                });
            });
        });
        if back {
            let id = row.work.id;
            let catalogue = row.work.catalogue.clone();
            self.change(move |record| {
                let back = Correcting { withdrawn: Some(false), ..Correcting::default() };
                record::correct(record, id, back, &Note::at(&record::today()))?;
                let said = format!("{catalogue} is back on the list.");
                Ok(Outcome { said, look: Some(id), ..Outcome::default() })
            });
        }
        if correct || another {
            let page = if correct { self.details(cx, row) } else { self.another(cx, row) };
            self.open_form(page);
        }
    }

    /// The page on which a work is corrected.
    fn details(&self, cx: ScreenContext<'_>, row: &WorkRow) -> FormPage {
        let open = cx.session().and_then(|session| {
            let (work, _) = record::of_plan(session.document(), Some(&session.plan));
            (!work.picture.is_empty()).then(|| work.picture.into())
        });
        let unit = cx.settings.unit();
        FormPage::Work(Details::of(&row.work, &self.cache.prints.formats, open, unit))
    }

    /// The page on which another size of a work is added: that of its open plan, if it is new.
    fn another(&self, cx: ScreenContext<'_>, row: &WorkRow) -> FormPage {
        let format = self
            .plan_of_work(cx)
            .map(|session| record::of_plan(session.document(), Some(&session.plan)).1)
            .filter(|format| record::same_size(&self.cache.prints.formats, format).is_none());
        let unit = cx.settings.unit();
        FormPage::Size(Another::of(
            &row.work,
            &self.cache.prints.editions,
            format.as_ref(),
            unit,
        ))
    }

    /// Nothing is looked at: what to do first.
    pub(super) fn nothing(&mut self, ui: &mut Ui, cx: ScreenContext<'_>) {
        let Some(works) = &self.cache.works else {
            self.unopened(ui);
            return;
        };
        let (heading, text) = if works.is_empty() {
            (
                "No work is in the record yet",
                "Add a picture as a work and set the edition size. The record then keeps each \
                 number: where it is, who has it, what it cost. No number is issued twice.",
            )
        } else {
            ("Choose a work", "Its numbers are shown here.")
        };
        ui.label(RichText::new(heading).family(theme::strong()).size(theme::HEADING));
        ui.add_space(8.0);
        ui.add(egui::Label::new(text).wrap());
        ui.add_space(12.0);
        let label =
            if cx.session().is_some() { "Add the open picture…" } else { "Add a work…" };
        if ui.button(label).clicked() {
            self.open_form(FormPage::New(New::of(cx.session(), &self.cache.maker)));
        }
        if let Some(home) = self.place.home() {
            ui.add_space(24.0);
            let place = format!("The record is kept in {}", home.folder.display());
            ui.add(egui::Label::new(widgets::quiet(ui, &place)).wrap());
        }
    }
}
