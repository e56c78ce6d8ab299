//! The section through the window's bottom side, on the plan sheet.

use sightedge_core::drawing::Drawing;
use sightedge_core::geometry::Side;
use sightedge_core::layout::Window;
use sightedge_core::plates::{self, Look};

use super::FIGURE;
use crate::frame::Plan;
use crate::marks::{Marks, Scale};
use crate::page::{Block, Leaf};
use crate::words::HEADING;

fn cut_through(plan: &Plan<'_>, window: &Window, scale: Scale) -> Drawing {
    // The boards' names stand in their own table.
    let mut mat = plan.mat().clone();
    for board in mat.layers.iter_mut().map(|layer| &mut layer.board) {
        board.name.clear();
    }
    mat.backing.board.name.clear();
    plates::section(
        &mat,
        plan.figures(),
        window.id,
        Side::Bottom,
        &Look::default(),
        plan.unit(),
        scale.on_thing(FIGURE),
    )
}

/// The section, as large as its place allows.
pub(super) fn section(
    plan: &Plan<'_>,
    window: &Window,
    [x, y, w, h]: [f64; 4],
    leaf: &mut Leaf,
) {
    let high = h - HEADING.pitch() - 0.8;
    let scales = [(4, 1), (2, 1), (1, 1), (1, 2), (1, 4)];
    for (paper, thing) in scales {
        let scale = Scale { paper, thing };
        let drawing = cut_through(plan, window, scale);
        let size = drawing.bounds.size;
        let [wide, tall] = [size.width, size.height].map(|length| scale.mm(length));
        if (wide > w || tall > high) && (paper, thing) != (1, 4) {
            continue;
        }
        let text = format!("Section through the bottom, {}", scale.name());
        let top = leaf.heading(x, y, w, 2, &text);
        let alt = "A section through the mat’s bottom side: boards, bevels, sheet and backing.";
        let marks = Marks::plain(&drawing, scale, true);
        let (w, h, alt) = (wide, tall, alt.to_owned());
        let y = top + ((high - tall) / 2.0).max(0.0);
        leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: marks.of(&drawing) });
        return;
    }
}
