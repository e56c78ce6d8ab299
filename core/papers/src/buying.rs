//! What is to be bought, as tables on pages.

use sightedge_core::length::Unit;

use crate::Paper;
use crate::frame::MARGIN;
use crate::page::{Block, Leaf, Table, count};
use crate::purchases::{Group, Purchase};
use crate::words::{BODY, near, prose};

/// Height of a row.
const ROW: f64 = 5.6;
/// The paper's name.
pub(crate) const NAME: &str = "Order list";

/// The pages of a list, `head` set on each.
pub(crate) fn leaves(
    purchases: &[Purchase],
    unit: Unit,
    paper: Paper,
    head: &mut dyn FnMut(&mut Leaf) -> f64,
) -> Vec<Leaf> {
    let [wide, high] = paper.size();
    let (w, bottom) = (wide - 2.0 * MARGIN, high - MARGIN);
    let several = purchases.iter().any(|one| one.of.len() > 1)
        || purchases.windows(2).any(|two| two[0].of != two[1].of);
    let share: [f64; 5] =
        if several { [0.36, 0.08, 0.2, 0.18, 0.18] } else { [0.44, 0.1, 0.24, 0.22, 0.0] };
    let columns: Vec<f64> =
        share.iter().filter(|share| **share > 0.0).map(|share| share * w).collect();
    let mut names =
        ["", "Pieces", "Width × height", "Length in all", "For"].map(str::to_owned).to_vec();
    names.truncate(columns.len());
    let mut leaves = Vec::new();
    let mut leaf = Leaf::default();
    let mut y = head(&mut leaf);
    for group in Group::ALL {
        let mut rows: Vec<Vec<String>> = purchases
            .iter()
            .filter(|one| one.group == group)
            .map(|one| row(one, unit, &columns))
            .collect();
        if rows.is_empty() {
            continue;
        }
        let about = group.about(unit).map(|words| BODY.lines(&words, w)).unwrap_or_default();
        let above = 6.0 + BODY.pitch() * count(about.len());
        // The head of a group never stands alone at the foot of a page.
        if y + above + ROW * 2.5 > bottom {
            leaves.push(std::mem::take(&mut leaf));
            y = head(&mut leaf);
        }
        y = leaf.heading(MARGIN, y, w, 2, group.name());
        y = leaf.text(MARGIN, y, w, BODY, about);
        while !rows.is_empty() {
            let mut fits = 1;
            while y + ROW * count(fits + 2) <= bottom {
                fits += 1;
            }
            let rest = rows.split_off(fits.min(rows.len()));
            y = leaf.table(Table {
                x: MARGIN,
                y,
                columns: columns.clone(),
                row: ROW,
                size: BODY.size,
                start: vec![0, 4],
                groups: Vec::new(),
                head: names.clone(),
                rows: std::mem::replace(&mut rows, rest),
            }) + 4.0;
            if !rows.is_empty() {
                leaves.push(std::mem::take(&mut leaf));
                y = head(&mut leaf);
            }
        }
    }
    leaves.push(leaf);
    leaves
}

fn row(one: &Purchase, unit: Unit, columns: &[f64]) -> Vec<String> {
    let shown = |text: &str, column: usize| {
        BODY.shortened(text, columns.get(column).copied().unwrap_or_default() - 2.0)
    };
    let size = one.size.map(|size| size.extent_text(|side| near(side, unit)));
    let length = one.length_text(unit).map(|text| prose(&text));
    let mut row = vec![
        shown(&one.what, 0),
        if one.pieces == 0 { String::new() } else { one.pieces.to_string() },
        size.unwrap_or_default(),
        length.unwrap_or_default(),
    ];
    if columns.len() > 4 {
        let of = match one.of.as_slice() {
            [title] => title.clone(),
            titles => format!("{} pictures", titles.len()),
        };
        row.push(shown(&of, 4));
    }
    row
}

/// The list of one plan.
pub(crate) fn pages(plan: &crate::frame::Plan<'_>) -> Vec<Vec<Block>> {
    let size = plan.paper.size();
    let wide = size[0] - 2.0 * MARGIN;
    let bought = crate::purchases::purchases([(plan.document, plan.mat(), plan.derived)]);
    let mut head = |leaf: &mut Leaf| {
        let y = plan.head(leaf, NAME, wide);
        match plan.framing_words() {
            Some(words) => leaf.text(MARGIN, y, wide, BODY, BODY.lines(&words, wide)) + 3.0,
            None => y,
        }
    };
    let mut leaves = leaves(&bought, plan.unit(), plan.paper, &mut head);
    let all = leaves.len();
    for (index, leaf) in leaves.iter_mut().enumerate() {
        plan.foot(leaf, size, [index + 1, all]);
    }
    leaves.into_iter().map(|leaf| leaf.blocks).collect()
}
