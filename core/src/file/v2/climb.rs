//! Version 2 to version 3: nothing was decided of inscriptions, any board could be turned, and
//! no plan knew its boards' mass.

use super::{Mat, Plan, Variant};
use crate::file::v1;
use crate::file::v3;

impl Plan {
    /// The same plan in the form of version 3.
    pub(in crate::file) fn climb(self) -> v3::Plan {
        let Self { version: _, id, unit, ruler, works, variants, chosen, log } = self;
        v3::Plan {
            version: 3,
            id,
            unit,
            ruler,
            works,
            variants: variants.into_iter().map(Variant::climb).collect(),
            chosen,
            inscribed: None,
            log,
        }
    }
}

impl Variant {
    fn climb(self) -> v3::Variant {
        let Self { id, name, mat } = self;
        let Mat { fixing, layers, openings, backing, exhibition, limits, notes, behind } = mat;
        let mat = v3::Mat {
            fixing,
            layers: layers.into_iter().map(layer).collect(),
            openings,
            backing: v3::Backing { size: backing.size, board: board(backing.board) },
            exhibition,
            limits,
            notes,
            behind,
        };
        v3::Variant { id, name, mat }
    }
}

fn layer(layer: v1::Layer) -> v3::Layer {
    let v1::Layer { id, board: of, bevel } = layer;
    v3::Layer { id, board: board(of), bevel }
}

fn board(board: v1::Board) -> v3::Board {
    let v1::Board { id, name, colour, thickness, grade } = board;
    v3::Board { id, name, colour, thickness, grade, turns: true, mass_gsm: None }
}
