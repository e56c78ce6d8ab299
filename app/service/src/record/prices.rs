//! What prints cost, as it is typed: the currency of the last price is that of the next without.

use sightedge_studio::{Error, Money, Price, Record, Tier};

/// The currency of a price that names none, before there is a last one.
const FIRST_CURRENCY: &str = "EUR";

/// A price as typed, in the currency of the last one where it names none.
///
/// # Errors
/// Where the record cannot be read.
pub(super) fn in_usual(record: &dyn Record, price: Price) -> Result<Money, Error> {
    let last = record.last_currency()?;
    Ok(price.or_in(last.as_deref().unwrap_or(FIRST_CURRENCY)))
}

/// From which number on prints cost how much, in an edition of `size`.
///
/// # Errors
/// Where a price begins at no number of the edition, or two begin at one.
pub(super) fn tiers(
    record: &dyn Record,
    size: u32,
    typed: Vec<(u32, Price)>,
) -> Result<Vec<(u32, Money)>, Error> {
    let mut tiers: Vec<(u32, Money)> = Vec::with_capacity(typed.len());
    for (from, price) in typed {
        if !(1..=size).contains(&from) {
            return Err(Error::refused(format!(
                "a price starts at number {from}, but the edition has {size}: start it at a number \
                 from 1 to {size}"
            )));
        }
        if tiers.iter().any(|(other, _)| *other == from) {
            return Err(Error::refused(format!(
                "what prints cost from number {from} on is said twice: say it once; cents stand \
                 behind a point, as in 800.50"
            )));
        }
        // The currency of one is that of the next without.
        let usual = tiers.last().map(|(_, before)| before.currency.clone());
        tiers.push((
            from,
            match usual {
                Some(usual) => price.or_in(&usual),
                None => in_usual(record, price)?,
            },
        ));
    }
    Ok(tiers)
}

/// What prints of an edition cost, in words: `800.00 EUR, from 11 on 1200.00 EUR`.
pub fn prices_in_words(tiers: &[Tier]) -> String {
    let word = |tier: &Tier| match tier.from {
        1 => tier.price.to_string(),
        from => format!("from {from} on {}", tier.price),
    };
    tiers.iter().map(word).collect::<Vec<_>>().join(", ")
}
