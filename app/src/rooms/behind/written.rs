//! What is written on the print and on its mat: the words, the print's number, where it stands.

use egui::{Button, Ui};
use sightedge_core::command::Command;
use sightedge_core::inscription::{FIELDS, sound};
use sightedge_core::spec::{Back, Front, Inscribed, Recorded, Wish};

use super::super::print::chooser;
use super::title;
use crate::action::Action;
use crate::panels::Asks;
use crate::rooms::Hall;
use crate::studio::prints::{self, Unnamed};
use crate::theme;
use crate::view::View;
use crate::widgets::{choice, field_width, group, note, quiet, row, text};
use crate::words::Words;

/// As many lines as a back has room for.
const MOST_LINES: usize = 8;

/// Shows what is to be written, or what to do first.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, hall: Hall<'_>, asks: &mut Asks) {
    let Some(inscribed) = &view.document.inscribed else {
        group(ui, "Inscription", |ui| {
            note(
                ui,
                "Nothing is to be written yet. Begin with your usual words; issuing a number in \
                 Editions fills in the record's.",
            );
            ui.add_space(4.0);
            chooser(ui, view, hall, asks);
            if ui.add_sized([180.0, theme::ROW], Button::new("Plan an inscription")).clicked() {
                let wish = hall.settings.words.wish();
                put(asks, Inscribed { wish, recorded: Recorded::default() });
            }
        });
        return;
    };
    print(ui, view, hall, inscribed, asks);
    back(ui, inscribed, asks);
    front(ui, inscribed, asks);
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let usual = Words::of(&inscribed.wish);
        let kept = hall.settings.words == usual;
        let keep = Button::new("Keep as my usual words");
        if ui.add_enabled(!kept, keep).clicked() {
            asks.actions.push(Action::Words(Box::new(usual)));
            asks.said = Some("New inscriptions begin with these words.".to_owned());
        }
        if ui.button("Write nothing").clicked() {
            asks.run(Command::SetInscribed(None));
        }
    });
}

fn put(asks: &mut Asks, inscribed: Inscribed) {
    asks.run(Command::SetInscribed(Some(Box::new(inscribed))));
}

fn with_wish(asks: &mut Asks, inscribed: &Inscribed, wish: Wish) {
    put(asks, Inscribed { wish, recorded: inscribed.recorded.clone() });
}

fn with_record(asks: &mut Asks, inscribed: &Inscribed, recorded: Recorded) {
    put(asks, Inscribed { wish: inscribed.wish.clone(), recorded });
}

fn print(ui: &mut Ui, view: &View<'_>, hall: Hall<'_>, inscribed: &Inscribed, asks: &mut Asks) {
    let recorded = &inscribed.recorded;
    group(ui, "The print", |ui| {
        chooser(ui, view, hall, asks);
        row(ui, "title", |ui| {
            let width = field_width(ui, 1);
            let hint = view.work.title.as_str();
            if let Some(title) = text(ui, "Title written", &recorded.title, hint, width) {
                with_record(asks, inscribed, Recorded { title, ..recorded.clone() });
            }
        });
        row(ui, "by", |ui| {
            let width = field_width(ui, 1);
            if let Some(maker) = text(ui, "Name written", &recorded.maker, "", width) {
                with_record(asks, inscribed, Recorded { maker, ..recorded.clone() });
            }
        });
        row(ui, "years", |ui| {
            let width = field_width(ui, 2);
            year(ui, "Year taken", recorded.taken, width, asks, |asks, taken| {
                with_record(asks, inscribed, Recorded { taken, ..recorded.clone() });
            });
            year(ui, "Year printed", recorded.printed, width, asks, |asks, printed| {
                with_record(asks, inscribed, Recorded { printed, ..recorded.clone() });
            });
        });
        row(ui, "number", |ui| {
            let width = field_width(ui, 2);
            let shown = recorded.notation.map(|number| number.text(recorded.numerals));
            let shown = shown.unwrap_or_default();
            let Some(typed) = text(ui, "Number", &shown, "3/25", width) else { return };
            if typed.trim().is_empty() {
                let none = Recorded { notation: None, print: None, ..recorded.clone() };
                with_record(asks, inscribed, none);
                return;
            }
            let usual = hall.settings.words.wish();
            // A number that the record has given to this plan is that print's.
            let known = hall.prints.map(|prints| prints.named(&typed));
            match known {
                Some(Ok(one)) => put(asks, prints::taken(view.document, one, &usual)),
                Some(Err(Unnamed::Several { words, .. })) => {
                    asks.said = Some(format!("{words}: choose it from the list of prints."));
                }
                Some(Err(Unnamed::None(_))) | None => {
                    match prints::typed(view.document, &typed, &usual) {
                        Ok(made) => put(asks, made),
                        Err(why) => asks.said = Some(format!("{why}.")),
                    }
                }
            }
        });
    });
}

/// A year's field; `write` gets what was typed, nothing where the field was emptied.
fn year(
    ui: &mut Ui,
    name: &str,
    shown: Option<i64>,
    width: f32,
    asks: &mut Asks,
    write: impl FnOnce(&mut Asks, Option<i64>),
) {
    let text_shown = shown.map(|year| year.to_string()).unwrap_or_default();
    let Some(typed) = text(ui, name, &text_shown, "", width) else { return };
    let typed = typed.trim();
    if typed.is_empty() {
        return write(asks, None);
    }
    match typed.parse::<i64>().ok().filter(|year| (1800..=9999).contains(year)) {
        Some(year) => write(asks, Some(year)),
        None => {
            asks.said =
                Some(format!("{name}: \"{typed}\" is no year: one such as 2021 is wanted."));
        }
    }
}

/// A line of the person's own; refused in words where it cannot be filled in.
fn line(ui: &mut Ui, name: &str, shown: &str, asks: &mut Asks) -> Option<String> {
    let width = field_width(ui, 1);
    let typed = text(ui, name, shown, "nothing", width)?;
    match sound(&typed) {
        Ok(()) => Some(typed),
        Err(why) => {
            asks.said = Some(format!("{name}: {why}."));
            None
        }
    }
}

fn back(ui: &mut Ui, inscribed: &Inscribed, asks: &mut Asks) {
    let wish = &inscribed.wish;
    group(ui, "On the back of the sheet", |ui| {
        row(ui, "where", |ui| {
            let options = [(Back::Margin, "behind margin"), (Back::Image, "behind image")];
            let width = field_width(ui, 1);
            if let Some(behind) = choice(ui, "On the back", Some(wish.behind), &options, width)
            {
                with_wish(asks, inscribed, Wish { behind, ..wish.clone() });
            }
        });
        // One more than there are, to write in.
        let more = usize::from(wish.back.len() < MOST_LINES);
        for index in 0..wish.back.len() + more {
            let shown = wish.back.get(index).map_or("", String::as_str);
            let label = if index == 0 { "lines" } else { "" };
            row(ui, label, |ui| {
                let name = format!("Line {} on the back", index + 1);
                let Some(typed) = line(ui, &name, shown, asks) else { return };
                let mut back = wish.back.clone();
                match back.get_mut(index) {
                    Some(_) if typed.trim().is_empty() => {
                        back.remove(index);
                    }
                    Some(line) => *line = typed,
                    None if !typed.trim().is_empty() => back.push(typed),
                    None => {}
                }
                with_wish(asks, inscribed, Wish { back, ..wish.clone() });
            });
        }
        let fields: Vec<String> = FIELDS.iter().map(|field| format!("{{{field}}}")).collect();
        note(
            ui,
            &format!(
                "{} are filled in; what stands between [ ] is left out where it is not known.",
                fields.join(" ")
            ),
        );
    });
}

fn front(ui: &mut Ui, inscribed: &Inscribed, asks: &mut Asks) {
    let wish = &inscribed.wish;
    group(ui, "On the front", |ui| {
        row(ui, "where", |ui| {
            let options =
                [(Front::Margin, "margin"), (Front::Mat, "mat"), (Front::Nothing, "nowhere")];
            let width = field_width(ui, 1);
            if let Some(front) = choice(ui, "On the front", Some(wish.front), &options, width) {
                with_wish(asks, inscribed, Wish { front, ..wish.clone() });
            }
        });
        if wish.front != Front::Nothing {
            let (first, last) = match wish.front {
                Front::Mat => ("first", "then"),
                Front::Margin | Front::Nothing => ("left", "right"),
            };
            row(ui, first, |ui| {
                if let Some(left) = line(ui, "First on the front", &wish.left, asks) {
                    with_wish(asks, inscribed, Wish { left, ..wish.clone() });
                }
            });
            row(ui, last, |ui| {
                if let Some(right) = line(ui, "Last on the front", &wish.right, asks) {
                    with_wish(asks, inscribed, Wish { right, ..wish.clone() });
                }
            });
        }
        row(ui, "stands now", |ui| {
            let width = field_width(ui, 1);
            let hint = "the number written already";
            if let Some(stands) =
                text(ui, "Number that stands there", &wish.stands, hint, width)
            {
                with_wish(asks, inscribed, Wish { stands, ..wish.clone() });
            }
        });
    });
}

/// The words as they will stand there, and with what.
pub(super) fn words(ui: &mut Ui, view: &View<'_>) {
    let Some(made) = &view.derived.inscription else { return };
    let unit = view.unit();
    title(ui, if made.behind_image { "Behind the image" } else { "Behind the margin" });
    let lines = |ui: &mut Ui, lines: &[sightedge_core::inscription::Written]| {
        for one in lines {
            let sign = if one.sign { "  (sign)" } else { "" };
            let words = format!("{}{sign}", one.text);
            ui.add(egui::Label::new(words.trim_start()).truncate());
        }
    };
    lines(ui, &made.back);
    if let Some(last) = made.back.last() {
        let above = view.window.sheet.bottom() - last.place.bottom();
        let above = above.round_to(view.document.ruler.step());
        let words =
            format!("the lowest ends {} above the edge", crate::wording::near(above, unit));
        ui.label(quiet(ui, &words));
    }
    if !made.front.is_empty() {
        ui.add_space(4.0);
        title(ui, "On the front");
        lines(ui, &made.front);
    }
    ui.add_space(4.0);
    let how = format!("With {}. {}", made.tool.with, made.tool.how);
    ui.label(quiet(ui, &how)).on_hover_text(made.tool.source);
}
