//! How much tape or tissue hinges take.

use super::Hinge;
use crate::length::{Length, Unit};

/// The length that is torn off a roll where `length` is wanted: no shorter, and to a mark that
/// one measures by when tearing, 1/8 in or 1 mm. Source: our own choice.
pub fn to_tear(length: Length, unit: Unit) -> Length {
    length.ceil_to(match unit {
        Unit::Inch => Length::inches(0, 1, 8),
        Unit::Millimetre => Length::MM,
    })
}

/// Each tab's length and its cross-piece, off a roll as wide as a tab.
pub(super) fn in_all(hinges: &[Hinge]) -> Length {
    hinges.iter().map(|hinge| hinge.length + hinge.cross_length).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::inches;

    #[test]
    fn what_is_torn_is_never_too_short() {
        #[track_caller]
        fn case(length: Length, unit: Unit, wanted: Length) {
            assert_eq!(to_tear(length, unit), wanted);
        }
        case(inches("6.6437"), Unit::Inch, inches("6 3/4"));
        case(inches("6 5/8"), Unit::Inch, inches("6 5/8"));
        case(Length::um(168_750), Unit::Millimetre, Length::mm(169));
        case(Length::mm(169), Unit::Millimetre, Length::mm(169));
        case(Length::ZERO, Unit::Inch, Length::ZERO);
    }
}
