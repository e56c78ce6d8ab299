//! How the sheet is held, and how the mat is held to its backing.

use egui::{Role, Ui, WidgetInfo};
use sightedge_core::command::Command;
use sightedge_core::geometry::Side;
use sightedge_core::hinges::{HingePlan, mat_hinge, to_tear};
use sightedge_core::length::{Length, Unit};
use sightedge_core::spec::{HingeAt, HingeKind, Hinging, MatHinge};

use super::parts::Open;
use crate::window::context::{Requests, View};
use crate::window::widgets::{
    Hint, LengthField, Picture, asked, choice, field_width, group, pick, quiet, row,
};

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
            row(ui, "clearance", |ui| {
                let width = field_width(ui, 2);
                let open = Open {
                    name: "Clearance for the sheet",
                    given: hinging.slack,
                    usual: Some(plan.slack),
                    unit: view.unit(),
                    width,
                    hint: Hint::new(
                        "Between the sheet and its corners or strips, so that it can grow.",
                    ),
                };
                open.show(ui, requests, |slack| set(Hinging { slack, ..hinging.clone() }));
            });
        }
    });
    mat_to_backing(ui, view, requests);
}

fn kind(ui: &mut Ui, view: &View<'_>, plan: &HingePlan, requests: &mut Requests) {
    let hinging = &view.mat.assembly.hinging;
    let hint = Hint::new(
        "T hinges where the mat covers the sheet’s edge, V hinges where the sheet floats, corners \
         or edge strips where nothing may stick to it",
    );
    asked(ui, "held by", &hint, |ui| {
        let width = field_width(ui, 1);
        let chosen_for = format!("Automatic: {}", plan.kind.name());
        let chosen: &str = match hinging.kind {
            Some(kind) => kind.name(),
            None => &chosen_for,
        };
        let best =
            if hinging.kind.is_none() { chosen_for.clone() } else { "Automatic".to_owned() };
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
    let hint = Hint::new("What the hinges are torn from; always weaker than the sheet itself");
    asked(ui, "hinge tissue", &hint, |ui| {
        let width = field_width(ui, 1);
        let open = "Weaker than the sheet";
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
    row(ui, "tab width", |ui| {
        let hint = Hint::new("How wide a hinge is, along the sheet’s edge.")
            .picture(Picture::TabWidth);
        open_in(view, field_width(ui, 2))("Tab width", hinging.width, width, hint).show(
            ui,
            requests,
            |width| set(Hinging { width, ..hinging.clone() }),
        );
    });
    row(ui, "hold on sheet", |ui| {
        let hint =
            Hint::new("How far a hinge is stuck to the sheet’s back.").picture(Picture::Hold);
        open_in(view, field_width(ui, 2))("Hold on the sheet", hinging.hold, hold, hint).show(
            ui,
            requests,
            |hold| set(Hinging { hold, ..hinging.clone() }),
        );
    });
    if plan.kind == HingeKind::T {
        let gap = first.map(|hinge| hinge.gap).unwrap_or_default();
        let moves = plan.hinges.iter().find(|hinge| !hinge.locates);
        let longer = moves.map_or(Length::ZERO, |hinge| hinge.gap - gap);
        row(ui, "gap to tape", |ui| {
            let hint = Hint::new(
                "From the sheet’s edge to the cross-piece that holds the tab to the backing; no \
                 paste there.",
            )
            .picture(Picture::HingeGap);
            open_in(view, field_width(ui, 2))("Gap to the cross-piece", hinging.gap, gap, hint)
                .show(ui, requests, |gap| set(Hinging { gap, ..hinging.clone() }));
        });
        row(ui, "extra length", |ui| {
            let hint = Hint::new(
                "How much longer the hinges are that let the sheet move, so that it can grow and \
                 shrink.",
            )
            .picture(Picture::HingeLonger);
            open_in(view, field_width(ui, 2))("Extra length", hinging.longer, longer, hint)
                .show(ui, requests, |longer| set(Hinging { longer, ..hinging.clone() }));
        });
    }
    each(ui, view, plan, requests);
}

/// Fields for lengths that may be left open.
fn open_in<'a>(
    view: &View<'_>,
    width: f32,
) -> impl Fn(&'a str, Option<Length>, Length, Hint) -> Open<'a> + use<'a> {
    let unit = view.unit();
    move |name, given, usual, hint| {
        let usual = Some(usual);
        Open { name, given, usual, unit, width, hint }
    }
}

/// Where each hinge sits and which one holds the place; more and fewer of them.
fn each(ui: &mut Ui, view: &View<'_>, plan: &HingePlan, requests: &mut Requests) {
    let hinging = &view.mat.assembly.hinging;
    let set = |hinging: Hinging| Command::SetHinging(view.variant, hinging);
    for (index, hinge) in plan.hinges.iter().enumerate() {
        let label = format!("hinge {}", index + 1);
        let hint =
            Hint::new("The hinge’s middle, from the sheet’s left edge seen from the front")
                .picture(Picture::HingePlace);
        asked(ui, &label, &hint, |ui| {
            let field = field_width(ui, 2);
            let name = format!("Place of hinge {}", index + 1);
            let length = LengthField::new(&name, hinge.x, view.unit()).width(field);
            requests.length(ui, length, |x| moved_to(view, plan, index, x));
            let words = if hinge.locates { "holds place" } else { "lets move" };
            let button = egui::Button::selectable(hinge.locates, words);
            let response = ui.add_sized([field, crate::window::theme::ROW], button);
            let response = response.on_hover_text(
                "One hinge holds the sheet’s place; the others are longer and let it grow and shrink. \
                 Press to make it this one",
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
        let add = ui.add_enabled(count < 12, egui::Button::new("Add"));
        if add.on_hover_text("One hinge more, all of them spaced evenly").clicked() {
            requests.run(set(Hinging { at: one_more(count + 1), ..hinging.clone() }));
        }
        let fewer = ui.add_enabled(count > 1, egui::Button::new("Fewer"));
        if fewer.on_hover_text("One hinge fewer, all of them spaced evenly").clicked() {
            requests.run(set(Hinging { at: one_more(count - 1), ..hinging.clone() }));
        }
        let by_hand = !hinging.at.is_empty();
        let even = egui::Button::new("Automatic");
        let response = ui.add_enabled(by_hand, even);
        if response
            .on_hover_text("As many as the sheet needs, spaced evenly along its top edge")
            .clicked()
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
        let hint = Hint::new("The edge along which mat and backing are taped together");
        asked(ui, "hinged along", &hint, |ui| {
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
        row(ui, "tape width", |ui| {
            let (unit, usual) = (view.unit(), own.tape);
            let long = sightedge_service::wording::length(to_tear(own.length, unit), unit);
            let hint = Hint::new(format!("The cloth tape, across. You need {long} of it."))
                .picture(Picture::TapeWidth);
            let open = open_in(view, field_width(ui, 2));
            open("Tape width", given.tape, usual, hint)
                .show(ui, requests, |tape| set(MatHinge { tape, ..given }));
        });
        row(ui, "gap at tape", |ui| {
            let hint = Hint::new("Between mat and backing while both lie open.")
                .picture(Picture::TapeGap);
            let open = open_in(view, field_width(ui, 2));
            open("Gap at the tape", given.gap, own.gap, hint)
                .show(ui, requests, |gap| set(MatHinge { gap, ..given }));
        });
        let glued = view.mat.assembly.corners_glued;
        let hint = Hint::new(
            "Loose: the mat opens on its hinge. Glued: dots of glue hold its corners down, and \
             close the way to the hinges",
        );
        asked(ui, "mat corners", &hint, |ui| {
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
                let hint = Hint::new("How far the dots of glue reach in from the mat’s edges")
                    .picture(Picture::Glue);
                let field = LengthField::new("Glue reaches in", reach, view.unit());
                requests.length(ui, field.width(width).hint(&hint), |reach| {
                    Command::SetCornersGlued(view.variant, Some(reach))
                });
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
