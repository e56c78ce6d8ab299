//! `sightedge figures`: every number of a plan.

use std::io::Write;

use clap::Args;
use serde_json::Value;
use sightedge_core::figures::{Extent, Four, Opening, Placed, Set, sheet};
use sightedge_core::geometry::Seen;
use sightedge_core::geometry::extent_of;

use super::outcome::CliError;
use super::plans::{Opened, Plans, Told};
use super::{Exit, Streams, values};

/// Every figure of a plan, exact and on your ruler
#[derive(Args, Debug)]
#[command(after_help = "\
\"Borders\" alone are the top mat's; all others are named with their layer. What you entered as cut
is marked \"cut, as measured\" and is the same in both sets. Stops are seen from the back, all else
from the front.

In the JSON, \"bench\" is the set on the ruler, all beside it the exact one. Of an opening:
  sight, borders        of its innermost window: the undermat's where there is one
  reveal, overlap       paper showing round the image; how far the mat overlaps the sheet
  sheet, image          size, and distances from the board's edges
Of a layer, the top mat first:
  sight, face, back     its window at the sight edge, on the board's face and on its back
  borders               from the board's edges to its own sight edge
  offset                from the sight edge of the layer above to its own
  flat, bevel           how much of its face and of its bevel shows; negative where the layer
                        above hides it
  blank, drop_out       the board it is cut from; how much of the drop-out can be used
  stops, stops_loose    its stops from the back: stuck to the top mat, and cut loose
  measured              whether it is already cut, so that its figures are as measured

Examples:
  sightedge figures print.jpg --ruler 32
  sightedge figures shows/spring --json")]
pub(super) struct Figures {
    /// Another ruler than the plan's
    #[arg(long, value_name = "N")]
    ruler: Option<String>,
    /// As JSON, for other programs: *_mm unrounded, *_text in the plan's unit
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    plans: Plans,
}

impl Figures {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        self.plans.each(self.json, streams, |plan, streams| self.tell(plan, streams))
    }

    fn tell(&self, mut plan: Opened, streams: &mut Streams<'_>) -> Result<Told, CliError> {
        if self.ruler.is_some() {
            plan.document.ruler = values::ruler(self.ruler.as_deref(), plan.document.unit)?;
        }
        let sheet = sheet(&plan.document, &plan.variant().mat, &plan.derived().layout);
        if self.json {
            let unwritten = |error: serde_json::Error| {
                CliError::unwritten(format!("the figures cannot be written: {error}"))
            };
            let text = serde_json::to_string_pretty(&sheet).map_err(unwritten)?;
            let json = serde_json::to_value(&sheet).map_err(unwritten)?;
            return Ok(Told { text: Some(text), ..Told::done(json) });
        }
        let out = &mut *streams.out;
        if sheet.in_hand {
            writeln!(out, "A mat in hand: the figures for the bench are as measured.\n")?;
        } else {
            writeln!(out, "For the bench, on a ruler of {}", sheet.ruler_text)?;
            set(&sheet.bench, out)?;
            writeln!(out)?;
        }
        writeln!(out, "Exact")?;
        set(&sheet.exact, out)?;
        Ok(Told::done(Value::Null))
    }
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
            row(out, "  offset", &four(&layer.offset))?;
        }
        let hidden = number > 1 && layer.flat_mm < 0.0;
        let shows = if hidden && layer.flat_mm + layer.bevel_mm <= 0.0 {
            "nothing: the layer above hides it".to_owned()
        } else if hidden {
            "part of its bevel; the layer above hides the rest".to_owned()
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
