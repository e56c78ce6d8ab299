//! A frame's moulding: strips from stop to stop, mitred at the corners.

use egui::{Color32, Rect};
use sightedge_core::drawing::{Moulding, Stop};
use sightedge_core::geometry::Side;

use super::{Brush, spans};

impl Brush<'_> {
    /// The strips keep to whole pixels at the outer and the inner edge; what these edges cut is
    /// painted by itself, with its share.
    pub(super) fn moulding(&mut self, moulding: &Moulding) {
        let outer = self.pixels(moulding.outer);
        let opening = self.pixels(moulding.opening());
        let (Some(first), Some(last)) = (moulding.stops.first(), moulding.stops.last()) else {
            return;
        };
        let rim = Rect::from_min_max(outer.min.ceil(), outer.max.floor());
        let lip = Rect::from_min_max(opening.min.floor(), opening.max.ceil());
        for side in Side::ALL {
            for pair in moulding.stops.windows(2) {
                let [from, to] = pair else { continue };
                if from.at == to.at {
                    continue;
                }
                let corners = moulding.side(side, from.at, to.at).map(|corner| {
                    let at = (self.lens.screen(corner).to_vec2() * self.ppp).to_pos2();
                    let (x, y) = (at.x, at.y);
                    let (x, y) = match side {
                        Side::Top => (x, y.min(lip.top())),
                        Side::Right => (x.max(lip.right()), y),
                        Side::Bottom => (x, y.max(lip.bottom())),
                        Side::Left => (x.min(lip.left()), y),
                    };
                    (x.clamp(rim.left(), rim.right()), y.clamp(rim.top(), rim.bottom()))
                });
                let (near, far) =
                    (self.colour(from.tones.of(side)), self.colour(to.tones.of(side)));
                self.quad(corners, [near, near, far, far]);
            }
        }
        let tones =
            |stop: &Stop| Side::ALL.map(|side| (side, self.colour(stop.tones.of(side))));
        let (rims, lips) = (tones(first), tones(last));
        self.outline(outer, rim, |side| of(rims, side));
        self.rim(opening, |side| of(lips, side));
    }

    /// The pixels that the edges of `rect` cut, each with the share inside of it; `whole` are
    /// those that it covers.
    fn outline(&mut self, rect: Rect, whole: Rect, colour: impl Fn(Side) -> Color32) {
        for (x, across) in spans(rect.left(), rect.right()) {
            for (y, down) in spans(rect.top(), rect.bottom()) {
                let side = if y.1 <= whole.top() {
                    Side::Top
                } else if y.0 >= whole.bottom() {
                    Side::Bottom
                } else if x.1 <= whole.left() {
                    Side::Left
                } else if x.0 >= whole.right() {
                    Side::Right
                } else {
                    continue;
                };
                self.solid(x, y, colour(side).gamma_multiply(across * down));
            }
        }
    }
}

fn of(tones: [(Side, Color32); 4], side: Side) -> Color32 {
    let found = tones.into_iter().find(|(one, _)| *one == side);
    found.map_or(Color32::TRANSPARENT, |(_, colour)| colour)
}
