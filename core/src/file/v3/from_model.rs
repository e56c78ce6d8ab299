//! Model to file. Every part is destructured: a new field of the model does not compile until
//! it has a place here, in the next version's form.

use super::{
    Back, Backing, Board, Count, Front, Inscribed, Layer, Mat, Number, Numerals, Plan, PlanId,
    Print, Ruler, Variant,
};
use crate::catalogue;
use crate::file::v1::from_model::{In, bevel, entry, unit_word};
use crate::file::v1::text::{Colour, Grade, Thickness};
use crate::file::v2::from_model::decided;
use crate::{material, spec};

impl Plan {
    /// The saved form of a document.
    pub(in crate::file) fn of(document: &spec::Document) -> Self {
        let spec::Document { id, unit, ruler, works, variants, chosen, inscribed: wanted, log } =
            document;
        let to = In(*unit);
        Self {
            version: 3,
            id: PlanId(id.clone()),
            unit: unit_word(*unit),
            ruler: Ruler { unit: unit_word(ruler.unit()), parts: ruler.parts() },
            works: works.iter().map(|work| to.work(work)).collect(),
            variants: variants.iter().map(|one| variant(to, one)).collect(),
            chosen: Count(chosen.0),
            inscribed: wanted.as_ref().map(inscribed),
            log: log.iter().map(entry).collect(),
        }
    }
}

fn variant(to: In, variant: &spec::Variant) -> Variant {
    let spec::Variant { id, name, mat } = variant;
    let spec::Mat { fixing, layers, openings, backing, exhibition, limits, notes, behind } =
        mat;
    let spec::Backing { size, board: behind_all } = backing;
    Variant {
        id: Count(id.0),
        name: name.clone(),
        mat: Mat {
            fixing: to.fixing(*fixing),
            layers: layers.iter().map(|one| layer(to, one)).collect(),
            openings: openings.iter().map(|opening| to.opening(opening)).collect(),
            backing: Backing {
                size: size.map(|size| to.size(size)),
                board: board(to, behind_all),
            },
            exhibition: *exhibition,
            limits: to.limits(*limits),
            notes: notes.clone(),
            behind: decided(behind, &spec::Behind::default(), |behind| to.behind(behind)),
        },
    }
}

fn layer(to: In, layer: &spec::Layer) -> Layer {
    let spec::Layer { id, board: of, bevel: cut } = layer;
    Layer { id: Count(id.0), board: board(to, of), bevel: bevel(*cut) }
}

fn board(to: In, board: &material::Board) -> Board {
    let material::Board { id, name, colour, thickness, grade, turns, mass_gsm } = board;
    Board {
        id: id.clone(),
        name: name.clone(),
        colour: Colour(*colour),
        thickness: Thickness(to.length(*thickness)),
        grade: Grade(*grade),
        turns: *turns,
        mass_gsm: *mass_gsm,
    }
}

fn inscribed(inscribed: &spec::Inscribed) -> Inscribed {
    let spec::Inscribed { wish, recorded } = inscribed;
    let spec::Wish { back, behind, front, left, right, stands } = wish;
    let spec::Recorded { title, maker, taken, printed, notation, numerals } = recorded;
    let usual = *numerals == catalogue::Numerals::default();
    Inscribed {
        back: back.clone(),
        behind: Back(*behind),
        front: Front(*front),
        left: left.clone(),
        right: right.clone(),
        stands: stands.clone(),
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
