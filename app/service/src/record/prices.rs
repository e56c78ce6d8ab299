//! What prints cost, as it is typed: a price without a currency is in the record's, that of the
//! last price which named one.

use sightedge_core::money;
use sightedge_studio::{Error, Money, Price, Record, Tier};

/// A price as typed, in the record's currency where it names none.
///
/// # Errors
/// Where neither the price nor the record names a currency: it is asked for once.
pub(super) fn in_usual(record: &dyn Record, price: Price) -> Result<Money, Error> {
    let last = record.last_currency()?;
    if last.is_none() && price.is_bare() {
        let amount = money::text(price.or_in("").cents);
        return Err(Error::refused(format!(
            "which currency is the price {amount} in? Type it once, as in {amount} EUR: prices \
             without a currency are in that one from then on"
        )));
    }
    Ok(price.or_in(last.as_deref().unwrap_or_default()))
}

/// What an empty field for a price says; `usual` is the record's currency.
pub fn price_hint(usual: Option<&str>) -> String {
    usual.map_or_else(|| "as in 800 EUR".to_owned(), |usual| format!("in {usual}, as in 800"))
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
                "two prices start at number {from}: leave one out. Cents stand behind a point, as \
                 in 800.50"
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
