//! The figures of a plan that its steps name.

use crate::derived::Derived;
use crate::geometry::{Seen, Sides, Size};
use crate::hinges::{mat_hinge, to_tear};
use crate::inscription::Written;
use crate::layout::{Cut, Window};
use crate::length::{Length, Round, Unit};
use crate::package::{Hung, Packed, Part};
use crate::spec::{Document, Front, Hanging, Hooks, LayerId, Mat, Variant};
use crate::weight::Weights;

use super::cut::done;
use super::fill::Figures;

/// Writes lengths and weights as the plan has them.
#[derive(Clone, Copy)]
pub(super) struct Words(Unit, Weights);

impl Words {
    pub(super) const fn unit(self) -> Unit {
        self.0
    }

    pub(super) fn length(self, length: Length) -> String {
        length.text(self.0)
    }

    /// A length that is measured at the bench but is not on its ruler.
    pub(super) fn near(self, length: Length) -> String {
        length.near(self.0)
    }

    /// What is needed at least.
    fn up(self, length: Length) -> String {
        length.sensible(self.0, Round::Up)
    }

    pub(super) fn size(self, size: Size) -> String {
        size.sides_text(|length| self.length(length))
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
        "Where the mat itself is signed: now, with the sheet fixed, lower right, in pencil."
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
                "At the lower right of the mat, with the sheet fixed, in pencil: {lines}."
            ),
            Some(Front::Margin) => {
                format!(
                    "In the margin under the picture, with {}: {lines}.",
                    inscription.tool.with
                )
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
    let to = Words(document.unit, document.weights());
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
        if let Some(top) = window.top() {
            let stops = ["stop_top", "stop_right", "stop_bottom", "stop_left"];
            let layer = mat.layers.first();
            let bevel = layer.map(|layer| layer.bevel).unwrap_or_default();
            let face = bevel.from_the_face();
            let seen = if face { top.borders } else { top.borders.from_the_back() };
            to.sides(&mut made, stops, seen);
            let (lies, seen) = if face { ("up", Seen::Front) } else { ("down", Seen::Back) };
            made.insert("cut_face", format!("face {lies}"));
            made.insert("cut_seen", seen.words().to_owned());
            made.insert("cut_how", super::cut::how(bevel));
        }
        cut_figures(document, mat, derived, window, &mut made);
    }

    let own = mat_hinge(&mat.behind, exact.outer, document.unit);
    let liners = mat.layers.iter().skip(1).map(|layer| layer.board.thickness).sum();
    super::placing::figures(bench, &own, liners, to, &mut made);
    let board = mat.layers.first().map_or("", |layer| layer.board.name.as_str());
    made.insert("board", board.to_owned());
    made.insert("backing_board", mat.backing.board.name.clone());
    made.insert("mat_edge", format!("{} edge", own.edge.name()));
    made.insert("mat_gap", to.near(own.gap));
    made.insert("mat_tape", to.near(own.tape));
    made.insert("mat_length", to.length(to_tear(own.length, to.0)));
    made.insert("glue", to.near(mat.behind.corners_glued.unwrap_or_default()));
    if let Some(sheet) = derived.behind.sheets.first() {
        super::holding::figures(&sheet.hinges, to, &mut made);
    }
    let hinges = derived.behind.sheets.first().map(|sheet| &sheet.hinges);
    super::holding::sticking(mat.behind.hinging.tissue.as_ref(), hinges, &mut made);
    if let Some(packed) = &derived.behind.package {
        package_figures(packed, &mat.behind.hanging, to, &mut made);
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
    let to = Words(document.unit, document.weights());
    let layout = &derived.layout;
    let exact = layout.exact.opening(window.id);
    let there: Vec<&Cut> = exact.into_iter().flat_map(done).collect();
    let cut = |layer: LayerId| there.iter().any(|cut| cut.layer == layer);
    let blanks = layout.bench.blanks(document.unit);
    let blanks = blanks.iter().filter(|blank| blank.opening == window.id);
    let liners = (0..).zip(blanks).skip(1).filter(|(_, blank)| !cut(blank.layer));
    super::cut::liners(mat, liners, to, made);
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

fn package_figures(packed: &Packed, hanging: &Hanging, to: Words, made: &mut Figures) {
    made.insert("depth", to.up(packed.depth));
    made.insert("rabbet", to.up(packed.rabbet));
    made.insert("mass", to.1.mass(packed.mass_g));
    let up = |size: Size| size.sides_text(|length| to.up(length));
    made.insert("bag", packed.bag_in_words(up));
    made.insert("hang_caution", packed.hung.caution());
    let Hung { hooks, wire, hook_height, .. } = packed.hung;
    let Hanging { rings_apart, rise, rings_below, .. } = *hanging;
    let with = |length: Option<Length>, words: &str| {
        length.map(|length| format!(", {} {words}", to.near(length))).unwrap_or_default()
    };
    let rings = format!(
        "Rings at the frame's sides{}{}",
        with(rings_below, "below its top"),
        with(rings_apart, "apart")
    );
    let pulled = with(rise, "above the rings when it is pulled up");
    let hooks = match hanging.hooks {
        Hooks::One => "one hook".to_owned(),
        Hooks::Two(apart) => format!("{hooks} hooks, {} apart", to.near(apart)),
    };
    let height = with(hook_height, "above the floor");
    let mut hanging = vec![rings, format!("wire from ring to ring{pulled}")];
    hanging.push(format!("{hooks}{height}"));
    hanging.extend(wire.map(|wire| {
        format!(
            "the wire slopes by {:.1}° and pulls with {} on each side",
            wire.angle_deg,
            to.1.force(wire.tension_n)
        )
    }));
    if let Some(last) = hanging.last_mut() {
        last.push('.');
    }
    made.list("hanging", hanging);
    let stack = packed.layers.iter().filter_map(|layer| match layer.part {
        Part::Glazing | Part::Filler => Some(layer.name.as_str()),
        Part::Spacer => Some("the spacers along its edges"),
        // One piece by now.
        Part::Backing => Some("the closed mat"),
        Part::Mat | Part::Sheet | Part::Frame => None,
    });
    made.insert("stack", stack.collect::<Vec<_>>().join(", then "));
    if let Some(framed) = &packed.framed {
        made.insert("glazing", framed.glazing.name.clone());
        if framed.glazing.glass {
            let caution = "Glass: gloves and glasses, carry it upright with both hands, two \
                           people for a large pane, never catch a falling one.";
            made.insert("glass_caution", caution.to_owned());
        }
    }
}
