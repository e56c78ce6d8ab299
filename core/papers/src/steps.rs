//! The steps of one plan, to be ticked off at the bench.

use sightedge_core::steps::{Step, to_read_first};

use crate::frame::{MARGIN, Plan};
use crate::page::{Block, Leaf, Mark, count};
use crate::words::{SMALL, Style, prose};

// Read at arm's length, with both hands full.
const TITLE: Style = Style { size: 13.0, weight: 600, quiet: false };
const TEXT: Style = Style { size: 11.0, weight: 400, quiet: false };
const CAUTION: Style = Style { size: 11.0, weight: 600, quiet: false };
/// Where boxes end and texts begin.
const INDENT: f64 = 15.0;
/// The column where one writes when it was done.
const DONE: f64 = 34.0;
/// Between two steps, at least and at most.
const ROOM: [f64; 2] = [5.0, 12.0];
/// The edge of a box to tick.
const BOX: f64 = 5.2;

/// One step, its lines broken.
struct Set<'a> {
    step: &'a Step,
    /// Each with its way of setting, and whether it is a caution.
    lines: Vec<(Style, bool, Vec<String>)>,
}

impl<'a> Set<'a> {
    fn of(step: &'a Step, w: f64) -> Self {
        let Step { title, parts, cautions, .. } = step;
        let mut lines = vec![(TITLE, false, TITLE.lines(&prose(title), w))];
        lines.extend(parts.iter().map(|part| (TEXT, false, TEXT.lines(&prose(part), w))));
        if let Some(changed) = step.changed_in_words() {
            lines.push((TEXT, false, TEXT.lines(&prose(&changed), w)));
        }
        let caution = |text: &String| (CAUTION, true, CAUTION.lines(&prose(text), w - 5.0));
        lines.extend(cautions.iter().map(caution));
        Self { step, lines }
    }

    fn high(&self) -> f64 {
        let high =
            |(style, _, lines): &(Style, bool, Vec<String>)| style.pitch() * count(lines.len());
        self.lines.iter().map(high).sum::<f64>().max(BOX + 1.0)
    }

    fn lay(self, y: f64, wide: f64, leaf: &mut Leaf) {
        let Self { step, lines } = self;
        let p = vec![[0.0, 0.0], [BOX, 0.0], [BOX, BOX], [0.0, BOX]];
        let mut marks = vec![Mark::Line { p, closed: true, pen: "edge" }];
        if step.done {
            let p = [[0.2, 0.52], [0.43, 0.78], [0.83, 0.21]];
            let p = p.map(|point| point.map(|at| at * BOX)).to_vec();
            marks.push(Mark::Line { p, closed: false, pen: "section" });
        }
        let alt = if step.done { "A ticked box." } else { "A box to tick." }.to_owned();
        leaf.blocks.push(Block::Drawing { x: MARGIN, y, w: BOX, h: BOX, alt, marks });
        let number = vec![step.number.to_string()];
        leaf.set(MARGIN + BOX, y, INDENT - BOX - 2.0, TITLE, 0, "right", number);
        let at = MARGIN + wide - DONE;
        leaf.text(at, y + 1.2, DONE, SMALL, vec!["Done".to_owned()]);
        leaf.rule(at + 9.0, y + 1.2 + SMALL.pitch() * 0.9, DONE - 9.0);
        let (x, w) = (MARGIN + INDENT, wide - INDENT - DONE - 4.0);
        let mut y = y;
        for (style, caution, lines) in lines {
            let inset = if caution { 5.0 } else { 0.0 };
            if caution {
                leaf.text(x, y, inset, style, vec!["!".to_owned()]);
            }
            y = leaf.text(x + inset, y, w - inset, style, lines);
        }
    }
}

/// Lays out the list.
pub(crate) fn pages(plan: &Plan<'_>, steps: &[Step]) -> Vec<Vec<Block>> {
    let size = plan.paper.size();
    let wide = size[0] - 2.0 * MARGIN;
    let bottom = size[1] - MARGIN;
    let inscribed = plan.document.inscribed.as_ref();
    let number = inscribed.map(|own| own.recorded.number()).unwrap_or_default();
    let kind =
        if number.is_empty() { "Steps".to_owned() } else { format!("Steps for {number}") };
    let mut leaf = Leaf::default();
    let start = plan.head(&mut leaf, &kind, wide);
    let mut first = start;
    for finding in to_read_first(&plan.derived.findings) {
        let words = format!("{}: {}", finding.severity.name(), finding.message);
        let lines = CAUTION.lines(&prose(&words), wide - 5.0);
        leaf.text(MARGIN, first, 5.0, CAUTION, vec!["!".to_owned()]);
        first = leaf.text(MARGIN + 5.0, first, wide - 5.0, CAUTION, lines) + 2.0;
    }
    let set: Vec<Set<'_>> =
        steps.iter().map(|step| Set::of(step, wide - INDENT - DONE - 4.0)).collect();
    let high: Vec<f64> = set.iter().map(Set::high).collect();
    let counts = shared_out(&high, [bottom - first, bottom - start]);
    let mut leaves = Vec::new();
    let mut set = set.into_iter();
    let mut done = 0;
    for (page, many) in counts.into_iter().enumerate() {
        let mut y = if page == 0 { first } else { plan.head(&mut leaf, &kind, wide) };
        let on = high.get(done..done + many).unwrap_or_default();
        let spare = (bottom - y - on.iter().sum::<f64>()) / count(many.max(1));
        for (set, high) in set.by_ref().take(many).zip(on) {
            set.lay(y, wide, &mut leaf);
            y += high + spare.clamp(ROOM[0], ROOM[1]);
        }
        done += many;
        leaves.push(std::mem::take(&mut leaf));
    }
    leaves.extend(crate::inscription::page(plan));
    let all = leaves.len();
    for (index, leaf) in leaves.iter_mut().enumerate() {
        plan.foot(leaf, size, [index + 1, all]);
    }
    leaves.into_iter().map(|leaf| leaf.blocks).collect()
}

/// How many steps go on each page: as few pages as will do, filled as evenly as can be, so that
/// none has a single step left over. The first page has less room.
fn shared_out(high: &[f64], room: [f64; 2]) -> Vec<usize> {
    // For so many steps from the first: pages, what is left free on them squared, and how many of
    // the steps are on the last one.
    let mut best: Vec<(usize, f64, usize)> = vec![(0, 0.0, 0)];
    for end in 1..=high.len() {
        let mut found: Option<(usize, f64, usize)> = None;
        let mut taken = 0.0;
        for many in 1..=end {
            let begin = end - many;
            taken += high[begin] + if many > 1 { ROOM[0] } else { 0.0 };
            let (pages, free, _) = best[begin];
            let has = if pages == 0 { room[0] } else { room[1] };
            // One that is taller than a page stands alone.
            if taken > has && many > 1 {
                break;
            }
            let all = (pages + 1, free + (has - taken).powi(2), many);
            if found.is_none_or(|(least, most, _)| {
                all.0 < least || (all.0 == least && all.1 < most)
            }) {
                found = Some(all);
            }
        }
        best.extend(found);
    }
    let mut counts = Vec::new();
    let mut end = high.len();
    while end > 0 {
        let (_, _, many) = best[end];
        counts.push(many);
        end -= many;
    }
    counts.reverse();
    if counts.is_empty() { vec![0] } else { counts }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_page_has_one_step_left_over() {
        let ten = [20.0; 11];
        assert_eq!(shared_out(&ten, [245.0, 245.0]), [6, 5], "not ten and one");
        assert_eq!(shared_out(&ten, [120.0, 245.0]), [3, 8], "the first has less room");
        assert_eq!(shared_out(&[300.0, 10.0], [245.0, 245.0]), [1, 1]);
        assert_eq!(shared_out(&[], [245.0, 245.0]), [0]);
    }
}
