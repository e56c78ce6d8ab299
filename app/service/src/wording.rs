//! Lengths for the eye: real fractions, a true minus, the unit apart; counts with their word.

use std::fmt::Display;

use sightedge_core::length::{Length, Round, Unit};

pub use sightedge_core::length::typeset as set;

/// So many of something: `1 print`, `2 prints`.
pub fn count<N: Display + Copy + PartialEq + From<u8>>(count: N, what: &str) -> String {
    let one = count == N::from(1);
    format!("{count} {what}{}", if one { "" } else { "s" })
}

/// The number of a length in `unit`, without the unit: `13 ½`, `4 ³⁄₁₆`, `3.8037`, `−2.5`.
pub fn number(length: Length, unit: Unit) -> String {
    alone(&length.text(unit))
}

/// The number of a text that ends with its unit, as [`Length::near`] and [`Length::fine`] write.
pub fn alone(text: &str) -> String {
    set(text.rsplit_once(' ').map_or(text, |(number, _)| number))
}

/// A length with its unit, with the digits that one can measure.
pub fn near(length: Length, unit: Unit) -> String {
    set(&length.near(unit))
}

/// The same of what is needed at least.
pub fn at_least(length: Length, unit: Unit) -> String {
    set(&length.sensible(unit, Round::Up))
}

/// A length with its unit.
pub fn length(length: Length, unit: Unit) -> String {
    format!("{} {}", number(length, unit), unit.sign())
}

/// The name of a size, such as `11 × 14 in`, for a sheet that stands or is `lying`; other names
/// stay as they are.
pub fn sides(name: &str, lying: bool) -> String {
    let turned = || {
        let (first, rest) = name.split_once(" × ")?;
        let (second, unit) = rest.rsplit_once(' ')?;
        Some(format!("{second} × {first} {unit}"))
    };
    set(&if lying { turned().unwrap_or_else(|| name.to_owned()) } else { name.to_owned() })
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
        let together = matches!(
            unit,
            "in" | "mm" | "cm" | "g" | "kg" | "N" | "oz" | "lb" | "×" | "°C" | "%"
        ) && before.ends_with(figure)
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

/// A message as a sentence of its own: with a capital letter and a full stop.
pub fn whole(text: &str) -> String {
    let mut letters = text.chars();
    let first: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
    let end = if text.ends_with(['.', '?', '!', '…']) { "" } else { "." };
    sentence(&format!("{first}{}{end}", letters.as_str()))
}

/// How close a colour comes to another, by their difference in CIEDE2000. Below 1 no difference
/// is seen; the other limits are our own choice.
pub fn close(difference: f64) -> &'static str {
    match difference {
        d if d < 1.0 => "looks the same",
        d if d < 3.0 => "very close match",
        d if d < 6.0 => "close match",
        d if d < 12.0 => "fair match",
        _ => "clearly different",
    }
}

/// The number behind [`close`].
pub fn colour_difference(difference: f64) -> String {
    format!("Colour difference {difference:.1}; below about 1 the eye sees none")
}

#[cfg(test)]
mod tests {
    use super::*;
    use sightedge_core::length::parse;

    #[test]
    fn messages_are_whole_sentences() {
        assert_eq!(
            whole("the number is held by another print"),
            "The number is held by another print."
        );
        assert_eq!(whole("\"x\" is no year: try 2021."), "\"x\" is no year: try 2021.");
        assert_eq!(whole("/a/b cannot be read"), "/a/b cannot be read.");
        assert_eq!(whole(""), ".");
    }

    #[test]
    fn sizes_are_named_as_they_lie() {
        assert_eq!(sides("16 × 20 in", false), "16 × 20 in");
        assert_eq!(sides("16 × 20 in", true), "20 × 16 in");
        assert_eq!(sides("8 1/2 × 11 in", true), "11 × 8 ½ in");
        assert_eq!(sides("A4", true), "A4");
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
