//! Fields for money, counts and places on the disk, as the field for lengths behaves: Enter
//! and a click elsewhere keep what was typed, Esc gives back what was there.

use egui::Ui;

pub(super) use crate::cutting::paper::coins;
pub(super) use crate::widgets::text;

/// A field for a count; empty stands for `None`. What is no count is refused in words.
pub(super) fn count(
    ui: &mut Ui,
    name: &str,
    value: Option<u32>,
    hint: &str,
    width: f32,
) -> Option<Result<Option<u32>, String>> {
    let shown = value.map(|n| n.to_string()).unwrap_or_default();
    let typed = text(ui, name, &shown, hint, width)?;
    let typed = typed.trim();
    if typed.is_empty() {
        return Some(Ok(None));
    }
    let count = typed.parse::<u32>().ok().filter(|n| *n <= 100_000);
    Some(count.map(Some).ok_or_else(|| {
        format!("{name}: \"{typed}\" is no count up to 100000; try 12, or leave it empty")
    }))
}

/// A field for an amount of money; empty stands for `None`.
pub(super) fn money(
    ui: &mut Ui,
    name: &str,
    value: Option<i64>,
    hint: &str,
    width: f32,
) -> Option<Result<Option<i64>, String>> {
    let shown = value.map(coins).unwrap_or_default();
    let typed = text(ui, name, &shown, hint, width)?;
    let typed = typed.trim();
    if typed.is_empty() {
        return Some(Ok(None));
    }
    Some(amount(typed).map(Some).ok_or_else(|| {
        format!("{name}: \"{typed}\" is no price up to 1000000; try 12.50, or leave it empty")
    }))
}

/// An amount as typed, with a point or a comma, in the smallest coin.
fn amount(text: &str) -> Option<i64> {
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
    (whole <= 1_000_000).then_some(whole * 100 + coins)
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
