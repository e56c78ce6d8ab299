//! Model to file. Every part is destructured: a new field of the model does not compile until
//! it has a place here, in the next version's form.

use super::{Cut, Entry, Mat, Plan, Planned, Variant, WeightUnit};
use crate::file::v1::Ruler;
use crate::file::v1::from_model::{In, entry_kind, unit_word};
use crate::file::v1::text::{Count, PlanId};
use crate::file::v2::from_model::decided;
use crate::file::v3::Backing;
use crate::file::v3::from_model::{board, inscribed, layer};
use crate::file::v3::text::Number;
use crate::geometry::Sides;
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
            inscribed: wanted,
            log,
        } = document;
        let to = In(*unit);
        Self {
            version: 4,
            id: PlanId(id.clone()),
            unit: unit_word(*unit),
            weights: weights.map(|weights| match weights {
                Weights::Pounds => WeightUnit::Pounds,
                Weights::Grams => WeightUnit::Grams,
            }),
            ruler: Ruler { unit: unit_word(ruler.unit()), parts: ruler.parts() },
            works: works.iter().map(|work| to.work(work)).collect(),
            variants: variants.iter().map(|one| variant(to, one)).collect(),
            chosen: Count(chosen.0),
            inscribed: wanted.as_ref().map(inscribed),
            print: wanted.as_ref().and_then(|wanted| wanted.recorded.print).map(Count),
            log: log.iter().map(entry).collect(),
        }
    }
}

fn variant(to: In, variant: &spec::Variant) -> Variant {
    let spec::Variant { id, name, mat } = variant;
    let spec::Mat {
        fixing,
        layers,
        openings,
        backing,
        exhibition,
        limits,
        notes,
        behind,
        planned: before,
    } = mat;
    let spec::Backing { size, board: behind_all } = backing;
    Variant {
        id: Count(id.0),
        name: name.clone(),
        mat: Mat {
            fixing: to.fixing(*fixing),
            layers: layers.iter().map(|one| layer(to, one)).collect(),
            openings: openings.iter().map(|opening| to.opening(opening)).collect(),
            cut: openings.iter().flat_map(|opening| cut(to, opening)).collect(),
            backing: Backing {
                size: size.map(|size| to.size(size)),
                board: board(to, behind_all),
            },
            exhibition: *exhibition,
            limits: to.limits(*limits),
            notes: notes.clone(),
            behind: decided(behind, &spec::Behind::default(), |behind| to.behind(behind)),
            planned: before.as_deref().map(|before| planned(to, before)),
        },
    }
}

fn planned(to: In, planned: &spec::Planned) -> Planned {
    let spec::Planned { fixing, openings, print } = planned;
    let (print, number) = which(*print);
    Planned {
        fixing: to.fixing(*fixing),
        openings: openings.iter().map(|opening| to.opening(opening)).collect(),
        print,
        number,
    }
}

/// A print by its id in the record, or by its number.
const fn which(print: Option<spec::Which>) -> (Option<Count>, Option<Number>) {
    match print {
        None => (None, None),
        Some(spec::Which::Recorded(id)) => (Some(Count(id)), None),
        Some(spec::Which::Numbered(notation)) => (None, Some(Number(notation))),
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

/// The layers whose window was cut.
fn cut(to: In, opening: &spec::Opening) -> impl Iterator<Item = Cut> {
    opening.cut.iter().map(move |(layer, came)| {
        let spec::Came { sight, borders } = came;
        let Sides { top, right, bottom, left } = to.sides(*borders);
        let (opening, layer) = (Count(opening.id.0), Count(layer.0));
        Cut { opening, layer, sight: to.size(*sight), top, right, bottom, left }
    })
}
