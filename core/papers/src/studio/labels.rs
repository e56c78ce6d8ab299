//! Labels: where they lie on a sheet, and what stands on one.

use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Unit, typeset};

use super::{Piece, code, joined};
use crate::Paper;
use crate::page::{Block, Leaf, count};
use crate::words::{BODY, KEY, SMALL, STRONG};

/// The smallest label: maker, title, edition, catalogue number and a readable code have room.
/// Source: found by setting it.
pub const LEAST_LABEL: [Length; 2] = [Length::mm(50), Length::mm(30)];
/// More labels than this, side by side or one above the other, are on no sheet.
const MOST: u32 = 20;

/// Labels on a sheet: how many, how large, where the first one is, and how far apart they are.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Grid {
    /// Side by side.
    pub columns: u32,
    /// One above the other.
    pub rows: u32,
    /// Of one label.
    pub width: Length,
    /// Of one label.
    pub height: Length,
    /// From the sheet's left edge to the first.
    pub left: Length,
    /// From the sheet's top edge to the first.
    pub top: Length,
    /// Between two side by side.
    pub across: Length,
    /// Between two one above the other.
    pub down: Length,
}

impl Grid {
    /// So many of that size, touching each other, in the middle of a sheet; `None` where they
    /// do not fit.
    pub fn centred(
        columns: u32,
        rows: u32,
        [width, height]: [Length; 2],
        paper: Paper,
    ) -> Option<Self> {
        let none = Length::ZERO;
        let grid = Self {
            columns,
            rows,
            width,
            height,
            left: none,
            top: none,
            across: none,
            down: none,
        };
        let grid = grid.centred_on(paper);
        grid.fits(paper, Unit::Millimetre).is_ok().then_some(grid)
    }

    /// The same in the middle of a sheet, whether or not it fits there.
    #[must_use]
    pub fn centred_on(self, paper: Paper) -> Self {
        let [wide, high] = paper.size().map(Length::from_mm_nearest);
        let [all_wide, all_high] = self.extent();
        let (left, top) = ((wide - all_wide).halves().0, (high - all_high).halves().0);
        Self { left, top, ..self }
    }

    /// From the first label's outer edge to the last one's.
    fn extent(&self) -> [Length; 2] {
        let all = |count: u32, each: Length, gap: Length| {
            let count = i64::from(count.min(1000));
            each * count + gap * (count - 1).max(0)
        };
        [all(self.columns, self.width, self.across), all(self.rows, self.height, self.down)]
    }

    /// Whether all of it lies on a sheet, each label large enough.
    ///
    /// # Errors
    /// Says in `unit` what was found, what is wanted and what to do.
    pub fn fits(&self, paper: Paper, unit: Unit) -> Result<(), String> {
        let Self { columns, rows, width, height, left, top, across, down } = *self;
        if !(1..=MOST).contains(&columns) || !(1..=MOST).contains(&rows) {
            return Err(format!(
                "{columns} × {rows} labels are no sheet of labels: 1 to {MOST} columns and rows \
                 are wanted"
            ));
        }
        Self::large_enough([width, height], unit)?;
        for (what, length) in [
            ("margin at the left", left),
            ("margin at the top", top),
            ("gap between columns", across),
            ("gap between rows", down),
        ] {
            if length.is_negative() {
                return Err(format!(
                    "the {what} is {}, and 0 or more is wanted",
                    length.near(unit)
                ));
            }
        }
        let sheet = paper.size().map(Length::from_mm_nearest);
        let [all_wide, all_high] = self.extent();
        for (count, what, least, need, has) in [
            (columns, "columns", left, left + all_wide, sheet[0]),
            (rows, "rows", top, top + all_high, sheet[1]),
        ] {
            if need > has {
                return Err(format!(
                    "{count} {what} of labels with a margin of {} take {}, and the sheet has {}: \
                     take fewer, smaller ones or a smaller margin",
                    least.near(unit),
                    need.near(unit),
                    has.near(unit)
                ));
            }
        }
        Ok(())
    }

    /// Whether a label of that size, width and height, has room for what stands on it.
    ///
    /// # Errors
    /// Says in `unit` what was found and what is wanted.
    pub fn large_enough(size: [Length; 2], unit: Unit) -> Result<(), String> {
        let most = Length::mm(500);
        if size[0] < LEAST_LABEL[0]
            || size[1] < LEAST_LABEL[1]
            || size.iter().any(|one| *one > most)
        {
            let text = |[wide, high]: [Length; 2]| {
                Size::new(wide, high).sides_text(|one| one.near(unit))
            };
            return Err(format!(
                "a label of {} is none that can be set: {} to {} is wanted",
                text(size),
                text(LEAST_LABEL),
                text([most, most])
            ));
        }
        Ok(())
    }

    fn place(&self, n: usize) -> [f64; 4] {
        let columns = usize::try_from(self.columns.max(1)).unwrap_or(1);
        let step = |each: Length, gap: Length| (each + gap).to_mm();
        [
            self.left.to_mm() + step(self.width, self.across) * count(n % columns),
            self.top.to_mm() + step(self.height, self.down) * count(n / columns),
            self.width.to_mm(),
            self.height.to_mm(),
        ]
    }
}

/// What sets one piece in an area: left, top, width, height in millimetres.
type Draws<'a> = &'a mut dyn FnMut(&mut Leaf, &Piece, [f64; 4]);

pub(super) fn sheets(pieces: &[Piece], grid: Grid, draw: Draws<'_>) -> Vec<Vec<Block>> {
    let each = usize::try_from(grid.columns.max(1) * grid.rows.max(1)).unwrap_or(1);
    let mut leaves = Vec::new();
    for sheet in pieces.chunks(each) {
        let mut leaf = Leaf::default();
        for (n, piece) in sheet.iter().enumerate() {
            draw(&mut leaf, piece, grid.place(n));
        }
        leaves.push(leaf.blocks);
    }
    leaves
}

/// Room between a label's edge and its text.
const INSIDE: f64 = 4.0;
/// The largest edge of a code, its quiet zone counted.
const CODE: f64 = 22.0;

/// What stands on the back: work, dimensions, edition, care, code. What has no room is left out
/// from the end and told; the edition and the dimensions come before the medium.
pub(super) fn backing(
    leaf: &mut Leaf,
    piece: &Piece,
    [x, y, wide, high]: [f64; 4],
    notes: &mut Vec<String>,
) {
    let (left, w) = (x + INSIDE, wide - 2.0 * INSIDE);
    // The code stands at the lower right, below the two lines across; beside it, lines are
    // shorter. Its own quiet zone keeps it from the text.
    let head = STRONG.pitch() + BODY.pitch();
    let edge = CODE.min(high - 2.0 * INSIDE - head + 1.0).min(w * 0.4);
    let narrow = w - edge - 2.0;
    let foot = y + high - INSIDE - SMALL.pitch();
    let mut at = y + INSIDE;
    at = leaf.text(left, at, w, STRONG, vec![STRONG.shortened(&piece.maker, w)]);
    at = leaf.text(left, at, w, BODY, BODY.titled(&piece.title, &piece.year, w, 1));
    // A number of an edition is no fraction: only sizes are set as such.
    let sizes = typeset(&piece.dimensions);
    let mut room = foot - 0.5 - at;
    // Which of them have room, the weightiest first; then they are set in their usual order.
    let mut parts =
        [&piece.medium, &sizes, &piece.edition].map(|text| (BODY.lines(text, narrow), false));
    for n in [2, 1, 0] {
        let tall = BODY.pitch() * count(parts[n].0.len());
        parts[n].1 = tall <= room;
        if parts[n].1 {
            room -= tall;
        }
    }
    let all = parts.iter().all(|(_, fits)| *fits);
    for (lines, fits) in parts {
        if fits {
            at = leaf.text(left, at, narrow, BODY, lines);
        }
    }
    let mut care = SMALL.lines(&piece.care, narrow);
    let whole = SMALL.pitch() * count(care.len()) <= room;
    if whole {
        leaf.text(left, at + 0.5, narrow, SMALL, std::mem::take(&mut care));
    }
    leaf.text(left, foot, narrow, SMALL, vec![SMALL.shortened(&piece.catalogue, narrow)]);
    let corner = [x + wide - INSIDE - edge, y + high - INSIDE - edge];
    leaf.blocks.extend(code(&piece.catalogue, corner, edge));
    let words = if !all {
        "The labels are too small for all that belongs on them: medium or dimensions are left \
         out on some. Take larger ones."
    } else if !whole {
        "The labels are too small for the line on care, which is left out. Take larger ones."
    } else {
        return;
    };
    if !notes.iter().any(|one| one == words) {
        notes.push(words.to_owned());
    }
}

/// Artist / title, date / medium / dimensions. Source: a university library's exhibition guide.
pub(super) fn wall(leaf: &mut Leaf, piece: &Piece, [x, y, wide, _]: [f64; 4]) {
    let (left, w) = (x + INSIDE, wide - 2.0 * INSIDE);
    let mut at = y + INSIDE;
    at = leaf.text(left, at, w, KEY, vec![KEY.shortened(&piece.maker, w)]);
    at = leaf.text(left, at, w, KEY, KEY.titled(&piece.title, &piece.year, w, 2));
    at += 1.0;
    let edition = joined(&[&piece.edition, &piece.asking_price()], " \u{b7} ");
    for text in [&piece.medium, &typeset(&piece.dimensions), &edition] {
        at = leaf.text(left, at, w, BODY, BODY.at_most(text, w, 3));
    }
}
