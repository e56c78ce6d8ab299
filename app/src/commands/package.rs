//! `sightedge package`: the stack of layers, the frame, the mass, the wall.

use clap::Args;
use serde_json::{Value, json};
use sightedge_core::geometry::{Seen, Size};
use sightedge_core::length::{Length, Round, Unit};
use sightedge_core::package::{Hung, Layer, Packed, Part};
use sightedge_core::weight::Weights;

use super::hinges::four;
use super::outcome::CliError;
use super::plans::{Plans, Told};
use super::{Exit, Streams};

/// What goes into the frame, and how it hangs: layers, depth, weight, wire, hooks
#[derive(Args, Debug)]
#[command(after_help = "\
Hanging: use two hooks, and hardware rated for the wall and the weight. Heavy or public work
follows local codes and a licensed installer; some places require laminated glass.

In the JSON, rabbet_mm is the least depth of rabbet, with room for points and dust cover.

Examples:
  sightedge package print.jpg
  sightedge package shows/spring --json")]
pub(super) struct Package {
    /// As JSON, for other programs
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    plans: Plans,
}

impl Package {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        self.plans.each(self.json, streams, |plan, streams| {
            let derived = plan.derived();
            let Some(packed) = &derived.assembly.package else {
                let plan = plan.path.display();
                return Err(CliError::unreadable(format!("{plan} has no mat: add one first")));
            };
            if self.json {
                return Ok(Told::done(to_json(packed)));
            }
            in_words(packed, plan.document.unit, plan.document.weights(), streams)?;
            Ok(Told::done(Value::Null))
        })
    }
}

const fn part(part: Part) -> &'static str {
    match part {
        Part::Glazing => "glazing",
        Part::Spacer => "spacer",
        Part::Mat => "mat",
        Part::Sheet => "sheet",
        Part::Backing => "backing",
        Part::Filler => "filler",
        Part::Frame => "frame",
    }
}

fn extent(size: Size) -> Value {
    json!({ "width_mm": size.width.to_mm(), "height_mm": size.height.to_mm() })
}

fn to_json(packed: &Packed) -> Value {
    let layers = packed.layers.iter().map(|layer| {
        json!({
            "part": part(layer.part),
            "name": layer.name,
            "thickness_mm": layer.thickness.to_mm(),
            "mass_g": layer.mass_g,
        })
    });
    let frame = packed.framed.as_ref().map(|framed| {
        let (least, most) = framed.hidden_sideways;
        json!({
            "name": framed.frame.name,
            "origin": framed.frame.origin,
            "rabbet": extent(framed.rabbet),
            "rabbet_depth_mm": framed.frame.rabbet_depth.map(Length::to_mm),
            "lip_mm": framed.frame.lip.to_mm(),
            "outside": extent(framed.outside),
            "allowance_mm": framed.allowance.to_mm(),
            "play": extent(framed.play),
            "hidden": four(framed.hidden),
            "hidden_sideways": { "least_mm": least.to_mm(), "most_mm": most.to_mm() },
            "glazing": framed.glazing.name,
        })
    });
    let hung = &packed.hung;
    json!({
        "depth_mm": packed.depth.to_mm(),
        "rabbet_mm": packed.rabbet.to_mm(),
        "mass_g": packed.mass_g,
        "weighed": packed.weighed,
        "layers": layers.collect::<Vec<_>>(),
        "contents": extent(packed.contents),
        "frame": frame,
        "air_mm": packed.air.to_mm(),
        "visible_border": four(packed.visible_border),
        "hanging": {
            "hooks": hung.hooks,
            "angle_deg": hung.wire.map(|wire| wire.angle_deg),
            "tension_n": hung.wire.map(|wire| wire.tension_n),
            "hook_n": hung.hook_n,
            "hook_height_mm": hung.hook_height.map(Length::to_mm),
            "centre_height_mm": hung.centre.to_mm(),
            "factor": hung.factor,
        },
        "bag": extent(packed.bag),
    })
}

fn size(size: Size, unit: Unit, way: Round) -> String {
    size.sides_text(|length| length.sensible(unit, way))
}

/// How thick a layer is; `None` for a sheet whose paper is not named.
fn known(layer: &Layer) -> Option<Length> {
    Some(layer.thickness).filter(|it| layer.part != Part::Sheet || it.is_positive())
}

fn in_words(
    packed: &Packed,
    unit: Unit,
    weights: Weights,
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    let out = &mut *streams.out;
    writeln!(out, "From the front")?;
    for layer in &packed.layers {
        writeln!(
            out,
            "  {:<10}{:<36}{:>12}{:>11}",
            part(layer.part),
            layer.name,
            known(layer).map_or("unknown".to_owned(), |it| it.thickness(unit)),
            weights.mass(layer.mass_g)
        )?;
    }
    if packed.layers.iter().any(|layer| known(layer).is_none()) {
        writeln!(
            out,
            "  The sheet's thickness is unknown, so it is left out of what follows."
        )?;
    }
    let how = if packed.weighed { "as weighed" } else { "from the layers" };
    writeln!(out, "  weight                    {}, {how}", weights.mass(packed.mass_g))?;
    writeln!(out, "  depth                     {}", packed.depth.sensible(unit, Round::Up))?;
    writeln!(
        out,
        "  needs a rabbet at least   {} deep, with room for points and dust cover",
        packed.rabbet.sensible(unit, Round::Up)
    )?;
    let seen = packed.visible_border.each();
    let seen = seen.map(|(side, length)| format!("{} {}", side.name(), length.near(unit)));
    let from = Seen::Front.words();
    writeln!(out, "  top mat border showing    {}, {from}", seen.join(", "))?;
    if let Some(framed) = &packed.framed {
        writeln!(out, "  frame                     {}", framed.frame.name)?;
        writeln!(
            out,
            "  rabbet                    {}",
            size(framed.rabbet, unit, Round::Near)
        )?;
        writeln!(
            out,
            "  package                   {}",
            size(packed.contents, unit, Round::Near)
        )?;
        writeln!(
            out,
            "  frame, outside            {}",
            size(framed.outside, unit, Round::Near)
        )?;
    } else {
        writeln!(
            out,
            "  matted, not framed; bag   {}",
            packed.bag_in_words(|one| size(one, unit, Round::Up))
        )?;
    }
    let hung = &packed.hung;
    if let Some(wire) = hung.wire {
        writeln!(
            out,
            "  wire                      {:.1}°, {} on each side; use parts rated for {} \
             times that, {}",
            wire.angle_deg,
            weights.force(wire.tension_n),
            hung.factor,
            weights.mass(Hung::grams(wire.tension_n) * hung.factor)
        )?;
    }
    if let Some(height) = hung.hook_height {
        writeln!(out, "  hooks above the floor     {}", height.near(unit))?;
    }
    if packed.framed.is_some() || hung.wire.is_some() {
        writeln!(out, "  {}", hung.caution())?;
    }
    Ok(())
}
