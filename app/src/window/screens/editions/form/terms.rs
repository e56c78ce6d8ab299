//! What an edition is called, its counts and its prices.

use egui::Ui;
use sightedge_studio::{Edition, NewEdition, Subject, Tier, Work};

use super::back::corrected_back;
use super::edition::{EditionFields, PriceFields};
use super::fields::{line, why};
use super::note;
use crate::window::screens::editions::messages::{Change, Numbered, Outcome};
use crate::window::widgets;
use sightedge_service::record::{self, Correcting, EditionTerms};

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

    pub(super) fn show(&mut self, ui: &mut Ui, cost: &str) {
        line(ui, "Name", &mut self.name, "where there are several; may be empty");
        ui.add_space(8.0);
        self.fields.show(ui, self.fixed);
        ui.add_space(8.0);
        self.prices.show(ui, cost);
        let words = "Issued numbers keep the price they were issued at. A first price can be \
                     changed later, but not removed.";
        widgets::note(ui, words);
        why(ui, &mut self.why);
        let words = "The history of the edition keeps what was there before.";
        widgets::note(ui, words);
    }

    pub(super) fn settle(&mut self) {
        self.prices.settle();
    }

    pub(super) fn read(&self) -> Result<Change, String> {
        let named =
            NewEdition { name: self.name.trim().to_owned(), ..self.edition.what.clone() };
        let what = self.fields.read(&named)?;
        let prices = self.prices.read()?;
        for tier in &self.tiers {
            if prices.iter().all(|(from, _)| *from != tier.from) {
                return Err(format!(
                    "A price from number {} on, {}, is in the record and is no longer here: \
                     nothing is deleted. To end it, give it the price of the numbers before.",
                    tier.from, tier.price
                ));
            }
        }
        let (work, why) = (self.work.id, self.why.clone());
        let (was, tiers) = (self.edition.clone(), self.tiers.clone());
        let edition = Some(EditionTerms { was, now: what, tiers, prices });
        let correcting = Correcting { edition, ..Correcting::default() };
        Ok(Box::new(move |record| {
            let corrected = record::correct(record, work, correcting, &note(&why))?;
            let said = if corrected.made.edition.is_some() {
                "The edition is corrected; its history keeps what was there before."
            } else if corrected.any() {
                "The prices are set; the ones before stay in the history."
            } else {
                "The edition stays as it was."
            };
            let undo = corrected_back(work, corrected, "correcting the edition".to_owned());
            Ok(Outcome { said: said.to_owned(), undo, look: Some(work), ..Outcome::default() })
        }))
    }
}
