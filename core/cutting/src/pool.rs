//! Every pattern seen, each once.

use std::collections::BTreeMap;

use crate::prepare::{Instance, Placed};

/// One way to cut one sheet.
#[derive(Clone, Debug)]
pub(crate) struct Pattern {
    pub(crate) sheet: usize,
    /// Kind and number of pieces, by ascending kind.
    pub(crate) counts: Vec<(usize, u32)>,
    pub(crate) placed: Vec<Placed>,
}

/// What the pieces of a pattern add up to.
pub(crate) fn counts(placed: &[Placed]) -> Vec<(usize, u32)> {
    let mut kinds: Vec<usize> = placed.iter().map(|p| p.kind).collect();
    kinds.sort_unstable();
    let mut counts: Vec<(usize, u32)> = Vec::new();
    for kind in kinds {
        match counts.last_mut() {
            Some((last, n)) if *last == kind => *n += 1,
            _ => counts.push((kind, 1)),
        }
    }
    counts
}

/// Drops what is beyond `most` of each kind.
pub(crate) fn limit(placed: &mut Vec<Placed>, most: &[u32]) {
    let mut seen: BTreeMap<usize, u32> = BTreeMap::new();
    placed.retain(|p| {
        let n = seen.entry(p.kind).or_default();
        *n += 1;
        *n <= most[p.kind]
    });
}

#[derive(Debug, Default)]
pub(crate) struct Pool {
    pub(crate) patterns: Vec<Pattern>,
    seen: BTreeMap<(usize, Vec<(usize, u32)>), usize>,
}

impl Pool {
    /// Adds a pattern (pieces beyond the demand left out); its number and whether it is new.
    pub(crate) fn add(
        &mut self,
        inst: &Instance,
        sheet: usize,
        mut placed: Vec<Placed>,
    ) -> Option<(usize, bool)> {
        let demand: Vec<u32> = inst.kinds.iter().map(|k| k.copies).collect();
        limit(&mut placed, &demand);
        self.add_as_is(sheet, placed)
    }

    /// Adds a pattern even where it holds more of a piece than is wanted.
    pub(crate) fn add_as_is(
        &mut self,
        sheet: usize,
        placed: Vec<Placed>,
    ) -> Option<(usize, bool)> {
        if placed.is_empty() {
            return None;
        }
        let counts = counts(&placed);
        let key = (sheet, counts.clone());
        if let Some(&at) = self.seen.get(&key) {
            return Some((at, false));
        }
        let at = self.patterns.len();
        self.seen.insert(key, at);
        self.patterns.push(Pattern { sheet, counts, placed });
        Some((at, true))
    }

    /// The same pieces laid out otherwise; the number of the pattern that holds them.
    pub(crate) fn replace_places(&mut self, number: usize, placed: Vec<Placed>) -> usize {
        self.patterns[number].placed = placed;
        number
    }
}
