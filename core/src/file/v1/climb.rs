//! Version 1 to version 2: nothing was decided behind the mat yet.

use super::{Mat, Plan, Variant};
use crate::file::v2;

impl Plan {
    /// The same plan in the form of version 2.
    pub(in crate::file) fn climb(self) -> v2::Plan {
        let Self { version: _, id, unit, ruler, works, variants, chosen, log } = self;
        v2::Plan {
            version: 2,
            id,
            unit,
            ruler,
            works,
            variants: variants.into_iter().map(Variant::climb).collect(),
            chosen,
            log,
        }
    }
}

impl Variant {
    fn climb(self) -> v2::Variant {
        let Self { id, name, mat } = self;
        let Mat { fixing, layers, openings, backing, exhibition, limits, notes } = mat;
        let mat = v2::Mat {
            fixing,
            layers,
            openings,
            backing,
            exhibition,
            limits,
            notes,
            behind: None,
        };
        v2::Variant { id, name, mat }
    }
}
