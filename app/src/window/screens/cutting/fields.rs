//! Fields for money, counts and places on the disk, as the field for lengths behaves: Enter
//! and a click elsewhere keep what was typed, Esc gives back what was there.

use egui::Ui;

pub(super) use crate::window::widgets::text;
use sightedge_core::money;
use sightedge_service::cutting::price;

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
pub(super) fn price_of(
    ui: &mut Ui,
    name: &str,
    value: Option<i64>,
    hint: &str,
    width: f32,
) -> Option<Result<Option<i64>, String>> {
    let shown = value.map(money::text).unwrap_or_default();
    let typed = text(ui, name, &shown, hint, width)?;
    let typed = typed.trim();
    if typed.is_empty() {
        return Some(Ok(None));
    }
    Some(price(typed).map(Some).ok_or_else(|| {
        format!("{name}: \"{typed}\" is no price up to 1000000; try 12.50, or leave it empty")
    }))
}
