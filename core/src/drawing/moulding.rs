//! A frame's moulding, seen from the front: four mitred sides.

use super::Tone;
use crate::geometry::{Point, Rect, Side, Sides};
use crate::length::Length;

/// Four mitred sides of one moulding. From the outer edge inwards its colour runs through
/// `stops`, evenly in linear light between one and the next; two at one place are an edge.
#[derive(Clone, PartialEq, Debug)]
pub struct Moulding {
    /// The frame from outside.
    pub outer: Rect,
    /// How wide its face is.
    pub face: Length,
    /// From the outer edge to the inner one; at least one.
    pub stops: Vec<Stop>,
}

/// The colour of a moulding at one place of its face.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Stop {
    /// How far inside the outer edge.
    pub at: Length,
    /// The colour of each side there.
    pub tones: Sides<Tone>,
}

impl Moulding {
    /// Where the frame's opening begins: its inner edge.
    pub fn opening(&self) -> Rect {
        self.inside(self.face)
    }

    /// The rectangle so far inside the outer edge.
    pub fn inside(&self, at: Length) -> Rect {
        self.outer.inset(Sides::all(at))
    }

    /// One side between two distances from the outer edge, mitred: see [`mitred`].
    pub fn side(&self, side: Side, from: Length, to: Length) -> [Point; 4] {
        mitred(self.inside(from), self.inside(to), side)
    }

    /// The colour of `side`, `at_mm` inside the outer edge.
    pub fn tone(&self, side: Side, at_mm: f64) -> Tone {
        let next = self.stops.partition_point(|stop| stop.at.to_mm() <= at_mm);
        let of = |stop: &Stop| stop.tones.of(side);
        match (next.checked_sub(1).and_then(|last| self.stops.get(last)), self.stops.get(next))
        {
            (None, None) => Tone::default(),
            (Some(one), None) | (None, Some(one)) => of(one),
            (Some(before), Some(after)) => {
                let run = (after.at - before.at).to_mm();
                of(before).mixed(of(after), share((at_mm - before.at.to_mm()) / run))
            }
        }
    }
}

/// One side of what lies between two rectangles, mitred where it meets the next: along the outer
/// one, then back along the inner one.
pub fn mitred(outer: Rect, inner: Rect, side: Side) -> [Point; 4] {
    let corners = |rect: Rect| {
        let (left, top, right, bottom) = (rect.left(), rect.top(), rect.right(), rect.bottom());
        match side {
            Side::Top => [Point::new(left, top), Point::new(right, top)],
            Side::Right => [Point::new(right, top), Point::new(right, bottom)],
            Side::Bottom => [Point::new(right, bottom), Point::new(left, bottom)],
            Side::Left => [Point::new(left, bottom), Point::new(left, top)],
        }
    };
    let ([a, b], [d, c]) = (corners(outer), corners(inner));
    [a, b, c, d]
}

#[expect(clippy::as_conversions, clippy::cast_possible_truncation, reason = "a share of 1")]
fn share(of: f64) -> f32 {
    of.clamp(0.0, 1.0) as f32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Size;

    fn moulding() -> Moulding {
        let stop = |mm, grey| Stop { at: Length::mm(mm), tones: Sides::all(Tone::grey(grey)) };
        Moulding {
            outer: Rect::at_origin(Size::new(Length::mm(200), Length::mm(100))),
            face: Length::mm(20),
            stops: vec![stop(0, 0.2), stop(10, 0.4), stop(10, 0.8), stop(20, 0.8)],
        }
    }

    #[test]
    fn colours_run_evenly_and_edges_are_sharp() {
        let moulding = moulding();
        let grey = |at| moulding.tone(Side::Top, at).red;
        assert!((grey(5.0) - 0.3).abs() < 1e-6, "{}", grey(5.0));
        assert!((grey(9.999) - 0.4).abs() < 1e-3 && (grey(10.001) - 0.8).abs() < 1e-3);
        assert!((grey(-1.0) - 0.2).abs() < 1e-6 && (grey(30.0) - 0.8).abs() < 1e-6);
    }

    #[test]
    fn sides_meet_in_mitres() {
        let moulding = moulding();
        let mm = |x, y| Point::new(Length::mm(x), Length::mm(y));
        let top = moulding.side(Side::Top, Length::ZERO, moulding.face);
        assert_eq!(top, [mm(0, 0), mm(200, 0), mm(180, 20), mm(20, 20)]);
        let right = moulding.side(Side::Right, Length::ZERO, moulding.face);
        assert_eq!((right[0], right[3]), (top[1], top[2]), "it begins where the top one ends");
        assert_eq!(moulding.opening().at, mm(20, 20));
    }
}
