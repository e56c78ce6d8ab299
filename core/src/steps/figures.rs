//! The figures of a plan that its steps name.

use crate::derived::Derived;
use crate::geometry::Seen;
use crate::hinges::{mat_hinge, to_tear};
use crate::inscription::Written;
use crate::layout::{Cut, Window};
use crate::spec::{Document, Front, LayerId, Mat, Variant};

use super::cut::cut_layers;
use super::fill::Figures;
use super::formatter::Formatter;

/// What is written, in words: this print's own, or what one usually writes.
fn inscription_figures(document: &Document, derived: &Derived, figures: &mut Figures) {
    // Quoted, for it is copied letter by letter.
    let quoted = |one: &Written| match (one.text.as_str(), one.sign) {
        ("", _) => "(sign)".to_owned(),
        (text, true) => format!("“{text}” (sign)"),
        (text, false) => format!("“{text}”"),
    };
    let (mut back_place, mut words, mut signing) = (
        "behind the margin where there is one",
        "title, © year, name, number and signature".to_owned(),
        "Where the mat itself is signed: now, with the sheet fixed, lower right, in pencil."
            .to_owned(),
    );
    if let Some(inscription) = &derived.inscription {
        back_place =
            if inscription.behind_image { "behind the image" } else { "behind the margin" };
        if !inscription.back.is_empty() {
            words = inscription.back.iter().map(quoted).collect::<Vec<_>>().join(" / ");
        }
        let front = document.inscribed.as_ref().map(|inscribed| inscribed.lettering.front);
        let lines = inscription.front.iter().map(quoted).collect::<Vec<_>>().join(" / ");
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
    figures.insert("behind", back_place.to_owned());
    figures.insert("words", words);
    figures.insert("signing", signing);
}

/// Every figure that a step may name.
pub(super) fn figures(document: &Document, variant: &Variant, derived: &Derived) -> Figures {
    let to = Formatter(document.unit, document.weights());
    let mut figures = Figures::default();
    let Variant { mat, .. } = variant;
    let paper = mat.assembly.paper.as_ref();
    let writing = match paper.map(|paper| paper.pencil) {
        Some(true) => "a soft pencil (2B), light pressure",
        Some(false) => "a film-marking pen, for this paper takes pencil badly",
        None => {
            "a soft pencil (2B), light pressure, or a film-marking pen on resin-coated paper"
        }
    };
    figures.insert("writing", writing.to_owned());
    inscription_figures(document, derived, &mut figures);

    let (bench, exact) = (&derived.layout.bench, &derived.layout.exact);
    figures.insert("outer", to.size(bench.outer));
    if let Some(window) = bench.openings.first() {
        // What is cut in the top board, not what shows in the end: its undermats come after it.
        let cut = window.top().map_or(window.sight.size, |top| top.sight.bounds.size);
        figures.insert("window", to.size(cut));
        let overlaps = ["overlap_top", "overlap_right", "overlap_bottom", "overlap_left"];
        to.sides(&mut figures, overlaps, window.overlap);
        if let Some(top) = window.top() {
            let stops = ["stop_top", "stop_right", "stop_bottom", "stop_left"];
            let layer = mat.layers.first();
            let bevel = layer.map(|layer| layer.bevel).unwrap_or_default();
            let face = bevel.from_the_face();
            let seen = if face { top.borders } else { top.borders.from_the_back() };
            to.sides(&mut figures, stops, seen);
            let (lies, seen) = if face { ("up", Seen::Front) } else { ("down", Seen::Back) };
            figures.insert("cut_face", format!("face {lies}"));
            figures.insert("cut_seen", seen.words().to_owned());
            figures.insert("cut_how", super::cut::how(bevel));
        }
        cut_figures(document, mat, derived, window, &mut figures);
    }

    let own = mat_hinge(&mat.assembly, exact.outer, document.unit);
    let undermats = mat.layers.iter().skip(1).map(|layer| layer.board.thickness).sum();
    super::placing::figures(bench, &own, undermats, to, &mut figures);
    let board = mat.layers.first().map_or("", |layer| layer.board.name.as_str());
    figures.insert("board", board.to_owned());
    figures.insert("backing_board", mat.backing.board.name.clone());
    figures.insert("mat_edge", format!("{} edge", own.edge.name()));
    figures.insert("mat_gap", to.near(own.gap));
    figures.insert("mat_tape", to.near(own.tape));
    figures.insert("mat_length", to.length(to_tear(own.length, to.0)));
    figures.insert("glue", to.near(mat.assembly.corners_glued.unwrap_or_default()));
    if let Some(sheet) = derived.assembly.sheets.first() {
        super::holding::figures(&sheet.hinges, to, &mut figures);
    }
    let hinges = derived.assembly.sheets.first().map(|sheet| &sheet.hinges);
    super::holding::sticking(mat.assembly.hinging.tissue.as_ref(), hinges, &mut figures);
    if let Some(packed) = &derived.assembly.package {
        super::framing::figures(packed, &mat.assembly.hanging, to, &mut figures);
    }
    figures
}

/// What is cut of a window, and what is still to be.
fn cut_figures(
    document: &Document,
    mat: &Mat,
    derived: &Derived,
    window: &Window,
    figures: &mut Figures,
) {
    let to = Formatter(document.unit, document.weights());
    let layout = &derived.layout;
    let exact = layout.exact.opening(window.id);
    let cut_before: Vec<&Cut> = exact.into_iter().flat_map(cut_layers).collect();
    let cut = |layer: LayerId| cut_before.iter().any(|cut| cut.layer == layer);
    let blanks = layout.bench.blanks(document.unit);
    let blanks = blanks.iter().filter(|blank| blank.opening == window.id);
    let undermats = (0..).zip(blanks).skip(1).filter(|(_, blank)| !cut(blank.layer));
    super::cut::undermats(mat, undermats, to, figures);
    let cut_before = cut_before.iter().map(|cut| {
        let place = mat.layers.iter().position(|layer| layer.id == cut.layer);
        let name = match place {
            None | Some(0) => "the top mat".to_owned(),
            Some(number) => format!("undermat {number}"),
        };
        format!("{name} (window {}, as measured)", to.size(cut.sight.bounds.size))
    });
    let cut_before = cut_before.collect::<Vec<_>>().join(", ");
    let words =
        if cut_before.is_empty() { cut_before } else { format!("Cut already: {cut_before}.") };
    figures.insert("cut", words);
}
