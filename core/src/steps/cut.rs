//! Which layers are cut already.

use crate::layout::{Cut, Layout, Window};
use crate::spec::{Came, Mat, Opening};

/// Whether a window of that layer, counted from the top, is still to be cut.
pub(super) fn open(mat: &Mat, layout: &Layout, layer: usize) -> bool {
    mat.openings.iter().any(|opening| {
        let window = layout.exact.opening(opening.id);
        let cut = window.and_then(|window| window.layers.get(layer));
        cut.is_none_or(|cut| !is(opening, cut))
    })
}

/// The layers of a window that are cut, from the top.
pub(super) fn done<'a>(
    opening: &'a Opening,
    window: &'a Window,
) -> impl Iterator<Item = &'a Cut> {
    window.layers.iter().filter(|cut| is(opening, cut))
}

/// Whether it lies as it was cut: where the plan was changed since, what was cut no longer fits
/// it, and is cut anew.
pub(super) fn is(opening: &Opening, cut: &Cut) -> bool {
    let lies = Came { sight: cut.sight.bounds.size, borders: cut.borders };
    opening.cut.get(&cut.layer) == Some(&lies)
}
