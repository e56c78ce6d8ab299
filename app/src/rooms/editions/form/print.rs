//! What is said of a print, put right.

use egui::{ComboBox, Role, Ui, WidgetInfo};
use sightedge_core::length::Unit;
use sightedge_studio::{
    Change as Changed, Error, Format, FormatId, Money, Print, State, Stock, Subject, Work,
};

use super::fields::{WIDE, line, why};
use super::size::words;
use super::{money, note, unchanged};
use crate::rooms::editions::talk::{Change, Made};
use crate::widgets;

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
            let chosen = self.state.name();
            let list = ComboBox::from_id_salt("state of the print").selected_text(chosen);
            let shown = list.width(WIDE).show_ui(ui, |ui| {
                for state in STATES {
                    if widgets::entry(ui, state == self.state, state.name()) {
                        self.state = state;
                    }
                }
            });
            named(&shown.response, "It is", chosen);
        });
        line(ui, "Show", &mut self.place, "or gallery; empty where it is at none");
        line(ui, "Buyer", &mut self.buyer, "a note of your own");
        line(ui, "Price", &mut self.price, "as in 800 EUR; may be empty");
        line(ui, "Printed on", &mut self.printed, "a day, as in 2025-11-30");
        line(ui, "Matted on", &mut self.matted, "a day, as in 2025-11-30");
        if !self.formats.is_empty() {
            widgets::row(ui, "Size", |ui| {
                let name = |id: Option<FormatId>| {
                    let one = self.formats.iter().find(|one| Some(one.id) == id);
                    one.map_or_else(|| "not noted".to_owned(), |one| words(&one.what, unit))
                };
                let shown = widgets::fitted(ui, &name(self.format), WIDE - 32.0);
                let list = ComboBox::from_id_salt("size of the print").selected_text(&shown);
                let list = list.width(WIDE).show_ui(ui, |ui| {
                    let ids = self.formats.iter().map(|one| Some(one.id));
                    let all: Vec<_> = std::iter::once(None).chain(ids).collect();
                    for id in all {
                        if widgets::entry(ui, id == self.format, &name(id)) {
                            self.format = id;
                        }
                    }
                });
                named(&list.response, "Size", &shown);
            });
        }
        widgets::row(ui, "Plan", |ui| {
            ui.set_max_width(WIDE);
            let words = if self.plan.1.is_empty() { "none noted" } else { &self.plan.1 };
            let open = self.open.clone().filter(|open| *open != self.plan);
            let room = if open.is_some() { WIDE - 150.0 } else { WIDE };
            ui.label(widgets::fitted(ui, words, room)).on_hover_text(words);
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
        let mut now = Stock {
            state: self.state,
            // What is no longer at a show is not said to be.
            place: if self.state == State::Show { place.to_owned() } else { String::new() },
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
            record.change(was.id, &Changed::Correct(Box::new(now)), &note(&why))?;
            let said =
                format!("{written} is corrected; what was said before stays in its history.");
            Ok(Made { said, noted, look: Some(work), ..Made::default() })
        }))
    }
}

/// What a list that drops down is called by a screen reader.
fn named(response: &egui::Response, name: &str, chosen: &str) {
    let name = format!("{name}: {chosen}");
    response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &name));
}
