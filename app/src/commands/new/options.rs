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

/// From a picture and a few measures to a plan, saved beside it
#[derive(Args, Debug)]
#[command(after_help = "\
Example:
  sightedge new print.jpg --sheet 13x19in --image 11x15 --outer 20x26 --reveal 1/4 --optical")]
pub(in crate::commands) struct New {
    // The first field: it looks at options that the fields below it take away.
    #[command(flatten)]
    pub(super) typed: AsTyped,
    /// The picture; it stays as it is
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
    /// The paper; without it, pixels and resolution of the picture
    #[arg(long, value_name = "WxH")]
    pub(super) sheet: Option<Measure>,
    /// The printed area, or one side of it: W alone, or xH; the other follows
    /// by the picture's proportion; without it, the whole sheet
    #[arg(long, value_name = "WxH", verbatim_doc_comment)]
    pub(super) image: Option<Measure>,
    /// Its place from the sheet's top left; without it, centred
    #[arg(long, value_name = "X,Y")]
    pub(super) image_at: Option<Measure>,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "The window (of the innermost layer)")]
pub(super) struct Window {
    /// How far the mat lies on the sheet; without it, 1/8 in or 3 mm
    #[arg(long, value_name = "L|T,R,B,L", conflicts_with = "reveal")]
    pub(super) overlap: Option<Measure>,
    /// Or: paper shown round the image; negative where image is covered
    #[arg(long, value_name = "L|T,R,B,L")]
    pub(super) reveal: Option<Measure>,
}

#[derive(Args, Debug)]
#[command(
    next_help_heading = "The board (without a size or borders, the smallest standard size \
                               with 2 in or 50 mm all\nround and even borders; for squares and \
                               panoramas, a size of its own)"
)]
pub(super) struct Board {
    /// Its size, with one of the four places of the window below
    #[arg(long, value_name = "WxH")]
    pub(super) outer: Option<Measure>,
    /// The window in the middle (the usual)
    #[arg(long, group = "placement")]
    centred: bool,
    /// The bottom border wider than the top by this
    #[arg(long, value_name = "L", group = "placement")]
    pub(super) bottom_extra: Option<Measure>,
    /// Bottom to top, as in 6:5
    #[arg(long, value_name = "B:T", group = "placement", value_parser = Read(ratio))]
    pub(super) bottom_ratio: Option<Weight>,
    /// At the optical centre
    #[arg(long, group = "placement")]
    pub(super) optical: bool,
    /// Or: the top mat's borders (one length for all four)
    #[arg(
        long,
        value_name = "T,R,B,L",
        conflicts_with_all = ["outer", "centred", "bottom_extra", "bottom_ratio", "optical"]
    )]
    pub(super) border: Option<Measure>,
    /// Or, with --outer: a mat in hand, as measured
    #[arg(long, value_name = "WxH", conflicts_with_all = ["border", "overlap", "reveal"])]
    pub(super) window: Option<Measure>,
    /// One to three undermats, each by its offset from the layer above
    #[arg(long, value_name = "L[,L[,L]]")]
    pub(super) undermat: Option<Measure>,
    /// Of every layer; without it, .060 in or 1.4 mm
    #[arg(long, value_name = "L")]
    pub(super) thickness: Option<Measure>,
    /// Hold the borders to the exhibition rule
    #[arg(long)]
    pub(super) exhibition: bool,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "Behind the mat (all of it may be left open)")]
pub(super) struct Assembly {
    /// A paper of the tables, yours or the program's, or any other
    #[arg(long, value_name = "NAME")]
    pub(super) paper: Option<String>,
    /// How the picture was made: inkjet, silver, darkroom-colour, pressed ...
    #[arg(long, value_name = "NAME", value_parser = Read(process))]
    pub(super) process: Option<Process>,
    /// How it grows along its grain, in % per % RH
    #[arg(long, value_name = "C", value_parser = Read(rate))]
    pub(super) along: Option<Rate>,
    /// And across its grain
    #[arg(long, value_name = "C", value_parser = Read(rate))]
    pub(super) across: Option<Rate>,
    /// The way its grain runs
    #[arg(long, value_name = "width|height", value_parser = Read(grain))]
    pub(super) grain: Option<Grain>,
    /// The humidity of the room where it is hinged, in %
    #[arg(long, value_name = "RH", value_parser = Read(humidity))]
    pub(super) hinged_at: Option<Humidity>,
    /// The driest and the dampest where it will hang
    #[arg(long, value_name = "A..B", value_parser = Read(hangs))]
    pub(super) hangs_at: Option<Hangs>,
    /// Middles of the hinges from the sheet's left edge, seen from the front;
    /// the first one holds the place, the others hang loose
    #[arg(long, value_name = "X[,X..]", verbatim_doc_comment)]
    pub(super) hinge_at: Option<Measure>,
    /// t, v, pass-through, corners or strips; without it, the program chooses
    #[arg(long, value_name = "KIND", value_parser = Read(kind))]
    pub(super) hinge_kind: Option<HingeKind>,
    /// A hinge tissue or tape of the tables
    #[arg(long, value_name = "NAME")]
    pub(super) tissue: Option<String>,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "The frame and the wall")]
#[expect(clippy::struct_field_names, reason = "fields are called as their options are")]
pub(super) struct Frame {
    /// Of a frame in hand; it gives the outer size, unless --outer does
    #[arg(long, value_name = "WxH", conflicts_with = "border")]
    pub(super) rabbet: Option<Measure>,
    /// Rabbet less contents, both sides together; without it, 1/8 in or 3 mm
    #[arg(long, value_name = "L")]
    pub(super) allowance: Option<Measure>,
    /// A moulding of the tables, or any other
    #[arg(long, value_name = "NAME")]
    pub(super) frame: Option<String>,
    /// Of the tables; without it, acrylic of 1/8 in
    #[arg(long, value_name = "NAME")]
    pub(super) glazing: Option<String>,
    /// Or, without a frame: the bag it goes into, inside
    #[arg(long, value_name = "WxH", conflicts_with_all = ["frame", "rabbet"])]
    pub(super) bag: Option<Measure>,
    /// Weighed: 5.9kg, 13lb or 2lb3oz; without it, from the layers
    #[arg(long, value_name = "M")]
    pub(super) mass: Option<String>,
    /// From ring to ring
    #[arg(long, value_name = "L")]
    pub(super) rings: Option<Measure>,
    /// How far the pulled-up wire stands above the rings
    #[arg(long, value_name = "L")]
    pub(super) rise: Option<Measure>,
    /// 1, or 2 that far apart; without it, half of what the rings are apart
    #[arg(long, value_name = "N[,L]")]
    pub(super) hooks: Option<Measure>,
    /// From the frame's top down to the rings
    #[arg(long, value_name = "L")]
    pub(super) rings_below: Option<Measure>,
    /// The frame from outside
    #[arg(long, value_name = "WxH")]
    pub(super) frame_size: Option<Measure>,
    /// The picture's middle above the floor; without it, 60 in or 1450 mm
    #[arg(long, value_name = "L")]
    pub(super) centre_height: Option<Measure>,
}

#[derive(Args, Debug)]
#[command(next_help_heading = "The plan")]
pub(super) struct Plan {
    /// What bare numbers mean
    #[arg(long, value_name = "in|mm", value_parser = Read(unit))]
    pub(super) unit: Option<Unit>,
    /// What bare weights mean, and what all are shown in; without it, as the unit
    #[arg(long, value_name = "lb|g", value_parser = Read(weights))]
    pub(super) weights: Option<Weights>,
    /// The maker's ruler: 8, 16, 32 or 64 parts of an inch; 1, 2, 5 or 10 of a mm
    #[arg(long, value_name = "N")]
    pub(super) ruler: Option<String>,
    /// Elsewhere than beside the picture
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
                "--glazing needs --frame or --rabbet beside it: a piece without a frame is bagged",
            ));
        }
        if allowance.is_some() && !framed {
            return Err(CliError::usage(
                "--allowance needs --rabbet or --frame beside it: it is how much smaller than \
                 the rabbet the contents are",
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
        format!("--{name} \"{text}\" is no ratio: bottom to top is wanted, as in 6:5")
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
        format!("--{name} \"{text}\" is not known: use width or height, the way the grain runs")
    })
}

fn hangs(name: &str, text: &str) -> Result<Hangs, String> {
    let range = text.split_once("..").and_then(|(dry, damp)| {
        let (dry, damp) = (Humidity::read(dry)?, Humidity::read(damp)?);
        (dry <= damp).then_some(Hangs { dry, damp })
    });
    range.ok_or_else(|| {
        format!(
            "--{name} \"{text}\" is no range: the driest and the dampest are wanted, as in \
             --{name} 30..60"
        )
    })
}
