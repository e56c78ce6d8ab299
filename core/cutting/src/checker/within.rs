//! Prices sets of pieces, each at most as often as it is wanted: the plainest way.

use std::collections::BTreeMap;

use crate::problem::Problem;

/// One copy of a piece, kerf included, and what it sells for.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(super) struct Copy {
    pub(super) piece: usize,
    pub(super) w: i64,
    pub(super) h: i64,
    pub(super) turn: bool,
    pub(super) price: i64,
}

/// The smallest part that some pieces can be cut from, and how it is cut first.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
struct Shape {
    w: i64,
    h: i64,
    stages: u8,
    upright: bool,
}

/// More work than this is not done here.
const MOST_WORK: u64 = 60_000_000;

/// Whether some pieces that can be cut from one sheet together sell for more than `may`;
/// `None` where that would take too long.
pub(super) fn sells_for_more(
    problem: &Problem,
    mut copies: Vec<Copy>,
    (width, height): (i64, i64),
    may: i128,
) -> Option<bool> {
    copies.retain(|c| {
        (c.w <= width && c.h <= height) || (c.turn && c.h <= width && c.w <= height)
    });
    // The dearest for their area first.
    copies.sort_by(|a, b| {
        let dear = |a: &Copy, b: &Copy| i128::from(a.price) * i128::from(b.w) * i128::from(b.h);
        dear(b, a).cmp(&dear(a, b)).then(a.piece.cmp(&b.piece))
    });
    let limit = problem.stages.limit();
    let mut sets =
        Sets { copies, width, height, limit, may, shapes: BTreeMap::new(), work: MOST_WORK };
    let area = i128::from(width) * i128::from(height);
    sets.more_than(0, &mut Vec::new(), 0, area)
}

struct Sets {
    copies: Vec<Copy>,
    width: i64,
    height: i64,
    limit: Option<u8>,
    may: i128,
    shapes: BTreeMap<Vec<usize>, Vec<Shape>>,
    work: u64,
}

impl Sets {
    fn more_than(
        &mut self,
        from: usize,
        chosen: &mut Vec<usize>,
        worth: i128,
        area: i128,
    ) -> Option<bool> {
        if worth > self.may {
            return Some(true);
        }
        let mut refused: Option<usize> = None;
        for next in from..self.copies.len() {
            let copy = self.copies[next];
            // No more than all the area that is left at the best price for area.
            let piece = i128::from(copy.w) * i128::from(copy.h);
            if (self.may - worth) * piece >= area * i128::from(copy.price) {
                return Some(false);
            }
            // A second copy of what was left out is left out, too.
            if piece > area || refused == Some(copy.piece) {
                continue;
            }
            chosen.push(next);
            if !self.shapes_of(chosen)?.is_empty()
                && self.more_than(
                    next + 1,
                    chosen,
                    worth + i128::from(copy.price),
                    area - piece,
                )?
            {
                return Some(true);
            }
            chosen.pop();
            refused = Some(copy.piece);
        }
        Some(false)
    }

    fn shapes_of(&mut self, chosen: &[usize]) -> Option<Vec<Shape>> {
        if let Some(known) = self.shapes.get(chosen) {
            return Some(known.clone());
        }
        let mut shapes = Vec::new();
        if let [one] = chosen {
            let Copy { w, h, turn, .. } = self.copies[*one];
            self.add(&mut shapes, Shape { w, h, stages: 0, upright: true });
            if turn {
                self.add(&mut shapes, Shape { w: h, h: w, stages: 0, upright: true });
            }
        } else {
            // All ways to part them in two; the last one is always on the one side.
            let ways = 1_u64.checked_shl(u32::try_from(chosen.len()).ok()? - 1)?;
            for way in 1..ways {
                let (mut one, mut other) = (Vec::new(), Vec::new());
                for (at, copy) in chosen.iter().enumerate() {
                    if way >> at & 1 == 1 { one.push(*copy) } else { other.push(*copy) }
                }
                self.work = self.work.checked_sub(1)?;
                let (one, other) = (self.shapes_of(&one)?, self.shapes_of(&other)?);
                for a in &one {
                    for b in &other {
                        self.work = self.work.checked_sub(1)?;
                        for upright in [true, false] {
                            self.add(&mut shapes, join(*a, *b, upright));
                        }
                    }
                }
            }
        }
        self.shapes.insert(chosen.to_vec(), shapes.clone());
        Some(shapes)
    }

    fn add(&self, shapes: &mut Vec<Shape>, mut new: Shape) {
        match self.limit {
            None => (new.stages, new.upright) = (0, true),
            Some(limit) if new.stages > limit => return,
            Some(_) => {}
        }
        // Whatever comes next, a part of fewer stages needs no more of them than the other.
        let inside = |a: &Shape, b: &Shape| {
            a.w <= b.w
                && a.h <= b.h
                && (a.stages < b.stages || (a.stages, a.upright) == (b.stages, b.upright))
        };
        if new.w <= self.width
            && new.h <= self.height
            && !shapes.iter().any(|old| inside(old, &new))
        {
            shapes.retain(|old| !inside(&new, old));
            shapes.push(new);
        }
    }
}

/// Two parts cut from one whole. A part that is cut the same way first needs no stage more.
fn join(a: Shape, b: Shape, upright: bool) -> Shape {
    let stage = |part: Shape| {
        if part.stages > 0 && part.upright == upright { part.stages } else { part.stages + 1 }
    };
    let stages = stage(a).max(stage(b));
    if upright {
        Shape { w: a.w + b.w, h: a.h.max(b.h), stages, upright }
    } else {
        Shape { w: a.w.max(b.w), h: a.h + b.h, stages, upright }
    }
}
