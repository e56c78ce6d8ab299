//! The figures of what holds the sheet, kind by kind.

use crate::hinges::{Hinge, HingePlan, to_tear};
use crate::length::{Length, Unit};
use crate::material::Tissue;

use super::figures::Words;
use super::fill::Figures;

/// A slit is this much longer than the tab that goes through it. Source: common practice.
const fn slit_more(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(0, 1, 8),
        Unit::Millimetre => Length::mm(3),
    }
}

/// A slit lies so far below the sheet's top edge, which then hides it, while the pull on the
/// tab runs along the sheet. Source: common practice.
const fn slit_below(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(0, 1, 16),
        Unit::Millimetre => Length::mm(2),
    }
}

/// Whether some hinge yields: it is longer than the one that holds the place.
pub(super) fn yields(plan: &HingePlan) -> bool {
    let gap = plan.locating().or(plan.hinges.first()).map(|hinge| hinge.gap);
    plan.hinges.iter().any(|hinge| !hinge.locates && Some(hinge.gap) > gap)
}

pub(super) fn figures(plan: &HingePlan, to: Words, made: &mut Figures) {
    made.insert("count", plan.hinges.len().to_string());
    made.insert("kind", plan.kind.name().to_owned());
    made.insert("reach", to.near(plan.reach));
    made.insert("slack", to.near(plan.slack));
    let places = |wanted: &dyn Fn(&Hinge) -> bool| {
        let wanted = plan.hinges.iter().filter(|hinge| wanted(hinge));
        wanted.map(|hinge| to.near(hinge.x)).collect::<Vec<_>>().join(", ")
    };
    made.insert("places", places(&|_| true));
    let Some(first) = plan.locating().or(plan.hinges.first()) else { return };
    made.insert("tab_width", to.near(first.width));
    made.insert("hold", to.near(first.hold));
    made.insert("gap", to.near(first.gap));
    made.insert("locating", to.near(first.x));
    // What is torn or cut from a roll needs no more digits than a ruler has.
    let tear = |length| to.length(to_tear(length, to.unit()));
    made.insert("slit", tear(first.width + slit_more(to.unit())));
    made.insert("slit_below", to.near(slit_below(to.unit())));
    made.insert("tab_long", tear(first.hold + first.rise));
    if let Some(cross) = first.cross {
        let wide = to.near(cross.size.width);
        made.insert("cross", format!("{wide} × {}", to.near(cross.size.height)));
    }
    let start = if yields(plan) {
        format!("First the one at {}", to.near(first.x))
    } else {
        "For each".to_owned()
    };
    made.insert("start", start);
    if let Some(other) = plan.hinges.iter().find(|hinge| !hinge.locates) {
        made.insert("others", places(&|hinge| !hinge.locates));
        made.insert("longer", to.near(other.rise - first.rise));
        made.insert("rise", to.near(other.rise));
        made.insert("yield_long", tear(other.hold + other.rise));
        made.insert("yield_gap", to.near(other.gap));
    }
}

/// What the hinges are made of, and how it sticks.
pub(super) fn sticking(tissue: Option<&Tissue>, made: &mut Figures) {
    let name = tissue.map_or("a tissue weaker than the sheet", |tissue| &tissue.name);
    made.insert("tissue", name.to_owned());
    let slip = "cover its bare adhesive with a slip of tissue";
    let (gap, drying) = match tissue.map(|tissue| tissue.pressure_sensitive) {
        Some(true) => {
            (format!("between the two, {slip}"), "Rub each hinge down through clean tissue.")
        }
        Some(false) => (
            "between the two, leave the tab dry".to_owned(),
            "A blotter and a weight on each hinge until it is dry.",
        ),
        None => (
            format!(
                "between the two, leave the tab dry or, with pressure-sensitive tape, {slip}"
            ),
            "Paste and gummed tape: a blotter and a weight on each hinge until it is dry. \
             Pressure-sensitive tape: rub it down through clean tissue.",
        ),
    };
    made.insert("gap_words", gap);
    made.insert("drying", drying.to_owned());
}
