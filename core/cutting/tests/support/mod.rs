//! What several tests share: random problems and those with published answers.

#![allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stderr,
    reason = "each test takes what it needs, and fails by panicking"
)]

use std::collections::BTreeMap;
use std::path::PathBuf;

use sightedge_cutting::{Piece, Problem, Stages, Stock, Supply, Trim, instance};

/// Published answers: for each instance the columns of its row.
pub type Best = BTreeMap<String, BTreeMap<String, String>>;

/// The problems of a family with their published answers; `None` where the data is not there.
pub fn load(family: &str) -> Option<(Vec<(String, Problem)>, Best)> {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/data");
    let root = std::env::var_os("SIGHTEDGE_DATA").map_or_else(|| root.into(), PathBuf::from);
    let open = |tail: &str| {
        let path = root.join("cutting").join(format!("{family}-{tail}.csv"));
        match std::fs::File::open(&path) {
            Ok(file) => Some(file),
            Err(error) if std::env::var_os("CI").is_some() => {
                panic!("{}: {error}", path.display())
            }
            Err(error) => {
                eprintln!("not run, {}: {error}", path.display());
                None
            }
        }
    };
    let problems = instance::read_all(open("instances")?, true).unwrap();
    let mut rows = csv::Reader::from_reader(open("best")?);
    let headings = rows.headers().unwrap().clone();
    let best = rows.records().map(|row| {
        let row = row.unwrap();
        let fields = headings.iter().zip(row.iter());
        let fields: BTreeMap<String, String> =
            fields.map(|(h, f)| (h.to_owned(), f.to_owned())).collect();
        (fields["instance"].clone(), fields)
    });
    let best = best.collect();
    Some((problems, best))
}

/// Source: Steele, Lea and Flood (2014), as in the solver, but kept apart from it.
pub struct Dice(pub u64);

impl Dice {
    pub fn roll(&mut self, from: i64, to: i64) -> i64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        let span = u64::try_from(to - from + 1).unwrap();
        from + i64::try_from((z ^ (z >> 31)) % span).unwrap()
    }

    pub fn count(&mut self, from: i64, to: i64) -> u32 {
        u32::try_from(self.roll(from, to)).unwrap()
    }

    pub fn chance(&mut self, percent: i64) -> bool {
        self.roll(1, 100) <= percent
    }
}

/// A small random problem, every kind of stock, trim and kerf among them.
pub fn problem(dice: &mut Dice) -> Problem {
    let stages =
        [Stages::Two, Stages::Three, Stages::Any][usize::try_from(dice.roll(0, 2)).unwrap()];
    let kerf = if dice.chance(50) { 0 } else { dice.roll(1, 3) };
    let least_strip = if dice.chance(80) { 0 } else { dice.roll(1, 4) };
    let mut problem = Problem { stages, kerf, least_strip, ..Problem::default() };
    for index in 0..dice.roll(1, 3) {
        let (width, height) = (dice.roll(8, 60), dice.roll(8, 60));
        let trim = if dice.chance(60) {
            Trim::default()
        } else {
            Trim { left: dice.roll(0, 3), right: 1, bottom: dice.roll(0, 2), top: 2 }
        };
        let supply = if index == 0 && dice.chance(70) || dice.chance(40) {
            Supply::Unlimited
        } else {
            Supply::InHand(dice.count(0, 6))
        };
        let (name, cost) = (format!("stock {index}"), dice.roll(0, 12) * dice.roll(1, 3));
        problem.stocks.push(Stock { name, width, height, cost, supply, trim });
    }
    for index in 0..dice.roll(1, 7) {
        let (width, height) = (dice.roll(2, 30), dice.roll(2, 30));
        let (name, copies) = (format!("piece {index}"), dice.count(0, 6));
        problem.pieces.push(Piece { name, width, height, copies, may_turn: dice.chance(50) });
    }
    for piece in 0..problem.pieces.len() {
        let Piece { width, height, .. } = problem.pieces[piece];
        if dice.chance(20) && width > 6 && height > 6 {
            problem.stocks.push(Stock {
                name: format!("window of {piece}"),
                width: width - dice.roll(2, 5),
                height: height - dice.roll(2, 5),
                cost: 0,
                supply: Supply::Window { piece, each: dice.count(1, 2) },
                trim: Trim::default(),
            });
        }
    }
    problem
}
