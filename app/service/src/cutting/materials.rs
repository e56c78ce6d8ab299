//! What a show takes besides its boards: tape, glazing, bags.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use sightedge_core::derived::derive;
use sightedge_core::geometry::Size;
use sightedge_core::hinges::mat_hinge;
use sightedge_core::length::{Length, Round, Unit};
use sightedge_core::material::Tables;
use sightedge_core::spec::Document;

/// One line of the list: what it is, how much, what it costs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Line {
    /// What it is.
    pub what: String,
    /// How much of it, for reading.
    pub amount: String,
    /// What it costs in hundredths, where a price is known.
    pub cost: Option<i64>,
}

/// The person's prices, in hundredths; `None` where not given.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Prices {
    /// Of glazing: for a square foot where plans are in inches, else for a square metre.
    pub glazing: Option<i64>,
    /// Of tape: for a yard where plans are in inches, else for a metre.
    pub tape: Option<i64>,
    /// Of a bag.
    pub bag: Option<i64>,
}

/// How much tape one unit of price buys.
const fn tape_unit(unit: Unit) -> (Length, &'static str) {
    match unit {
        Unit::Inch => (Length::inches(36, 0, 1), "yd"),
        Unit::Millimetre => (Length::mm(1000), "m"),
    }
}

/// The side of the square that one unit of price of glazing buys.
const fn glazing_unit(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(12, 0, 1),
        Unit::Millimetre => Length::mm(1000),
    }
}

/// All that is wanted besides boards. Each plan counts once for each time it is in `plans`.
pub fn materials(
    plans: &[(String, &Document)],
    unit: Unit,
    prices: Prices,
    tables: &Tables,
) -> Vec<Line> {
    let mut panes: BTreeMap<(String, Length, Length), i64> = BTreeMap::new();
    let mut bags: BTreeMap<(Length, Length), i64> = BTreeMap::new();
    let (mut hinges, mut mats) = (Length::ZERO, Length::ZERO);
    for (_, document) in plans {
        let Some(variant) = document.chosen() else { continue };
        let derived = derive(document, variant, tables);
        for sheet in &derived.assembly.sheets {
            hinges += sheet.hinges.tape;
        }
        let outer = derived.layout.bench.outer;
        mats += mat_hinge(&variant.mat.assembly, outer, document.unit).length;
        let Some(package) = &derived.assembly.package else { continue };
        if let Some(framed) = &package.framed {
            let Size { width, height } = package.contents;
            *panes.entry((framed.glazing.name.clone(), width, height)).or_default() += 1;
        } else {
            let bag = variant.mat.assembly.package.bag.as_ref();
            let Size { width, height } = bag.map_or(package.bag, |bag| bag.size);
            *bags.entry((width, height)).or_default() += 1;
        }
    }
    let mut lines = Vec::new();
    let (per, sign) = tape_unit(unit);
    for (what, length) in [("Hinging tape or tissue", hinges), ("Tape, mat to backing", mats)] {
        if length.is_positive() {
            lines.push(Line {
                what: what.to_owned(),
                amount: format!("{} {sign}", tenths(length, per)),
                cost: prices.tape.map(|price| part(price, length.units(), per.units())),
            });
        }
    }
    for ((name, width, height), count) in panes {
        let side = i128::from(glazing_unit(unit).units());
        let area = i128::from(width.units()) * i128::from(height.units()) * i128::from(count);
        let cost = |price: i64| whole(i128::from(price) * area, side * side);
        lines.push(Line {
            what: name,
            amount: format!("{count} of {}", size(width, height, unit, Round::Near)),
            cost: prices.glazing.map(cost),
        });
    }
    for ((width, height), count) in bags {
        lines.push(Line {
            what: "Bags, inside at least".to_owned(),
            amount: format!("{count} of {}", size(width, height, unit, Round::Up)),
            cost: prices.bag.map(|price| price.saturating_mul(count)),
        });
    }
    lines
}

fn size(width: Length, height: Length, unit: Unit, way: Round) -> String {
    Size::new(width, height).extent_text(|side| side.sensible(unit, way))
}

/// `length` in units of `per`, to the next tenth up: tape that is not there cannot be used.
fn tenths(length: Length, per: Length) -> String {
    let tenths = whole(i128::from(length.units()) * 10, i128::from(per.units()));
    format!("{}.{}", tenths / 10, tenths % 10)
}

fn part(price: i64, of: i64, per: i64) -> i64 {
    whole(i128::from(price) * i128::from(of), i128::from(per))
}

/// A quotient rounded up.
fn whole(over: i128, under: i128) -> i64 {
    let under = under.max(1);
    i64::try_from((over + under - 1).div_euclid(under)).unwrap_or(i64::MAX)
}
