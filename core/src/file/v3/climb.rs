//! Version 3 to version 4: no plan knew which of its windows were cut.

use super::{Mat, Plan, Variant};
use crate::file::v4;

impl Plan {
    /// The same plan in the form of version 4.
    pub(in crate::file) fn climb(self) -> v4::Plan {
        let Self { version: _, id, unit, ruler, works, variants, chosen, inscribed, log } =
            self;
        let variants = variants.into_iter().map(Variant::climb).collect();
        v4::Plan {
            version: 4,
            id,
            unit,
            weights: None,
            ruler,
            works,
            variants,
            chosen,
            inscribed,
            log,
        }
    }
}

impl Variant {
    fn climb(self) -> v4::Variant {
        let Self { id, name, mat } = self;
        let Mat { fixing, layers, openings, backing, exhibition, limits, notes, behind } = mat;
        let cut = Vec::new();
        let mat = v4::Mat {
            fixing,
            layers,
            openings,
            cut,
            backing,
            exhibition,
            limits,
            notes,
            behind,
        };
        v4::Variant { id, name, mat }
    }
}
