//! Which layers are cut already, and how the others are cut.

use super::fill::Figures;
use super::formatter::Formatter;
use crate::geometry::Sides;
use crate::layout::{Blank, Cut, Layout, Window};
use crate::length::Length;
use crate::spec::{Bevel, Mat};

/// Whether a window of that layer, counted from the top, is still to be cut.
pub(super) fn is_uncut(mat: &Mat, layout: &Layout, layer: usize) -> bool {
    mat.openings.iter().any(|opening| {
        let window = layout.exact.opening(opening.id);
        let cut = window.and_then(|window| window.layers.get(layer));
        cut.is_none_or(|cut| !cut.done)
    })
}

/// The layers of a window that are cut, from the top.
pub(super) fn cut_layers(window: &Window) -> impl Iterator<Item = &Cut> {
    window.layers.iter().filter(|cut| cut.done)
}

/// The blade's angle, and which way it leans.
pub(super) fn how(bevel: Bevel) -> String {
    let leans = match bevel {
        Bevel::Straight => "",
        Bevel::Open(_) | Bevel::Reverse(_) => ", the blade leaning away from the window",
    };
    format!("{}{leans}", bevel.name())
}

/// The stops of a cutter, side by side.
fn stops(stops: Sides<Length>, to: Formatter) -> String {
    let stops = stops.each();
    stops.map(|(side, stop)| format!("{} {}", side.name(), to.length(stop))).join(", ")
}

/// How the undermats that are still to be cut are cut, by their number from 1: those that are stuck
/// on first, and those with a reverse bevel, whose face is out of reach once they are stuck.
pub(super) fn undermats<'a>(
    mat: &Mat,
    undermats: impl Iterator<Item = (usize, &'a Blank)>,
    to: Formatter,
    made: &mut Figures,
) {
    let (mut stuck, mut loose, mut face) = (Vec::new(), Vec::new(), Vec::new());
    for (number, blank) in undermats {
        let layer = mat.layer(blank.layer);
        let bevel = layer.map(|layer| layer.bevel).unwrap_or_default();
        let board = layer.map_or("", |layer| layer.board.name.as_str());
        let size = to.size(blank.rect.size);
        let inside = format!(
            "{} inside the top mat's edges on every side",
            to.length(blank.rect.left())
        );
        let cut = how(bevel);
        if bevel.from_the_face() {
            // What the back calls left is the front's right.
            let stops = stops(blank.loose.from_the_back(), to);
            face.push(format!(
                "undermat {number} ({board}), blank {size}, {cut}, stops from the front and from \
                 its own edge: {stops}; stuck on, it lies {inside}"
            ));
        } else {
            let by_edge = stops(blank.stuck, to);
            stuck.push(format!(
                "undermat {number} ({board}), blank {size}, {inside}, {cut}, stops {by_edge}"
            ));
            loose.push(format!("undermat {number}, {}", stops(blank.loose, to)));
        }
    }
    let drop_out = "put the drop-out of the layer above back into its window and tape it there \
                    from the back, clear of the sight edge";
    let when = |some: bool, words: String| if some { words } else { String::new() };
    let some = !stuck.is_empty();
    made.insert(
        "stick",
        when(
            some,
            format!(
                "For each undermat in turn: {drop_out}; stick the undermat's blank, face down, to that \
                 back with double-sided tape; then cut its window:"
            ),
        ),
    );
    made.insert(
        "stuck_stops",
        when(some, "These stops are from the back and run from the top mat's edge.".to_owned()),
    );
    made.insert(
        "loose_stops",
        when(
            some,
            format!(
                "Where an undermat is cut loose and stuck on afterwards, its stops run from its own \
                 edge: {}.",
                loose.join("; ")
            ),
        ),
    );
    made.insert(
        "face_first",
        when(
            !face.is_empty(),
            "An undermat with a reverse bevel cannot be cut from its face once it is stuck. Cut it \
             loose, face up in the cutter, its head away from you; then, in its turn, stick it, \
             face down, to the back of the layer above with double-sided tape:"
                .to_owned(),
        ),
    );
    made.list("undermats", stuck);
    made.list("undermats_loose", loose);
    made.list("undermats_face", face);
}
