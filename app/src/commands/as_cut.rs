//! `sightedge as-cut`: a miscut is recorded as cut, and everything after it follows.

use sightedge_core::command::{Command, Measured, apply, as_cut};
use sightedge_core::file::store::Over;
use sightedge_core::geometry::Seen;
use sightedge_core::length::Length;
use sightedge_core::spec::{LayerId, Variant};

use super::measures::Measures;
use super::options::{Known, Options};
use super::outcome::CliError;
use super::plans::{self, Opened};
use super::{Exit, Streams, Verb, check, help};
use sightedge_service::files;

pub(super) const VERB: Verb = Verb {
    known: Known {
        verb: "as-cut",
        values: &["window", "left", "top", "from", "outer", "layer", "variant"],
        flags: &["anew"],
    },
    help: help::AS_CUT,
    run,
};

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let plan = plans::open(&options.word("a plan")?, options, streams)?;
    let before = plan.findings();
    let command =
        if options.has("anew") { anew(options, &plan)? } else { measured(options, &plan)? };
    let id = plan.variant().id;
    let mut document = plan.document;
    apply(&mut document, &command).map_err(|refusal| CliError::usage(refusal.to_string()))?;
    // It was read a moment ago: what changed since is another's work.
    let stamp = files::open(&plan.path)
        .map(|opened| opened.stamp)
        .map_err(|error| CliError::unreadable(error.to_string()))?;
    files::save(&plan.path, &document, Over::This(&stamp))
        .map_err(|error| CliError::unwritten(error.to_string()))?;
    writeln!(streams.out, "saved {}", plan.path.display())?;
    check::tell_cut(&before, &document, id, streams)
}

/// What records the window as it was measured.
fn measured(options: &Options, plan: &Opened) -> Result<Command, CliError> {
    let unit = plan.document.unit;
    let ask = Measures::of_plan(options, unit);
    let wanted = |name: &str| {
        CliError::usage(format!(
            "--{name} is wanted: the window as measured, --window WxH, and where it lies, \
             --left L --top L"
        ))
    };
    let length = |name: &str| -> Result<Length, CliError> {
        ask.length(name)?.ok_or_else(|| wanted(name))
    };
    let seen = match options.text("from")? {
        None | Some("front") => Seen::Front,
        Some("back") => Seen::Back,
        Some(other) => {
            return Err(CliError::usage(format!(
                "--from \"{other}\" is no side of a board: give --from front where it lay face \
                 up, --from back where it lay face down"
            )));
        }
    };
    let variant = plan.variant();
    let measured = Measured {
        outer: ask.size("outer")?,
        layer: layer(options, variant)?,
        sight: ask.size("window")?.ok_or_else(|| wanted("window"))?,
        left: length("left")?,
        top: length("top")?,
        seen,
    };
    let opening = variant.mat.openings.first().map(|opening| opening.id);
    if let Some(why) = opening.and_then(|id| measured.refused(&variant.mat, id, unit)) {
        return Err(CliError::usage(format!(
            "--outer: {why}, with as-cut --anew and its --layer"
        )));
    }
    let board = plan.derived().layout.bench.outer;
    if !measured.lies_on(board) {
        let board = measured.outer.unwrap_or(board);
        let text = |length: Length| length.text(unit);
        return Err(CliError::usage(format!(
            "a window of {} at {} from the left and {} from the top does not lie on a board of {}: \
             measure again, or give the board as it came out with --outer",
            measured.sight.sides_text(text),
            text(measured.left),
            text(measured.top),
            board.sides_text(text),
        )));
    }
    opening
        .and_then(|opening| as_cut(&plan.document, variant.id, opening, measured))
        .ok_or_else(|| CliError::unreadable("the plan has no window: add one first"))
}

/// What says that a window is to be cut again.
fn anew(options: &Options, plan: &Opened) -> Result<Command, CliError> {
    let variant = plan.variant();
    let layer = layer(options, variant)?.or(variant.mat.layers.last().map(|last| last.id));
    let cut = variant.mat.openings.first().zip(layer);
    let cut = cut.filter(|(opening, layer)| opening.is_cut(*layer));
    let (opening, layer) = cut.ok_or_else(|| {
        CliError::usage(
            "--anew names a window that is not cut: give the layer that is, as in \
             --layer 1",
        )
    })?;
    Ok(Command::CutAnew(variant.id, opening.id, layer))
}

/// The layer that was measured, counted from the top; `None` for the innermost.
fn layer(options: &Options, variant: &Variant) -> Result<Option<LayerId>, CliError> {
    let Some(text) = options.text("layer")? else { return Ok(None) };
    let layers = &variant.mat.layers;
    let at = text.trim().parse::<usize>().ok().and_then(|number| number.checked_sub(1));
    let found = at.and_then(|at| layers.get(at)).ok_or_else(|| {
        CliError::usage(format!(
            "--layer {text} is none of this mat: 1 for the top one, to {} for the innermost, is \
             wanted",
            layers.len()
        ))
    })?;
    Ok(Some(found.id))
}
