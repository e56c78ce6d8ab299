//! File to model, with what only shows when parts are held against each other: ids used
//! twice, ids that name nothing, counts.

use std::collections::{BTreeMap, BTreeSet};

use super::{
    Bevel, EntryKind, Fixing, Image, Limits, Measured, Meets, Offset, Opening, Picture,
    Placement, Ruler, Shape, Unit, Work,
};
use crate::geometry::{Point, Rect, Sides};
use crate::length::{self, Length};
use crate::spec;

/// What makes no sense in a plan that is well formed: where, and what was found and wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in super::super) struct Wrong {
    /// As in `variant 1, opening 2`; empty for the plan itself.
    pub(in super::super) place: String,
    /// What was found, and what is wanted.
    pub(in super::super) words: String,
}

impl Wrong {
    pub(in crate::file) fn new(words: String) -> Self {
        Self { place: String::new(), words }
    }

    /// The same, found inside of `place`.
    pub(in crate::file) fn inside(mut self, place: &str) -> Self {
        let parting = if self.place.is_empty() { "" } else { ", " };
        self.place = format!("{place}{parting}{}", self.place);
        self
    }
}

/// Ids that must differ.
pub(in crate::file) fn differ(
    what: &str,
    ids: impl Iterator<Item = u32>,
) -> Result<BTreeSet<u32>, Wrong> {
    let mut seen = BTreeSet::new();
    for id in ids {
        if !seen.insert(id) {
            return Err(Wrong::new(format!(
                "two {what}s have the id {id}: give one of them another"
            )));
        }
    }
    Ok(seen)
}

/// `1, 2 and 5`, or a few of many.
pub(in crate::file) fn listed(ids: &BTreeSet<u32>) -> String {
    let some: Vec<String> = ids.iter().take(8).map(u32::to_string).collect();
    let more = if ids.len() > some.len() { ", …" } else { "" };
    if some.is_empty() { "none".to_owned() } else { format!("{}{more}", some.join(", ")) }
}

impl Unit {
    pub(in crate::file) fn model(self) -> length::Unit {
        match self {
            Self::Inch => length::Unit::Inch,
            Self::Millimetre => length::Unit::Millimetre,
        }
    }
}

impl Ruler {
    pub(in crate::file) fn model(self) -> Result<spec::Ruler, Wrong> {
        let unit = self.unit.model();
        spec::Ruler::new(unit, self.parts).ok_or_else(|| {
            let parts = spec::Ruler::parts_of(unit);
            let parts: Vec<String> = parts.iter().map(u16::to_string).collect();
            Wrong::new(format!(
                "{} parts of 1 {} are on no ruler: one of {} is wanted",
                self.parts,
                unit.sign(),
                parts.join(", ")
            ))
            .inside("ruler")
        })
    }
}

impl Work {
    pub(in crate::file) fn model(self) -> spec::Work {
        let Self { id, title, picture, sheet, image } = self;
        let Picture { path, sha256, width_px, height_px } = picture;
        let Image { size, left, top } = image;
        spec::Work {
            id: spec::WorkId(id.0),
            title,
            picture: spec::Picture {
                path,
                sha256: sha256.0,
                width_px: width_px.0,
                height_px: height_px.0,
            },
            sheet: sheet.0,
            image: Rect::new(Point::new(left.0, top.0), size.0),
        }
    }
}

/// A mat without what lies behind it, which version 1 did not know; its boards are read.
pub(in crate::file) struct Stack {
    pub(in crate::file) fixing: Fixing,
    pub(in crate::file) layers: Vec<spec::Layer>,
    pub(in crate::file) openings: Vec<Opening>,
    pub(in crate::file) backing: spec::Backing,
    pub(in crate::file) exhibition: bool,
    pub(in crate::file) limits: Limits,
    pub(in crate::file) notes: String,
}

impl Stack {
    /// The mat it means.
    pub(in crate::file) fn mat(self, works: &BTreeSet<u32>) -> Result<spec::Mat, Wrong> {
        let Self { fixing, layers, openings, backing, exhibition, limits, notes } = self;
        if !(1..=spec::Mat::MOST_LAYERS).contains(&layers.len()) {
            return Err(Wrong::new(format!(
                "the mat has {} layers: 1 to {} are wanted",
                layers.len(),
                spec::Mat::MOST_LAYERS
            )));
        }
        let layer_ids = differ("layer", layers.iter().map(|layer| layer.id.0))?;
        differ("opening", openings.iter().map(|opening| opening.id.0))?;
        let Limits { least_border, hidden_image } = limits;
        Ok(spec::Mat {
            fixing: fixing.model()?,
            layers,
            openings: openings
                .into_iter()
                .map(|opening| opening.model(works, &layer_ids))
                .collect::<Result<_, _>>()?,
            backing,
            exhibition,
            limits: spec::Limits {
                least_border: least_border.map(|border| border.0),
                hidden_image: hidden_image.map(|hidden| hidden.0),
            },
            notes,
            behind: spec::Behind::default(),
            // Version 4 is the first to know.
            planned: None,
        })
    }
}

fn sides(top: Measured, right: Measured, bottom: Measured, left: Measured) -> Sides<Length> {
    Sides::new(top.0, right.0, bottom.0, left.0)
}

impl Fixing {
    pub(in crate::file) fn model(self) -> Result<spec::Fixing, Wrong> {
        let (size, placement) = match self {
            Self::Outer { size, placement } => (size.0, placement),
            Self::Borders { top, right, bottom, left } => {
                return Ok(spec::Fixing::Borders(sides(top, right, bottom, left)));
            }
        };
        let placement = match placement {
            Placement::Centred => spec::Placement::Centred,
            Placement::BottomExtra(extra) => spec::Placement::BottomExtra(extra.0),
            Placement::BottomRatio { bottom: 0, top: 0 } => {
                return Err(Wrong::new(
                    "bottom to top as 0 : 0 says nothing: one of both above zero is wanted, \
                     as in 5 : 4"
                        .to_owned(),
                )
                .inside("placement"));
            }
            Placement::BottomRatio { bottom, top } => {
                spec::Placement::BottomRatio(spec::Weight { bottom, top })
            }
            Placement::Optical => spec::Placement::Optical,
            Placement::Free { left, top } => spec::Placement::Free { left: left.0, top: top.0 },
        };
        Ok(spec::Fixing::Outer { size, placement })
    }
}

impl Bevel {
    pub(in crate::file) fn model(self) -> spec::Bevel {
        match self {
            Self::Open(angle) => spec::Bevel::Open(angle.0),
            Self::Straight => spec::Bevel::Straight,
            Self::Reverse(angle) => spec::Bevel::Reverse(angle.0),
        }
    }
}

impl Opening {
    pub(in crate::file) fn model(
        self,
        works: &BTreeSet<u32>,
        layers: &BTreeSet<u32>,
    ) -> Result<spec::Opening, Wrong> {
        let Self { id, work, shape, place, meets, offsets } = self;
        let within = |wrong: Wrong| wrong.inside(&format!("opening {}", id.0));
        if !works.contains(&work.0) {
            return Err(within(Wrong::new(format!(
                "it shows work {}, which is not in the plan: one of its works ({}) is wanted",
                work.0,
                listed(works)
            ))));
        }
        Ok(spec::Opening {
            id: spec::OpeningId(id.0),
            work: spec::WorkId(work.0),
            shape: match shape {
                Shape::Rectangle => spec::Shape::Rectangle,
            },
            place: Point::new(place.left.0, place.top.0),
            meets: match meets {
                Meets::Reveal { top, right, bottom, left } => {
                    spec::Meets::Reveal(sides(top, right, bottom, left))
                }
                Meets::InHand { sight, overlap_left, overlap_top } => {
                    spec::Meets::InHand(spec::InHand {
                        sight: sight.0,
                        overlap_left: overlap_left.0,
                        overlap_top: overlap_top.0,
                    })
                }
            },
            offsets: by_layer(offsets, layers).map_err(within)?,
            // Version 4 is the first to know.
            cut: BTreeMap::new(),
        })
    }
}

fn by_layer(
    offsets: Vec<Offset>,
    layers: &BTreeSet<u32>,
) -> Result<BTreeMap<spec::LayerId, Sides<Length>>, Wrong> {
    let mut made = BTreeMap::new();
    for Offset { layer, top, right, bottom, left } in offsets {
        if !layers.contains(&layer.0) {
            return Err(Wrong::new(format!(
                "an offset names layer {}, which is not in the mat: one of its layers ({}) \
                 is wanted",
                layer.0,
                listed(layers)
            )));
        }
        if made.insert(spec::LayerId(layer.0), sides(top, right, bottom, left)).is_some() {
            return Err(Wrong::new(format!(
                "layer {} has two offsets: take one of them out",
                layer.0
            )));
        }
    }
    Ok(made)
}

impl EntryKind {
    pub(in crate::file) const fn model(&self) -> spec::EntryKind {
        match self {
            Self::Choice => spec::EntryKind::Choice,
            Self::Tick => spec::EntryKind::Tick,
            Self::Reference => spec::EntryKind::Reference,
        }
    }
}
