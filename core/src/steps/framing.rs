//! The figures of framing and hanging.

use crate::geometry::Size;
use crate::hinges::to_tear;
use crate::length::{Length, Round, Unit};
use crate::package::{Framed, Hung, Packed, Part};
use crate::spec::{Hanging, Hooks};

use super::fill::Figures;
use super::formatter::Formatter;

/// One figure for an inch plan and one for a metric one.
const fn by_unit(unit: Unit, inch: Length, metric: Length) -> Length {
    match unit {
        Unit::Inch => inch,
        Unit::Millimetre => metric,
    }
}

/// The outer points from the corners. Source: common practice (1 to 2 in).
const fn point_corner(unit: Unit) -> Length {
    by_unit(unit, Length::inches(2, 0, 1), Length::mm(50))
}

/// The most between two points. Source: common practice (3 to 4 in).
const fn point_gap(unit: Unit) -> Length {
    by_unit(unit, Length::inches(4, 0, 1), Length::mm(100))
}

/// The dust cover within the frame's outer edges. Source: common practice.
const fn cover_inset(unit: Unit) -> Length {
    by_unit(unit, Length::inches(0, 1, 8), Length::mm(3))
}

/// Of wire at each end, to go twice through its ring and round itself. Source: common practice.
const fn tail(unit: Unit) -> Length {
    by_unit(unit, Length::inches(5, 0, 1), Length::mm(130))
}

/// How many points along a side so long.
pub fn points(side: Length, unit: Unit) -> u32 {
    let between = side - point_corner(unit) * 2;
    let mut gaps: u32 = 1;
    while point_gap(unit) * i64::from(gaps) < between && gaps < 100 {
        gaps += 1;
    }
    gaps + 1
}

/// How long a piece of wire is cut: taut over its hooks, and a tail at each end. Where the rings
/// have no place yet, `None`.
pub fn wire_length(hanging: &Hanging, unit: Unit) -> Option<Length> {
    let (apart, rise) = hanging.rings_apart.zip(hanging.rise)?;
    let between = match hanging.hooks {
        Hooks::One => Length::ZERO,
        Hooks::Two(between) => between,
    };
    let run = (apart - between).max(Length::ZERO).to_mm() / 2.0;
    let slope = Length::from_mm_nearest(run.hypot(rise.to_mm()));
    Some(slope * 2 + between + tail(unit) * 2)
}

pub(super) fn figures(
    packed: &Packed,
    hanging: &Hanging,
    to: Formatter,
    figures: &mut Figures,
) {
    figures.insert("depth", to.up(packed.depth));
    figures.insert("rabbet", to.up(packed.rabbet));
    figures.insert("mass", to.1.mass(packed.mass_g));
    let up = |size: Size| size.sides_text(|length| to.up(length));
    figures.insert("bag", packed.bag_in_words(up));
    let Some(framed) = &packed.framed else { return };
    package(packed, framed, to, figures);
    hung(packed, framed, hanging, to, figures);
}

fn package(packed: &Packed, framed: &Framed, to: Formatter, figures: &mut Figures) {
    let unit = to.unit();
    let near = |size: Size| size.sides_text(|length| to.near(length));
    let Framed { frame, glazing, outside, .. } = framed;
    figures.insert("glazing", glazing.name.clone());
    figures.insert("glass_size", near(packed.contents));
    let clean = if glazing.glass {
        let caution = "Glass: gloves and glasses, carry it on edge with both hands, two people \
                       for a large pane, never catch a falling one.";
        figures.insert("glass_caution", caution.to_owned());
        "Wipe both sides with a lint-free cloth and a little glass cleaner. Spray the cloth, never \
         the glass, and not near the picture. Let it dry."
    } else {
        "Peel off the film. Wipe both sides with a soft cloth and an antistatic cleaner made for \
         acrylic: no ammonia, no alcohol. Brush off the dust that it draws."
    };
    figures.insert("clean", clean.to_owned());
    let spacer = packed.layers.iter().find(|layer| layer.part == Part::Spacer);
    // From the back, as they are laid on each other face up.
    let stack = packed.layers.iter().rev().filter_map(|layer| match layer.part {
        Part::Glazing if spacer.is_some() => {
            Some(format!("{}, its spacers towards the mat", layer.name))
        }
        Part::Filler | Part::Glazing => Some(layer.name.clone()),
        // One piece by now.
        Part::Backing => Some("the closed mat".to_owned()),
        Part::Spacer | Part::Mat | Part::Sheet | Part::Frame => None,
    });
    let stack = stack.collect::<Vec<_>>().join(", then ");
    figures.insert("stack_back", stack);
    if let Some(spacer) = spacer {
        figures.insert("spacer", to.near(spacer.thickness));
        figures.insert("spacer_across", to.near(packed.contents.width));
    }
    figures.insert("lip", to.near(frame.lip));
    figures.insert("tape_over", to.length(frame.lip.halves().0.rounded(unit, Round::Down)));
    figures.insert("points_across", points(framed.rabbet.width, unit).to_string());
    figures.insert("points_down", points(framed.rabbet.height, unit).to_string());
    figures.insert("point_corner", to.near(point_corner(unit)));
    let inset = cover_inset(unit);
    figures.insert("cover_inset", to.near(inset));
    let cover = Size::new(outside.width - inset * 2, outside.height - inset * 2);
    figures.insert("cover", near(cover));
}

fn hung(
    packed: &Packed,
    framed: &Framed,
    hanging: &Hanging,
    to: Formatter,
    figures: &mut Figures,
) {
    figures.insert("hang_caution", packed.hung.caution());
    let unit = to.unit();
    let Hung { hooks, wire, hook_height, hook_n, factor, .. } = packed.hung;
    let Hanging { rings_apart, rise, rings_below, .. } = *hanging;
    let with = |length: Option<Length>, words: &str| {
        length.map(|length| format!(", {} {words}", to.near(length))).unwrap_or_default()
    };
    let below = rings_below.map_or_else(
        || {
            // A third down. Source: common practice.
            let third = framed.outside.height.scaled(1, 3).rounded(unit, Round::Near);
            format!(", about {} below its top, a third of its height", to.near(third))
        },
        |below| format!(", {} below its top", to.near(below)),
    );
    figures.insert(
        "rings",
        format!("Rings at the frame's sides{below}{}", with(rings_apart, "apart")),
    );
    let long = wire_length(hanging, unit).map_or_else(
        || {
            "Cut wire half as long again as the rings are apart, and run it from ring to ring"
                .to_owned()
        },
        |long| {
            format!(
                "Cut {} of wire and run it from ring to ring",
                to.length(to_tear(long, unit))
            )
        },
    );
    let mut parts =
        vec![format!("{long}{}", with(rise, "above the rings when it is pulled up"))];
    parts.extend(wire.map(|wire| {
        format!(
            "it slopes by {:.1}° and pulls with {} on each side",
            wire.angle_deg,
            to.1.force(wire.tension_n)
        )
    }));
    figures.list("wire", parts);
    let tension = wire.map_or(packed.hung.hook_n * f64::from(hooks), |wire| wire.tension_n);
    let rated = |newtons: f64| to.1.rounded(Hung::grams(newtons * factor), Round::Up);
    figures.insert("ring_rating", rated(tension));
    let count = match hanging.hooks {
        Hooks::One => "One hook".to_owned(),
        Hooks::Two(apart) => format!("{hooks} hooks, {} apart", to.near(apart)),
    };
    let height = with(hook_height, "above the floor");
    figures.insert("hooks", format!("{count}{height}"));
    figures.insert("hook_load", to.1.mass(Hung::grams(hook_n)));
    figures.insert("hook_rating", rated(hook_n));
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: derived (D): 20 in less two corners of 2 in leaves 16 in: four gaps of 4 in, five
    /// points. The wire: two slopes of 6 and 2 1/2 in, 12 in between the hooks, two tails of 5 in.
    #[test]
    fn points_and_wire() {
        let inches = |n| Length::inches(n, 0, 1);
        assert_eq!(points(inches(20), Unit::Inch), 5);
        assert_eq!(points(inches(21), Unit::Inch), 6);
        assert_eq!(points(inches(3), Unit::Inch), 2);
        let hanging = Hanging {
            rings_apart: Some(inches(24)),
            rise: Some(Length::inches(2, 1, 2)),
            hooks: Hooks::Two(inches(12)),
            ..Hanging::default()
        };
        let long = wire_length(&hanging, Unit::Inch).unwrap();
        assert_eq!(long, inches(13 + 12 + 10));
        assert_eq!(wire_length(&Hanging::default(), Unit::Inch), None);
    }
}
