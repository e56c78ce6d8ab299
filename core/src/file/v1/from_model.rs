//! Model to file. Every part is destructured: a new field of the model does not compile
//! until it has a place here or in the next version's form.

use super::{
    Bevel, Count, Degrees, EntryKind, Fixing, Image, Limits, Measured, Meets, Offset, Opening,
    Picture, Place, Placement, Sha256, Shape, Size, Unit, Work,
};
use crate::geometry::{self, Point, Rect, Sides};
use crate::length::{self, Length};
use crate::spec;

/// Writes in one unit.
#[derive(Clone, Copy)]
pub(in crate::file) struct In(pub(in crate::file) length::Unit);

pub(in crate::file) fn unit_word(unit: length::Unit) -> Unit {
    match unit {
        length::Unit::Inch => Unit::Inch,
        length::Unit::Millimetre => Unit::Millimetre,
    }
}

pub(in crate::file) const fn entry_kind(kind: spec::EntryKind) -> EntryKind {
    match kind {
        spec::EntryKind::Choice => EntryKind::Choice,
        spec::EntryKind::Tick => EntryKind::Tick,
        spec::EntryKind::Reference => EntryKind::Reference,
    }
}

pub(in crate::file) fn bevel(bevel: spec::Bevel) -> Bevel {
    match bevel {
        spec::Bevel::Open(angle) => Bevel::Open(Degrees(angle)),
        spec::Bevel::Straight => Bevel::Straight,
        spec::Bevel::Reverse(angle) => Bevel::Reverse(Degrees(angle)),
    }
}

impl In {
    pub(in crate::file) fn length(self, length: Length) -> Measured {
        Measured(length, self.0)
    }

    pub(in crate::file) fn size(self, size: geometry::Size) -> Size {
        Size(size, self.0)
    }

    pub(in crate::file) fn sides(self, sides: Sides<Length>) -> Sides<Measured> {
        sides.map(|side| self.length(side))
    }

    pub(in crate::file) fn work(self, work: &spec::Work) -> Work {
        let spec::Work { id, title, picture, sheet, image: Rect { at, size } } = work;
        let spec::Picture { path, sha256, width_px, height_px } = picture;
        Work {
            id: Count(id.0),
            title: title.clone(),
            picture: Picture {
                path: path.clone(),
                sha256: Sha256(sha256.clone()),
                width_px: Count(*width_px),
                height_px: Count(*height_px),
            },
            sheet: self.size(*sheet),
            image: Image {
                size: self.size(*size),
                left: self.length(at.x),
                top: self.length(at.y),
            },
        }
    }

    pub(in crate::file) fn limits(self, limits: spec::Limits) -> Limits {
        let spec::Limits { least_border, hidden_image } = limits;
        Limits {
            least_border: least_border.map(|border| self.length(border)),
            hidden_image: hidden_image.map(|hidden| self.length(hidden)),
        }
    }

    pub(in crate::file) fn fixing(self, fixing: spec::Fixing) -> Fixing {
        match fixing {
            spec::Fixing::Outer { size, placement } => Fixing::Outer {
                size: self.size(size),
                placement: match placement {
                    spec::Placement::Centred => Placement::Centred,
                    spec::Placement::BottomExtra(extra) => {
                        Placement::BottomExtra(self.length(extra))
                    }
                    spec::Placement::BottomRatio(spec::Weight { bottom, top }) => {
                        Placement::BottomRatio { bottom, top }
                    }
                    spec::Placement::Optical => Placement::Optical,
                    spec::Placement::Free { left, top } => {
                        Placement::Free { left: self.length(left), top: self.length(top) }
                    }
                },
            },
            spec::Fixing::Borders(borders) => {
                let Sides { top, right, bottom, left } = self.sides(borders);
                Fixing::Borders { top, right, bottom, left }
            }
        }
    }

    pub(in crate::file) fn opening(self, opening: &spec::Opening) -> Opening {
        let spec::Opening { id, work, shape, place: Point { x, y }, meets, offsets, cut: _ } =
            opening;
        let meets = match *meets {
            spec::Meets::Reveal(reveal) => {
                let Sides { top, right, bottom, left } = self.sides(reveal);
                Meets::Reveal { top, right, bottom, left }
            }
            spec::Meets::InHand(hand) => Meets::InHand {
                sight: self.size(hand.sight),
                overlap_left: self.length(hand.overlap_left),
                overlap_top: self.length(hand.overlap_top),
            },
        };
        let offset = |(layer, sides): (&spec::LayerId, &Sides<Length>)| {
            let Sides { top, right, bottom, left } = self.sides(*sides);
            Offset { layer: Count(layer.0), top, right, bottom, left }
        };
        Opening {
            id: Count(id.0),
            work: Count(work.0),
            shape: match shape {
                spec::Shape::Rectangle => Shape::Rectangle,
            },
            place: Place { left: self.length(*x), top: self.length(*y) },
            meets,
            offsets: offsets.iter().map(offset).collect(),
        }
    }
}
