//! Version 3 to version 4: no plan knew which of its windows were cut, and no tick its print.

use super::{Mat, Plan, Variant};
use crate::file::v1::Entry;
use crate::file::v4;

impl Plan {
    /// The same plan in the form of version 4.
    pub(in crate::file) fn climb(self) -> v4::Plan {
        let Self { version: _, id, unit, ruler, works, variants, chosen, inscribed, log } =
            self;
        let variants = variants.into_iter().map(Variant::climb).collect();
        let log = log.into_iter().map(ticked).collect();
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
            print: None,
            log,
        }
    }
}

fn ticked(entry: Entry) -> v4::Entry {
    let Entry { when, kind, text } = entry;
    v4::Entry { when, kind, text, print: None, number: None, step: Vec::new() }
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
            planned: None,
        };
        v4::Variant { id, name, mat }
    }
}
