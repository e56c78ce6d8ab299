//! How mat, backing and sheet are laid to each other, as one does it with the pieces in hand.
//! Left and right are those of the piece as it hangs.

use crate::geometry::{Rect, Side, Sides};
use crate::hinges::MatHinge;
use crate::layout::{Figures as Laid, Window};
use crate::length::{Length, Round};

use super::fill::Figures;
use super::formatter::Formatter;

/// The figures of the joint between mat and backing, and of the sheet's place on the backing.
pub(super) fn figures(
    laid: &Laid,
    own: &MatHinge,
    undermats: Length,
    to: Formatter,
    figures: &mut Figures,
) {
    let within = Rect::at_origin(laid.outer).within(laid.backing);
    let position = position(laid, within, to);
    figures.list("joint", joint(own, (within, &position), undermats, to));
    figures.insert("lies", position);
    let size = to.size(laid.backing.size);
    let flush = within.each().iter().all(|(_, side)| *side == Length::ZERO);
    let backing = if flush { format!("{size}, as large as the mat") } else { size };
    figures.insert("backing", backing);
    if let Some(window) = laid.openings.first() {
        figures.list("shows", shows(window, to));
        let within = window.sheet.within(laid.backing);
        let from = |side: Side| {
            let (name, by) = (side.name(), within.of(side));
            match by {
                Length::ZERO => format!("flush with the backing's {name} edge"),
                _ => format!("{} from the backing's {name} edge", to.near(by)),
            }
        };
        figures.insert("sheet_left", from(Side::Left));
        figures.insert("sheet_top", from(Side::Top));
    }
}

/// How the two boards are laid for the tape. The tape lies on the inner faces: the mat's back
/// and the backing's face are up, so that the fold closes over it.
/// Source: Library of Congress, Matting and Hinging Works of Art on Paper; common practice.
fn joint(
    own: &MatHinge,
    (within, position): (Sides<Length>, &str),
    undermats: Length,
    to: Formatter,
) -> Vec<String> {
    let edge = own.edge.name();
    // Undermats are smaller than the top mat: its edge closes as high above the backing as they are
    // thick, and the tape has to reach up there.
    // Rounded first, so that the sum is that of what is read.
    let [of_tape, undermats] =
        [own.gap, undermats].map(|one| one.rounded(to.unit(), Round::Near));
    let gap = to.length(of_tape + undermats);
    let sum = if undermats.is_positive() {
        format!(" ({} and the undermats' {})", to.length(of_tape), to.length(undermats))
    } else {
        String::new()
    };
    let backing = "Backing face up, its head away from you".to_owned();
    if within.of(own.edge).is_positive() {
        // Edge against edge it would fold out to the backing's edge, not within it.
        return vec![
            backing,
            format!("the mat face up on it, so that {position}"),
            format!("draw a fine pencil line on the backing along the mat's {edge} edge"),
            format!(
                "turn the mat over that edge like a page: it lies face down, its {edge} edge \
                 {gap} from the line{sum}, its far side held level by a piece of board as thick as \
                 the backing"
            ),
        ];
    }
    let mat = match own.edge {
        Side::Top => "beyond it, its head towards you",
        Side::Bottom => "on your side of it, its head towards you",
        Side::Left => "to the left of it, its head away from you too",
        Side::Right => "to the right of it, its head away from you too",
    };
    let seen = match own.edge {
        Side::Top | Side::Bottom => "",
        Side::Left | Side::Right => " (as it hangs)",
    };
    vec![
        backing,
        format!("mat face down {mat}"),
        format!(
            "the mat's {edge} edge{seen} against the backing's {edge} edge, {gap} apart{sum}"
        ),
    ]
}

/// Where the mat lies on the backing once it is folded over.
fn position(laid: &Laid, within: Sides<Length>, to: Formatter) -> String {
    let by_side = |wanted: fn(Length) -> bool| -> Vec<(Side, Length)> {
        within.each().into_iter().filter(|(_, side)| wanted(*side)).collect()
    };
    let beyond = by_side(Length::is_negative);
    if let [(_, most), ..] = beyond.as_slice() {
        let most = beyond.iter().map(|(_, side)| side.abs()).fold(most.abs(), Length::max);
        return format!(
            "as planned the mat comes out up to {} beyond the backing; cut a backing of at \
             least {} first",
            to.length(most),
            to.size(laid.outer)
        );
    }
    let inside = by_side(Length::is_positive);
    if inside.is_empty() {
        return "it lies flush with the backing on every side".to_owned();
    }
    let amounts = sides(&inside, to);
    if inside.len() == 4 {
        return format!("it lies within the backing, {amounts}");
    }
    let flush = by_side(|side| side == Length::ZERO);
    let flush: Vec<_> = flush.iter().map(|(side, _)| side.name()).collect();
    format!("it lies flush at {}, and within the backing {amounts}", flush.join(" and "))
}

/// What one sees, and what lies under the mat, once the sheet lies right.
fn shows(window: &Window, to: Formatter) -> Vec<String> {
    let Window { reveal, overlap, .. } = window;
    let (mut paper, mut covered, mut free, mut held) = (vec![], vec![], vec![], vec![]);
    for (side, overlap) in overlap.each() {
        let reveal = reveal.of(side);
        if overlap.is_negative() {
            free.push((side, -overlap));
            continue;
        }
        held.push((side, overlap));
        if reveal.is_negative() {
            covered.push((side, -reveal));
        } else {
            paper.push((side, reveal));
        }
    }
    let with_amounts = |words: &str, amounts: &[(Side, Length)]| {
        let listed = if alike(amounts) { "" } else { ":" };
        (!amounts.is_empty()).then(|| format!("{words}{listed} {}", sides(amounts, to)))
    };
    let seen = |place: &str, what: &str, amounts: &[(Side, Length)]| match amounts {
        [(_, one), ..] if alike(amounts) => {
            Some(format!("{place}, {} of {what} shows on every side", to.near(*one)))
        }
        _ => with_amounts(&format!("{place}, {what} shows"), amounts),
    };
    let met = !paper.is_empty() && paper.iter().all(|(_, side)| *side == Length::ZERO);
    let paper = if met {
        let names: Vec<_> = paper.iter().map(|(side, _)| side.name()).collect();
        let all = names.len() == 4;
        let names =
            if all { "all round".to_owned() } else { format!("at {}", names.join(", ")) };
        Some(format!("the window meets the picture's edge {names}"))
    } else {
        seen("between picture and window", "paper", &paper)
    };
    [
        paper,
        with_amounts("the mat covers the picture by", &covered),
        seen("round the sheet", "the backing", &free),
        with_amounts("the mat covers the sheet by", &held),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Whether these are all four sides, and the amounts are the same.
fn alike(amounts: &[(Side, Length)]) -> bool {
    amounts.len() == 4
        && amounts.iter().all(|one| amounts.first().is_some_and(|first| first.1 == one.1))
}

/// `top 1/4 in, left 1/8 in`, or one amount where all four sides are alike.
fn sides(amounts: &[(Side, Length)], to: Formatter) -> String {
    if let [(_, first), ..] = amounts
        && alike(amounts)
    {
        return format!("{} on every side", to.near(*first));
    }
    let each = amounts.iter().map(|(side, by)| format!("{} {}", side.name(), to.near(*by)));
    each.collect::<Vec<_>>().join(", ")
}
