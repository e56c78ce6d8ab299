//! The figures of the place: what is left of the overlap, what each hinge bears and yields;
//! the package layer by layer, the wire and its hooks.

use egui::{Grid, Ui};
use sightedge_core::geometry::{Seen, Side};
use sightedge_core::hinges::{HingePlan, to_tear};
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::Humidity;
use sightedge_core::movement::{Movement, State};
use sightedge_core::package::{Hung, Packed, Part};
use sightedge_core::spec::Grain;
use sightedge_core::weight::Weights;

use super::title;
use crate::window::context::View;
use crate::window::widgets::{pair, quiet};
use sightedge_service::wording;

/// A small length of movement, without its unit.
fn small(length: Length, unit: Unit) -> String {
    wording::alone(&length.fine(unit))
}

fn with_unit(length: Length, unit: Unit) -> String {
    wording::set(&length.fine(unit))
}

/// Figures of the sheet, seen as the board beside them is: `now` is the humidity it is shown at.
pub(super) fn sheet(ui: &mut Ui, view: &View<'_>, now: Humidity, seen: Seen) {
    let sheets = &view.derived.assembly.sheets;
    let Some(sheet) = sheets.iter().find(|sheet| sheet.hinges.opening == view.opening.id)
    else {
        return;
    };
    let movement = &sheet.movement;
    let unit = view.unit();
    title(ui, &format!("Overlap, {}", seen.words()));
    ui.spacing_mut().interact_size.y = 18.0;
    ui.spacing_mut().item_spacing.y = 0.0;
    let at = movement.at(now);
    overlaps(ui, movement, &at, unit, seen);
    if !movement.certain {
        let words = if movement.ways.is_empty() {
            "The paper is not known: these are the worst. Expect about half of the movement."
        } else {
            "The grain is not known: this is the worse way. The smallest overlap, for"
        };
        ui.label(quiet(ui, words));
        for (grain, range) in &movement.ways {
            let name = match grain {
                Grain::Width => "grain along the width",
                Grain::Height => "grain along the height",
            };
            let least = range.dry.overlap.least().min(range.damp.overlap.least());
            pair(ui, name, &with_unit(least, unit));
        }
    }
    ui.add_space(6.0);
    let plan = &sheet.hinges;
    if plan.kind.sticks() {
        title(ui, &format!("Hinge travel, {}", seen.words()));
        travels(ui, plan, movement, unit, (seen, view.work.sheet.width));
        let least = with_unit(sheet.clearance.least(), unit);
        let from = sheet.clearance.from.name();
        pair(ui, "clearance when damp", &least).on_hover_text(format!(
            "The smallest gap, from the sheet’s edge at its dampest to {from}"
        ));
        bears(ui, plan, view);
    } else {
        title(ui, &format!("Clearance when damp, {}", seen.words()));
        for (side, clear) in seen.sides(sheet.clearance.damp).each() {
            pair(ui, side.name(), &with_unit(clear, unit));
        }
    }
}

fn overlaps(ui: &mut Ui, movement: &Movement, now: &State, unit: Unit, seen: Seen) {
    let states = [&movement.bound.dry, now, &movement.bound.damp];
    Grid::new("overlap left").num_columns(4).spacing([9.0, 1.0]).show(ui, |ui| {
        ui.label(quiet(ui, unit.sign()));
        for (name, state) in ["dry", "now", "damp"].into_iter().zip(states) {
            ui.label(quiet(ui, &format!("{name} {} %", state.humidity.text())));
        }
        ui.end_row();
        for side in Side::ALL {
            ui.label(quiet(ui, side.name()));
            for state in states {
                ui.label(small(seen.sides(state.overlap).of(side), unit));
            }
            ui.end_row();
        }
    });
}

fn travels(
    ui: &mut Ui,
    plan: &HingePlan,
    movement: &Movement,
    unit: Unit,
    (seen, wide): (Seen, Length),
) {
    Grid::new("travel").num_columns(4).spacing([9.0, 1.0]).show(ui, |ui| {
        for name in ["from left", "dry", "damp", "room"] {
            ui.label(quiet(ui, name));
        }
        ui.end_row();
        let mut hinges: Vec<_> = plan.hinges.iter().enumerate().collect();
        if seen == Seen::Back {
            hinges.reverse();
        }
        for (index, hinge) in hinges {
            // From the left edge as it is seen.
            let x = if seen == Seen::Back { wide - hinge.x } else { hinge.x };
            ui.label(wording::alone(&x.near(unit)));
            if hinge.locates {
                ui.label(quiet(ui, "holds"));
            } else {
                for state in [&movement.bound.dry, &movement.bound.damp] {
                    let travel = state.travel.get(index).copied().unwrap_or_default();
                    ui.label(small(travel, unit));
                }
                ui.label(small(hinge.slack, unit));
            }
            ui.end_row();
        }
    });
}

fn bears(ui: &mut Ui, plan: &HingePlan, view: &View<'_>) {
    let (unit, weights) = (view.unit(), view.weights());
    if let (Some(grams), Some(load), Some(shear)) = (plan.sheet_g, plan.load_n, plan.shear_pa) {
        let words = weights.force(load);
        pair(ui, &format!("each carries, of {}", weights.mass(grams)), &words).on_hover_text(
            format!(
                "Its share of the sheet's weight; over its hold, {}",
                weights.stress(shear)
            ),
        );
    }
    let rise = plan.hinges.iter().map(|hinge| hinge.rise).max().unwrap_or_default();
    if rise.is_positive() {
        let words = format!(
            "{} of {}",
            wording::alone(&rise.near(unit)),
            wording::near(plan.room_above, unit)
        );
        pair(ui, "height above sheet", &words).on_hover_text(
            "How far the highest hinge stands up above the sheet, and how much room there is",
        );
    }
    let tape = to_tear(plan.tape, unit);
    pair(ui, "tissue needed", &wording::length(tape, unit));
}

/// Figures of the package and the wall.
pub(super) fn package(ui: &mut Ui, view: &View<'_>) {
    let Some(packed) = &view.derived.assembly.package else { return };
    let (unit, weights) = (view.unit(), view.weights());
    ui.spacing_mut().interact_size.y = 18.0;
    ui.spacing_mut().item_spacing.y = 0.0;
    title(ui, "The package");
    pair(ui, "depth", &wording::at_least(packed.depth, unit));
    match &packed.framed {
        Some(framed) => {
            let has = framed
                .frame
                .rabbet_depth
                .map_or_else(|| "not measured".to_owned(), |depth| wording::near(depth, unit));
            pair(ui, "rabbet depth needed", &wording::at_least(packed.rabbet, unit))
                .on_hover_text("The depth, and room behind it for points and dust cover");
            pair(ui, "rabbet depth there is", &has);
            pair(ui, "air over the print", &wording::near(packed.air, unit));
            let hidden = framed.hidden.each();
            let words = hidden.map(|(_, hidden)| wording::alone(&hidden.near(unit))).join(", ");
            pair(ui, "hidden by the lip", &words).on_hover_text(
                "Top, right, bottom, left, from the front; the package rests on the bottom",
            );
            let seen = packed.visible_border.each();
            let words = seen.map(|(_, seen)| wording::alone(&seen.near(unit))).join(", ");
            pair(ui, "top mat border showing", &words)
                .on_hover_text("Top, right, bottom, left, from the front");
        }
        None => {
            pair(ui, "bag, inside, no less than", &size(packed.bag, unit));
        }
    }
    ui.add_space(6.0);
    let how = if packed.weighed { "weighed" } else { "estimated" };
    title(ui, "Mass");
    for (at, layer) in packed.layers.iter().enumerate().filter(|(_, one)| one.mass_g > 0.0) {
        let mats = |layers: &[sightedge_core::package::Layer]| {
            layers.iter().filter(|layer| layer.part == Part::Mat).count()
        };
        let before = mats(packed.layers.get(..at).unwrap_or_default());
        let part = match (layer.part, before) {
            (Part::Frame, _) => "Frame: ".to_owned(),
            (Part::Backing, _) => "Backing: ".to_owned(),
            (Part::Mat, 0) => "Mat: ".to_owned(),
            (Part::Mat, 1) if mats(&packed.layers) == 2 => "Undermat: ".to_owned(),
            (Part::Mat, number) => format!("Undermat {number}: "),
            _ => String::new(),
        };
        let name = wording::set(&format!("{part}{}", layer.name));
        let room = ui.available_width() - 46.0;
        let shown = crate::window::widgets::fitted(ui, &name, room);
        let response = pair(ui, &shown, &weights.mass(layer.mass_g));
        if shown != name {
            response.on_hover_text(name);
        }
    }
    pair(ui, &format!("total, {how}"), &weights.mass(packed.mass_g));
    if packed.framed.is_some() {
        ui.add_space(6.0);
        title(ui, "On the wall");
        hung(ui, packed, unit, weights);
    }
}

/// A size that is needed at least.
fn size(size: sightedge_core::geometry::Size, unit: Unit) -> String {
    size.extent_text(|side| wording::at_least(side, unit))
}

fn hung(ui: &mut Ui, packed: &Packed, unit: Unit, weights: Weights) {
    let Hung { hooks, wire, hook_n, hook_height, centre, factor } = packed.hung;
    match wire {
        Some(wire) => {
            let words = format!("{} at {:.0}°", weights.force(wire.tension_n), wire.angle_deg);
            pair(ui, "pull on wire, each side", &words);
            let rated = weights.mass(Hung::grams(wire.tension_n) * factor);
            pair(ui, "wire and rings: rating", &rated);
        }
        None => {
            ui.label(quiet(
                ui,
                "For the wire’s pull and the hooks’ height, give the distance between the rings, \
                 how far down they are and how far the wire rises.",
            ));
        }
    }
    let rated = weights.mass(Hung::grams(hook_n) * factor);
    let each = if hooks == 1 { "hook: rating" } else { "each hook: rating" };
    pair(ui, each, &rated);
    let height = hook_height
        .map_or_else(|| "not known".to_owned(), |height| wording::near(height, unit));
    pair(ui, "hooks above the floor", &height);
    pair(ui, "picture’s centre above the floor", &wording::near(centre, unit));
    ui.label(quiet(
        ui,
        "Two hooks, hardware rated for wall and weight. Heavy or public work follows local \
         codes and a licensed installer.",
    ));
}
