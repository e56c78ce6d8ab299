//! What changes when a mat's borders give a step of the ruler: a sheet less, now and then.

use sightedge_core::command::{Command, apply};
use sightedge_core::derived::derive;
use sightedge_core::finding::{Severity, Since};
use sightedge_core::geometry::{Sides, Size};
use sightedge_core::layout::layout;
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::Tables;
use sightedge_core::money;
use sightedge_core::spec::{BoardBy, Document, Placement, Variant};
use sightedge_cutting::{Control, Effort, Plan, Problem, solve};

use super::instructions::size;
use super::{BoardJob, Manner, StockSheet, Taken, counted, jobs};
use crate::wording::count;

/// Borders that give a little, and what that saves.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// The plan, by its place in the list that was asked about; `None`: all that can.
    pub plan: Option<usize>,
    /// How much each border gives; of several plans, the first one's.
    pub by: Length,
    /// Sheets saved, drop-outs not counted.
    pub sheets: u64,
    /// Cost saved, in the jobs' unit of cost.
    pub cost: i64,
    /// Whether costs are prices, else square centimetres.
    pub priced: bool,
    /// What the show comes to as it is, and with the change.
    pub sums: [Sum; 2],
    /// Each mat that would change.
    pub changes: Vec<Change>,
}

/// A mat as it is cut on the maker's ruler: its board, and the top mat's borders (where it has
/// several windows, the narrowest on each side).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Face {
    /// The board.
    pub outer: Size,
    /// From its edges to the top mat's windows.
    pub borders: Sides<Length>,
}

impl Face {
    fn of(document: &Document) -> Option<Self> {
        let laid = layout(document, &document.chosen()?.mat);
        let tops = laid.bench.openings.iter().filter_map(|window| window.layers.first());
        let borders = tops.map(|cut| cut.borders).reduce(|a, b| Sides {
            top: a.top.min(b.top),
            right: a.right.min(b.right),
            bottom: a.bottom.min(b.bottom),
            left: a.left.min(b.left),
        })?;
        Some(Self { outer: laid.bench.outer, borders })
    }
}

/// What narrower borders do to one plan's mat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Change {
    /// The plan, by its place in the list that was asked about.
    pub plan: usize,
    /// How much each of its borders gives, in steps of its own ruler.
    pub by: Length,
    /// As it is, and as it would be.
    pub faces: [Face; 2],
}

impl Change {
    fn of(plan: usize, by: Length, before: &Document, after: &Document) -> Option<Self> {
        Some(Self { plan, by, faces: [Face::of(before)?, Face::of(after)?] })
    }

    /// In words: its board before and after, then the top mat's borders before and after.
    pub fn told(&self, unit: Unit) -> [String; 2] {
        let [before, after] = self.faces;
        let board = |face: Face| size(face.outer, unit);
        let borders = |face: Face| {
            let Sides { top, right, bottom, left } = face.borders;
            if [right, bottom, left] == [top; 3] {
                return format!("{} all round", top.text(unit));
            }
            let [top, right, bottom, left] =
                [top, right, bottom, left].map(|side| side.text(unit));
            format!("top {top}, right {right}, bottom {bottom}, left {left}")
        };
        [
            format!("board {} → {}", board(before), board(after)),
            format!("top mat’s borders {} → {}", borders(before), borders(after)),
        ]
    }
}

impl Offer {
    /// What it saves, as a verb with what follows it.
    pub fn saves(&self) -> String {
        match self.sheets {
            0 if self.priced => format!("save {}", money::text(self.cost)),
            0 => "let smaller sheets do".to_owned(),
            1 => "save a sheet".to_owned(),
            n => format!("save {n} sheets"),
        }
    }

    /// What the show comes to before and after.
    pub fn comes_to(&self) -> String {
        let [before, after] = self.sums;
        let sheets = count(after.sheets, "sheet");
        let sheets = format!("{sheets} instead of {}", before.sheets);
        if self.priced {
            return format!(
                "{sheets}, {} instead of {}",
                money::text(after.cost),
                money::text(before.cost)
            );
        }
        let saved = share(self.cost, before.cost);
        format!("{sheets}, {saved:.1} % less board to cut from")
    }
}

/// A part in percent of a whole.
#[expect(clippy::as_conversions, clippy::cast_precision_loss, reason = "a share for the eye")]
fn share(part: i64, whole: i64) -> f64 {
    100.0 * part as f64 / whole.max(1) as f64
}

/// How much work one trial may take: a tenth of a second or so for each board.
const EFFORT: Effort = Effort { steps: 120_000_000, seed: 1 };

/// The change that takes `by` off each border of the chosen variant; `None` where the mat's
/// size is not the maker's to change: it goes into a frame in hand, or is cut already.
pub fn change(document: &Document, by: Length) -> Option<Command> {
    let Variant { id, mat, .. } = document.chosen()?;
    if mat.in_hand() || mat.cut_board().is_some() || mat.assembly.package.size.is_some() {
        return None;
    }
    let board_by = match mat.board_by {
        BoardBy::Borders(borders) => BoardBy::Borders(borders.map(|border| border - by)),
        BoardBy::Outer { size, placement } => {
            let size = Size::new(size.width - by * 2, size.height - by * 2);
            let placement = match placement {
                Placement::Free { left, top } => {
                    Placement::Free { left: left - by, top: top - by }
                }
                other => other,
            };
            BoardBy::Outer { size, placement }
        }
    };
    Some(Command::SetBoardBy(*id, board_by))
}

/// The plan with borders that gave `by`, if no check is the worse for it: what the person
/// allows is kept to.
pub fn narrower(document: &Document, by: Length, tables: &Tables) -> Option<Document> {
    let command = change(document, by)?;
    let mut changed = document.clone();
    apply(&mut changed, &command).ok()?;
    let found =
        |document: &Document| Some(derive(document, document.chosen()?, tables).findings);
    let (before, after) = (found(document)?, found(&changed)?);
    let mut brought = Since::of(&before, &after).brought.into_iter();
    brought.all(|finding| finding.severity == Severity::Note).then_some(changed)
}

/// What a show's boards come to; less is better.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Sum {
    /// Pieces without a place.
    pub missing: u64,
    /// Cost, in the jobs' unit of cost.
    pub cost: i64,
    /// Sheets that cost something.
    pub sheets: u64,
}

impl Sum {
    /// Adds one board's plan.
    pub fn add(&mut self, problem: &Problem, plan: &Plan) {
        self.missing += plan.missing.iter().map(|n| u64::from(*n)).sum::<u64>();
        self.cost = self.cost.saturating_add(plan.cost);
        let bought = plan.patterns.iter().filter(|p| problem.stocks[p.stock].cost > 0);
        self.sheets += bought.map(|p| u64::from(p.copies)).sum::<u64>();
    }
}

/// What all boards of a show come to, tried for a short while.
fn tried(all: &[BoardJob], should_stop: &mut dyn FnMut() -> bool) -> Option<Sum> {
    let (mut sum, mut taken) = (Sum::default(), Taken::default());
    for job in all {
        let job = taken.rest(job.clone());
        let control = Control { should_stop, progress: &mut |_| {} };
        let plan = solve(&job.problem, EFFORT, control);
        taken.add(&job, &plan);
        sum.add(&job.problem, &plan);
    }
    (!should_stop()).then_some(sum)
}

/// Tries the plans (each with its count) one step of their ruler narrower, then two, up to
/// `most`: each by itself, then all together. The best offers first, at most two. What is
/// saved is saved against `shown`, the plan of cutting that the person sees, however long it
/// was sought; and it is nothing that a longer search would save without narrower borders, as
/// far as a trial tells.
pub fn offers(
    plans: &[(String, Document, u32)],
    (stock, manner, tables): (&[StockSheet], Manner, &Tables),
    most: Length,
    shown: Sum,
    should_stop: &mut dyn FnMut() -> bool,
) -> Vec<Offer> {
    let show = |plans: &[(String, Document, u32)]| jobs(&counted(plans), stock, manner);
    let now = show(plans);
    let priced = now.iter().all(|job| job.priced);
    let Some(as_is) = tried(&now, should_stop) else { return Vec::new() };
    let as_is = as_is.min(shown);
    let offer = |plan, by, then: Sum, changes| Offer {
        plan,
        by,
        sheets: as_is.sheets.saturating_sub(then.sheets),
        cost: as_is.cost - then.cost,
        priced,
        sums: [as_is, then],
        changes,
    };
    let mut offers: Vec<Offer> = Vec::new();
    for steps in 1..=4 {
        let mut together = plans.to_vec();
        let mut changes: Vec<Change> = Vec::new();
        for (index, (_, document, _)) in plans.iter().enumerate() {
            let by = document.ruler.step() * steps;
            if by > most || should_stop() {
                continue;
            }
            let Some(smaller) = narrower(document, by, tables) else { continue };
            together[index].1 = smaller.clone();
            let change = Change::of(index, by, document, &smaller);
            changes.extend(change);
            // Not tried again wider where less was enough.
            if offers.iter().any(|offer| offer.plan == Some(index)) {
                continue;
            }
            let mut trial = plans.to_vec();
            trial[index].1 = smaller;
            let Some(then) = tried(&show(&trial), should_stop) else { break };
            if then < as_is {
                let changes = change.into_iter().collect();
                offers.push(offer(Some(index), by, then, changes));
            }
        }
        let all_known = offers.iter().any(|offer| offer.plan.is_none());
        if changes.len() > 1
            && !all_known
            && let Some((_, document, _)) = plans.first()
            && let Some(then) = tried(&show(&together), should_stop)
            && then < as_is
        {
            let best = offers.iter().map(|offer| offer.cost).max().unwrap_or(0);
            if as_is.cost - then.cost > best {
                offers.push(offer(None, document.ruler.step() * steps, then, changes));
            }
        }
    }
    offers.sort_by_key(|offer| (std::cmp::Reverse(offer.cost), offer.by, offer.plan.is_none()));
    offers.truncate(2);
    offers
}

#[cfg(test)]
mod tests {
    use sightedge_core::geometry::Point;
    use sightedge_core::spec::{Opening, OpeningId};

    use super::super::tests::plan;
    use super::*;

    /// Source: by hand. Two windows of 5 3/4 × 7 3/4 in, the second 10 in to the right, in the
    /// middle of 40 × 20 in: 12 1/8 in at each side, 6 1/8 in above and below.
    #[test]
    fn borders_are_those_round_all_windows() {
        let mut document = plan(40, 20);
        let openings = &mut document.variants[0].mat.openings;
        let place = Point::new(Length::inches(10, 0, 1), Length::ZERO);
        let first = openings[0].clone();
        openings.push(Opening { id: OpeningId(2), place, ..first });
        let (high, wide) = (Length::inches(6, 1, 8), Length::inches(12, 1, 8));
        let face = Face::of(&document).unwrap();
        assert_eq!(face.borders, Sides::new(high, wide, high, wide));
    }
}
