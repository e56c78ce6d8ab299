//! The paper and the humidity round it.

use egui::Ui;
use sightedge_core::command::Command;
use sightedge_core::material::{Humidity, Paper, Process};
use sightedge_core::movement::{RANGES, USUAL_RANGE, USUAL_ROOM};
use sightedge_core::spec::{Grain, Hangs};

use super::parts::number;
use crate::window::context::{Requests, View};
use crate::window::widgets::{Entry, Hint, asked, choice, field_width, group, list, pick};

/// What stands for what was not chosen.
const OPEN: &str = "Not chosen";

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let behind = &view.mat.assembly;
    group(ui, "The paper", |ui| {
        let hint = Hint::new(
            "What the print is on: its white, its weight, and how much it grows in damp air",
        );
        asked(ui, "paper", &hint, |ui| {
            let chosen = behind.paper.as_ref().map_or(OPEN, |paper| paper.name.as_str());
            let open = Entry { words: OPEN.to_owned(), colour: None, value: None };
            let known = view.tables.papers.iter().map(|paper| Entry {
                words: paper.name.clone(),
                colour: paper.white,
                value: Some(paper),
            });
            let width = field_width(ui, 1);
            let known = std::iter::once(open).chain(known);
            let picked = list(ui, &format!("Paper: {chosen}"), chosen, width, known);
            if let Some(paper) = picked {
                requests.run(Command::SetStock(view.variant, paper.cloned()));
            }
        });
        let hint = Hint::new(
            "How the print was made: it decides which pens and which hinges are safe on it",
        );
        asked(ui, "process", &hint, |ui| {
            let paper = behind.paper.clone().unwrap_or_default();
            let options = Process::ALL.iter().map(|one| (one.name().to_owned(), *one));
            let width = field_width(ui, 1);
            if let Some(process) = pick(ui, "Made as", paper.process.name(), width, options) {
                let origin = "chosen".to_owned();
                let named = if paper.name.is_empty() { "Paper" } else { &paper.name };
                let paper = if behind.paper.is_none() {
                    // What is not known of it must not bring findings of its own.
                    Paper { water_based: true, pencil: true, origin, ..paper.clone() }
                } else {
                    paper.clone()
                };
                let paper = Paper { process, name: named.to_owned(), ..paper };
                requests.run(Command::SetStock(view.variant, Some(paper)));
            }
        });
        let hint = Hint::new(
            "The direction of the paper’s fibres: paper grows mostly across its grain. Along the \
             sheet’s width or its height",
        );
        asked(ui, "grain along", &hint, |ui| {
            let options = [
                (None, "unknown"),
                (Some(Grain::Width), "width"),
                (Some(Grain::Height), "height"),
            ];
            let width = field_width(ui, 1);
            if let Some(grain) = choice(ui, "Grain", Some(behind.grain), &options, width) {
                requests.run(Command::SetGrain(view.variant, grain));
            }
        });
    });
    group(ui, "The humidity", |ui| {
        let set = |room, hangs| Command::SetHumidity(view.variant, room, hangs);
        let (room, hangs) = (behind.hinged_at, behind.hangs_at);
        let hint = Hint::new("The humidity where the picture will hang, through the year");
        asked(ui, "hangs in", &hint, |ui| {
            let named = RANGES.iter().find(|(_, range, _)| Some(*range) == hangs);
            let chosen = named.map_or("Custom range", |(name, ..)| *name);
            let chosen = if hangs.is_none() { OPEN } else { chosen };
            let width = field_width(ui, 1);
            let options = std::iter::once((OPEN.to_owned(), None)).chain(
                RANGES.iter().map(|(name, range, _)| ((*name).to_owned(), Some(*range))),
            );
            if let Some(range) = pick(ui, "Hangs in", chosen, width, options) {
                requests.run(set(room, range));
            }
        });
        let hint = Hint::new("Relative humidity at its driest, and at its dampest");
        asked(ui, "driest, dampest", &hint, |ui| {
            let used = hangs.unwrap_or(USUAL_RANGE);
            let width = field_width(ui, 2);
            if let Some(dry) = percent(ui, "At its driest", used.dry, width) {
                requests.run(set(room, Some(Hangs { dry, damp: used.damp.max(dry) })));
            }
            if let Some(damp) = percent(ui, "At its dampest", used.damp, width) {
                requests.run(set(room, Some(Hangs { dry: used.dry.min(damp), damp })));
            }
        });
        let hint = Hint::new("Relative humidity where the sheet is hinged");
        asked(ui, "hinged at", &hint, |ui| {
            let width = field_width(ui, 2);
            let used = room.unwrap_or(USUAL_ROOM);
            if let Some(at) = percent(ui, "Humidity where it is hinged", used, width) {
                requests.run(set(Some(at), hangs));
            }
        });
    });
}

/// A relative humidity in whole percents.
fn percent(ui: &mut Ui, name: &str, value: Humidity, width: f32) -> Option<Humidity> {
    let whole = u32::from(value.tenths()) / 10;
    let typed = number(ui, name, whole, 0..=100, "%", width)?;
    Humidity::from_tenths(u16::try_from(typed * 10).ok()?)
}
