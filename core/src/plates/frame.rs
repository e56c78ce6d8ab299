//! The frame round the mat, from the front: its moulding in the light, what its lip hides, the
//! shade it casts on the mat and its shadow on the wall.

use super::light;
use crate::drawing::{Moulding, Shadow, Stop, Tone};
use crate::geometry::{Rect, Side, Sides};
use crate::layout::Figures;
use crate::length::Length;
use crate::material::{Colour, Frame, Profile, Surface};
use crate::package::{Framed, Packed};

/// A moulding whose colour is not known is drawn in this one.
const UNKNOWN: Colour = Colour::new(132, 122, 110);
/// Lines of grain lie so far apart.
const GRAIN: Length = Length::um(650);
/// A moulding is drawn with no more stops.
const MOST_STOPS: i64 = 96;
/// The edges of a moulding are broken by so much of its face, in thousandths.
const BROKEN: f32 = 0.028;

/// A frame as it lies round its mat.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Round {
    /// Its moulding.
    pub(super) moulding: Moulding,
    /// How far the front of its lip stands before the mat's face.
    pub(super) above: Length,
    /// How far its front stands before the wall.
    pub(super) depth: Length,
}

/// What is outermost of a piece, from its board's top left corner: its frame, else its board.
pub fn outermost(figures: &Figures, packed: Option<&Packed>) -> Rect {
    let board = Rect::at_origin(figures.outer);
    let framed = packed.and_then(|packed| packed.framed.as_ref());
    framed.and_then(|framed| outside(board, framed)).unwrap_or(board)
}

/// The frame from outside; `None` where it leaves nothing to be seen.
fn outside(board: Rect, framed: &Framed) -> Option<Rect> {
    let opening = board.inset(framed.hidden);
    let face = framed.frame.face;
    (opening.size.is_positive() && face.is_positive()).then(|| opening.outset(Sides::all(face)))
}

/// The frame round a mat, `board` its outer edge; `None` where the plan has no frame.
pub(super) fn round(board: Rect, packed: &Packed) -> Option<Round> {
    let framed = packed.framed.as_ref()?;
    let outer = outside(board, framed)?;
    let Framed { frame, glazing, .. } = framed;
    // How thick the lip is before the rabbet is not in the tables: a quarter of the rabbet's depth,
    // by eye. Only light and shadow depend on it.
    let rabbet = frame.rabbet_depth.unwrap_or(packed.rabbet);
    let lip = rabbet.scaled(1, 4).max(Length::mm(3));
    Some(Round {
        moulding: Moulding { outer, face: frame.face, stops: stops(frame) },
        above: lip + glazing.thickness,
        depth: rabbet + lip,
    })
}

/// The shadows on the wall behind a frame.
pub(super) fn shadows(round: &Round) -> [Shadow; 2] {
    light::under_board(round.moulding.outer, round.depth)
}

/// The colours of a moulding from its outer edge inwards.
fn stops(frame: &Frame) -> Vec<Stop> {
    let own = Tone::from(frame.colour.unwrap_or(UNKNOWN));
    let lines = frame.face.to_mm() / GRAIN.to_mm();
    let count = whole(lines).clamp(24, MOST_STOPS);
    let mut stops = Vec::new();
    let mut places: Vec<f32> = (0..=count).map(|n| ratio(n, count)).collect();
    // An edge within the profile is drawn at its very place.
    for edge in edges(frame.profile) {
        places.extend([edge - 0.001, edge + 0.001]);
    }
    places.sort_by(f32::total_cmp);
    for place in places {
        let at = frame.face.scaled(i128::from(whole(f64::from(place) * 10_000.0)), 10_000);
        let line = whole(f64::from(place) * lines);
        let tones = Side::ALL.map(|side| tone(frame, own, side, place, line));
        let [top, right, bottom, left] = tones;
        stops.push(Stop { at, tones: Sides::new(top, right, bottom, left) });
    }
    stops
}

/// The colour of one side at a place of the face: its slope in the light, and its surface.
fn tone(frame: &Frame, own: Tone, side: Side, place: f32, line: i64) -> Tone {
    let lit = light::on_slope(slope(frame.profile, place), side);
    // Grain, brush and polish run along each side, so the light takes the two directions apart: a
    // mitre shows on a level face, too.
    let upright = matches!(side, Side::Left | Side::Right);
    let along = match frame.surface {
        Surface::Wood if upright => 0.93,
        Surface::Painted if upright => 0.95,
        Surface::Metal if upright => 0.86,
        _ => 1.0,
    };
    match frame.surface {
        Surface::Wood => own.lit(lit.diffuse * along * grain(line)).lighter(lit.gloss * 0.10),
        Surface::Painted => own.lit(lit.diffuse * along).lighter(lit.gloss * 0.05 * along),
        Surface::Metal => {
            // Metal is bright where it mirrors the lamp and dark where it does not.
            let own = own.lit(lit.diffuse.mul_add(0.8, 0.12) * along);
            own.mixed(Tone::grey(1.0), lit.gloss * 0.5 * along)
        }
    }
}

/// How light a line of grain is: 1 in the mean, always the same for the same line.
fn grain(line: i64) -> f32 {
    let mixed = line.wrapping_mul(0x5851_f42d_4c95_7f2d).wrapping_add(0x1405_7b7e_f767_814f);
    let part = ratio((mixed >> 40) & 0xff, 255);
    // Broad bands under fine lines.
    let broad = (ratio(line, 1) * 0.31).sin() * 0.5 + (ratio(line, 1) * 0.113).sin() * 0.5;
    1.0 + (part - 0.5) * 0.12 + broad * 0.05
}

/// How a profile leans at a place of its face, 0 at the outer edge and 1 at the inner one: in
/// degrees, more than 0 where it faces outwards. Profiles of our own.
fn slope(profile: Profile, place: f32) -> f32 {
    if place < BROKEN {
        return 40.0;
    }
    if place > 1.0 - BROKEN {
        return -45.0;
    }
    match profile {
        Profile::Flat => 0.0,
        Profile::Rounded => 58.0 * (1.0 - 2.0 * place),
        Profile::Bevelled => -24.0,
        Profile::Stepped => match place {
            at if (0.56..0.62).contains(&at) => -72.0,
            at if (0.62..0.66).contains(&at) => 12.0,
            _ => 0.0,
        },
        Profile::Cove => match place {
            at if at < 0.14 => 0.0,
            at if at < 0.18 => -60.0,
            // Hollow: steep outside, level inside, where a bead closes it.
            at if at < 0.86 => -46.0 * (0.86 - at) / 0.68,
            at => 50.0 * (1.0 - 2.0 * (at - 0.86) / 0.14),
        },
    }
}

/// Where a profile has an edge.
fn edges(profile: Profile) -> Vec<f32> {
    let own: &[f32] = match profile {
        Profile::Flat | Profile::Rounded | Profile::Bevelled => &[],
        Profile::Stepped => &[0.56, 0.62, 0.66],
        Profile::Cove => &[0.14, 0.18, 0.86],
    };
    [BROKEN, 1.0 - BROKEN].into_iter().chain(own.iter().copied()).collect()
}

#[expect(clippy::as_conversions, clippy::cast_precision_loss, reason = "small whole numbers")]
fn ratio(part: i64, of: i64) -> f32 {
    part as f32 / of as f32
}

#[expect(clippy::as_conversions, clippy::cast_possible_truncation, reason = "a few hundred")]
fn whole(number: f64) -> i64 {
    number.clamp(0.0, 1e6).round() as i64
}
