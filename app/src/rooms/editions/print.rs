//! The number that was chosen: where its print is, what can be done, what happened.

use egui::{Button, RichText, TextEdit, Ui, WidgetInfo};
use sightedge_core::catalogue::Kind;
use sightedge_core::inscription::inscription;
use sightedge_core::spec::Inscribed;
use sightedge_studio::{Change, Choice, Edition, Money, Note, Print, PrintId, State, Subject};

use super::Editions;
use super::form::{Correction, Page, size_words};
use super::papers::Papers;
use super::talk::{Made, Undo};
use crate::rooms::Hall;
use crate::{studio, theme, widgets};

/// What was typed for the print; the show stays for the next, as many go to one.
#[derive(Clone, Debug, Default)]
pub(super) struct Typed {
    place: String,
    buyer: String,
    price: String,
}

impl Typed {
    /// Another print is looked at.
    pub(super) fn another(&mut self) {
        (self.buyer, self.price) = (String::new(), String::new());
    }
}

impl Editions {
    /// Shows the number; gives what is to be issued.
    pub(super) fn chosen_number(
        &mut self,
        ui: &mut Ui,
        hall: Hall<'_>,
        edition: &Edition,
        (kind, number): (Kind, u32),
        held: &[Print],
    ) -> Option<(Kind, Choice)> {
        let written = edition.what.notation(kind, number);
        let ids: Vec<Subject> = held.iter().map(|print| Subject::Print(print.id)).collect();
        let Some(print) = held.iter().find(|print| print.live).cloned() else {
            let mut issue = None;
            ui.horizontal(|ui| {
                ui.label(RichText::new(format!("{written} is free")).family(theme::strong()));
                if ui.add(Button::new(format!("Issue {written} itself"))).clicked() {
                    issue = Some((kind, Choice::Number(number)));
                }
            });
            if !ids.is_empty() {
                ui.label("It was given before, and voided:");
                self.what_happened(ui, hall, ids);
            }
            return issue;
        };
        let now = &print.now;
        let size = self.prints.formats.iter().find(|format| Some(format.id) == now.format);
        let size = size.map(|format| size_words(&format.what, hall.settings.unit()));
        let day = |what: &str, day: &str| {
            if day.is_empty() { String::new() } else { format!("{what} {day}") }
        };
        let mut state = now.state.name().to_owned();
        if !now.place.is_empty() {
            let at = if now.state == State::Sold { " at" } else { ":" };
            state = format!("{state}{at} {}", now.place);
        }
        let price = now.price.as_ref().map(ToString::to_string);
        for more in [
            price.unwrap_or_default(),
            now.buyer.clone(),
            size.unwrap_or_default(),
            day("printed", &now.printed),
            day("matted", &now.matted),
        ] {
            if !more.is_empty() {
                state = format!("{state}  ·  {more}");
            }
        }
        let (mut papers, mut correct) = (false, false);
        ui.horizontal(|ui| {
            ui.label(RichText::new(&written).family(theme::strong()).size(theme::BODY));
            let hint = "Label for the backing, certificate of authenticity";
            papers = ui.button("Papers…").on_hover_text(hint).clicked();
            let hint = "Where it is, who has it, what it cost, its days, size and plan";
            correct = ui.button(format!("Correct {written}…")).on_hover_text(hint).clicked();
        });
        ui.add(egui::Label::new(state).wrap());
        if correct && let Some(work) = self.work_looked_at() {
            let formats = match edition.what.format {
                None => self.prints.formats.clone(),
                Some(_) => Vec::new(),
            };
            let open = self.plan_of_work(hall).map(|desk| {
                (desk.document().id.clone(), desk.plan.to_string_lossy().into_owned())
            });
            let page = Correction::of(work, &print, written.clone(), formats, open);
            self.form = Some(Page::Print(page).into());
            return None;
        }
        if papers {
            let works = self.works.iter().flatten().map(|row| &row.work);
            let work = { works }.find(|work| work.id == edition.work).cloned();
            self.papers =
                work.map(|work| Papers::of_print(hall, (work, edition.clone(), print.clone())));
        }
        self.deeds(ui, &print, &written);
        ui.columns(2, |columns| {
            let [left, right] = columns else { return };
            self.what_happened(left, hall, ids);
            self.inscribed(right, hall, edition, &print);
        });
        None
    }

    fn deeds(&mut self, ui: &mut Ui, print: &Print, written: &str) {
        let typed = &mut self.typed;
        if print.now.state == State::Destroyed {
            if ui.button(format!("Replace {written}")).clicked() {
                let (id, written) = (print.id, written.to_owned());
                self.make(move |record| {
                    record.replace(id, &Note::at(&studio::today()))?;
                    Ok(Made {
                        said: format!("{written} is replaced by a new print."),
                        ..Made::default()
                    })
                });
            }
            return;
        }
        let mut sent = false;
        ui.horizontal(|ui| {
            for (label, text, wide) in [
                ("Show", &mut typed.place, 170.0),
                ("Buyer", &mut typed.buyer, 170.0),
                ("Price", &mut typed.price, 100.0),
            ] {
                ui.label(widgets::quiet(ui, label));
                let response = ui.add(TextEdit::singleline(text).desired_width(wide));
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
                if label == "Show" && !self.shows.is_empty() {
                    ui.menu_button("Which…", |ui| {
                        for (name, _) in &self.shows {
                            if widgets::entry(ui, text == name, name) {
                                text.clone_from(name);
                            }
                        }
                    });
                }
            }
        });
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
            let void = ui.add_enabled(there != State::Sold, Button::new("Void"));
            if void.on_hover_text(hint).clicked() {
                pressed = Some(None);
            }
        });
        if let Some(to) = pressed {
            self.go(print.id, written, to);
        }
    }

    fn go(&mut self, id: PrintId, written: &str, to: Option<State>) {
        let text = |text: &String| {
            let text = text.trim();
            (!text.is_empty()).then(|| text.to_owned())
        };
        let (place, buyer) = (text(&self.typed.place), text(&self.typed.buyer));
        let typed = text(&self.typed.price);
        // Before it is sent, so that what was typed stays where it is no price.
        if let Some(Err(wrong)) = typed.as_deref().map(|text| Money::read(text, "EUR")) {
            self.failed = Some(crate::wording::whole(&wrong));
            return;
        }
        let written = written.to_owned();
        self.make(move |record| {
            let usual = record.setting("currency")?.unwrap_or_else(|| "EUR".to_owned());
            let price = typed.map(|text| Money::read(&text, &usual)).transpose();
            let price = price.map_err(sightedge_studio::Error::Unreadable)?;
            if let Some(money) = price.as_ref().filter(|money| money.currency != usual) {
                record.set("currency", &money.currency)?;
            }
            let change = match to {
                None => Change::Void,
                Some(to) => {
                    let place = place.filter(|_| to == State::Show);
                    let place = place.map(|name| studio::show_called(&*record, &name));
                    let place = place.transpose()?;
                    Change::Move { to, place, buyer, price }
                }
            };
            let before = Box::new(record.print(id)?.now);
            let print = record.change(id, &change, &Note::at(&studio::today()))?;
            let state = print.now.state.name();
            if to.is_none() {
                return Ok(Made {
                    said: format!("{written} is voided: free again, its history stays."),
                    freed: Some(id),
                    ..Made::default()
                });
            }
            let (what, after) =
                (format!("marking {written} {state}"), Box::new(print.now.clone()));
            Ok(Made {
                said: format!("{written}: {state}."),
                undo: Some(Undo::Changed { print: id, before, after, what }),
                ..Made::default()
            })
        });
        self.typed.another();
    }

    /// What is written on it, where the open plan is its own.
    fn inscribed(&self, ui: &mut Ui, hall: Hall<'_>, edition: &Edition, print: &Print) {
        let Some(desk) = hall.desk().filter(|desk| desk.document().id == print.now.plan) else {
            return;
        };
        let works = self.works.iter().flatten();
        let row = { works }.find(|row| row.work.id == edition.work);
        let (Some(row), Some(variant)) = (row, desk.variant()) else { return };
        let recorded = studio::recorded(&row.work, edition, print.kind, print.number);
        let mut document = desk.document().clone();
        let wish = document.inscribed.take().map(|own| own.wish).unwrap_or_default();
        document.inscribed = Some(Inscribed { wish, recorded });
        ui.add_space(4.0);
        match inscription(&document, &variant.mat, &desk.derived().layout) {
            None => {}
            Some(Ok(made)) => {
                let behind = if made.behind_image { "image" } else { "margin" };
                let heading = format!(
                    "Behind the {behind}, along the lower edge, with {}",
                    made.tool.with
                );
                ui.label(widgets::quiet(ui, &heading)).on_hover_text(made.tool.how);
                for line in &made.back {
                    let sign = if line.sign { "  (sign)" } else { "" };
                    ui.add(egui::Label::new(format!("{}{sign}", line.text)).truncate());
                }
            }
            Some(Err(why)) => {
                ui.label(widgets::quiet(ui, &why));
            }
        }
    }
}
