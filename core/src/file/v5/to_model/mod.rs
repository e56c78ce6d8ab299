//! File to model, with what only shows when parts are held against each other: ids used twice,
//! ids that name nothing, counts.

mod assembly;
mod mat;

use std::collections::BTreeSet;

use super::text::{Count, Number};
use super::{
    Entry, EntryKind, Image, Inscribed, Picture, Plan, Print, Ruler, Unit, Variant, WeightUnit,
    Work,
};
use crate::geometry::{Point, Rect};
use crate::length;
use crate::spec;
use crate::weight::Weights;

/// As many words as one line on a print holds, and as many lines. Source: our own choice.
const LONGEST: usize = 500;
const MOST_LINES: usize = 20;

/// What makes no sense in a plan that is well formed: where, and what was found and wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::file) struct Inconsistency {
    /// As in `variant 1, opening 2`; empty for the plan itself.
    pub(in crate::file) place: String,
    /// What was found, and what is wanted.
    pub(in crate::file) words: String,
}

impl Inconsistency {
    fn new(words: String) -> Self {
        Self { place: String::new(), words }
    }

    /// The same, found inside of `place`.
    fn inside(mut self, place: &str) -> Self {
        let parting = if self.place.is_empty() { "" } else { ", " };
        self.place = format!("{place}{parting}{}", self.place);
        self
    }
}

impl Plan {
    /// The document it means.
    pub(in crate::file) fn document(self) -> Result<spec::Document, Inconsistency> {
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
        let variant_ids = differ("mat", variants.iter().map(|variant| variant.id.0))?;
        if !variant_ids.contains(&chosen.0) {
            return Err(Inconsistency::new(format!(
                "the chosen mat is {}, which is not in the plan: use one of its mats ({})",
                chosen.0,
                listed(&variant_ids)
            )));
        }
        let mut inscribed = inscribed.map(Inscribed::model).transpose()?;
        match (&mut inscribed, print) {
            (_, None) => {}
            (Some(inscribed), Some(print)) => inscribed.recorded.print = Some(print.0),
            (None, Some(print)) => {
                return Err(Inconsistency::new(format!(
                    "print {} is at the bench, but the plan has no inscription for it: add \
                     one, or remove the print",
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

impl Unit {
    fn model(self) -> length::Unit {
        match self {
            Self::Inch => length::Unit::Inch,
            Self::Millimetre => length::Unit::Millimetre,
        }
    }
}

impl Ruler {
    fn model(self) -> Result<spec::Ruler, Inconsistency> {
        let unit = self.unit.model();
        spec::Ruler::new(unit, self.parts).ok_or_else(|| {
            let parts: &[u16] = match unit {
                length::Unit::Inch => &spec::Ruler::INCH_PARTS,
                length::Unit::Millimetre => &spec::Ruler::MM_PARTS,
            };
            let parts: Vec<String> = parts.iter().map(u16::to_string).collect();
            Inconsistency::new(format!(
                "no ruler has {} parts of 1 {}: use one of {}",
                self.parts,
                unit.sign(),
                parts.join(", ")
            ))
            .inside("ruler")
        })
    }
}

impl Work {
    fn model(self) -> spec::Work {
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

impl Variant {
    fn model(self, works: &BTreeSet<u32>) -> Result<spec::Variant, Inconsistency> {
        let Self { id, name, mat } = self;
        let mat = mat
            .model(works)
            .map_err(|inconsistency| inconsistency.inside(&format!("mat {}", id.0)))?;
        Ok(spec::Variant { id: spec::VariantId(id.0), name, mat })
    }
}

impl Inscribed {
    fn model(self) -> Result<spec::Inscribed, Inconsistency> {
        let Self { back, behind, front, left, right, already_written, print } = self;
        let Print { title, maker, taken, printed, number, numerals } = print;
        if back.len() > MOST_LINES {
            return Err(Inconsistency::new(format!(
                "there are {} lines to write on the back: use at most {MOST_LINES}",
                back.len()
            ))
            .inside("inscribed"));
        }
        let lines = back.iter().chain([&left, &right, &already_written, &title, &maker]);
        if let Some(long) = lines.map(|line| line.chars().count()).find(|n| *n > LONGEST) {
            return Err(Inconsistency::new(format!(
                "a line to write has {long} characters: use at most {LONGEST}"
            ))
            .inside("inscribed"));
        }
        Ok(spec::Inscribed {
            lettering: spec::Lettering {
                back,
                behind: behind.0,
                front: front.0,
                left,
                right,
                already_written,
            },
            recorded: spec::Recorded {
                title,
                maker,
                taken,
                printed,
                notation: number.map(|number| number.0),
                numerals: numerals.map(|numerals| numerals.0).unwrap_or_default(),
                print: None,
            },
        })
    }
}

impl Entry {
    fn model(self) -> Result<spec::Entry, Inconsistency> {
        let Self { when, kind, text, print, number, step } = self;
        let kind = kind.model();
        let which = which(print, number, "a tick of the log")?;
        let known = which.is_some() || !step.is_empty();
        if known && kind != spec::EntryKind::Tick {
            return Err(Inconsistency::new(format!(
                "the entry \"{text}\" of the log names a print or a step, which only ticks \
                 do: remove that"
            )));
        }
        let ticked = known.then_some(spec::Ticked { print: which, step });
        Ok(spec::Entry { when, kind, text, ticked })
    }
}

impl EntryKind {
    const fn model(&self) -> spec::EntryKind {
        match self {
            Self::Choice => spec::EntryKind::Choice,
            Self::Tick => spec::EntryKind::Tick,
            Self::Reference => spec::EntryKind::Reference,
        }
    }
}

/// The print that `what` names, by its id in the record or by its number.
fn which(
    print: Option<Count>,
    number: Option<Number>,
    what: &str,
) -> Result<Option<spec::PrintRef>, Inconsistency> {
    match (print, number) {
        (None, None) => Ok(None),
        (Some(print), None) => Ok(Some(spec::PrintRef::Recorded(print.0))),
        (None, Some(number)) => Ok(Some(spec::PrintRef::Numbered(number.0))),
        (Some(print), Some(_)) => Err(Inconsistency::new(format!(
            "{what} names both print {} and a number: remove one of them",
            print.0
        ))),
    }
}

/// Ids that must differ.
fn differ(what: &str, ids: impl Iterator<Item = u32>) -> Result<BTreeSet<u32>, Inconsistency> {
    let mut seen = BTreeSet::new();
    for id in ids {
        if !seen.insert(id) {
            return Err(Inconsistency::new(format!(
                "two {what}s have the id {id}: change one of them"
            )));
        }
    }
    Ok(seen)
}

/// `1, 2 and 5`, or a few of many.
fn listed(ids: &BTreeSet<u32>) -> String {
    let some: Vec<String> = ids.iter().take(8).map(u32::to_string).collect();
    let more = if ids.len() > some.len() { ", …" } else { "" };
    if some.is_empty() { "none".to_owned() } else { format!("{}{more}", some.join(", ")) }
}
