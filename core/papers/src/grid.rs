//! How labels lie on their sheet.

use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Unit};

use crate::Paper;

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
    /// Says in `unit` what was found and what to do.
    pub fn fits(&self, paper: Paper, unit: Unit) -> Result<(), String> {
        let Self { columns, rows, width, height, left, top, across, down } = *self;
        if !(1..=MOST).contains(&columns) || !(1..=MOST).contains(&rows) {
            return Err(format!(
                "{columns} × {rows} labels can’t be printed: give 1 to {MOST} columns and 1 to \
                 {MOST} rows"
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
                return Err(format!("the {what} is {}: give 0 or more", length.near(unit)));
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
    /// Says in `unit` what was found and what to give.
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
                "a label of {} has no room for what stands on it, or is too large: give {} to {}",
                text(size),
                text(LEAST_LABEL),
                text([most, most])
            ));
        }
        Ok(())
    }
}
