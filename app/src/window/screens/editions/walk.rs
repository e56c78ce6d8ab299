//! Going through the long list by keys.

use egui::{Key, Ui};

use crate::window::theme;

/// The height of a row, in points.
pub(super) const ROW: f32 = 52.0;

/// Where the list stands, in points.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Scrolled(pub(super) f32);

impl Scrolled {
    /// Where it must stand so that a row is in sight, if it is not.
    pub(super) fn with(self, row: usize, tall: f32) -> Option<f32> {
        let rows = f32::from(u16::try_from(row).unwrap_or(u16::MAX));
        let top = rows * (ROW + theme::GAP);
        let least = top + ROW - tall;
        let there = top >= self.0 && least <= self.0;
        (!there).then_some(if top < self.0 { top } else { least })
    }
}

/// The rows that a key goes on by, in a list too long to be walked by Tab.
pub(super) fn walk(ui: &Ui, focused: Option<egui::Id>, searching: bool) -> Option<i64> {
    let focused = focused.filter(|id| ui.memory(|memory| memory.has_focus(*id)));
    if let Some(id) = focused {
        let filter =
            egui::EventFilter { vertical_arrows: true, ..egui::EventFilter::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
    }
    if focused.is_none() && !searching {
        return None;
    }
    ui.input(|input| {
        let steps = [
            (Key::ArrowDown, 1),
            (Key::ArrowUp, -1),
            (Key::PageDown, 10),
            (Key::PageUp, -10),
            (Key::Home, i64::MIN),
            (Key::End, i64::MAX),
        ];
        // A field that is typed in keeps its own keys but for the one that leads on.
        let keys = if focused.is_some() { 6 } else { 1 };
        let mut keys = steps.into_iter().take(keys);
        keys.find(|(key, _)| input.key_pressed(*key)).map(|(_, step)| step)
    })
}

/// The place a step leads to; the first where none was chosen.
pub(super) fn stepped(at: Option<usize>, step: i64, count: usize) -> Option<usize> {
    let last = i64::try_from(count.checked_sub(1)?).ok()?;
    let from = at.and_then(|at| i64::try_from(at).ok());
    let to = from.map_or(0, |from| from.saturating_add(step).clamp(0, last));
    usize::try_from(to).ok()
}
