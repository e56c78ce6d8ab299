//! How a sheet is held: which kind of hinge and why, how many, where, how large, and what
//! each bears. Pure and total; the rules judge what does not work out.
//!
//! A figure the person left open takes the usual one and shrinks with the sheet and the room
//! above it, so that what is planned here never shows, overlaps or leaves the board where
//! that is possible at all. A figure they gave is kept as it is.

mod choice;
mod tape;
mod usual;

pub use tape::to_tear;
pub use usual::Usual;

use crate::geometry::{Point, Rect, Side, Sides, Size};
use crate::layout::{Layout, Window};
use crate::length::{Length, Unit};
use crate::material::{Paper, Tissue};
use crate::movement::Held;
use crate::spec::{Assembly, HingeAt, HingeKind, Hinging, Mat, OpeningId};
use crate::weight::GRAVITY;

/// Fewest hinges. Source: Paschke 2014 ("2 or more").
pub const FEWEST: usize = 2;
/// Beyond this nothing is placed any more: a sheet of a kilometre is nonsense.
const MOST_HINGES: i64 = 64;
/// A hinge may lean sideways by this part of its free length. Source: from memory.
const LEAN: i128 = 4;
/// What each hinge is rated above what it bears. Source: common practice for hanging works.
const FACTOR: f64 = 4.0;

/// How one sheet is held.
#[derive(Clone, PartialEq, Debug)]
pub struct HingePlan {
    /// The opening it shows in.
    pub opening: OpeningId,
    /// The kind.
    pub kind: HingeKind,
    /// Why that kind, in a sentence.
    pub reason: String,
    /// From the left; empty for pockets and strips.
    pub hinges: Vec<Hinge>,
    /// How many spacing and load ask for.
    pub wanted: usize,
    /// How many the load asks for, never fewer than [`FEWEST`].
    pub needed: usize,
    /// The place of the sheet that does not move, from its top left corner.
    pub anchor: Point,
    /// From the sheet's top edge to the nearer end of board and backing, less what the tape
    /// of the mat's own hinge covers there.
    pub room_above: Length,
    /// Whether adhesive lies behind the image.
    pub behind_image: bool,
    /// Pockets: along each edge. Strips: over the sheet. Else nothing.
    pub reach: Length,
    /// The most that `reach` may be without showing.
    pub most_reach: Length,
    /// Room for the sheet in pockets and strips.
    pub slack: Length,
    /// Tape or tissue in all, off a roll as wide as a tab.
    pub tape: Length,
    /// What the sheet weighs, in grams, where its paper is known.
    pub sheet_g: Option<f64>,
    /// What each hinge bears, in newtons.
    pub load_n: Option<f64>,
    /// The same over the hold, in pascals.
    pub shear_pa: Option<f64>,
}

/// One hinge.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Hinge {
    /// Its middle, from the sheet's left edge as seen from the front.
    pub x: Length,
    /// Whether it fixes the sheet's place.
    pub locates: bool,
    /// How wide its tab is.
    pub width: Length,
    /// How far it holds onto the sheet's back.
    pub hold: Length,
    /// From the sheet's edge to the cross-piece; nothing without one.
    pub gap: Length,
    /// How far it stands up above the sheet's edge.
    pub rise: Length,
    /// How far it may lean sideways.
    pub slack: Length,
    /// The tab on the board, as seen from the front.
    pub tab: Rect,
    /// The cross-piece on the board; `None` for kinds without one there.
    pub cross: Option<Rect>,
    /// How long its tab is torn, all of it.
    pub length: Length,
    /// How long its cross-piece is torn, on the board or on the backing's back; nothing
    /// without one.
    pub cross_length: Length,
}

/// The hinge of mat and backing.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct MatHinge {
    /// The edge it runs along.
    pub edge: Side,
    /// How wide the tape is.
    pub tape: Length,
    /// Between mat and backing while both lie open.
    pub gap: Length,
    /// How long it is.
    pub length: Length,
}

/// The hinge of mat and backing: along the long side (top when lying, left when upright).
/// Source: Library of Congress; common practice.
pub fn mat_hinge(assembly: &Assembly, outer: Size, unit: Unit) -> MatHinge {
    let usual = Usual::of(unit);
    let given = assembly.mat_hinge;
    let edge =
        given.edge.unwrap_or(if outer.width >= outer.height { Side::Top } else { Side::Left });
    let length = match edge {
        Side::Top | Side::Bottom => outer.width,
        Side::Left | Side::Right => outer.height,
    };
    MatHinge {
        edge,
        tape: given.tape.unwrap_or(usual.mat_tape),
        gap: given.gap.unwrap_or(usual.mat_gap),
        length,
    }
}

/// The mass of a sheet, in grams.
pub fn sheet_mass(paper: Option<&Paper>, sheet: Size) -> Option<f64> {
    let gsm = f64::from(paper?.mass_gsm?);
    Some(gsm * sheet.width.to_mm() * sheet.height.to_mm() / 1e6)
}

/// What holds a sheet with such overlaps without adhesive on it, where anything does.
pub fn suits_without_adhesive(overlap: Sides<Length>) -> Option<HingeKind> {
    choice::without_adhesive(overlap)
}

/// How many hinges along an edge of that length: two or more, none further apart than
/// is usual.
pub fn count(edge: Length, unit: Unit) -> usize {
    let furthest = Usual::of(unit).furthest;
    let between = edge - corner_distance(edge, unit) * 2;
    let mut gaps = 1;
    while furthest * gaps < between && gaps + 1 < MOST_HINGES {
        gaps += 1;
    }
    usize::try_from(gaps + 1).unwrap_or(FEWEST)
}

/// Just inside the corners, and on small sheets a quarter in.
fn corner_distance(edge: Length, unit: Unit) -> Length {
    Usual::of(unit).from_corner.min(edge.scaled(1, 4)).max(Length::ZERO)
}

/// From a corner to an outer hinge at most: 1 in (25 mm) further than planned, on small sheets
/// an eighth of the edge. Source: common practice (about 1 in, just inside the corners).
pub fn furthest_outer(edge: Length, unit: Unit) -> Length {
    let more = Usual::of(unit).from_corner;
    corner_distance(edge, unit) + more.min(edge.scaled(1, 8)).max(Length::ZERO)
}

/// What of an edge each hinge bears: from half way to the one before it to half way to the
/// next, the outer ones to the corners. `places` from the left.
pub fn shares(edge: Length, places: &[Length]) -> Vec<Length> {
    let half_way = |index: usize| match (
        index.checked_sub(1).and_then(|n| places.get(n)),
        places.get(index),
    ) {
        (Some(before), Some(after)) => *before + (*after - *before).halves().0,
        (None, _) => Length::ZERO,
        (_, None) => edge,
    };
    (0..places.len()).map(|index| half_way(index + 1) - half_way(index)).collect()
}

/// Middles along an edge: the outer two just inside the corners, the rest even between them.
pub fn places(edge: Length, count: usize, unit: Unit) -> Vec<Length> {
    let first = corner_distance(edge, unit);
    let between = edge - first * 2;
    let gaps = i128::try_from(count.saturating_sub(1)).unwrap_or(1).max(1);
    (0..i128::try_from(count).unwrap_or(0)).map(|n| first + between.scaled(n, gaps)).collect()
}

/// How the sheet of one window is held.
pub fn plan(unit: Unit, mat: &Mat, layout: &Layout, window: &Window) -> HingePlan {
    let usual = Usual::of(unit);
    let assembly = &mat.assembly;
    let Hinging { kind: _, at, tissue, width, hold, gap, longer, slack } = &assembly.hinging;
    let sheet = window.sheet;
    let edge = sheet.size.width;
    let sheet_g = sheet_mass(assembly.paper.as_ref(), sheet.size);
    let slack = slack.unwrap_or(usual.slack);
    let room_above = room_above(unit, mat, layout, window);
    let choice = choice::choose(assembly, window, room_above >= usual.least_room());

    let width = width.unwrap_or(usual.tab.min(edge.scaled(1, 5)));
    let margin = window.image.top() - sheet.top();
    let hold = hold.unwrap_or(if margin >= usual.least_hold {
        usual.hold.min(margin)
    } else {
        usual.hold.min(sheet.size.height.scaled(1, 4))
    });
    let by_load = tissue.as_ref().and_then(|t| needed(t, width, hold, sheet_g?)).unwrap_or(0);
    let wanted = if choice.kind.sticks() { count(edge, unit).max(by_load) } else { 0 };

    let mut at: Vec<HingeAt> = match (choice.kind.sticks(), at.as_slice()) {
        (false, _) => Vec::new(),
        (true, []) => places(edge, wanted, unit)
            .into_iter()
            .enumerate()
            // The middle one: the change is then shared by both sides.
            .map(|(index, x)| HingeAt { x, locates: index == wanted.saturating_sub(1) / 2 })
            .collect(),
        (true, given) => given.to_vec(),
    };
    at.sort_by_key(|hinge| hinge.x);

    let crossed = choice.kind == HingeKind::T;
    let near = gap.unwrap_or(usual.gap.min(room_above.scaled(1, 4)).max(Length::ZERO));
    let spare = (room_above - near - usual.cross).max(Length::ZERO);
    let more = longer.unwrap_or(usual.longer.min(spare));
    let hinge = |at: &HingeAt| {
        let free = if at.locates { near } else { near + more };
        // What was left open keeps within the room there is.
        let open = gap.is_none() && longer.is_none();
        let cross_height = if open {
            usual.cross.min(room_above - free).max(Length::ZERO)
        } else {
            usual.cross
        };
        let rise = if crossed { free + cross_height } else { Length::ZERO };
        let (before, _) = width.halves();
        let left = sheet.left() + at.x - before;
        let tab_at = Point::new(left, sheet.top() - rise);
        let tab = Rect::new(tab_at, Size::new(width, hold + rise));
        let cross = crossed.then(|| cross_piece(tab, cross_height, sheet, usual));
        let leans = if crossed { free } else { hold };
        // On the backing's back a cross-piece lies over the tab that was drawn through.
        let beyond = usual.cross_beyond.min(width.scaled(1, 3));
        let (length, cross_length) = match choice.kind {
            HingeKind::PassThrough => {
                let board = mat.backing.board.thickness;
                (hold + board + usual.behind, width + beyond * 2)
            }
            // Two legs.
            HingeKind::V => (hold * 2, Length::ZERO),
            _ => (hold + rise, cross.map_or(Length::ZERO, |cross| cross.size.width)),
        };
        Hinge {
            x: at.x,
            locates: at.locates,
            width,
            hold,
            gap: if crossed { free } else { Length::ZERO },
            rise,
            slack: leans.scaled(1, LEAN),
            tab,
            cross,
            length,
            cross_length,
        }
    };
    let hinges: Vec<Hinge> = at.iter().map(hinge).collect();

    let anchor = match hinges.iter().find(|hinge| hinge.locates).or(hinges.first()) {
        Some(hinge) => Point::new(hinge.x, Length::ZERO),
        // Pockets and strips: it rests on the lower ones and moves to both sides.
        None => Point::new(edge.halves().0, sheet.size.height),
    };
    let (reach, most_reach) = reach(choice.kind, window.overlap, usual);
    let load_n = sheet_g
        .filter(|_| !hinges.is_empty())
        .map(|grams| grams / 1000.0 * GRAVITY / as_count(hinges.len()));
    let area_m2 = width.to_mm() * hold.to_mm() / 1e6;
    HingePlan {
        opening: window.id,
        kind: choice.kind,
        reason: choice.reason,
        wanted,
        needed: by_load.max(FEWEST),
        anchor,
        room_above,
        behind_image: !hinges.is_empty() && hold > margin,
        reach,
        most_reach,
        slack,
        tape: tape::in_all(&hinges),
        sheet_g,
        shear_pa: load_n.filter(|_| area_m2 > 0.0).map(|load| load / area_m2),
        load_n,
        hinges,
    }
}

/// What lies across a tab above the sheet: a little wider on both sides.
fn cross_piece(tab: Rect, height: Length, sheet: Rect, usual: Usual) -> Rect {
    // Beyond the sheet's sides it is of no use; a small tab has a small one.
    let beyond = usual.cross_beyond.min(tab.size.width.scaled(1, 3));
    let left = (tab.left() - beyond).max(sheet.left().min(tab.left()));
    let right = (tab.right() + beyond).min(sheet.right().max(tab.right()));
    Rect::new(Point::new(left, tab.top()), Size::new(right - left, height))
}

/// How far pockets or strips reach, and the most they may without showing.
fn reach(kind: HingeKind, overlap: Sides<Length>, usual: Usual) -> (Length, Length) {
    let (reach, most) = match kind {
        HingeKind::Corners => {
            let most = choice::corner_room(overlap);
            (usual.pocket.min(most), most)
        }
        HingeKind::Strips => {
            let most = overlap.least();
            (usual.hold.min(most - usual.mat_gap), most)
        }
        HingeKind::T | HingeKind::V | HingeKind::PassThrough => (Length::ZERO, Length::ZERO),
    };
    (reach.max(Length::ZERO), most)
}

/// How many hinges of such a hold a sheet needs, [`FACTOR`] times over.
fn needed(tissue: &Tissue, width: Length, hold: Length, sheet_g: f64) -> Option<usize> {
    let load = sheet_g / 1000.0 * GRAVITY * FACTOR;
    let (wide, area) = (width.to_mm() / 1e3, width.to_mm() * hold.to_mm() / 1e6);
    let joint = tissue.shear_pa.map(|pa| f64::from(pa) * area);
    let strip = tissue.tensile_n_per_m.map(|n| f64::from(n) * wide);
    let each = match (joint, strip) {
        (Some(joint), Some(strip)) => joint.min(strip),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => return None,
    };
    (1..usize::try_from(MOST_HINGES).unwrap_or(64)).find(|n| each * as_count(*n) >= load)
}

fn as_count(n: usize) -> f64 {
    u32::try_from(n).map_or(f64::MAX, f64::from)
}

/// From the sheet's top edge up to where board, backing or the mat's own hinge begins.
fn room_above(unit: Unit, mat: &Mat, layout: &Layout, window: &Window) -> Length {
    let top = layout.exact.backing.top().max(Length::ZERO);
    let own = mat_hinge(&mat.assembly, layout.exact.outer, unit);
    let taped = if own.edge == Side::Top { own.tape.halves().0 } else { Length::ZERO };
    // On a small border the tape is torn narrower; half of the room is always left.
    let room = window.sheet.top() - top;
    (room - taped.min(room.halves().0.max(Length::ZERO))).max(Length::ZERO)
}

impl HingePlan {
    /// What moves with humidity.
    pub fn held(&self, window: &Window) -> Held {
        Held {
            sheet: window.sheet.size,
            overlap: window.overlap,
            anchor: self.anchor,
            hinges: self.hinges.iter().map(|hinge| hinge.x).collect(),
        }
    }

    /// What pockets or strips still hold where the sheet stands on its lower folds, has slid
    /// sideways by the room there is, and is shorter by `across` and `down`; `None` for hinges
    /// that stick. At a corner both come together.
    pub fn least_hold(&self, across: Length, down: Length) -> Option<Length> {
        let sideways = self.reach - self.slack - across;
        match self.kind {
            HingeKind::Corners => Some(sideways - down),
            HingeKind::Strips => Some(sideways.min(self.reach - down)),
            HingeKind::T | HingeKind::V | HingeKind::PassThrough => None,
        }
    }

    /// The hinge that fixes the sheet's place.
    pub fn locating(&self) -> Option<&Hinge> {
        self.hinges.iter().find(|hinge| hinge.locates)
    }
}

#[cfg(test)]
mod tests;
