//! The most a sheet can sell for, at given prices for the pieces.
//!
//! Prices are whole numbers below 2^24, which `f32` holds exactly: sums stay exact as long as
//! the best pattern sells for less than that, and four lanes are added at a time.

mod free;
mod staged;

use crate::grid;
use crate::prepare::{Instance, Placed};
use crate::problem::Stages;
use crate::rng::Rng;
use free::Free;
use staged::Staged;

/// Beyond this a sum of prices is no longer exact.
pub(crate) const EXACT: f32 = 16_777_216.0;

/// A piece one way round.
#[derive(Clone, Copy, Debug)]
pub(super) struct Way {
    kind: usize,
    turned: bool,
    w: i64,
    h: i64,
}

/// Finds the best patterns of one sheet.
#[derive(Debug)]
pub(crate) struct Pricer {
    tables: Vec<Table>,
    /// Strips only: quick, for prices that need no proof yet.
    quick: Vec<Table>,
    /// Whether sizes were rounded (pieces down, sheet down): the value is then only a bound
    /// and a pattern may not fit.
    pub(crate) rounded: bool,
}

#[derive(Debug)]
enum Table {
    Free(Free),
    Staged(Staged),
}

impl Table {
    fn work(&self) -> u64 {
        match self {
            Self::Free(t) => t.work(),
            Self::Staged(t) => t.work(),
        }
    }

    fn price(&mut self, prices: &[f32]) -> f32 {
        match self {
            Self::Free(t) => t.price(prices),
            Self::Staged(t) => t.price(prices),
        }
    }

    fn pattern(&self, prices: &[f32], rng: &mut Rng) -> Vec<Placed> {
        match self {
            Self::Free(t) => t.pattern(prices, rng),
            Self::Staged(t) => t.pattern(prices, rng),
        }
    }
}

/// The most positions a side may have before sizes are rounded.
const MOST_POINTS: usize = 2_000;
/// The most work one exact pricing may take before sizes are rounded.
const MOST_WORK: u64 = 400_000_000;

impl Pricer {
    pub(crate) fn new(inst: &Instance, sheet: usize) -> Self {
        let mut unit = 1;
        loop {
            if let Some(pricer) = Self::with_unit(inst, sheet, unit) {
                return pricer;
            }
            unit *= 2;
        }
    }

    fn with_unit(inst: &Instance, sheet: usize, unit: i64) -> Option<Self> {
        let sheet = &inst.sheets[sheet];
        let mut ways = Vec::new();
        for (kind, k) in inst.kinds.iter().enumerate() {
            for turned in [false, true] {
                let (w, h) = k.size(turned);
                if (!turned || k.turn) && w <= sheet.w && h <= sheet.h {
                    let (w, h) = ((w / unit).max(1), (h / unit).max(1));
                    ways.push(Way { kind, turned, w, h });
                }
            }
        }
        let (w, h) = ((sheet.w / unit).max(1), (sheet.h / unit).max(1));
        let widths: Vec<i64> = ways.iter().map(|way| way.w).collect();
        let heights: Vec<i64> = ways.iter().map(|way| way.h).collect();
        let xs = grid::normal(&widths, w, MOST_POINTS)?;
        let ys = grid::normal(&heights, h, MOST_POINTS)?;
        // Where every way has its turned twin in a square sheet, cutting across is the same.
        let symmetric = w == h && inst.kinds.iter().all(|k| k.turn || k.w == k.h);
        let staged = |stages: u8| {
            let mut tables = vec![Table::Staged(Staged::new(&ways, &xs, &ys, stages, false))];
            if !symmetric {
                tables.push(Table::Staged(Staged::new(&ways, &xs, &ys, stages, true)));
            }
            tables
        };
        let (tables, quick) = match inst.stages {
            Stages::Two => (staged(2), Vec::new()),
            Stages::Three => (staged(3), staged(2)),
            Stages::Any => {
                let free = Free::new(&ways, &grid::raster(&xs, w), &grid::raster(&ys, h));
                (vec![Table::Free(free)], staged(2))
            }
        };
        let pricer = Self { tables, quick, rounded: unit > 1 };
        (unit > 1 << 20 || pricer.work() <= MOST_WORK).then_some(pricer)
    }

    /// Steps one exact pricing takes.
    pub(crate) fn work(&self) -> u64 {
        self.tables.iter().map(Table::work).sum()
    }

    /// Steps one quick pricing takes, where there is one.
    pub(crate) fn quick_work(&self) -> Option<u64> {
        (!self.quick.is_empty()).then(|| self.quick.iter().map(Table::work).sum())
    }

    /// The most a pattern of this sheet can sell for (an upper bound where sizes were
    /// rounded), and up to `wanted` patterns that do, or nearly.
    pub(crate) fn price(
        &mut self,
        prices: &[f32],
        quick: bool,
        rng: &mut Rng,
        wanted: usize,
    ) -> (f32, Vec<Vec<Placed>>) {
        let tables = if quick { &mut self.quick } else { &mut self.tables };
        let mut best = 0.0_f32;
        let mut patterns = Vec::new();
        for table in tables {
            best = best.max(table.price(prices));
            for _ in 0..wanted {
                let pattern = table.pattern(prices, rng);
                if !pattern.is_empty() {
                    patterns.push(pattern);
                }
            }
        }
        (best, patterns)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test fails by panicking")]
mod tests {
    use super::*;
    use crate::prepare::prepare;
    use crate::problem::{Stock, Supply, Trim};

    /// Source: Beasley (1985), optima of the unconstrained guillotine problems gcut1-11 with
    /// areas as values, as given again by Cintra et al. (2008); quoted from memory. The pieces are
    /// those of the stock-sheets instances.
    #[test]
    fn best_guillotine_patterns() {
        let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/data");
        let root = std::env::var_os("SIGHTEDGE_DATA")
            .map_or_else(|| root.into(), std::path::PathBuf::from);
        let path = root.join("cutting/stock-sheets-instances.csv");
        let table = match std::fs::File::open(&path) {
            Ok(table) => table,
            Err(error) => {
                assert!(std::env::var_os("CI").is_none(), "{}: {error}", path.display());
                return;
            }
        };
        let problems = crate::instance::read_all(table, false).unwrap();
        for (name, side, optimum) in [
            ("gcut1d", 250, 56_460.0_f32),
            ("gcut3d", 250, 61_036.0),
            ("gcut5d", 500, 246_000.0),
            ("gcut7d", 500, 242_567.0),
            ("gcut9d", 1000, 971_100.0),
            ("gcut11d", 1000, 980_096.0),
        ] {
            let found = problems.iter().find(|(n, _)| n.contains(name));
            let mut problem = found.unwrap().1.clone();
            problem.stages = Stages::Any;
            problem.stocks = vec![Stock {
                name: "sheet".to_owned(),
                width: side,
                height: side,
                cost: 1,
                supply: Supply::Unlimited,
                trim: Trim::default(),
            }];
            let (inst, _) = prepare(&problem);
            let prices: Vec<f32> = inst
                .kinds
                .iter()
                .map(|k| {
                    f32::from(u16::try_from(k.w).unwrap())
                        * f32::from(u16::try_from(k.h).unwrap())
                })
                .collect();
            let mut tables = Pricer::new(&inst, 0);
            let (value, patterns) = tables.price(&prices, false, &mut Rng::new(1), 1);
            assert_eq!(value.to_bits(), optimum.to_bits(), "{name}: {value}, wanted {optimum}");
            let sold: f32 = patterns[0].iter().map(|p| prices[p.kind]).sum();
            assert_eq!(
                sold.to_bits(),
                optimum.to_bits(),
                "{name}: the pattern sells for {sold}"
            );
        }
    }
}
