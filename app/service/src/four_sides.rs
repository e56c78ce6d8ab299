//! Four sides in one line, as they are shown and typed: `1/4`, `1/4, bottom 3/8`, or all four in
//! turn from the top: `4 1/2, 4 5/16, 5 1/2, 3 13/16`.

use sightedge_core::geometry::{Side, Sides};
use sightedge_core::length::{Length, Unit, parse, parse_list};

use crate::wording;

/// Four sides without their unit: what most of them are, and then those that differ; all four,
/// top, right, bottom and left, where no two are alike.
pub fn text(sides: Sides<Length>, unit: Unit) -> String {
    let number = |length| wording::number(length, unit);
    let alike = |length: Length| sides.each().iter().filter(|(_, one)| *one == length).count();
    // Of two pairs the sides come first: top and bottom are the ones that are made to differ.
    let order = [Side::Left, Side::Right, Side::Top, Side::Bottom];
    let most = order.map(|side| sides.of(side));
    let most = most.into_iter().rev().max_by_key(|length| alike(*length)).unwrap_or_default();
    if alike(most) == 1 {
        return sides.each().map(|(_, length)| number(length)).join(", ");
    }
    let others = sides.each().into_iter().filter(|(_, length)| *length != most);
    let others = others.map(|(side, length)| format!(", {} {}", side.name(), number(length)));
    std::iter::once(number(most)).chain(others).collect()
}

/// Reads what is typed for four sides that are `now` so: one length for all of them, one with the
/// sides that differ, some sides by name, or all four in turn from the top. A unit on the last
/// length covers those without.
///
/// # Errors
/// In words: what was typed, and what can be.
pub fn read(typed: &str, unit: Unit, now: Sides<Length>) -> Result<Sides<Length>, String> {
    if let Ok(all) = parse(typed, unit) {
        return Ok(Sides::all(all));
    }
    // `34,5, bottom 40` has a decimal comma; between lengths there is a space after it.
    let parts: Vec<&str> = typed.split(", ").flat_map(|part| part.split(';')).collect();
    let parts: Vec<(Option<Side>, &str)> =
        parts.into_iter().map(|part| named(part.trim())).collect();
    let lengths: Vec<String> =
        parts.iter().map(|(_, length)| length.replace(',', ".")).collect();
    let lengths = parse_list(&lengths.join(","), unit).map_err(|error| error.to_string())?;
    let names: Vec<Option<Side>> = parts.iter().map(|(side, _)| *side).collect();
    match (names.as_slice(), lengths.as_slice()) {
        ([None, None, None, None], [top, right, bottom, left]) => {
            Ok(Sides { top: *top, right: *right, bottom: *bottom, left: *left })
        }
        ([first, rest @ ..], _) if rest.iter().all(Option::is_some) => {
            let mut sides = match (first, lengths.first()) {
                (None, Some(all)) => Sides::all(*all),
                _ => now,
            };
            for (side, length) in names.iter().zip(&lengths) {
                if let Some(side) = side {
                    sides = sides.with(*side, *length);
                }
            }
            Ok(sides)
        }
        _ => {
            let example = match unit {
                Unit::Inch => "1/4, or 1/4, bottom 3/8, or four such as 4, 4, 5, 4",
                Unit::Millimetre => "6, or 6, bottom 10, or four such as 90, 90, 100, 90",
            };
            Err(format!(
                "\"{}\" is not one length, nor one with the sides that differ, nor four (top, \
                 right, bottom, left): try {example}",
                typed.trim()
            ))
        }
    }
}

/// What is typed without the names of sides, so that no letter of theirs is read as a unit.
pub fn lengths(typed: &str) -> String {
    let side =
        |word: &&str| Side::ALL.iter().any(|side| side.name().eq_ignore_ascii_case(word));
    typed.split(' ').filter(|word| !side(word)).collect::<Vec<_>>().join(" ")
}

/// The side that a part begins with, and the rest of it.
fn named(part: &str) -> (Option<Side>, &str) {
    let (word, rest) = part.split_once(' ').unwrap_or((part, ""));
    let side = Side::ALL.into_iter().find(|side| side.name().eq_ignore_ascii_case(word));
    side.map_or((None, part), |side| (Some(side), rest.trim()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(text: &str) -> Length {
        parse(text, Unit::Inch).unwrap()
    }

    fn four(top: &str, right: &str, bottom: &str, left: &str) -> Sides<Length> {
        let [top, right, bottom, left] = [top, right, bottom, left].map(inches);
        Sides { top, right, bottom, left }
    }

    #[test]
    fn what_is_shown_is_short_and_can_be_typed() {
        #[track_caller]
        fn case(sides: Sides<Length>, wanted: &str) {
            let shown = text(sides, Unit::Inch);
            assert_eq!(shown, wanted);
            assert_eq!(read(&shown, Unit::Inch, Sides::all(inches("9"))), Ok(sides), "{shown}");
        }
        case(four("1/4", "1/4", "1/4", "1/4"), "¼");
        case(four("1/4", "1/4", "3/8", "1/4"), "¼, bottom ⅜");
        case(four("1/2", "1/4", "3/8", "1/4"), "¼, top ½, bottom ⅜");
        case(four("2", "3", "2", "3"), "3, top 2, bottom 2");
        case(four("4 1/2", "4 5/16", "5 1/2", "3 13/16"), "4 ½, 4 ⁵⁄₁₆, 5 ½, 3 ¹³⁄₁₆");
        case(four("-1/8", "-1/8", "0", "-1/8"), "−⅛, bottom 0");
    }

    #[test]
    fn what_can_be_typed() {
        #[track_caller]
        fn case(typed: &str, unit: Unit, wanted: Sides<Length>) {
            let now = four("4", "4", "5", "4");
            assert_eq!(read(typed, unit, now), Ok(wanted), "{typed}");
        }
        case("bottom 6", Unit::Inch, four("4", "4", "6", "4"));
        case("3, bottom 4, left 2", Unit::Inch, four("3", "3", "4", "2"));
        case("1, 2, 3, 4", Unit::Inch, four("1", "2", "3", "4"));
        case("1; 2; 3; 4", Unit::Inch, four("1", "2", "3", "4"));
        case("50 mm", Unit::Inch, Sides::all(Length::mm(50)));
        case(
            "50, bottom 60 mm",
            Unit::Inch,
            Sides::all(Length::mm(50)).with(Side::Bottom, Length::mm(60)),
        );
        let half = Length::mm(69).halves().0;
        case("34,5", Unit::Millimetre, Sides::all(half));
        case(
            "34,5, top 40",
            Unit::Millimetre,
            Sides::all(half).with(Side::Top, Length::mm(40)),
        );
    }

    #[test]
    fn what_cannot_be_read_is_refused_in_words() {
        #[track_caller]
        fn case(typed: &str, wanted: &str) {
            let error = read(typed, Unit::Inch, Sides::all(Length::ZERO)).unwrap_err();
            assert_eq!(error, wanted);
        }
        case("1x", "\"1x\" is not a length: try 13 1/2, 13.5 in or 343 mm");
        case("4, bottom 1x", "\"1x\" is not a length: try 13 1/2, 13.5 in or 343 mm");
        case(
            "1, 2, 3",
            "\"1, 2, 3\" is not one length, nor one with the sides that differ, nor four (top, \
             right, bottom, left): try 1/4, or 1/4, bottom 3/8, or four such as 4, 4, 5, 4",
        );
    }
}
