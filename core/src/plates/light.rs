//! The light in which a mat is shown: soft, from the upper left, as in a room with a window.
//! The strengths are our own, set by eye against real mats; no figure depends on them.

use crate::drawing::{Band, Shade, Shadow, Tone};
use crate::geometry::{Point, Rect, Side, Sides};
use crate::length::Length;
use crate::spec::Bevel;

/// Where the lamp stands, as a direction: to the left, to the top, above the board.
const LAMP: [f32; 3] = [0.36, 0.54, 0.76];
/// The share of all light that comes from everywhere.
const AMBIENT: f32 = 0.62;

/// The colour of one side of a bevel: its core, in the light that this side gets. The board's
/// own face is the measure: what lies flat has its colour as it is.
pub(super) fn on_bevel(core: Tone, bevel: Bevel, side: Side) -> Tone {
    let (Bevel::Open(angle) | Bevel::Reverse(angle)) = bevel else { return core };
    let (across, up) = (f32::from(angle.tenths()) / 10.0).to_radians().sin_cos();
    let [left, top, above] = LAMP;
    // A side's bevel leans away from that side: the upper one looks down, the lower one up.
    let towards = match side {
        Side::Top => -top,
        Side::Bottom => top,
        Side::Left => -left,
        Side::Right => left,
    };
    let direct = ((towards * across + above * up) / above).max(0.0);
    core.lit(AMBIENT + (1.0 - AMBIENT) * direct)
}

/// What light comes back from a slope.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Lit {
    /// From its own colour: 1 for what lies flat.
    pub(super) diffuse: f32,
    /// The lamp mirrored in it, 0 to 1.
    pub(super) gloss: f32,
}

/// The light on a slope of a moulding on one side of a frame, in degrees: more than 0 faces
/// outwards, less than 0 the picture.
pub(super) fn on_slope(degrees: f32, side: Side) -> Lit {
    let (across, up) = degrees.to_radians().sin_cos();
    let [left, top, above] = LAMP;
    let outwards = match side {
        Side::Top => top,
        Side::Bottom => -top,
        Side::Left => left,
        Side::Right => -left,
    };
    let direct = ((outwards * across + above * up) / above).max(0.0);
    // Halfway between the lamp and the one who looks, straight from the front.
    let (half_out, half_up) = (outwards, above + 1.0);
    let half = (left * left + top * top + half_up * half_up).sqrt();
    let mirrored = ((half_out * across + half_up * up) / half).clamp(0.0, 1.0);
    Lit { diffuse: AMBIENT + (1.0 - AMBIENT) * direct, gloss: mirrored.powi(24) }
}

/// The shade inside a window's sight edge, on all that lies deeper. `height` is how far its
/// board's face stands above that.
pub(super) fn in_window(sight: Rect, height: Length, bevel: Bevel) -> Shade {
    // A sloping edge lets light in under it; a square or undercut one does not.
    let steep = match bevel {
        Bevel::Open(_) => 1.0,
        Bevel::Straight => 1.25,
        Bevel::Reverse(_) => 1.35,
    };
    let band = |tenths: i128, strength: f32| Band {
        reach: height.scaled(tenths, 10),
        strength: strength * steep,
        falloff: 2.4,
    };
    Shade {
        edge: sight,
        bands: Sides {
            top: band(38, 0.36),
            left: band(34, 0.4),
            right: band(14, 0.11),
            bottom: band(12, 0.09),
        },
    }
}

/// The shadows of a board of so many in all on what it lies before: one where it nearly
/// touches, one far and faint.
pub(super) fn under_board(board: Rect, height: Length) -> [Shadow; 2] {
    let near = Shadow {
        of: moved(smaller(board, height.scaled(6, 10)), height.scaled(7, 10), height),
        band: Band { reach: height * 3, strength: 0.38, falloff: 2.2 },
    };
    let far = board.size.long().scaled(6, 100);
    let wide = Shadow {
        of: moved(board, far.scaled(1, 10), far.scaled(22, 100)),
        band: Band { reach: far, strength: 0.26, falloff: 2.6 },
    };
    [wide, near]
}

/// The shadow of a sheet that floats `height` above its ground.
pub(super) fn under_sheet(sheet: Rect, height: Length) -> Shadow {
    Shadow {
        of: moved(smaller(sheet, height.halves().0), height, height.scaled(13, 10)),
        band: Band { reach: height * 5, strength: 0.42, falloff: 2.2 },
    }
}

fn smaller(rect: Rect, by: Length) -> Rect {
    rect.inset(Sides::all(by))
}

fn moved(rect: Rect, right: Length, down: Length) -> Rect {
    Rect::new(Point::new(rect.at.x + right, rect.at.y + down), rect.size)
}
