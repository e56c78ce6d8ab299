//! Reading the lengths people type: fractions, decimals, feet and inches, units, sums.
//!
//! Two readings are conventions of the trade and worth knowing: `13-1/2` written without
//! spaces is thirteen and a half, `13 - 1/2` is twelve and a half; and a bare number in a sum
//! takes the unit of the other terms before it takes the document's (beside feet, inches).

use super::ratio::{self, Ratio};
use super::{Length, Unit};

/// A length as typed, before its bare part has a unit: in `12 + 3 mm` the 12 is bare.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Measure {
    /// The part that carries a unit, in 1/720 µm.
    fixed: Ratio,
    /// The part without a unit.
    bare: Ratio,
    /// The last unit typed in it.
    unit: Option<Name>,
}

/// Why a text is not a length. Its words say what was typed, what is wanted and an example.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LengthError {
    typed: String,
    fault: Fault,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fault {
    Empty,
    NotALength,
    TooLarge,
    DividedByZero,
    NotOnALine,
    Unfinished,
    Count { found: usize, wanted: &'static str, example: &'static str },
}

impl std::fmt::Display for LengthError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let typed: String = self.typed.chars().take(60).collect();
        let dots = if self.typed.chars().count() > 60 { "…" } else { "" };
        match self.fault {
            Fault::Empty => write!(f, "no length was typed: try 13 1/2, 13.5 in or 343 mm"),
            Fault::NotALength => {
                write!(f, "\"{typed}{dots}\" is not a length: try 13 1/2, 13.5 in or 343 mm")
            }
            Fault::TooLarge => write!(
                f,
                "\"{typed}{dots}\" is out of all measure: a length is at most 1 km, try 343 mm"
            ),
            Fault::DividedByZero => {
                write!(f, "\"{typed}{dots}\" divides by zero: try 13 1/2 or 27/2")
            }
            Fault::NotOnALine => write!(
                f,
                "\"{typed}{dots}\" multiplies or divides lengths by lengths: a length times \
                 a number is wanted, try 2*1/8 in"
            ),
            Fault::Unfinished => write!(
                f,
                "\"{typed}{dots}\" breaks off: a length was wanted, try 16 - 2*1/8 or 343 mm"
            ),
            Fault::Count { found, wanted, example } => {
                write!(
                    f,
                    "\"{typed}{dots}\" holds {found} length{}: {wanted}, try {example}",
                    if found == 1 { "" } else { "s" }
                )
            }
        }
    }
}

impl std::error::Error for LengthError {}

impl Measure {
    /// The length itself: what is bare takes the unit typed beside it, else it is so many times
    /// `other`. `None` where it is out of all measure.
    fn length(self, other: Length) -> Option<Length> {
        let one = self.unit.map_or(other, |name| name.beside().length());
        let all = self.bare.times(whole(one))?.plus(self.fixed)?;
        let length = Length::from_units(ratio::round(all.over, all.under));
        (length.abs() <= Length::MOST).then_some(length)
    }

    const NOTHING: Self = Self { fixed: Ratio::ZERO, bare: Ratio::ZERO, unit: None };

    fn bare(number: Ratio) -> Self {
        Self { bare: number, ..Self::NOTHING }
    }

    fn plus(self, other: Self) -> Option<Self> {
        Some(Self {
            fixed: self.fixed.plus(other.fixed)?,
            bare: self.bare.plus(other.bare)?,
            unit: other.unit.or(self.unit),
        })
    }

    fn negated(self) -> Self {
        Self { fixed: self.fixed.negated(), bare: self.bare.negated(), unit: self.unit }
    }

    fn is_bare(self) -> bool {
        self.unit.is_none()
    }

    fn times(self, number: Ratio) -> Option<Self> {
        Some(Self {
            fixed: self.fixed.times(number)?,
            bare: self.bare.times(number)?,
            unit: self.unit,
        })
    }
}

impl Unit {
    /// One of this unit.
    pub const fn length(self) -> Length {
        match self {
            Self::Inch => Length::INCH,
            Self::Millimetre => Length::MM,
        }
    }

    /// How the unit is written behind a number.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Millimetre => "mm",
        }
    }
}

/// Reads one length. A bare number takes `unit`; a comma may stand for the decimal point.
///
/// # Errors
/// Says what was typed, what is wanted and an example.
pub fn parse(text: &str, unit: Unit) -> Result<Length, LengthError> {
    let measure = read(text, Comma::Decimal)?;
    measure.length(unit.length()).ok_or_else(|| too_large(text))
}

/// The first unit typed in `text`, which may be one length, a pair or a list; `None` where
/// there is none or the text cannot be read.
pub fn first_unit(text: &str) -> Option<Unit> {
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        if let Some((name, _)) = unit_name(rest) {
            return Some(name.system());
        }
        rest = &rest[c.len_utf8()..];
    }
    None
}

/// Reads a list parted by commas, of any number of lengths. A unit on the last value covers
/// those without.
///
/// # Errors
/// As [`parse`], naming the part that cannot be read.
pub fn parse_list(text: &str, unit: Unit) -> Result<Vec<Length>, LengthError> {
    covered(text.split(','), unit)
}

/// Reads a pair `WxH`: two lengths parted by `x` or `×`. A unit on the last covers the first.
///
/// # Errors
/// As [`parse`]; also where there are not two.
pub fn parse_pair(text: &str, unit: Unit) -> Result<(Length, Length), LengthError> {
    let parts: Vec<&str> = text.split(['x', 'X', '×']).collect();
    match parts.as_slice() {
        [width, height] => {
            let read = covered([*width, *height].into_iter(), unit)?;
            Ok((read[0], read[1]))
        }
        other => Err(LengthError {
            typed: text.trim().to_owned(),
            fault: Fault::Count {
                found: other.len(),
                wanted: "a width and a height parted by x are wanted",
                example: "13 1/2x17 5/8in or 329x483mm",
            },
        }),
    }
}

fn covered<'a>(
    parts: impl Iterator<Item = &'a str>,
    unit: Unit,
) -> Result<Vec<Length>, LengthError> {
    let read: Vec<(&str, Measure)> = parts
        .map(|part| read(part, Comma::Parts).map(|measure| (part, measure)))
        .collect::<Result<_, _>>()?;
    let last = read.last().and_then(|(_, last)| last.unit);
    let other = last.map_or(unit.length(), Name::length);
    let lengths = read.into_iter();
    lengths.map(|(part, m)| m.length(other).ok_or_else(|| too_large(part))).collect()
}

fn too_large(text: &str) -> LengthError {
    LengthError { typed: text.trim().to_owned(), fault: Fault::TooLarge }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Comma {
    /// `34,3 cm` is 34.3 cm.
    Decimal,
    /// A comma parts a list and has no place inside a length.
    Parts,
}

/// No sum anyone types nests deeper.
const DEEPEST: usize = 16;
/// No number anyone types is longer.
const MOST_DIGITS: usize = 12;

fn read(text: &str, comma: Comma) -> Result<Measure, LengthError> {
    let fail = |fault| LengthError { typed: text.trim().to_owned(), fault };
    let mut reader = Reader { rest: text.trim(), comma, depth: 0 };
    if reader.rest.is_empty() {
        return Err(fail(Fault::Empty));
    }
    let measure = reader.sum().map_err(fail)?;
    if !reader.rest.is_empty() {
        return Err(fail(Fault::NotALength));
    }
    Ok(measure)
}

struct Reader<'a> {
    rest: &'a str,
    comma: Comma,
    depth: usize,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Name {
    Foot,
    Inch,
    Millimetre,
    Centimetre,
    Metre,
}

impl Name {
    fn length(self) -> Length {
        match self {
            Self::Foot => Length::INCH * 12,
            Self::Inch => Length::INCH,
            Self::Millimetre => Length::MM,
            Self::Centimetre => Length::mm(10),
            Self::Metre => Length::mm(1000),
        }
    }

    /// What a bare number in the same sum means: `1' + 6` is eighteen inches.
    fn beside(self) -> Self {
        if self == Self::Foot { Self::Inch } else { self }
    }

    fn system(self) -> Unit {
        match self {
            Self::Foot | Self::Inch => Unit::Inch,
            Self::Millimetre | Self::Centimetre | Self::Metre => Unit::Millimetre,
        }
    }
}

/// The unit at the start of `text` and what follows it. Longer names first.
fn unit_name(text: &str) -> Option<(Name, &str)> {
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

impl Reader<'_> {
    fn skip(&mut self) {
        self.rest = self.rest.trim_start();
    }

    fn take(&mut self, signs: &[char]) -> bool {
        let after = self.rest.strip_prefix(signs);
        self.rest = after.unwrap_or(self.rest);
        after.is_some()
    }

    fn sum(&mut self) -> Result<Measure, Fault> {
        self.depth += 1;
        if self.depth > DEEPEST {
            return Err(Fault::NotALength);
        }
        let mut total = self.product()?;
        loop {
            self.skip();
            let next = if self.take(&['+']) {
                self.product()?
            } else if self.take(&['-', '−', '–']) {
                self.product()?.negated()
            } else {
                break;
            };
            total = total.plus(next).ok_or(Fault::TooLarge)?;
        }
        self.depth -= 1;
        Ok(total)
    }

    fn product(&mut self) -> Result<Measure, Fault> {
        let mut total = self.factor()?;
        loop {
            self.skip();
            if self.take(&['*', '·']) {
                let next = self.factor()?;
                let (measure, number) = match (total.is_bare(), next.is_bare()) {
                    (_, true) => (total, next.bare),
                    (true, false) => (next, total.bare),
                    (false, false) => return Err(Fault::NotOnALine),
                };
                total = measure.times(number).ok_or(Fault::TooLarge)?;
            } else if self.take(&['/', '÷', '\u{2044}']) {
                let next = self.factor()?;
                if !next.is_bare() {
                    return Err(Fault::NotOnALine);
                }
                if next.bare.is_zero() {
                    return Err(Fault::DividedByZero);
                }
                let part = Ratio { over: 1, under: 1 };
                let part = part.divided_by(next.bare).ok_or(Fault::TooLarge)?;
                total = total.times(part).ok_or(Fault::TooLarge)?;
            } else {
                return Ok(total);
            }
        }
    }

    fn factor(&mut self) -> Result<Measure, Fault> {
        self.skip();
        if self.rest.is_empty() {
            return Err(Fault::Unfinished);
        }
        let mut negative = false;
        while self.take(&['-', '−', '–']) {
            negative = !negative;
            self.skip();
        }
        let value = if self.take(&['(']) {
            let inner = self.sum()?;
            self.skip();
            if !self.take(&[')']) {
                return Err(Fault::Unfinished);
            }
            inner
        } else {
            self.quantity()?
        };
        Ok(if negative { value.negated() } else { value })
    }

    /// A number with or without a unit; feet may be followed by inches.
    fn quantity(&mut self) -> Result<Measure, Fault> {
        let number = self.mixed()?;
        let before = self.rest;
        self.skip();
        let Some((name, after)) = unit_name(self.rest) else {
            self.rest = before;
            return Ok(Measure::bare(number));
        };
        self.rest = after;
        let first = measured(number, name)?;
        if name != Name::Foot {
            return Ok(first);
        }
        // 1' 2 1/4", 6'2, 6'-2"
        let before = self.rest;
        self.skip();
        if self.rest.starts_with('-') && !self.rest[1..].starts_with(' ') {
            self.rest = &self.rest[1..];
        }
        if !self.rest.starts_with(starts_a_number) {
            self.rest = before;
            return Ok(first);
        }
        let inches = self.mixed()?;
        self.skip();
        match unit_name(self.rest) {
            Some((Name::Inch, after)) => self.rest = after,
            Some(_) => return Err(Fault::NotALength),
            None => {}
        }
        first.plus(measured(inches, Name::Inch)?).ok_or(Fault::TooLarge)
    }

    /// `13`, `13.5`, `.060`, `1/2`, `13 1/2`, `13-1/2`, `13½`, `½`, `13 ¹⁄₂`.
    fn mixed(&mut self) -> Result<Ratio, Fault> {
        if let Some(fraction) = self.ready_fraction()? {
            return Ok(fraction);
        }
        let (number, whole) = self.decimal()?;
        if !whole {
            return Ok(number);
        }
        // A slash right behind: the number was a numerator.
        if let Some(fraction) = self.under(number)? {
            return Ok(fraction);
        }
        let before = self.rest;
        let spaced = self.rest.starts_with(char::is_whitespace);
        self.skip();
        let dashed = !spaced && self.take(&['-', '‑']);
        if let Some(fraction) = self.ready_fraction()? {
            return number.plus(fraction).ok_or(Fault::TooLarge);
        }
        if (spaced || dashed) && self.rest.starts_with(|c: char| c.is_ascii_digit()) {
            let (over, is_whole) = self.decimal()?;
            // Nothing but a proper fraction may follow: `13-1/2`, not `16-2*3` nor `16-9/2`.
            if is_whole
                && let Some(fraction) = self.under(over)?
                && fraction.over < fraction.under
            {
                return number.plus(fraction).ok_or(Fault::TooLarge);
            }
        }
        self.rest = before;
        Ok(number)
    }

    /// `/8` behind a whole number.
    fn under(&mut self, over: Ratio) -> Result<Option<Ratio>, Fault> {
        let before = self.rest;
        if !self.take(&['/', '\u{2044}'])
            || !self.rest.starts_with(|c: char| c.is_ascii_digit())
        {
            self.rest = before;
            return Ok(None);
        }
        let (under, whole) = self.decimal()?;
        if !whole {
            self.rest = before;
            return Ok(None);
        }
        if under.is_zero() {
            return Err(Fault::DividedByZero);
        }
        over.divided_by(under).map(Some).ok_or(Fault::TooLarge)
    }

    /// ½ and its like, or superscript digits over subscript ones.
    fn ready_fraction(&mut self) -> Result<Option<Ratio>, Fault> {
        let Some(first) = self.rest.chars().next() else { return Ok(None) };
        if let Some((over, under)) = vulgar(first) {
            self.rest = &self.rest[first.len_utf8()..];
            return Ok(Ratio::new(over, under));
        }
        let before = self.rest;
        let over = self.digits(superscript)?;
        if let Some(over) = over
            && self.take(&['\u{2044}', '/'])
            && let Some(under) = self.digits(subscript)?
        {
            return Ratio::new(over, under).map(Some).ok_or(Fault::DividedByZero);
        }
        self.rest = before;
        Ok(None)
    }

    fn digits(&mut self, digit: fn(char) -> Option<i128>) -> Result<Option<i128>, Fault> {
        let mut total = None;
        let mut count = 0;
        while let Some(c) = self.rest.chars().next()
            && let Some(d) = digit(c)
        {
            count += 1;
            if count > MOST_DIGITS {
                return Err(Fault::TooLarge);
            }
            total = Some(total.unwrap_or(0) * 10 + d);
            self.rest = &self.rest[c.len_utf8()..];
        }
        Ok(total)
    }

    /// Digits with or without a decimal point; also whether it was a whole number.
    fn decimal(&mut self) -> Result<(Ratio, bool), Fault> {
        let whole = self.digits(ascii)?;
        let before = self.rest;
        let point = self.take(&['.'])
            || (self.comma == Comma::Decimal && whole.is_some() && self.take(&[',']));
        let places_from = self.rest;
        let part = if point { self.digits(ascii)? } else { None };
        match (whole, part) {
            (None, None) => Err(Fault::NotALength),
            (Some(whole), None) => {
                // `13.` alone is a number, `13,` is not.
                self.rest = before;
                if self.comma == Comma::Parts || before.starts_with('.') {
                    self.take(&['.']);
                }
                Ok((Ratio::whole(whole).ok_or(Fault::TooLarge)?, true))
            }
            (whole, Some(part)) => {
                let places = places_from.len() - self.rest.len();
                let under = 10_i128.pow(u32::try_from(places).unwrap_or(0));
                let over = whole.unwrap_or(0) * under + part;
                Ok((Ratio::new(over, under).ok_or(Fault::TooLarge)?, false))
            }
        }
    }
}

fn measured(number: Ratio, name: Name) -> Result<Measure, Fault> {
    let fixed = number.times(whole(name.length())).ok_or(Fault::TooLarge)?;
    Ok(Measure { fixed, unit: Some(name), ..Measure::NOTHING })
}

fn whole(length: Length) -> Ratio {
    Ratio { over: i128::from(length.units()), under: 1 }
}

fn starts_a_number(c: char) -> bool {
    c.is_ascii_digit() || c == '.' || vulgar(c).is_some() || superscript(c).is_some()
}

fn ascii(c: char) -> Option<i128> {
    c.to_digit(10).map(i128::from)
}

fn superscript(c: char) -> Option<i128> {
    const DIGITS: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
    DIGITS.iter().position(|d| *d == c).and_then(|d| i128::try_from(d).ok())
}

fn subscript(c: char) -> Option<i128> {
    const DIGITS: [char; 10] = ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉'];
    DIGITS.iter().position(|d| *d == c).and_then(|d| i128::try_from(d).ok())
}

/// The fractions that Unicode has ready.
fn vulgar(c: char) -> Option<(i128, i128)> {
    Some(match c {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    })
}
