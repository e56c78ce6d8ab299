//! The usual figures of hinging, whole ones in the plan's unit: what is read on a ruler in
//! inches is not set by one in millimetres.

use crate::length::{Length, Unit};

/// What is taken where a figure was left open, and what a figure is held to.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Usual {
    /// A tab's width. Source: Paschke, The Artist's Magazine, 2014 (about 1 1/2 × 1/2 in).
    pub tab: Length,
    /// A cross-piece's height, that of a tab. Source: Paschke 2014.
    pub cross: Length,
    /// The least height of a cross-piece that holds. Source: common practice.
    pub least_cross: Length,
    /// How far a tab that was drawn through the backing is stuck to its back. Source: common
    /// practice (about 1 in).
    pub behind: Length,
    /// How far a cross-piece reaches beyond its tab on each side. Source: from memory.
    pub cross_beyond: Length,
    /// Hold onto the sheet's back: 5 mm. Source: Library of Congress, Matting and Hinging Works
    /// of Art on Paper; framers' forum (weak).
    pub hold: Length,
    /// The least hold. Source: Library of Congress (as little as 1/8 in).
    pub least_hold: Length,
    /// From the sheet's edge to the cross-piece. Source: Paschke 2014 (about 1/8 in).
    pub gap: Length,
    /// How much longer a yielding hinge is. Source: from memory.
    pub longer: Length,
    /// From the sheet's corner to the middle of an outer hinge. Source: Paschke 2014 (about
    /// 1 in).
    pub from_corner: Length,
    /// The furthest from one middle to the next. Source: from memory (10-12 in).
    pub furthest: Length,
    /// Room in pockets and strips. Source: from memory (1-2 mm).
    pub slack: Length,
    /// Usual pocket along each edge. Source: from memory.
    pub pocket: Length,
    /// Between mat and backing while both lie open: 1 mm. Source: Library of Congress.
    pub mat_gap: Length,
    /// The cloth tape between them. Source: Library of Congress (1-2 in wide).
    pub mat_tape: Length,
}

impl Usual {
    /// In that unit.
    pub const fn of(unit: Unit) -> Self {
        match unit {
            Unit::Inch => Self {
                tab: Length::inches(1, 1, 2),
                cross: Length::inches(0, 1, 2),
                least_cross: Length::inches(0, 1, 4),
                behind: Length::inches(1, 0, 1),
                cross_beyond: Length::inches(0, 1, 2),
                hold: Length::inches(0, 3, 16),
                least_hold: Length::inches(0, 1, 8),
                gap: Length::inches(0, 1, 8),
                longer: Length::inches(0, 1, 2),
                from_corner: Length::inches(1, 0, 1),
                furthest: Length::inches(12, 0, 1),
                slack: Length::inches(0, 1, 16),
                pocket: Length::inches(1, 0, 1),
                mat_gap: Length::inches(0, 1, 32),
                mat_tape: Length::inches(1, 1, 2),
            },
            Unit::Millimetre => Self {
                tab: Length::mm(40),
                cross: Length::mm(12),
                least_cross: Length::mm(6),
                behind: Length::mm(25),
                cross_beyond: Length::mm(12),
                hold: Length::mm(5),
                least_hold: Length::mm(3),
                gap: Length::mm(3),
                longer: Length::mm(12),
                from_corner: Length::mm(25),
                furthest: Length::mm(300),
                slack: Length::um(1500),
                pocket: Length::mm(25),
                mat_gap: Length::mm(1),
                mat_tape: Length::mm(40),
            },
        }
    }

    /// The least room above a sheet for a T hinge: gap and cross-piece.
    pub const fn least_room(&self) -> Length {
        Length::from_units(self.least_cross.units() + self.gap.units())
    }
}
