//! Writing lengths: fractions on a ruler, decimals, millimetres, centimetres.

use super::{Length, Unit};

/// Which way a figure is rounded.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Round {
    /// To the nearest.
    #[default]
    Near,
    /// Never below: what is needed.
    Up,
    /// Never above: what is there.
    Down,
}

/// How a length is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// Inches with a fraction of at most this denominator: 8, 16, 32 or 64.
    InchFraction(u16),
    /// Inches with decimals.
    InchDecimal,
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
}

/// A written length, and whether the text gives all of its digits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// The number with its unit.
    pub text: String,
    /// Whether reading the text gives the very same length.
    pub exact: bool,
}

impl Length {
    /// Writes the length in `style`; what does not fall on the style's grid is rounded to
    /// the nearest, and `exact` says so.
    pub fn write(self, style: Style) -> Written {
        match style {
            Style::InchFraction(under) => {
                let under = i64::from(under.max(1));
                let count = self.scaled(i128::from(under), i128::from(Self::INCH.0)).0;
                // The scaled value above counts steps, not units.
                let exact = i128::from(count) * i128::from(Self::INCH.0)
                    == i128::from(self.0) * i128::from(under);
                Written { text: format!("{} in", fraction(count, under)), exact }
            }
            Style::InchDecimal => self.decimals(Self::INCH, 4, "in"),
            Style::Millimetre => self.decimals(Self::MM, 3, "mm"),
            Style::Centimetre => self.decimals(Self::mm(10), 4, "cm"),
        }
    }

    /// For reading: a fraction where one of 64ths says it all, else four decimals of an inch
    /// or three of a millimetre.
    pub fn text(self, unit: Unit) -> String {
        match unit {
            Unit::Inch => {
                let written = self.write(Style::InchFraction(64));
                if written.exact { written.text } else { self.write(Style::InchDecimal).text }
            }
            Unit::Millimetre => self.write(Style::Millimetre).text,
        }
    }

    /// For reading, with the digits that one can measure: to 1/64 in or 0.1 mm, rounded as is
    /// asked for.
    pub fn sensible(self, unit: Unit, way: Round) -> String {
        self.rounded(unit, way).text(unit)
    }

    /// The length that [`Self::sensible`] writes.
    pub fn rounded(self, unit: Unit, way: Round) -> Self {
        let step = match unit {
            Unit::Inch => Self::inches(0, 1, 64),
            Unit::Millimetre => Self::um(100),
        };
        match way {
            Round::Near => self.round_to(step),
            Round::Up => self.ceil_to(step),
            Round::Down => self.floor_to(step),
        }
    }

    /// The same, to the nearest.
    pub fn near(self, unit: Unit) -> String {
        self.sensible(unit, Round::Near)
    }

    /// For reading how far something moves, where less than 1/64 in counts: to 0.001 in or
    /// 0.01 mm, with all of these digits, so that figures below each other can be compared.
    pub fn fine(self, unit: Unit) -> String {
        let (step, scale, places) = match unit {
            Unit::Inch => (Self::inch_1000ths(1), 1000, 3),
            Unit::Millimetre => (Self::um(10), 100, 2),
        };
        let count = self.round_to(step).0 / step.0;
        let minus = if count < 0 { "-" } else { "" };
        let (whole, part) = (count.abs() / scale, count.abs() % scale);
        format!("{minus}{whole}.{part:0>places$} {}", unit.sign())
    }

    /// For reading how thick a board, a pane or a paper is: as it is sold, in thousandths of an
    /// inch where it is whole ones (.060 in), else to 1/64 in; to 0.1 mm; what is thinner than
    /// 1/16 in or 1 mm to 0.001 in or 0.01 mm.
    pub fn thickness(self, unit: Unit) -> String {
        match unit {
            Unit::Inch if self.write(Style::InchFraction(64)).exact => self.text(unit),
            Unit::Inch
                if self < Self::inches(0, 1, 16) || self.is_on(Self::inch_1000ths(1)) =>
            {
                self.round_to(Self::inch_1000ths(1)).write(Style::InchDecimal).text
            }
            Unit::Millimetre if self < Self::MM => self.round_to(Self::um(10)).text(unit),
            Unit::Inch | Unit::Millimetre => self.near(unit),
        }
    }

    /// For saving: a text that reads back as the very same length, in `unit` and as short
    /// as that allows.
    pub fn exact(self, unit: Unit) -> String {
        match unit {
            Unit::Inch => {
                let written = self.write(Style::InchFraction(128));
                if written.exact {
                    written.text
                } else {
                    self.decimals(Self::INCH, 9, "in").text
                }
            }
            Unit::Millimetre => self.decimals(Self::MM, 7, "mm").text,
        }
    }

    fn decimals(self, of: Self, places: usize, sign: &str) -> Written {
        let scale = 10_i128.pow(u32::try_from(places).unwrap_or(0));
        let count = i128::from(self.scaled(scale, i128::from(of.0)).0);
        let exact = count * i128::from(of.0) == i128::from(self.0) * scale;
        let minus = if count < 0 { "-" } else { "" };
        let count = count.abs();
        let mut digits = format!("{}.{:0places$}", count / scale, count % scale);
        digits.truncate(digits.trim_end_matches('0').trim_end_matches('.').len());
        Written { text: format!("{minus}{digits} {sign}"), exact }
    }
}

/// `count / under` as whole and fraction in lowest terms.
fn fraction(count: i64, under: i64) -> String {
    let minus = if count < 0 { "-" } else { "" };
    let count = count.abs();
    let (whole, mut over, mut under) = (count / under, count % under, under);
    while over != 0 && over % 2 == 0 && under % 2 == 0 {
        over /= 2;
        under /= 2;
    }
    match (whole, over) {
        (whole, 0) => format!("{minus}{whole}"),
        (0, over) => format!("{minus}{over}/{under}"),
        (whole, over) => format!("{minus}{whole} {over}/{under}"),
    }
}
