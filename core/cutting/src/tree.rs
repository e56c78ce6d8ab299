//! From placed pieces to the cuts that free them.
//!
//! All cuts that can be made in one direction are made at once, then all across, and so on:
//! no order of cuts needs fewer stages. Parts move together to the left and bottom, so what
//! is left over is in one part at the end.

use crate::plan::Cut;
use crate::prepare::{Instance, Placed};

/// A part, in lengths grown by the kerf.
#[derive(Clone, Debug)]
pub(crate) struct Node {
    pub(crate) w: i64,
    pub(crate) h: i64,
    pub(crate) fate: NodeFate,
}

#[derive(Clone, Debug)]
pub(crate) enum NodeFate {
    /// A piece of this kind.
    Piece {
        kind: usize,
    },
    Rest,
    Cut {
        cut: Cut,
        parts: Vec<Node>,
    },
}

impl Node {
    const fn rest(w: i64, h: i64) -> Self {
        Self { w, h, fate: NodeFate::Rest }
    }

    /// Area of the largest part from which nothing is cut.
    pub(crate) fn largest_rest(&self) -> i64 {
        match &self.fate {
            NodeFate::Piece { .. } => 0,
            NodeFate::Rest => self.w * self.h,
            NodeFate::Cut { parts, .. } => {
                parts.iter().map(Self::largest_rest).max().unwrap_or(0)
            }
        }
    }

    fn within(&self, stage: u8, limit: u8) -> bool {
        let NodeFate::Cut { parts, .. } = &self.fate else { return true };
        if stage <= limit {
            return parts.iter().all(|p| p.within(stage + 1, limit));
        }
        let pieces = parts.iter().filter(|p| !matches!(p.fate, NodeFate::Rest)).count();
        let whole = parts.iter().all(|p| !matches!(p.fate, NodeFate::Cut { .. }));
        stage == limit + 1 && pieces == 1 && whole
    }
}

/// The cuts for `placed` on a sheet, with the largest rest that the stages allow; `None`
/// where edge-to-edge cuts within the stages do not free every piece.
pub(crate) fn build(inst: &Instance, sheet: usize, placed: &[Placed]) -> Option<Node> {
    let (w, h) = (inst.sheets[sheet].w, inst.sheets[sheet].h);
    let limit = inst.stages.limit();
    let mut best: Option<Node> = None;
    for cut in [Cut::Upright, Cut::Level] {
        let Some(node) = cut_all(inst, placed.to_vec(), w, h, cut, true) else { continue };
        if limit.is_some_and(|limit| !node.within(1, limit)) {
            continue;
        }
        if best.as_ref().is_none_or(|b| node.largest_rest() > b.largest_rest()) {
            best = Some(node);
        }
    }
    best
}

fn free(inst: &Instance, placed: Vec<Placed>, w: i64, h: i64, last: Cut) -> Option<Node> {
    if let [only] = placed[..] {
        let (pw, ph) = inst.kinds[only.kind].size(only.turned);
        if (pw, ph) == (w, h) {
            let fate = NodeFate::Piece { kind: only.kind };
            return Some(Node { w, h, fate });
        }
    }
    match last {
        Cut::Upright => cut_all(inst, placed, w, h, Cut::Level, false),
        Cut::Level => cut_all(inst, placed, w, h, Cut::Upright, false),
    }
}

/// Cuts between all groups that no piece bridges. A single group is only freed of its rest
/// where it is a single piece, or at the root.
fn cut_all(
    inst: &Instance,
    mut placed: Vec<Placed>,
    w: i64,
    h: i64,
    cut: Cut,
    root: bool,
) -> Option<Node> {
    let span = |p: &Placed| {
        let (pw, ph) = inst.kinds[p.kind].size(p.turned);
        match cut {
            Cut::Upright => (p.x, p.x + pw),
            Cut::Level => (p.y, p.y + ph),
        }
    };
    placed.sort_by_key(|p| span(p));
    let mut groups: Vec<(i64, Vec<Placed>)> = Vec::new();
    let (mut start, mut end) = (0, i64::MIN);
    for p in placed {
        let (from, to) = span(&p);
        match groups.last_mut() {
            Some((length, group)) if from < end => {
                end = end.max(to);
                *length = end - start;
                group.push(p);
            }
            _ => {
                (start, end) = (from, to);
                groups.push((to - from, vec![p]));
            }
        }
    }
    let full = match cut {
        Cut::Upright => w,
        Cut::Level => h,
    };
    let sum: i64 = groups.iter().map(|(length, _)| length).sum();
    if let [(_, group)] = &groups[..]
        && group.len() > 1
        && !root
    {
        return None;
    }
    let size = |length: i64| match cut {
        Cut::Upright => (length, h),
        Cut::Level => (w, length),
    };
    if groups.len() == 1 && sum == full {
        // Nothing to cut this way (at the root, or a piece as wide as its part).
        let group = groups.pop().map(|g| g.1)?;
        if root || group.len() == 1 {
            return free(inst, group, w, h, cut);
        }
        return None;
    }
    let mut parts = Vec::with_capacity(groups.len() + 1);
    for (length, group) in groups {
        let (w, h) = size(length);
        parts.push(free(inst, group, w, h, cut)?);
    }
    if sum < full {
        let (w, h) = size(full - sum);
        parts.push(Node::rest(w, h));
    }
    Some(Node { w, h, fate: NodeFate::Cut { cut, parts } })
}
