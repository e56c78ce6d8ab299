//! Narrower borders that save a sheet: offered, and carried out on the plans they are about.

use std::path::PathBuf;

use egui::{RichText, ScrollArea, Ui};
use sightedge_core::length::{Length, Unit};
use sightedge_core::spec::Document;

use super::Sheets;
use crate::window::context::{Requests, ScreenContext};
use crate::window::request::{Action, AppCommand};
use crate::window::theme;
use crate::window::widgets::{fitted, quiet};
use sightedge_service::cutting::narrower::{self, Offer};
use sightedge_service::wording;

/// A plan on the disk that is being opened to have its borders narrowed.
#[derive(Debug)]
pub(super) struct Narrowing {
    path: PathBuf,
    /// What it was when the sheets were sought.
    document: Document,
    by: Length,
}

/// More plans than this are not opened at one press.
const MOST_OPENED: usize = 12;
/// How high the three lines of a mat before and after are.
const ROW_HIGH: f32 = 66.0;

/// What was pressed of an offer.
enum Pressed {
    /// To see each mat before and after, or no longer.
    Look,
    /// To have it done.
    Take,
}

impl Sheets {
    /// Borders that might give a little to save a sheet.
    pub(super) fn offered(
        &mut self,
        ui: &mut Ui,
        cx: ScreenContext<'_>,
        requests: &mut Requests,
    ) {
        if self.asked.is_none() || self.is_stale(cx) {
            return;
        }
        let mut pressed = None;
        for (number, offer) in self.offers.iter().enumerate() {
            ui.push_id(number, |ui| {
                if let Some(what) = self.one(ui, offer, self.opened == Some(number)) {
                    pressed = Some((number, what));
                }
            });
        }
        match pressed {
            Some((number, Pressed::Look)) => {
                self.opened = (self.opened != Some(number)).then_some(number);
            }
            Some((number, Pressed::Take)) => {
                self.opened = None;
                if let Some(offer) = self.offers.get(number).cloned() {
                    self.narrow(&offer, cx, requests);
                }
            }
            None => {}
        }
    }

    /// One offer: what it saves, and once that is asked for each mat before and after, with
    /// the button that does it.
    fn one(&self, ui: &mut Ui, offer: &Offer, opened: bool) -> Option<Pressed> {
        let asked = self.asked.as_deref().unwrap_or_default();
        let plan = offer.plan.and_then(|at| asked.get(at));
        let unit = plan.or(asked.first()).map_or(Unit::Inch, |(_, d, _)| d.unit);
        let who = plan.map_or("all mats", |(title, _, _)| title);
        let by = wording::length(offer.by, unit);
        let mut pressed = None;
        ui.horizontal_wrapped(|ui| {
            let (who, saves) = (fitted(ui, who, 140.0), offer.saves());
            ui.label(format!("Borders {by} narrower on {who} {saves} against this plan."));
            let words = if opened { "Hide what changes" } else { "Show what changes…" };
            if ui.button(words).clicked() {
                pressed = Some(Pressed::Look);
            }
        });
        if !opened {
            return pressed;
        }
        let many = offer.changes.len();
        let high = 3.0 * ROW_HIGH;
        ScrollArea::vertical().id_salt("changes").max_height(high).show(ui, |ui| {
            for change in &offer.changes {
                let Some((title, document, count)) = asked.get(change.plan) else { continue };
                let mats = wording::count(*count, "mat");
                let name = fitted(ui, title, ui.available_width() - 120.0);
                ui.label(RichText::new(format!("{name}, {mats}")).family(theme::strong()));
                for words in change.told(document.unit) {
                    ui.label(quiet(ui, &wording::set(&words)));
                }
            }
        });
        ui.label(format!("Saves: {}.", offer.comes_to()));
        let closed = offer.changes.iter().filter(|change| self.is_closed(change.plan)).count();
        let (button, hint) = match (many, closed) {
            (0 | 1, 0) => ("Narrow its borders", "Undo restores each border"),
            (0 | 1, _) => {
                ("Open and narrow it", "Undo restores each border; nothing is saved yet")
            }
            (_, 0) => ("Narrow them all", "Each plan’s own undo restores its borders"),
            _ => (
                "Open and narrow them",
                "Each plan’s own undo restores its borders; nothing is saved yet",
            ),
        };
        ui.horizontal_wrapped(|ui| {
            let not = greyed(closed);
            let button = egui::Button::new(button);
            let response = ui.add_enabled(not.is_none(), button).on_hover_text(hint);
            if response.clicked() {
                pressed = Some(Pressed::Take);
            }
            if let Some(why) = not {
                ui.label(why);
            }
        });
        pressed
    }

    /// Whether the plan at that place of the list that was asked about is not open.
    fn is_closed(&self, at: usize) -> bool {
        let mut counted = self.wanted.iter().filter(|wanted| wanted.count > 0);
        counted.nth(at).is_some_and(|wanted| wanted.session.is_none())
    }

    fn narrow(&mut self, offer: &Offer, cx: ScreenContext<'_>, requests: &mut Requests) {
        let asked = self.asked.clone().unwrap_or_default();
        let mut done = Vec::new();
        for change in &offer.changes {
            let (at, by) = (change.plan, change.by);
            // The list was not changed since: its places are the same.
            let counted = self.wanted.iter().filter(|wanted| wanted.count > 0).nth(at);
            let (Some(wanted), Some((title, document, _))) = (counted, asked.get(at)) else {
                continue;
            };
            if let Some(id) = wanted.session {
                let open = cx.sessions.iter().find(|(session, _)| *session == id);
                let command =
                    open.and_then(|(_, session)| narrower::change(session.kept(), by));
                if let Some(command) = command {
                    requests.actions.push(Action::RunOn(id, command));
                    done.push(title.clone());
                }
            } else {
                let path = wanted.path.clone();
                requests.actions.push(Action::Do(AppCommand::OpenPath(path.clone())));
                self.narrowing.push(Narrowing { path, document: document.clone(), by });
            }
        }
        if !done.is_empty() {
            requests.said = Some(said(&done));
        }
    }

    /// Narrows plans that were opened for it.
    pub(super) fn follow_narrowing(&mut self, cx: ScreenContext<'_>, requests: &mut Requests) {
        let mut done = Vec::new();
        let mut changed = Vec::new();
        self.narrowing.retain(|narrowing| {
            let open = cx.sessions.iter().find(|(_, session)| session.plan == narrowing.path);
            let Some((id, session)) = open else { return true };
            match narrower::change(session.kept(), narrowing.by) {
                Some(command) if *session.kept() == narrowing.document => {
                    requests.actions.push(Action::RunOn(*id, command));
                    done.push(session.title());
                }
                _ => changed.push(session.title()),
            }
            false
        });
        if !done.is_empty() {
            requests.said = Some(said(&done));
        }
        if !changed.is_empty() {
            requests.said = Some(format!(
                "{} changed since the sheets were found and was left as it is: find them again.",
                changed.join(", ")
            ));
        }
    }
}

fn said(titles: &[String]) -> String {
    format!(
        "Narrowed: {}. Undo restores it, with its plan in front; find the sheets again.",
        titles.join(", ")
    )
}

/// Why nothing is narrowed at one press where so many of the plans are not open.
fn greyed(closed: usize) -> Option<String> {
    (closed > MOST_OPENED).then(|| {
        format!(
            "{closed} of these plans are not open, and at most {MOST_OPENED} are opened at once: \
             open some of them first."
        )
    })
}

#[cfg(test)]
mod tests {
    use super::greyed;

    #[test]
    fn what_is_greyed_says_why() {
        assert_eq!(greyed(12), None);
        assert_eq!(
            greyed(13).unwrap(),
            "13 of these plans are not open, and at most 12 are opened at once: open some of \
             them first."
        );
    }
}
