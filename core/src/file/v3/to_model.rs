//! File to model, with what only shows when parts are held against each other.

use std::collections::BTreeSet;

use super::{Backing, Board, Inscribed, Layer, Mat, Plan, Print, Variant};
use crate::file::v1::to_model::{Wrong, differ, listed};
use crate::file::v1::{Entry, Work, to_model};
use crate::file::v2::Behind;
use crate::{material, spec};

/// As many words as one line on a print holds, and as many lines. Source: our own choice.
const LONGEST: usize = 500;
const MOST_LINES: usize = 20;

impl Plan {
    /// The document it means.
    pub(in crate::file) fn document(self) -> Result<spec::Document, Wrong> {
        let Self { version: _, id, unit, ruler, works, variants, chosen, inscribed, log } =
            self;
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
        Ok(spec::Document {
            id: id.0,
            unit: unit.model(),
            ruler: ruler.model()?,
            works: works.into_iter().map(Work::model).collect(),
            variants: variants
                .into_iter()
                .map(|variant| variant.model(&work_ids))
                .collect::<Result<_, _>>()?,
            chosen: spec::VariantId(chosen.0),
            inscribed: inscribed.map(Inscribed::model).transpose()?,
            log: log.into_iter().map(Entry::model).collect(),
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
        let Self { fixing, layers, openings, backing, exhibition, limits, notes, behind } =
            self;
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
        Ok(spec::Mat { behind, ..stack.mat(works)? })
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

impl Inscribed {
    fn model(self) -> Result<spec::Inscribed, Wrong> {
        let Self { back, behind, front, left, right, stands, print } = self;
        let Print { title, maker, taken, printed, number, numerals } = print;
        if back.len() > MOST_LINES {
            return Err(Wrong::new(format!(
                "{} lines are to be written on the back: at most {MOST_LINES} are wanted",
                back.len()
            ))
            .inside("inscribed"));
        }
        let lines = back.iter().chain([&left, &right, &stands, &title, &maker]);
        if let Some(long) = lines.map(|line| line.chars().count()).find(|n| *n > LONGEST) {
            return Err(Wrong::new(format!(
                "a line of {long} characters is on no print: at most {LONGEST} are wanted"
            ))
            .inside("inscribed"));
        }
        Ok(spec::Inscribed {
            wish: spec::Wish { back, behind: behind.0, front: front.0, left, right, stands },
            recorded: spec::Recorded {
                title,
                maker,
                taken,
                printed,
                notation: number.map(|number| number.0),
                numerals: numerals.map(|numerals| numerals.0).unwrap_or_default(),
            },
        })
    }
}
