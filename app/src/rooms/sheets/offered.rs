//! Narrower borders that save a sheet: offered, and carried out on the plans they are about.

use std::path::PathBuf;

use egui::Ui;
use sightedge_core::length::{Length, Unit};
use sightedge_core::spec::Document;

use super::{Hall, Sheets};
use crate::action::{Action, Deed};
use crate::cutting::narrower::{self, Offer};
use crate::panels::Asks;
use crate::widgets::fitted;
use crate::wording;

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

impl Sheets {
    /// Borders that might give a little to save a sheet.
    pub(super) fn offered(&mut self, ui: &mut Ui, hall: Hall<'_>, asks: &mut Asks) {
        if self.asked.is_none() || self.is_stale(hall) {
            return;
        }
        let mut taken = None;
        for (number, offer) in self.offers.iter().enumerate() {
            ui.push_id(number, |ui| {
                if self.one(ui, offer, hall) {
                    taken = Some(offer.clone());
                }
            });
        }
        if let Some(offer) = taken {
            self.narrow(&offer, hall, asks);
        }
    }

    /// One offer; whether it is taken.
    fn one(&self, ui: &mut Ui, offer: &Offer, hall: Hall<'_>) -> bool {
        let asked = self.asked.as_deref().unwrap_or_default();
        let plan = offer.plan.and_then(|at| asked.get(at));
        let unit = plan.or(asked.first()).map_or(Unit::Inch, |(_, d, _)| d.unit);
        let who = plan.map_or("all mats", |(title, _, _)| title);
        let by = wording::length(offer.by, unit);
        let saved = match offer.sheets {
            0 if offer.priced => format!("save {}", super::fields::coins(offer.cost)),
            0 => "let smaller sheets do".to_owned(),
            1 => "save a sheet".to_owned(),
            n => format!("save {n} sheets"),
        };
        let closed =
            self.narrowed_by(offer, hall).iter().filter(|at| self.is_closed(**at)).count();
        let (button, hint) = match (offer.plan, closed) {
            (Some(_), 0) => {
                ("Narrow its borders", "Each border of this plan; its own undo gives it back")
            }
            (Some(_), _) => (
                "Open and narrow it",
                "Opens this plan and narrows each of its borders; undo gives it back, nothing is \
                 saved yet",
            ),
            (None, 0) => (
                "Narrow them all",
                "Each border of each plan; each plan's own undo gives it back",
            ),
            (None, _) => (
                "Open and narrow them",
                "Opens the plans that are not open and narrows each border; each plan's own undo \
                 gives it back, nothing is saved yet",
            ),
        };
        ui.horizontal_wrapped(|ui| {
            let who = fitted(ui, who, 140.0);
            ui.label(format!("Borders {by} narrower on {who} {saved} against this plan."));
            let room = closed <= MOST_OPENED;
            let response = ui.add_enabled(room, egui::Button::new(button)).on_hover_text(hint);
            let most = format!(
                "{closed} plans are not open: at most {MOST_OPENED} are opened at once"
            );
            response.on_disabled_hover_text(most).clicked()
        })
        .inner
    }

    /// The plans an offer is about, by their places in the list that was asked about.
    fn narrowed_by(&self, offer: &Offer, hall: Hall<'_>) -> Vec<usize> {
        let asked = self.asked.as_deref().unwrap_or_default();
        let can = |at: &usize| {
            let plan = asked.get(*at);
            plan.is_some_and(|(_, d, _)| narrower::narrower(d, offer.by, hall.tables).is_some())
        };
        match offer.plan {
            Some(at) => vec![at],
            None => (0..asked.len()).filter(can).collect(),
        }
    }

    /// Whether the plan at that place of the list that was asked about is not open.
    fn is_closed(&self, at: usize) -> bool {
        let mut counted = self.wanted.iter().filter(|wanted| wanted.count > 0);
        counted.nth(at).is_some_and(|wanted| wanted.desk.is_none())
    }

    fn narrow(&mut self, offer: &Offer, hall: Hall<'_>, asks: &mut Asks) {
        let asked = self.asked.clone().unwrap_or_default();
        let mut done = Vec::new();
        for at in self.narrowed_by(offer, hall) {
            // The list was not changed since: its places are the same.
            let counted = self.wanted.iter().filter(|wanted| wanted.count > 0).nth(at);
            let (Some(wanted), Some((title, document, _))) = (counted, asked.get(at)) else {
                continue;
            };
            if let Some(id) = wanted.desk {
                let open = hall.desks.iter().find(|(desk, _)| *desk == id);
                let command =
                    open.and_then(|(_, desk)| narrower::change(desk.kept(), offer.by));
                if let Some(command) = command {
                    asks.actions.push(Action::RunOn(id, command));
                    done.push(title.clone());
                }
            } else {
                let path = wanted.path.clone();
                asks.actions.push(Action::Do(Deed::OpenPath(path.clone())));
                self.narrowing.push(Narrowing {
                    path,
                    document: document.clone(),
                    by: offer.by,
                });
            }
        }
        if !done.is_empty() {
            asks.said = Some(said(&done));
        }
    }

    /// Narrows plans that were opened for it.
    pub(super) fn follow_narrowing(&mut self, hall: Hall<'_>, asks: &mut Asks) {
        let mut done = Vec::new();
        let mut changed = Vec::new();
        self.narrowing.retain(|narrowing| {
            let open = hall.desks.iter().find(|(_, desk)| desk.plan == narrowing.path);
            let Some((id, desk)) = open else { return true };
            match narrower::change(desk.kept(), narrowing.by) {
                Some(command) if *desk.kept() == narrowing.document => {
                    asks.actions.push(Action::RunOn(*id, command));
                    done.push(desk.title());
                }
                _ => changed.push(desk.title()),
            }
            false
        });
        if !done.is_empty() {
            asks.said = Some(said(&done));
        }
        if !changed.is_empty() {
            asks.said = Some(format!(
                "{} changed since the sheets were found and was left as it is: find them again.",
                changed.join(", ")
            ));
        }
    }
}

fn said(titles: &[String]) -> String {
    format!(
        "Narrowed: {}. Undo gives it back, with its plan in front; find the sheets again.",
        titles.join(", ")
    )
}
