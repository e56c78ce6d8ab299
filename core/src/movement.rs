//! How a sheet grows and shrinks with humidity, and what that does to its overlap and hinges.
//!
//! Change in length = coefficient (% per % RH) / 100 × length × change in RH. The sheet moves
//! away from what holds its place: sideways in proportion to the distance from the locating
//! hinge, downwards all at the bottom. All of it in whole units, nothing in floats.

use crate::geometry::{Point, Sides, Size};
use crate::length::Length;
use crate::material::{Humidity, Rate};
use crate::spec::{Assembly, Grain, Hangs};

/// The room where a sheet is hinged unless the plan has another: the middle of the range for prints.
/// Source: ISO 18920 (30-50 % RH for stored prints) and museum practice of 50 %.
pub const USUAL_ROOM: Humidity = Humidity::percent(50);
/// The range where a piece hangs unless the plan has another: class A, ± 10 % about 50 % RH.
/// Source: ASHRAE, museum control classes (secondary).
pub const USUAL_RANGE: Hangs =
    Hangs { dry: Humidity::percent(40), damp: Humidity::percent(60) };

/// Ranges of humidity, published classes first: name, range, source.
pub const RANGES: [(&str, Hangs, &str); 6] = [
    (
        "Museum, class AA",
        Hangs { dry: Humidity::percent(45), damp: Humidity::percent(55) },
        "ASHRAE, ± 5 % about 50 % (secondary)",
    ),
    ("Museum, class A", USUAL_RANGE, "ASHRAE, ± 10 % about 50 % (secondary)"),
    (
        "Storage of prints",
        Hangs { dry: Humidity::percent(30), damp: Humidity::percent(50) },
        "ISO 18920",
    ),
    (
        "Gallery, air-conditioned",
        Hangs { dry: Humidity::percent(40), damp: Humidity::percent(55) },
        "from memory",
    ),
    (
        "Home, heated in winter",
        Hangs { dry: Humidity::percent(25), damp: Humidity::percent(65) },
        "from memory",
    ),
    (
        "Office, air-conditioned",
        Hangs { dry: Humidity::percent(30), damp: Humidity::percent(60) },
        "from memory",
    ),
];

/// Ordinary growth along and across the grain where the paper is not known. Source: from
/// memory (0.002-0.005 and 0.01-0.02).
const ORDINARY: Growth = Growth { along: Rate::known(3_500), across: Rate::known(15_000) };
/// The upper bound. Source: across the grain derived from Conservation Science (Royal Society
/// of Chemistry), chapter 3, the wet extreme; along it the upper end of what is ordinary.
const BOUND: Growth = Growth { along: Rate::known(5_000), across: Rate::known(30_000) };

#[derive(Clone, Copy)]
struct Growth {
    along: Rate,
    across: Rate,
}

/// Growth of a sheet along its width and its height.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Rates {
    /// Of the width.
    pub width: Rate,
    /// Of the height.
    pub height: Rate,
}

/// A sheet and what holds it.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Held {
    /// The sheet when it was hinged.
    pub sheet: Size,
    /// How far the mat lay on it then.
    pub overlap: Sides<Length>,
    /// The place on it that does not move, from its top left corner.
    pub anchor: Point,
    /// The middles of its hinges, from its left edge.
    pub hinges: Vec<Length>,
}

/// A sheet at one humidity.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct State {
    /// The humidity.
    pub humidity: Humidity,
    /// How far each edge moved outwards; inwards where negative.
    pub moved: Sides<Length>,
    /// How far the mat lies on the sheet.
    pub overlap: Sides<Length>,
    /// How far each hinge moved away from the locating one; towards it where negative.
    pub travel: Vec<Length>,
}

/// A sheet at its driest and its dampest.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Range {
    /// What was taken for its growth.
    pub rates: Rates,
    /// At the driest.
    pub dry: State,
    /// At the dampest.
    pub damp: State,
}

/// What humidity does to one sheet.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Movement {
    /// The sheet and what holds it.
    pub held: Held,
    /// The room where it was hinged.
    pub hinged_at: Humidity,
    /// Whether paper and grain are both known; else `bound` is an upper bound.
    pub certain: bool,
    /// Whether room or range is the usual one, for the plan has none.
    pub usual_air: bool,
    /// As far as it moves.
    pub bound: Range,
    /// Where not certain: as it ordinarily moves.
    pub ordinary: Option<Range>,
    /// Where the paper is known and its grain is not: both ways.
    pub ways: Vec<(Grain, Range)>,
}

/// How much longer `length` is at `to` than at `from`.
pub fn growth(length: Length, rate: Rate, from: Humidity, to: Humidity) -> Length {
    let tenths = i128::from(to.tenths()) - i128::from(from.tenths());
    // Millionths of a percent are 10^-8, tenths of a percent 10^-1.
    length.scaled(i128::from(rate.millionths()) * tenths, 1_000_000_000)
}

impl Held {
    /// The sheet at another humidity than it was hinged at.
    pub fn at(&self, rates: Rates, from: Humidity, to: Humidity) -> State {
        let across = |length| growth(length, rates.width, from, to);
        let down = |length| growth(length, rates.height, from, to);
        let Self { sheet, overlap, anchor, hinges } = self;
        let (left, top) = (across(anchor.x), down(anchor.y));
        let (all_across, all_down) = (across(sheet.width), down(sheet.height));
        let moved = Sides::new(top, all_across - left, all_down - top, left);
        State {
            humidity: to,
            moved,
            overlap: overlap.plus(moved),
            travel: hinges.iter().map(|x| across((*x - anchor.x).abs())).collect(),
        }
    }

    fn range(&self, rates: Rates, from: Humidity, hangs: Hangs) -> Range {
        Range {
            rates,
            dry: self.at(rates, from, hangs.dry),
            damp: self.at(rates, from, hangs.damp),
        }
    }
}

impl Movement {
    /// The sheet at any humidity, by the growth that `bound` takes.
    pub fn at(&self, humidity: Humidity) -> State {
        self.held.at(self.bound.rates, self.hinged_at, humidity)
    }
}

/// What humidity does to a sheet held so.
pub fn movement(assembly: &Assembly, held: Held) -> Movement {
    let Assembly { paper, grain, hinged_at, hangs_at, .. } = assembly;
    let from = hinged_at.unwrap_or(USUAL_ROOM);
    let hangs = hangs_at.unwrap_or(USUAL_RANGE);
    let hangs = Hangs { dry: hangs.dry.min(hangs.damp), damp: hangs.dry.max(hangs.damp) };
    let paper = paper.as_ref();
    let known =
        paper.and_then(|paper| Some(Growth { along: paper.along?, across: paper.across? }));
    // One of them known and the other not: the known one is kept.
    let filled = |of: Growth| Growth {
        along: paper.and_then(|paper| paper.along).unwrap_or(of.along),
        across: paper.and_then(|paper| paper.across).unwrap_or(of.across),
    };
    let turned = |of: Growth, grain: Grain| match grain {
        Grain::Width => Rates { width: of.along, height: of.across },
        Grain::Height => Rates { width: of.across, height: of.along },
    };
    let either = |of: Growth, pick: fn(Rate, Rate) -> Rate| {
        let rate = pick(of.along, of.across);
        Rates { width: rate, height: rate }
    };
    let range = |rates| held.range(rates, from, hangs);
    let (bound, ordinary, ways) = match (known, *grain) {
        (Some(known), Some(grain)) => (range(turned(known, grain)), None, Vec::new()),
        (Some(known), None) => {
            let ways =
                [Grain::Width, Grain::Height].map(|grain| (grain, range(turned(known, grain))));
            let least = range(either(known, Rate::min));
            (range(either(known, Rate::max)), Some(least), ways.to_vec())
        }
        (None, Some(grain)) => {
            let ordinary = range(turned(filled(ORDINARY), grain));
            (range(turned(filled(BOUND), grain)), Some(ordinary), Vec::new())
        }
        (None, None) => {
            let ordinary = range(either(filled(ORDINARY), Rate::max));
            (range(either(filled(BOUND), Rate::max)), Some(ordinary), Vec::new())
        }
    };
    Movement {
        hinged_at: from,
        certain: ordinary.is_none(),
        usual_air: hinged_at.is_none() || hangs_at.is_none(),
        bound,
        ordinary,
        ways,
        held,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::sample::{inches, sides, size};

    fn rate(text: &str) -> Rate {
        Rate::read(text).unwrap()
    }

    fn humidity(text: &str) -> Humidity {
        Humidity::read(text).unwrap()
    }

    /// Source: a film maker's technical note on polyester base: 0.0008 % per % RH, 500 mm,
    /// 1 %: 4 µm. Calhoun, "The physical properties and dimensional behavior of motion
    /// picture film" 1959: 0.02 % of 40 in: 0.008 in.
    #[test]
    fn film() {
        let grown = growth(inches("500mm"), rate("0.0008"), humidity("50"), humidity("51"));
        assert_eq!(grown, Length::um(4));
        let grown = growth(inches("40"), rate("0.02"), humidity("50"), humidity("51"));
        assert_eq!(grown, inches(".008"));
    }

    /// Source: derived from Conservation Science (RSC), chapter 3: 500 mm over 20 points,
    /// across the grain 2-3 mm, along it 0.2-0.3 mm.
    #[test]
    fn paper_at_its_bound() {
        let grown = |text| growth(inches("500mm"), rate(text), humidity("40"), humidity("60"));
        assert_eq!(grown("0.02"), inches("2mm"));
        assert_eq!(grown("0.03"), inches("3mm"));
        assert_eq!(grown("0.002"), inches(".2mm"));
        assert_eq!(grown("0.003"), inches(".3mm"));
    }

    fn worked() -> Held {
        Held {
            sheet: size("17x22"),
            overlap: sides("1/8"),
            anchor: Point::new(inches("1"), Length::ZERO),
            hinges: vec![inches("1"), inches("16")],
        }
    }

    /// Source: derived (D): the worked example of the trade reference, exact to the unit.
    #[test]
    fn the_worked_example() {
        let rates = Rates { width: rate("0.015"), height: rate("0.003") };
        let at = |to| worked().at(rates, humidity("50"), humidity(to));
        let dry = at("30");
        // 1/8 in - 0.3 % of 1 in, of 16 in; - 0.06 % of 22 in.
        assert_eq!(dry.overlap.left, inches("3.0988mm"));
        assert_eq!(dry.overlap.right, inches("1.9558mm"));
        assert_eq!(dry.overlap.top, inches("3.175mm"));
        assert_eq!(dry.overlap.bottom, inches("2.83972mm"));
        assert_eq!(dry.travel, [Length::ZERO, inches("-1.143mm")]);
        assert_eq!(at("60").travel, [Length::ZERO, inches(".5715mm")]);
        // Taken from the centre it would pass, wrongly.
        let mut centred = worked();
        centred.anchor.x = inches("8 1/2");
        let overlap = centred.at(rates, humidity("50"), humidity("30")).overlap;
        assert_eq!((overlap.left, overlap.right), (inches("2.5273mm"), inches("2.5273mm")));
    }

    #[test]
    fn what_is_not_known_is_a_range() {
        let mut assembly = Assembly::default();
        let open = movement(&assembly, worked());
        assert!(!open.certain && open.usual_air && open.ways.is_empty());
        assert_eq!(open.bound.rates, Rates { width: rate("0.03"), height: rate("0.03") });
        assert_eq!(open.ordinary.unwrap().rates.width, rate("0.015"));
        assembly.grain = Some(Grain::Height);
        let grain = movement(&assembly, worked());
        assert_eq!(grain.bound.rates, Rates { width: rate("0.03"), height: rate("0.005") });
        assembly.paper = Some(crate::material::Paper {
            along: Some(rate("0.003")),
            across: Some(rate("0.015")),
            ..Default::default()
        });
        assert!(movement(&assembly, worked()).certain);
        assembly.grain = None;
        let both = movement(&assembly, worked());
        assert!(!both.certain);
        assert_eq!(both.ways.len(), 2);
        assert_eq!(both.ways[1].1.rates, Rates { width: rate("0.015"), height: rate("0.003") });
        assembly.hangs_at = Some(Hangs { dry: humidity("60"), damp: humidity("30") });
        let turned = movement(&assembly, worked());
        assert_eq!(turned.bound.dry.humidity, humidity("30"), "the drier end is the dry one");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(20_000))]

        #[test]
        fn nothing_moves_where_it_is_held_and_all_else_in_proportion(
            width in 1_000_i64..2_000_000, at in 0_i64..2_000_000, x in 0_i64..1_000_000,
            millionths in 0_u32..40_000, from in 0_u16..=1000, to in 0_u16..=1000,
        ) {
            let rates =
                Rates { width: Rate::known(millionths), height: Rate::known(millionths) };
            let (from, to) =
                (Humidity::from_tenths(from).unwrap(), Humidity::from_tenths(to).unwrap());
            let anchor = Length::um(at % width);
            let held = Held {
                sheet: Size::new(Length::um(width), Length::um(width)),
                overlap: Sides::default(),
                anchor: Point::new(anchor, Length::ZERO),
                hinges: vec![anchor, anchor + Length::um(x), anchor + Length::um(x * 2)],
            };
            let state = held.at(rates, from, to);
            prop_assert_eq!(state.travel[0], Length::ZERO);
            prop_assert_eq!(state.moved.top, Length::ZERO);
            let off = state.travel[1] * 2 - state.travel[2];
            prop_assert!(off.abs() <= Length::from_units(2), "linear in the distance");
            prop_assert_eq!(
                state.moved.left + state.moved.right,
                growth(held.sheet.width, rates.width, from, to)
            );
            prop_assert_eq!(held.at(rates, from, from).moved, Sides::default());
        }
    }
}
