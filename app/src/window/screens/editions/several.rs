//! What is done to several numbers at once: all of them or none.

use egui::{Button, Label, RichText, TextEdit, Ui, WidgetInfo};
use sightedge_core::catalogue::Kind;
use sightedge_studio::{Edition, Print, PrintId, State};

use super::Editions;
use super::chosen::Number;
use super::messages::{Outcome, Undo};
use super::undo::{at_once, undone};
use crate::window::{theme, widgets};
use sightedge_service::record;

/// Where several prints can go at once, and the button for it.
const WAYS: [(State, &str); 5] = [
    (State::Show, "To the show"),
    (State::Sold, "Sold"),
    (State::Returned, "Returned"),
    (State::Studio, "In the studio"),
    (State::Destroyed, "Destroyed"),
];

impl Editions {
    /// `held` are the prints that hold one of the `numbers`.
    pub(super) fn several(
        &mut self,
        ui: &mut Ui,
        edition: &Edition,
        numbers: &[Number],
        held: &[Print],
    ) {
        let written = in_words(edition, numbers);
        let mut none = false;
        ui.horizontal(|ui| {
            let words = format!("{} numbers chosen", numbers.len());
            ui.label(RichText::new(words).family(theme::strong()).size(theme::BODY));
            none = ui.button("Choose none").clicked();
            ui.add(Label::new(widgets::quiet(ui, &written)).truncate()).on_hover_text(&written);
        });
        let free = numbers.len() - held.len();
        let counts = State::ALL.into_iter().filter_map(|state| {
            let count = held.iter().filter(|print| print.now.state == state).count();
            (count > 0).then(|| format!("{count} {}", state.name()))
        });
        let free = (free > 0).then(|| format!("{free} not issued, left out"));
        let counts: Vec<String> = counts.chain(free).collect();
        ui.label(counts.join("  ·  "));
        let sent = self.typed_row(ui, None);
        let mut pressed = sent.then_some(State::Show);
        ui.horizontal(|ui| {
            for (to, label) in WAYS {
                let can = held.iter().any(|print| print.now.state != to || to == State::Show);
                if ui.add_enabled(can, Button::new(label)).clicked() {
                    pressed = Some(to);
                }
            }
        });
        let words = "All of them or none. Void or replace a number by itself.";
        ui.label(widgets::quiet(ui, words));
        if none && let Some(chosen) = &mut self.chosen {
            chosen.look_at(edition.id);
        }
        if let Some(to) = pressed {
            let kept: Vec<Number> =
                held.iter().map(|print| (print.kind, print.number)).collect();
            let ids = held.iter().map(|print| print.id).collect();
            self.go_together(ids, in_words(edition, &kept), to);
        }
    }

    fn go_together(&mut self, ids: Vec<PrintId>, written: String, to: State) {
        let Some((going, note)) = self.typed_going(to) else { return };
        self.change(move |record| {
            let were = ids.iter().map(|id| record.print(*id)).collect::<Result<Vec<_>, _>>()?;
            let made = record::several(record, &ids, going, &note)?;
            let what = format!("marking {written} {}", to.name());
            let told = what.clone();
            let undo: super::messages::Change = Box::new(move |record| {
                record::several_back(record, &made, &were, &at_once())?;
                Ok(Outcome { said: undone(&told), ..Outcome::default() })
            });
            Ok(Outcome {
                said: format!("{written}: {}.", to.name()),
                undo: Some(Undo::By(what, undo)),
                ..Outcome::default()
            })
        });
        self.typed.another();
    }

    /// A field to choose numbers by typing them.
    pub(super) fn typed_numbers(&mut self, ui: &mut Ui, edition: &Edition) {
        let mut entered = false;
        ui.horizontal(|ui| {
            ui.label(widgets::quiet(ui, "Numbers"));
            let text = &mut self.typed.numbers;
            let edit = TextEdit::singleline(text).desired_width(220.0).hint_text("3, 7, 10-20");
            let response = ui.add(edit);
            entered = response.lost_focus() && ui.input(|it| it.key_pressed(egui::Key::Enter));
            let value = text.clone();
            response.widget_info(|| {
                let mut info = WidgetInfo::text_edit(true, "", &value, "3, 7, 10-20");
                info.label = Some("Numbers".to_owned());
                info
            });
            entered |= ui.button("Choose these").clicked();
        });
        if !entered {
            return;
        }
        let size = edition.what.size;
        let read = record::numbers(&self.typed.numbers).and_then(|numbers| {
            match numbers.iter().find(|number| **number > size) {
                Some(number) => Err(format!(
                    "this edition has {size} prints; {number} is beyond it. Choose numbers from \
                     1 to {size}"
                )),
                None => Ok(numbers),
            }
        });
        match read {
            Err(wrong) => self.status.failed = Some(sightedge_service::wording::whole(&wrong)),
            Ok(numbers) => {
                self.typed.numbers.clear();
                let numbers = numbers.into_iter().map(|number| (Kind::Numbered, number));
                if let Some(chosen) = &mut self.chosen {
                    chosen.choose_numbers(edition.id, numbers.collect());
                }
            }
        }
    }
}

/// Numbers as one says them: 3, 7, 10-20, AP II/V.
fn in_words(edition: &Edition, numbers: &[Number]) -> String {
    let numbered = numbers.iter().filter(|(kind, _)| *kind == Kind::Numbered);
    let numbered: Vec<u32> = numbered.map(|(_, number)| *number).collect();
    let proofs = numbers.iter().filter(|(kind, _)| *kind != Kind::Numbered);
    let proofs = proofs.map(|(kind, number)| edition.what.notation(*kind, *number));
    let numbered = Some(record::numbers_in_words(&numbered)).filter(|it| !it.is_empty());
    numbered.into_iter().chain(proofs).collect::<Vec<_>>().join(", ")
}
