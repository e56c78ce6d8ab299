//! An edition of the work that is chosen: its numbers, and issuing the next.

use egui::{Button, RichText, Ui};
use sightedge_core::catalogue::Kind;
use sightedge_studio::{Choice, Edition, FormatId, Note, Print};

use super::form::{FormPage, Terms, Whereabouts, pick_size, size_words, unknown};
use super::messages::{Outcome, Undo};
use super::{Editions, numbers};
use crate::window::context::{Requests, ScreenContext};
use crate::window::session::PlanSession;
use crate::window::{theme, widgets};
use sightedge_service::record::{self, Issuing, PlanOfPrint};

impl Editions {
    pub(super) fn edition(
        &mut self,
        ui: &mut Ui,
        cx: ScreenContext<'_>,
        at: usize,
        requests: &mut Requests,
    ) {
        let Some(one) = self.cache.prints.editions.get(at) else { return };
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
                || "The next number. Open the plan of this picture first to note which mat it gets".to_owned(),
                |title| format!("The next number, for the open plan {title}. It goes to the bench unless another print of the plan is there"),
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
            let several = edition.what.format.is_none() && self.cache.prints.formats.len() > 1;
            if several && next.is_some() {
                let (formats, unit) = (&self.cache.prints.formats, cx.settings.unit());
                let size = self.size_of_next(cx, &edition);
                let now = pick_size(ui, formats, size, unit, 260.0);
                size_picked = (now != size).then_some(now);
            }
            let hint = "Its name, the edition size, proofs, prices";
            terms = ui.button("Terms and prices…").on_hover_text(hint).clicked();
        });
        // On a line of its own: no price is cut off.
        let prices = record::prices_in_words(&one.tiers);
        if !prices.is_empty() {
            ui.add(egui::Label::new(widgets::quiet(ui, &format!("Prices: {prices}"))).wrap());
        }
        if let (Some(chosen), Some(picked)) = (&mut self.chosen, size_picked) {
            chosen.size = picked;
        }
        if terms && let Some(work) = self.work_looked_at() {
            let page = FormPage::Terms(Terms::of(work, one));
            self.open_form(page);
            return;
        }
        ui.add_space(4.0);
        legend(ui, &edition, prints);
        let hint =
            "They count neither as sold nor as in the studio until you enter where they are";
        if !unknown(prints).is_empty()
            && ui.button("Enter where they are…").on_hover_text(hint).clicked()
            && let Some(work) = self.work_looked_at()
        {
            let page = FormPage::Where(Whereabouts::of(work, one));
            self.open_form(page);
            return;
        }
        ui.add_space(8.0);
        let chosen = self.edition_in_front().and_then(|edition| edition.number);
        // The number that is chosen, what can be done to it, and some of its history.
        let below = 264.0;
        let tall = (ui.available_height() - below).max(96.0);
        let several = self.numbers_chosen();
        let picked = numbers::Picked { one: chosen, several: &several };
        let mut pressed = numbers::grid(ui, &edition, Kind::Numbered, prints, picked, tall)
            .map(|press| (Kind::Numbered, press));
        let proofs =
            || Kind::ALL.into_iter().skip(1).filter(|kind| edition.what.count(*kind) > 0);
        for kind in proofs() {
            ui.add_space(6.0);
            let proof = numbers::grid(ui, &edition, kind, prints, picked, 64.0);
            pressed = proof.map(|press| (kind, press)).or(pressed);
        }
        legend_of_proofs(ui, &edition);
        ui.add_space(8.0);
        ui.separator();
        if several.len() > 1 {
            let held: Vec<Print> = several
                .iter()
                .filter_map(|(kind, number)| numbers::holder(prints, *kind, *number).cloned())
                .collect();
            self.several(ui, &edition, &several, &held);
        } else if let Some((kind, number)) = chosen {
            let held: Vec<Print> = numbers::holders(prints, kind, number).cloned().collect();
            let more = self.chosen_number(ui, cx, &edition, (kind, number), &held, requests);
            issue = more.or(issue);
        } else {
            ui.label(widgets::quiet(
                ui,
                "Choose a number to see where it is and what happened. Choose several with Shift \
                 or Ctrl, or type them below.",
            ));
            self.typed_numbers(ui, &edition);
        }
        if let Some((kind, press)) = pressed {
            self.number_pressed(&edition, kind, press);
        }
        if let Some((kind, choice)) = issue {
            self.issue(cx, &edition, kind, choice);
        }
    }

    /// The numbers that are chosen at once.
    fn numbers_chosen(&self) -> Vec<super::chosen::Number> {
        self.chosen.as_ref().map(|chosen| chosen.several.clone()).unwrap_or_default()
    }

    /// Chooses what was pressed among the numbers.
    fn number_pressed(&mut self, edition: &Edition, kind: Kind, press: numbers::Press) {
        let Some(chosen) = &mut self.chosen else { return };
        match press {
            numbers::Press::Number(number, how) => {
                chosen.choose_number(edition.id, (kind, number), how);
            }
            numbers::Press::All => {
                let all = (1..=edition.what.count(kind)).map(|number| (kind, number));
                chosen.choose_numbers(edition.id, all.collect());
            }
        }
        chosen.replacing = None;
        (self.cache.history, self.status.failed) = (None, None);
        self.typed.another();
    }

    /// The size of the print that is issued next: the one that was picked, that of its plan, the
    /// only one there is. In an edition of one size, the record says so itself.
    fn size_of_next(&self, cx: ScreenContext<'_>, edition: &Edition) -> Option<FormatId> {
        if edition.what.format.is_some() {
            return None;
        }
        let only = || match self.cache.prints.formats.as_slice() {
            [one] => Some(one.id),
            _ => None,
        };
        self.picked_size().or_else(|| match self.plan_of_edition(cx, edition) {
            Some(session) => self.size_of_plan(session),
            None => only(),
        })
    }

    /// The size that was picked for the next print.
    fn picked_size(&self) -> Option<FormatId> {
        self.chosen.as_ref()?.size
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
        self.change(move |record| {
            let issued = record::issue(record, issuing, &Note::at(&record::today()))?;
            let written = what.notation(issued.print.kind, issued.print.number);
            let added = issued.new_size.map_or(String::new(), |size| {
                format!(" Its size, {}, is new to the work.", size_words(&size, unit))
            });
            Ok(Outcome {
                said: format!("{written} is issued.{added}"),
                undo: Some(Undo::Issued(issued.print.id, format!("issuing {written}"))),
                ..Outcome::default()
            })
        });
    }
}

/// What the letters before the numbers of proofs mean.
fn legend_of_proofs(ui: &mut Ui, edition: &Edition) {
    let proofs = Kind::ALL.into_iter().skip(1);
    let meaning: Vec<String> = proofs
        .filter(|kind| edition.what.count(*kind) > 0)
        .map(|kind| format!("{}: {}", kind.letters(), kind.name()))
        .collect();
    if !meaning.is_empty() {
        ui.add(egui::Label::new(widgets::quiet(ui, &meaning.join("  ·  "))).truncate());
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
