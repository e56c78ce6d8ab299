//! File to model: a mat.

use std::collections::{BTreeMap, BTreeSet};

use super::super::assembly::Assembly;
use super::super::mat::{
    Backing, Bevel, Board, BoardBy, Cut, Layer, Limits, Mat, Offset, Opening, Placement,
    Planned, Shape, WindowBy,
};
use super::super::text::Measured;
use super::{Inconsistency, differ, listed, which};
use crate::geometry::{Point, Sides};
use crate::length::Length;
use crate::{material, spec};

impl Mat {
    /// The mat it means, in a plan with these works.
    pub(super) fn model(self, works: &BTreeSet<u32>) -> Result<spec::Mat, Inconsistency> {
        let Self {
            board_by,
            layers,
            openings,
            cut,
            backing,
            exhibition,
            limits,
            notes,
            assembly,
            planned,
        } = self;
        if !(1..=spec::Mat::MOST_LAYERS).contains(&layers.len()) {
            return Err(Inconsistency::new(format!(
                "the mat has {} layers: use 1 to {}",
                layers.len(),
                spec::Mat::MOST_LAYERS
            )));
        }
        let layer_ids = differ("layer", layers.iter().map(|layer| layer.id.0))?;
        differ("opening", openings.iter().map(|opening| opening.id.0))?;
        let Backing { size, board } = backing;
        let Limits { least_border, hidden_image } = limits;
        let mut mat = spec::Mat {
            board_by: board_by.model()?,
            layers: layers.into_iter().map(Layer::model).collect(),
            openings: openings
                .into_iter()
                .map(|opening| opening.model(works, &layer_ids))
                .collect::<Result<_, _>>()?,
            backing: spec::Backing { size: size.map(|size| size.0), board: board.model() },
            exhibition,
            limits: spec::Limits {
                least_border: least_border.map(|border| border.0),
                hidden_image: hidden_image.map(|hidden| hidden.0),
            },
            notes,
            assembly: assembly.map(Assembly::model).unwrap_or_default(),
            planned: None,
        };
        for one in cut {
            one.enter(&mut mat)?;
        }
        mat.planned = planned
            .map(|planned| planned.model(works, &layer_ids))
            .transpose()
            .map_err(|inconsistency| {
                inconsistency.inside("what was planned before it was cut")
            })?
            .map(Box::new);
        Ok(mat)
    }
}

impl Layer {
    fn model(self) -> spec::Layer {
        let Self { id, board, bevel } = self;
        spec::Layer { id: spec::LayerId(id.0), board: board.model(), bevel: bevel.model() }
    }
}

impl Board {
    fn model(self) -> material::Board {
        let Self { id, name, colour, thickness, grade, turns, mass_gsm } = self;
        material::Board {
            id,
            name,
            colour: colour.0,
            thickness: thickness.0.0,
            grade: grade.0,
            turns,
            mass_gsm,
        }
    }
}

impl Planned {
    fn model(
        self,
        works: &BTreeSet<u32>,
        layers: &BTreeSet<u32>,
    ) -> Result<spec::Planned, Inconsistency> {
        let Self { board_by, openings, print, number } = self;
        let openings = openings.into_iter().map(|opening| opening.model(works, layers));
        Ok(spec::Planned {
            board_by: board_by.model()?,
            openings: openings.collect::<Result<_, _>>()?,
            print: which(print, number, "the mat that is cut")?,
        })
    }
}

fn sides(top: Measured, right: Measured, bottom: Measured, left: Measured) -> Sides<Length> {
    Sides::new(top.0, right.0, bottom.0, left.0)
}

impl BoardBy {
    fn model(self) -> Result<spec::BoardBy, Inconsistency> {
        let (size, placement) = match self {
            Self::Outer { size, placement } => (size.0, placement),
            Self::Borders { top, right, bottom, left } => {
                return Ok(spec::BoardBy::Borders(sides(top, right, bottom, left)));
            }
        };
        let placement = match placement {
            Placement::Centred => spec::Placement::Centred,
            Placement::BottomExtra(extra) => spec::Placement::BottomExtra(extra.0),
            Placement::BottomRatio { bottom: 0, top: 0 } => {
                return Err(Inconsistency::new(
                    "bottom to top is 0 : 0: at least one of the two must be above zero, as \
                     in 5 : 4"
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
        Ok(spec::BoardBy::Outer { size, placement })
    }
}

impl Bevel {
    fn model(self) -> spec::Bevel {
        match self {
            Self::Open(angle) => spec::Bevel::Open(angle.0),
            Self::Straight => spec::Bevel::Straight,
            Self::Reverse(angle) => spec::Bevel::Reverse(angle.0),
        }
    }
}

impl Opening {
    fn model(
        self,
        works: &BTreeSet<u32>,
        layers: &BTreeSet<u32>,
    ) -> Result<spec::Opening, Inconsistency> {
        let Self { id, work, shape, place, window_by, offsets } = self;
        let within =
            |inconsistency: Inconsistency| inconsistency.inside(&format!("opening {}", id.0));
        if !works.contains(&work.0) {
            return Err(within(Inconsistency::new(format!(
                "it shows work {}, which is not in the plan: use one of its works ({})",
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
            window_by: match window_by {
                WindowBy::Reveal { top, right, bottom, left } => {
                    spec::WindowBy::Reveal(sides(top, right, bottom, left))
                }
                WindowBy::InHand { sight, overlap_left, overlap_top } => {
                    spec::WindowBy::InHand(spec::InHand {
                        sight: sight.0,
                        overlap_left: overlap_left.0,
                        overlap_top: overlap_top.0,
                    })
                }
            },
            offsets: by_layer(offsets, layers).map_err(within)?,
            cut: BTreeMap::new(),
        })
    }
}

fn by_layer(
    offsets: Vec<Offset>,
    layers: &BTreeSet<u32>,
) -> Result<BTreeMap<spec::LayerId, Sides<Length>>, Inconsistency> {
    let mut made = BTreeMap::new();
    for Offset { layer, top, right, bottom, left } in offsets {
        if !layers.contains(&layer.0) {
            return Err(Inconsistency::new(format!(
                "an offset is for layer {}, which is not in the mat: use one of its layers \
                 ({})",
                layer.0,
                listed(layers)
            )));
        }
        if made.insert(spec::LayerId(layer.0), sides(top, right, bottom, left)).is_some() {
            return Err(Inconsistency::new(format!(
                "layer {} has two offsets: remove one of them",
                layer.0
            )));
        }
    }
    Ok(made)
}

impl Cut {
    /// Enters it in the mat.
    fn enter(self, mat: &mut spec::Mat) -> Result<(), Inconsistency> {
        let Self { opening, layer, sight, top, right, bottom, left } = self;
        let layers: BTreeSet<u32> = mat.layers.iter().map(|layer| layer.id.0).collect();
        let openings: BTreeSet<u32> = mat.openings.iter().map(|opening| opening.id.0).collect();
        let unknown = |what: &str, id: u32, ids: &BTreeSet<u32>| {
            Inconsistency::new(format!(
                "a window that was cut is in {what} {id}, which is not in the mat: use one of \
                 its {what}s ({})",
                listed(ids)
            ))
        };
        if !layers.contains(&layer.0) {
            return Err(unknown("layer", layer.0, &layers));
        }
        let found = mat.openings.iter_mut().find(|one| one.id.0 == opening.0);
        let found = found.ok_or_else(|| unknown("opening", opening.0, &openings))?;
        let borders = Sides::new(top.0, right.0, bottom.0, left.0);
        let as_cut = spec::AsCut { sight: sight.0, borders };
        if found.cut.insert(spec::LayerId(layer.0), as_cut).is_some() {
            return Err(Inconsistency::new(format!(
                "the window of layer {} in opening {} is there twice as cut: remove one of \
                 them",
                layer.0, opening.0
            )));
        }
        Ok(())
    }
}
