//! Amounts as people write them, in hundredths.

/// No price is higher, in whole units.
const MOST: i64 = 1_000_000;

/// An amount as typed, with a point or a comma, in hundredths.
pub fn amount(text: &str) -> Option<i64> {
    let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, ""));
    let digits = |text: &str| text.chars().all(|c| c.is_ascii_digit());
    if !digits(whole)
        || !digits(part)
        || part.len() > 2
        || (whole.is_empty() && part.is_empty())
    {
        return None;
    }
    let whole: i64 = if whole.is_empty() { 0 } else { whole.parse().ok()? };
    let coins: i64 = if part.is_empty() { 0 } else { part.parse().ok()? };
    let coins = if part.len() == 1 { coins * 10 } else { coins };
    (whole <= MOST).then_some(whole * 100 + coins)
}

/// An amount in hundredths, written with two decimals.
pub fn coins(amount: i64) -> String {
    format!("{}.{:02}", amount / 100, amount % 100)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: none outside; what people type as prices.
    #[test]
    fn amounts() {
        for (text, wanted) in [
            ("12.50", Some(1250)),
            ("12,5", Some(1250)),
            ("12", Some(1200)),
            (".5", Some(50)),
            ("0", Some(0)),
            ("12.505", None),
            ("-1", None),
            ("1e3", None),
            (".", None),
            ("99999999999999999999", None),
            ("1000001", None),
        ] {
            assert_eq!(amount(text), wanted, "{text}");
        }
        assert_eq!(coins(1205), "12.05");
    }
}
