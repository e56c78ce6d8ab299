//! The steps at the bench, from the template in the tables and the figures of this very plan;
//! each can be ticked, and the ticks are kept in the plan's log.

mod cut;
mod figures;
mod fill;
mod holding;
mod placing;

use crate::derived::Derived;
use crate::material::{StepRow, Tables};
use crate::spec::{Document, Entry, EntryKind, Front, HingeKind, Variant, VariantId};

use figures::figures;

/// One step with its figures filled in.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Step {
    /// Its id in the template.
    pub id: String,
    /// From 1.
    pub number: u32,
    /// In a few words.
    pub title: String,
    /// What is done, in parts that are read one at a time: a sentence, or one figure of several.
    pub parts: Vec<String>,
    /// What to beware of.
    pub cautions: Vec<String>,
    /// Whether it was ticked.
    pub done: bool,
}

impl Step {
    /// All of what is done.
    pub fn text(&self) -> String {
        self.parts.join(" ")
    }
}

/// The steps for one variant. What is cut already has no step for cutting it.
pub fn steps(
    document: &Document,
    variant: &Variant,
    derived: &Derived,
    tables: &Tables,
) -> Vec<Step> {
    let figures = figures(document, variant, derived);
    let rows = tables.steps.iter().filter(|row| applies(row, document, variant, derived));
    (1..)
        .zip(rows)
        .map(|(number, row)| Step {
            id: row.id.clone(),
            number,
            title: figures.filled(&row.title),
            parts: figures.parts(&row.text),
            cautions: figures.parts(&row.cautions),
            done: is_ticked(document, variant.id, &row.id),
        })
        .collect()
}

/// How a tick is written in the log.
fn mark(variant: VariantId, step: &str) -> String {
    format!("{variant}/{step}")
}

/// Whether a step was ticked.
pub fn is_ticked(document: &Document, variant: VariantId, step: &str) -> bool {
    let mark = mark(variant, step);
    document.log.iter().any(|entry| entry.kind == EntryKind::Tick && entry.text == mark)
}

/// The log entry that ticks a step; `when` as the log has it.
pub fn tick(variant: VariantId, step: &str, when: &str) -> Entry {
    Entry { when: when.to_owned(), kind: EntryKind::Tick, text: mark(variant, step) }
}

/// Takes a step's ticks back.
pub fn untick(log: &mut Vec<Entry>, variant: VariantId, step: &str) {
    let mark = mark(variant, step);
    log.retain(|entry| entry.kind != EntryKind::Tick || entry.text != mark);
}

/// Where the person wants the line on the front.
fn front(document: &Document) -> Option<Front> {
    document.inscribed.as_ref().map(|inscribed| inscribed.wish.front)
}

/// Whether the sheet is turned face down for it, and laid back to its place.
const fn turned_over(kind: HingeKind) -> bool {
    matches!(kind, HingeKind::V | HingeKind::PassThrough)
}

fn applies(row: &StepRow, document: &Document, variant: &Variant, derived: &Derived) -> bool {
    let written = derived.inscription.as_ref();
    let front = written.filter(|made| !made.front.is_empty()).and(front(document));
    let behind = &variant.mat.behind;
    let kinds = || derived.behind.sheets.iter().map(|sheet| &sheet.hinges);
    let to_cut = !derived.layout.in_hand;
    let uncut = |layer: usize| cut::open(&variant.mat, &derived.layout, layer);
    match row.when.as_str() {
        "never" => false,
        "to-cut" => to_cut && uncut(0),
        "liners-to-cut" => to_cut && (1..variant.mat.layers.len()).any(uncut),
        "hinged" => kinds().any(|plan| plan.kind.sticks()),
        "t-hinges" => kinds().any(|plan| plan.kind == HingeKind::T),
        "v-hinges" => kinds().any(|plan| plan.kind == HingeKind::V),
        "pass-through" => kinds().any(|plan| plan.kind == HingeKind::PassThrough),
        "turned-over" => kinds().any(|plan| turned_over(plan.kind)),
        "left-lying" => !kinds().any(|plan| turned_over(plan.kind)),
        "yielding" => kinds().any(|plan| plan.kind == HingeKind::T && holding::yields(plan)),
        "corners" => kinds().any(|plan| plan.kind == HingeKind::Corners),
        "strips" => kinds().any(|plan| plan.kind == HingeKind::Strips),
        "glued" => behind.corners_glued.is_some(),
        "signed-back" => written.is_none_or(|made| !made.back.is_empty()),
        // Where the plan does not know, the step says when it would be done.
        "signed-mat" => written.is_none() || front == Some(Front::Mat),
        "signed-margin" => front == Some(Front::Margin),
        "framed" => behind.framed(),
        "unframed" => !behind.framed(),
        _ => true,
    }
}

#[cfg(test)]
mod tests;
