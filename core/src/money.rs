//! Amounts of money as people write them. An amount is a whole number of hundredths; of which
//! currency is said elsewhere.

/// What `1200`, `1200.50`, `1200,5` or `.50` say, in hundredths; `None` where it is no amount from
/// nothing up. More than 10¹³ is taken for a slip.
pub fn hundredths(text: &str) -> Option<i64> {
    let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, ""));
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    let any = !whole.is_empty() || !part.is_empty();
    if !any || !digits(whole) || !digits(part) || part.len() > 2 {
        return None;
    }
    let number = |text: &str| if text.is_empty() { Ok(0) } else { text.parse::<i64>() };
    let part = number(part).ok()? * if part.len() == 1 { 10 } else { 1 };
    let whole = number(whole).ok()?.checked_mul(100)?;
    whole.checked_add(part).filter(|amount| *amount < 1_000_000_000_000_000)
}

/// An amount in hundredths, with two decimals: `1200.50`.
pub fn text(hundredths: i64) -> String {
    let sign = if hundredths < 0 { "-" } else { "" };
    let amount = hundredths.unsigned_abs();
    format!("{sign}{}.{:02}", amount / 100, amount % 100)
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
            ("12.", Some(1200)),
            (".5", Some(50)),
            ("0", Some(0)),
            ("12.505", None),
            ("-1", None),
            ("+1", None),
            ("1e3", None),
            ("1.2.3", None),
            (".", None),
            ("", None),
            ("9999999999999.99", Some(999_999_999_999_999)),
            ("10000000000000", None),
            ("99999999999999999999", None),
        ] {
            assert_eq!(hundredths(text), wanted, "{text}");
        }
        assert_eq!([1205, -5, 0].map(text), ["12.05", "-0.05", "0.00"]);
    }
}
