//! The foot of the plan sheet: what is still open, notes, places to write and sign.

use sightedge_core::length::typeset;

use crate::frame::{Plan, body};
use crate::marks::fine;
use crate::page::{Block, Leaf, Mark, count};
use crate::words::{BODY, HEADING, SMALL};

/// What is still open, and the maker's notes: the foot of the sheet.
#[derive(Debug)]
pub(super) struct Foot {
    checks: usize,
    notes: Vec<String>,
}

impl Foot {
    pub(super) fn of(plan: &Plan<'_>, wide: f64) -> Self {
        Self {
            checks: plan.checks(BODY, wide, usize::MAX).len(),
            notes: BODY.lines(&typeset(&plan.mat().notes), wide),
        }
    }

    /// The room it needs: a few lines of each, and their heads.
    pub(super) fn least(&self) -> f64 {
        let heading = HEADING.pitch() + 0.8;
        let notes = if self.notes.is_empty() {
            0.0
        } else {
            body(self.notes.len().min(3)) + heading + 1.6
        };
        heading + body(self.checks.min(4)) + notes
    }

    pub(super) fn lay(self, [x, y, w, bottom]: [f64; 4], plan: &Plan<'_>, leaf: &mut Leaf) {
        let Self { checks, mut notes } = self;
        let heading = HEADING.pitch() + 0.8;
        let lines = |room: f64| (0..200).take_while(|n| body(n + 1) <= room + 0.01).count();
        let for_notes =
            if notes.is_empty() { 0.0 } else { heading + 1.6 + body(notes.len().min(3)) };
        let most = lines(bottom - y - heading - for_notes).max(1);
        let y = leaf.heading(x, y, w, 2, "Checks, left and right from the front");
        let y = leaf.text(x, y, w, BODY, plan.checks(BODY, w, most.min(checks.max(1))));
        if notes.is_empty() {
            return;
        }
        let y = leaf.heading(x, y + 1.6, w, 2, "Notes");
        let most = lines(bottom - y).max(1);
        if notes.len() > most {
            notes.truncate(most);
            if let Some(last) = notes.last_mut() {
                *last = BODY.shortened(&format!("{last} …"), w);
            }
        }
        leaf.text(x, y, w, BODY, notes);
    }
}

/// Places for the inscription and the signatures; what is known of it stands there already.
pub(super) fn sign(plan: &Plan<'_>, [x, y, w]: [f64; 3], leaf: &mut Leaf) {
    let y = leaf.heading(x, y, w, 2, "Inscription and signatures");
    let third = w / 3.0;
    let step = 10.6;
    let recorded = plan.document.inscribed.as_ref().map(|inscribed| &inscribed.recorded);
    let title = recorded.map(|recorded| recorded.title.clone()).unwrap_or_default();
    let number = recorded
        .and_then(|recorded| Some(recorded.notation?.text(recorded.numerals)))
        .unwrap_or_default();
    let none = String::new();
    let rows: [&[(&str, &String, f64)]; 3] = [
        &[("Title", &title, third * 2.0 - 2.0), ("Number", &number, third)],
        &[("Client", &none, third * 2.0 - 2.0), ("Date", &none, third)],
        &[("Artist", &none, third * 2.0 - 2.0), ("Date", &none, third)],
    ];
    let mut marks = Vec::new();
    for (index, row) in rows.into_iter().enumerate() {
        let foot = 2.4 + step * count(index) + SMALL.pitch() * 0.8;
        let mut at = 0.0;
        let mut set = |x: f64, style: crate::words::Style, s: String, label| {
            let (w, size) = (style.width(&s), style.size);
            marks.push(Mark::Text { x, y: foot, w, s, size, turned: false, label });
            w
        };
        let mut lines = Vec::new();
        for (word, known, wide) in row {
            let w = set(at, SMALL, (*word).to_owned(), true);
            let from = fine(at + w + 2.0);
            if !known.is_empty() {
                set(fine(from + 1.0), BODY, BODY.shortened(known, wide - w - 3.0), false);
            }
            lines.push(vec![[from, foot], [fine(at + wide), foot]]);
            at += wide + 2.0;
        }
        let drawn = |p| Mark::Line { p, closed: false, pen: "fine" };
        marks.extend(lines.into_iter().map(drawn));
    }
    // One drawing: a place to write on says nothing that would be read aloud line by line.
    let alt = "Places for title, number and signatures.".to_owned();
    leaf.blocks.push(Block::Drawing { x, y, w, h: step * 3.0, alt, marks });
}
