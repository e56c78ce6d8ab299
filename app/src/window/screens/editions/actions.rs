//! What is done to a print: it goes to a show or a buyer, comes back, is destroyed or replaced.

use egui::{Button, Label, TextEdit, Ui, WidgetInfo};

use sightedge_studio::{Choice, Edition, Issue, Note, Price, Print, PrintId, State};

use super::Editions;
use super::messages::{Outcome, Undo};
use super::undo::{at_once, undone};
use crate::window::{theme, widgets};
use sightedge_service::record::{self, Doing, Going};

/// What was typed for the print; the show is proposed for the next, as many go to one.
#[derive(Clone, Debug, Default)]
pub(super) struct Typed {
    place: String,
    /// The print of which the show was said; of any other it is a proposal.
    of: Option<PrintId>,
    buyer: String,
    price: String,
    /// When it happened; empty: today.
    day: String,
}

impl Typed {
    /// Whether the show is what was typed for another print, and nobody said it of this one.
    fn proposes(&self, print: PrintId) -> bool {
        !self.place.trim().is_empty() && self.of != Some(print)
    }

    /// Another print is looked at.
    pub(super) fn another(&mut self) {
        (self.buyer, self.price) = (String::new(), String::new());
        self.day = String::new();
    }
}

impl Editions {
    pub(super) fn actions(
        &mut self,
        ui: &mut Ui,
        edition: &Edition,
        print: &Print,
        written: &str,
    ) {
        if print.now.state == State::Destroyed {
            self.replace(ui, edition, print, written);
            return;
        }
        let typed = &mut self.typed;
        let proposes = typed.proposes(print.id);
        let (mut sent, mut said) = (false, false);
        let today = record::today();
        ui.horizontal_wrapped(|ui| {
            for (label, text, wide, hint) in [
                ("Show", &mut typed.place, 150.0, ""),
                ("Buyer", &mut typed.buyer, 150.0, ""),
                ("Price", &mut typed.price, 90.0, ""),
                ("Day", &mut typed.day, 108.0, today.as_str()),
            ] {
                ui.label(widgets::quiet(ui, label));
                let mut edit = TextEdit::singleline(text).desired_width(wide).hint_text(hint);
                if label == "Show" && proposes {
                    edit = edit.text_color(theme::palette(ui).quiet);
                }
                let response = ui.add(edit);
                said |= label == "Show" && response.changed();
                sent |= label == "Show"
                    && response.lost_focus()
                    && ui.input(|input| input.key_pressed(egui::Key::Enter));
                let value = text.clone();
                response.widget_info(|| {
                    let mut info = WidgetInfo::text_edit(true, "", &value, "");
                    info.label = Some(label.to_owned());
                    info
                });
                // Those that are on already, so that no name is typed twice in two ways.
                if label == "Show" && !self.cache.shows.is_empty() {
                    ui.menu_button("Which…", |ui| {
                        for (name, _) in &self.cache.shows {
                            if widgets::entry(ui, text == name, name) {
                                text.clone_from(name);
                                said = true;
                            }
                        }
                    });
                }
            }
        });
        if said {
            typed.of = Some(print.id);
        }
        let mut pressed = sent.then_some(Some(State::Show));
        ui.horizontal(|ui| {
            let there = print.now.state;
            let away = matches!(there, State::Show | State::Sold | State::Unknown);
            // Each stays where it is, so that a second press meets nothing else.
            for (to, label, can) in [
                (State::Show, "To the show", true),
                (State::Sold, "Sold", there != State::Sold),
                (State::Returned, "Come back", away),
                (State::Studio, "In the studio", there != State::Studio),
                (State::Destroyed, "Destroyed", true),
            ] {
                if ui.add_enabled(can, Button::new(label)).clicked() {
                    pressed = Some(Some(to));
                }
            }
            let hint = "The number was given in error: free again, history kept";
            let here = matches!(there, State::Studio | State::Returned);
            let void = ui.add_enabled(here, Button::new("Void"));
            if void.on_hover_text(hint).clicked() {
                pressed = Some(None);
            }
            // Behind the buttons, which stay where they are.
            if typed.proposes(print.id) {
                ui.label(widgets::quiet(ui, "The show is kept from the last print."));
                if ui.button("Clear").on_hover_text("Not for this print").clicked() {
                    typed.place.clear();
                }
            }
        });
        if let Some(to) = pressed {
            // What was proposed is said of it once it goes there.
            self.typed.of =
                Some(print.id).filter(|_| to == Some(State::Show)).or(self.typed.of);
            self.go(print.id, written, to);
        }
    }

    /// A destroyed print is replaced once that was asked: its number then is another print's, and
    /// nothing takes that back.
    fn replace(&mut self, ui: &mut Ui, edition: &Edition, print: &Print, written: &str) {
        let Some(chosen) = &mut self.chosen else { return };
        if chosen.replacing != Some(print.id) {
            let hint = "A new print under its number; asks first";
            if ui.button(format!("Replace {written}…")).on_hover_text(hint).clicked() {
                chosen.replacing = Some(print.id);
            }
            return;
        }
        let question = record::question_before(&Doing::Replace, edition, print);
        ui.add(Label::new(question.unwrap_or_default()).wrap());
        let (mut leave, mut replace) = (false, false);
        ui.horizontal(|ui| {
            // The safe one first.
            leave = ui.button("Leave it").clicked();
            replace = ui.button(format!("Replace {written} by a new print")).clicked();
        });
        if leave || replace {
            chosen.replacing = None;
        }
        if replace {
            let (id, written) = (print.id, written.to_owned());
            self.change(move |record| {
                let note = Note::at(&record::today());
                let new = record::change_print(record, id, Doing::Replace, &note)?;
                Ok(Outcome {
                    said: format!("{written} is replaced by a new print."),
                    replaced: Some((id, new.id)),
                    ..Outcome::default()
                })
            });
        }
    }

    fn go(&mut self, id: PrintId, written: &str, to: Option<State>) {
        let text = |text: &String| {
            let text = text.trim();
            (!text.is_empty()).then(|| text.to_owned())
        };
        let (place, buyer) = (text(&self.typed.place), text(&self.typed.buyer));
        let typed = text(&self.typed.price);
        let day = text(&self.typed.day).unwrap_or_else(record::today);
        // Before it is sent, so that what was typed stays where it is no day, or no price.
        let note = Note::at(&day);
        if let Err(wrong) = note.check() {
            self.status.failed = Some(sightedge_service::wording::whole(&wrong.to_string()));
            return;
        }
        let price = match typed.as_deref().map(Price::read).transpose() {
            Ok(price) => price,
            Err(wrong) => {
                self.status.failed = Some(sightedge_service::wording::whole(&wrong));
                return;
            }
        };
        let doing = to.map_or(Doing::Void, |to| {
            Doing::Go(Going { to, place: place.filter(|_| to == State::Show), buyer, price })
        });
        let written = written.to_owned();
        self.change(move |record| {
            let there = record.print(id)?;
            let before = Box::new(there.now.clone());
            let print = record::change_print(record, id, doing, &note)?;
            let state = print.now.state.name();
            if to.is_none() {
                return Ok(Outcome {
                    said: format!("{written} is voided: free again, its history stays."),
                    freed: Some(id),
                    undo: Some(given_again(there, &written)),
                    ..Outcome::default()
                });
            }
            let (what, after) =
                (format!("marking {written} {state}"), Box::new(print.now.clone()));
            Ok(Outcome {
                said: format!("{written}: {state}."),
                undo: Some(Undo::Changed { print: id, before, after, what }),
                ..Outcome::default()
            })
        });
        self.typed.another();
    }
}

/// Takes back that a number was voided: its print is given the number again, and all that was
/// said of it.
fn given_again(voided: Print, written: &str) -> Undo {
    let what = format!("voiding {written}");
    let told = what.clone();
    let Print { edition, kind, number, now: stock, .. } = voided;
    let issue = Issue { edition, kind, choice: Choice::Number(number), stock, size: None };
    Undo::By(
        what,
        Box::new(move |record| {
            let print = record.issue(&issue, &at_once())?;
            Ok(Outcome { said: undone(&told), noted: Some(print.id), ..Outcome::default() })
        }),
    )
}
