//! Lengths for the eye: real fractions, a true minus, the unit apart.

use sightedge_core::length::{Length, Unit};

pub use sightedge_core::length::typeset as set;

/// The number of a length in `unit`, without the unit: `13 ½`, `4 ³⁄₁₆`, `3.8037`, `−2.5`.
pub fn number(length: Length, unit: Unit) -> String {
    let text = length.text(unit);
    set(text.rsplit_once(' ').map_or(text.as_str(), |(number, _)| number))
}

/// A length with its unit.
pub fn length(length: Length, unit: Unit) -> String {
    format!("{} {}", number(length, unit), unit.sign())
}

#[cfg(test)]
mod tests {
    use super::*;
    use sightedge_core::length::parse;

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
