//! The steps at the bench, from the template in the tables and the figures of this very plan;
//! each can be ticked, and the ticks are kept in the plan's log.

use std::collections::BTreeMap;

use crate::derived::Derived;
use crate::geometry::{Sides, Size};
use crate::hinges::{HingePlan, mat_hinge};
use crate::inscription::Written;
use crate::length::{Length, Unit};
use crate::material::{StepRow, Tables};
use crate::package::{Hung, Packed};
use crate::spec::{Document, Entry, EntryKind, Front, HingeKind, Variant, VariantId};

/// One step with its figures filled in.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Step {
    /// Its id in the template.
    pub id: String,
    /// From 1.
    pub number: u32,
    /// In a few words.
    pub title: String,
    /// What is done.
    pub text: String,
    /// What to beware of.
    pub cautions: Vec<String>,
    /// Whether it was ticked.
    pub done: bool,
}

/// The steps for one variant.
pub fn steps(
    document: &Document,
    variant: &Variant,
    derived: &Derived,
    tables: &Tables,
) -> Vec<Step> {
    let figures = figures(document, variant, derived);
    let rows = tables.steps.iter().filter(|row| applies(row, variant, derived));
    (1..)
        .zip(rows)
        .map(|(number, row)| Step {
            id: row.id.clone(),
            number,
            title: filled(&row.title, &figures),
            text: filled(&row.text, &figures),
            cautions: row
                .cautions
                .iter()
                .map(|caution| filled(caution, &figures))
                .filter(|caution| !caution.is_empty())
                .collect(),
            done: is_ticked(document, variant.id, &row.id),
        })
        .collect()
}

/// How a tick is written in the log.
fn mark(variant: VariantId, step: &str) -> String {
    format!("{variant}/{step}")
}

/// Whether a step was ticked.
pub fn is_ticked(document: &Document, variant: VariantId, step: &str) -> bool {
    let mark = mark(variant, step);
    document.log.iter().any(|entry| entry.kind == EntryKind::Tick && entry.text == mark)
}

/// The log entry that ticks a step; `when` as the log has it.
pub fn tick(variant: VariantId, step: &str, when: &str) -> Entry {
    Entry { when: when.to_owned(), kind: EntryKind::Tick, text: mark(variant, step) }
}

/// Takes a step's ticks back.
pub fn untick(log: &mut Vec<Entry>, variant: VariantId, step: &str) {
    let mark = mark(variant, step);
    log.retain(|entry| entry.kind != EntryKind::Tick || entry.text != mark);
}

fn applies(row: &StepRow, variant: &Variant, derived: &Derived) -> bool {
    let behind = &variant.mat.behind;
    let kinds = || derived.behind.sheets.iter().map(|sheet| &sheet.hinges);
    let to_cut = !derived.layout.in_hand;
    match row.when.as_str() {
        "never" => false,
        "to-cut" => to_cut,
        "liners-to-cut" => to_cut && variant.mat.layers.len() > 1,
        "hinged" => kinds().any(|plan| plan.kind.sticks()),
        "yielding" => kinds().any(|plan| {
            plan.kind == HingeKind::T && plan.hinges.iter().any(|hinge| !hinge.locates)
        }),
        "corners" => kinds().any(|plan| plan.kind == HingeKind::Corners),
        "strips" => kinds().any(|plan| plan.kind == HingeKind::Strips),
        "glued" => behind.corners_glued.is_some(),
        "framed" => behind.framed(),
        "unframed" => !behind.framed(),
        _ => true,
    }
}

/// `{name}` replaced by its figure; what has none is left out.
fn filled(text: &str, figures: &BTreeMap<&'static str, String>) -> String {
    let mut made = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        made.push_str(before);
        let Some((name, behind)) = after.split_once('}') else {
            rest = after;
            continue;
        };
        made.push_str(figures.get(name).map_or("", String::as_str));
        rest = behind;
    }
    made.push_str(rest);
    made
}

/// Writes lengths in the plan's unit.
#[derive(Clone, Copy)]
struct Words(Unit);

impl Words {
    fn length(self, length: Length) -> String {
        length.text(self.0)
    }

    /// A length that a figure of the trade may have given, in that one's unit.
    fn trade(self, length: Length) -> String {
        length.in_words(self.0)
    }

    fn size(self, size: Size) -> String {
        format!("{} × {}", self.length(size.width), self.length(size.height))
    }

    fn sides(
        self,
        into: &mut BTreeMap<&'static str, String>,
        names: [&'static str; 4],
        sides: Sides<Length>,
    ) {
        for (name, (_, side)) in names.into_iter().zip(sides.each()) {
            into.insert(name, self.length(side));
        }
    }
}

/// What is written, in words: this print's own, or what one usually writes.
fn inscription_figures(
    document: &Document,
    derived: &Derived,
    made: &mut BTreeMap<&'static str, String>,
) {
    // Quoted, for it is copied letter by letter.
    let told = |one: &Written| match (one.text.as_str(), one.sign) {
        ("", _) => "(sign)".to_owned(),
        (text, true) => format!("“{text}” (sign)"),
        (text, false) => format!("“{text}”"),
    };
    let (mut behind, mut words, mut signing) = (
        "behind the margin where there is one",
        "title, © year, name, number and signature".to_owned(),
        "Where the mat itself is signed: now, after it is fixed, lower right, in pencil."
            .to_owned(),
    );
    if let Some(inscription) = &derived.inscription {
        behind =
            if inscription.behind_image { "behind the image" } else { "behind the margin" };
        if !inscription.back.is_empty() {
            words = inscription.back.iter().map(told).collect::<Vec<_>>().join(" / ");
        }
        let front = document.inscribed.as_ref().map(|inscribed| inscribed.wish.front);
        let lines = inscription.front.iter().map(told).collect::<Vec<_>>().join(" / ");
        signing = match front {
            Some(Front::Mat) => format!(
                "At the lower right of the mat, now that it is fixed, in pencil: {lines}."
            ),
            Some(Front::Margin) => {
                format!("Nothing on the mat. In the margin under the picture stands: {lines}.")
            }
            Some(Front::Nothing) | None => "Nothing is written on the front.".to_owned(),
        };
    }
    made.insert("behind", behind.to_owned());
    made.insert("words", words);
    made.insert("signing", signing);
}

fn figures(
    document: &Document,
    variant: &Variant,
    derived: &Derived,
) -> BTreeMap<&'static str, String> {
    let to = Words(document.unit);
    let mut made = BTreeMap::new();
    let Variant { mat, .. } = variant;
    let paper = mat.behind.paper.as_ref();
    let writing = match paper.map(|paper| paper.pencil) {
        Some(true) => "a soft pencil (2B), light pressure",
        Some(false) => "a film-marking pen, for this paper takes pencil badly",
        None => {
            "a soft pencil (2B), light pressure, or a film-marking pen on resin-coated paper"
        }
    };
    made.insert("writing", writing.to_owned());
    inscription_figures(document, derived, &mut made);

    let (bench, exact) = (&derived.layout.bench, &derived.layout.exact);
    made.insert("outer", to.size(bench.outer));
    if let Some(window) = bench.openings.first() {
        // What is cut in the top board, not what shows in the end: its liners come after it.
        let cut = window.top().map_or(window.sight.size, |top| top.sight.bounds.size);
        made.insert("window", to.size(cut));
        let overlaps = ["overlap_top", "overlap_right", "overlap_bottom", "overlap_left"];
        to.sides(&mut made, overlaps, window.overlap);
        let within = window.sheet.within(crate::geometry::Rect::at_origin(bench.outer));
        made.insert("sheet_left", to.length(within.left));
        made.insert("sheet_top", to.length(within.top));
        if let Some(top) = window.top() {
            let stops = ["stop_top", "stop_right", "stop_bottom", "stop_left"];
            to.sides(&mut made, stops, top.borders.from_the_back());
        }
        let blanks = bench.blanks(document.unit);
        let liners: Vec<String> = (0..)
            .zip(blanks.iter().filter(|blank| blank.opening == window.id))
            .skip(1)
            .map(|(number, blank)| {
                let stops = blank.stuck.each();
                let stops =
                    stops.map(|(side, stop)| format!("{} {}", side.name(), to.length(stop)));
                let stops = stops.join(", ");
                format!("liner {number}, blank {}, stops {stops}", to.size(blank.rect.size))
            })
            .collect();
        made.insert("liners", liners.join("; "));
    }

    let own = mat_hinge(&mat.behind, exact.outer);
    made.insert("mat_edge", format!("{} edge", own.edge.name()));
    made.insert("mat_gap", to.trade(own.gap));
    made.insert("mat_tape", to.trade(own.tape));
    made.insert("mat_length", to.length(own.length));
    made.insert("glue", to.trade(mat.behind.corners_glued.unwrap_or_default()));
    if let Some(sheet) = derived.behind.sheets.first() {
        hinge_figures(&sheet.hinges, to, &mut made);
    }
    let tissue = mat.behind.hinging.tissue.as_ref();
    let tissue = tissue.map_or("a tissue weaker than the sheet", |tissue| &tissue.name);
    made.insert("tissue", tissue.to_owned());
    if let Some(packed) = &derived.behind.package {
        package_figures(packed, to, &mut made);
    }
    made
}

fn hinge_figures(plan: &HingePlan, to: Words, made: &mut BTreeMap<&'static str, String>) {
    made.insert("count", plan.hinges.len().to_string());
    made.insert("kind", plan.kind.name().to_owned());
    made.insert("reach", to.trade(plan.reach));
    made.insert("slack", to.trade(plan.slack));
    let places: Vec<String> = plan.hinges.iter().map(|hinge| to.length(hinge.x)).collect();
    made.insert("places", places.join(", "));
    if let Some(first) = plan.locating().or(plan.hinges.first()) {
        made.insert("tab_width", to.trade(first.width));
        made.insert("hold", to.trade(first.hold));
        made.insert("gap", to.trade(first.gap));
        made.insert("locating", to.length(first.x));
        if let Some(other) = plan.hinges.iter().find(|hinge| !hinge.locates) {
            made.insert("longer", to.trade(other.rise - first.rise));
            made.insert("rise", to.trade(other.rise));
        }
    }
}

fn package_figures(packed: &Packed, to: Words, made: &mut BTreeMap<&'static str, String>) {
    made.insert("depth", to.length(packed.depth));
    made.insert("rabbet", to.length(packed.rabbet));
    made.insert("mass", format!("{:.0} g", packed.mass_g));
    made.insert("bag", to.size(packed.bag));
    let Hung { hooks, wire, hook_height, .. } = packed.hung;
    let hooks = if hooks == 1 { "One hook".to_owned() } else { format!("{hooks} hooks") };
    let height = hook_height
        .map_or(String::new(), |height| format!(" {} above the floor", to.length(height)));
    let wire = wire.map_or(String::new(), |wire| {
        format!(
            "; the wire stands at {:.1}° and is pulled by {:.1} N on each side",
            wire.angle_deg, wire.tension_n
        )
    });
    made.insert("hanging", format!("{hooks}{height}{wire}."));
    if let Some(framed) = &packed.framed {
        made.insert("glazing", framed.glazing.name.clone());
        if framed.glazing.glass {
            let caution = "Glass: gloves and glasses, carry it upright with both hands, two \
                           people for a large pane, never catch a falling one.";
            made.insert("glass_caution", caution.to_owned());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::derived::derive;
    use crate::sample::{plain, reference};

    fn of(document: &Document) -> Vec<Step> {
        let variant = &document.variants[0];
        let derived = derive(document, variant, Tables::shipped());
        steps(document, variant, &derived, Tables::shipped())
    }

    /// Source: common practice: inscribe first, dust last, then sign the mat.
    #[test]
    fn from_the_plan() {
        let steps = of(&reference());
        let ids: Vec<_> = steps.iter().map(|step| step.id.as_str()).collect();
        assert_eq!(
            ids,
            [
                "inscribe",
                "clear",
                "cut",
                "liners",
                "hinge-mat",
                "place",
                "weight",
                "hinges",
                "yielding",
                "close",
                "dust",
                "sign",
                "weights",
                "bag"
            ]
        );
        let text = |id: &str| steps.iter().find(|step| step.id == id).unwrap().text.clone();
        assert!(text("cut").contains("window 11 7/8 in × 16 in"), "{}", text("cut"));
        assert!(
            text("cut")
                .contains("top 4 1/2 in, right 3 13/16 in, bottom 5 1/2 in, left 4 5/16 in"),
            "{}",
            text("cut")
        );
        assert!(text("liners").contains("blank 19 1/2 in × 25 1/2 in"), "{}", text("liners"));
        assert!(text("hinges").starts_with("2 T hinges, each tab 1 1/2 in wide"));
        assert!(text("yielding").contains("at 1 in holds"), "{}", text("yielding"));
        assert!(text("bag").contains("20 1/4 in × 26 1/4 in"));
        assert!(steps.iter().all(|step| !step.text.contains(['{', '}'])));
        assert!(steps.iter().zip(1..).all(|(step, number)| step.number == number));
        assert!(!steps[2].cautions.is_empty(), "blades");
    }

    #[test]
    fn a_frame_brings_its_own_steps_and_cautions() {
        let mut document = plain("8x10");
        let package = &mut document.variants[0].mat.behind.package;
        package.frame = Tables::shipped().frame("gallery-wood").cloned();
        package.glazing = Tables::shipped().glazing("glass-2").cloned();
        let steps = of(&document);
        let glaze = steps.iter().find(|step| step.id == "glaze").unwrap();
        assert!(glaze.cautions[0].starts_with("Glass: gloves"), "{glaze:?}");
        assert!(steps.iter().any(|step| step.id == "hang" && !step.cautions.is_empty()));
        assert!(steps.iter().all(|step| step.id != "bag"));
    }

    #[test]
    fn ticks_are_kept_in_the_log() {
        let mut document = reference();
        let id = document.variants[0].id;
        document.log.push(tick(id, "cut", "2026-03-02"));
        assert!(of(&document).iter().all(|step| step.done == (step.id == "cut")));
        untick(&mut document.log, id, "cut");
        assert!(of(&document).iter().all(|step| !step.done));
    }

    /// What a person's own step may name is what a plan with everything in it gives.
    #[test]
    fn every_figure_of_a_step_is_known() {
        let mut document = reference();
        let behind = &mut document.variants[0].mat.behind;
        behind.package.frame = Tables::shipped().frame("gallery-wood").cloned();
        behind.package.glazing = Tables::shipped().glazing("glass-2").cloned();
        let variant = &document.variants[0];
        let derived = derive(&document, variant, Tables::shipped());
        let mut known = StepRow::FIGURES;
        known.sort_unstable();
        let given: Vec<_> = figures(&document, variant, &derived).into_keys().collect();
        assert_eq!(given, known);
    }

    #[test]
    fn a_step_of_never_is_left_out() {
        let document = reference();
        let variant = &document.variants[0];
        let mut tables = Tables::shipped().clone();
        tables.steps[0].when = "never".to_owned();
        let derived = derive(&document, variant, &tables);
        let steps = steps(&document, variant, &derived, &tables);
        assert_eq!((steps[0].id.as_str(), steps[0].number), ("clear", 1));
    }
}
