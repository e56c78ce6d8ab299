//! The figures of a plan that its steps name.

use crate::derived::Derived;
use crate::geometry::{Sides, Size};
use crate::hinges::{HingePlan, mat_hinge, to_tear};
use crate::inscription::Written;
use crate::layout::{Cut, Window};
use crate::length::{Length, Unit};
use crate::package::{Hung, Packed};
use crate::spec::{Document, Front, LayerId, Mat, Variant};

use super::cut::done;
use super::fill::Figures;

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

    fn sides(self, into: &mut Figures, names: [&'static str; 4], sides: Sides<Length>) {
        for (name, (_, side)) in names.into_iter().zip(sides.each()) {
            into.insert(name, self.length(side));
        }
    }
}

/// What is written, in words: this print's own, or what one usually writes.
fn inscription_figures(document: &Document, derived: &Derived, made: &mut Figures) {
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

/// Every figure that a step may name.
pub(super) fn figures(document: &Document, variant: &Variant, derived: &Derived) -> Figures {
    let to = Words(document.unit);
    let mut made = Figures::default();
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
        cut_figures(document, mat, derived, window, &mut made);
    }

    let own = mat_hinge(&mat.behind, exact.outer);
    made.insert("mat_edge", format!("{} edge", own.edge.name()));
    made.insert("mat_gap", to.trade(own.gap));
    made.insert("mat_tape", to.trade(own.tape));
    made.insert("mat_length", to.length(to_tear(own.length, to.0)));
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

/// What is cut of a window, and what is still to be.
fn cut_figures(
    document: &Document,
    mat: &Mat,
    derived: &Derived,
    window: &Window,
    made: &mut Figures,
) {
    let to = Words(document.unit);
    let layout = &derived.layout;
    let exact = layout.exact.opening(window.id);
    let there: Vec<&Cut> = exact.into_iter().flat_map(done).collect();
    let cut = |layer: LayerId| there.iter().any(|cut| cut.layer == layer);
    let blanks = layout.bench.blanks(document.unit);
    let blanks = blanks.iter().filter(|blank| blank.opening == window.id);
    let liners = (0..).zip(blanks).skip(1).filter(|(_, blank)| !cut(blank.layer));
    let liners = liners.map(|(number, blank)| {
        let stops = blank.stuck.each();
        let stops = stops.map(|(side, stop)| format!("{} {}", side.name(), to.length(stop)));
        let stops = stops.join(", ");
        format!(
            "liner {number}, blank {}, stops from the back {stops}",
            to.size(blank.rect.size)
        )
    });
    made.list("liners", liners.collect());
    let there = there.iter().map(|cut| {
        let place = mat.layers.iter().position(|layer| layer.id == cut.layer);
        let name = match place {
            None | Some(0) => "the top mat".to_owned(),
            Some(number) => format!("liner {number}"),
        };
        format!("{name} (window {}, as measured)", to.size(cut.sight.bounds.size))
    });
    let there = there.collect::<Vec<_>>().join(", ");
    let words = if there.is_empty() { there } else { format!("Cut already: {there}.") };
    made.insert("cut", words);
}

fn hinge_figures(plan: &HingePlan, to: Words, made: &mut Figures) {
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

fn package_figures(packed: &Packed, to: Words, made: &mut Figures) {
    made.insert("depth", to.length(packed.depth));
    made.insert("rabbet", to.length(packed.rabbet));
    made.insert("mass", format!("{:.0} g", packed.mass_g));
    made.insert("bag", to.size(packed.bag));
    let Hung { hooks, wire, hook_height, .. } = packed.hung;
    let hooks = if hooks == 1 { "One hook".to_owned() } else { format!("{hooks} hooks") };
    let height = hook_height
        .map_or(String::new(), |height| format!(" {} above the floor", to.length(height)));
    let mut hanging = vec![format!("{hooks}{height}")];
    hanging.extend(wire.map(|wire| {
        format!(
            "the wire stands at {:.1}° and is pulled by {:.1} N on each side",
            wire.angle_deg, wire.tension_n
        )
    }));
    if let Some(last) = hanging.last_mut() {
        last.push('.');
    }
    made.list("hanging", hanging);
    if let Some(framed) = &packed.framed {
        made.insert("glazing", framed.glazing.name.clone());
        if framed.glazing.glass {
            let caution = "Glass: gloves and glasses, carry it upright with both hands, two \
                           people for a large pane, never catch a falling one.";
            made.insert("glass_caution", caution.to_owned());
        }
    }
}
