//! One length, read from the left: sums of products of quantities.

use super::super::Length;
use super::super::ratio::Ratio;
use super::super::signs::{subscript, superscript, vulgar};
use super::unit_name::{Name, unit_name};
use super::{Comma, DEEPEST, Fault, MOST_DIGITS, Measure};

pub(super) struct Reader<'a> {
    pub(super) rest: &'a str,
    pub(super) comma: Comma,
    pub(super) depth: usize,
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

    pub(super) fn sum(&mut self) -> Result<Measure, Fault> {
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

pub(super) fn whole(length: Length) -> Ratio {
    Ratio { over: i128::from(length.units()), under: 1 }
}

fn starts_a_number(c: char) -> bool {
    c.is_ascii_digit() || c == '.' || vulgar(c).is_some() || superscript(c).is_some()
}

fn ascii(c: char) -> Option<i128> {
    c.to_digit(10).map(i128::from)
}
