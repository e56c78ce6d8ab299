//! From what a person typed to what is solved: complaints, merged kinds, usable sheets.
//!
//! Kerf disappears here: a piece grown by one kerf in a sheet grown by one kerf is the same
//! problem without it, because a cut costs its kerf exactly where two parts touch.

use crate::problem::{
    BadStock, Complaint, DEAREST, LONGEST, MOST_COPIES, Piece, Problem, Stages, Stock, Supply,
};

/// Pieces of one size (grown by the kerf), from one or more of the person's pieces.
#[derive(Clone, Debug)]
pub(crate) struct Kind {
    pub(crate) w: i64,
    pub(crate) h: i64,
    pub(crate) turn: bool,
    pub(crate) copies: u32,
    /// Index of the person's piece and its copies.
    pub(crate) members: Vec<(usize, u32)>,
}

impl Kind {
    pub(crate) const fn area(&self) -> i64 {
        self.w * self.h
    }

    /// Width and height as placed.
    pub(crate) const fn size(&self, turned: bool) -> (i64, i64) {
        if turned { (self.h, self.w) } else { (self.w, self.h) }
    }

    pub(crate) const fn fits(&self, w: i64, h: i64) -> bool {
        (self.w <= w && self.h <= h) || (self.turn && self.h <= w && self.w <= h)
    }
}

/// The usable part of a kind of sheet (grown by the kerf).
#[derive(Clone, Debug)]
pub(crate) struct Sheet {
    pub(crate) w: i64,
    pub(crate) h: i64,
    /// Cost in [`Instance::grain`]s.
    pub(crate) cost: i64,
    pub(crate) avail: Option<u32>,
    /// Index of the person's stock.
    pub(crate) stock: usize,
    /// Whether it falls out of a piece's window.
    pub(crate) window: bool,
}

impl Sheet {
    pub(crate) const fn area(&self) -> i64 {
        self.w * self.h
    }
}

/// One placed piece, lower left corner in the usable part's own coordinates.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) struct Placed {
    pub(crate) kind: usize,
    pub(crate) turned: bool,
    pub(crate) x: i64,
    pub(crate) y: i64,
}

/// What is solved.
#[derive(Clone, Debug)]
pub(crate) struct Instance {
    pub(crate) kinds: Vec<Kind>,
    pub(crate) sheets: Vec<Sheet>,
    pub(crate) stages: Stages,
    /// Every sheet's cost is a multiple of this.
    pub(crate) grain: i64,
}

const fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// Leaves out what makes no sense, each with its complaint, and merges equal sizes.
pub(crate) fn prepare(problem: &Problem) -> (Instance, Vec<Complaint>) {
    let mut complaints = Vec::new();
    let mut not_negative = |what, found: i64| {
        if found < 0 {
            complaints.push(Complaint::Negative { what, found });
        }
        found.clamp(0, LONGEST)
    };
    let kerf = not_negative("kerf", problem.kerf);
    let least = not_negative("narrowest strip", problem.least_strip);
    let mut sheets = usable_sheets(problem, kerf, &mut complaints);
    let mut kinds: Vec<Kind> = Vec::new();
    let mut total = 0_u64;
    let mut planned = vec![false; problem.pieces.len()];
    for (index, piece) in problem.pieces.iter().enumerate() {
        if piece.copies == 0 {
            continue;
        }
        if let Some(complaint) = unusable(piece, problem, &sheets, kerf, least, &mut total) {
            complaints.push(complaint);
            continue;
        }
        planned[index] = true;
        let (w, h) = (piece.width + kerf, piece.height + kerf);
        let turn = piece.may_turn && w != h;
        let same = |k: &&mut Kind| {
            k.turn == turn && ((k.w, k.h) == (w, h) || (turn && (k.h, k.w) == (w, h)))
        };
        if let Some(kind) = kinds.iter_mut().find(same) {
            kind.copies += piece.copies;
            kind.members.push((index, piece.copies));
        } else {
            let members = vec![(index, piece.copies)];
            kinds.push(Kind { w, h, turn, copies: piece.copies, members });
        }
    }
    sheets.retain(|sheet| {
        let available = match problem.stocks[sheet.stock].supply {
            Supply::Window { piece, .. } => planned[piece],
            Supply::InHand(n) => n > 0,
            Supply::Unlimited => true,
        };
        available && kinds.iter().any(|k| k.fits(sheet.w, sheet.h))
    });
    let grain = sheets.iter().fold(0, |g, s| gcd(s.cost, g)).max(1);
    for sheet in &mut sheets {
        sheet.cost /= grain;
    }
    (Instance { kinds, sheets, stages: problem.stages, grain }, complaints)
}

fn usable_sheets(problem: &Problem, kerf: i64, complaints: &mut Vec<Complaint>) -> Vec<Sheet> {
    let mut sheets = Vec::new();
    for (index, stock) in problem.stocks.iter().enumerate() {
        if let Some((found, remedy)) = wrong_with(stock, &problem.pieces) {
            let stock = stock.name.clone();
            complaints.push(Complaint::BadStock { stock, found, remedy });
            continue;
        }
        let avail = match stock.supply {
            Supply::Unlimited => None,
            Supply::InHand(n) => Some(n),
            Supply::Window { piece, each } => {
                Some(problem.pieces[piece].copies.saturating_mul(each))
            }
        };
        sheets.push(Sheet {
            w: stock.width - stock.trim.left - stock.trim.right + kerf,
            h: stock.height - stock.trim.bottom - stock.trim.top + kerf,
            cost: stock.cost,
            avail,
            stock: index,
            window: matches!(stock.supply, Supply::Window { .. }),
        });
    }
    sheets
}

/// What was found and what to do, where a stock makes no sense.
fn wrong_with(stock: &Stock, pieces: &[Piece]) -> Option<(BadStock, &'static str)> {
    let sides = 1..=LONGEST;
    if !sides.contains(&stock.width) || !sides.contains(&stock.height) {
        let found = BadStock::Size(stock.width, stock.height);
        return Some((found, "Both sides must be above 0, and no longer than can be cut"));
    }
    let trim = stock.trim;
    let edges = [trim.left, trim.right, trim.bottom, trim.top];
    if edges.iter().any(|e| !(0..=LONGEST).contains(e))
        || trim.left + trim.right >= stock.width
        || trim.bottom + trim.top >= stock.height
    {
        let found = BadStock::Trim(edges, stock.width, stock.height);
        return Some((found, "Trims must be 0 or more and leave something"));
    }
    if !(0..=DEAREST).contains(&stock.cost) {
        return Some((BadStock::Cost(stock.cost), "Give a cost from 0 to 1000000000"));
    }
    if let Supply::Window { piece, .. } = stock.supply {
        let inside = |p: &Piece| {
            stock.width <= p.width
                && stock.height <= p.height
                && (stock.width, stock.height) != (p.width, p.height)
        };
        if !pieces.get(piece).is_some_and(inside) {
            let found = BadStock::Window(stock.width, stock.height);
            return Some((found, "A drop-out must be smaller than the piece it falls out of"));
        }
    }
    None
}

fn unusable(
    piece: &Piece,
    problem: &Problem,
    sheets: &[Sheet],
    kerf: i64,
    least: i64,
    total: &mut u64,
) -> Option<Complaint> {
    let name = piece.name.clone();
    let (width, height) = (piece.width, piece.height);
    let sides = 1..=LONGEST;
    if !sides.contains(&width) || !sides.contains(&height) {
        return Some(Complaint::PieceSize { piece: name, width, height });
    }
    let side = width.min(height);
    if side < least {
        return Some(Complaint::PieceTooNarrow { piece: name, side, least });
    }
    // A drop-out exists only once its piece is cut: no piece may depend on it alone.
    let outright =
        |s: &&Sheet| !matches!(problem.stocks[s.stock].supply, Supply::Window { .. });
    let Some(largest) = sheets.iter().filter(outright).max_by_key(|s| s.area()) else {
        return Some(Complaint::NoStock { piece: name });
    };
    let fits = |w: i64, h: i64| sheets.iter().any(|s| w + kerf <= s.w && h + kerf <= s.h);
    let fits_turned = fits(height, width);
    if !(fits(width, height) || (piece.may_turn && fits_turned)) {
        return Some(Complaint::PieceTooLarge {
            piece: name,
            width,
            height,
            fits_turned,
            largest: Some((largest.w - kerf, largest.h - kerf)),
        });
    }
    let copies = u64::from(piece.copies);
    if *total + copies > MOST_COPIES {
        return Some(Complaint::TooMany { piece: name, copies });
    }
    *total += copies;
    None
}
