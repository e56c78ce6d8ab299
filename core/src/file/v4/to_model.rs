//! File to model, with what only shows when parts are held against each other.

use std::collections::BTreeSet;

use super::{Cut, Entry, Mat, Plan, Planned, Variant, WeightUnit};
use crate::file::v1::text::Count;
use crate::file::v1::to_model::{Wrong, differ, listed};
use crate::file::v1::{Work, to_model};
use crate::file::v2::Behind;
use crate::file::v3::text::Number;
use crate::file::v3::{Backing, Inscribed, Layer};
use crate::geometry::Sides;
use crate::spec;
use crate::weight::Weights;

impl Plan {
    /// The document it means.
    pub(in crate::file) fn document(self) -> Result<spec::Document, Wrong> {
        let Self {
            version: _,
            id,
            unit,
            weights,
            ruler,
            works,
            variants,
            chosen,
            inscribed,
            print,
            log,
        } = self;
        let work_ids = differ("work", works.iter().map(|work| work.id.0))?;
        let variant_ids = differ("variant", variants.iter().map(|variant| variant.id.0))?;
        if !variant_ids.contains(&chosen.0) {
            return Err(Wrong::new(format!(
                "the chosen variant is {}, which is not in the plan: one of its variants \
                 ({}) is wanted",
                chosen.0,
                listed(&variant_ids)
            )));
        }
        let mut inscribed = inscribed.map(Inscribed::model).transpose()?;
        match (&mut inscribed, print) {
            (_, None) => {}
            (Some(inscribed), Some(print)) => inscribed.recorded.print = Some(print.0),
            (None, Some(print)) => {
                return Err(Wrong::new(format!(
                    "print {} is at the bench, and what is written on it is missing: add an \
                     inscription, or take the print out",
                    print.0
                )));
            }
        }
        Ok(spec::Document {
            id: id.0,
            unit: unit.model(),
            weights: weights.map(|weights| match weights {
                WeightUnit::Pounds => Weights::Pounds,
                WeightUnit::Grams => Weights::Grams,
            }),
            ruler: ruler.model()?,
            works: works.into_iter().map(Work::model).collect(),
            variants: variants
                .into_iter()
                .map(|variant| variant.model(&work_ids))
                .collect::<Result<_, _>>()?,
            chosen: spec::VariantId(chosen.0),
            inscribed,
            log: log.into_iter().map(Entry::model).collect::<Result<_, _>>()?,
        })
    }
}

impl Variant {
    fn model(self, works: &BTreeSet<u32>) -> Result<spec::Variant, Wrong> {
        let Self { id, name, mat } = self;
        let mat =
            mat.model(works).map_err(|wrong| wrong.inside(&format!("variant {}", id.0)))?;
        Ok(spec::Variant { id: spec::VariantId(id.0), name, mat })
    }
}

impl Mat {
    fn model(self, works: &BTreeSet<u32>) -> Result<spec::Mat, Wrong> {
        let Self {
            fixing,
            layers,
            openings,
            cut,
            backing,
            exhibition,
            limits,
            notes,
            behind,
            planned,
        } = self;
        let Backing { size, board } = backing;
        let stack = to_model::Stack {
            fixing,
            layers: layers.into_iter().map(Layer::model).collect(),
            openings,
            backing: spec::Backing { size: size.map(|size| size.0), board: board.model() },
            exhibition,
            limits,
            notes,
        };
        let behind = behind.map(Behind::model).unwrap_or_default();
        let mut mat = spec::Mat { behind, ..stack.mat(works)? };
        for one in cut {
            one.put(&mut mat)?;
        }
        let layers = mat.layers.iter().map(|layer| layer.id.0).collect();
        let planned = planned.map(|planned| planned.model(works, &layers));
        mat.planned = planned
            .transpose()
            .map_err(|wrong| wrong.inside("what was planned before it was cut"))?
            .map(Box::new);
        Ok(mat)
    }
}

impl Planned {
    fn model(
        self,
        works: &BTreeSet<u32>,
        layers: &BTreeSet<u32>,
    ) -> Result<spec::Planned, Wrong> {
        let Self { fixing, openings, print, number } = self;
        let openings = openings.into_iter().map(|opening| opening.model(works, layers));
        Ok(spec::Planned {
            fixing: fixing.model()?,
            openings: openings.collect::<Result<_, _>>()?,
            print: which(print, number, "the mat that is cut")?,
        })
    }
}

/// The print that `what` names, by its id in the record or by its number.
fn which(
    print: Option<Count>,
    number: Option<Number>,
    what: &str,
) -> Result<Option<spec::Which>, Wrong> {
    match (print, number) {
        (None, None) => Ok(None),
        (Some(print), None) => Ok(Some(spec::Which::Recorded(print.0))),
        (None, Some(number)) => Ok(Some(spec::Which::Numbered(number.0))),
        (Some(print), Some(_)) => Err(Wrong::new(format!(
            "{what} names print {} and a number, and one of them tells which print it was: take \
             the other out",
            print.0
        ))),
    }
}

impl Entry {
    fn model(self) -> Result<spec::Entry, Wrong> {
        let Self { when, kind, text, print, number, step } = self;
        let kind = kind.model();
        let which = which(print, number, "a tick of the log")?;
        let known = which.is_some() || !step.is_empty();
        if known && kind != spec::EntryKind::Tick {
            return Err(Wrong::new(format!(
                "the entry \"{text}\" of the log is no tick and names a print or a step: take \
                 that out"
            )));
        }
        let ticked = known.then_some(spec::Ticked { print: which, step });
        Ok(spec::Entry { when, kind, text, ticked })
    }
}

impl Cut {
    /// Tells the mat of it.
    fn put(self, mat: &mut spec::Mat) -> Result<(), Wrong> {
        let Self { opening, layer, sight, top, right, bottom, left } = self;
        let layers: BTreeSet<u32> = mat.layers.iter().map(|layer| layer.id.0).collect();
        let openings: BTreeSet<u32> = mat.openings.iter().map(|opening| opening.id.0).collect();
        let unknown = |what: &str, id: u32, ids: &BTreeSet<u32>| {
            Wrong::new(format!(
                "a window that was cut names {what} {id}, which is not in the mat: one of its \
                 {what}s ({}) is wanted",
                listed(ids)
            ))
        };
        if !layers.contains(&layer.0) {
            return Err(unknown("layer", layer.0, &layers));
        }
        let found = mat.openings.iter_mut().find(|one| one.id.0 == opening.0);
        let found = found.ok_or_else(|| unknown("opening", opening.0, &openings))?;
        let borders = Sides::new(top.0, right.0, bottom.0, left.0);
        let came = spec::Came { sight: sight.0, borders };
        if found.cut.insert(spec::LayerId(layer.0), came).is_some() {
            return Err(Wrong::new(format!(
                "the window of layer {} in opening {} was cut twice: take one of them out",
                layer.0, opening.0
            )));
        }
        Ok(())
    }
}
