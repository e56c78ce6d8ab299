//! Where prints are that were issued before the record began.

use egui::Ui;
use sightedge_studio::{Edition, Kind, Print, State, Work};

use super::fields::{WIDE, line, why};
use super::note;
use crate::window::screens::editions::messages::{Change, Numbered, Outcome};
use crate::window::widgets;
use sightedge_service::record::{self, Going};

/// Where they can turn out to be.
const STATES: [State; 5] =
    [State::Sold, State::Show, State::Studio, State::Returned, State::Destroyed];

/// Several prints whose location is unknown.
#[derive(Clone, PartialEq, Debug)]
pub(in super::super) struct Whereabouts {
    work: Work,
    edition: Edition,
    unknown: Vec<u32>,
    numbers: String,
    state: State,
    place: String,
    buyer: String,
    why: String,
}

/// The numbers of an edition whose location is unknown.
pub(in super::super) fn unknown(prints: &[Print]) -> Vec<u32> {
    let unknown = prints.iter().filter(|print| {
        print.live && print.kind == Kind::Numbered && print.now.state == State::Unknown
    });
    unknown.map(|print| print.number).collect()
}

impl Whereabouts {
    pub(in super::super) fn of(work: &Work, one: &Numbered) -> Self {
        Self {
            work: work.clone(),
            edition: one.edition().clone(),
            unknown: unknown(&one.prints),
            numbers: String::new(),
            state: State::Sold,
            place: String::new(),
            buyer: String::new(),
            why: String::new(),
        }
    }

    pub(super) fn heading(&self) -> String {
        format!("Where prints of {} are", self.work.what.title)
    }

    pub(super) fn show(&mut self, ui: &mut Ui) {
        let words =
            format!("At an unknown place: {}.", record::numbers_in_words(&self.unknown));
        widgets::note(ui, &words);
        ui.add_space(8.0);
        line(ui, "Numbers", &mut self.numbers, "as in 3, 7, 10-20");
        widgets::row(ui, "They are", |ui| {
            let options = STATES.map(|state| (state.name().to_owned(), state));
            let picked = widgets::pick(ui, "They are", self.state.name(), WIDE, options);
            self.state = picked.unwrap_or(self.state);
        });
        if record::keeps_place(self.state) {
            line(ui, "Show", &mut self.place, "or gallery, where they are or were sold");
        }
        if self.state == State::Sold {
            line(ui, "Buyer", &mut self.buyer, "a note of your own, the same for all");
        }
        why(ui, &mut self.why);
        let words = "Enter what each was sold for by correcting that number.";
        widgets::note(ui, words);
    }

    pub(super) fn read(&self) -> Result<Change, String> {
        let numbers = record::numbers(&self.numbers)?;
        let text = |text: &str, counts: bool| {
            Some(text.trim().to_owned()).filter(|text| counts && !text.is_empty())
        };
        let (edition, work, to) = (self.edition.id, self.work.id, self.state);
        let going = Going {
            to,
            place: text(&self.place, record::keeps_place(to)),
            buyer: text(&self.buyer, to == State::Sold),
            price: None,
        };
        let why = self.why.clone();
        Ok(Box::new(move |record| {
            let held = record::holding(record, edition, &numbers)?;
            let made = record::several(record, &held, going, &note(&why))?;
            let numbers: Vec<u32> = made.iter().map(|print| print.number).collect();
            let (numbers, state) = (record::numbers_in_words(&numbers), to.name());
            let said = format!("Noted as {state}: {numbers}.");
            Ok(Outcome { said, look: Some(work), ..Outcome::default() })
        }))
    }
}
