//! `sightedge figures`: every number of a plan.

use std::io::Write;

use sightedge_core::figures::{Extent, Four, Opening, Placed, Set, sheet};
use sightedge_core::geometry::Seen;
use sightedge_core::geometry::extent_of;

use super::options::{Known, Options};
use super::outcome::CliError;
use super::{Exit, Streams, Verb, help, new, plans};

pub(super) const VERB: Verb = Verb {
    known: Known { verb: "figures", values: &["ruler", "variant"], flags: &["json"] },
    help: help::FIGURES,
    run,
};

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let mut plan = plans::open(&options.word("a plan")?, options, streams)?;
    if options.has("ruler") {
        plan.document.ruler = new::ruler(options, plan.document.unit)?;
    }
    let sheet = sheet(&plan.document, &plan.variant().mat, &plan.derived().layout);
    if options.has("json") {
        let text = serde_json::to_string_pretty(&sheet).map_err(|error| {
            CliError::unwritten(format!("the figures cannot be written: {error}"))
        })?;
        writeln!(streams.out, "{text}")?;
        return Ok(Exit::Done);
    }
    let out = &mut *streams.out;
    if sheet.in_hand {
        writeln!(out, "A window in hand: the bench has the measured figures.\n")?;
    } else {
        writeln!(out, "For the bench, on a ruler of {}", sheet.ruler_text)?;
        set(&sheet.bench, out)?;
        writeln!(out)?;
    }
    writeln!(out, "Exact")?;
    set(&sheet.exact, out)?;
    Ok(Exit::Done)
}

fn row(out: &mut dyn Write, name: &str, text: &str) -> std::io::Result<()> {
    writeln!(out, "  {name:<26}{text}")
}

fn set(set: &Set, out: &mut dyn Write) -> std::io::Result<()> {
    row(out, "outer", &extent(&set.outer))?;
    for opening in &set.openings {
        window(opening, out)?;
    }
    row(out, "backing", &placed(&set.backing))
}

fn window(opening: &Opening, out: &mut dyn Write) -> std::io::Result<()> {
    // All but the stops; the word border alone is the top mat's.
    row(out, "seen", Seen::Front.words())?;
    // The top mat's window and borders add up to the board; the picture shows in the innermost.
    if let [top, inner @ ..] = opening.layers.as_slice() {
        if !inner.is_empty() {
            row(out, "top mat window", &extent(&top.sight))?;
        }
        row(out, "borders", &four(&top.borders))?;
    }
    row(out, "window, sight edge", &extent(&opening.sight))?;
    row(out, "reveal", &four(&opening.reveal))?;
    row(out, "overlap", &four(&opening.overlap))?;
    row(out, "sheet", &placed(&opening.sheet))?;
    row(out, "image", &placed(&opening.image))?;
    for (number, layer) in (1..).zip(&opening.layers) {
        let cut = match layer.cut {
            "straight" => "cut straight".to_owned(),
            "reverse" => format!("reverse bevel of {}°", layer.angle_deg),
            _ => format!("bevel of {}°", layer.angle_deg),
        };
        let done = if layer.measured { "; cut, as measured" } else { "" };
        let board = format!("{}, {}, {cut}{done}", layer.board, layer.thickness_text);
        let name = layer.name.to_lowercase();
        row(out, &name, &board)?;
        row(out, "  sight edge", &extent(&layer.sight))?;
        row(out, "  face opening", &extent(&layer.face))?;
        row(out, &format!("  {name} borders"), &four(&layer.borders))?;
        if number > 1 {
            row(out, "  offset, its strips", &four(&layer.offset))?;
        }
        let hidden = number > 1 && layer.flat_mm < 0.0;
        let shows = if hidden && layer.flat_mm + layer.bevel_mm <= 0.0 {
            "nothing: hidden under the layer above".to_owned()
        } else if hidden {
            "a part of its bevel; its flat is hidden".to_owned()
        } else {
            format!("{} flat + {} bevel", layer.flat_text, layer.bevel_text)
        };
        row(out, "  shows at least", &shows)?;
        row(out, "  blank", &extent(&layer.blank))?;
        row(out, "  stops from the back", &four(&layer.stops))?;
        if number > 1 {
            row(out, "  loose, from the back", &four(&layer.stops_loose))?;
        }
        row(out, "  drop-out", &extent(&layer.drop_out))?;
    }
    Ok(())
}

/// Width × height, the unit once.
fn extent(extent: &Extent) -> String {
    extent_of(&extent.width_text, &extent.height_text)
}

fn four(four: &Four) -> String {
    format!(
        "top {}, right {}, bottom {}, left {}",
        four.top_text, four.right_text, four.bottom_text, four.left_text
    )
}

fn placed(placed: &Placed) -> String {
    format!("{}; from the outer edge {}", extent(&placed.size), four(&placed.from))
}
