//! What is remembered of cutting: the stock, the cutter and prices; the plan that is being cut
//! and how far it is.

use serde::{Deserialize, Serialize};
use sightedge_core::geometry::{Rect, Size};
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::Tables;
use sightedge_cutting::{
    Counts, Pattern, Placement, Plan, Problem, Sequence, Source, Stages, Supply, checker,
    source, which,
};

use super::instructions::InstructionWriter;
use super::materials::{Line, Prices};
use super::totals::{self, Totals};
use super::{BoardJob, DropOuts, Make, Manner, StockSheet, bound};

/// A sheet in the person's list. Lengths are whole 1/720 µm.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Sheet {
    /// The board's name; empty for any.
    pub board: String,
    /// Full width.
    pub width: i64,
    /// Full height.
    pub height: i64,
    /// In hundredths.
    pub price: Option<i64>,
    /// How many there are; `None` for as many as are wanted.
    pub in_hand: Option<u32>,
    /// Whether it is left over from an earlier job.
    pub offcut: bool,
    /// Of which make of that board it is, where it is left of one; `None` for any.
    pub make: Option<Make>,
}

impl Sheet {
    /// Whether both are the same kind of sheet, however many there are.
    fn is_like(&self, other: &Self) -> bool {
        Self { in_hand: None, ..self.clone() } == Self { in_hand: None, ..other.clone() }
    }
}

/// The stock, the cutter and the prices.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Shop {
    /// The sheets.
    pub sheets: Vec<Sheet>,
    /// 2, 3, or 0 for any number.
    pub rounds: u8,
    /// Trimmed off each edge of a bought sheet.
    pub trim: i64,
    /// What each cut turns to dust.
    pub kerf: i64,
    /// The narrowest part the cutter holds.
    pub least_strip: i64,
    /// Whether drop-outs are cut up, too.
    pub drop_outs: bool,
    /// And those that were taped back while an undermat was cut through them.
    pub taped_back: bool,
    /// What is left over is worth keeping from this length of its shorter side on.
    pub keep_from: i64,
    /// How much each border of a mat may give to save a sheet.
    pub give: i64,
    /// How long to look for better plans, in seconds for each board.
    pub seconds: u64,
    /// Prices besides the sheets'.
    pub prices: Prices,
}

impl Default for Shop {
    fn default() -> Self {
        Self::usual(Unit::Inch)
    }
}

impl Shop {
    /// What is usual for plans in `unit`, with the sheets of a person's own tables.
    pub fn of(unit: Unit, tables: &Tables) -> Self {
        let named = tables.boards.iter().flat_map(|board| super::named_stock(tables, board));
        let all = super::usual_stock(unit, tables).into_iter().chain(named);
        let sheets = all.map(|sheet| Sheet {
            board: sheet.board.unwrap_or_default(),
            width: sheet.size.width.units(),
            height: sheet.size.height.units(),
            price: sheet.price,
            ..Sheet::default()
        });
        Self { sheets: sheets.collect(), ..Self::usual(unit) }
    }

    /// What is usual for plans in `unit`.
    pub fn usual(unit: Unit) -> Self {
        let (keep_from, give) = match unit {
            Unit::Inch => (Length::inches(8, 0, 1), Length::inches(0, 1, 8)),
            Unit::Millimetre => (Length::mm(200), Length::mm(3)),
        };
        let sheets =
            super::usual_stock(unit, Tables::shipped()).into_iter().map(|sheet| Sheet {
                width: sheet.size.width.units(),
                height: sheet.size.height.units(),
                ..Sheet::default()
            });
        Self {
            sheets: sheets.collect(),
            rounds: 3,
            trim: super::trim(unit).units(),
            kerf: 0,
            least_strip: 0,
            drop_outs: false,
            taped_back: false,
            keep_from: keep_from.units(),
            give: give.units(),
            seconds: 4,
            prices: Prices::default(),
        }
    }

    /// Sheets as the solver's jobs take them.
    pub fn stock(&self) -> Vec<StockSheet> {
        let sheet = |sheet: &Sheet| StockSheet {
            board: (!sheet.board.is_empty()).then(|| sheet.board.clone()),
            size: Size::new(Length::from_units(sheet.width), Length::from_units(sheet.height)),
            price: sheet.price,
            in_hand: sheet.in_hand,
            offcut: sheet.offcut,
            make: sheet.make,
        };
        self.real().map(sheet).collect()
    }

    fn real(&self) -> impl Iterator<Item = &Sheet> {
        self.sheets.iter().filter(|sheet| sheet.width > 0 && sheet.height > 0)
    }

    /// How boards are cut.
    pub const fn manner(&self) -> Manner {
        Manner {
            rounds: match self.rounds {
                2 => Stages::Two,
                3 => Stages::Three,
                _ => Stages::Any,
            },
            drop_outs: match (self.drop_outs, self.taped_back) {
                (false, _) => DropOuts::None,
                (true, false) => DropOuts::Free,
                (true, true) => DropOuts::All,
            },
            trim: Some(Length::from_units(self.trim)),
            kerf: Length::from_units(self.kerf),
            least_strip: Length::from_units(self.least_strip),
        }
    }

    /// Takes what was cut out of the stock and puts what is left into it. Sheets that are
    /// there without limit stay so.
    pub fn settle(&mut self, cutting: &mut Cutting) {
        for board in &mut cutting.boards {
            for at in 0..board.plan.patterns.len() {
                let all = board.plan.patterns[at].copies;
                self.settle_sheets(board, at, all.saturating_sub(board.settled(at)));
            }
        }
        cutting.settled = true;
    }

    /// The same for the sheets of one pattern that are ticked as cut.
    pub fn settle_cut(&mut self, board: &mut BoardPlan, at: usize) {
        self.settle_sheets(board, at, board.unsettled(at));
    }

    fn settle_sheets(&mut self, board: &mut BoardPlan, at: usize, count: u32) {
        self.take(board, at, count);
        self.sheets.retain(|sheet| !(sheet.offcut && sheet.in_hand == Some(0)));
        let make =
            Make { thickness: board.thickness, colour: board.colour, turns: !board.patterned };
        let keep_from = Length::from_units(self.keep_from);
        for (width, height, count) in board.offcuts_of(at, count, keep_from) {
            let new = Sheet {
                board: board.name.clone(),
                width: width.units(),
                height: height.units(),
                price: None,
                in_hand: None,
                offcut: true,
                make: Some(make),
            };
            match self.sheets.iter_mut().find(|old| old.is_like(&new)) {
                Some(old) => {
                    old.in_hand = Some(old.in_hand.unwrap_or(0).saturating_add(count));
                }
                None => self.sheets.push(Sheet { in_hand: Some(count), ..new }),
            }
        }
        board.settled.resize(board.plan.patterns.len(), 0);
        if let Some(settled) = board.settled.get_mut(at) {
            *settled = settled.saturating_add(count);
        }
    }

    /// Takes so many sheets of a pattern out of those that are counted.
    pub(super) fn take(&mut self, board: &BoardPlan, at: usize, count: u32) {
        let Some(pattern) = board.plan.patterns.get(at) else { return };
        let Some(stock) = board.problem.stocks.get(pattern.stock) else { return };
        if matches!(stock.supply, Supply::Window { .. }) {
            return;
        }
        let Some(Some(source)) = board.sources.get(pattern.stock) else { return };
        let mut open = count;
        for sheet in self.sheets.iter_mut().filter(|sheet| sheet.is_like(source)) {
            if let Some(there) = &mut sheet.in_hand {
                let taken = open.min(*there);
                *there -= taken;
                open -= taken;
            }
        }
    }
}

/// One board's plan of cutting.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BoardPlan {
    /// The board.
    pub name: String,
    /// How thick it is, in 1/720 µm.
    pub thickness: i64,
    /// Whether it has a pattern or a grain, so that no piece is turned.
    #[serde(default)]
    pub patterned: bool,
    /// Its face, red, green, blue.
    pub colour: (u8, u8, u8),
    /// What was asked.
    pub problem: Problem,
    /// What came out.
    pub plan: Plan,
    /// One unit of the problem, in 1/720 µm.
    pub step: i64,
    /// Whether costs are prices, else square centimetres.
    pub priced: bool,
    /// What could not be planned, and what to do.
    pub complaints: Vec<String>,
    /// Windows of each piece: left and top from its upper left corner as seen from the front,
    /// width, height, in 1/720 µm.
    #[serde(default)]
    pub windows: Vec<Vec<[i64; 4]>>,
    /// Where each stock of the problem stands in the person's list.
    pub sources: Vec<Option<Sheet>>,
    /// For each pattern, how many sheets are cut.
    pub cut: Vec<u32>,
    /// For each pattern, how many of those are out of the stock, and what is left of them in it.
    #[serde(default)]
    pub settled: Vec<u32>,
    /// Whether it holds only what was cut before the rest was planned anew.
    #[serde(default)]
    pub is_done: bool,
    /// Of such a board the places of its patterns in the names that are pencilled on the pieces:
    /// they stay what they were.
    #[serde(default)]
    pub numbers: Vec<usize>,
}

/// What is being cut.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Cutting {
    /// Board by board.
    pub boards: Vec<BoardPlan>,
    /// What the show takes besides.
    pub materials: Vec<Line>,
    /// Whether lengths are read in millimetres.
    pub metric: bool,
    /// Whether its offcuts are in the stock.
    pub settled: bool,
}

impl BoardPlan {
    /// A job with the plan that was found for it.
    pub fn new(job: &BoardJob, plan: Plan, shop: &Shop, unit: Unit) -> Self {
        let face = job.board.colour;
        let real: Vec<&Sheet> = shop.real().collect();
        let mut sources: Vec<Option<Sheet>> =
            job.sources.iter().map(|at| real.get(*at).copied().cloned()).collect();
        sources.resize(job.problem.stocks.len(), None);
        Self {
            name: job.board.name.clone(),
            thickness: job.board.thickness.units(),
            patterned: !job.board.turns,
            colour: (face.red, face.green, face.blue),
            problem: job.problem.clone(),
            step: job.unit.units(),
            priced: job.priced,
            complaints: job.complaints(&plan, unit),
            windows: job.windows.iter().map(|w| w.iter().map(flat).collect()).collect(),
            sources,
            cut: vec![0; plan.patterns.len()],
            settled: vec![0; plan.patterns.len()],
            is_done: false,
            numbers: Vec::new(),
            plan,
        }
    }

    /// What a checker that knows nothing of the solver finds wrong with it.
    pub fn faults(&self) -> Vec<String> {
        match checker::check(&self.problem, &self.plan) {
            Ok(()) => Vec::new(),
            Err(faults) => faults.iter().map(ToString::to_string).collect(),
        }
    }

    /// A length of the problem.
    pub fn length(&self, units: i64) -> Length {
        Length::from_units(self.step) * units
    }

    /// The windows of a piece where it lies on its sheet: left and bottom from the sheet's
    /// lower left corner, width, height. A turned piece is turned clockwise.
    pub fn windows(&self, placed: &Placement) -> Vec<[Length; 4]> {
        let (left, bottom) = (self.length(placed.x), self.length(placed.y));
        let (wide, high) = (self.length(placed.width), self.length(placed.height));
        let windows = self.windows.get(placed.piece).map_or(&[][..], Vec::as_slice);
        let place = |window: &[i64; 4]| {
            let [x, y, w, h] = window.map(Length::from_units);
            if placed.turned {
                // What was its left is its top now, what was its top its right.
                [left + wide - y - h, bottom + high - x - w, h, w]
            } else {
                [left + x, bottom + high - y - h, w, h]
            }
        };
        windows.iter().map(place).collect()
    }

    /// Whether what falls from a piece's windows is cut up.
    pub fn gives_drop_outs(&self, piece: usize) -> bool {
        let mut patterns =
            self.plan.patterns.iter().map(|p| self.problem.stocks[p.stock].supply);
        patterns.any(|s| matches!(s, Supply::Window { piece: of, .. } if of == piece))
    }

    /// Cuts and waste.
    pub fn totals(&self) -> Totals {
        totals::totals(&self.problem, &self.plan)
    }

    /// Its sheets, those to buy and those owned apart.
    pub fn counts(&self) -> Counts {
        Counts::of(&self.problem, &self.plan)
    }

    /// Whether a pattern is cut from what falls out of a window.
    pub fn is_drop_out(&self, pattern: &Pattern) -> bool {
        source(&self.problem, pattern) == Source::DropOut
    }

    /// Its cuts in words, lengths read in `unit` and set by `set`.
    pub fn teller(&self, unit: Unit, set: fn(&str) -> String) -> InstructionWriter<'_> {
        let step = Length::from_units(self.step);
        InstructionWriter {
            board: &self.name,
            problem: &self.problem,
            plan: &self.plan,
            step,
            unit,
            set,
        }
    }

    /// Whether every sheet is cut.
    pub fn is_cut(&self) -> bool {
        let mut patterns = self.plan.patterns.iter().zip(&self.cut);
        !self.plan.patterns.is_empty() && patterns.all(|(pattern, cut)| *cut >= pattern.copies)
    }

    /// How many sheets of a pattern are in the stock's count already.
    pub fn settled(&self, at: usize) -> u32 {
        self.settled.get(at).copied().unwrap_or(0)
    }

    /// How many sheets of a pattern are cut and still counted as stock.
    pub fn unsettled(&self, at: usize) -> u32 {
        self.cut.get(at).copied().unwrap_or(0).saturating_sub(self.settled(at))
    }

    /// What is left and worth keeping: width, height, how many.
    pub fn offcuts(&self, from: Length) -> Vec<(Length, Length, u32)> {
        let mut found: Vec<(Length, Length, u32)> = Vec::new();
        for (at, pattern) in self.plan.patterns.iter().enumerate() {
            for (width, height, count) in self.offcuts_of(at, pattern.copies, from) {
                match found.iter_mut().find(|old| (old.0, old.1) == (width, height)) {
                    Some(old) => old.2 = old.2.saturating_add(count),
                    None => found.push((width, height, count)),
                }
            }
        }
        found
    }

    /// The same of `count` sheets of one pattern.
    pub fn offcuts_of(
        &self,
        at: usize,
        count: u32,
        from: Length,
    ) -> Vec<(Length, Length, u32)> {
        let mut found: Vec<(Length, Length, u32)> = Vec::new();
        let Some(pattern) = self.plan.patterns.get(at).filter(|_| count > 0) else {
            return found;
        };
        for rest in totals::rests(pattern) {
            let (width, height) = (self.length(rest.width), self.length(rest.height));
            if width.min(height) < from {
                continue;
            }
            match found.iter_mut().find(|old| (old.0, old.1) == (width, height)) {
                Some(old) => old.2 = old.2.saturating_add(count),
                None => found.push((width, height, count)),
            }
        }
        found
    }

    /// Fewer sheets cannot do, in plain words; and how far from that the plan may be.
    pub fn bound(&self) -> String {
        if self.is_done {
            return "Cut before; the rest is planned apart.".to_owned();
        }
        bound::in_words(&self.problem, &self.plan, self.priced)
    }
}

fn flat(window: &Rect) -> [i64; 4] {
    let Rect { at, size } = window;
    [at.x, at.y, size.width, size.height].map(Length::units)
}

impl Cutting {
    /// What lengths are read in.
    pub const fn unit(&self) -> Unit {
        if self.metric { Unit::Millimetre } else { Unit::Inch }
    }

    /// Whether all of it is cut.
    pub fn is_cut(&self) -> bool {
        !self.boards.is_empty() && self.boards.iter().all(BoardPlan::is_cut)
    }

    /// Whether its tables fit each other, as a file's may not.
    pub fn is_whole(&self) -> bool {
        self.boards.iter().all(|board| {
            let stocks = board.problem.stocks.len();
            board.cut.len() == board.plan.patterns.len()
                && board.settled.len() <= board.cut.len()
                && board.sources.len() == stocks
                && board.step > 0
                && board.plan.patterns.iter().all(|pattern| pattern.stock < stocks)
                && board.faults().is_empty()
        })
    }

    /// The cuts of a sheet of a board, one after another; sheets are called A, B ... through all
    /// boards, so that no two pieces on the bench have one name.
    pub fn sequence(&self, board: usize, pattern: usize) -> Option<Sequence> {
        let of = self.boards.get(board)?;
        let number = self.number(board, pattern);
        Some(Sequence::new(&of.problem, of.plan.patterns.get(pattern)?, number))
    }

    /// The place of a pattern in the names of the sheets: those cut before keep theirs, and the
    /// others go on after them.
    pub(super) fn number(&self, board: usize, pattern: usize) -> usize {
        let kept = |at: usize| self.boards.get(at).and_then(|board| board.numbers.get(pattern));
        if let Some(number) = kept(board) {
            return *number;
        }
        let used = self.boards.iter().flat_map(|board| &board.numbers).max();
        let first = used.map_or(0, |number| number + 1);
        let new = self.boards.iter().take(board).filter(|board| board.numbers.is_empty());
        first + new.map(|board| board.plan.patterns.len()).sum::<usize>() + pattern
    }

    /// What a sheet of a board is called: `B: sheets 2 to 4, alike`.
    pub fn title(&self, board: usize, pattern: usize) -> Option<String> {
        let of = self.boards.get(board)?;
        let sequence = self.sequence(board, pattern)?;
        let which = which(&of.problem, &of.plan, pattern);
        Some(format!("{}: {which}", sequence.name()))
    }

    /// What all boards cost together, where every sheet has a price.
    pub fn cost(&self) -> Option<i64> {
        let priced = self.boards.iter().all(|board| board.priced);
        priced.then(|| self.boards.iter().map(|board| board.plan.cost).sum())
    }
}
