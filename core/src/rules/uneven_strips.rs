//! Strips of an undermat that differ are seen at once: a mat looks lopsided by 1/16 in.
//!
//! Judged is the set of the bench, for that is what will show.

use super::case::unseen;
use super::least_border;
use super::remedy::with_backing;
use super::undermat_offset::{fits, least};
use super::{Case, Rule};
use crate::command::{Command, apply};
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::geometry::{Side, Sides};
use crate::layout::{Cut, Window, layout};
use crate::length::Length;
use crate::spec::{BoardBy, Opening, WindowBy};

pub(super) const RULE: Rule = Rule {
    id: "uneven-strips",
    judges: "whether each undermat shows evenly on all sides",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (opening, exact) in case.windows() {
        let Some(window) = case.layout.bench.opening(exact.id) else { continue };
        for (index, cut) in window.layers.iter().enumerate().skip(1) {
            let (narrow, wide) = (cut.offset.least(), most(cut.offset));
            // off-board reports layers that cross.
            if wide - narrow <= unseen(case.unit()) || narrow.is_negative() {
                continue;
            }
            let mut ways = if case.mat.follows_what_is_cut(opening, index) {
                other_windows(case, opening, exact, index, cut)
            } else {
                even(case, opening, exact, cut, index).map_or_else(Vec::new, |way| vec![way])
            };
            let first = ways.drain(..ways.len().min(1)).next();
            let strips = case.around(cut.offset);
            let the = case.mat.the_layer(index);
            let why = match &first {
                Some((way, _)) => format!(" {}", sentence(way)),
                None if case.mat.follows_what_is_cut(opening, index) => {
                    " No window on your ruler makes them even.".to_owned()
                }
                None => String::new(),
            };
            let by = case.text(wide - narrow);
            let mut report = |message, remedy| {
                let side = Side::ALL.into_iter().find(|side| cut.offset.of(*side) == wide);
                findings.push(Finding {
                    rule: RULE.id,
                    severity: Severity::Note,
                    place: Place { opening: Some(exact.id), layer: Some(cut.layer), side },
                    measured: Amount::Length(wide),
                    required: Amount::Length(narrow),
                    source: "common practice",
                    message,
                    remedy,
                });
            };
            let message = format!(
                "The strips of {the} that show are {strips}: they differ by {by}, and the eye \
                 will notice.{why}"
            );
            report(message, first.map(|(_, remedy)| remedy));
            for (way, remedy) in ways {
                report(sentence(&way), Some(remedy));
            }
        }
    }
}

/// With a capital letter.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|first| first.to_ascii_uppercase());
    first.into_iter().chain(letters).collect()
}

fn most(sides: Sides<Length>) -> Length {
    sides.top.max(sides.right).max(sides.bottom).max(sides.left)
}

/// Below a layer that is cut: other windows for this one, with which its strips are even, and
/// what they do to reveal and overlap. The one nearest to the plan's comes first.
fn other_windows(
    case: &Case<'_>,
    opening: &Opening,
    now: &Window,
    index: usize,
    cut: &Cut,
) -> Vec<(String, Remedy)> {
    let mut wished: Vec<Length> = cut.offset.each().map(|(_, strip)| strip).to_vec();
    wished.sort_unstable();
    wished.dedup();
    let mut ways = Vec::new();
    for strip in wished {
        let command =
            Command::SetOffset(case.variant, opening.id, cut.layer, Sides::all(strip));
        let mut document = case.document.clone();
        if apply(&mut document, &command).is_err() {
            continue;
        }
        let Some(variant) = document.variant(case.variant) else { continue };
        let bench = layout(&document, &variant.mat).bench;
        let Some(window) = bench.opening(opening.id) else { continue };
        let Some(cut) = window.layers.get(index) else { continue };
        let sight = cut.sight.bounds.size;
        let enough = strip >= least(case) && strip > cut.bevel;
        if cut.offset != Sides::all(strip) || !enough || !sight.is_positive() {
            continue;
        }
        let size = case.exact_size(sight);
        let the = case.mat.the_layer(index);
        let way = format!(
            "cut {the}'s window {size}, and its strips are {}, the reveal {}, the overlap {}.",
            case.around(cut.offset),
            case.around(window.reveal),
            case.around(window.overlap),
        );
        let words = format!("Cut {the}'s window {size}");
        let (then, before) = (window.sight.size, now.sight.size);
        let far = (then.width - before.width).abs() + (then.height - before.height).abs();
        ways.push((far, (way, Remedy { words, command })));
    }
    ways.sort_by_key(|(far, _)| *far);
    ways.into_iter().map(|(_, way)| way).collect()
}

/// Where nothing is cut yet: the offset that most sides have, on all of them.
fn even(
    case: &Case<'_>,
    opening: &Opening,
    window: &Window,
    cut: &Cut,
    index: usize,
) -> Option<(String, Remedy)> {
    let above = index.checked_sub(1)?;
    if matches!(opening.window_by, WindowBy::InHand(_)) || case.mat.is_cut(opening, above) {
        return None;
    }
    let strips = cut.offset.each().map(|(_, strip)| strip);
    let often = |strip: &Length| strips.iter().filter(|other| *other == strip).count();
    let narrowest = least(case);
    let good = |strip: &&Length| **strip >= narrowest && **strip > cut.bevel;
    // Of several alike, the narrowest: no border becomes narrower.
    let strip = strips
        .iter()
        .filter(good)
        .max_by_key(|strip| (often(strip), std::cmp::Reverse(**strip)))?;
    let all = Sides::all(*strip);
    let more = all.minus(window.layers.get(index)?.offset);
    let outer = fits(case, window, more)?;
    // Where borders are given, the board becomes smaller with the strips: the sheet must still
    // lie on it.
    let on = window.sheet.within(case.board());
    let given = matches!(case.mat.board_by, BoardBy::Borders(_));
    let leaves = on.zip(more, |on, more| more.is_negative() && (on + more).is_negative());
    if given && (case.mat.backing.size.is_some() || leaves.each().iter().any(|(_, out)| *out)) {
        return None;
    }
    // A larger board may ask for more of borders that stay as they are.
    let board = case.layout.exact.outer;
    let grows = outer.width > board.width || outer.height > board.height;
    let (now, then) = (least_border::plain(case, board), least_border::plain(case, outer));
    let borders = window.top()?.borders.each();
    let narrow = borders.iter().any(|(_, border)| *border >= now && *border < then);
    if given && grows && (narrow || case.mat.exhibition) {
        return None;
    }
    let command = Command::SetOffset(case.variant, opening.id, cut.layer, all);
    let words =
        format!("Make {}'s strips {} all round", case.mat.the_layer(index), case.text(*strip));
    let remedy = Remedy { words, command: with_backing(case, command, outer) };
    Some(("make them even, unless you want them so.".to_owned(), remedy))
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::command::{Measured, as_cut};
    use crate::geometry::Seen;
    use crate::spec::{Document, Layer, LayerId, OpeningId, Placement, VariantId};

    #[track_caller]
    fn case(offset: &str, wanted: &str) {
        let mut document = reference();
        mat(&mut document).openings[0].offsets.insert(LayerId(2), sides(offset));
        check(&document, RULE.id, wanted);
    }

    /// Source: common practice.
    #[test]
    fn limits() {
        case("3/16", "");
        case("3/16,1/4,3/16,3/16", "note right");
        case("1/4,3/16,1/4,3/16", "note top");
        // On the ruler they are one.
        case("3/16,.19,3/16,3/16", "");
    }

    #[test]
    fn in_words() {
        let mut document = reference();
        mat(&mut document).openings[0].offsets.insert(LayerId(2), sides("3/16,3/16,3/16,1/2"));
        let (message, remedy) = words(&document, RULE.id);
        assert_eq!(
            message,
            "The strips of the undermat that show are top 3/16 in, right 3/16 in, bottom 3/16 \
             in, left 1/2 in, seen from the front: they differ by 5/16 in, and the eye will \
             notice. Make them even, unless you want them so."
        );
        assert_eq!(remedy, "Make the undermat's strips 3/16 in all round");
    }

    /// The reference double mat with its top mat cut a sixteenth too wide.
    fn cut_too_wide(wide: &str) -> Document {
        let mut document = reference();
        let placement = Placement::BottomExtra(inches("1"));
        mat(&mut document).board_by = BoardBy::Outer { size: size("20x26"), placement };
        mat(&mut document).openings[0].window_by = WindowBy::Reveal(Sides::all(inches("1/4")));
        let measured = Measured {
            outer: None,
            layer: Some(LayerId(1)),
            sight: size(&format!("{wide}x15 7/8")),
            left: inches("4 1/16"),
            top: inches("4 9/16"),
            seen: Seen::Front,
        };
        let command = as_cut(&document, VariantId(1), OpeningId(1), measured).unwrap();
        apply(&mut document, &command).unwrap();
        document
    }

    /// Source: derived (D), the trade reference's worked miscut: both other windows.
    #[test]
    fn under_a_cut_layer_another_window_is_offered() {
        let document = cut_too_wide("11 15/16");
        check(&document, RULE.id, "note right, note right");
        let [wider, narrower] = found(&document, RULE.id).try_into().unwrap();
        let (wider, narrower): (Finding, Finding) = (wider, narrower);
        assert_eq!(
            wider.message,
            "The strips of the undermat that show are top 3/16 in, right 1/4 in, bottom 3/16 \
             in, left 3/16 in, seen from the front: they differ by 1/16 in, and the eye will \
             notice. Cut the undermat's window 11 9/16 × 15 1/2 in, and its strips are 3/16 \
             in all round, the reveal 1/4 in above and below, 9/32 in at the sides, the \
             overlap top 1 1/4 in, right 23/32 in, bottom 2 1/4 in, left 23/32 in, seen from \
             the front."
        );
        assert_eq!(
            wider.remedy.unwrap().words,
            "Cut the undermat's window 11 9/16 × 15 1/2 in"
        );
        assert_eq!(
            narrower.message,
            "Cut the undermat's window 11 7/16 × 15 3/8 in, and its strips are 1/4 in all round, \
             the reveal 3/16 in above and below, 7/32 in at the sides, the overlap top 1 5/16 in, \
             right 25/32 in, bottom 2 5/16 in, left 25/32 in, seen from the front."
        );
        // By its number, where there are several.
        let mut three = cut_too_wide("11 15/16");
        let undermat = Layer { id: LayerId(7), ..mat(&mut three).layers[1].clone() };
        mat(&mut three).layers.push(undermat);
        let (message, _) = words(&three, RULE.id);
        assert!(message.starts_with("The strips of undermat 1 that show"), "{message}");
        // Off the ruler, nothing is even.
        let (message, remedy) = words(&cut_too_wide("11 61/64"), RULE.id);
        assert!(message.ends_with("No window on your ruler makes them even."), "{message}");
        assert_eq!(remedy, "");
    }

    #[test]
    fn in_millimetres() {
        let mut document = reference();
        mat(&mut document).openings[0].offsets.insert(LayerId(2), sides("5mm,5mm,5mm,8mm"));
        says(
            &metric(document),
            RULE.id,
            "The strips of the undermat that show are top 5 mm, right 5 mm, bottom 5 mm, left \
             8 mm, seen from the front: they differ by 3 mm, and the eye will notice. Make \
             them even, unless you want them so.",
            "Make the undermat's strips 5 mm all round",
        );
    }

    /// Borders of 1 in are just what a mat of this size needs: a board that grows by 1/16 in asks
    /// for no more.
    #[test]
    fn even_strips_where_borders_are_just_wide_enough() {
        let mut document = bordered("8x10", "1");
        let undermat = Layer { id: LayerId(2), ..mat(&mut document).layers[0].clone() };
        mat(&mut document).layers.push(undermat);
        mat(&mut document).openings[0].offsets.insert(LayerId(2), sides("3/16,3/16,3/16,1/8"));
        check(&document, RULE.id, "note top");
        assert_eq!(words(&document, RULE.id).1, "Make the undermat's strips 3/16 in all round");
    }
}
