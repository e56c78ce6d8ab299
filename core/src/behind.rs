//! All that follows behind one mat: hinges, movement and package together.

use crate::hinges::{self, HingePlan};
use crate::layout::{Layout, Window};
use crate::movement::{Movement, movement};
use crate::package::{Packed, package};
use crate::spec::{Document, Mat};

/// What follows behind the mat.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Behind {
    /// How each sheet is held and moves, in the order of the windows.
    pub sheets: Vec<Sheet>,
    /// The package and how it hangs; `None` only before anything was derived.
    pub package: Option<Packed>,
}

/// How one sheet is held and moves.
#[derive(Clone, PartialEq, Debug)]
pub struct Sheet {
    /// Its hinges.
    pub hinges: HingePlan,
    /// What humidity does to it.
    pub movement: Movement,
}

/// Derives what lies behind one mat.
pub fn behind(document: &Document, mat: &Mat, layout: &Layout) -> Behind {
    let sheet = |window: &Window| {
        let hinges = hinges::plan(mat, layout, window);
        let movement = movement(&mat.behind, hinges.held(window));
        Sheet { hinges, movement }
    };
    Behind {
        sheets: layout.exact.openings.iter().map(sheet).collect(),
        package: Some(package(document, mat, layout)),
    }
}
