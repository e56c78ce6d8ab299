//! Weights and forces as text: ounces and pounds, or grams, kilograms and newtons. A force
//! in pounds is a pound-force; both are estimates, so floats, written with the digits that a
//! scale or a spring balance shows.

use crate::length::{Round, Unit};

/// Standard gravity, in metres per second squared. Source: ISO 80000-3, CGPM 1901.
pub const GRAVITY: f64 = 9.806_65;

/// An ounce in grams, a sixteenth of a pound. Source: international yard and pound agreement,
/// 1959: 1 lb = 453.592 37 g exactly.
const OUNCE: f64 = 28.349_523_125;

/// An inch in metres. Source: the same agreement.
const INCH_M: f64 = 0.0254;

/// What weights and forces are shown in.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub enum Weights {
    /// Ounces, pounds and pounds-force.
    #[default]
    Pounds,
    /// Grams, kilograms and newtons.
    Grams,
}

impl Weights {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Pounds, Self::Grams];
    /// The most that is read, in grams: a tonne.
    const MOST_G: f64 = 1e6;

    /// What goes with a plan's unit where nothing else was chosen.
    pub const fn of(unit: Unit) -> Self {
        match unit {
            Unit::Inch => Self::Pounds,
            Unit::Millimetre => Self::Grams,
        }
    }

    /// As in the saved plan and on the command line.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Pounds => "lb",
            Self::Grams => "g",
        }
    }

    /// The one of that key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|one| one.key() == key)
    }

    /// A mass given in grams: `3.7 oz`, `13 lb`; `105 g`, `2.4 kg`.
    pub fn mass(self, grams: f64) -> String {
        self.rounded(grams, Round::Near)
    }

    /// The same, rounded as is asked for.
    pub fn rounded(self, grams: f64, way: Round) -> String {
        match self {
            Self::Pounds => {
                let ounces = grams / OUNCE;
                if ounces < 15.5 {
                    let places = if ounces < 1.0 { 2 } else { usize::from(ounces < 9.95) };
                    format!("{} oz", figure(ounces, places, way))
                } else {
                    let pounds = ounces / 16.0;
                    format!("{} lb", figure(pounds, usize::from(pounds < 99.95), way))
                }
            }
            Self::Grams if grams < 999.5 => {
                format!("{} g", figure(grams, usize::from(grams < 9.95), way))
            }
            Self::Grams => {
                let kilograms = grams / 1000.0;
                let places = if kilograms < 9.995 { 2 } else { usize::from(kilograms < 99.95) };
                format!("{} kg", figure(kilograms, places, way))
            }
        }
    }

    /// A force given in newtons: `16.9 lb`, `1.2 oz`; `75.2 N (7.67 kg)`, for parts are rated in
    /// kilograms.
    pub fn force(self, newtons: f64) -> String {
        let mass = self.mass(newtons / GRAVITY * 1000.0);
        match self {
            Self::Pounds => mass,
            Self::Grams => {
                let places = if newtons < 9.95 { 2 } else { usize::from(newtons < 99.95) };
                format!("{} N ({mass})", figure(newtons, places, Round::Near))
            }
        }
    }

    /// A stress given in pascals: `0.29 lb per square inch`; `2 kPa`.
    pub fn stress(self, pascals: f64) -> String {
        match self {
            Self::Pounds => {
                let pounds = pascals * INCH_M * INCH_M / GRAVITY * 1000.0 / (16.0 * OUNCE);
                format!("{} lb per square inch", figure(pounds, 2, Round::Near))
            }
            Self::Grams => format!("{} kPa", figure(pascals / 1000.0, 1, Round::Near)),
        }
    }

    /// What a strip bears, given in newtons for each metre of its width: `14.3 lb for each inch
    /// of its width`.
    pub fn strength(self, newtons_per_metre: u32) -> String {
        let newtons = f64::from(newtons_per_metre);
        match self {
            Self::Pounds => {
                let pounds = newtons * INCH_M / GRAVITY * 1000.0 / (16.0 * OUNCE);
                format!("{} lb for each inch of its width", figure(pounds, 1, Round::Near))
            }
            Self::Grams => {
                let each_cm = newtons / 100.0;
                format!(
                    "{} N for each centimetre of its width",
                    figure(each_cm, 1, Round::Near)
                )
            }
        }
    }

    /// Reads a mass in whole grams: `13 lb`, `2 lb 3 oz`, `900 g`, `2.4kg`; a number alone, with
    /// nothing beside it, is in `self`'s pounds or grams. `2,400` and `2.400` are refused, for
    /// they are two thousand four hundred to one and two and a half to another.
    ///
    /// # Errors
    /// Says what was found, what is needed and what to type.
    pub fn parse(self, text: &str) -> Result<u32, String> {
        let wrong = || {
            let example = match self {
                Self::Pounds => "13 lb, 2 lb 3 oz or 5.9 kg",
                Self::Grams => "5900 g, 5.9 kg or 13 lb",
            };
            format!(
                "\"{}\" is not a weight: type one from 1 g to 1000 kg (2200 lb), such as \
                 {example}",
                text.trim()
            )
        };
        let mut rest = text.trim();
        let mut grams = 0.0;
        if rest.is_empty() {
            return Err(wrong());
        }
        while !rest.is_empty() {
            let digits = rest.find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',');
            let (number, after) = rest.split_at(digits.unwrap_or(rest.len()));
            if let Some((first, second)) = two_readings(number) {
                let after = after.trim();
                let unit = if after.is_empty() { String::new() } else { format!(" {after}") };
                return Err(format!(
                    "\"{}\" can be read as {first} or as {second}: type {first}{unit} or \
                     {second}{unit}",
                    text.trim()
                ));
            }
            let number: f64 = number.replace(',', ".").parse().map_err(|_| wrong())?;
            let after = after.trim_start();
            let letters = after.find(|c: char| !c.is_ascii_alphabetic());
            let (unit, after) = after.split_at(letters.unwrap_or(after.len()));
            let alone = rest == text.trim() && after.is_empty();
            if unit.is_empty() && !alone {
                let example = match self {
                    Self::Pounds => "2 lb 3 oz",
                    Self::Grams => "2 kg 400 g or 2400 g",
                };
                return Err(format!(
                    "\"{}\" has a number without a unit beside another: give each its unit, as \
                     in {example}",
                    text.trim()
                ));
            }
            let each = match (unit, self) {
                ("lb" | "lbs", _) | ("", Self::Pounds) => 16.0 * OUNCE,
                ("oz", _) => OUNCE,
                ("g", _) | ("", Self::Grams) => 1.0,
                ("kg", _) => 1000.0,
                _ => return Err(wrong()),
            };
            grams += number * each;
            rest = after.trim_start();
        }
        let whole = grams.round();
        if !(1.0..=Self::MOST_G).contains(&whole) {
            return Err(wrong());
        }
        // Written out and read again: no number is cast.
        format!("{whole:.0}").parse().map_err(|_| wrong())
    }
}

/// What a number is with its separator taken for one of thousands, and for a decimal point:
/// where three figures follow it, either may be meant.
fn two_readings(number: &str) -> Option<(String, String)> {
    let (whole, places) = number.split_once(['.', ','])?;
    // `0.125` and `.125` have no thousands.
    let thousands = whole.starts_with(|c: char| c != '0') && whole.len() <= 3;
    if !thousands || places.len() != 3 || !places.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let short = places.trim_end_matches('0');
    let second = match short.len() {
        0 => whole.to_owned(),
        // So that it is not refused again.
        3 => format!("{whole}.{short}0"),
        _ => format!("{whole}.{short}"),
    };
    Some((format!("{whole}{places}"), second))
}

/// A number with so many places at most, its zeros at the end left out.
fn figure(value: f64, places: usize, way: Round) -> String {
    let scale = 10_f64.powi(i32::try_from(places).unwrap_or(0));
    // What a binary fraction adds is no reason to round on.
    let counted = value * scale;
    let counted = match way {
        Round::Near => counted.round(),
        Round::Up => (counted - 1e-6).ceil(),
        Round::Down => (counted + 1e-6).floor(),
    };
    let text = format!("{:.places$}", counted / scale + 0.0);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: international yard and pound agreement, 1959: 1 lb = 453.592 37 g, 16 oz.
    #[test]
    fn masses() {
        #[track_caller]
        fn case(grams: f64, pounds: &str, metric: &str) {
            assert_eq!(Weights::Pounds.mass(grams), pounds);
            assert_eq!(Weights::Grams.mass(grams), metric);
        }
        case(0.0, "0 oz", "0 g");
        case(3.54, "0.12 oz", "3.5 g");
        case(105.0, "3.7 oz", "105 g");
        case(283.495, "10 oz", "283 g");
        case(400.0, "14 oz", "400 g");
        case(453.592_37, "1 lb", "454 g");
        case(999.6, "2.2 lb", "1 kg");
        case(2400.0, "5.3 lb", "2.4 kg");
        case(5896.7, "13 lb", "5.9 kg");
        case(12_345.0, "27.2 lb", "12.3 kg");
        case(150_000.0, "331 lb", "150 kg");
    }

    /// What is needed is rounded up and what is there down, so that a shortage is seen.
    #[test]
    fn a_shortage_is_seen() {
        assert_eq!(Weights::Grams.rounded(11_313.7, Round::Up), "11.4 kg");
        assert_eq!(Weights::Grams.rounded(11_313.0, Round::Down), "11.3 kg");
        assert_eq!(Weights::Pounds.rounded(453.592_37, Round::Up), "1 lb");
        assert_eq!(Weights::Pounds.rounded(453.592_37, Round::Down), "1 lb");
        assert_eq!(Weights::Pounds.rounded(460.0, Round::Up), "1.1 lb");
    }

    /// Source: derived: 1 lbf = 4.448 222 N; 75.2 N hold 7.67 kg; 1 psi = 6894.76 Pa.
    #[test]
    fn forces() {
        #[track_caller]
        fn case(found: &str, wanted: &str) {
            assert_eq!(found, wanted);
        }
        case(&Weights::Pounds.force(75.2), "16.9 lb");
        case(&Weights::Grams.force(75.2), "75.2 N (7.67 kg)");
        case(&Weights::Pounds.force(0.343), "1.2 oz");
        case(&Weights::Grams.force(0.343), "0.34 N (35 g)");
        case(&Weights::Pounds.stress(6894.76), "1 lb per square inch");
        case(&Weights::Grams.stress(2000.0), "2 kPa");
        case(&Weights::Pounds.strength(2500), "14.3 lb for each inch of its width");
        case(&Weights::Grams.strength(2500), "25 N for each centimetre of its width");
    }

    #[test]
    fn typed() {
        #[track_caller]
        fn reads(weights: Weights, text: &str, grams: u32) {
            assert_eq!(weights.parse(text), Ok(grams), "{text}");
        }
        reads(Weights::Pounds, "13", 5897);
        reads(Weights::Pounds, "13 lb", 5897);
        reads(Weights::Grams, "13lb", 5897);
        reads(Weights::Pounds, "2 lb 3 oz", 992);
        reads(Weights::Pounds, "8.5 oz", 241);
        reads(Weights::Grams, "2400", 2400);
        reads(Weights::Grams, "2,4 kg", 2400);
        reads(Weights::Pounds, "900 g", 900);
        reads(Weights::Grams, "2.3450 kg", 2345);
        reads(Weights::Pounds, "0.125 lb", 57);
        reads(Weights::Grams, "12,5 kg", 12_500);
        for text in ["", "heavy", "0", "0.4 g", "-3 lb", "2 stone", "1001 kg", "..", "nan"] {
            assert!(Weights::Grams.parse(text).is_err(), "{text}");
        }
        assert_eq!(
            Weights::Pounds.parse("heavy"),
            Err("\"heavy\" is not a weight: type one from 1 g to 1000 kg (2200 lb), such as \
                 13 lb, 2 lb 3 oz or 5.9 kg"
                .to_owned())
        );
    }

    /// What would be read as something else than was meant is refused, not taken.
    #[test]
    fn what_can_be_read_two_ways() {
        #[track_caller]
        fn refuses(weights: Weights, text: &str, words: &str) {
            assert_eq!(weights.parse(text), Err(words.to_owned()), "{text}");
        }
        for weights in Weights::ALL {
            refuses(
                weights,
                "2,400 g",
                "\"2,400 g\" can be read as 2400 or as 2.4: type 2400 g or 2.4 g",
            );
            refuses(
                weights,
                "1,200",
                "\"1,200\" can be read as 1200 or as 1.2: type 1200 or 1.2",
            );
            refuses(
                weights,
                "2.345kg",
                "\"2.345kg\" can be read as 2345 or as 2.3450: type 2345 kg or 2.3450 kg",
            );
            for text in ["2 400 g", "2 lb 3", "2 3", "3 2 lb", "13 ,"] {
                assert!(weights.parse(text).is_err(), "{text}");
            }
        }
        refuses(
            Weights::Pounds,
            "2 lb 3",
            "\"2 lb 3\" has a number without a unit beside another: give each its unit, as in \
             2 lb 3 oz",
        );
        refuses(
            Weights::Grams,
            "2 400 g",
            "\"2 400 g\" has a number without a unit beside another: give each its unit, as in \
             2 kg 400 g or 2400 g",
        );
    }
}
