//! How the sheet is held, and how the mat is held to its backing.

use egui::{Role, Ui, WidgetInfo};
use sightedge_core::command::Command;
use sightedge_core::geometry::Side;
use sightedge_core::hinges::{HingePlan, mat_hinge, to_tear};
use sightedge_core::length::{Length, Unit};
use sightedge_core::spec::{HingeAt, HingeKind, Hinging, MatHinge};

use super::parts::Open;
use crate::window::context::{Requests, View};
use crate::window::widgets::{LengthField, choice, field_width, group, pick, quiet, row};

/// The plan of the sheet in front.
pub(super) fn plan<'a>(view: &View<'a>) -> Option<&'a HingePlan> {
    let sheets = &view.derived.assembly.sheets;
    sheets.iter().map(|sheet| &sheet.hinges).find(|plan| plan.opening == view.opening.id)
}

/// The hinges where they are now, as if each was put there by hand.
pub(super) fn placed(plan: &HingePlan) -> Vec<HingeAt> {
    plan.hinges.iter().map(|hinge| HingeAt { x: hinge.x, locates: hinge.locates }).collect()
}

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let Some(plan) = plan(view) else { return };
    let hinging = &view.mat.assembly.hinging;
    let set = |hinging: Hinging| Command::SetHinging(view.variant, hinging);
    group(ui, "How the sheet is held, seen from the front", |ui| {
        kind(ui, view, plan, requests);
        if plan.kind.sticks() {
            sticking(ui, view, plan, requests);
        } else {
            row(ui, "room", |ui| {
                let width = field_width(ui, 2);
                let open = Open {
                    name: "Room for the sheet",
                    given: hinging.slack,
                    usual: plan.slack,
                    unit: view.unit(),
                    width,
                    hint: "Between sheet and pocket or strip, so that it can grow.",
                };
                open.show(ui, requests, |slack| set(Hinging { slack, ..hinging.clone() }));
            });
        }
    });
    mat_to_backing(ui, view, requests);
}

fn kind(ui: &mut Ui, view: &View<'_>, plan: &HingePlan, requests: &mut Requests) {
    let hinging = &view.mat.assembly.hinging;
    row(ui, "by", |ui| {
        let width = field_width(ui, 1);
        let chosen_for = format!("As is best: {}", plan.kind.name());
        let chosen: &str = match hinging.kind {
            Some(kind) => kind.name(),
            None => &chosen_for,
        };
        let best =
            if hinging.kind.is_none() { chosen_for.clone() } else { "As is best".to_owned() };
        let options = std::iter::once((best, None))
            .chain(HingeKind::ALL.iter().map(|kind| (kind.name().to_owned(), Some(*kind))));
        if let Some(kind) = pick(ui, "Held by", chosen, width, options) {
            let hinging = Hinging { kind, ..hinging.clone() };
            requests.run(Command::SetHinging(view.variant, hinging));
        }
    });
    ui.add(egui::Label::new(quiet(ui, &plan.reason)).wrap());
}

fn sticking(ui: &mut Ui, view: &View<'_>, plan: &HingePlan, requests: &mut Requests) {
    let hinging = &view.mat.assembly.hinging;
    let set = |hinging: Hinging| Command::SetHinging(view.variant, hinging);
    row(ui, "made of", |ui| {
        let width = field_width(ui, 1);
        let open = "A tissue weaker than the sheet";
        let chosen = hinging.tissue.as_ref().map_or(open, |tissue| tissue.name.as_str());
        let known = view.tables.tissues.iter();
        let options = std::iter::once((open.to_owned(), None))
            .chain(known.map(|tissue| (tissue.name.clone(), Some(tissue.clone()))));
        if let Some(tissue) = pick(ui, "Tissue or tape", chosen, width, options) {
            requests.run(set(Hinging { tissue, ..hinging.clone() }));
        }
    });
    let first = plan.locating().or(plan.hinges.first());
    let (width, hold) = first.map_or_else(Default::default, |hinge| (hinge.width, hinge.hold));
    row(ui, "tab, hold", |ui| {
        let open = open_in(ui, view);
        let hint = "How wide a tab is.";
        open("Tab width", hinging.width, width, hint)
            .show(ui, requests, |width| set(Hinging { width, ..hinging.clone() }));
        let hint = "How far a tab holds onto the sheet's back.";
        open("Hold", hinging.hold, hold, hint)
            .show(ui, requests, |hold| set(Hinging { hold, ..hinging.clone() }));
    });
    if plan.kind == HingeKind::T {
        let gap = first.map(|hinge| hinge.gap).unwrap_or_default();
        let yields = plan.hinges.iter().find(|hinge| !hinge.locates);
        let longer = yields.map_or(Length::ZERO, |hinge| hinge.gap - gap);
        row(ui, "gap, longer", |ui| {
            let open = open_in(ui, view);
            let hint = "From the sheet's edge to the cross-piece, unpasted.";
            open("Gap", hinging.gap, gap, hint)
                .show(ui, requests, |gap| set(Hinging { gap, ..hinging.clone() }));
            let hint = "How much longer the others are, which let the sheet move.";
            open("Longer by", hinging.longer, longer, hint)
                .show(ui, requests, |longer| set(Hinging { longer, ..hinging.clone() }));
        });
    }
    each(ui, view, plan, requests);
}

/// Fields of two lengths side by side that may be left open.
fn open_in<'a>(
    ui: &Ui,
    view: &View<'_>,
) -> impl Fn(&'a str, Option<Length>, Length, &'a str) -> Open<'a> + use<'a> {
    let (unit, width) = (view.unit(), field_width(ui, 2));
    move |name, given, usual, hint| Open { name, given, usual, unit, width, hint }
}

/// Where each hinge sits and which one holds the place; more and fewer of them.
fn each(ui: &mut Ui, view: &View<'_>, plan: &HingePlan, requests: &mut Requests) {
    let hinging = &view.mat.assembly.hinging;
    let set = |hinging: Hinging| Command::SetHinging(view.variant, hinging);
    for (index, hinge) in plan.hinges.iter().enumerate() {
        let label = format!("{} at", index + 1);
        row(ui, &label, |ui| {
            let field = field_width(ui, 2);
            let name = format!("Place of hinge {}", index + 1);
            let length = LengthField::new(&name, hinge.x, view.unit()).width(field);
            let response = requests.length(ui, length, |x| moved_to(view, plan, index, x));
            response
                .on_hover_text("Its middle, from the sheet's left edge seen from the front");
            let words = if hinge.locates { "holds" } else { "moves" };
            let button = egui::Button::selectable(hinge.locates, words);
            let response = ui.add_sized([field, crate::window::theme::ROW], button);
            let response = response.on_hover_text(
                "One hinge holds the sheet's place; the others are longer and let it move",
            );
            response.widget_info(|| {
                let text = format!("Hinge {} holds the place", index + 1);
                WidgetInfo::selected(Role::RadioButton, true, hinge.locates, text)
            });
            if response.clicked() && !hinge.locates {
                requests.run(locating(view, plan, index));
            }
        });
    }
    row(ui, "", |ui| {
        let one_more = |count: usize| {
            let x = sightedge_core::hinges::places(view.work.sheet.width, count, view.unit());
            let locating = plan.hinges.iter().position(|hinge| hinge.locates).unwrap_or(0);
            let at = x.into_iter().enumerate();
            at.map(|(index, x)| HingeAt { x, locates: index == locating.min(count - 1) })
                .collect::<Vec<_>>()
        };
        let count = plan.hinges.len();
        if ui.add_enabled(count < 12, egui::Button::new("Add")).clicked() {
            requests.run(set(Hinging { at: one_more(count + 1), ..hinging.clone() }));
        }
        if ui.add_enabled(count > 1, egui::Button::new("Less")).clicked() {
            requests.run(set(Hinging { at: one_more(count - 1), ..hinging.clone() }));
        }
        let by_hand = !hinging.at.is_empty();
        let even = egui::Button::new("As planned");
        let response = ui.add_enabled(by_hand, even);
        if response.on_hover_text("As many as are wanted, evenly along the top edge").clicked()
        {
            requests.run(set(Hinging { at: Vec::new(), ..hinging.clone() }));
        }
    });
}

fn mat_to_backing(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let given = view.mat.assembly.mat_hinge;
    let own = mat_hinge(&view.mat.assembly, view.derived.layout.exact.outer, view.unit());
    let set = |hinge: MatHinge| Command::SetMatHinge(view.variant, hinge);
    group(ui, "The mat on its backing, from the front", |ui| {
        row(ui, "hinged at", |ui| {
            let sides = [
                (Side::Top, "top"),
                (Side::Right, "right"),
                (Side::Bottom, "bottom"),
                (Side::Left, "left"),
            ];
            let width = field_width(ui, 1);
            if let Some(edge) = choice(ui, "Mat hinged at", Some(own.edge), &sides, width) {
                requests.run(set(MatHinge { edge: Some(edge), ..given }));
            }
        });
        row(ui, "tape, gap", |ui| {
            let width = field_width(ui, 2);
            let (unit, hint) = (view.unit(), "How wide the cloth tape is.");
            let (name, usual) = ("Tape width", own.tape);
            let long = sightedge_service::wording::length(to_tear(own.length, unit), unit);
            let hint = format!("{hint} {long} of it is wanted.");
            let hint = hint.as_str();
            Open { name, given: given.tape, usual, unit, width, hint }.show(
                ui,
                requests,
                |tape| set(MatHinge { tape, ..given }),
            );
            let hint = "Between mat and backing while both lie open.";
            let (name, usual) = ("Gap at the tape", own.gap);
            Open { name, given: given.gap, usual, unit, width, hint }.show(
                ui,
                requests,
                |gap| set(MatHinge { gap, ..given }),
            );
        });
        let glued = view.mat.assembly.corners_glued;
        row(ui, "corners", |ui| {
            let width = field_width(ui, 2);
            let options = [(false, "loose"), (true, "glued")];
            let on = glued.is_some();
            let usual = match view.unit() {
                Unit::Inch => Length::inches(0, 1, 2),
                Unit::Millimetre => Length::mm(12),
            };
            if let Some(on) = choice(ui, "Corners of the mat", Some(on), &options, width) {
                let glue = on.then_some(usual);
                requests.run(Command::SetCornersGlued(view.variant, glue));
            }
            if let Some(reach) = glued {
                let field =
                    LengthField::new("Glue reaches in", reach, view.unit()).width(width);
                let response = requests.length(ui, field, |reach| {
                    Command::SetCornersGlued(view.variant, Some(reach))
                });
                response.on_hover_text("How far the dots of glue reach in from the edges");
            }
        });
    });
}

/// One hinge somewhere else.
pub(super) fn moved_to(view: &View<'_>, plan: &HingePlan, index: usize, x: Length) -> Command {
    let mut at = placed(plan);
    if let Some(one) = at.get_mut(index) {
        one.x = x;
    }
    Command::SetHinging(view.variant, Hinging { at, ..view.mat.assembly.hinging.clone() })
}

/// That hinge holds the place, and no other.
pub(super) fn locating(view: &View<'_>, plan: &HingePlan, index: usize) -> Command {
    let mut at = placed(plan);
    for (other, one) in at.iter_mut().enumerate() {
        one.locates = other == index;
    }
    Command::SetHinging(view.variant, Hinging { at, ..view.mat.assembly.hinging.clone() })
}
