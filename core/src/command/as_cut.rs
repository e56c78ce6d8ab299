//! A miscut is recorded as cut, and everything after it follows from the real window.

use super::{Command, apply};
use crate::geometry::{Point, Rect, Sides, Size};
use crate::layout::layout;
use crate::length::Length;
use crate::spec::{
    Came, Document, Fixing, InHand, LayerId, Meets, OpeningId, Placement, VariantId,
};

/// A board and a window as measured after cutting.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Measured {
    /// The board; `None` where it came out as planned.
    pub outer: Option<Size>,
    /// The layer that was measured; `None`: the innermost, all of them being cut.
    pub layer: Option<LayerId>,
    /// Its sight edge.
    pub sight: Size,
    /// From the board's left edge to it.
    pub left: Length,
    /// From the board's top edge to it.
    pub top: Length,
}

impl Measured {
    /// Whether that window can have been cut in that board: it lies on it, with something left
    /// on every side.
    pub fn lies_on(&self, board: Size) -> bool {
        let window = Rect::new(Point::new(self.left, self.top), self.sight);
        let borders = window.within(Rect::at_origin(self.outer.unwrap_or(board)));
        self.sight.is_positive() && borders.least().is_positive()
    }
}

/// The command that puts the measured window in place of the planned one, the picture lying
/// in it as nearly as it did; `None` where there is no such window.
///
/// Where liners are still to be cut below the layer that was measured, they keep their size and
/// lie in its window as nearly as they did: what it is larger or smaller is halved. The window
/// that the picture shows in stays as planned, and to be cut.
pub fn as_cut(
    document: &Document,
    id: VariantId,
    opening: OpeningId,
    measured: Measured,
) -> Option<Command> {
    let mat = &document.variant(id)?.mat;
    let exact = layout(document, mat).exact;
    let window = exact.opening(opening)?;
    let Measured { outer, layer, sight, left, top } = measured;
    let size = outer.unwrap_or(exact.outer);
    let cut = layer.and_then(|id| window.layers.iter().position(|cut| cut.layer == id));
    if layer.is_some() && cut.is_none() {
        return None;
    }
    if let Some(at) = cut
        && let (Some(was), Some(below)) = (window.layers.get(at), window.layers.get(at + 1))
    {
        let rect = Rect::new(Point::new(left, top), sight);
        let was = was.sight.bounds.size;
        let (more_left, more_right) = (sight.width - was.width).halves();
        let (more_top, more_bottom) = (sight.height - was.height).halves();
        let more = Sides::new(more_top, more_right, more_bottom, more_left);
        let inner = below.offset.plus(more);
        let mut commands = vec![Command::SetOffset(id, opening, below.layer, inner)];
        if let Some(above) = at.checked_sub(1).and_then(|above| window.layers.get(above)) {
            // That one is cut already, and lies where it did.
            let own = layer.map(|layer| {
                Command::SetOffset(id, opening, layer, rect.within(above.sight.bounds))
            });
            commands.extend(own);
        }
        let further = window.layers.get(at + 2..).unwrap_or_default();
        let inwards = further.iter().fold(inner, |all, cut| all.plus(cut.offset));
        let (left, top) = (left + inwards.left, top + inwards.top);
        let placement = Placement::Free { left, top };
        commands.push(Command::SetFixing(id, Fixing::Outer { size, placement }));
        let came = came(document, id, opening, &commands)?;
        // A liner is stuck to what was cut before it.
        commands.extend(came.into_iter().take(at + 1));
        return Some(Command::Together("as cut", commands));
    }
    let (more_left, _) = (window.sight.size.width - sight.width).halves();
    let (more_top, _) = (window.sight.size.height - sight.height).halves();
    let hand = InHand {
        sight,
        overlap_left: window.overlap.left + more_left,
        overlap_top: window.overlap.top + more_top,
    };
    let fixing = Fixing::Outer { size, placement: Placement::Free { left, top } };
    Some(Command::Together(
        "as cut",
        vec![
            Command::SetMeets(id, opening, Meets::InHand(hand)),
            Command::SetFixing(id, fixing),
        ],
    ))
}

/// The commands that tell of each layer, from the top, that its window was cut as it lies after
/// `changes`.
fn came(
    document: &Document,
    id: VariantId,
    opening: OpeningId,
    changes: &[Command],
) -> Option<Vec<Command>> {
    let mut after = document.clone();
    for change in changes {
        apply(&mut after, change).ok()?;
    }
    let exact = layout(&after, &after.variant(id)?.mat).exact;
    let window = exact.opening(opening)?;
    let told = window.layers.iter().map(|cut| {
        let came = Came { sight: cut.sight.bounds.size, borders: cut.borders };
        Command::SetCut(id, opening, cut.layer, came)
    });
    Some(told.collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::apply;
    use crate::sample::{inches, reference, sides, size};

    /// Source: common practice: everything follows from the window as it was cut.
    #[test]
    fn everything_follows_from_the_window_as_cut() {
        let mut document = reference();
        let measured = Measured {
            outer: None,
            layer: None,
            sight: size("11 3/8x15 5/8"),
            left: inches("4 1/16"),
            top: inches("4 11/16"),
        };
        let command = as_cut(&document, VariantId(1), OpeningId(1), measured).unwrap();
        assert_eq!(command.name(), "as cut");
        assert_eq!(apply(&mut document, &command), Ok(()));
        let laid = layout(&document, &document.variants[0].mat);
        let window = &laid.exact.openings[0];
        assert!(laid.in_hand);
        assert_eq!(laid.exact.outer, size("20x26"));
        assert_eq!(window.borders, sides("4 11/16,4 9/16,5 11/16,4 1/16"));
        assert_eq!(window.overlap, sides("1 1/4,13/16,2 1/8,13/16"));
        assert!(as_cut(&document, VariantId(1), OpeningId(9), measured).is_none());
        assert!(measured.lies_on(size("20x26")));
        assert!(!Measured { left: inches("-1"), ..measured }.lies_on(size("20x26")));
        assert!(!Measured { sight: size("30x16"), ..measured }.lies_on(size("20x26")));
        assert!(!Measured { outer: Some(size("15x26")), ..measured }.lies_on(size("20x26")));
        let nowhere = Measured { layer: Some(LayerId(9)), ..measured };
        assert!(as_cut(&document, VariantId(1), OpeningId(1), nowhere).is_none());
    }

    /// Source: derived (D) from the reference piece: its top window of 11 7/8 × 16 in at 3 13/16
    /// and 4 1/2 in came out 1/8 in wider and 1/16 in further down; its liner, still to be cut,
    /// keeps 11 1/2 × 15 5/8 in and takes 1/16 in more at each side.
    #[test]
    fn a_liner_follows_the_window_that_was_cut_before_it() {
        let mut document = reference();
        let top = document.variants[0].mat.layers[0].id;
        let measured = Measured {
            outer: None,
            layer: Some(top),
            sight: size("12x16"),
            left: inches("3 13/16"),
            top: inches("4 9/16"),
        };
        let command = as_cut(&document, VariantId(1), OpeningId(1), measured).unwrap();
        assert_eq!(apply(&mut document, &command), Ok(()));
        let laid = layout(&document, &document.variants[0].mat);
        let window = &laid.exact.openings[0];
        assert!(!laid.in_hand, "the liner is still to be cut");
        assert_eq!(laid.exact.outer, size("20x26"));
        assert_eq!(window.layers[0].sight.bounds.size, size("12x16"));
        assert_eq!(window.layers[0].borders, sides("4 9/16,4 3/16,5 7/16,3 13/16"));
        assert_eq!(window.sight.size, size("11 1/2x15 5/8"));
        assert_eq!(window.layers[1].offset, sides("3/16,1/4,3/16,1/4"));
        assert_eq!(window.overlap, sides("1 1/4,3/4,2 1/8,3/4"), "the picture as before");
    }

    /// The middle one of three: what is cut above it stays where it is.
    #[test]
    fn of_three_layers_the_middle_one() {
        let mut document = reference();
        let mat = &mut document.variants[0].mat;
        let liner = mat.layers[1].clone();
        mat.layers.push(crate::spec::Layer { id: LayerId(7), ..liner.clone() });
        mat.openings[0].offsets.insert(LayerId(7), sides("1/8"));
        let before = layout(&document, &document.variants[0].mat).exact;
        let (first, middle) = {
            let layers = &before.openings[0].layers;
            (layers[0].sight.bounds, layers[1].sight.bounds)
        };
        let measured = Measured {
            outer: None,
            layer: Some(liner.id),
            sight: Size::new(middle.size.width, middle.size.height + inches("1/4")),
            left: middle.left() + inches("1/16"),
            top: middle.top(),
        };
        let command = as_cut(&document, VariantId(1), OpeningId(1), measured).unwrap();
        assert_eq!(apply(&mut document, &command), Ok(()));
        let after = layout(&document, &document.variants[0].mat).exact;
        let layers = &after.openings[0].layers;
        assert_eq!(layers[0].sight.bounds, first);
        assert_eq!(layers[1].sight.bounds.at.x, middle.left() + inches("1/16"));
        assert_eq!(layers[1].sight.bounds.size, measured.sight);
        assert_eq!(layers[2].offset, sides("1/4,1/8,1/4,1/8"));
        assert_eq!(after.openings[0].sight.size, before.openings[0].sight.size);
    }
}
