//! Model to file. Every part is destructured: a new field of the model does not compile until
//! it has a place here, in the next version's form.

use super::{Back, Board, Count, Front, Inscribed, Layer, Number, Numerals, Print};
use crate::catalogue;
use crate::file::v1::from_model::{In, bevel};
use crate::file::v1::text::{Colour, Grade, Thickness};
use crate::{material, spec};

pub(in crate::file) fn layer(to: In, layer: &spec::Layer) -> Layer {
    let spec::Layer { id, board: of, bevel: cut } = layer;
    Layer { id: Count(id.0), board: board(to, of), bevel: bevel(*cut) }
}

pub(in crate::file) fn board(to: In, board: &material::Board) -> Board {
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

pub(in crate::file) fn inscribed(inscribed: &spec::Inscribed) -> Inscribed {
    let spec::Inscribed { wish, recorded } = inscribed;
    let spec::Wish { back, behind, front, left, right, stands } = wish;
    // Which print it is in the record is version 4's to write.
    let spec::Recorded { title, maker, taken, printed, notation, numerals, print: _ } =
        recorded;
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
