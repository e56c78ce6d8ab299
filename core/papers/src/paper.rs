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
