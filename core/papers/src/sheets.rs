//! The plan of cutting: each sheet to scale with its pieces, its cuts and their stops, then
//! what the show comes to.

mod drawing;

use std::collections::BTreeMap;

use crate::frame::MARGIN;
use crate::page::{Block, Leaf, Pages, Table, count};
use crate::set::set_pages;
use crate::words::{BODY, LONG_TITLE, SMALL, SUBTITLE, TITLE};
use crate::{Archive, CutLine, CutSheet, CuttingPlan, PaperFile, PapersError};
use drawing::Drawing;

/// Height of a row of the tables.
const ROW: f64 = 5.2;
/// Columns of the cuts: number, piece, its edge at the stop, the stop; the rest is what falls.
const NUMBER: f64 = 9.0;
const PIECE: f64 = 46.0;
const EDGE: f64 = 28.0;
const STOP: f64 = 24.0;
/// Between a figure that ends a column and the words after it.
const GAP: f64 = 3.0;
const NARROW: f64 = NUMBER + PIECE + EDGE + STOP + 2.0 * GAP;
/// How the edges in the table are meant.
const EDGES: [&str; 2] = [
    "Each stop is from the named edge of the named piece, as the sheet is drawn, face up.",
    "Pencil each name lightly on the back of its piece as it falls.",
];

impl CuttingPlan {
    /// Writes it as a PDF.
    ///
    /// # Errors
    /// Where a PDF may not hold what stands on it.
    pub fn write(&self, archive: Archive) -> Result<PaperFile, PapersError> {
        let [width, height] = self.paper.size();
        let pages = Pages {
            title: format!("{} \u{b7} Plan of cutting", self.title),
            keywords: vec!["sightedge-cutting".to_owned()],
            date: self.date.parts(),
            width,
            height,
            pages: self.pages(),
        };
        let ident = format!("{}-cutting", self.title);
        let laid = set_pages(pages, BTreeMap::new(), archive, ident, Vec::new());
        Ok(PaperFile {
            bytes: laid.pdf()?,
            pages: laid.sizes().len(),
            notes: laid.notes().to_vec(),
        })
    }

    fn pages(&self) -> Vec<Vec<Block>> {
        let mut leaves = Vec::new();
        for sheet in &self.sheets {
            leaves.extend(self.sheet(sheet));
        }
        leaves.extend(self.last());
        let all = leaves.len();
        let [wide, high] = self.paper.size();
        for (index, leaf) in leaves.iter_mut().enumerate() {
            let y = high - MARGIN + 3.0;
            let w = wide - 2.0 * MARGIN;
            let blades = "Fresh blade, fingers behind the guard; retract it after each cut.";
            leaf.text(MARGIN, y, w, SMALL, vec![blades.to_owned()]);
            let page = format!("{} / {all}", index + 1);
            leaf.set(MARGIN, y, w, SMALL, 0, "right", vec![page]);
        }
        leaves.into_iter().map(|leaf| leaf.blocks).collect()
    }

    /// The head of a page; where it ends.
    fn head(&self, leaf: &mut Leaf, about: &str) -> f64 {
        let wide = self.paper.size()[0] - 2.0 * MARGIN;
        let style = if TITLE.width(&self.title) <= wide { TITLE } else { LONG_TITLE };
        let title = style.shortened(&self.title, wide);
        let y = leaf.set(MARGIN, MARGIN, wide, style, 1, "left", vec![title]) + 0.6;
        let date = self.date.to_string();
        let room = wide - SUBTITLE.width(&date) - 4.0;
        leaf.text(MARGIN, y, room, SUBTITLE, vec![SUBTITLE.shortened(about, room)]);
        let y = leaf.set(MARGIN, y, wide, SUBTITLE, 0, "right", vec![date]) + 1.4;
        leaf.rule(MARGIN, y, wide);
        y + 3.6
    }

    fn sheet(&self, sheet: &CutSheet) -> Vec<Leaf> {
        let [page_wide, page_high] = self.paper.size();
        let wide = page_wide - 2.0 * MARGIN;
        let bottom = page_high - MARGIN;
        let mut leaf = Leaf::default();
        let about = format!("Plan of cutting \u{b7} {}", sheet.name);
        let y = self.head(&mut leaf, &about);
        let y = leaf.heading(MARGIN, y, wide, 2, &sheet.about) + 1.0;
        // The drawing takes what the cuts leave, and never less than two fifths of the page.
        let rows: Vec<Vec<Vec<String>>> = (1..)
            .zip(&sheet.lines)
            .map(|(number, line)| rows_of(number, line, wide - NARROW))
            .collect();
        let many: usize = rows.iter().map(Vec::len).sum();
        let said = sheet.first.as_deref().into_iter().chain(EDGES);
        let said: Vec<String> = said.map(|words| BODY.shortened(words, wide)).collect();
        let before = BODY.pitch() * count(said.len()) + 1.0;
        let room = (bottom - y - count(many + 1) * ROW - before - 6.0).max(page_high * 0.4);
        let scale = (wide / sheet.size[0].max(1.0)).min(room / sheet.size[1].max(1.0));
        let drawing = Drawing { sheet, scale };
        let [w, h] = [sheet.size[0] * scale, sheet.size[1] * scale];
        let x = MARGIN + (wide - w) / 2.0;
        let alt = drawing.alt();
        leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: drawing.marks() });
        let y = y + h + 4.0;
        let mut y = leaf.text(MARGIN, y, wide, BODY, said) + 1.0;
        let mut leaves = Vec::new();
        let mut rows = std::collections::VecDeque::from(rows);
        while !rows.is_empty() {
            let fits = rows_in(bottom - y).saturating_sub(1);
            let mut here: Vec<Vec<String>> = Vec::new();
            // The rows of one cut stay together.
            while let Some(next) = rows.front()
                && here.len() + next.len() <= fits
            {
                here.extend(rows.pop_front().unwrap_or_default());
            }
            if here.is_empty() {
                leaves.push(std::mem::take(&mut leaf));
                y = self.head(&mut leaf, &about);
                continue;
            }
            y = leaf.table(Table {
                x: MARGIN,
                y,
                columns: vec![NUMBER, GAP, PIECE, EDGE, STOP, GAP, wide - NARROW],
                row: ROW,
                size: BODY.size,
                start: vec![2, 3, 6],
                groups: Vec::new(),
                head: ["cut", "", "piece", "against the stop", "stop", "", "what falls"]
                    .map(ToOwned::to_owned)
                    .to_vec(),
                rows: here,
            });
        }
        leaves.push(leaf);
        leaves
    }

    /// What it all comes to.
    fn last(&self) -> Vec<Leaf> {
        let wide = self.paper.size()[0] - 2.0 * MARGIN;
        let bottom = self.paper.size()[1] - MARGIN;
        let name = wide * 0.5;
        let shown = |text: &str, w: f64| BODY.shortened(text, w - 2.0);
        let mut rows: Vec<Vec<String>> = self
            .totals
            .iter()
            .map(|[what, amount, cost]| {
                vec![shown(what, name), shown(amount, wide * 0.35), cost.clone()]
            })
            .collect();
        let mut leaves = Vec::new();
        while !rows.is_empty() {
            let mut leaf = Leaf::default();
            let y = self.head(&mut leaf, "Plan of cutting \u{b7} what the show takes");
            let most = rows_in(bottom - y).saturating_sub(1).max(1);
            let rest = rows.split_off(most.min(rows.len()));
            leaf.table(Table {
                x: MARGIN,
                y,
                columns: vec![name, wide * 0.35, wide * 0.15],
                row: ROW,
                size: BODY.size,
                start: vec![0],
                groups: Vec::new(),
                head: ["", "amount", "cost"].map(ToOwned::to_owned).to_vec(),
                rows: std::mem::replace(&mut rows, rest),
            });
            leaves.push(leaf);
        }
        leaves
    }
}

/// The rows of a cut: one for each piece that falls.
fn rows_of(number: usize, line: &CutLine, room: f64) -> Vec<Vec<String>> {
    let falls = |text: &String| BODY.shortened(text, room - 3.0);
    let mut rows = vec![vec![
        number.to_string(),
        String::new(),
        BODY.shortened(&line.piece, PIECE - 3.0),
        line.edge.to_owned(),
        line.stop.clone(),
        String::new(),
        line.falls.first().map(falls).unwrap_or_default(),
    ]];
    for fell in line.falls.iter().skip(1) {
        let mut row = vec![String::new(); 6];
        row.push(falls(fell));
        rows.push(row);
    }
    rows
}

/// How many rows fit so high a room.
fn rows_in(high: f64) -> usize {
    let mut rows = 0;
    while count(rows + 1) * ROW <= high {
        rows += 1;
    }
    rows
}
