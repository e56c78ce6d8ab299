//! The order list: what to buy for one plan or for many.

use std::collections::BTreeMap;

use sightedge_core::date::Date;
use sightedge_core::length::Unit;

use crate::frame::MARGIN;
use crate::page::{Block, Leaf, Pages, Table, count};
use crate::purchases::{Group, Purchase};
use crate::set::{LaidOut, set_pages};
use crate::words::{BODY, SMALL, SUBTITLE, TITLE, near};
use crate::{Archive, House, Paper, PapersError};

/// Height of a row.
const ROW: f64 = 5.6;
/// The paper's name.
const NAME: &str = "Order list";

/// A list for many plans.
#[derive(Clone, Copy, Debug)]
pub struct OrderList<'a> {
    /// What is bought.
    pub purchases: &'a [Purchase],
    /// How many plans it is for.
    pub plans: usize,
    /// What sizes are written in.
    pub unit: Unit,
    /// What it is printed on.
    pub paper: Paper,
    /// The day written on it.
    pub date: Date,
    /// Which rules the PDF keeps.
    pub archive: Archive,
    /// Whose list it is.
    pub house: &'a House,
}

impl OrderList<'_> {
    /// Sets its pages.
    ///
    /// # Errors
    /// Where this program was built without the typesetter.
    pub fn lay_out(&self) -> Result<LaidOut, PapersError> {
        let [width, height] = self.paper.size();
        let about = match self.plans {
            1 => "for one plan".to_owned(),
            plans => format!("for {plans} plans"),
        };
        let mut head = |leaf: &mut Leaf| {
            let w = width - 2.0 * MARGIN;
            let y = leaf.set(MARGIN, MARGIN, w, TITLE, 1, "left", vec![NAME.to_owned()]) + 0.6;
            leaf.text(MARGIN, y, w, SUBTITLE, vec![about.clone()]);
            let house = self.house.line();
            let between = if house.is_empty() { "" } else { " \u{b7} " };
            let day = vec![format!("{house}{between}{}", self.date)];
            let y = leaf.set(MARGIN, y, w, SUBTITLE, 0, "right", day) + 1.4;
            leaf.rule(MARGIN, y, w);
            y + 3.6
        };
        let mut leaves = leaves(self.purchases, self.unit, self.paper, &mut head);
        let all = leaves.len();
        for (index, leaf) in leaves.iter_mut().enumerate() {
            let (y, w) = (height - MARGIN + 3.0, width - 2.0 * MARGIN);
            let text = vec![format!("{} / {all}", index + 1)];
            leaf.set(MARGIN, y, w, SMALL, 0, "right", text);
        }
        let pages = Pages {
            title: format!("{NAME}, {about}"),
            keywords: vec!["sightedge-order".to_owned()],
            date: self.date.parts(),
            width,
            height,
            pages: leaves.into_iter().map(|leaf| leaf.blocks).collect(),
        };
        let ident = format!("order-{}", self.date);
        Ok(set_pages(pages, BTreeMap::new(), self.archive, ident, Vec::new()))
    }
}

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
    let length = one.length_text(unit).map(|text| sightedge_core::length::typeset(&text));
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
