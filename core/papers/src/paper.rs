//! Paper sizes.

use serde::{Deserialize, Serialize};
use sightedge_core::length::Unit;

/// What is printed on.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub enum Paper {
    /// 210 × 297 mm. Source: ISO 216.
    A4,
    /// 8 1/2 × 11 in.
    Letter,
}

impl Paper {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::Letter, Self::A4];

    /// On a button.
    pub const fn label(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
        }
    }

    /// As it is typed after an option: `a4`.
    ///
    /// # Errors
    /// Names those that are known.
    pub fn read(text: &str) -> Result<Self, String> {
        let known = |paper: &&Self| paper.label().eq_ignore_ascii_case(text);
        Self::ALL.iter().find(known).copied().ok_or_else(|| {
            let names = Self::ALL.map(|paper| paper.label().to_lowercase());
            format!("\"{text}\" is not a paper this program knows: give {}", names.join(" or "))
        })
    }

    /// What is usual where that unit is.
    pub const fn usual(unit: Unit) -> Self {
        match unit {
            Unit::Inch => Self::Letter,
            Unit::Millimetre => Self::A4,
        }
    }

    /// What it is measured in.
    pub const fn unit(self) -> Unit {
        match self {
            Self::A4 => Unit::Millimetre,
            Self::Letter => Unit::Inch,
        }
    }

    /// Width and height in millimetres, upright.
    pub const fn size(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0, 297.0],
            Self::Letter => [215.9, 279.4],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_paper_is_read_by_its_name() {
        for paper in Paper::ALL {
            assert_eq!(Paper::read(&paper.label().to_lowercase()), Ok(paper));
        }
        let wrong = Paper::read("a3").unwrap_err();
        assert_eq!(wrong, "\"a3\" is not a paper this program knows: give letter or a4");
    }
}
