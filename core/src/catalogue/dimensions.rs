//! Sizes as catalogues and labels write them: height first, both units.

use crate::length::{Length, Unit};

/// Which unit comes first.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Order {
    /// `29 x 36.5 in. (73.7 x 92.7 cm)`.
    InchesFirst,
    /// `198 x 233 cm (78 x 91 3/4 inches)`.
    CentimetresFirst,
}

impl Order {
    /// The one that suits a document's unit.
    pub const fn of(unit: Unit) -> Self {
        match unit {
            Unit::Inch => Self::InchesFirst,
            Unit::Millimetre => Self::CentimetresFirst,
        }
    }
}

/// The parts in centimetres, to the nearest millimetre: `73.7 x 92.7 cm`.
/// Source: Cataloging Cultural Objects 3.2.1.2.2 (metric: whole numbers or decimals).
pub fn dimensions_cm(parts: &[Length]) -> String {
    let each = parts.iter().map(|part| {
        let millimetres = part.scaled(1, i128::from(Length::MM.units())).units();
        let minus = if millimetres < 0 { "-" } else { "" };
        let (whole, tenth) = (millimetres.abs() / 10, millimetres.abs() % 10);
        if tenth == 0 { format!("{minus}{whole}") } else { format!("{minus}{whole}.{tenth}") }
    });
    format!("{} cm", each.collect::<Vec<_>>().join(" x "))
}

/// The parts in inches, to the nearest eighth: `78 x 91 3/4`, without the unit's name.
/// Source: Cataloging Cultural Objects 3.2.1.2.2 (inches: whole numbers or fractions).
pub fn dimensions_in(parts: &[Length]) -> String {
    let eighth = Length::inches(0, 1, 8);
    let each = parts.iter().map(|part| {
        let text = part.round_to(eighth).text(Unit::Inch);
        text.trim_end_matches(" in").to_owned()
    });
    each.collect::<Vec<_>>().join(" x ")
}

/// Height, width and, of a thing that has one, depth, in both units.
pub fn dimensions(parts: &[Length], order: Order) -> String {
    let (metric, inches) = (dimensions_cm(parts), dimensions_in(parts));
    match order {
        Order::InchesFirst => format!("{inches} in. ({metric})"),
        Order::CentimetresFirst => format!("{metric} ({inches} inches)"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: Cataloging Cultural Objects 3.2.1.2.1, the freestanding arch:
    /// "198 x 233 x 82 cm (78 x 91 3/4 x 32 1/4 inches)".
    #[test]
    fn a_published_catalogue_entry_to_the_letter() {
        let parts = [1980, 2330, 820].map(Length::mm);
        assert_eq!(
            dimensions(&parts, Order::CentimetresFirst),
            "198 x 233 x 82 cm (78 x 91 3/4 x 32 1/4 inches)"
        );
    }

    /// Source: a university library's exhibition guide, the label
    /// "29 x 36.5 in. (73.7 x 92.7 cm)"; its inches are decimal, ours are fractions as
    /// Cataloging Cultural Objects has them.
    #[test]
    fn a_published_label() {
        let parts = [Length::inches(29, 0, 1), Length::inches(36, 1, 2)];
        assert_eq!(dimensions_cm(&parts), "73.7 x 92.7 cm");
        assert_eq!(dimensions(&parts, Order::InchesFirst), "29 x 36 1/2 in. (73.7 x 92.7 cm)");
    }

    /// Source: Wellcome Collection, visual cataloguing, Dimensions: centimetres to one decimal
    /// place, "Plate mark 20.5 x 30.5 cm, sheet 30 x 40 cm".
    #[test]
    fn a_museums_rule() {
        assert_eq!(dimensions_cm(&[205, 305].map(Length::mm)), "20.5 x 30.5 cm");
        assert_eq!(dimensions_cm(&[300, 400].map(Length::mm)), "30 x 40 cm");
    }

    #[test]
    fn rounding() {
        let half = Length::um(204_500);
        assert_eq!(dimensions_cm(&[half, half]), "20.5 x 20.5 cm");
        assert_eq!(dimensions_in(&[Length::inches(8, 1, 16), Length::ZERO]), "8 1/8 x 0");
    }
}
