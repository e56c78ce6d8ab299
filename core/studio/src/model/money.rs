//! Money: what a print costs.

use serde::{Deserialize, Serialize};

/// A price: so many hundredths of a currency.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Serialize, Deserialize)]
pub struct Money {
    /// Hundredths.
    pub cents: i64,
    /// Three letters, as in ISO 4217.
    pub currency: String,
}

impl std::fmt::Display for Money {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let sign = if self.cents < 0 { "-" } else { "" };
        let cents = self.cents.unsigned_abs();
        write!(f, "{sign}{}.{:02} {}", cents / 100, cents % 100, self.currency)
    }
}

impl Money {
    /// What `1200`, `1200 EUR`, `1200.50 USD` or `1200,50` say; `usual` is the currency where none
    /// is.
    ///
    /// # Errors
    /// Says what was found and what is wanted.
    pub fn read(text: &str, usual: &str) -> Result<Self, String> {
        let wrong = || format!("\"{text}\" is no price: try 1200 or 1200.50 EUR");
        let (figures, currency) = match text.trim().split_once(' ') {
            Some((figures, currency)) => (figures, currency.trim()),
            None => (text.trim(), usual),
        };
        let (whole, part) = figures.split_once(['.', ',']).unwrap_or((figures, "00"));
        let digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
        let letters =
            currency.len() == 3 && currency.bytes().all(|letter| letter.is_ascii_alphabetic());
        if !digits(whole) || !digits(part) || part.len() > 2 || !letters {
            return Err(wrong());
        }
        let whole: i64 = whole.parse().map_err(|_| wrong())?;
        let tenths: i64 = part.parse().map_err(|_| wrong())?;
        let cents = if part.len() == 1 { tenths * 10 } else { tenths };
        let cents = whole.checked_mul(100).and_then(|whole| whole.checked_add(cents));
        let cents = cents.filter(|cents| *cents < 1_000_000_000_000_000).ok_or_else(wrong)?;
        Ok(Self { cents, currency: currency.to_ascii_uppercase() })
    }
}
