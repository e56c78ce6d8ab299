//! The steps of one plan, to be ticked off at the bench.

use sightedge_core::length::typeset;
use sightedge_core::plates::layer_name;

use crate::frame::{MARGIN, Plan, body};
use crate::page::{Block, Leaf, Mark, count};
use crate::words::{BODY, SMALL, STRONG, extents, length};

/// One step at the bench.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Step {
    /// What is done, in a few words.
    pub title: String,
    /// How, with its figures.
    pub detail: String,
    /// What can hurt or be spoilt; empty for nothing.
    pub caution: String,
}

impl Step {
    fn new(title: &str, detail: String, caution: &str) -> Self {
        Self { title: title.to_owned(), detail, caution: caution.to_owned() }
    }
}

/// The steps that follow from what a plan says, in the order of the bench: the back of the
/// sheet first, dust last, then the signature. Source: common practice.
pub(crate) fn usual(plan: &Plan<'_>) -> Vec<Step> {
    let unit = plan.unit();
    let mut steps = vec![
        Step::new(
            "Inscribe the back of the sheet",
            "Face down on clean tissue; soft pencil, light pressure, along an edge. Let ink dry \
             before matting."
                .to_owned(),
            "",
        ),
        Step::new(
            "Clear the bench",
            "Clean hands, clean surface, a fresh blade, scrap board under the cut.".to_owned(),
            "Fingers behind the guard; retract the blade whenever you let go of it.",
        ),
    ];
    let layers = plan.mat().layers.len();
    let blanks = plan.figures().blanks(unit);
    for window in &plan.figures().openings {
        for (index, (layer, cut)) in plan.mat().layers.iter().zip(&window.layers).enumerate() {
            let name = layer_name(index, layers);
            let blank = blanks
                .iter()
                .find(|blank| blank.opening == window.id && blank.layer == layer.id);
            let Some(blank) = blank else { continue };
            if index > 0 {
                steps.push(Step::new(
                    &format!("Stick the blank of the {} to the back", name.to_lowercase()),
                    format!(
                        "Blank {}, centred on the board above, inside its edges all round.",
                        extents(blank.rect.size, unit)
                    ),
                    "",
                ));
            }
            let stops = blank.stuck.each().map(|(side, stop)| {
                format!("{} {}", side.name(), length(stop, unit))
            });
            let start = if index == 0 {
                format!("Blank {}. ", extents(blank.rect.size, unit))
            } else {
                String::new()
            };
            steps.push(Step::new(
                &format!("Cut the {}", name.to_lowercase()),
                format!(
                    "{start}Stops from the back: {}. Window {}.",
                    stops.join(", "),
                    extents(cut.sight.bounds.size, unit)
                ),
                "",
            ));
        }
        let inside = window.overlap.each();
        let lies = inside.map(|(side, lap)| format!("{} {}", side.name(), length(lap, unit)));
        steps.push(Step::new(
            "Hinge the sheet and close the mat",
            format!(
                "Lay the sheet so that the mat covers of it: {}. Hinges along its top edge, \
                 weaker than the sheet.",
                lies.join(", ")
            ),
            "Moist hinging of valuable works is for a trained conservator.",
        ));
    }
    steps.push(Step::new(
        "Check for dust",
        "Look across the surface in raking light, window, glazing and all.".to_owned(),
        "",
    ));
    steps.push(Step::new(
        "Sign",
        "The mat is signed once it is fixed; number lower left, signature lower right.".to_owned(),
        "",
    ));
    steps
}

/// Lays out the list.
pub(crate) fn pages(plan: &Plan<'_>, steps: &[Step]) -> Vec<Vec<Block>> {
    let size = plan.paper.size();
    let [page_wide, page_high] = size;
    let wide = page_wide - 2.0 * MARGIN;
    let bottom = page_high - MARGIN;
    let mut leaves = Vec::new();
    let mut leaf = Leaf::default();
    let mut y = plan.head(&mut leaf, "Steps", wide);
    let (box_at, text_at) = (MARGIN, MARGIN + 13.0);
    let done = 34.0;
    let w = wide - 13.0 - done - 4.0;
    let set: Vec<[Vec<String>; 3]> = steps
        .iter()
        .map(|Step { title, detail, caution }| {
            [
                STRONG.lines(&typeset(title), w),
                BODY.lines(&typeset(detail), w),
                BODY.lines(&typeset(caution), w - 4.0),
            ]
        })
        .collect();
    // A short list takes more of the page.
    let all: f64 = set.iter().map(|step| body(step.iter().map(Vec::len).sum())).sum();
    let room = ((bottom - y - all) / count(set.len().max(1))).clamp(4.0, 14.0);
    for (number, [title, detail, caution]) in (1..).zip(set) {
        let high = body(title.len() + detail.len() + caution.len()) + room;
        if y + high > bottom {
            leaves.push(std::mem::take(&mut leaf));
            y = plan.head(&mut leaf, "Steps", wide);
        }
        let p = vec![[0.0, 0.0], [4.2, 0.0], [4.2, 4.2], [0.0, 4.2]];
        let marks = vec![Mark::Line { p, closed: true, pen: "edge" }];
        let alt = "A box to tick.".to_owned();
        leaf.blocks.push(Block::Drawing { x: box_at, y, w: 4.2, h: 4.2, alt, marks });
        leaf.set(box_at + 4.4, y, 6.6, STRONG, 0, "right", vec![number.to_string()]);
        let after = leaf.text(text_at, y, w, STRONG, title);
        let after = leaf.text(text_at, after, w, BODY, detail);
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
    let all = leaves.len();
    for (index, leaf) in leaves.iter_mut().enumerate() {
        plan.foot(leaf, size, [index + 1, all]);
    }
    leaves.into_iter().map(|leaf| leaf.blocks).collect()
}
