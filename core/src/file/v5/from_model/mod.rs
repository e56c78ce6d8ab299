//! Model to file. Every part is destructured: a new field of the model does not compile until
//! it has a place here.

mod assembly;
mod mat;

use super::text::{Back, Count, Front, Measured, Number, Numerals, PlanId, Sha256, Size};
use super::{
    Choice, Entry, EntryKind, Image, Inscribed, Picture, Plan, Print, Ruler, Unit, Variant,
    WeightUnit, Work,
};
use crate::catalogue;
use crate::file::VERSION;
use crate::geometry::{self, Rect, Sides};
use crate::length::{self, Length};
use crate::spec;
use crate::weight::Weights;

impl Plan {
    /// The saved form of a document.
    pub(in crate::file) fn of(document: &spec::Document) -> Self {
        let spec::Document {
            id,
            unit,
            weights,
            ruler,
            works,
            variants,
            chosen,
            choice,
            inscribed: on_print,
            log,
        } = document;
        let to = In(*unit);
        Self {
            version: VERSION,
            id: PlanId(id.clone()),
            unit: unit_word(*unit),
            weights: weights.map(|weights| match weights {
                Weights::Pounds => WeightUnit::Pounds,
                Weights::Grams => WeightUnit::Grams,
            }),
            ruler: Ruler { unit: unit_word(ruler.unit()), parts: ruler.parts() },
            works: works.iter().map(|one| work(to, one)).collect(),
            variants: variants.iter().map(|one| variant(to, one)).collect(),
            chosen: Count(chosen.0),
            choice: choice.as_ref().map(|choice| Choice {
                when: choice.when.clone(),
                words: choice.words.clone(),
            }),
            inscribed: on_print.as_ref().map(inscribed),
            print: on_print.as_ref().and_then(|it| it.recorded.print).map(Count),
            log: log.iter().map(entry).collect(),
        }
    }
}

/// Writes lengths in one unit.
#[derive(Clone, Copy)]
struct In(length::Unit);

impl In {
    const fn length(self, length: Length) -> Measured {
        Measured(length, self.0)
    }

    const fn size(self, size: geometry::Size) -> Size {
        Size(size, self.0)
    }

    fn sides(self, sides: Sides<Length>) -> Sides<Measured> {
        sides.map(|side| self.length(side))
    }
}

const fn unit_word(unit: length::Unit) -> Unit {
    match unit {
        length::Unit::Inch => Unit::Inch,
        length::Unit::Millimetre => Unit::Millimetre,
    }
}

fn work(to: In, work: &spec::Work) -> Work {
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
        sheet: to.size(*sheet),
        image: Image { size: to.size(*size), left: to.length(at.x), top: to.length(at.y) },
    }
}

fn variant(to: In, variant: &spec::Variant) -> Variant {
    let spec::Variant { id, name, mat } = variant;
    Variant { id: Count(id.0), name: name.clone(), mat: to.mat(mat) }
}

fn inscribed(inscribed: &spec::Inscribed) -> Inscribed {
    let spec::Inscribed { lettering, recorded } = inscribed;
    let spec::Lettering { back, behind, front, left, right, already_written } = lettering;
    // Which print it is in the record is a field of the plan.
    let spec::Recorded { title, maker, taken, printed, notation, numerals, print: _ } =
        recorded;
    let usual = *numerals == catalogue::Numerals::default();
    Inscribed {
        back: back.clone(),
        behind: Back(*behind),
        front: Front(*front),
        left: left.clone(),
        right: right.clone(),
        already_written: already_written.clone(),
        print: Print {
            title: title.clone(),
            maker: maker.clone(),
            taken: *taken,
            printed: *printed,
            number: notation.map(Number),
            numerals: (!usual).then_some(Numerals(*numerals)),
        },
    }
}

/// A print by its id in the record, or by its number.
const fn which(print: Option<spec::PrintRef>) -> (Option<Count>, Option<Number>) {
    match print {
        None => (None, None),
        Some(spec::PrintRef::Recorded(id)) => (Some(Count(id)), None),
        Some(spec::PrintRef::Numbered(notation)) => (None, Some(Number(notation))),
    }
}

fn entry(entry: &spec::Entry) -> Entry {
    let spec::Entry { when, kind, text, ticked } = entry;
    let (of, step) = match ticked {
        None => (None, &[][..]),
        Some(spec::Ticked { print, step }) => (*print, step.as_slice()),
    };
    let (print, number) = which(of);
    let kind = entry_kind(*kind);
    Entry { when: when.clone(), kind, text: text.clone(), print, number, step: step.to_vec() }
}

const fn entry_kind(kind: spec::EntryKind) -> EntryKind {
    match kind {
        spec::EntryKind::Choice => EntryKind::Choice,
        spec::EntryKind::Tick => EntryKind::Tick,
        spec::EntryKind::Reference => EntryKind::Reference,
    }
}

/// What is as it was at first is left out.
fn decided<T: PartialEq, S>(part: &T, open: &T, write: impl Fn(&T) -> S) -> Option<S> {
    (part != open).then(|| write(part))
}
