//! What the room shows: a work, an edition and its numbers.

use std::path::Path;

use egui::{Align, Button, RichText, Ui};
use sightedge_core::catalogue::Kind;
use sightedge_core::length::Unit;
use sightedge_studio::{Choice, Edition, FormatId, Note, Print, WorkRow};

use super::form::{
    Another, Details, New, Page, Terms, Whereabouts, pick_size, size_words, unknown,
};
use super::talk::{Made, Numbered, Undo};
use super::{Editions, numbers, thumbs};
use crate::window::context::ScreenContext;
use crate::window::session::PlanSession;
use crate::window::{theme, widgets};
use sightedge_service::record::{self, Issuing, PlanOfPrint};

impl Editions {
    /// The work that is looked at: its editions and their numbers.
    pub(super) fn work(&mut self, ui: &mut Ui, cx: ScreenContext<'_>) {
        let row = self.works.as_ref().and_then(|works| {
            works.iter().find(|row| Some(row.work.id) == self.chosen).cloned()
        });
        let Some(row) = row else {
            self.nothing(ui, cx);
            return;
        };
        self.heading(ui, cx, &row);
        ui.add_space(8.0);
        if self.prints.editions.len() > 1 {
            let mut chosen = None;
            ui.horizontal_wrapped(|ui| {
                for (n, one) in self.prints.editions.iter().enumerate() {
                    let on = Some(one.edition().id) == self.edition;
                    let name = self.called(one, n, cx.settings.unit());
                    if ui.selectable_label(on, name).clicked() {
                        chosen = Some(one.edition().id);
                    }
                }
            });
            if chosen.is_some() {
                (self.edition, self.place) = (chosen, None);
            }
        }
        let of = self.edition;
        let Some(at) = self.prints.editions.iter().position(|one| Some(one.edition().id) == of)
        else {
            return;
        };
        self.edition(ui, cx, at);
    }

    /// What an edition is called among several: its name, else its size, else its place.
    fn called(&self, one: &Numbered, at: usize, unit: Unit) -> String {
        let what = &one.edition().what;
        if !what.name.is_empty() {
            return what.name.clone();
        }
        let format = self.prints.formats.iter().find(|format| Some(format.id) == what.format);
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
        let prints = self.prints.editions.iter().flat_map(|one| &one.prints);
        let plans = prints.map(|print| Path::new(&print.now.plan_file));
        let open = cx.sessions.iter().map(|(_, session)| session.plan.as_path());
        let homes = thumbs::homes(plans.chain(open));
        let (mut correct, mut another) = (false, false);
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
                let sizes = self.prints.formats.iter();
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
                ui.horizontal(|ui| {
                    correct = ui
                        .button("Correct the work…")
                        .on_hover_text("Title, years, medium, paper, picture, sizes")
                        .clicked();
                    let first = self.prints.editions.is_empty();
                    let words = if first { "Open an edition…" } else { "Another size…" };
                    another = ui.button(words).clicked();
                });
            });
        });
        if correct || another {
            let page = if correct { self.details(cx, row) } else { self.another(cx, row) };
            self.form = Some(page.into());
        }
    }

    /// The page on which a work is put right.
    fn details(&self, cx: ScreenContext<'_>, row: &WorkRow) -> Page {
        let open = cx.session().and_then(|session| {
            let (work, _) = record::of_plan(session.document(), Some(&session.plan));
            (!work.picture.is_empty()).then(|| work.picture.into())
        });
        let unit = cx.settings.unit();
        Page::Work(Details::of(&row.work, &self.prints.formats, open, unit))
    }

    /// The page on which another size of a work is added: that of its open plan, if it is new.
    fn another(&self, cx: ScreenContext<'_>, row: &WorkRow) -> Page {
        let format = self
            .plan_of_work(cx)
            .map(|session| record::of_plan(session.document(), Some(&session.plan)).1)
            .filter(|format| record::same_size(&self.prints.formats, format).is_none());
        let unit = cx.settings.unit();
        Page::Size(Another::of(&row.work, &self.prints.editions, format.as_ref(), unit))
    }

    pub(super) fn edition(&mut self, ui: &mut Ui, cx: ScreenContext<'_>, at: usize) {
        let Some(one) = self.prints.editions.get(at) else { return };
        let (edition, prints) = (one.edition().clone(), &one.prints);
        let next = numbers::next(&edition, prints);
        let (mut issue, mut terms, mut size_picked) = (None, false, None);
        ui.horizontal(|ui| {
            let words = next.map_or_else(
                || "Every number is issued".to_owned(),
                |n| format!("Issue {}", edition.what.notation(Kind::Numbered, n)),
            );
            let button = Button::new(RichText::new(words).family(theme::strong()));
            let plan = self.plan_of_edition(cx, &edition).map(PlanSession::title);
            let hint = plan.as_ref().map_or_else(
                || "The next number; open the plan of this picture to note which mat it gets".to_owned(),
                |title| format!("The next number, for the open plan {title}; it lies at the bench where no other print of the plan does"),
            );
            let response = ui.add_enabled(next.is_some(), button).on_hover_text(hint);
            // A second press of a double click is not meant for the number after.
            if response.clicked() && !response.double_clicked() {
                issue = Some((Kind::Numbered, Choice::Next));
            }
            if let Some(title) = plan {
                ui.label(widgets::quiet(ui, &format!("for the open plan, {title}")));
            } else if self.plan_of_work(cx).is_some() {
                ui.label(widgets::quiet(ui, "the open plan is of another size"));
            }
            let several = edition.what.format.is_none() && self.prints.formats.len() > 1;
            if several && next.is_some() {
                let (formats, unit) = (&self.prints.formats, cx.settings.unit());
                let size = self.size_of_next(cx, &edition);
                let now = pick_size(ui, formats, size, unit, 260.0);
                size_picked = (now != size).then_some(now);
            }
            let hint = "What it is called, how many there are to be, proofs, prices";
            terms = ui.button("Terms and prices…").on_hover_text(hint).clicked();
            let prices = record::prices_in_words(&one.tiers);
            if !prices.is_empty() {
                ui.add(egui::Label::new(widgets::quiet(ui, &prices)).truncate());
            }
        });
        if let Some(picked) = size_picked {
            self.size = picked;
        }
        if terms && let Some(work) = self.work_looked_at() {
            self.form = Some(Page::Terms(Terms::of(work, one)).into());
            return;
        }
        ui.add_space(4.0);
        legend(ui, &edition, prints);
        let hint =
            "They count neither as sold nor as in the studio until you say where they are";
        if !unknown(prints).is_empty()
            && ui.button("Say where they are…").on_hover_text(hint).clicked()
            && let Some(work) = self.work_looked_at()
        {
            self.form = Some(Page::Where(Whereabouts::of(work, one)).into());
            return;
        }
        ui.add_space(8.0);
        let chosen = self
            .place
            .filter(|place| place.0 == edition.id)
            .map(|(_, kind, number)| (kind, number));
        let below = 256.0;
        let tall = (ui.available_height() - below).max(96.0);
        let mut pressed = numbers::grid(ui, &edition, Kind::Numbered, prints, chosen, tall)
            .map(|number| (Kind::Numbered, number));
        for kind in Kind::ALL.into_iter().skip(1) {
            if edition.what.count(kind) > 0 {
                ui.add_space(6.0);
                let proof = numbers::grid(ui, &edition, kind, prints, chosen, 64.0);
                pressed = proof.map(|number| (kind, number)).or(pressed);
            }
        }
        ui.add_space(8.0);
        ui.separator();
        if let Some((kind, number)) = chosen {
            let held: Vec<Print> = numbers::holders(prints, kind, number).cloned().collect();
            issue = self.chosen_number(ui, cx, &edition, (kind, number), &held).or(issue);
        } else {
            ui.label(widgets::quiet(
                ui,
                "Choose a number to see where it is and what happened.",
            ));
        }
        if let Some((kind, number)) = pressed {
            self.place = Some((edition.id, kind, number));
            (self.history, self.failed, self.replacing) = (None, None, None);
            self.typed.another();
        }
        if let Some((kind, choice)) = issue {
            self.issue(cx, &edition, kind, choice);
        }
    }

    /// The size of the print that is issued next: the one that was picked, that of its plan, the
    /// only one there is. In an edition of one size, the record says so itself.
    fn size_of_next(&self, cx: ScreenContext<'_>, edition: &Edition) -> Option<FormatId> {
        if edition.what.format.is_some() {
            return None;
        }
        let only = || match self.prints.formats.as_slice() {
            [one] => Some(one.id),
            _ => None,
        };
        self.size.or_else(|| match self.plan_of_edition(cx, edition) {
            Some(session) => self.size_of_plan(session),
            None => only(),
        })
    }

    pub(super) fn issue(
        &mut self,
        cx: ScreenContext<'_>,
        edition: &Edition,
        kind: Kind,
        choice: Choice,
    ) {
        let session = self.plan_of_edition(cx, edition);
        let plan = session.map(|session| PlanOfPrint::of(session.document(), &session.plan));
        let format = self.size_of_next(cx, edition);
        let issuing = Issuing { plan, format, ..Issuing::of(edition.id, kind, choice) };
        let (what, unit) = (edition.what.clone(), cx.settings.unit());
        self.make(move |record| {
            let issued = record::issue(record, issuing, &Note::at(&record::today()))?;
            let written = what.notation(issued.print.kind, issued.print.number);
            let added = issued.new_size.map_or(String::new(), |size| {
                format!(" Its size, {}, is new to the work.", size_words(&size, unit))
            });
            Ok(Made {
                said: format!("{written} is issued.{added}"),
                undo: Some(Undo::Issued(issued.print.id, format!("issuing {written}"))),
                ..Made::default()
            })
        });
    }

    /// Nothing is looked at: what to do first.
    pub(super) fn nothing(&mut self, ui: &mut Ui, cx: ScreenContext<'_>) {
        let Some(works) = &self.works else {
            self.unopened(ui);
            return;
        };
        let (heading, text) = if works.is_empty() {
            (
                "No work is in the record yet",
                "Add a picture as a work, say how many prints there are to be, and each number \
                 is kept here: where it is, who has it, what it cost. No number is given twice.",
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
            self.form = Some(Page::New(New::of(cx.session(), &self.maker)).into());
        }
        if let Some(home) = &self.home {
            ui.add_space(24.0);
            let place = format!("The record is kept in {}", home.folder.display());
            ui.add(egui::Label::new(widgets::quiet(ui, &place)).wrap());
        }
    }
}

/// Each form with its word and how many there are of it.
fn legend(ui: &mut Ui, edition: &Edition, prints: &[Print]) {
    let palette = theme::palette(ui);
    let live = || prints.iter().filter(|print| print.live && print.kind == Kind::Numbered);
    let issued = u32::try_from(live().count()).unwrap_or(u32::MAX);
    let voided = numbers::voided(prints);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        for form in numbers::Form::ALL {
            let count = match form {
                numbers::Form::Free => {
                    edition.what.size.saturating_sub(issued).saturating_sub(voided)
                }
                numbers::Form::Voided => voided,
                form @ numbers::Form::There(_) => {
                    let there = live().filter(|print| form.holds(print.now.state)).count();
                    u32::try_from(there).unwrap_or(u32::MAX)
                }
            };
            if count == 0 && form != numbers::Form::Free {
                continue;
            }
            let (rect, _) =
                ui.allocate_exact_size(egui::vec2(22.0, 16.0), egui::Sense::hover());
            numbers::draw(ui, rect, form, "", palette);
            ui.label(format!("{count} {}", form.name()));
            ui.add_space(10.0);
        }
    });
}
