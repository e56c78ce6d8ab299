//! The steps at the bench, from the template in the tables and the figures of this very plan;
//! each can be ticked for the print at the bench, and the ticks are kept in the plan's log.

mod cut;
mod figures;
mod fill;
mod formatter;
mod framing;
mod holding;
mod placing;
mod ticks;

use crate::derived::Derived;
use crate::finding::{Finding, Severity};
use crate::material::{StepRow, Tables};
use crate::spec::{Document, Front, HingeKind, PrintRef, Variant};

use figures::figures;
pub use framing::{points, wire_length};
pub use ticks::{at_the_bench, is_ticked, tick, untick};

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
    /// The print it is done for; `None` for the plan alone.
    pub print: Option<PrintRef>,
    /// Whether it was ticked as it is.
    pub done: bool,
    /// The day it was ticked, where it was, changed since or not.
    pub ticked: String,
    /// What changed since it was ticked, a sentence each: then it is open again.
    pub changed: Vec<String>,
}

impl Step {
    /// All of what is done.
    pub fn text(&self) -> String {
        self.parts.join(" ")
    }

    /// What changed since it was ticked, with the day; `None` where nothing did.
    pub fn changed_in_words(&self) -> Option<String> {
        let since = if self.ticked.is_empty() { "" } else { " on " };
        let day = &self.ticked;
        (!self.changed.is_empty()).then(|| {
            format!(
                "Open again, for it changed since it was ticked{since}{day}. {}",
                self.changed.join(" ")
            )
        })
    }

    /// What a tick keeps of the step: its title, then its parts.
    fn contents(&self) -> Vec<String> {
        std::iter::once(&self.title).chain(&self.parts).cloned().collect()
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
        .map(|(number, row)| {
            let mut step = Step {
                id: row.id.clone(),
                number,
                title: figures.filled(&row.title),
                parts: figures.parts(&row.text),
                cautions: figures.parts(&row.cautions),
                print: at_the_bench(document),
                done: false,
                ticked: String::new(),
                changed: Vec::new(),
            };
            if let Some(tick) = ticks::tick_of(document, variant.id, &row.id) {
                step.changed = ticks::changed(tick, &step.contents());
                step.done = step.changed.is_empty();
                step.ticked.clone_from(&tick.when);
            }
            step
        })
        .collect()
}

/// Rules whose cautions warn of harm to the print itself, or of a mat cut for another print.
const READ_FIRST: [&str; 3] = ["as-cut", "hinge-wetting", "hinge-strength"];

/// The findings to read before the first step, in their order: what will fail, what can harm the
/// print, and what is cut and does not fit.
pub fn to_read_first(findings: &[Finding]) -> impl Iterator<Item = &Finding> {
    findings.iter().filter(|finding| match finding.severity {
        Severity::Fault => true,
        Severity::Caution => READ_FIRST.contains(&finding.rule),
        Severity::Note => false,
    })
}

/// Where the person wants the line on the front.
fn front(document: &Document) -> Option<Front> {
    document.inscribed.as_ref().map(|inscribed| inscribed.lettering.front)
}

/// Whether the sheet is turned face down for it, and laid back to its place.
const fn turned_over(kind: HingeKind) -> bool {
    matches!(kind, HingeKind::V | HingeKind::PassThrough)
}

fn applies(row: &StepRow, document: &Document, variant: &Variant, derived: &Derived) -> bool {
    let written = derived.inscription.as_ref();
    let front = written.filter(|made| !made.front.is_empty()).and(front(document));
    let assembly = &variant.mat.assembly;
    let kinds = || derived.assembly.sheets.iter().map(|sheet| &sheet.hinges);
    let to_cut = !derived.layout.in_hand;
    let uncut = |layer: usize| cut::is_uncut(&variant.mat, &derived.layout, layer);
    match row.when.as_str() {
        "never" => false,
        "to-cut" => to_cut && uncut(0),
        "undermats-to-cut" => to_cut && (1..variant.mat.layers.len()).any(uncut),
        "hinged" => kinds().any(|plan| plan.kind.sticks()),
        "t-hinges" => kinds().any(|plan| plan.kind == HingeKind::T),
        "v-hinges" => kinds().any(|plan| plan.kind == HingeKind::V),
        "pass-through" => kinds().any(|plan| plan.kind == HingeKind::PassThrough),
        "turned-over" => kinds().any(|plan| turned_over(plan.kind)),
        "left-lying" => !kinds().any(|plan| turned_over(plan.kind)),
        "yielding" => kinds().any(|plan| plan.kind == HingeKind::T && holding::yields(plan)),
        "corners" => kinds().any(|plan| plan.kind == HingeKind::Corners),
        "strips" => kinds().any(|plan| plan.kind == HingeKind::Strips),
        "glued" => assembly.corners_glued.is_some(),
        "signed-back" => written.is_none_or(|made| !made.back.is_empty()),
        // Where the plan does not know, the step says when it would be done.
        "signed-mat" => written.is_none() || front == Some(Front::Mat),
        "signed-margin" => front == Some(Front::Margin),
        "framed" => assembly.framed(),
        "spaced" => assembly.framed() && assembly.package.spacer.is_some(),
        "unframed" => !assembly.framed(),
        _ => true,
    }
}

#[cfg(test)]
mod tests;
