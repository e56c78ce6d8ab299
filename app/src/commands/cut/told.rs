//! A cutting plan in words, and offers of narrower borders for people and other programs.

use serde_json::json;
use sightedge_core::geometry::Sides;
use sightedge_core::length::{Length, Unit};
use sightedge_core::spec::Document;
use sightedge_cutting::{Counts, Plan, sequences};

use super::super::Streams;
use super::super::outcome::CliError;
use sightedge_service::cutting::instructions::{BLADES, InstructionWriter};
use sightedge_service::cutting::narrower::{Change, Face, Offer};
use sightedge_service::cutting::{BoardJob, bound};

/// A mat before and after, for other programs.
fn changed(change: &Change, opened: &[(String, Document)]) -> serde_json::Value {
    let face = |face: Face| {
        let Sides { top, right, bottom, left } = face.borders.map(Length::to_mm);
        json!({
            "outer_mm": [face.outer.width.to_mm(), face.outer.height.to_mm()],
            "top_mat_borders_mm": { "top": top, "right": right, "bottom": bottom, "left": left },
        })
    };
    let [before, after] = change.faces;
    json!({ "plan": opened[change.plan].0, "before": face(before), "after": face(after) })
}

/// An offer for other programs.
pub(super) fn offer(offer: &Offer, opened: &[(String, Document)]) -> serde_json::Value {
    json!({
        "plan": offer.plan.map(|at| &opened[at].0),
        "by_mm": offer.by.to_mm(),
        "sheets_saved": offer.sheets,
        "cost_saved": offer.cost,
        "changes": offer.changes.iter().map(|change| changed(change, opened)).collect::<Vec<_>>(),
    })
}

pub(super) fn offers(
    offers: &[Offer],
    opened: &[(String, Document)],
    unit: Unit,
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    for offer in offers {
        let plan = offer.plan.map_or("all mats", |at| &opened[at].0);
        let (by, saves, sum) = (offer.by.text(unit), offer.saves(), offer.comes_to());
        writeln!(streams.out, "Borders {by} narrower on {plan} {saves}: {sum}")?;
        // Each plan is listed once, however often it is named.
        let mut told: Vec<String> = Vec::new();
        for change in &offer.changes {
            let [board, borders] = change.told(unit);
            let line = format!("  {}: {board}; {borders}", opened[change.plan].0);
            if !told.contains(&line) {
                writeln!(streams.out, "{line}")?;
                told.push(line);
            }
        }
    }
    Ok(())
}

/// A board's sheets, cut by cut; each line says of which board and sheet it is, so that none
/// can be taken for another's.
pub(super) fn board(
    job: &BoardJob,
    plan: &Plan,
    first: usize,
    unit: Unit,
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    let out = &mut *streams.out;
    writeln!(
        out,
        "{}, {}{}: {}. {}",
        job.board.name,
        job.board.thickness.text(unit),
        if job.board.turns { "" } else { ", the pattern along the height" },
        Counts::of(&job.problem, plan),
        bound::in_words(&job.problem, plan, job.priced)
    )?;
    let (board, problem, set) = (job.board.name.as_str(), &job.problem, str::to_owned);
    let teller = InstructionWriter { board, problem, plan, step: job.unit, unit, set };
    for (number, sequence) in sequences(&job.problem, plan, first).iter().enumerate() {
        let sheet = teller.sheet(number);
        if let Some(words) = teller.first(sequence) {
            writeln!(out, "  {sheet}: {words}")?;
        }
        for cut in 0..sequence.cuts.len() {
            if let Some(told) = teller.cut(sequence, cut) {
                writeln!(out, "  {sheet}, cut {}: {}", cut + 1, told.line())?;
            }
        }
    }
    if !plan.patterns.is_empty() {
        writeln!(out, "  Edges as the sheet lies with its face up. {BLADES}")?;
    }
    Ok(())
}
