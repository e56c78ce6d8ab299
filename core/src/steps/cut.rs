//! Which layers are cut already.

use crate::layout::{Cut, Layout, Window};
use crate::spec::Mat;

/// Whether a window of that layer, counted from the top, is still to be cut.
pub(super) fn open(mat: &Mat, layout: &Layout, layer: usize) -> bool {
    mat.openings.iter().any(|opening| {
        let window = layout.exact.opening(opening.id);
        let cut = window.and_then(|window| window.layers.get(layer));
        cut.is_none_or(|cut| !cut.done)
    })
}

/// The layers of a window that are cut, from the top.
pub(super) fn done(window: &Window) -> impl Iterator<Item = &Cut> {
    window.layers.iter().filter(|cut| cut.done)
}
