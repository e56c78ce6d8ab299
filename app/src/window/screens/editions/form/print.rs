//! What is said of a print, put right.

use std::path::Path;

use egui::{Label, Ui};
use sightedge_core::length::Unit;
use sightedge_studio::{
    Change as Changed, Error, Format, FormatId, Money, Print, PrintDetails, State, Subject,
    Work,
};

use super::fields::{WIDE, line, why};
use super::size::pick_size;
use super::{money, note, unchanged};
use crate::window::screens::editions::talk::{Change, Made, Undo};
use crate::window::widgets;

/// Where a print that holds its number can be.
const STATES: [State; 6] = [
    State::Studio,
    State::Show,
    State::Sold,
    State::Returned,
    State::Unknown,
    State::Destroyed,
];

/// A print that is put right.
#[derive(Clone, PartialEq, Debug)]
pub(in super::super) struct Correction {
    work: Work,
    print: Print,
    /// How it is called: 3/25.
    written: String,
    /// The sizes it can be of.
    formats: Vec<Format>,
    state: State,
    place: String,
    buyer: String,
    price: String,
    printed: String,
    matted: String,
    format: Option<FormatId>,
    /// The plan that is open, its id and its file, where the print's is another one.
    open: Option<(String, String)>,
    plan: (String, String),
    why: String,
}

impl Correction {
    pub(in super::super) fn of(
        work: &Work,
        print: &Print,
        written: String,
        formats: Vec<Format>,
        open: Option<(String, String)>,
    ) -> Self {
        let now = &print.now;
        Self {
            work: work.clone(),
            print: print.clone(),
            written,
            formats,
            state: now.state,
            place: now.place.clone(),
            buyer: now.buyer.clone(),
            price: now.price.as_ref().map(Money::to_string).unwrap_or_default(),
            printed: now.printed.clone(),
            matted: now.matted.clone(),
            format: now.format,
            open: open.filter(|open| open.0 != now.plan),
            plan: (now.plan.clone(), now.plan_file.clone()),
            why: String::new(),
        }
    }

    pub(super) const fn subject(&self) -> Subject {
        Subject::Print(self.print.id)
    }

    pub(super) fn heading(&self) -> String {
        format!("Correct {} of {}", self.written, self.work.what.title)
    }

    pub(super) fn show(&mut self, ui: &mut Ui, unit: Unit) {
        widgets::row(ui, "It is", |ui| {
            let options = STATES.map(|state| (state.name().to_owned(), state));
            let picked = widgets::pick(ui, "It is", self.state.name(), WIDE, options);
            self.state = picked.unwrap_or(self.state);
        });
        line(ui, "Show", &mut self.place, "or gallery, where it is or was sold");
        line(ui, "Buyer", &mut self.buyer, "a note of your own");
        line(ui, "Price", &mut self.price, "as in 800 EUR; may be empty");
        line(ui, "Printed on", &mut self.printed, "a day, as in 2025-11-30");
        line(ui, "Matted on", &mut self.matted, "a day, as in 2025-11-30");
        if !self.formats.is_empty() {
            widgets::row(ui, "Size", |ui| {
                self.format = pick_size(ui, &self.formats, self.format, unit, WIDE);
            });
        }
        widgets::row(ui, "Plan", |ui| {
            let words = if self.plan.1.is_empty() { "none noted" } else { &self.plan.1 };
            let open = self.open.clone().filter(|open| *open != self.plan);
            let name = Path::new(words).file_name().unwrap_or_default().to_string_lossy();
            let room = if open.is_some() { WIDE - 150.0 } else { WIDE };
            let shown = widgets::fitted(ui, &name, room);
            ui.add(Label::new(shown).extend()).on_hover_text(words);
            if let Some(open) = open
                && ui.button("Take the open plan").on_hover_text(&open.1).clicked()
            {
                self.plan = open;
            }
        });
        why(ui, &mut self.why);
        let words = "What was said before stays in the history of the print.";
        widgets::note(ui, words);
    }

    pub(super) fn read(&self) -> Result<Change, String> {
        let price = self.price.trim().to_owned();
        if !price.is_empty() {
            Money::read(&price, "EUR").map_err(|error| format!("{error}."))?;
        }
        let place = self.place.trim();
        if self.state == State::Show && place.is_empty() {
            return Err("The show or gallery where it is wants a name.".to_owned());
        }
        let mut now = PrintDetails {
            state: self.state,
            // What is no longer at a show is not said to be; what was sold there is.
            place: match self.state {
                State::Show | State::Sold => place.to_owned(),
                _ => String::new(),
            },
            buyer: self.buyer.trim().to_owned(),
            printed: self.printed.trim().to_owned(),
            matted: self.matted.trim().to_owned(),
            format: self.format,
            plan: self.plan.0.clone(),
            plan_file: self.plan.1.clone(),
            price: None,
        };
        let was = self.print.clone();
        let (written, work, why) = (self.written.clone(), self.work.id, self.why.clone());
        Ok(Box::new(move |record| {
            let there = record.print(was.id)?;
            unchanged(&was, &there, "the print")?;
            if !price.is_empty() {
                now.price = Some(money(record, &price)?);
            }
            if now == was.now {
                let said = format!("{written} stays as it was.");
                return Ok::<_, Error>(Made { said, look: Some(work), ..Made::default() });
            }
            // The plan that is said to be its own from now on is told so.
            let noted = Some(was.id).filter(|_| now.plan != was.now.plan);
            let after = record.change(was.id, &Changed::Correct(Box::new(now)), &note(&why))?;
            let said =
                format!("{written} is corrected; what was said before stays in its history.");
            let undo = Undo::Changed {
                print: was.id,
                before: Box::new(was.now),
                after: Box::new(after.now),
                what: format!("correcting {written}"),
            };
            Ok(Made { said, noted, undo: Some(undo), look: Some(work), ..Made::default() })
        }))
    }
}
