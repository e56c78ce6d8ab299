//! What the room shows: messages, damage, a work, an edition and its numbers.

use egui::{Button, RichText, Ui};
use sightedge_core::catalogue::Kind;
use sightedge_studio::{Change, Choice, Edition, EditionRow, Issue, Note, Print, Stock};

use super::form::Form;
use super::record::{Ask, Made};
use super::{Editions, numbers, print};
use crate::desk::Desk;
use crate::rooms::Hall;
use crate::{studio, theme, widgets};

impl Editions {
    pub(super) fn messages(&mut self, ui: &mut Ui) {
        let mut void = None;
        ui.horizontal(|ui| {
            ui.set_min_height(theme::ROW);
            if let Some(failed) = &self.failed {
                let text = RichText::new(failed).color(theme::palette(ui).stop);
                ui.add(egui::Label::new(text).truncate()).on_hover_text(failed);
            } else if let Some(said) = &self.said {
                ui.label(said);
                if let Some((id, written)) = &self.undo
                    && ui.button(format!("Take {written} back")).clicked()
                {
                    void = Some((*id, written.clone()));
                }
            }
        });
        if let Some((id, written)) = void {
            self.make(move |record| {
                let note = Note::because(&studio::today(), "taken back at once");
                record.change(id, &Change::Void, &note)?;
                Ok(Made {
                    said: format!("{written} is free again; its entry stays in the history."),
                    freed: Some(id),
                    ..Made::default()
                })
            });
        }
    }

    pub(super) fn damage(&mut self, ui: &mut Ui) {
        let Some((words, backup)) = self.damaged.clone() else { return };
        egui::CentralPanel::default()
            .frame(egui::Frame::new().fill(theme::palette(ui).panel).inner_margin(24.0))
            .show(ui, |ui| {
                ui.label(
                    RichText::new("The record is damaged")
                        .family(theme::strong())
                        .size(theme::HEADING),
                );
                ui.add_space(8.0);
                ui.label(words);
                ui.add_space(12.0);
                if let Some(backup) = backup
                    && ui.button("Put the newest backup back").clicked()
                {
                    self.damaged = None;
                    self.ask(Ask::PutBack(backup));
                    self.ask(Ask::Look(None));
                }
            });
    }

    /// The work that is looked at: its editions and their numbers.
    pub(super) fn work(&mut self, ui: &mut Ui, hall: Hall<'_>) {
        let row = self.works.as_ref().and_then(|works| {
            works.iter().find(|row| Some(row.work.id) == self.chosen).cloned()
        });
        let Some(row) = row else {
            self.nothing(ui, hall);
            return;
        };
        let what = &row.work.what;
        ui.add(
            egui::Label::new(
                RichText::new(&what.title).family(theme::strong()).size(theme::HEADING),
            )
            .truncate(),
        );
        let year = what.taken.map(|year| year.to_string());
        let about: Vec<&str> = [&row.work.catalogue, &what.maker]
            .into_iter()
            .map(String::as_str)
            .chain(year.as_deref())
            .chain([what.medium.as_str(), what.paper.as_str()])
            .filter(|text| !text.is_empty())
            .collect();
        ui.label(widgets::quiet(ui, &about.join("  ·  ")));
        ui.add_space(8.0);
        let editions: Vec<EditionRow> =
            self.prints.editions.iter().map(|one| one.0.clone()).collect();
        if editions.len() > 1 {
            ui.horizontal_wrapped(|ui| {
                for (n, one) in editions.iter().enumerate() {
                    let on = Some(one.edition.id) == self.edition;
                    let name = if one.edition.what.name.is_empty() {
                        format!("Edition {}", n + 1)
                    } else {
                        one.edition.what.name.clone()
                    };
                    if ui.selectable_label(on, name).clicked() {
                        self.edition = Some(one.edition.id);
                        self.place = None;
                    }
                }
            });
        }
        let of = self.edition;
        let Some(at) = self.prints.editions.iter().position(|one| Some(one.0.edition.id) == of)
        else {
            return;
        };
        self.edition(ui, hall, at);
    }

    pub(super) fn edition(&mut self, ui: &mut Ui, hall: Hall<'_>, at: usize) {
        let Some((row, prints)) = self.prints.editions.get(at) else { return };
        let edition = row.edition.clone();
        let next = numbers::next(&edition, prints);
        let mut issue = None;
        ui.horizontal(|ui| {
            let words = next.map_or_else(
                || "Every number is issued".to_owned(),
                |n| format!("Issue {}", edition.what.notation(Kind::Numbered, n)),
            );
            let button = Button::new(RichText::new(words).family(theme::strong()));
            let plan = self.plan_of_work(hall).map(Desk::title);
            let hint = plan.as_ref().map_or_else(
                || "The next number; open the plan of this picture to note which mat it gets".to_owned(),
                |title| format!("The next number, for the open plan {title}, whose inscription it fills in"),
            );
            if ui.add_enabled(next.is_some(), button).on_hover_text(hint).clicked() {
                issue = Some((Kind::Numbered, Choice::Next));
            }
            if let Some(title) = plan {
                ui.label(widgets::quiet(ui, &format!("for the open plan, {title}")));
            }
        });
        ui.add_space(4.0);
        legend(ui, &edition, prints);
        ui.add_space(8.0);
        let chosen = self
            .place
            .filter(|place| place.0 == edition.id)
            .map(|(_, kind, number)| (kind, number));
        let below = 236.0;
        let tall = (ui.available_height() - below).max(96.0);
        let mut pressed = numbers::grid(ui, &edition, Kind::Numbered, prints, chosen, tall)
            .map(|number| (Kind::Numbered, number));
        for kind in Kind::ALL.into_iter().skip(1) {
            let there = prints.iter().any(|print| print.live && print.kind == kind);
            let shown = if kind.single() { there } else { edition.what.count(kind) > 0 };
            if shown {
                ui.add_space(6.0);
                let proof = numbers::grid(ui, &edition, kind, prints, chosen, 64.0);
                pressed = proof.map(|number| (kind, number)).or(pressed);
            }
        }
        ui.add_space(8.0);
        ui.separator();
        if let Some((kind, number)) = chosen {
            let print = numbers::holder(prints, kind, number).cloned();
            issue = self.chosen_number(ui, hall, &edition, (kind, number), print).or(issue);
        } else {
            ui.label(widgets::quiet(
                ui,
                "Choose a number to see where it is and what happened.",
            ));
        }
        if let Some((kind, number)) = pressed {
            self.place = Some((edition.id, kind, number));
            self.history = None;
            self.typed = print::Typed::default();
        }
        if let Some((kind, choice)) = issue {
            self.issue(hall, &edition, kind, choice);
        }
    }

    pub(super) fn issue(
        &mut self,
        hall: Hall<'_>,
        edition: &Edition,
        kind: Kind,
        choice: Choice,
    ) {
        let mut stock = Stock::default();
        if let Some(desk) = self.plan_of_work(hall) {
            stock.plan.clone_from(&desk.document().id);
            stock.plan_file = desk.plan.to_string_lossy().into_owned();
        }
        let what = edition.what.clone();
        let issue = Issue { edition: edition.id, kind, choice, stock };
        self.make(move |record| {
            let print = record.issue(&issue, &Note::at(&studio::today()))?;
            let written = what.notation(print.kind, print.number);
            Ok(Made {
                said: format!("{written} is issued."),
                issued: Some((print.id, written)),
                ..Made::default()
            })
        });
    }

    /// Nothing is looked at: what to do first.
    pub(super) fn nothing(&mut self, ui: &mut Ui, hall: Hall<'_>) {
        let Some(works) = &self.works else {
            if self.failed.is_none() {
                ui.label(widgets::quiet(ui, "Opening the record…"));
            }
            return;
        };
        let (heading, text) = if works.is_empty() {
            (
                "No work is in the record yet",
                "Add a picture as a work, say how many prints there are to be, and each number \
                 is kept here: where it is, who has it, what it cost. No number is given twice.",
            )
        } else {
            ("Choose a work", "Its numbers are shown here.")
        };
        ui.label(RichText::new(heading).family(theme::strong()).size(theme::HEADING));
        ui.add_space(8.0);
        ui.add(egui::Label::new(text).wrap());
        ui.add_space(12.0);
        let label =
            if hall.desk().is_some() { "Add the open picture…" } else { "Add a work…" };
        if ui.button(label).clicked() {
            self.form = Some(Form::of(hall.desk(), &self.maker));
        }
        if let Some(home) = &self.home {
            ui.add_space(24.0);
            let place = format!("The record is kept in {}", home.folder.display());
            ui.add(egui::Label::new(widgets::quiet(ui, &place)).wrap());
        }
    }
}

/// Each form with its word and how many there are of it.
fn legend(ui: &mut Ui, edition: &Edition, prints: &[Print]) {
    let palette = theme::palette(ui);
    let live = || prints.iter().filter(|print| print.live && print.kind == Kind::Numbered);
    let issued = u32::try_from(live().count()).unwrap_or(u32::MAX);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        for form in numbers::Form::ALL {
            let count = match form {
                numbers::Form::Free => edition.what.size.saturating_sub(issued),
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
