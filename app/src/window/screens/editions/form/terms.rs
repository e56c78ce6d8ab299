//! What an edition is called, its counts and its prices.

use egui::Ui;
use sightedge_studio::{Correction, Edition, NewEdition, Subject, Tier, Work};

use super::back::corrected_back;
use super::edition::{EditionFields, PriceFields, changed_prices};
use super::fields::{line, why};
use super::{note, unchanged};
use crate::window::screens::editions::messages::{Change, Numbered, Outcome};
use crate::window::widgets;

/// An edition's terms.
#[derive(Clone, PartialEq, Debug)]
pub(in super::super) struct Terms {
    title: String,
    work: Work,
    edition: Edition,
    tiers: Vec<Tier>,
    fixed: bool,
    name: String,
    fields: EditionFields,
    prices: PriceFields,
    why: String,
}

impl Terms {
    pub(in super::super) fn of(work: &Work, one: &Numbered) -> Self {
        let edition = one.edition().clone();
        Self {
            title: format!("Edition of {}, {}", edition.what.size, work.what.title),
            work: work.clone(),
            fixed: one.prints.iter().any(|print| print.live),
            name: edition.what.name.clone(),
            fields: EditionFields::of(&edition.what),
            prices: PriceFields::of(&one.tiers),
            tiers: one.tiers.clone(),
            why: String::new(),
            edition,
        }
    }

    pub(super) const fn subject(&self) -> Subject {
        Subject::Edition(self.edition.id)
    }

    pub(super) fn heading(&self) -> String {
        self.title.clone()
    }

    pub(super) fn show(&mut self, ui: &mut Ui) {
        line(ui, "Called", &mut self.name, "where there are several; may be empty");
        ui.add_space(8.0);
        self.fields.show(ui, self.fixed);
        ui.add_space(8.0);
        self.prices.show(ui);
        let words = "Numbers that are issued keep the price they were issued at. A first price can \
                     be changed later, never taken out again.";
        widgets::note(ui, words);
        why(ui, &mut self.why);
        let words = "What was said before stays in the history of the edition.";
        widgets::note(ui, words);
    }

    pub(super) fn settle(&mut self) {
        self.prices.settle();
    }

    pub(super) fn read(&self) -> Result<Change, String> {
        let named =
            NewEdition { name: self.name.trim().to_owned(), ..self.edition.what.clone() };
        let what = self.fields.read(&named)?;
        let prices = self.prices.read(what.size)?;
        for tier in &self.tiers {
            if prices.iter().all(|(from, _)| *from != tier.from) {
                return Err(format!(
                    "A price from number {} on, {}, is in the record and is no longer here: \
                     nothing is erased. To end it, give it the price of the numbers before.",
                    tier.from, tier.price
                ));
            }
        }
        let (work, was, tiers) = (self.work.clone(), self.edition.clone(), self.tiers.clone());
        let why = self.why.clone();
        Ok(Box::new(move |record| {
            unchanged(&was.what, &record.edition(was.id)?.what, "the edition")?;
            unchanged(&tiers, &record.tiers(was.id)?, "a price of the edition")?;
            let old = tiers;
            let tiers = changed_prices(record, was.id, &prices)?;
            let same = what == was.what;
            let set = tiers.len();
            let before = Correction {
                edition: Some((was.id, was.what.clone())).filter(|_| !same),
                tiers: tiers.iter().filter_map(|tier| price_before(&old, tier)).collect(),
                ..Correction::default()
            };
            let edition = Some((was.id, what)).filter(|_| !same);
            let put_right = Correction { edition, tiers, ..Correction::default() };
            record.correct(work.id, &put_right, &note(&why))?;
            // A first price is set for good: nothing is what it was before.
            let whole = before.tiers.len() == set && (set > 0 || !same);
            let what = "correcting the edition".to_owned();
            let undo = whole.then(|| corrected_back(work.id, put_right, before, what));
            let said = match (!same, set) {
                (false, 0) => "The edition stays as it was.",
                (false, _) => "The prices are set; the ones before stay in the history.",
                (true, _) => {
                    "The edition is corrected; what was said before stays in its history."
                }
            };
            Ok(Outcome {
                said: said.to_owned(),
                undo,
                look: Some(work.id),
                ..Outcome::default()
            })
        }))
    }
}

/// What prints from there on cost before: the price that was there, or that of the numbers
/// before. Nothing where there was none.
fn price_before(old: &[Tier], now: &Tier) -> Option<Tier> {
    let before = old.iter().rev().find(|tier| tier.from <= now.from)?;
    Some(Tier { price: before.price.clone(), ..now.clone() })
}
