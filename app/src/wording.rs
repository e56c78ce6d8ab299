//! Lengths for the eye: real fractions, a true minus, the unit apart.

use sightedge_core::length::{Length, Unit};

/// The number of a length in `unit`, without the unit: `13 ½`, `4 ³⁄₁₆`, `3.8037`, `−2.5`.
pub fn number(length: Length, unit: Unit) -> String {
    let text = length.text(unit);
    set(text.rsplit_once(' ').map_or(text.as_str(), |(number, _)| number))
}

/// A length with its unit.
pub fn length(length: Length, unit: Unit) -> String {
    format!("{} {}", number(length, unit), unit.sign())
}

/// A sentence as it is set in print, its figures kept with their units at the end of a line.
pub fn sentence(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let set = set(text);
    let mut words = set.split(' ');
    let mut before = words.next().unwrap_or_default();
    out.push_str(before);
    for word in words {
        let figure = |c: char| c.is_numeric() || ('₀'..='₉').contains(&c);
        let unit = word.trim_end_matches(|c: char| c.is_ascii_punctuation());
        let together = matches!(unit, "in" | "mm" | "cm" | "g" | "kg" | "N" | "×" | "°C" | "%")
            && before.ends_with(figure)
            || (before == "×" && word.starts_with(figure))
            || (before.ends_with(|c: char| c.is_ascii_digit())
                && word.starts_with(figure)
                && !word.starts_with(|c: char| c.is_ascii_digit()));
        out.push(if together { '\u{a0}' } else { ' ' });
        out.push_str(word);
        before = word;
    }
    out
}

/// Plain text with its fractions, minuses and crosses set as they are in print.
pub fn set(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    let mut before = ' ';
    while let Some(c) = rest.chars().next() {
        if c.is_ascii_digit()
            && !before.is_ascii_digit()
            && before != '.'
            && before != '/'
            && let Some((fraction, after)) = fraction(rest)
        {
            out.push_str(&fraction);
            rest = after;
            before = '0';
            continue;
        }
        let next = rest[c.len_utf8()..].chars().next();
        let minus = c == '-'
            && !before.is_alphanumeric()
            && next.is_some_and(|next| next.is_ascii_digit() || next == '.');
        out.push(if minus { '−' } else { c });
        before = c;
        rest = &rest[c.len_utf8()..];
    }
    out
}

/// A fraction at the start of `text`, set, and what follows it.
fn fraction(text: &str) -> Option<(String, &str)> {
    let (over, rest) = digits(text);
    let (under, rest) = digits(rest.strip_prefix('/')?);
    let sound = !under.is_empty()
        && over.len() <= 3
        && under.len() <= 3
        && !rest.starts_with(|c: char| c == '/' || c == '.' || c.is_ascii_digit());
    sound.then(|| (built(over, under), rest))
}

fn digits(text: &str) -> (&str, &str) {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    text.split_at(end)
}

/// The typeface's ready fraction where there is one, else built of small figures.
fn built(over: &str, under: &str) -> String {
    let ready = match (over, under) {
        ("1", "2") => "½",
        ("1", "4") => "¼",
        ("3", "4") => "¾",
        ("1", "8") => "⅛",
        ("3", "8") => "⅜",
        ("5", "8") => "⅝",
        ("7", "8") => "⅞",
        _ => {
            let small = |digits: &str, set: [char; 10]| -> String {
                digits
                    .chars()
                    .filter_map(|c| c.to_digit(10).and_then(|d| usize::try_from(d).ok()))
                    .filter_map(|d| set.get(d).copied())
                    .collect()
            };
            let over = small(over, ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹']);
            let under = small(under, ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉']);
            return format!("{over}\u{2044}{under}");
        }
    };
    ready.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use sightedge_core::length::parse;

    #[test]
    fn sets_fractions() {
        #[track_caller]
        fn case(text: &str, wanted: &str) {
            assert_eq!(set(text), wanted);
        }
        case("13 1/2 in", "13 ½ in");
        case("4 3/16", "4 ³⁄₁₆");
        case("-1/8 in", "−⅛ in");
        case("3.8037 in", "3.8037 in");
        case("a 4-ply board", "a 4-ply board");
        case("2026-03-01", "2026-03-01");
        case("-2.5 mm", "−2.5 mm");
    }

    #[test]
    fn figures_stay_with_their_units() {
        #[track_caller]
        fn case(text: &str, wanted: &str) {
            assert_eq!(sentence(text).replace('\u{a0}', "_"), wanted);
        }
        case("Set it to 1/8 in", "Set it to ⅛_in");
        case("Make the mat 9 x 10 1/2 in.", "Make the mat 9 x 10_½_in.");
        case("11 × 15 in in all", "11_×_15_in in all");
        case("4 3/16 in; 5 mm", "4_³⁄₁₆_in; 5_mm");
        case("in 2 layers", "in 2 layers");
    }

    #[test]
    fn what_is_shown_can_be_typed() {
        for steps in -300..300 {
            let shown = number(Length::inch_128ths(2) * steps, Unit::Inch);
            assert_eq!(
                parse(&shown, Unit::Inch),
                Ok(Length::inch_128ths(2) * steps),
                "{shown}"
            );
        }
    }
}
