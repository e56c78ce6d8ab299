//! What is written on the print and on its mat: the words, the print's number, where it stands.

use egui::{Button, Ui};
use sightedge_core::command::Command;
use sightedge_core::inscription::{FIELDS, check_template};
use sightedge_core::spec::{Back, Front, Inscribed, Lettering, Recorded};

use super::title;
use crate::window::context::{Requests, ScreenContext, View};
use crate::window::request::Action;
use crate::window::screens::shared::print_choice::chooser;
use crate::window::theme;
use crate::window::widgets::{
    Hint, asked, checked, choice, field_width, group, note, quiet, text,
};
use sightedge_service::record::at_bench::{self, Unnamed};
use sightedge_service::usual_words::Words;

/// As many lines as a back has room for.
const MOST_LINES: usize = 8;

/// Shows what is to be written, or what to do first.
pub(super) fn show(
    ui: &mut Ui,
    view: &View<'_>,
    cx: ScreenContext<'_>,
    requests: &mut Requests,
) {
    let Some(inscribed) = &view.document.inscribed else {
        group(ui, "Inscription", |ui| {
            note(
                ui,
                "Nothing is written on print or mat yet. Start from your usual words; a number \
                 issued in Editions fills in the rest.",
            );
            ui.add_space(4.0);
            chooser(ui, view, cx, requests);
            if ui.add_sized([180.0, theme::ROW], Button::new("Plan an inscription")).clicked() {
                let lettering = cx.settings.words.lettering();
                put(requests, Inscribed { lettering, recorded: Recorded::default() });
            }
        });
        return;
    };
    print(ui, view, cx, inscribed, requests);
    back(ui, inscribed, requests);
    front(ui, inscribed, requests);
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let usual = Words::of(&inscribed.lettering);
        let kept = cx.settings.words == usual;
        let storage = Button::new("Keep as my usual words");
        let keep = ui.add_enabled(!kept, storage);
        if keep.on_hover_text("New inscriptions start from these").clicked() {
            requests.actions.push(Action::Words(Box::new(usual)));
            requests.said = Some("New inscriptions start from these words.".to_owned());
        }
        if ui.button("Write nothing").clicked() {
            requests.run(Command::SetInscribed(None));
        }
    });
}

fn put(requests: &mut Requests, inscribed: Inscribed) {
    requests.run(Command::SetInscribed(Some(Box::new(inscribed))));
}

fn with_lettering(requests: &mut Requests, inscribed: &Inscribed, lettering: Lettering) {
    put(requests, Inscribed { lettering, recorded: inscribed.recorded.clone() });
}

fn with_record(requests: &mut Requests, inscribed: &Inscribed, recorded: Recorded) {
    put(requests, Inscribed { lettering: inscribed.lettering.clone(), recorded });
}

fn print(
    ui: &mut Ui,
    view: &View<'_>,
    cx: ScreenContext<'_>,
    inscribed: &Inscribed,
    requests: &mut Requests,
) {
    let recorded = &inscribed.recorded;
    group(ui, "The print", |ui| {
        chooser(ui, view, cx, requests);
        asked(ui, "title", &Hint::new("The title as it is written on print or mat"), |ui| {
            let width = field_width(ui, 1);
            let hint = view.work.title.as_str();
            if let Some(title) = text(ui, "Title written", &recorded.title, hint, width) {
                with_record(requests, inscribed, Recorded { title, ..recorded.clone() });
            }
        });
        asked(ui, "artist", &Hint::new("The name as it is written"), |ui| {
            let width = field_width(ui, 1);
            if let Some(maker) = text(ui, "Name written", &recorded.maker, "", width) {
                with_record(requests, inscribed, Recorded { maker, ..recorded.clone() });
            }
        });
        let hint = Hint::new("The year the picture was taken, and the year it was printed");
        asked(ui, "taken, printed", &hint, |ui| {
            let width = field_width(ui, 2);
            year(ui, "Year taken", recorded.taken, width, requests, |requests, taken| {
                with_record(requests, inscribed, Recorded { taken, ..recorded.clone() });
            });
            year(ui, "Year printed", recorded.printed, width, requests, |requests, printed| {
                with_record(requests, inscribed, Recorded { printed, ..recorded.clone() });
            });
        });
        let hint = Hint::new("The print’s number and the edition size, such as 3/25");
        asked(ui, "number", &hint, |ui| {
            let width = field_width(ui, 2);
            let shown = recorded.notation.map(|number| number.text(recorded.numerals));
            let shown = shown.unwrap_or_default();
            let usual = cx.settings.words.lettering();
            let read = |typed: &str| {
                if typed.trim().is_empty() {
                    let none = Recorded { notation: None, print: None, ..recorded.clone() };
                    let lettering = inscribed.lettering.clone();
                    return Ok(Inscribed { lettering, recorded: none });
                }
                // A number that the record has given to this plan is that print's.
                match cx.prints.map(|prints| prints.named(typed)) {
                    Some(Ok(one)) => Ok(at_bench::taken(view.document, one, &usual)),
                    Some(Err(Unnamed::Several { words, .. })) => {
                        Err(format!("{words}: choose it from the list of prints"))
                    }
                    Some(Err(Unnamed::None(_))) | None => {
                        at_bench::typed(view.document, typed, &usual)
                            .map_err(|why| why.to_string())
                    }
                }
            };
            if let Some(made) = checked(ui, "Number", &shown, "3/25", width, read) {
                put(requests, made);
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
    requests: &mut Requests,
    write: impl FnOnce(&mut Requests, Option<i64>),
) {
    let shown = shown.map(|year| year.to_string()).unwrap_or_default();
    let read = |typed: &str| {
        let typed = typed.trim();
        if typed.is_empty() {
            return Ok(None);
        }
        let year = typed.parse::<i64>().ok().filter(|year| (1800..=9999).contains(year));
        year.map(Some).ok_or_else(|| format!("\"{typed}\" is not a year: try 2021"))
    };
    if let Some(year) = checked(ui, name, &shown, "", width, read) {
        write(requests, year);
    }
}

/// A line of the person's own; refused in words where it cannot be filled in.
fn line(ui: &mut Ui, name: &str, shown: &str) -> Option<String> {
    let width = field_width(ui, 1);
    let read = |typed: &str| {
        check_template(typed).map(|()| typed.to_owned()).map_err(|why| why.to_string())
    };
    checked(ui, name, shown, "nothing", width, read)
}

fn back(ui: &mut Ui, inscribed: &Inscribed, requests: &mut Requests) {
    let lettering = &inscribed.lettering;
    group(ui, "On the back of the sheet", |ui| {
        let hint = Hint::new("Behind the paper’s margin, or behind the image");
        asked(ui, "place", &hint, |ui| {
            let options = [(Back::Margin, "behind margin"), (Back::Image, "behind image")];
            let width = field_width(ui, 1);
            if let Some(behind) =
                choice(ui, "On the back", Some(lettering.behind), &options, width)
            {
                with_lettering(requests, inscribed, Lettering { behind, ..lettering.clone() });
            }
        });
        // One more than there are, to write in.
        let more = usize::from(lettering.back.len() < MOST_LINES);
        for index in 0..lettering.back.len() + more {
            let shown = lettering.back.get(index).map_or("", String::as_str);
            let label = if index == 0 { "lines" } else { "" };
            let hint = Hint::new("A line as it is written; what stands in braces is filled in");
            asked(ui, label, &hint, |ui| {
                let name = format!("Line {} on the back", index + 1);
                let Some(typed) = line(ui, &name, shown) else { return };
                let mut back = lettering.back.clone();
                match back.get_mut(index) {
                    Some(_) if typed.trim().is_empty() => {
                        back.remove(index);
                    }
                    Some(line) => *line = typed,
                    None if !typed.trim().is_empty() => back.push(typed),
                    None => {}
                }
                with_lettering(requests, inscribed, Lettering { back, ..lettering.clone() });
            });
        }
        let fields: Vec<String> = FIELDS.iter().map(|field| format!("{{{field}}}")).collect();
        note(
            ui,
            &format!(
                "{} are filled in. Anything between [ ] is left out where its figure is not known.",
                fields.join(" ")
            ),
        );
    });
}

fn front(ui: &mut Ui, inscribed: &Inscribed, requests: &mut Requests) {
    let lettering = &inscribed.lettering;
    group(ui, "On the front", |ui| {
        let hint = Hint::new("On the paper’s margin, on the mat itself, or not at all");
        asked(ui, "place", &hint, |ui| {
            let options =
                [(Front::Margin, "margin"), (Front::Mat, "mat"), (Front::Nothing, "nowhere")];
            let width = field_width(ui, 1);
            if let Some(front) =
                choice(ui, "On the front", Some(lettering.front), &options, width)
            {
                with_lettering(requests, inscribed, Lettering { front, ..lettering.clone() });
            }
        });
        if lettering.front != Front::Nothing {
            let (first, last) = match lettering.front {
                Front::Mat => ("first", "then"),
                Front::Margin | Front::Nothing => ("left", "right"),
            };
            let hint = Hint::new("A line as it is written; what stands in braces is filled in");
            asked(ui, first, &hint, |ui| {
                if let Some(left) = line(ui, "First on the front", &lettering.left) {
                    with_lettering(
                        requests,
                        inscribed,
                        Lettering { left, ..lettering.clone() },
                    );
                }
            });
            asked(ui, last, &hint, |ui| {
                if let Some(right) = line(ui, "Last on the front", &lettering.right) {
                    with_lettering(
                        requests,
                        inscribed,
                        Lettering { right, ..lettering.clone() },
                    );
                }
            });
        }
        let hint = Hint::new("What is written on this print already, if anything");
        asked(ui, "already there", &hint, |ui| {
            let width = field_width(ui, 1);
            let hint = "none";
            if let Some(already_written) =
                text(ui, "Number already written", &lettering.already_written, hint, width)
            {
                with_lettering(
                    requests,
                    inscribed,
                    Lettering { already_written, ..lettering.clone() },
                );
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
        let words = format!(
            "the lowest line ends {} above the edge",
            sightedge_service::wording::near(above, unit)
        );
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
