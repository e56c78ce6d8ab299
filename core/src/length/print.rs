//! Writing lengths: fractions on a ruler, decimals, millimetres, centimetres.

use super::{Length, Unit};

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

/// A written length, and whether the text says all of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// The number with its unit.
    pub text: String,
    /// Whether reading the text gives the very same length.
    pub exact: bool,
}

impl Length {
    /// Writes the length in `style`; what does not fall on the style's grid is rounded to
    /// the nearest, and told.
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

    /// For reading where figures of the trade stand beside the plan's own: a length that is
    /// whole 64ths of an inch or whole tenths of a millimetre is written in that unit, where
    /// it is not in the plan's.
    pub fn in_words(self, unit: Unit) -> String {
        let tenths = self.is_on(Self::um(100));
        let fraction = self.write(Style::InchFraction(64)).exact;
        match unit {
            Unit::Inch if tenths && !fraction => self.text(Unit::Millimetre),
            Unit::Millimetre if fraction && !tenths => self.text(Unit::Inch),
            Unit::Inch | Unit::Millimetre => self.text(unit),
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
