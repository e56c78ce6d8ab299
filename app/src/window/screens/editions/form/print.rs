//! A print, corrected.

use std::path::Path;

use egui::{Label, Ui};
use sightedge_core::length::Unit;
use sightedge_studio::{Format, FormatId, Money, Price, Print, State, Subject, Work};

use super::fields::{WIDE, line, why};
use super::note;
use super::size::pick_size;
use crate::window::screens::editions::messages::{Change, Outcome, Undo};
use crate::window::widgets;
use sightedge_service::record::{self, PlanOfPrint, PrintCorrection};

/// Where a print that holds its number can be.
const STATES: [State; 6] = [
    State::Studio,
    State::Show,
    State::Sold,
    State::Returned,
    State::Unknown,
    State::Destroyed,
];

/// A print that is corrected.
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
    /// The plan that is open, where the print's is another one.
    open: Option<PlanOfPrint>,
    /// Whether that is its own from now on.
    taken: bool,
    why: String,
}

impl Correction {
    pub(in super::super) fn of(
        work: &Work,
        print: &Print,
        written: String,
        formats: Vec<Format>,
        open: Option<PlanOfPrint>,
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
            open: open.filter(|open| open.id != now.plan),
            taken: false,
            why: String::new(),
        }
    }

    pub(super) const fn subject(&self) -> Subject {
        Subject::Print(self.print.id)
    }

    pub(super) fn heading(&self) -> String {
        format!("Correct {} of {}", self.written, self.work.what.title)
    }

    pub(super) fn show(&mut self, ui: &mut Ui, unit: Unit, cost: &str) {
        widgets::row(ui, "It is", |ui| {
            let options = STATES.map(|state| (state.name().to_owned(), state));
            let picked = widgets::pick(ui, "It is", self.state.name(), WIDE, options);
            self.state = picked.unwrap_or(self.state);
        });
        line(ui, "Show", &mut self.place, "or gallery, where it is or was sold");
        line(ui, "Buyer", &mut self.buyer, "a note of your own");
        line(ui, "Price", &mut self.price, &format!("{cost}; may be empty"));
        line(ui, "Printed on", &mut self.printed, "a day, as in 2025-11-30");
        line(ui, "Matted on", &mut self.matted, "a day, as in 2025-11-30");
        if !self.formats.is_empty() {
            widgets::row(ui, "Size", |ui| {
                self.format = pick_size(ui, &self.formats, self.format, unit, WIDE);
            });
        }
        widgets::row(ui, "Plan", |ui| {
            let taken = self.open.as_ref().filter(|_| self.taken);
            let file = taken.map_or(&self.print.now.plan_file, |plan| &plan.file);
            let words = if file.is_empty() { "none noted" } else { file };
            let open = self.open.as_ref().filter(|_| !self.taken);
            let name = Path::new(words).file_name().unwrap_or_default().to_string_lossy();
            let room = if open.is_some() { WIDE - 150.0 } else { WIDE };
            let shown = widgets::fitted(ui, &name, room);
            ui.add(Label::new(shown).extend()).on_hover_text(words);
            if let Some(open) = open
                && ui.button("Take the open plan").on_hover_text(&open.file).clicked()
            {
                self.taken = true;
            }
        });
        why(ui, &mut self.why);
        let words = "The history of the print keeps what was there before.";
        widgets::note(ui, words);
    }

    pub(super) fn read(&self) -> Result<Change, String> {
        let text = |text: &String| Some(text.trim().to_owned());
        let price = match self.price.trim() {
            "" => None,
            price => Some(Price::read(price)?),
        };
        let correction = PrintCorrection {
            state: Some(self.state),
            // What has left a show has none; what was sold there keeps it.
            place: text(&self.place).map(|place| {
                if record::keeps_place(self.state) { place } else { String::new() }
            }),
            buyer: text(&self.buyer),
            price: Some(price),
            printed: text(&self.printed),
            matted: text(&self.matted),
            plan: self.open.clone().filter(|_| self.taken).map(Some),
            format: Some(self.format),
        };
        let was = self.print.clone();
        let (written, work, why) = (self.written.clone(), self.work.id, self.why.clone());
        Ok(Box::new(move |record| {
            let now = record::correct_print(record, &was, correction, &note(&why))?;
            if now == was {
                let said = format!("{written} stays as it was.");
                return Ok(Outcome { said, look: Some(work), ..Outcome::default() });
            }
            // Its plan from now on gets to know it.
            let noted = Some(was.id).filter(|_| now.now.plan != was.now.plan);
            let said =
                format!("{written} is corrected; its history keeps what was there before.");
            let undo = Undo::Changed {
                print: was.id,
                before: Box::new(was.now),
                after: Box::new(now.now),
                what: format!("correcting {written}"),
            };
            Ok(Outcome {
                said,
                noted,
                undo: Some(undo),
                look: Some(work),
                ..Outcome::default()
            })
        }))
    }
}
