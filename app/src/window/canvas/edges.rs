//! Where the handles of a mat lie on the screen.

use egui::Rect;
use sightedge_core::geometry::Side;

use super::GRIP;
use super::lens::Lens;
use crate::window::handle::{Handle, HandleContext};

/// The strip or area that takes hold of a handle.
pub(super) fn grip(handle: Handle, cx: HandleContext<'_>, lens: Lens) -> Option<Rect> {
    match handle {
        Handle::Window(id) | Handle::Sheet(id) => {
            let sight = cx.layout.exact.opening(id)?.sight;
            Some(lens.screen_rect(sight).shrink(GRIP))
        }
        _ => edge_of(handle, cx, lens).map(|edge| edge.expand(GRIP)),
    }
}

/// The edge that a handle moves, as a line on the screen.
pub(super) fn edge_of(handle: Handle, cx: HandleContext<'_>, lens: Lens) -> Option<Rect> {
    let side = handle.side()?;
    let rect = lens.screen_rect(handle.rect(cx)?);
    Some(match side {
        Side::Top => Rect::from_min_max(rect.left_top(), rect.right_top()),
        Side::Right => Rect::from_min_max(rect.right_top(), rect.right_bottom()),
        Side::Bottom => Rect::from_min_max(rect.left_bottom(), rect.right_bottom()),
        Side::Left => Rect::from_min_max(rect.left_top(), rect.left_bottom()),
    })
}
