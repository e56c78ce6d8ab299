//! One mat of a plan as a small or large piece, wherever it is shown apart from its board.

use egui::{Pos2, Rect};
use sightedge_core::derived::Derived;
use sightedge_core::geometry::Rect as BoardRect;
use sightedge_core::plates::{self, Look};
use sightedge_core::spec::Variant;

use super::lens::mm;
use super::{Lens, Shows, overlay, paint};
use crate::window::textures::Shown;

/// A mat with all that follows from it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Piece<'a> {
    pub(crate) variant: &'a Variant,
    pub(crate) derived: &'a Derived,
    /// Whether it is shown in its frame, where it has one.
    pub(crate) framed: bool,
}

/// How far a piece reaches from its picture's middle, in millimetres.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Reach {
    pub(crate) left: f32,
    pub(crate) right: f32,
    pub(crate) up: f32,
    pub(crate) down: f32,
}

impl Reach {
    pub(crate) fn width(self) -> f32 {
        self.left + self.right
    }
}

impl Piece<'_> {
    fn packed(&self) -> Option<&sightedge_core::package::Packed> {
        self.derived.assembly.package.as_ref().filter(|_| self.framed)
    }

    /// What is outermost of it, from the board's top left corner.
    pub(crate) fn outermost(&self) -> BoardRect {
        plates::outermost(&self.derived.layout.exact, self.packed())
    }

    pub(crate) fn reach(&self) -> Reach {
        let (whole, at) = (self.outermost(), plates::middle(&self.derived.layout.exact));
        Reach {
            left: mm(at.x - whole.left()),
            right: mm(whole.right() - at.x),
            up: mm(at.y - whole.top()),
            down: mm(whole.bottom() - at.y),
        }
    }

    /// Paints it with its picture's middle at `at`, at so many points a millimetre; gives where it
    /// lies.
    pub(crate) fn paint(
        &self,
        painter: &egui::Painter,
        (at, scale): (Pos2, f32),
        shows: Shows,
        pictures: &[Shown],
    ) -> Rect {
        let figures = &self.derived.layout.exact;
        let lens = Lens { origin: Pos2::ZERO, scale }.with(plates::middle(figures), at);
        let lens = lens.on_pixels(painter.pixels_per_point());
        let look = Look { surround: shows.surround, ..Look::default() };
        let mat = &self.variant.mat;
        let drawing = plates::finished(mat, figures, self.packed(), &look);
        let board = mat.layers.first().map(|layer| layer.board.colour);
        let inks = overlay::inks(shows.surround, board);
        paint::paint(painter, lens, &drawing, inks, shows.vision, &|_| pictures.to_vec());
        lens.screen_rect(self.outermost())
    }
}

/// The largest scale at which pieces side by side, `gap` points apart, and each with at least
/// `least` points of width, fit in a room: all at one scale, their pictures in line.
pub(crate) fn scale_in_row(reaches: &[Reach], room: egui::Vec2, gap: f32, least: f32) -> f32 {
    let count = f32::from(u8::try_from(reaches.len().max(1)).unwrap_or(u8::MAX));
    let most = |of: fn(&Reach) -> f32| reaches.iter().map(of).fold(1.0_f32, f32::max);
    let tall = most(|one| one.up) + most(|one| one.down);
    let down = room.y / tall;
    // Narrow ones still take the least width: the others share what is left.
    let mut across = (room.x - gap * (count - 1.0))
        / reaches.iter().map(|one| one.width()).sum::<f32>().max(1.0);
    for _ in 0..4 {
        let (mut wide, mut taken) = (0.0, gap * (count - 1.0));
        for one in reaches {
            if one.width() * across < least {
                taken += least;
            } else {
                wide += one.width();
            }
        }
        if wide > 0.0 {
            across = ((room.x - taken) / wide).max(0.001);
        }
    }
    down.min(across).max(0.001)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reach(width: f32, height: f32) -> Reach {
        Reach { left: width / 2.0, right: width / 2.0, up: height / 2.0, down: height / 2.0 }
    }

    #[test]
    fn a_row_fits_its_room_at_one_scale() {
        let row = [reach(400.0, 500.0), reach(600.0, 800.0), reach(100.0, 150.0)];
        let room = egui::vec2(1000.0, 500.0);
        let scale = scale_in_row(&row, room, 20.0, 120.0);
        let wide: f32 = row.iter().map(|one| (one.width() * scale).max(120.0)).sum();
        assert!(wide + 40.0 <= room.x + 0.5, "{wide}");
        assert!(800.0 * scale <= room.y + 0.5, "{scale}");
        assert!(scale > 0.5, "the room is used: {scale}");
    }
}
