//! What is done to a print: it goes to a show or a buyer, is returned, destroyed or replaced.

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
    /// The print whose show was typed; for any other it is a proposal.
    of: Option<PrintId>,
    buyer: String,
    price: String,
    /// When it happened; empty: today.
    day: String,
    /// Numbers to be chosen.
    pub(super) numbers: String,
}

impl Typed {
    /// Whether the show is what was typed for another print, and nobody took it for this one.
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
        let sent = self.typed_row(ui, Some(print.id));
        let typed = &mut self.typed;
        let mut pressed = sent.then_some(Some(State::Show));
        ui.horizontal(|ui| {
            let there = print.now.state;
            let away = matches!(there, State::Show | State::Sold | State::Unknown);
            // Each stays where it is, so that a second press meets nothing else.
            for (to, label, can) in [
                (State::Show, "To the show", true),
                (State::Sold, "Sold", there != State::Sold),
                (State::Returned, "Returned", away),
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
                ui.label(widgets::quiet(ui, "The show is that of the last print."));
                if ui.button("Clear").on_hover_text("Not for this print").clicked() {
                    typed.place.clear();
                }
            }
        });
        if let Some(to) = pressed {
            // What was proposed is its show once it goes there.
            self.typed.of =
                Some(print.id).filter(|_| to == Some(State::Show)).or(self.typed.of);
            self.go(print.id, written, to);
        }
    }

    /// A destroyed print is replaced once that was asked: its number then is another print's, which
    /// cannot be undone.
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

    /// The fields for what is done: show, buyer, price, day. `of` is the print, `None` for several.
    /// Returns whether Enter in the show sends it there.
    pub(super) fn typed_row(&mut self, ui: &mut Ui, of: Option<PrintId>) -> bool {
        let typed = &mut self.typed;
        let proposes = of.is_some_and(|print| typed.proposes(print));
        let (mut sent, mut said) = (false, false);
        let today = record::today();
        let cost = record::price_hint(self.cache.currency.as_deref());
        ui.horizontal_wrapped(|ui| {
            let price = if of.is_some() { "Price" } else { "Price of each" };
            for (label, text, wide, hint) in [
                ("Show", &mut typed.place, 150.0, ""),
                ("Buyer", &mut typed.buyer, 150.0, ""),
                (price, &mut typed.price, 110.0, cost.as_str()),
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
            typed.of = of;
        }
        sent
    }

    /// What was typed, for a print that goes `to`; `None` where it is no day or no price, which is
    /// shown at the foot while what was typed stays.
    pub(super) fn typed_going(&mut self, to: State) -> Option<(Going, Note)> {
        let text = |text: &String| {
            let text = text.trim();
            (!text.is_empty()).then(|| text.to_owned())
        };
        let (place, buyer) = (text(&self.typed.place), text(&self.typed.buyer));
        let day = text(&self.typed.day).unwrap_or_else(record::today);
        let note = Note::at(&day);
        let price = text(&self.typed.price).as_deref().map(Price::read).transpose();
        let wrong = note.check().err().map(|wrong| wrong.to_string());
        match (wrong, price) {
            (None, Ok(price)) => {
                let place = place.filter(|_| to == State::Show);
                Some((Going { to, place, buyer, price }, note))
            }
            (Some(wrong), _) | (None, Err(wrong)) => {
                self.status.failed = Some(sightedge_service::wording::whole(&wrong));
                None
            }
        }
    }

    fn go(&mut self, id: PrintId, written: &str, to: Option<State>) {
        let typed = self.typed_going(to.unwrap_or_default());
        let Some((going, note)) = typed else { return };
        let doing = to.map_or(Doing::Void, |_| Doing::Go(going));
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

/// Undoes that a number was voided: its print gets the number again, and all that was known of
/// it.
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
