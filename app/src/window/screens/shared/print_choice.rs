//! Which print of the plan lies at the bench: shown and chosen wherever it matters.

use egui::{Button, Ui};
use sightedge_core::command::Command;
use sightedge_core::spec::Document;
use sightedge_core::steps::Step;
use sightedge_studio::State;

use super::checks;
use crate::window::context::{Requests, ScreenContext, View};
use crate::window::widgets::Hint;
use crate::window::{theme, widgets};
use sightedge_service::record::at_bench::{Prints, number, taken, told};
use sightedge_service::record::printouts::Whole;

/// Shows the print at the bench and lets another one be taken there; nothing for a plan that has
/// no print in the record. Says whether one was taken.
pub(crate) fn chooser(
    ui: &mut Ui,
    view: &View<'_>,
    cx: ScreenContext<'_>,
    requests: &mut Requests,
) -> bool {
    let Some(prints) = cx.prints.filter(|prints| !prints.is_empty()) else { return false };
    let document = view.document;
    let now = prints.at_bench(document);
    let mut picked = list(ui, prints, now);
    let usual = cx.settings.words.lettering();
    if let Some(finding) = prints.finding(document, &usual) {
        ui.add_space(4.0);
        checks::one(ui, view, &finding, requests);
    } else if let Some(next) = prints.proposed().filter(|next| is_next(now, next)) {
        let words = match now {
            None => "No print is at the bench.".to_owned(),
            Some(one) => format!("{}.", told(one)),
        };
        let more =
            format!("{} is the lowest number in the studio that is not matted.", number(next));
        ui.add(egui::Label::new(widgets::quiet(ui, &format!("{words} {more}"))).wrap());
        let button = format!("Take “{}” to the bench", number(next));
        if ui.button(button).clicked() {
            picked = Some(next.clone());
        }
    }
    ui.add_space(4.0);
    if let Some(one) = &picked {
        take(document, one, cx, requests);
    }
    picked.is_some()
}

/// Whether that print comes next: none is at the bench, or what is there is not to be matted.
fn is_next(now: Option<&Whole>, next: &Whole) -> bool {
    let to_mat = |one: &Whole| Prints::to_be_matted(&one.2);
    now.is_none_or(|now| now.2.id != next.2.id && !to_mat(now))
}

fn list(ui: &mut Ui, prints: &Prints, now: Option<&Whole>) -> Option<Whole> {
    let shown = now.map_or_else(|| "none".to_owned(), |one| prints.told(one));
    let hint = Hint::new("The print of the edition that you are matting");
    let picked = widgets::asked(ui, "print", &hint, |ui| {
        let wide = widgets::field_width(ui, 1);
        let all = prints.live().map(|one| (prints.told(one), one));
        widgets::pick(ui, "Print at the bench", &shown, wide, all)
    });
    picked.cloned()
}

/// Lays a print on the bench: its inscription and its ticks are those in front.
pub(crate) fn take(
    document: &Document,
    one: &Whole,
    cx: ScreenContext<'_>,
    requests: &mut Requests,
) {
    let made = taken(document, one, &cx.settings.words.lettering());
    requests.run(Command::SetInscribed(Some(Box::new(made))));
    requests.said = Some(format!("{} is at the bench.", number(one)));
}

/// The button that notes the print at the bench as matted, once every step is done; gives the
/// print once it is pressed.
pub(crate) fn matted(
    ui: &mut Ui,
    document: &Document,
    cx: ScreenContext<'_>,
    steps: &[Step],
) -> Option<Whole> {
    let one = cx.prints?.at_bench(document)?;
    if one.2.now.matted.is_empty() && one.2.live && steps.iter().all(|step| step.done) {
        let hint = "Records it with today’s date, and proposes the next number";
        let button = ui.button(format!("Note “{}” as matted", number(one)));
        return button.on_hover_text(hint).clicked().then(|| one.clone());
    }
    None
}

/// The button for what goes with the print at the bench; gives the print once it is pressed.
pub(crate) fn printouts(
    ui: &mut Ui,
    document: &Document,
    cx: ScreenContext<'_>,
) -> Option<Whole> {
    let one = cx.prints?.at_bench(document)?;
    let there = one.2.live && one.2.now.state != State::Destroyed;
    let button = Button::new("Label and certificate…").min_size(egui::vec2(0.0, theme::ROW));
    let hint = format!("Label for the backing and certificate of {}", number(one));
    let pressed = ui.add_enabled(there, button).on_hover_text(hint).clicked();
    pressed.then(|| one.clone())
}
