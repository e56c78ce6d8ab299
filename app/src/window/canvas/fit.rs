//! Where the board is seen when all of it is shown: in the middle, with its dimensions, and at one
//! scale whichever of the plan's mats is in front.

use egui::Rect;
use sightedge_core::drawing::around;
use sightedge_core::geometry::{Point, Rect as BoardRect};
use sightedge_core::plates;

use super::{Lens, Shows, overlay};
use crate::window::handle::HandleContext;
use crate::window::session::PlanSession;

/// The room that all mats of the plan take, laid over each other with their pictures in line: so
/// each is seen at the same scale, and the picture stays in its place when another mat comes to
/// the front.
pub(super) fn whole(session: &PlanSession, cx: HandleContext<'_>, shows: Shows) -> BoardRect {
    let middle = plates::middle(&cx.layout.exact);
    let own = BoardRect::at_origin(cx.layout.exact.outer);
    session.mats().fold(own, |whole, (_, derived)| {
        let figures = &derived.layout.exact;
        let packed = derived.assembly.package.as_ref().filter(|_| shows.frame);
        let mut piece = plates::outermost(figures, packed);
        let at = plates::middle(figures);
        piece.at = Point::new(piece.at.x + middle.x - at.x, piece.at.y + middle.y - at.y);
        around(whole, piece)
    })
}

/// A lens that shows any of the plan's mats whole, with its dimensions, at the same scale and with
/// the picture in the same place: as the widest and the tallest of them want it.
pub(super) fn fit_all(
    session: &PlanSession,
    front: HandleContext<'_>,
    shows: Shows,
    room: Rect,
) -> Lens {
    let mats = || session.mats().map(|(variant, derived)| (variant, &derived.layout));
    let widest = mats().max_by_key(|(_, layout)| layout.exact.outer.width);
    let tallest = mats().max_by_key(|(_, layout)| layout.exact.outer.height);
    let fits = widest.into_iter().chain(tallest).map(|(variant, layout)| {
        let cx = HandleContext { document: front.document, variant, layout };
        let lens = fitted(cx, shows, room, whole(session, cx, shows));
        (lens, lens.screen(plates::middle(&layout.exact)))
    });
    let least = fits.min_by(|(one, _), (other, _)| one.scale.total_cmp(&other.scale));
    least.map_or_else(
        || fitted(front, shows, room, whole(session, front, shows)),
        |(lens, at)| lens.with(plates::middle(&front.layout.exact), at),
    )
}

/// All of `whole` in `room`, with some ground round it, and with all dimensions of the board.
pub(super) fn fitted(
    cx: HandleContext<'_>,
    shows: Shows,
    room: Rect,
    whole: BoardRect,
) -> Lens {
    /// What is left round the board at least, in points: there is more with dimensions.
    const GROUND: (f32, f32) = (40.0, 72.0);
    let board = BoardRect::at_origin(cx.layout.exact.outer);
    let ground = if shows.dimensions { GROUND.1 } else { GROUND.0 };
    let mut left = room.shrink(ground.min(room.width() / 6.0));
    let mut lens = Lens::fit(whole, left);
    if shows.dimensions {
        let (figures, unit) = (&cx.layout.bench, cx.document.unit);
        // Figures keep their size on the screen, so that what stands out beside the board is as
        // wide beside a smaller one, or wider where a figure then leaves its place.
        let goal = room.shrink(2.0);
        for _ in 0..12 {
            let height = lens.length(overlay::FIGURE);
            let all =
                lens.screen_rect(plates::dimensions_on_screen(figures, unit, height).bounds);
            if room.contains_rect(all) {
                break;
            }
            let board = lens.screen_rect(board);
            left = left.intersect(Rect::from_min_max(
                goal.min + (board.min - all.min),
                goal.max - (all.max - board.max),
            ));
            lens = Lens::fit(whole, left);
        }
    }
    lens
}

#[cfg(test)]
mod tests {
    use sightedge_core::layout::layout;
    use sightedge_core::length::{Length, Unit};
    use sightedge_core::spec::{BoardBy, Document, Placement, Ruler};

    use egui::vec2;

    use super::*;
    use crate::window::handle::tests::{inches, outer, plan, size};

    #[track_caller]
    fn case(document: &Document, room: (f32, f32)) {
        let variant = document.chosen().unwrap();
        let layout = layout(document, &variant.mat);
        let cx = HandleContext { document, variant, layout: &layout };
        let room = Rect::from_min_size(egui::pos2(480.0, 40.0), vec2(room.0, room.1));
        let (dimensions, surround) = (true, 128);
        let (hidden, corner, frame, magnifier, vision) = (false, false, false, false, None);
        let shows = Shows { dimensions, hidden, corner, frame, surround, vision, magnifier };
        let board = BoardRect::at_origin(layout.exact.outer);
        let lens = fitted(cx, shows, room, board);
        let height = lens.length(overlay::FIGURE);
        let all = plates::dimensions_on_screen(&layout.bench, document.unit, height).bounds;
        let seen = lens.screen_rect(all);
        assert!(room.contains_rect(seen), "{seen:?} in {room:?}");
        let board = lens.screen_rect(BoardRect::at_origin(layout.exact.outer));
        assert!(
            board.width() > 0.4 * room.width() || board.height() > 0.4 * room.height(),
            "{board:?} in {room:?}, with figures {seen:?}"
        );
    }

    /// What the panels leave of windows of 1280 × 800 and 2560 × 1440.
    #[test]
    fn nothing_of_the_dimension_lines_is_cut_off() {
        let long = |mut document: Document| {
            // Figures of many digits: nothing lies on a mark.
            document.unit = Unit::Millimetre;
            document.ruler = Ruler::new(Unit::Millimetre, 10).unwrap();
            let size = sightedge_core::geometry::Size::new(
                Length::um(1_523_456),
                Length::um(1_987_654),
            );
            let placement = Placement::BottomExtra(Length::um(33_333));
            document.variants[0].mat.board_by = BoardBy::Outer { size, placement };
            document
        };
        let wide = BoardBy::Outer { size: size("60x20"), placement: Placement::Centred };
        let narrow = BoardBy::Outer {
            size: size("12x16 3/128"),
            placement: Placement::Free { left: inches("13/64"), top: inches("33/128") },
        };
        let fine = |mut document: Document| {
            document.ruler = Ruler::new(Unit::Inch, 128).unwrap();
            document
        };
        for room in [(532.0, 720.0), (1812.0, 1360.0)] {
            for undermats in [0, 1, 3] {
                case(&plan(outer(Placement::Centred), undermats), room);
                case(&long(plan(outer(Placement::Centred), undermats)), room);
                case(&plan(wide, undermats), room);
                case(&fine(plan(narrow, undermats)), room);
            }
        }
    }
}
