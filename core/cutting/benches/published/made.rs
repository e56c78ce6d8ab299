//! Instances of our own by the published recipes: what nothing was ever tuned on.

use sightedge_cutting::{Piece, Problem, Stages, Stock, Supply, Trim};

use crate::data::Dice;

fn stock(width: i64, height: i64, cost: i64) -> Stock {
    Stock {
        name: format!("{width} x {height}"),
        width,
        height,
        cost,
        supply: Supply::Unlimited,
        trim: Trim::default(),
    }
}

fn problem(stocks: Vec<Stock>, sizes: Vec<(i64, i64, u32)>) -> Problem {
    let piece = |(index, (width, height, copies)): (usize, (i64, i64, u32))| Piece {
        name: format!("piece {index}"),
        width,
        height,
        copies,
        may_turn: true,
    };
    let pieces = sizes.into_iter().enumerate().map(piece).collect();
    Problem { stocks, pieces, ..Problem::default() }
}

/// The six classes of Berkey and Wang: the sheet's side, the longest side of a piece.
const UNIFORM: [(i64, i64); 6] =
    [(10, 10), (30, 10), (40, 35), (100, 35), (100, 100), (300, 100)];

/// `pieces` pieces of class 1 to 10.
///
/// Source: Berkey and Wang (1987), *Two-dimensional finite bin-packing algorithms*, classes 1
/// to 6; Martello and Vigo (1998), *Exact solution of the two-dimensional finite bin packing
/// problem*, classes 7 to 10: four types of piece, each class mostly of one of them.
pub(crate) fn bins(dice: &mut Dice, class: usize, pieces: usize) -> Problem {
    if let Some((side, longest)) = UNIFORM.get(class.wrapping_sub(1)) {
        let sizes = (0..pieces).map(|_| (dice.roll(1, *longest), dice.roll(1, *longest), 1));
        let sizes = sizes.collect();
        return problem(vec![stock(*side, *side, 1)], sizes);
    }
    let sizes = (0..pieces).map(|_| {
        let mostly = i64::try_from(class).unwrap_or(7) - 6;
        let others = [1, 2, 3, 4];
        let mut kind = mostly;
        let roll = dice.roll(1, 10);
        if roll > 7 {
            let mut others = others.iter().filter(|other| **other != mostly);
            kind = others.nth(usize::try_from(roll - 8).unwrap_or(0)).copied().unwrap_or(1);
        }
        let ((w0, w1), (h0, h1)) = match kind {
            1 => ((67, 100), (1, 50)),
            2 => ((1, 50), (67, 100)),
            3 => ((50, 100), (50, 100)),
            _ => ((1, 50), (1, 50)),
        };
        (dice.roll(w0, w1), dice.roll(h0, h1), 1)
    });
    let sizes = sizes.collect();
    problem(vec![stock(100, 100, 1)], sizes)
}

/// Three kinds of sheet at the price of their area, `sizes` sizes from a quarter to three
/// quarters of the side, 1 to 100 of each.
///
/// Source: Beasley (1985) for the pieces; Cintra, Miyazawa, Wakabayashi and Xavier (2008) for
/// demands and sheets.
pub(crate) fn sheets(dice: &mut Dice, side: i64, sizes: usize) -> Problem {
    let kinds =
        [(side, side), (side * 11 / 10, side * 9 / 10), (side * 12 / 10, side * 8 / 10)];
    let stocks = kinds.iter().map(|(w, h)| stock(*w, *h, w * h)).collect();
    let mut piece = || {
        let mut along = || dice.roll(side / 4, side * 3 / 4);
        let (width, height) = (along(), along());
        (width, height, u32::try_from(dice.roll(1, 100)).unwrap_or(1))
    };
    let sizes = (0..sizes).map(|_| piece()).collect();
    Problem { stages: Stages::Two, ..problem(stocks, sizes) }
}

/// Outer sizes of mats, in eighths of an inch.
const OUTER: [(i64, i64); 11] = [
    (64, 80),
    (88, 112),
    (96, 96),
    (96, 128),
    (112, 144),
    (128, 128),
    (128, 160),
    (144, 192),
    (160, 192),
    (176, 224),
    (192, 240),
];

/// One board colour of an invented show: mats of frame sizes or of sizes of their own, out of
/// 32 × 40 in less 1/8 in of trim.
pub(crate) fn show(dice: &mut Dice, big: bool) -> Problem {
    let sizes = if big { dice.roll(3, 43) } else { dice.roll(1, 9) };
    let most = if big { dice.roll(4, 40) } else { dice.roll(3, 80) };
    let own = dice.roll(0, 1) == 0;
    let mut found: Vec<(i64, i64, u32)> = Vec::new();
    for _ in 0..sizes {
        let at = usize::try_from(dice.roll(0, 10)).unwrap_or(0);
        let (mut width, mut height) = OUTER[at];
        if own {
            width = (width + 2 * dice.roll(-4, 16)).min(250);
            height = (height + 2 * dice.roll(-4, 16)).min(250);
        }
        if dice.roll(0, 9) == 0 {
            (width, height) = (height, width);
        }
        found.push((width, height, u32::try_from(dice.roll(1, most)).unwrap_or(1)));
    }
    found.sort_unstable();
    found.dedup_by_key(|(width, height, _)| (*width, *height));
    Problem { stages: Stages::Any, ..problem(vec![stock(318, 254, 1)], found) }
}
