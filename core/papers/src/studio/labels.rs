//! What stands on a label.

use sightedge_core::length::{Length, typeset};

use super::{asking_price, code, joined};
use crate::page::{Block, Leaf, count};
use crate::words::{BODY, KEY, SMALL, STRONG};
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
    let edition = joined(&[&piece.edition, &asking_price(piece)], " \u{b7} ");
    for text in [&piece.medium, &typeset(&piece.dimensions), &edition] {
        at = leaf.text(left, at, w, BODY, BODY.at_most(text, w, 3));
    }
}
