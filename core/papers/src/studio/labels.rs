//! What stands on a label.

use sightedge_core::length::Length;

use super::{asking_price, code, joined};
use crate::page::{Block, Leaf, count};
use crate::words::{Style, prose};
use crate::{Grid, Piece};

/// Where the label `n` lies: left, top, width, height in millimetres.
fn place(grid: &Grid, n: usize) -> [f64; 4] {
    let columns = usize::try_from(grid.columns.max(1)).unwrap_or(1);
    let step = |each: Length, gap: Length| (each + gap).to_mm();
    [
        grid.left.to_mm() + step(grid.width, grid.across) * count(n % columns),
        grid.top.to_mm() + step(grid.height, grid.down) * count(n / columns),
        grid.width.to_mm(),
        grid.height.to_mm(),
    ]
}

/// What sets one piece in an area: left, top, width, height in millimetres.
type Draws<'a> = &'a mut dyn FnMut(&mut Leaf, &Piece, [f64; 4]);

pub(super) fn sheets(pieces: &[Piece], grid: Grid, draw: Draws<'_>) -> Vec<Vec<Block>> {
    let each = usize::try_from(grid.columns.max(1) * grid.rows.max(1)).unwrap_or(1);
    let mut leaves = Vec::new();
    for sheet in pieces.chunks(each) {
        let mut leaf = Leaf::default();
        for (n, piece) in sheet.iter().enumerate() {
            draw(&mut leaf, piece, place(&grid, n));
        }
        leaves.push(leaf.blocks);
    }
    leaves
}

/// Room between a label's edge and its text.
const INSIDE: f64 = 4.0;
/// The largest edge of a code, its quiet zone counted.
const CODE: f64 = 22.0;

/// The smallest letters of a label; larger ones are taken where there is room.
const NAME: Style = Style { size: 8.5, weight: 600, quiet: false };
const LINE: Style = Style { size: 8.0, weight: 400, quiet: false };
const CARE: Style = Style { size: 8.0, weight: 400, quiet: true };
const SHOWN: Style = Style { size: 11.0, weight: 600, quiet: false };
/// How many times larger they may be, the largest first.
const LARGER: [f64; 11] = [2.0, 1.9, 1.8, 1.7, 1.6, 1.5, 1.4, 1.3, 1.2, 1.1, 1.0];

fn larger(style: Style, by: f64) -> Style {
    Style { size: style.size * by, ..style }
}

/// How much of a label found room.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Fits {
    /// Something is left out or shortened.
    Part,
    /// All but the line on care.
    NoCare,
    All,
}

/// What stands on the back: work, dimensions, edition, care, code, in letters as large as have
/// room. What has none is left out from the end and told; the edition and the dimensions come
/// before the medium.
pub(super) fn backing(leaf: &mut Leaf, piece: &Piece, area: [f64; 4], notes: &mut Vec<String>) {
    let whole = |by: &f64| back(&mut Leaf::default(), piece, area, *by) == Fits::All;
    let by = LARGER.into_iter().find(whole).unwrap_or(1.0);
    let words = match back(leaf, piece, area, by) {
        Fits::All => return,
        Fits::NoCare => {
            "The labels are too small for the line on care, which is left out. Take larger ones."
        }
        Fits::Part => {
            "The labels are too small for all that belongs on them: medium or dimensions are left \
             out on some. Take larger ones."
        }
    };
    if !notes.iter().any(|one| one == words) {
        notes.push(words.to_owned());
    }
}

fn back(leaf: &mut Leaf, piece: &Piece, [x, y, wide, high]: [f64; 4], by: f64) -> Fits {
    let [name, line, care] = [NAME, LINE, CARE].map(|style| larger(style, by));
    let (left, w) = (x + INSIDE, wide - 2.0 * INSIDE);
    // The code stands at the lower right, below the two lines across; beside it, lines are
    // shorter. Its own quiet zone keeps it from the text.
    let head = name.pitch() + line.pitch();
    let edge = CODE.min(high - 2.0 * INSIDE - head + 1.0).min(w * 0.4);
    let narrow = w - edge - 2.0;
    let foot = y + high - INSIDE - care.pitch();
    let mut at = y + INSIDE;
    let titled = line.titled(&piece.title, &piece.year, w, 1);
    // Letters are made larger only where nothing is shortened for it.
    let short = by > 1.0
        && (name.width(&piece.artist) > w || titled.iter().any(|line| line.contains('…')));
    at = leaf.text(left, at, w, name, vec![name.shortened(&piece.artist, w)]);
    at = leaf.text(left, at, w, line, titled);
    // A number of an edition is no fraction: only sizes are set as such.
    let sizes = prose(&piece.dimensions);
    let mut room = foot - 0.5 - at;
    // Which of them have room, the weightiest first; then they are set in their usual order.
    let mut parts =
        [&piece.medium, &sizes, &piece.edition].map(|text| (line.lines(text, narrow), false));
    for n in [2, 1, 0] {
        let tall = line.pitch() * count(parts[n].0.len());
        parts[n].1 = tall <= room;
        if parts[n].1 {
            room -= tall;
        }
    }
    let all = parts.iter().all(|(_, fits)| *fits);
    for (lines, fits) in parts {
        if fits {
            at = leaf.text(left, at, narrow, line, lines);
        }
    }
    let about = care.lines(&piece.care, narrow);
    let cared = care.pitch() * count(about.len()) <= room;
    if cared {
        leaf.text(left, at + 0.5, narrow, care, about);
    }
    leaf.text(left, foot, narrow, care, vec![care.shortened(&piece.catalogue, narrow)]);
    let corner = [x + wide - INSIDE - edge, y + high - INSIDE - edge];
    leaf.blocks.extend(code(&piece.catalogue, corner, edge));
    match (all && !short, cared) {
        (false, _) => Fits::Part,
        (true, false) => Fits::NoCare,
        (true, true) => Fits::All,
    }
}

/// Artist / title, date / medium / dimensions, in letters as large as have room. Source: a
/// university library's exhibition guide.
pub(super) fn wall(leaf: &mut Leaf, piece: &Piece, [x, y, wide, high]: [f64; 4]) {
    let (left, w) = (x + INSIDE, wide - 2.0 * INSIDE);
    let edition = joined(&[&piece.edition, &asking_price(piece)], " \u{b7} ");
    let set = |leaf: &mut Leaf, by: f64| {
        let (head, line) = (larger(SHOWN, by), larger(LINE, by));
        let mut at = y + INSIDE;
        let short = head.width(&piece.artist) > w;
        at = leaf.text(left, at, w, head, vec![head.shortened(&piece.artist, w)]);
        let title = head.titled(&piece.title, &piece.year, w, 2);
        let short = short || title.iter().any(|line| line.contains('…'));
        at = leaf.text(left, at, w, head, title) + 1.0;
        for text in [&piece.medium, &prose(&piece.dimensions), &edition] {
            at = leaf.text(left, at, w, line, line.at_most(text, w, 3));
        }
        !short && at <= y + high - INSIDE
    };
    let by = LARGER.into_iter().find(|by| set(&mut Leaf::default(), *by)).unwrap_or(1.0);
    set(leaf, by);
}
