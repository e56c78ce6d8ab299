//! Parting a true-size drawing over pages: each tile holds what lies in it and nothing else,
//! and overlaps its neighbours.

use sightedge_core::drawing::{Drawing, Item, Line};
use sightedge_core::geometry::{Point, Rect, Size};
use sightedge_core::length::Length;

/// How far neighbours overlap at least.
pub(crate) const OVERLAP: Length = Length::mm(10);

/// The tiles that hold `whole`, each no larger than `most`, row by row, evenly spread: none is
/// half empty and all overlap.
pub(crate) fn tiles(whole: Rect, most: Size) -> (usize, Vec<Rect>) {
    let across = starts(whole.size.width, most.width);
    let down = starts(whole.size.height, most.height);
    let size = Size::new(whole.size.width.min(most.width), whole.size.height.min(most.height));
    let at = |x: &Length, y: &Length| Point::new(whole.left() + *x, whole.top() + *y);
    let rows = down.iter().flat_map(|y| across.iter().map(|x| Rect::new(at(x, y), size)));
    (across.len(), rows.collect())
}

/// Where tiles of `most` begin along `whole`.
fn starts(whole: Length, most: Length) -> Vec<Length> {
    let step = most - OVERLAP;
    if whole <= most || !step.is_positive() {
        return vec![Length::ZERO];
    }
    // As few as reach over it; then spread so that the last ends where the whole ends.
    let gaps = (whole - most).units().div_euclid(step.units())
        + i64::from((whole - most).units().rem_euclid(step.units()) != 0);
    let travel = whole - most;
    (0..=gaps).map(|n| travel.scaled(i128::from(n), i128::from(gaps))).collect()
}

/// What of a drawing lies within `tile`: lines are cut at its edge, a text is kept where all of
/// it lies inside.
pub(crate) fn clipped(drawing: &Drawing, tile: Rect) -> Drawing {
    let mut items = Vec::new();
    for item in &drawing.items {
        match item {
            Item::Line(line) => {
                let points = &line.points;
                let back = line.closed.then(|| (points.last(), points.first()));
                let pairs =
                    points.windows(2).map(|pair| (pair.first(), pair.last())).chain(back);
                for (from, to) in pairs {
                    let (Some(from), Some(to)) = (from, to) else { continue };
                    if let Some(points) = within(*from, *to, tile) {
                        let points = points.to_vec();
                        items.push(Item::Line(Line { points, closed: false, pen: line.pen }));
                    }
                }
            }
            Item::Text(text) if text.bounds().intersection(tile) == Some(text.bounds()) => {
                items.push(item.clone());
            }
            _ => {}
        }
    }
    Drawing { bounds: tile, ground: None, items }
}

/// What of a straight line lies within a rectangle (Liang and Barsky, 1984).
fn within(from: Point, to: Point, tile: Rect) -> Option<[Point; 2]> {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    // Entry and exit as shares of the line: over / under with under above zero.
    let (mut enter, mut leave) = ((0_i128, 1_i128), (1_i128, 1_i128));
    for (step, room) in [
        (-dx, from.x - tile.left()),
        (dx, tile.right() - from.x),
        (-dy, from.y - tile.top()),
        (dy, tile.bottom() - from.y),
    ] {
        let (step, room) = (i128::from(step.units()), i128::from(room.units()));
        if step == 0 {
            if room < 0 {
                return None;
            }
        } else if step < 0 {
            let share = (-room, -step);
            if less(enter, share) {
                enter = share;
            }
        } else if less((room, step), leave) {
            leave = (room, step);
        }
    }
    if !less(enter, leave) {
        return None;
    }
    let at = |(over, under): (i128, i128)| {
        Point::new(from.x + dx.scaled(over, under), from.y + dy.scaled(over, under))
    };
    Some([at(enter), at(leave)])
}

fn less(a: (i128, i128), b: (i128, i128)) -> bool {
    a.0 * b.1 < b.0 * a.1
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tiles_overlap_and_reach_the_ends() {
        for (whole, most, wanted) in
            [(508, 271, 2), (200, 271, 1), (271, 271, 1), (600, 271, 3)]
        {
            let whole = Rect::at_origin(Size::new(Length::mm(whole), Length::mm(100)));
            let (across, tiles) = tiles(whole, Size::new(Length::mm(most), Length::mm(150)));
            assert_eq!((across, tiles.len()), (wanted, wanted), "{whole:?}");
            assert_eq!(tiles.last().map(|tile| tile.right()), Some(whole.right()));
            for pair in tiles.windows(2) {
                assert!(pair[0].right() - pair[1].left() >= OVERLAP, "{pair:?}");
            }
        }
    }

    #[test]
    fn lines_end_at_the_edge() {
        let tile = Rect::at_origin(Size::new(Length::mm(10), Length::mm(10)));
        let at = |x, y| Point::new(Length::mm(x), Length::mm(y));
        assert_eq!(within(at(-5, 5), at(15, 5), tile), Some([at(0, 5), at(10, 5)]));
        assert_eq!(within(at(-5, -5), at(5, 5), tile), Some([at(0, 0), at(5, 5)]));
        assert_eq!(within(at(2, 3), at(4, 5), tile), Some([at(2, 3), at(4, 5)]));
        assert_eq!(within(at(-5, 12), at(15, 12), tile), None);
        assert_eq!(within(at(-5, 6), at(4, 20), tile), None);
    }
}
