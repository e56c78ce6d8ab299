//! Writers: a drawing in the outside world's forms.

pub mod csv;
pub mod cut_list;
pub mod dxf;
pub mod raster;
pub mod svg;

use crate::drawing::Pen;
use crate::length::Length;

/// What a machine is to do along a line.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Kind {
    /// Cut through.
    Cut,
    /// Score, or draw in pencil.
    Score,
    /// Nothing: it only shows where something lies.
    Reference,
}

impl Kind {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Cut, Self::Score, Self::Reference];

    /// The class of its lines in an SVG.
    pub const fn class(self) -> &'static str {
        match self {
            Self::Cut => "sightedge-cut",
            Self::Score => "sightedge-score",
            Self::Reference => "sightedge-reference",
        }
    }

    /// The end of its layers' names in a DXF.
    pub const fn layer(self) -> &'static str {
        match self {
            Self::Cut => "CUT",
            Self::Score => "SCORE",
            Self::Reference => "REFERENCE",
        }
    }
}

/// What a machine does along a line of that pen.
pub const fn kind(pen: Pen) -> Kind {
    match pen {
        Pen::Section => Kind::Cut,
        Pen::Fine => Kind::Score,
        Pen::Edge | Pen::Hidden => Kind::Reference,
    }
}

/// Millimetres to the nearest nanometre, without trailing zeros.
pub fn decimal(length: Length) -> String {
    // 720 units a micrometre.
    let nm = length.scaled(1000, 720).units();
    let (sign, nm) = (if nm < 0 { "-" } else { "" }, nm.unsigned_abs());
    let digits = format!("{sign}{}.{:06}", nm / 1_000_000, nm % 1_000_000);
    digits.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn decimals_of_a_millimetre() {
        for (length, text) in [
            (Length::ZERO, "0"),
            (Length::INCH, "25.4"),
            (Length::inches(0, 1, 64), "0.396875"),
            (Length::mm(-3), "-3"),
            (Length::um(-1), "-0.001"),
            (Length::mm(120), "120"),
        ] {
            assert_eq!(decimal(length), text);
        }
    }
}
