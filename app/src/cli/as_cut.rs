//! `sightedge as-cut`: a miscut is recorded as cut, and everything after it follows.

use sightedge_core::command::{Measured, apply, as_cut};
use sightedge_core::file::store::Over;
use sightedge_core::length::Length;
use sightedge_core::spec::{LayerId, Variant};

use super::measures::Measures;
use super::options::{Known, Options};
use super::outcome::Trouble;
use super::{Exit, Streams, Verb, check, help, plans};
use crate::files;

pub(super) const VERB: Verb = Verb {
    known: Known {
        verb: "as-cut",
        values: &["window", "left", "top", "outer", "layer", "variant"],
        flags: &[],
    },
    help: help::AS_CUT,
    run,
};

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, Trouble> {
    let plan = plans::open(&options.word("a plan")?, options, streams)?;
    let ask = Measures::of_plan(options, plan.document.unit);
    let wanted = |name: &str| {
        Trouble::usage(format!(
            "--{name} is wanted: the window as measured, --window WxH, and where it lies, \
             --left L --top L"
        ))
    };
    let length = |name: &str| -> Result<Length, Trouble> {
        ask.length(name)?.ok_or_else(|| wanted(name))
    };
    let layer = layer(options, plan.variant())?;
    let measured = Measured {
        outer: ask.size("outer")?,
        layer,
        sight: ask.size("window")?.ok_or_else(|| wanted("window"))?,
        left: length("left")?,
        top: length("top")?,
    };
    let variant = plan.variant();
    let board = plan.derived().layout.exact.outer;
    if !measured.lies_on(board) {
        let unit = plan.document.unit;
        let board = measured.outer.unwrap_or(board);
        return Err(Trouble::usage(format!(
            "a window of {} × {} at {} from the left and {} from the top does not lie on a board \
             of {} × {}: measure again, or give the board as it came out with --outer",
            measured.sight.width.text(unit),
            measured.sight.height.text(unit),
            measured.left.text(unit),
            measured.top.text(unit),
            board.width.text(unit),
            board.height.text(unit),
        )));
    }
    let opening = variant.mat.openings.first().map(|opening| opening.id);
    let command = opening
        .and_then(|opening| as_cut(&plan.document, variant.id, opening, measured))
        .ok_or_else(|| Trouble::unreadable("the plan has no window: add one first"))?;
    let id = variant.id;
    let mut document = plan.document;
    apply(&mut document, &command).map_err(|refusal| Trouble::usage(refusal.to_string()))?;
    // It was read a moment ago: what changed since is another's work.
    let stamp = files::open(&plan.path)
        .map(|opened| opened.stamp)
        .map_err(|error| Trouble::unreadable(error.to_string()))?;
    files::save(&plan.path, &document, Over::This(&stamp))
        .map_err(|error| Trouble::unwritten(error.to_string()))?;
    writeln!(streams.out, "saved {}", plan.path.display())?;
    check::tell(&document, id, streams)
}

/// The layer that was measured, counted from the top; `None` for the innermost.
fn layer(options: &Options, variant: &Variant) -> Result<Option<LayerId>, Trouble> {
    let Some(text) = options.text("layer")? else { return Ok(None) };
    let layers = &variant.mat.layers;
    let at = text.trim().parse::<usize>().ok().and_then(|number| number.checked_sub(1));
    let found = at.and_then(|at| layers.get(at)).ok_or_else(|| {
        Trouble::usage(format!(
            "--layer {text} is none of this mat: 1 for the top one, to {} for the innermost, is \
             wanted",
            layers.len()
        ))
    })?;
    Ok(Some(found.id))
}
