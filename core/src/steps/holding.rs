//! The figures of what holds the sheet, kind by kind.

use crate::geometry::Size;
use crate::hinges::{Hinge, HingePlan, to_tear};
use crate::length::{Length, Unit};
use crate::material::Tissue;
use crate::spec::HingeKind;

use super::fill::Figures;
use super::formatter::Formatter;

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

pub(super) fn figures(plan: &HingePlan, to: Formatter, figures: &mut Figures) {
    figures.insert("count", plan.hinges.len().to_string());
    figures.insert("kind", plan.kind.name().to_owned());
    figures.insert("reach", to.near(plan.reach));
    figures.insert("slack", to.near(plan.slack));
    let places = |wanted: &dyn Fn(&Hinge) -> bool| {
        let wanted = plan.hinges.iter().filter(|hinge| wanted(hinge));
        wanted.map(|hinge| to.near(hinge.x)).collect::<Vec<_>>().join(", ")
    };
    figures.insert("places", places(&|_| true));
    let Some(first) = plan.locating().or(plan.hinges.first()) else { return };
    figures.insert("tab_width", to.near(first.width));
    figures.insert("hold", to.near(first.hold));
    figures.insert("gap", to.near(first.gap));
    figures.insert("locating", to.near(first.x));
    // What is torn or cut from a roll needs no more digits than a ruler has.
    let tear = |length| to.length(to_tear(length, to.unit()));
    figures.insert("slit", tear(first.width + slit_more(to.unit())));
    figures.insert("slit_below", to.near(slit_below(to.unit())));
    figures.insert("tab_long", tear(first.length));
    if first.cross_length.is_positive() {
        // On the backing's back it is as high as the tab is wide on its roll.
        let high = first.cross.map_or(first.width, |cross| cross.size.height);
        let cross = Size::new(first.cross_length, high);
        figures.insert("cross", cross.sides_text(|length| to.near(length)));
    }
    let start = if yields(plan) {
        format!("First the one at {}", to.near(first.x))
    } else {
        "For each".to_owned()
    };
    figures.insert("start", start);
    if let Some(other) = plan.hinges.iter().find(|hinge| !hinge.locates) {
        let one = plan.hinges.iter().filter(|hinge| !hinge.locates).count() == 1;
        let (who, are) = if one { ("The other", "is") } else { ("The others", "are") };
        let at = places(&|hinge| !hinge.locates);
        figures.insert("others_are", format!("{who}, at {at}, {are}"));
        figures.insert("others", at);
        figures.insert("longer", to.near(other.rise - first.rise));
        figures.insert("rise", to.near(other.rise));
        figures.insert("yield_long", tear(other.length));
        figures.insert("yield_gap", to.near(other.gap));
    }
}

/// Paste dries under it without sticking to the blotter. Source: common practice.
const WEB: &str = "a piece of non-woven polyester over and under each tab, then a blotter and a \
                   weight, until it is dry";
const RUB: &str = "rub each tab down through clean tissue";

/// What the hinges are made of, and how it sticks.
pub(super) fn sticking(
    tissue: Option<&Tissue>,
    plan: Option<&HingePlan>,
    figures: &mut Figures,
) {
    let name = tissue.map_or("a tissue weaker than the sheet", |tissue| &tissue.name);
    figures.insert("tissue", name.to_owned());
    let slip = "cover its bare adhesive with a slip of tissue";
    let hold = figures.filled("{hold}");
    let through = plan.is_some_and(|plan| plan.kind == HingeKind::PassThrough);
    let under = "Slide a blotter and a piece of non-woven polyester under the tabs on the \
                 backing's back and draw the boards back onto the bench over them; a weight above \
                 them, until they are dry.";
    let moist = "Moist hinging of valuable works belongs to a trained conservator.";
    let tape = "Pressure-sensitive tape cannot always be taken off again, and its adhesive can \
                stain: never on a valuable work.";
    let [gap, sticky, set, drying, caution] = match tissue.map(|it| it.pressure_sensitive) {
        Some(true) => [
            format!("between the two, {slip}"),
            String::new(),
            format!("{}.", sentence(RUB)),
            if through {
                "Rub the tabs down on the backing's back, then draw the boards back onto the bench."
                    .to_owned()
            } else {
                "Rub each hinge down through clean tissue.".to_owned()
            },
            tape.to_owned(),
        ],
        Some(false) => [
            "between the two, leave the tab dry".to_owned(),
            format!("Paste no more than the {hold} that the sheet is stuck to."),
            format!("{}.", sentence(WEB)),
            if through { under.to_owned() } else { format!("{}.", sentence(WEB)) },
            moist.to_owned(),
        ],
        None => [
            format!(
                "between the two, leave the tab dry or, with pressure-sensitive tape, {slip}"
            ),
            format!("With paste, paste no more than the {hold} that the sheet is stuck to."),
            format!("Paste and gummed tape: {WEB}. Pressure-sensitive tape: {RUB}."),
            if through {
                format!("Paste and gummed tape: {}", lower(under))
            } else {
                format!("Paste and gummed tape: {WEB}. Pressure-sensitive tape: {RUB}.")
            },
            format!("{moist} {tape}"),
        ],
    };
    figures.insert("gap_words", gap);
    figures.insert("sticky", sticky);
    figures.insert("set", set);
    figures.insert("drying", drying);
    figures.insert("hinge_caution", caution);
}

/// The first letter large.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

/// The first letter small.
fn lower(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_lowercase().chain(letters).collect())
}
