//! Money: what a print costs.

use serde::{Deserialize, Serialize};
use sightedge_core::money;

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
        write!(f, "{} {}", money::text(self.cents), self.currency)
    }
}

/// A price as it is typed, which may leave out the currency.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Price {
    cents: i64,
    currency: Option<String>,
}

impl Price {
    /// What `1200`, `1200 EUR`, `1200.50 USD` or `1200,50` say.
    ///
    /// # Errors
    /// Says what was found and how a price is typed.
    pub fn read(text: &str) -> Result<Self, String> {
        let (figures, currency) = match text.trim().split_once(' ') {
            Some((figures, currency)) => (figures, Some(currency.trim())),
            None => (text.trim(), None),
        };
        let letters = |text: &str| {
            text.len() == 3 && text.bytes().all(|letter| letter.is_ascii_alphabetic())
        };
        let cents = money::hundredths(figures).filter(|_| currency.is_none_or(letters));
        let cents =
            cents.ok_or_else(|| format!("\"{text}\" is no price: try 1200 or 1200.50 EUR"))?;
        Ok(Self { cents, currency: currency.map(str::to_ascii_uppercase) })
    }

    /// Whether the currency was left out.
    pub const fn is_bare(&self) -> bool {
        self.currency.is_none()
    }

    /// The amount, in the currency that was typed, else in the `usual` one.
    pub fn or_in(self, usual: &str) -> Money {
        let Self { cents, currency } = self;
        Money { cents, currency: currency.unwrap_or_else(|| usual.to_owned()) }
    }
}

impl From<Money> for Price {
    fn from(Money { cents, currency }: Money) -> Self {
        Self { cents, currency: Some(currency) }
    }
}
