//! The steps of one plan, to be ticked off at the bench.

use sightedge_core::length::typeset;
use sightedge_core::steps::{Step, to_read_first};

use crate::frame::{MARGIN, Plan, body};
use crate::page::{Block, Leaf, Mark, count};
use crate::words::{BODY, SMALL, STRONG};

/// Lays out the list.
pub(crate) fn pages(plan: &Plan<'_>, steps: &[Step]) -> Vec<Vec<Block>> {
    let size = plan.paper.size();
    let [page_wide, page_high] = size;
    let wide = page_wide - 2.0 * MARGIN;
    let bottom = page_high - MARGIN;
    let mut leaves = Vec::new();
    let mut leaf = Leaf::default();
    let inscribed = plan.document.inscribed.as_ref();
    let number = inscribed.map(|own| own.recorded.number()).unwrap_or_default();
    let kind =
        if number.is_empty() { "Steps".to_owned() } else { format!("Steps for {number}") };
    let mut y = plan.head(&mut leaf, &kind, wide);
    for finding in to_read_first(&plan.derived.findings) {
        let words = format!("{}: {}", finding.severity.name(), finding.message);
        let lines = BODY.lines(&typeset(&words), wide - 4.0);
        leaf.text(MARGIN, y, 4.0, STRONG, vec!["!".to_owned()]);
        y = leaf.text(MARGIN + 4.0, y, wide - 4.0, BODY, lines) + 1.6;
    }
    let (box_at, text_at) = (MARGIN, MARGIN + 13.0);
    let done = 34.0;
    let w = wide - 13.0 - done - 4.0;
    let set: Vec<[Vec<String>; 4]> = steps
        .iter()
        .map(|step| {
            let Step { title, cautions, .. } = step;
            [
                STRONG.lines(&typeset(title), w),
                BODY.lines(&typeset(&step.text()), w),
                BODY.lines(&typeset(&cautions.join(" ")), w - 4.0),
                BODY.lines(&typeset(&step.changed_in_words().unwrap_or_default()), w),
            ]
        })
        .collect();
    // A short list takes more of the page.
    let all: f64 = set.iter().map(|step| body(step.iter().map(Vec::len).sum())).sum();
    let room = ((bottom - y - all) / count(set.len().max(1))).clamp(4.0, 14.0);
    for (step, [title, detail, caution, changed]) in steps.iter().zip(set) {
        let lines = title.len() + detail.len() + caution.len() + changed.len();
        let high = body(lines) + room;
        if y + high > bottom {
            leaves.push(std::mem::take(&mut leaf));
            y = plan.head(&mut leaf, &kind, wide);
        }
        let p = vec![[0.0, 0.0], [4.2, 0.0], [4.2, 4.2], [0.0, 4.2]];
        let mut marks = vec![Mark::Line { p, closed: true, pen: "edge" }];
        if step.done {
            let p = vec![[0.8, 2.2], [1.8, 3.3], [3.5, 0.9]];
            marks.push(Mark::Line { p, closed: false, pen: "section" });
        }
        let alt = if step.done { "A ticked box." } else { "A box to tick." }.to_owned();
        leaf.blocks.push(Block::Drawing { x: box_at, y, w: 4.2, h: 4.2, alt, marks });
        leaf.set(box_at + 4.4, y, 6.6, STRONG, 0, "right", vec![step.number.to_string()]);
        let after = leaf.text(text_at, y, w, STRONG, title);
        let after = leaf.text(text_at, after, w, BODY, detail);
        let after = if changed.is_empty() {
            after
        } else {
            leaf.text(text_at, after, w, BODY, changed)
        };
        if !caution.is_empty() {
            leaf.text(text_at, after, 4.0, STRONG, vec!["!".to_owned()]);
            leaf.text(text_at + 4.0, after, w - 4.0, BODY, caution);
        }
        let at = MARGIN + wide - done;
        leaf.text(at, y, done, SMALL, vec!["Done".to_owned()]);
        leaf.rule(at + 8.5, y + SMALL.pitch() * 0.9, done - 8.5);
        y += high;
    }
    leaves.push(leaf);
    leaves.extend(crate::inscription::page(plan));
    let all = leaves.len();
    for (index, leaf) in leaves.iter_mut().enumerate() {
        plan.foot(leaf, size, [index + 1, all]);
    }
    leaves.into_iter().map(|leaf| leaf.blocks).collect()
}
