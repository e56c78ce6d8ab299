//! What cannot be made at all: windows and sheets that leave the board, layers that cross.

use super::least_border;
use super::remedy::{full_backing, moved, widen};
use super::undermat_offset::widen_offset;
use super::{Case, Rule};
use crate::command::Command;
use crate::finding::{Amount, Finding, Place, Remedy, Severity};
use crate::geometry::Side;
use crate::layout::{Cut, Window};
use crate::length::Length;
use crate::spec::{BoardBy, Opening, usual_offset};

pub(super) const RULE: Rule = Rule {
    id: "off-board",
    judges: "whether windows, undermats and sheets are where they can be made",
    judge,
};

fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let mut stop = |place, measured, required, message, remedy| {
        findings.push(Finding {
            rule: RULE.id,
            severity: Severity::Fault,
            place,
            measured: Amount::Length(measured),
            required: Amount::Length(required),
            source: "derived",
            message,
            remedy,
        });
    };
    let outer = case.layout.exact.outer;
    if !outer.is_positive() {
        let message = format!(
            "The mat measures {}. Give it an outer size above zero.",
            case.size_text(outer)
        );
        stop(Place::default(), outer.short(), Length::ZERO, message, None);
        return;
    }
    for (opening, window) in case.all_windows() {
        let (sight, sheet) = (window.sight.size, window.sheet.size);
        for (size, what) in [(sight, "window"), (sheet, "sheet")] {
            if !size.is_positive() {
                let message = format!(
                    "The {what} measures {}, so nothing would be seen. Give it a size above \
                     zero.",
                    case.size_text(size)
                );
                stop(Place::window(window), size.short(), Length::ZERO, message, None);
            }
        }
        for cut in window.layers.iter().skip(1) {
            for (side, offset) in cut.offset.each() {
                if offset.is_negative() {
                    let message = format!(
                        "The undermat's sight edge is {} outside the one above it at the {}, \
                         so the undermat is hidden there. Give it an offset above zero.",
                        case.some(-offset),
                        side.name()
                    );
                    let place = Place { layer: Some(cut.layer), ..Place::side(window, side) };
                    let sound = sight.is_positive() && sheet.is_positive();
                    let remedy =
                        if sound { widen_offset(case, opening.id, window, cut) } else { None };
                    stop(place, offset, Length::ZERO, message, remedy);
                }
            }
        }
        if !sight.is_positive() || !sheet.is_positive() {
            continue;
        }
        for side in Side::ALL {
            if let Some(top) = window.top() {
                let border = top.borders.of(side);
                if let Some((cut, wanted)) =
                    border.is_negative().then(|| to_blame(case, window, side)).flatten()
                {
                    let message = format!(
                        "The undermat's offset at the {} is {}, which puts the window above \
                         it {} outside the board. An offset up to {} leaves a border that can \
                         be cut.",
                        side.name(),
                        case.text(cut.offset.of(side)),
                        case.some(-border),
                        case.text(wanted),
                    );
                    let place = Place { layer: Some(cut.layer), ..Place::side(window, side) };
                    let remedy = narrower(case, opening, window, cut);
                    stop(place, border, Length::ZERO, message, remedy);
                } else if border.is_negative() {
                    let message = format!(
                        "The window is {} outside the board at the {}, so there is no border \
                         to cut. Move the window, or make the mat larger.",
                        case.some(-border),
                        side.name()
                    );
                    let place = Place::top_layer(window, side);
                    let remedy = onto_board(case, side, border);
                    stop(place, border, Length::ZERO, message, remedy);
                }
            }
            sheet_side(case, (opening, window), side, &mut stop);
        }
    }
}

/// The undermat whose offset drives the window above it off the board, and the most it could be;
/// `None` where the window would not lie well even without undermats.
fn to_blame<'a>(case: &Case<'_>, window: &'a Window, side: Side) -> Option<(&'a Cut, Length)> {
    let borders = window.top()?.borders;
    let (first, last) = match side {
        Side::Left | Side::Right => (borders.left, borders.right),
        Side::Top | Side::Bottom => (borders.top, borders.bottom),
    };
    // Where the window above would find room elsewhere on the board, its place is to blame.
    if !(first + last).is_negative() {
        return None;
    }
    let undermats = || window.layers.iter().skip(1);
    let cut = undermats().max_by_key(|cut| cut.offset.of(side))?;
    let outer = case.layout.exact.outer;
    let (room, _) = match side {
        Side::Left | Side::Right => outer.width - window.sight.size.width,
        Side::Top | Side::Bottom => outer.height - window.sight.size.height,
    }
    .halves();
    let others = undermats().filter(|other| other.layer != cut.layer);
    let others = others.fold(Length::ZERO, |sum, other| sum + other.offset.of(side));
    let most =
        (room - others - least_border::plain(case, outer)).floor_to(case.document.ruler.step());
    (cut.offset.of(side) > most && most > cut.bevel).then_some((cut, most))
}

/// The offset of an undermat as usual where it reaches too far.
fn narrower(case: &Case<'_>, opening: &Opening, window: &Window, cut: &Cut) -> Option<Remedy> {
    if case.layout.in_hand {
        return None;
    }
    let usual = usual_offset(case.unit());
    let mut offset = cut.offset;
    for side in Side::ALL {
        if let Some((_, most)) = to_blame(case, window, side) {
            offset = offset.with(side, usual.min(most));
        }
    }
    let command = Command::SetOffset(case.variant, opening.id, cut.layer, offset);
    let words = format!("Set the undermat's offset to {}", case.exact(offset.least()));
    Some(Remedy { words, command })
}

/// A sheet that stands out beyond the mat, or beyond a backing smaller than the mat.
fn sheet_side(
    case: &Case<'_>,
    (_, window): (&Opening, &Window),
    side: Side,
    stop: &mut impl FnMut(Place, Length, Length, String, Option<Remedy>),
) {
    let on_board = window.sheet.within(case.board()).of(side);
    let on_backing = window.sheet.within(case.layout.exact.backing).of(side);
    let least = on_board.min(on_backing);
    if !least.is_negative() {
        return;
    }
    let (what, remedy) = if on_board.is_negative() {
        ("mat", None)
    } else {
        ("backing", Some(full_backing(case)))
    };
    let out = if on_board.is_negative() { on_board } else { on_backing };
    let message = format!(
        "The sheet sticks out {} past the {what} at the {}, and its edge will be crushed in \
         the frame. Make mat and backing larger than the sheet.",
        case.some(-out),
        side.name()
    );
    stop(Place::side(window, side), out, Length::ZERO, message, remedy);
}

/// The window back on the board: in the middle of a given one, or by a border that holds.
fn onto_board(case: &Case<'_>, side: Side, border: Length) -> Option<Remedy> {
    match case.mat.board_by {
        BoardBy::Borders(_) => {
            widen(case, side, border, |outer| least_border::plain(case, outer))
        }
        BoardBy::Outer { .. } => {
            let borders = case.placed_borders()?;
            let middle = |first: Length, last: Length| (first + last).halves().0 - first;
            let command = moved(
                case,
                middle(borders.left, borders.right),
                middle(borders.top, borders.bottom),
            )?;
            Some(Remedy { words: "Centre the window on the mat".to_owned(), command })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::*;
    use super::*;
    use crate::length::Unit::{self, Inch, Millimetre};
    use crate::spec::{Document, LayerId, Placement, WindowBy};

    #[track_caller]
    fn case(unit: Unit, change: impl Fn(&mut Document), wanted: &str) {
        let mut document = plan(unit, "8x10");
        let outer = BoardBy::Outer { size: size("14x18"), placement: Placement::Centred };
        mat(&mut document).board_by = outer;
        change(&mut document);
        check(&document, RULE.id, wanted);
    }

    fn free(left: &str, top: &str) -> impl Fn(&mut Document) {
        let placement = Placement::Free { left: inches(left), top: inches(top) };
        move |document| {
            mat(document).board_by = BoardBy::Outer { size: size("14x18"), placement };
        }
    }

    /// Source: derived: nothing lies outside what it is cut from or lies on.
    #[test]
    fn windows_and_sheets() {
        case(Inch, |_| {}, "");
        // The sheet reaches 1/8 in further out than the window.
        case(Inch, free("1/8", "1/8"), "");
        case(Inch, free(".1249", "1"), "fault left");
        case(Inch, free("0", "1"), "fault left");
        case(Inch, free("-.001", "1"), "fault left, fault left");
        case(Millimetre, free("2", "-1mm"), "fault top, fault top");
        case(Millimetre, free("5", "9"), "fault bottom, fault bottom");
        let backing = |text: &'static str| {
            move |document: &mut Document| mat(document).backing.size = Some(size(text))
        };
        case(Inch, backing("8x10"), "");
        case(Inch, backing("7.999x10"), "fault right, fault left");
        case(Millimetre, backing("12x9"), "fault top, fault bottom");
        let in_borders = |text: &'static str| {
            move |document: &mut Document| {
                mat(document).board_by = BoardBy::Borders(sides(text));
            }
        };
        case(Inch, in_borders("1,1,1,1/8"), "");
        case(Inch, in_borders("1,1,1,-1/4"), "fault left, fault left");
    }

    #[test]
    fn sizes_and_layers() {
        let reveal = |text: &'static str| {
            move |document: &mut Document| {
                mat(document).openings[0].window_by = WindowBy::Reveal(sides(text));
            }
        };
        case(Inch, reveal("-5,-1/8,-5,-1/8"), "fault");
        case(Inch, reveal("-1/8,-5,-1/8,-5"), "fault");
        case(Inch, |document| document.works[0].sheet.width = Length::ZERO, "fault");
        case(
            Millimetre,
            |document| {
                mat(document).board_by =
                    BoardBy::Outer { size: size("0x18"), placement: Placement::Centred };
            },
            "fault",
        );
        let offset = |text: &'static str| {
            move |document: &mut Document| {
                *document = reference();
                mat(document).openings[0].offsets.insert(LayerId(2), sides(text));
            }
        };
        case(Inch, offset("0"), "");
        case(Inch, offset("1/4,-.001,1/4,1/4"), "fault right");
        case(Inch, offset("-1/4"), "fault top, fault right, fault bottom, fault left");
    }

    /// A slip of the pen: 316 for 3/16.
    #[test]
    fn the_undermat_is_named_where_it_is_to_blame() {
        let mut document = reference();
        let outer = document.chosen().map(|v| crate::layout::layout(&document, &v.mat));
        let size = outer.unwrap().exact.outer;
        mat(&mut document).board_by = BoardBy::Outer { size, placement: Placement::Centred };
        check(&document, RULE.id, "");
        let offsets = &mut mat(&mut document).openings[0].offsets;
        offsets.insert(LayerId(2), sides("3/16,3/16,3/16,316"));
        let mut found = found(&document, RULE.id);
        found.retain(|finding| finding.place.layer == Some(LayerId(2)));
        let finding = found.remove(0);
        assert!(
            finding.message.starts_with("The undermat's offset at the left is 316 in, "),
            "{}",
            finding.message
        );
        let remedy = finding.remedy.unwrap();
        assert_eq!(remedy.words, "Set the undermat's offset to 3/16 in");
        crate::command::apply(&mut document, &remedy.command).unwrap();
        check(&document, RULE.id, "");
    }

    #[test]
    fn in_words() {
        let mut document = plan(Inch, "8x10");
        free("-1/4", "4")(&mut document);
        let (message, remedy) = words(&document, RULE.id);
        assert_eq!(
            message,
            "The sheet sticks out 3/8 in past the mat at the left, and its edge will be \
             crushed in the frame. Make mat and backing larger than the sheet."
        );
        assert_eq!(remedy, "");
        let window = found(&document, RULE.id).remove(1);
        assert_eq!(
            window.message,
            "The window is 1/4 in outside the board at the left, so there is no border to \
             cut. Move the window, or make the mat larger."
        );
        assert_eq!(window.remedy.unwrap().words, "Centre the window on the mat");
    }

    #[test]
    fn what_has_no_size_and_what_crosses_in_words() {
        says(
            &on_board("8x10", "0x18"),
            RULE.id,
            "The mat measures 0 × 18 in. Give it an outer size above zero.",
            "",
        );
        says(
            &overlapping("8x10", "5,1/8,5,1/8"),
            RULE.id,
            "The window measures 7 3/4 × 0 in, so nothing would be seen. Give it a size above \
             zero.",
            "",
        );
        let mut no_sheet = plan(Inch, "8x10");
        no_sheet.works[0].sheet.width = Length::ZERO;
        says(
            &no_sheet,
            RULE.id,
            "The sheet measures 0 × 10 in, so nothing would be seen. Give it a size above \
             zero.",
            "",
        );
        let mut crossed = reference();
        mat(&mut crossed).openings[0].offsets.insert(LayerId(2), sides("1/4,-1/8,1/4,1/4"));
        says(
            &crossed,
            RULE.id,
            "The undermat's sight edge is 1/8 in outside the one above it at the right, so \
             the undermat is hidden there. Give it an offset above zero.",
            "Set the undermat's offset to 1/8 in",
        );
        let mut proud = metric(on_board("200x250mm", "300x400mm"));
        mat(&mut proud).backing.size = Some(size("300x240mm"));
        says(
            &proud,
            RULE.id,
            "The sheet sticks out 5 mm past the backing at the top, and its edge will be \
             crushed in the frame. Make mat and backing larger than the sheet.",
            "Make the backing as large as the mat",
        );
    }

    /// The window that is seen is 11 1/2 of 20 in wide: 4 1/4 in on each side of it, 1 in of which
    /// stays a border.
    #[test]
    fn the_undermat_to_blame_in_words() {
        let mut document = reference();
        let outer = BoardBy::Outer { size: size("20x26"), placement: Placement::Centred };
        mat(&mut document).board_by = outer;
        let offsets = &mut mat(&mut document).openings[0].offsets;
        offsets.insert(LayerId(2), sides("3/16,3/16,3/16,31"));
        says(
            &document,
            RULE.id,
            "The undermat's offset at the left is 31 in, which puts the window above it 26 \
             3/4 in outside the board. An offset up to 3 1/4 in leaves a border that can be \
             cut.",
            "Set the undermat's offset to 3/16 in",
        );
    }

    /// Source: derived (D): of 4 1/4 in on each side of the window the other undermat takes 3/16 in.
    #[test]
    fn of_two_undermats_the_one_to_blame_is_named() {
        let mut document = reference();
        let outer = BoardBy::Outer { size: size("20x26"), placement: Placement::Centred };
        mat(&mut document).board_by = outer;
        let third =
            crate::spec::Layer { id: LayerId(3), ..mat(&mut document).layers[1].clone() };
        mat(&mut document).layers.push(third);
        let offsets = &mut mat(&mut document).openings[0].offsets;
        offsets.insert(LayerId(2), sides("3/16"));
        offsets.insert(LayerId(3), sides("3/16,3/16,3/16,31"));
        let first = found(&document, RULE.id).remove(0);
        assert_eq!(first.place.layer, Some(LayerId(3)));
        reads(
            &first,
            "The undermat's offset at the left is 31 in, which puts the window above it 26 \
             15/16 in outside the board. An offset up to 3 1/16 in leaves a border that can \
             be cut.",
            "Set the undermat's offset to 3/16 in",
        );
        check(&document, RULE.id, "fault left");
        // The other way round, it is the other one.
        let offsets = &mut mat(&mut document).openings[0].offsets;
        offsets.insert(LayerId(2), sides("3/16,3/16,3/16,31"));
        offsets.insert(LayerId(3), sides("3/16"));
        let first = found(&document, RULE.id).remove(0);
        assert_eq!(first.place.layer, Some(LayerId(2)));
        reads(
            &first,
            "The undermat's offset at the left is 31 in, which puts the window above it 26 \
             15/16 in outside the board. An offset up to 3 1/16 in leaves a border that can \
             be cut.",
            "Set the undermat's offset to 3/16 in",
        );
    }
}
