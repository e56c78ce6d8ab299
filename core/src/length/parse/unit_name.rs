//! The names of units as people type them.

use super::super::{Length, Unit};

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Name {
    Foot,
    Inch,
    Millimetre,
    Centimetre,
    Metre,
}

impl Name {
    pub(super) fn length(self) -> Length {
        match self {
            Self::Foot => Length::INCH * 12,
            Self::Inch => Length::INCH,
            Self::Millimetre => Length::MM,
            Self::Centimetre => Length::mm(10),
            Self::Metre => Length::mm(1000),
        }
    }

    /// What a bare number in the same sum means: `1' + 6` is eighteen inches.
    pub(super) fn beside(self) -> Self {
        if self == Self::Foot { Self::Inch } else { self }
    }

    pub(super) fn system(self) -> Unit {
        match self {
            Self::Foot | Self::Inch => Unit::Inch,
            Self::Millimetre | Self::Centimetre | Self::Metre => Unit::Millimetre,
        }
    }
}

/// The unit at the start of `text` and what follows it. Longer names first.
pub(super) fn unit_name(text: &str) -> Option<(Name, &str)> {
    const NAMES: [(&str, Name); 25] = [
        ("inches", Name::Inch),
        ("inch", Name::Inch),
        ("in.", Name::Inch),
        ("in", Name::Inch),
        ("''", Name::Inch),
        ("′′", Name::Inch),
        ("’’", Name::Inch),
        ("\"", Name::Inch),
        ("″", Name::Inch),
        ("”", Name::Inch),
        ("“", Name::Inch),
        ("feet", Name::Foot),
        ("foot", Name::Foot),
        ("ft.", Name::Foot),
        ("ft", Name::Foot),
        ("'", Name::Foot),
        ("′", Name::Foot),
        ("’", Name::Foot),
        ("millimetres", Name::Millimetre),
        ("millimeters", Name::Millimetre),
        ("mm", Name::Millimetre),
        ("centimetres", Name::Centimetre),
        ("centimeters", Name::Centimetre),
        ("cm", Name::Centimetre),
        ("m", Name::Metre),
    ];
    NAMES.iter().find_map(|(name, unit)| {
        let head = text.get(..name.len())?;
        let after = text.get(name.len()..)?;
        let word = name.ends_with(|c: char| c.is_ascii_alphabetic());
        // `x` parts a pair and may follow a unit directly.
        let ends =
            !word || !after.starts_with(|c: char| c.is_alphabetic() && !matches!(c, 'x' | 'X'));
        (head.eq_ignore_ascii_case(name) && ends).then_some((*unit, after))
    })
}
