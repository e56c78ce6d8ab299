//! The order list for many plans.

use std::collections::BTreeMap;

use crate::buying::{NAME, leaves};
use crate::frame::MARGIN;
use crate::page::{Leaf, Pages};
use crate::set::{LaidOut, set_pages};
use crate::words::{SMALL, SUBTITLE, TITLE};
use crate::{OrderList, PapersError};

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
