//! What is left of a rectangle round others, for writers that fill rectangles only.

use crate::geometry::{Point, Rect, Size};
use crate::length::Length;

/// What of `whole` lies in none of `holes`, in rectangles that do not overlap, from the top
/// down and from left to right: four round one hole. Holes may overlap and stand out; one
/// without width or height takes nothing.
pub fn rest(whole: Rect, holes: &[Rect]) -> Vec<Rect> {
    let mut holes: Vec<Rect> =
        holes.iter().filter_map(|hole| hole.intersection(whole)).collect();
    holes.sort_by_key(|hole| hole.left());
    let mut levels: Vec<Length> =
        holes.iter().flat_map(|hole| [hole.top(), hole.bottom()]).collect();
    levels.extend([whole.top(), whole.bottom()]);
    levels.sort_unstable();
    levels.dedup();

    let mut parts = Vec::with_capacity(4 * holes.len() + 1);
    for pair in levels.windows(2) {
        let [top, bottom] = *pair else { continue };
        let mut part = |left: Length, right: Length| {
            let size = Size::new(right - left, bottom - top);
            if size.is_positive() {
                parts.push(Rect::new(Point::new(left, top), size));
            }
        };
        let mut left = whole.left();
        for hole in holes.iter().filter(|hole| hole.top() <= top && hole.bottom() >= bottom) {
            part(left, hole.left());
            left = left.max(hole.right());
        }
        part(left, whole.right());
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::{inches, size};

    fn at(x: &str, y: &str, extent: &str) -> Rect {
        Rect::new(Point::new(inches(x), inches(y)), size(extent))
    }

    fn area(rects: &[Rect]) -> i128 {
        let one = |rect: &Rect| {
            i128::from(rect.size.width.units()) * i128::from(rect.size.height.units())
        };
        rects.iter().map(one).sum()
    }

    #[track_caller]
    fn case(holes: &[Rect], count: usize, gone: &str) {
        let whole = Rect::at_origin(size("10x10"));
        let parts = rest(whole, holes);
        assert_eq!(parts.len(), count, "{parts:?}");
        assert_eq!(area(&[whole]) - area(&parts), area(&[at("0", "0", gone)]), "{parts:?}");
        for (index, one) in parts.iter().enumerate() {
            for other in parts[index + 1..].iter().chain(holes) {
                assert_eq!(one.intersection(*other), None, "nothing twice");
            }
        }
    }

    #[test]
    fn nothing_is_lost_and_nothing_doubled() {
        case(&[], 1, "0x0");
        case(&[at("2", "3", "4x5")], 4, "4x5");
        case(&[at("1", "1", "2x2"), at("5", "1", "2x2")], 5, "8x1");
        case(&[at("1", "1", "2x4"), at("5", "3", "2x4")], 9, "16x1");
        case(&[at("2", "2", "4x4"), at("4", "4", "4x4")], 8, "28x1");
        case(&[at("8", "8", "9x9")], 2, "2x2");
        case(&[at("-1", "-1", "20x20")], 0, "10x10");
        case(&[at("3", "3", "-1x4")], 1, "0x0");
        case(&[at("20", "3", "1x4")], 1, "0x0");
    }
}
