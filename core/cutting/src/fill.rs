//! Fills one sheet by one rule: each piece into a free part, which two cuts then divide.

#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    reason = "counts on one sheet are small; areas are weighed with noise anyway"
)]

use crate::prepare::{Instance, Placed};
use crate::rng::Rng;

/// Which free part a piece goes into.
#[derive(Clone, Copy, Debug)]
enum Fit {
    ShortSide,
    LongSide,
    Area,
    Lowest,
}

/// Which of the two cuts beside a piece comes first.
#[derive(Clone, Copy, Debug)]
enum Split {
    ShorterRest,
    LongerRest,
    LargestPart,
    SmallestPart,
    Upright,
    Level,
    Random,
}

#[derive(Clone, Copy, Debug)]
pub(crate) struct Rule {
    fit: Fit,
    split: Split,
    /// Whether the cuts of the first stage stand upright.
    upright: bool,
}

impl Rule {
    pub(crate) fn random(rng: &mut Rng) -> Self {
        let fit = [Fit::ShortSide, Fit::LongSide, Fit::Area, Fit::Lowest][rng.below(4)];
        let split = [
            Split::ShorterRest,
            Split::LongerRest,
            Split::LargestPart,
            Split::LargestPart,
            Split::SmallestPart,
            Split::Upright,
            Split::Level,
            Split::Random,
        ][rng.below(8)];
        Self { fit, split, upright: rng.below(2) == 0 }
    }
}

/// A sheet, the kinds to try in order, and how.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Task<'a> {
    pub(crate) sheet: usize,
    pub(crate) order: &'a [usize],
    pub(crate) rule: Rule,
}

/// A free part. Cuts in the direction `upright` belong to `stage`; cuts across it to the next.
#[derive(Clone, Copy, Debug)]
struct Part {
    x: i64,
    y: i64,
    w: i64,
    h: i64,
    upright: bool,
    stage: u8,
}

#[derive(Debug, Default)]
pub(crate) struct Filler {
    parts: Vec<Part>,
    pub(crate) steps: u64,
}

impl Filler {
    /// Places pieces of the kinds in `order`, each as long as any remain and fit. Takes them
    /// off `remaining`, appends them to `placed` and returns the area they cover.
    pub(crate) fn fill(
        &mut self,
        inst: &Instance,
        task: Task<'_>,
        remaining: &mut [u32],
        rng: &mut Rng,
        placed: &mut Vec<Placed>,
    ) -> i64 {
        let Task { sheet, order, rule } = task;
        let limit = inst.stages.limit();
        let sheet = &inst.sheets[sheet];
        self.parts.clear();
        let (w, h, upright) = (sheet.w, sheet.h, rule.upright);
        self.parts.push(Part { x: 0, y: 0, w, h, upright, stage: 1 });
        let mut used = 0;
        for &index in order {
            let kind = &inst.kinds[index];
            while remaining[index] > 0 {
                let mut best: Option<(i64, usize, bool)> = None;
                for turned in [false, true] {
                    if turned && !kind.turn {
                        break;
                    }
                    let (w, h) = kind.size(turned);
                    for (at, part) in self.parts.iter().enumerate() {
                        let (dw, dh) = (part.w - w, part.h - h);
                        if dw < 0 || dh < 0 || !allowed(part, dw, dh, limit) {
                            continue;
                        }
                        let score = match rule.fit {
                            Fit::ShortSide => dw.min(dh),
                            Fit::LongSide => dw.max(dh),
                            Fit::Area => part.w * part.h,
                            Fit::Lowest => part.y + part.x,
                        };
                        if best.is_none_or(|b| score < b.0) {
                            best = Some((score, at, turned));
                        }
                    }
                }
                self.steps += 2 * self.parts.len() as u64 + 4;
                let Some((_, at, turned)) = best else { break };
                let part = self.parts.swap_remove(at);
                let (w, h) = kind.size(turned);
                placed.push(Placed { kind: index, turned, x: part.x, y: part.y });
                self.divide(part, w, h, rule.split, limit, rng);
                remaining[index] -= 1;
                used += kind.area();
                if self.parts.is_empty() {
                    return used;
                }
            }
        }
        used
    }

    /// Takes one free part after another and puts into each the piece that suits it best:
    /// large ones, and above all those that fill a side exactly.
    pub(crate) fn fill_parts(
        &mut self,
        inst: &Instance,
        task: Task<'_>,
        remaining: &mut [u32],
        rng: &mut Rng,
        placed: &mut Vec<Placed>,
    ) -> i64 {
        let Task { sheet, order, rule } = task;
        let limit = inst.stages.limit();
        let sheet = &inst.sheets[sheet];
        self.parts.clear();
        let (w, h, upright) = (sheet.w, sheet.h, rule.upright);
        self.parts.push(Part { x: 0, y: 0, w, h, upright, stage: 1 });
        let mut used = 0;
        let exact_bonus = [1.0, 1.5, 2.0, 4.0][rng.below(4)];
        let noise = [0.0, 0.2, 0.5, 1.0][rng.below(4)];
        let smallest_first = rng.below(3) > 0;
        while !self.parts.is_empty() {
            let at = if smallest_first {
                let parts = self.parts.iter().enumerate();
                parts.min_by_key(|(_, p)| p.w * p.h).map_or(0, |(at, _)| at)
            } else {
                self.parts.len() - 1
            };
            let part = self.parts.swap_remove(at);
            let mut best: Option<(f64, usize, bool)> = None;
            for &index in order {
                if remaining[index] == 0 {
                    continue;
                }
                let kind = &inst.kinds[index];
                for turned in [false, true] {
                    if turned && !kind.turn {
                        break;
                    }
                    let (w, h) = kind.size(turned);
                    let (dw, dh) = (part.w - w, part.h - h);
                    if dw < 0 || dh < 0 || !allowed(&part, dw, dh, limit) {
                        continue;
                    }
                    let mut score = (w * h) as f64 * (1.0 + noise * rng.unit());
                    if dw == 0 {
                        score *= exact_bonus;
                    }
                    if dh == 0 {
                        score *= exact_bonus;
                    }
                    if best.is_none_or(|b| score > b.0) {
                        best = Some((score, index, turned));
                    }
                }
            }
            self.steps += 3 * order.len() as u64 + 4;
            let Some((_, index, turned)) = best else { continue };
            let kind = &inst.kinds[index];
            let (w, h) = kind.size(turned);
            placed.push(Placed { kind: index, turned, x: part.x, y: part.y });
            self.divide(part, w, h, rule.split, limit, rng);
            remaining[index] -= 1;
            used += kind.area();
        }
        used
    }

    fn divide(
        &mut self,
        p: Part,
        w: i64,
        h: i64,
        split: Split,
        limit: Option<u8>,
        rng: &mut Rng,
    ) {
        let (dw, dh) = (p.w - w, p.h - h);
        let upright_first = match split {
            Split::ShorterRest => dw <= dh,
            Split::LongerRest => dw > dh,
            // The larger of the two parts: beside (full height) or above (full width).
            Split::LargestPart => dw * p.h >= dh * p.w,
            Split::SmallestPart => dw * p.h < dh * p.w,
            Split::Upright => true,
            Split::Level => false,
            Split::Random => rng.below(2) == 0,
        };
        let fits = |first: bool| limit.is_none_or(|l| stages_used(&p, dw, dh, first) <= l);
        let upright_first = if fits(upright_first) { upright_first } else { !upright_first };
        // `beside` is what the upright cut leaves, `above` what the level one leaves.
        let (beside_h, above_w) = if upright_first { (p.h, w) } else { (h, p.w) };
        let first = if upright_first == p.upright { p.stage } else { p.stage + 1 };
        let (beside, above) =
            if upright_first { (first, first + 1) } else { (first + 1, first) };
        let within = |stage: u8| limit.is_none_or(|l| stage <= l);
        // Without a limit stages are not counted.
        let counted = |stage: u8| if limit.is_some() { stage } else { 1 };
        if dw > 0 && within(beside) {
            let (x, stage) = (p.x + w, counted(beside));
            self.parts.push(Part { x, y: p.y, w: dw, h: beside_h, upright: true, stage });
        }
        if dh > 0 && within(above) {
            let (y, stage) = (p.y + h, counted(above));
            self.parts.push(Part { x: p.x, y, w: above_w, h: dh, upright: false, stage });
        }
    }
}

/// The stage of the last cut beside a piece that is not its trimming.
fn stages_used(p: &Part, dw: i64, dh: i64, upright_first: bool) -> u8 {
    let first = if upright_first == p.upright { p.stage } else { p.stage + 1 };
    match (dw > 0, dh > 0) {
        (false, false) => 0,
        // One cut only: it may be the trimming cut.
        (true, false) => (if p.upright { p.stage } else { p.stage + 1 }) - 1,
        (false, true) => (if p.upright { p.stage + 1 } else { p.stage }) - 1,
        (true, true) => first,
    }
}

fn allowed(p: &Part, dw: i64, dh: i64, limit: Option<u8>) -> bool {
    limit
        .is_none_or(|l| stages_used(p, dw, dh, true) <= l || stages_used(p, dw, dh, false) <= l)
}
