//! What can be given of a new plan.

use std::path::PathBuf;

use clap::Args;
use sightedge_core::length::Unit;
use sightedge_core::material::{Humidity, Process, Rate};
use sightedge_core::spec::{Grain, Hangs, HingeKind, Weight};
use sightedge_core::weight::Weights;

use super::super::lengths::Measure;
use super::super::outcome::CliError;
use super::super::refusal::needs;
use super::super::typed::AsTyped;
use super::super::values::{Read, humidity, keyed, rate, unit, weights};

/// Makes a plan from a picture and a few measures, and saves it beside the picture
#[derive(Args, Debug)]
#[command(after_help = "\
Example:
  sightedge new print.jpg --sheet 13x19in --image 11x15 --outer 20x26 --reveal 1/4 --optical")]
pub(in crate::commands) struct New {
    // The first field: it looks at options that the fields below it take away.
    #[command(flatten)]
    pub(super) typed: AsTyped,
    /// The picture, which is never changed
    #[arg(value_name = "PICTURE")]
    pub(super) picture: PathBuf,
    #[command(flatten)]
    pub(super) print: Print,
    #[command(flatten)]
    pub(super) window: Window,
    #[command(flatten)]
    pub(super) board: Board,
    #[command(flatten)]
    pub(super) assembly: Assembly,
    #[command(flatten)]
    pub(super) frame: Frame,
    #[command(flatten)]
    pub(super) plan: Plan,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "The print")]
pub(super) struct Print {
    /// Size of the paper; if not given, from the picture's pixels and resolution
    #[arg(long, value_name = "WxH")]
    pub(super) sheet: Option<Measure>,
    /// Size of the printed area; W alone or xH keeps the picture's proportion;
    /// if not given, the whole sheet
    #[arg(long, value_name = "WxH", verbatim_doc_comment)]
    pub(super) image: Option<Measure>,
    /// Where the image is, from the sheet's top left; if not given, centred
    #[arg(long, value_name = "X,Y")]
    pub(super) image_at: Option<Measure>,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "The window (of the innermost layer)")]
pub(super) struct Window {
    /// How far the mat overlaps the sheet; if not given, 1/8 in or 3 mm
    #[arg(long, value_name = "L|T,R,B,L", conflicts_with = "reveal")]
    pub(super) overlap: Option<Measure>,
    /// Or: paper showing round the image; below zero, the mat covers image
    #[arg(long, value_name = "L|T,R,B,L")]
    pub(super) reveal: Option<Measure>,
}

#[derive(Args, Debug)]
#[command(
    next_help_heading = "The board (if you give no size or borders, the smallest standard size \
                               with 2 in or 50 mm all\nround and even borders; for squares and \
                               panoramas, a size of its own)"
)]
pub(super) struct Board {
    /// Size of the mat; place the window on it by one of the next four
    #[arg(long, value_name = "WxH")]
    pub(super) outer: Option<Measure>,
    /// The window in the middle (usual)
    #[arg(long, group = "placement")]
    centred: bool,
    /// How much wider the bottom border is than the top
    #[arg(long, value_name = "L", group = "placement")]
    pub(super) bottom_extra: Option<Measure>,
    /// Bottom border to top border, as in 6:5
    #[arg(long, value_name = "B:T", group = "placement", value_parser = Read(ratio))]
    pub(super) bottom_ratio: Option<Weight>,
    /// The window at the optical centre
    #[arg(long, group = "placement")]
    pub(super) optical: bool,
    /// Or: the top mat's borders, one length for all or top,right,bottom,left
    #[arg(
        long,
        value_name = "T,R,B,L",
        conflicts_with_all = ["outer", "centred", "bottom_extra", "bottom_ratio", "optical"]
    )]
    pub(super) border: Option<Measure>,
    /// Or, with --outer: the window of a mat you have, as measured
    #[arg(long, value_name = "WxH", conflicts_with_all = ["border", "overlap", "reveal"])]
    pub(super) window: Option<Measure>,
    /// One to three undermats, each by its offset from the mat above it
    #[arg(long, value_name = "L[,L[,L]]")]
    pub(super) undermat: Option<Measure>,
    /// Thickness of every mat board; if not given, .060 in or 1.4 mm
    #[arg(long, value_name = "L")]
    pub(super) thickness: Option<Measure>,
    /// Check the borders against the exhibition rule
    #[arg(long)]
    pub(super) exhibition: bool,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "Behind the mat (all of it may be left open)")]
pub(super) struct Assembly {
    /// Name of the paper, from the tables or any other
    #[arg(long, value_name = "NAME")]
    pub(super) paper: Option<String>,
    /// How the print was made: inkjet, silver, darkroom-colour, pressed ...
    #[arg(long, value_name = "NAME", value_parser = Read(process))]
    pub(super) process: Option<Process>,
    /// How much the paper grows along its grain, in % per % humidity
    #[arg(long, value_name = "C", value_parser = Read(rate))]
    pub(super) along: Option<Rate>,
    /// And how much across its grain
    #[arg(long, value_name = "C", value_parser = Read(rate))]
    pub(super) across: Option<Rate>,
    /// Which way the grain runs: width or height
    #[arg(long, value_name = "width|height", value_parser = Read(grain))]
    pub(super) grain: Option<Grain>,
    /// Humidity where you hinge it, in %
    #[arg(long, value_name = "RH", value_parser = Read(humidity))]
    pub(super) hinged_at: Option<Humidity>,
    /// Driest and dampest humidity where it will hang, as in 30..60
    #[arg(long, value_name = "A..B", value_parser = Read(hangs))]
    pub(super) hangs_at: Option<Hangs>,
    /// Where the hinges' middles are, from the sheet's left edge, seen from
    /// the front; the first one is the locating hinge, the others are loose
    #[arg(long, value_name = "X[,X..]", verbatim_doc_comment)]
    pub(super) hinge_at: Option<Measure>,
    /// t, v, pass-through, corners or strips; if not given, chosen for you
    #[arg(long, value_name = "KIND", value_parser = Read(kind))]
    pub(super) hinge_kind: Option<HingeKind>,
    /// Hinge tissue or tape, from the tables
    #[arg(long, value_name = "NAME")]
    pub(super) tissue: Option<String>,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "The frame and the wall")]
#[expect(clippy::struct_field_names, reason = "fields are called as their options are")]
pub(super) struct Frame {
    /// Rabbet of a frame you have; sets the outer size unless you give --outer
    #[arg(long, value_name = "WxH", conflicts_with = "border")]
    pub(super) rabbet: Option<Measure>,
    /// Rabbet less package, both sides together; if not given, 1/8 in or 3 mm
    #[arg(long, value_name = "L")]
    pub(super) allowance: Option<Measure>,
    /// Name of the moulding, from the tables or any other
    #[arg(long, value_name = "NAME")]
    pub(super) frame: Option<String>,
    /// Glazing, from the tables; if not given, acrylic of 1/8 in
    #[arg(long, value_name = "NAME")]
    pub(super) glazing: Option<String>,
    /// Or, without a frame: inside size of the bag
    #[arg(long, value_name = "WxH", conflicts_with_all = ["frame", "rabbet"])]
    pub(super) bag: Option<Measure>,
    /// Its weight: 5.9kg, 13lb or 2lb3oz; if not given, from the layers
    #[arg(long, value_name = "M")]
    pub(super) mass: Option<String>,
    /// Distance from ring to ring
    #[arg(long, value_name = "L")]
    pub(super) rings: Option<Measure>,
    /// How far the wire rises above the rings when pulled up
    #[arg(long, value_name = "L")]
    pub(super) rise: Option<Measure>,
    /// 1, or 2 and how far apart; if not given, half as far apart as the rings
    #[arg(long, value_name = "N[,L]")]
    pub(super) hooks: Option<Measure>,
    /// Distance from the frame's top down to the rings
    #[arg(long, value_name = "L")]
    pub(super) rings_below: Option<Measure>,
    /// Outside size of the frame
    #[arg(long, value_name = "WxH")]
    pub(super) frame_size: Option<Measure>,
    /// The picture's middle above the floor; if not given, 60 in or 1450 mm
    #[arg(long, value_name = "L")]
    pub(super) centre_height: Option<Measure>,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "The plan")]
pub(super) struct Plan {
    /// Unit of numbers without one: in or mm
    #[arg(long, value_name = "in|mm", value_parser = Read(unit))]
    pub(super) unit: Option<Unit>,
    /// Unit of weights: lb or g; if not given, it follows the unit
    #[arg(long, value_name = "lb|g", value_parser = Read(weights))]
    pub(super) weights: Option<Weights>,
    /// Your ruler: 8, 16, 32 or 64 parts of an inch; 1, 2, 5 or 10 of a mm
    #[arg(long, value_name = "N")]
    pub(super) ruler: Option<String>,
    /// Save to this file instead of beside the picture
    #[arg(long, value_name = "FILE")]
    pub(super) save: Option<PathBuf>,
    /// Write over an existing plan (the old one is kept as a backup)
    #[arg(long)]
    pub(super) replace: bool,
}

impl New {
    /// Refuses options that have a meaning only beside others.
    pub(super) fn check(&self) -> Result<(), CliError> {
        let Frame { rabbet, allowance, frame, glazing, rings, rise, .. } = &self.frame;
        let framed = rabbet.is_some() || frame.is_some();
        if glazing.is_some() && !framed {
            return Err(CliError::usage(
                "--glazing needs --frame or --rabbet too: a piece without a frame is bagged",
            ));
        }
        if allowance.is_some() && !framed {
            return Err(CliError::usage(
                "--allowance needs --rabbet or --frame too: it is how much smaller than the \
                 rabbet the package is",
            ));
        }
        let outer = self.board.outer.is_some() || rabbet.is_some();
        for (given, option, beside, other) in [
            (rise.is_some(), "rise", rings.is_some(), "rings"),
            (rings.is_some(), "rings", rise.is_some(), "rise"),
            (self.board.window.is_some(), "window", outer, "outer"),
            (self.print.image_at.is_some(), "image-at", self.print.image.is_some(), "image"),
        ] {
            if given && !beside {
                return Err(needs(option, other));
            }
        }
        Ok(())
    }
}

fn ratio(name: &str, text: &str) -> Result<Weight, String> {
    let weight = text.split_once(':').and_then(|(bottom, top)| {
        let part = |text: &str| hundredths(text).filter(|part| *part > 0);
        Some(Weight { bottom: part(bottom)?, top: part(top)? })
    });
    weight.ok_or_else(|| {
        format!("--{name} \"{text}\" is not a ratio: give bottom to top, as in 6:5")
    })
}

/// A number of at most two decimals, in hundredths.
fn hundredths(text: &str) -> Option<u32> {
    let (whole, part) = text.trim().split_once('.').unwrap_or((text.trim(), ""));
    let digits = |text: &str| text.chars().all(|c| c.is_ascii_digit());
    if whole.is_empty() || whole.len() > 5 || part.len() > 2 || !digits(whole) || !digits(part)
    {
        return None;
    }
    format!("{whole}{part:0<2}").parse().ok()
}

fn process(name: &str, text: &str) -> Result<Process, String> {
    keyed((name, text), Process::ALL, Process::key)
}

fn kind(name: &str, text: &str) -> Result<HingeKind, String> {
    keyed((name, text), HingeKind::ALL, HingeKind::key)
}

fn grain(name: &str, text: &str) -> Result<Grain, String> {
    Grain::from_key(text).ok_or_else(|| {
        format!(
            "--{name} \"{text}\" is not known: say which way the grain runs, width or \
                 height"
        )
    })
}

fn hangs(name: &str, text: &str) -> Result<Hangs, String> {
    let range = text.split_once("..").and_then(|(dry, damp)| {
        let (dry, damp) = (Humidity::read(dry)?, Humidity::read(damp)?);
        (dry <= damp).then_some(Hangs { dry, damp })
    });
    range.ok_or_else(|| {
        format!(
            "--{name} \"{text}\" is not a range: give the driest and the dampest, as in \
             --{name} 30..60"
        )
    })
}
