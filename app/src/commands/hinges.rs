//! `sightedge hinges`: how the sheet is held, and how it moves.

use std::io::Write;

use clap::Args;
use serde_json::{Value, json};
use sightedge_core::assembly::Sheet;
use sightedge_core::geometry::Sides;
use sightedge_core::hinges::{MatHinge, mat_hinge, to_tear};
use sightedge_core::length::{Length, Unit};
use sightedge_core::movement::{Range, State};
use sightedge_core::spec::Hinging;
use sightedge_core::weight::Weights;

use super::outcome::CliError;
use super::plans::{Plans, Told};
use super::{Exit, Streams};

/// How the sheet is held and where, how well, and how it moves
#[derive(Args, Debug)]
#[command(after_help = "\
Leave moist hinging of valuable works to a trained conservator, and never use pressure-sensitive
tape on them.

Examples:
  sightedge hinges print.jpg
  sightedge hinges shows/spring --json")]
pub(super) struct Hinges {
    /// As JSON, for other programs
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    plans: Plans,
}

impl Hinges {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        self.plans.each(self.json, streams, |plan, streams| {
            let derived = plan.derived();
            let mat = &plan.variant().mat;
            let (unit, weights) = (plan.document.unit, plan.document.weights());
            let own = mat_hinge(&mat.assembly, derived.layout.exact.outer, unit);
            let sheets = &derived.assembly.sheets;
            if self.json {
                let mut all: Vec<Value> = sheets
                    .iter()
                    .map(|sheet| to_json(sheet, own, &mat.assembly.hinging))
                    .collect();
                // One window is the rule; several stand side by side.
                let one = all.len() == 1;
                let value = if one { all.remove(0) } else { json!({ "windows": all }) };
                return Ok(Told::done(value));
            }
            for sheet in sheets {
                in_words(sheet, unit, weights, streams.out)?;
            }
            writeln!(
                streams.out,
                "  mat to backing            along the {} edge, {} of tape {} wide, gap {}",
                own.edge.name(),
                to_tear(own.length, unit).text(unit),
                own.tape.near(unit),
                own.gap.near(unit)
            )?;
            Ok(Told::done(Value::Null))
        })
    }
}

/// Four sides in millimetres.
pub(super) fn four(sides: Sides<Length>) -> Value {
    json!({
        "top_mm": sides.top.to_mm(),
        "right_mm": sides.right.to_mm(),
        "bottom_mm": sides.bottom.to_mm(),
        "left_mm": sides.left.to_mm(),
    })
}

fn percent(tenths: u16) -> f64 {
    f64::from(tenths) / 10.0
}

fn state(state: &State) -> Value {
    json!({
        "humidity": percent(state.humidity.tenths()),
        "overlap": four(state.overlap),
        "moved": four(state.moved),
        "travel_mm": state.travel.iter().map(|travel| travel.to_mm()).collect::<Vec<_>>(),
    })
}

fn range(range: &Range) -> Value {
    json!({ "dry": state(&range.dry), "damp": state(&range.damp) })
}

fn to_json(sheet: &Sheet, own: MatHinge, hinging: &Hinging) -> Value {
    let (plan, movement) = (&sheet.hinges, &sheet.movement);
    let (dry, damp) = (&movement.bound.dry, &movement.bound.damp);
    let travel = |state: &State, index: usize| state.travel.get(index).map(|t| t.to_mm());
    let hinges = plan.hinges.iter().enumerate().map(|(index, hinge)| {
        json!({
            "kind": plan.kind.key(),
            "locates": hinge.locates,
            "x_mm": hinge.x.to_mm(),
            "width_mm": hinge.width.to_mm(),
            "hold_mm": hinge.hold.to_mm(),
            "gap_mm": hinge.gap.to_mm(),
            "rise_mm": hinge.rise.to_mm(),
            "slack_mm": hinge.slack.to_mm(),
            "travel_dry_mm": travel(dry, index),
            "travel_damp_mm": travel(damp, index),
        })
    });
    let ways = movement.ways.iter().map(|(grain, pair)| {
        let mut value = range(pair);
        value["grain"] = json!(grain.key());
        value
    });
    json!({
        "opening": plan.opening.0,
        "kind": plan.kind.key(),
        "chosen_by_hand": hinging.kind.is_some(),
        "reason": plan.reason,
        "wanted": plan.wanted,
        "hinges": hinges.collect::<Vec<_>>(),
        "pockets": (!plan.kind.sticks()).then(|| json!({
            "reach_mm": plan.reach.to_mm(), "slack_mm": plan.slack.to_mm(),
        })),
        "behind_image": plan.behind_image,
        "tape_mm": plan.tape.to_mm(),
        "sheet_g": plan.sheet_g,
        "load_n": plan.load_n,
        "shear_pa": plan.shear_pa,
        "mat_hinge": {
            "edge": own.edge.name(),
            "length_mm": own.length.to_mm(),
            "tape_mm": own.tape.to_mm(),
            "gap_mm": own.gap.to_mm(),
        },
        "movement": {
            "certain": movement.certain,
            "hinged_at": percent(movement.hinged_at.tenths()),
            "dry": state(dry),
            "damp": state(damp),
            "clearance_damp": {
                "from": sheet.clearance.from.name(),
                "sides": four(sheet.clearance.damp),
            },
            "ordinary": movement.ordinary.as_ref().map(range),
            "ways": ways.collect::<Vec<_>>(),
        },
    })
}

fn sides_text(sides: Sides<Length>, unit: Unit) -> String {
    let parts =
        sides.each().map(|(side, length)| format!("{} {}", side.name(), length.fine(unit)));
    parts.join(", ")
}

fn in_words(
    sheet: &Sheet,
    unit: Unit,
    weights: Weights,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    let (plan, movement) = (&sheet.hinges, &sheet.movement);
    writeln!(out, "Window {}: {}. {}", plan.opening, plan.kind.name(), plan.reason)?;
    for (index, hinge) in plan.hinges.iter().enumerate() {
        let what = if hinge.locates { "locating" } else { "loose" };
        let travel = |state: &State| {
            state.travel.get(index).map_or(String::new(), |travel| travel.fine(unit))
        };
        writeln!(
            out,
            "  {} from the sheet's left, seen from the front: {what}, {} wide, holds {}, reaches {} \
             above the sheet; moves {} in dry air and {} in damp air, can give {}",
            hinge.x.near(unit),
            hinge.width.near(unit),
            hinge.hold.near(unit),
            hinge.rise.near(unit),
            travel(&movement.bound.dry),
            travel(&movement.bound.damp),
            hinge.slack.fine(unit)
        )?;
    }
    if !plan.kind.sticks() {
        writeln!(
            out,
            "  reaching {} over the sheet, with {} of slack",
            plan.reach.near(unit),
            plan.slack.near(unit)
        )?;
    }
    writeln!(
        out,
        "  room to {} in damp air: {}",
        sheet.clearance.from.name(),
        sides_text(sheet.clearance.damp, unit)
    )?;
    if let (Some(load), Some(shear)) = (plan.load_n, plan.shear_pa) {
        let (load, stress) = (weights.force(load), weights.stress(shear));
        writeln!(out, "  each carries {load}, {stress} over its hold")?;
    }
    writeln!(out, "  tissue needed             {}", to_tear(plan.tape, unit).text(unit))?;
    let known = if movement.certain {
        ""
    } else {
        " (at worst: the plan does not give the paper or its grain)"
    };
    writeln!(out, "  hinged at {} % humidity{known}", movement.hinged_at.text())?;
    for state in [&movement.bound.dry, &movement.bound.damp] {
        writeln!(
            out,
            "  overlap at {} %           {}",
            state.humidity.text(),
            sides_text(state.overlap, unit)
        )?;
    }
    for (grain, pair) in &movement.ways {
        writeln!(
            out,
            "  with the grain {}, overlap at {} %: {}",
            grain.name(),
            pair.dry.humidity.text(),
            sides_text(pair.dry.overlap, unit)
        )?;
    }
    Ok(())
}
