//! What the room shows: messages, damage, a work, an edition and its numbers.

use std::path::Path;

use egui::{Button, RichText, Ui};
use sightedge_core::catalogue::Kind;
use sightedge_studio::{Choice, Edition, EditionRow, Issue, Note, Print, Stock, WorkRow};

use super::form::Form;
use super::record::{Ask, Made};
use super::{Editions, numbers, print, thumbs};
use crate::desk::Desk;
use crate::rooms::Hall;
use crate::{studio, theme, widgets};

impl Editions {
    pub(super) fn messages(&mut self, ui: &mut Ui) {
        let now = ui.input(|input| input.time);
        let since = (self.asked() > 0).then(|| self.waits_since.unwrap_or(now));
        self.waits_since = since;
        if let Some(since) = since {
            // Another program may hold the record for a while; that is not to look like a hang.
            ui.ctx().request_repaint_after(std::time::Duration::from_millis(500));
            if now - since > 1.0 && self.choosing.is_none() && self.papers.is_none() {
                ui.label(widgets::quiet(
                    ui,
                    "Waiting for the record: another window or program may be writing to it…",
                ));
                return;
            }
        }
        if let Some(failed) = &self.failed {
            let text = RichText::new(failed).color(theme::palette(ui).stop);
            ui.add(egui::Label::new(text).wrap());
            return;
        }
        let Some(said) = &self.said else { return };
        ui.horizontal(|ui| {
            ui.set_min_height(theme::ROW);
            let room = if self.undo.is_some() { 200.0 } else { 0.0 };
            ui.scope(|ui| {
                ui.set_max_width((ui.available_width() - room).max(100.0));
                ui.add(egui::Label::new(said).truncate());
            });
            if let Some((_, what)) = &self.undo {
                let hint = "Voids it by a new entry: the number is free again, its history \
                            stays. Ctrl+Z does the same in this room, and leaves all other \
                            entries alone.";
                if ui.button(format!("Undo {what}")).on_hover_text(hint).clicked() {
                    self.undoing = true;
                    ui.ctx().request_repaint();
                }
            }
        });
    }

    pub(super) fn damage(&mut self, ui: &mut Ui) {
        let Some(damage) = &self.damaged else { return };
        let mut ask = None;
        egui::CentralPanel::default()
            .frame(egui::Frame::new().fill(theme::palette(ui).panel).inner_margin(24.0))
            .show(ui, |ui| {
                ui.set_max_width(640.0);
                ui.label(
                    RichText::new("The record is damaged")
                        .family(theme::strong())
                        .size(theme::HEADING),
                );
                ui.add_space(8.0);
                ui.add(egui::Label::new(&damage.words).wrap());
                ui.add_space(12.0);
                let Some(backup) = &damage.backup else {
                    ui.label("The damaged file is kept under another name if you begin anew.");
                    ui.add_space(12.0);
                    if ui.button("Begin a new record here").clicked() {
                        ask = Some(Ask::BeginAnew);
                    }
                    return;
                };
                if let Some((day, holds)) = &damage.holds {
                    let many = |count: u32, what: &str| {
                        format!("{count} {what}{}", if count == 1 { "" } else { "s" })
                    };
                    ui.label(format!(
                        "The newest whole backup is of {day} and holds {} and {}. What was \
                         entered after it is missing there.",
                        many(holds.works, "work"),
                        many(holds.prints, "print")
                    ));
                    ui.add_space(12.0);
                }
                if ui.button("Put the newest backup back").clicked() {
                    ask = Some(Ask::PutBack(backup.clone()));
                }
            });
        if let Some(ask) = ask {
            (self.damaged, self.failed, self.works) = (None, None, None);
            self.ask(ask);
            self.ask(Ask::Look(None));
        }
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
        self.heading(ui, hall, &row);
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

    /// The work itself: its picture, its title, what is known of it.
    fn heading(&mut self, ui: &mut Ui, hall: Hall<'_>, row: &WorkRow) {
        let what = &row.work.what;
        let year = what.taken.map(|year| year.to_string());
        let about: Vec<&str> = [&row.work.catalogue, &what.maker]
            .into_iter()
            .map(String::as_str)
            .chain(year.as_deref())
            .chain([what.medium.as_str(), what.paper.as_str()])
            .filter(|text| !text.is_empty())
            .collect();
        let prints = self.prints.editions.iter().flat_map(|one| &one.1);
        let plans = prints.map(|print| Path::new(&print.now.plan_file));
        let open = hall.desks.iter().map(|(_, desk)| desk.plan.as_path());
        let homes = thumbs::homes(plans.chain(open));
        ui.horizontal_top(|ui| {
            let mut missing = None;
            if !what.picture.is_empty() {
                let (rect, _) =
                    ui.allocate_exact_size(egui::vec2(72.0, 72.0), egui::Sense::hover());
                missing = self.thumbs.show(ui, rect, what, &homes).map(str::to_owned);
                ui.add_space(8.0);
            }
            ui.vertical(|ui| {
                let title =
                    RichText::new(&what.title).family(theme::strong()).size(theme::HEADING);
                ui.add(egui::Label::new(title).truncate());
                ui.add(egui::Label::new(widgets::quiet(ui, &about.join("  ·  "))).truncate());
                if let Some(missing) = missing {
                    ui.add(egui::Label::new(widgets::quiet(ui, &missing)).truncate());
                }
            });
        });
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

    /// The record is not there, or not yet.
    fn unopened(&mut self, ui: &mut Ui) {
        if self.failed.is_none() {
            ui.label(widgets::quiet(ui, "Opening the record…"));
            return;
        }
        let heading = RichText::new("The record could not be opened");
        ui.label(heading.family(theme::strong()).size(theme::HEADING));
        ui.add_space(8.0);
        ui.label("What is in the way is told below. Nothing was changed.");
        ui.add_space(12.0);
        if ui.button("Try again").clicked() {
            self.failed = None;
            self.ask(Ask::Look(None));
        }
    }

    /// Nothing is looked at: what to do first.
    pub(super) fn nothing(&mut self, ui: &mut Ui, hall: Hall<'_>) {
        let Some(works) = &self.works else {
            self.unopened(ui);
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
