//! `sightedge as-cut`: a miscut is recorded as cut, and everything after it follows.

use clap::Args;
use sightedge_core::command::{Command, Measured, apply, as_cut};
use sightedge_core::file::store::Overwrite;
use sightedge_core::geometry::Seen;
use sightedge_core::spec::{LayerId, Variant};

use super::lengths::Measure;
use super::outcome::CliError;
use super::plans::{OnePlan, Opened};
use super::values::Read;
use super::{Exit, Streams, check};
use sightedge_service::files;

/// Enters a window as it was cut, measured at its sight edge
#[derive(Args, Debug)]
#[command(after_help = "\
From then on, all figures and printouts use the window as measured, and what is still to be cut is
centred on it. Lists what the cut changed, and what was open before it.

Saves the plan and keeps the old one as a backup. Ends as check does.

Example:
  sightedge as-cut print.jpg --window 11x15in --left 4 --top 4")]
pub(super) struct AsCut {
    /// The window as measured, as in --window 11x15in
    #[arg(long, value_name = "WxH", required_unless_present = "anew")]
    window: Option<Measure>,
    /// From the board's left edge to the window
    #[arg(long, value_name = "L", required_unless_present = "anew")]
    left: Option<Measure>,
    /// From the board's top edge to the window
    #[arg(long, value_name = "L", required_unless_present = "anew")]
    top: Option<Measure>,
    /// Which side of the board was up when you measured; seen from the back,
    /// left and right change places; if not given, the front
    #[arg(long, value_name = "front|back", value_parser = Read(seen), verbatim_doc_comment)]
    from: Option<Seen>,
    /// Size of the board, the same for all layers; if not given, as planned
    /// or as measured before
    #[arg(long, value_name = "WxH", verbatim_doc_comment)]
    outer: Option<Measure>,
    /// Which layer you measured, 1 for the top mat; the undermats below it
    /// are still to be cut and follow it; if not given, the innermost
    #[arg(long, value_name = "N", verbatim_doc_comment)]
    layer: Option<String>,
    /// Instead of measures: cut that window again, from another board
    #[arg(long, conflicts_with_all = ["window", "left", "top", "from", "outer"])]
    anew: bool,
    #[command(flatten)]
    plan: OnePlan,
}

fn seen(name: &str, text: &str) -> Result<Seen, String> {
    match text {
        "front" => Ok(Seen::Front),
        "back" => Ok(Seen::Back),
        other => Err(format!(
            "--{name} \"{other}\" is not a side of a board: use --{name} front if it lay face \
             up, --{name} back if it lay face down"
        )),
    }
}

impl AsCut {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        let plan = self.plan.open(streams)?;
        let before = plan.findings();
        let command = match (&self.window, &self.left, &self.top) {
            (Some(window), Some(left), Some(top)) => {
                self.measured(&plan, [window, left, top])?
            }
            _ => self.anew(&plan)?,
        };
        let id = plan.variant().id;
        let mut document = plan.document;
        apply(&mut document, &command)
            .map_err(|refusal| CliError::usage(refusal.to_string()))?;
        // It was read a moment ago: what changed since is another's work.
        let stamp = files::open(&plan.path)
            .map(|opened| opened.stamp)
            .map_err(|error| CliError::unreadable(error.to_string()))?;
        files::save(&plan.path, &document, Overwrite::This(&stamp))
            .map_err(|error| CliError::unwritten(error.to_string()))?;
        writeln!(streams.out, "saved {}", plan.path.display())?;
        check::tell_cut(&before, &document, id, streams)
    }

    /// What records the window as it was measured.
    fn measured(
        &self,
        plan: &Opened,
        [window, left, top]: [&Measure; 3],
    ) -> Result<Command, CliError> {
        let unit = plan.document.unit;
        let variant = plan.variant();
        let measured = Measured {
            outer: self.outer.as_ref().map(|outer| outer.size(unit)).transpose()?,
            layer: self.layer(variant)?,
            sight: window.size(unit)?,
            left: left.length(unit)?,
            top: top.length(unit)?,
            seen: self.from.unwrap_or(Seen::Front),
        };
        let opening = variant.mat.openings.first().map(|opening| opening.id);
        if let Some(why) = opening.and_then(|id| measured.refusal(&variant.mat, id, unit)) {
            return Err(CliError::usage(format!(
                "--outer: {why}, with as-cut --anew and its --layer"
            )));
        }
        let board = plan.derived().layout.bench.outer;
        if !measured.fits_on(board) {
            let board = measured.outer.unwrap_or(board);
            return Err(CliError::usage(format!(
                "a window of {} at {} from the left and {} from the top does not fit on a \
                 board of {}: measure again, or give the board as it came out with --outer",
                measured.sight.sides_text(|length| length.text(unit)),
                measured.left.text(unit),
                measured.top.text(unit),
                board.sides_text(|length| length.text(unit)),
            )));
        }
        opening
            .and_then(|opening| as_cut(&plan.document, variant.id, opening, measured))
            .ok_or_else(|| CliError::unreadable("the plan has no window: add one first"))
    }

    /// What says that a window is to be cut again.
    fn anew(&self, plan: &Opened) -> Result<Command, CliError> {
        let variant = plan.variant();
        let layer = self.layer(variant)?.or(variant.mat.layers.last().map(|last| last.id));
        let cut = variant.mat.openings.first().zip(layer);
        let cut = cut.filter(|(opening, layer)| opening.is_cut(*layer));
        let (opening, layer) = cut.ok_or_else(|| {
            CliError::usage(
                "--anew is for a window that is already cut, and this one is not: give the \
                 layer that is, as in --layer 1",
            )
        })?;
        Ok(Command::CutAnew(variant.id, opening.id, layer))
    }

    /// The layer that was measured, counted from the top; `None` for the innermost.
    fn layer(&self, variant: &Variant) -> Result<Option<LayerId>, CliError> {
        let Some(text) = &self.layer else { return Ok(None) };
        let layers = &variant.mat.layers;
        let at = text.trim().parse::<usize>().ok().and_then(|number| number.checked_sub(1));
        let found = at.and_then(|at| layers.get(at)).ok_or_else(|| {
            CliError::usage(format!(
                "--layer {text} is nuse one of this mat: 1 for the top one, to {} for the \
             innermost,",
                layers.len()
            ))
        })?;
        Ok(Some(found.id))
    }
}
