//! Instances, published answers and our own seeded ones.

use std::collections::BTreeMap;
use std::path::PathBuf;

use sightedge_cutting::{Piece, Problem, Stages, Stock, Supply, Trim, instance};

/// Rows of a table of answers, by instance, then by column.
pub(crate) type Best = BTreeMap<String, BTreeMap<String, String>>;

pub(crate) fn folder() -> PathBuf {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/data");
    let root = std::env::var_os("SIGHTEDGE_DATA").map_or_else(|| root.into(), PathBuf::from);
    root.join("cutting")
}

/// A family's problems and answers.
pub(crate) fn load(family: &str) -> Result<(Vec<(String, Problem)>, Best), String> {
    let open = |tail: &str| {
        let path = folder().join(format!("{family}-{tail}.csv"));
        std::fs::File::open(&path).map_err(|error| {
            format!("{}: {error}. Point SIGHTEDGE_DATA at the data", path.display())
        })
    };
    let problems =
        instance::read_all(open("instances")?, true).map_err(|error| error.to_string())?;
    let mut rows = csv::Reader::from_reader(open("best")?);
    let mut best = Best::new();
    let headings = rows.headers().map_err(|error| error.to_string())?.clone();
    for row in rows.records() {
        let row = row.map_err(|error| error.to_string())?;
        let fields = headings.iter().zip(row.iter());
        let fields: BTreeMap<String, String> =
            fields.map(|(h, f)| (h.to_owned(), f.to_owned())).collect();
        best.insert(fields.get("instance").cloned().unwrap_or_default(), fields);
    }
    Ok((problems, best))
}

/// The same problem with other stages, its pieces turned or not.
pub(crate) fn with(problem: &Problem, stages: Stages, may_turn: bool) -> Problem {
    let mut problem = problem.clone();
    problem.stages = stages;
    for piece in &mut problem.pieces {
        piece.may_turn = may_turn;
    }
    problem
}

/// From eighths of an inch to whole millimetres: pieces up, sheets down.
pub(crate) fn in_millimetres(problem: &Problem) -> Problem {
    let mut problem = problem.clone();
    for piece in &mut problem.pieces {
        for side in [&mut piece.width, &mut piece.height] {
            *side = (*side * 127 + 39) / 40;
        }
    }
    for stock in &mut problem.stocks {
        for side in [&mut stock.width, &mut stock.height] {
            *side = *side * 127 / 40;
        }
    }
    problem
}

/// Repeatable dice.
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn roll(&mut self, from: i64, to: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        let span = u64::try_from(to - from + 1).unwrap_or(1);
        from + i64::try_from((self.0 >> 33) % span).unwrap_or(0)
    }
}

const FRAMES: [(i64, i64); 8] =
    [(64, 80), (88, 112), (96, 96), (96, 128), (128, 128), (128, 160), (144, 192), (160, 200)];

/// One board colour of an invented show, in eighths of an inch: window mats and, of the same
/// board, the small mats for studies. Every window leaves a drop-out, half an inch smaller
/// all round than its opening.
pub(crate) fn show(dice: &mut Dice, sizes: usize, copies: i64) -> Problem {
    let mut problem = Problem {
        stocks: vec![Stock {
            name: "board".to_owned(),
            width: 320,
            height: 256,
            cost: 1,
            supply: Supply::Unlimited,
            trim: Trim::all(1),
        }],
        ..Problem::default()
    };
    for index in 0..sizes {
        let at = usize::try_from(dice.roll(0, 7)).unwrap_or(0);
        let (width, height) =
            (FRAMES[at].0 + 4 * dice.roll(0, 4), FRAMES[at].1 + 4 * dice.roll(0, 4));
        let border = dice.roll(16, 28);
        let copies = u32::try_from(dice.roll(1, copies)).unwrap_or(1);
        problem.pieces.push(Piece {
            name: format!("mat {index}"),
            width,
            height,
            copies,
            may_turn: true,
        });
        let (width, height) = (width - 2 * border - 8, height - 2 * border - 8);
        if width > 0 && height > 0 {
            problem.stocks.push(Stock {
                name: format!("drop-out of mat {index}"),
                width,
                height,
                cost: 0,
                supply: Supply::Window { piece: index, each: 1 },
                trim: Trim::default(),
            });
        }
    }
    problem
}

/// 2,000 pieces of 200 sizes.
pub(crate) fn large(dice: &mut Dice) -> Problem {
    let mut problem = show(dice, 0, 1);
    for index in 0..200 {
        let (width, height) = (dice.roll(30, 160), dice.roll(30, 200));
        let name = format!("piece {index}");
        problem.pieces.push(Piece { name, width, height, copies: 10, may_turn: true });
    }
    problem
}
