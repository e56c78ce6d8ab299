//! What follows from a mat's assembly: hinges, movement and package together.

use crate::geometry::{Rect, Sides};
use crate::hinges::{self, HingePlan};
use crate::layout::{Layout, Window};
use crate::length::Length;
use crate::movement::{Movement, movement};
use crate::package::{Packed, Part, package};
use crate::spec::{Document, Mat};

/// What follows from the assembly of one mat.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Assembly {
    /// How each sheet is held and moves, in the order of the windows.
    pub sheets: Vec<Sheet>,
    /// The package and how it hangs; `None` only before anything was derived.
    pub package: Option<Packed>,
}

/// How one sheet is held and moves.
#[derive(Clone, PartialEq, Debug)]
pub struct Sheet {
    /// Its hinges.
    pub hinges: HingePlan,
    /// What humidity does to it.
    pub movement: Movement,
    /// What it has room to grow towards.
    pub clearance: Clearance,
}

/// What a sheet would meet as it grows, and how far that is from its edges at its dampest.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Clearance {
    /// What it would meet.
    pub from: Obstacle,
    /// From each of its edges; negative where it is jammed.
    pub damp: Sides<Length>,
}

/// What a sheet may meet as it grows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Obstacle {
    /// The pockets or strips that hold it.
    Holders,
    /// The spacers round a floated picture, taken to be as wide as the frame's lip: they are
    /// not seen.
    Spacers,
    /// The edges of the board.
    Board,
}

impl Obstacle {
    /// As it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Holders => "pockets or strips",
            Self::Spacers => "spacers",
            Self::Board => "the board's edges",
        }
    }
}

impl Clearance {
    /// The least of it; in pockets and strips the sheet stands on the lower ones, which is no
    /// lack of room.
    pub fn least(&self) -> Length {
        let Sides { top, right, bottom, left } = self.damp;
        let above = top.min(right).min(left);
        if self.from == Obstacle::Holders { above } else { above.min(bottom) }
    }
}

fn clearance(
    hinges: &HingePlan,
    movement: &Movement,
    window: &Window,
    layout: &Layout,
    packed: &Packed,
) -> Clearance {
    let moved = movement.bound.damp.moved;
    if !hinges.kind.sticks() {
        // The sheet stands on its lower folds: room is left at the top and at the sides.
        let room = Sides { bottom: Length::ZERO, ..Sides::all(hinges.slack) };
        let damp = room.minus(moved);
        return Clearance { from: Obstacle::Holders, damp };
    }
    let board = window.sheet.within(Rect::at_origin(layout.exact.outer)).minus(moved);
    let spaced = packed.floated && packed.layers.iter().any(|one| one.part == Part::Spacer);
    match &packed.framed {
        Some(framed) if spaced => {
            Clearance { from: Obstacle::Spacers, damp: board.minus(framed.hidden) }
        }
        _ => Clearance { from: Obstacle::Board, damp: board },
    }
}

/// Derives the assembly of one mat.
pub fn assembly(document: &Document, mat: &Mat, layout: &Layout) -> Assembly {
    let packed = package(document, mat, layout);
    let sheet = |window: &Window| {
        let hinges = hinges::plan(document.unit, mat, layout, window);
        let movement = movement(&mat.assembly, hinges.held(window));
        let clearance = clearance(&hinges, &movement, window, layout, &packed);
        Sheet { hinges, movement, clearance }
    };
    Assembly {
        sheets: layout.exact.openings.iter().map(sheet).collect(),
        package: Some(packed),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::derived::derive;
    use crate::material::Tables;
    use crate::rules::worked_example as worked;
    use crate::spec::{BoardBy, FrameSize, HingeKind, WindowBy};

    fn of(document: &Document) -> Clearance {
        let derived = derive(document, &document.variants[0], Tables::shipped());
        derived.assembly.sheets[0].clearance
    }

    /// Source: derived (D): the worked example grows by 0.6096 mm at the right, held 1 in from
    /// its left edge, by 0.0381 mm at the left, and downwards by 0.1676 mm.
    #[test]
    fn what_a_growing_sheet_meets() {
        let mut document = worked();
        let found = of(&document);
        let layout = crate::layout::layout(&document, &document.variants[0].mat).exact;
        let still = layout.openings[0].sheet.within(Rect::at_origin(layout.outer));
        assert_eq!(found.from, Obstacle::Board);
        let um = |found: Length, still: Length| (still - found).to_mm();
        let near = |found: f64, wanted: f64| (found - wanted).abs() < 1e-9;
        assert!(near(um(found.damp.right, still.right), 0.6096), "{found:?}");
        assert!(near(um(found.damp.left, still.left), 0.0381), "{found:?}");
        assert_eq!(found.damp.top, still.top);

        let mat = &mut document.variants[0].mat;
        mat.assembly.hinging.kind = Some(HingeKind::Strips);
        mat.assembly.hinging.slack = Some(Length::mm(1));
        let held = of(&document);
        assert_eq!(held.from, Obstacle::Holders);
        assert!(held.damp.right < Length::mm(1), "{held:?}");
        // It stands on the lower strip.
        assert_eq!(held.damp.bottom, Length::ZERO);
        assert!(held.least().is_positive(), "{held:?}");
    }

    /// Source: derived (D): a floated sheet stays 1 in from the board's edge, of which the lip,
    /// and a spacer under it, take 1/4 in less half the allowance.
    #[test]
    fn a_floated_sheet_meets_its_spacers() {
        let mut document = worked();
        let sheet = document.works[0].sheet;
        let mat = &mut document.variants[0].mat;
        if let WindowBy::Reveal(_) = mat.openings[0].window_by {
            let image = document.works[0].image;
            let beyond = image.within(Rect::at_origin(sheet));
            let inch = Length::inches(1, 0, 1);
            mat.openings[0].window_by = WindowBy::Reveal(beyond.map(|margin| margin + inch));
        }
        mat.board_by = BoardBy::Borders(Sides::all(Length::inches(2, 0, 1)));
        let package = &mut mat.assembly.package;
        package.frame = Tables::shipped().frame("gallery-wood").cloned();
        package.size = None::<FrameSize>;
        let without = of(&document);
        document.variants[0].mat.assembly.package.spacer = Some(Length::mm(6));
        let with = of(&document);
        assert_eq!((without.from, with.from), (Obstacle::Board, Obstacle::Spacers));
        let derived = derive(&document, &document.variants[0], Tables::shipped());
        let framed = derived.assembly.package.unwrap().framed.unwrap();
        assert_eq!(without.damp.minus(with.damp), framed.hidden);
    }
}
