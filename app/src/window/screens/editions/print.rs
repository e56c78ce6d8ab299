//! The number that was chosen: where its print is, what can be done, what happened.

use egui::{Button, RichText, Ui};
use sightedge_core::catalogue::Kind;
use sightedge_core::finding::Severity;
use sightedge_core::inscription::inscription;
use sightedge_studio::{Choice, Edition, Print, State, Subject};

use super::Editions;
use super::chosen::Number;
use super::form::{Correction, FormPage, size_words};
use super::page::Page;
use super::printouts::Printouts;
use crate::window::context::{Requests, ScreenContext};
use crate::window::{theme, widgets};
use sightedge_service::record;

impl Editions {
    /// Shows the number; gives what is to be issued.
    pub(super) fn chosen_number(
        &mut self,
        ui: &mut Ui,
        cx: ScreenContext<'_>,
        edition: &Edition,
        (kind, number): Number,
        held: &[Print],
        requests: &mut Requests,
    ) -> Option<(Kind, Choice)> {
        let written = edition.what.notation(kind, number);
        let ids: Vec<Subject> = held.iter().map(|print| Subject::Print(print.id)).collect();
        let Some(print) = held.iter().find(|print| print.live).cloned() else {
            let mut issue = None;
            ui.horizontal(|ui| {
                ui.label(RichText::new(format!("{written} is free")).family(theme::strong()));
                if ui.add(Button::new(format!("Issue {written} itself"))).clicked() {
                    issue = Some((kind, Choice::Number(number)));
                }
            });
            if !ids.is_empty() {
                ui.label("It was given before, and voided:");
                self.what_happened(ui, cx, ids);
            }
            return issue;
        };
        let now = &print.now;
        let size =
            self.cache.prints.formats.iter().find(|format| Some(format.id) == now.format);
        let size = size.map(|format| size_words(&format.what, cx.settings.unit()));
        let day = |what: &str, day: &str| {
            if day.is_empty() { String::new() } else { format!("{what} {day}") }
        };
        let more = [
            size.unwrap_or_default(),
            day("printed", &now.printed),
            day("matted", &now.matted),
        ];
        let more = more.into_iter().filter(|more| !more.is_empty());
        let state = record::details_in_words(now).into_iter().chain(more);
        let state = state.collect::<Vec<_>>().join("  ·  ");
        let (mut printouts, mut correct, mut to_bench) = (false, false, false);
        ui.horizontal(|ui| {
            ui.label(RichText::new(&written).family(theme::strong()).size(theme::BODY));
            let hint = "Label for the backing, certificate of authenticity";
            let there = now.state != State::Destroyed;
            printouts =
                ui.add_enabled(there, Button::new("Printouts…")).on_hover_text(hint).clicked();
            let hint = "Where it is, who has it, what it cost, its days, size and plan";
            correct = ui.button(format!("Correct {written}…")).on_hover_text(hint).clicked();
            if self.may_lie_at_bench(cx, &print) {
                let hint = "The open plan’s inscription, steps and ticks are this print’s then";
                let button = ui.button(format!("Take “{written}” to the bench"));
                if button.on_hover_text(hint).clicked() {
                    to_bench = true;
                }
            }
        });
        ui.add(egui::Label::new(state).wrap());
        if correct && let Some(work) = self.work_looked_at() {
            let formats = match edition.what.format {
                None => self.cache.prints.formats.clone(),
                Some(_) => Vec::new(),
            };
            let open = self.plan_of_work(cx);
            let open = open.map(|open| record::PlanOfPrint::of(open.document(), &open.plan));
            let page = Correction::of(work, &print, written.clone(), formats, open);
            self.page.open(Page::Form(Box::new(FormPage::Print(page).into())));
            return None;
        }
        if printouts {
            let row = self.cache.work(edition.work);
            let whole = row.map(|row| (row.work.clone(), edition.clone(), print.clone()));
            if let Some(whole) = whole {
                self.page.open(Page::Printouts(Box::new(Printouts::of_print(cx, whole))));
            }
        }
        if to_bench {
            self.take(cx, print.id, requests);
        }
        self.actions(ui, edition, &print, &written);
        ui.columns(2, |columns| {
            let [left, right] = columns else { return };
            self.what_happened(left, cx, ids);
            self.inscribed(right, cx, edition, &print);
        });
        None
    }

    /// What is written on it, where the open plan is its own.
    fn inscribed(&self, ui: &mut Ui, cx: ScreenContext<'_>, edition: &Edition, print: &Print) {
        let Some(session) =
            cx.session().filter(|session| session.document().id == print.now.plan)
        else {
            return;
        };
        let row = self.cache.work(edition.work);
        let (Some(row), Some(variant)) = (row, session.chosen()) else { return };
        let Some(derived) = session.derived_of(variant.id) else { return };
        let whole = (row.work.clone(), edition.clone(), print.clone());
        let mut document = session.document().clone();
        let usual = cx.settings.words.lettering();
        document.inscribed = Some(record::at_bench::taken(&document, &whole, &usual));
        ui.add_space(4.0);
        match inscription(&document, &variant.mat, &derived.layout) {
            None => {}
            Some(Ok(made)) => {
                let behind = if made.behind_image { "image" } else { "margin" };
                let heading = format!(
                    "Behind the {behind}, along the lower edge, with {}",
                    made.tool.with
                );
                ui.label(widgets::quiet(ui, &heading)).on_hover_text(made.tool.how);
                for line in &made.back {
                    let sign = if line.sign { "  (sign)" } else { "" };
                    ui.add(egui::Label::new(format!("{}{sign}", line.text)).truncate());
                }
                // What would fail of it is told where the number is given.
                let findings = derived.findings.iter();
                let own = findings.filter(|finding| finding.rule.starts_with("inscription-"));
                for finding in own.filter(|finding| finding.severity > Severity::Note) {
                    ui.horizontal_top(|ui| {
                        widgets::severity_icon(ui, finding.severity);
                        let told = sightedge_service::wording::sentence(&finding.message);
                        ui.add(egui::Label::new(widgets::quiet(ui, &told)).wrap());
                    });
                }
            }
            Some(Err(why)) => {
                ui.label(widgets::quiet(ui, &why));
            }
        }
    }
}
