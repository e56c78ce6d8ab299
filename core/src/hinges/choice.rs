//! Which kind of hinge, and why: by how the window meets the sheet, by paper and weight.

use crate::geometry::Sides;
use crate::layout::Window;
use crate::length::Length;
use crate::material::{Fibre, Process};
use crate::spec::{Assembly, HingeKind};

/// A chosen kind.
pub(super) struct Choice {
    pub(super) kind: HingeKind,
    pub(super) reason: String,
}

/// The smallest pocket of use along an edge. Source: from memory.
const LEAST_POCKET: Length = Length::inches(0, 1, 2);
/// The least overlap that hides a strip reaching 2 mm over the sheet. Source: from memory.
const LEAST_FOR_STRIPS: Length = Length::mm(3);
/// Floated sheets heavier than this hang better from hinges through the board.
/// Source: from memory.
const HEAVY_G: f64 = 150.0;

/// A pocket may reach along each edge by both overlaps of its corner: its slanting edge then
/// just meets the window's corner.
pub(super) fn corner_room(overlap: Sides<Length>) -> Length {
    overlap.left.min(overlap.right) + overlap.top.min(overlap.bottom)
}

/// What holds a sheet with such overlaps without adhesive: pockets where they are of use,
/// else strips where they are hidden.
pub(super) fn without_adhesive(overlap: Sides<Length>) -> Option<HingeKind> {
    if overlap.least().is_negative() {
        None
    } else if corner_room(overlap) >= LEAST_POCKET {
        Some(HingeKind::Corners)
    } else {
        (overlap.least() >= LEAST_FOR_STRIPS).then_some(HingeKind::Strips)
    }
}

/// Whether the whole sheet shows, its edges free.
pub(super) fn floated(window: &Window) -> bool {
    window.overlap.each().iter().all(|(_, overlap)| overlap.is_negative())
}

/// Chooses a kind; `room` says whether a T hinge has room above the sheet.
pub(super) fn choose(assembly: &Assembly, window: &Window, room: bool) -> Choice {
    let because = |kind, reason: &str| Choice { kind, reason: reason.to_owned() };
    if let Some(kind) = assembly.hinging.kind {
        return because(kind, "Your choice.");
    }
    let paper = assembly.paper.as_ref();
    if floated(window) {
        let heavy = super::sheet_mass(paper, window.sheet.size).is_some_and(|g| g > HEAVY_G);
        return if heavy {
            because(
                HingeKind::PassThrough,
                "The sheet is floated and heavy: pass-through hinges carry it and stay out of \
                 sight.",
            )
        } else {
            because(
                HingeKind::V,
                "The sheet is floated: V hinges stay out of sight behind it. They are weaker \
                 than T hinges, so it needs more of them.",
            )
        };
    }
    if !assembly.hinging.at.is_empty() {
        return because(
            HingeKind::T,
            "You placed the hinges, and the mat covers the sheet's \
                                      edges.",
        );
    }
    let small = "the overlap is too small to hide corner pockets";
    let tender = paper.and_then(|paper| match (paper.fibre, paper.process) {
        (Fibre::ResinCoated, _) => Some("Water-based adhesive does not hold on this paper"),
        (_, Process::Inkjet) => Some("Wetting the back of an inkjet print can mark its face"),
        _ => None,
    });
    match tender {
        Some(why) if corner_room(window.overlap) >= LEAST_POCKET => Choice {
            kind: HingeKind::Corners,
            reason: format!("{why}: corner pockets need no adhesive on the sheet."),
        },
        Some(why) if window.overlap.least() >= LEAST_FOR_STRIPS => Choice {
            kind: HingeKind::Strips,
            reason: format!("{why}, and {small}: edge strips need no adhesive on the sheet."),
        },
        None if !room => {
            let why = "There is too little room above the sheet for T hinges";
            match without_adhesive(window.overlap) {
                Some(HingeKind::Corners) => Choice {
                    kind: HingeKind::Corners,
                    reason: format!(
                        "{why}: use corner pockets, which the mat hides on every \
                                     side."
                    ),
                },
                Some(kind) => Choice {
                    kind,
                    reason: format!("{why}, and {small}: edge strips hold the sheet."),
                },
                None => Choice {
                    kind: HingeKind::V,
                    reason: format!("{why}: use V hinges, which stay behind the sheet."),
                },
            }
        }
        Some(why) if !room => Choice {
            kind: HingeKind::V,
            reason: format!(
                "{why}, but the overlap is too small to hide pockets or strips, and there is \
                 too little room above the sheet for T hinges: use V hinges, put on by a dry \
                 method."
            ),
        },
        Some(why) => Choice {
            kind: HingeKind::T,
            reason: format!(
                "{why}, but the overlap is too small to hide pockets or strips: use T hinges, \
                 put on by a dry method."
            ),
        },
        None => because(
            HingeKind::T,
            "The mat covers the sheet's edges, so T hinges are out of sight above them.",
        ),
    }
}
