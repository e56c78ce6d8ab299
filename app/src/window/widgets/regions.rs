//! The regions of the window that F6 goes through: the list of places, the panel, the board, the
//! checks. Each says where it is when it is shown; the one asked for takes the focus then.

use egui::{Context, FocusDirection, Id, Rect, Ui};

/// A region of the window.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Region {
    /// The list of places of work.
    Places,
    /// What is decided or chosen.
    Panel,
    /// The board, or what is drawn in its place.
    Board,
    /// The checks, and the figures with them.
    Checks,
}

impl Region {
    /// In the order of the F6 key.
    const ALL: [Self; 4] = [Self::Places, Self::Panel, Self::Board, Self::Checks];
}

/// What is known of them.
#[derive(Clone, Debug, Default)]
struct Regions {
    /// Where each was last shown, and in which pass.
    shown: Vec<(Region, Rect, u64)>,
    /// The one that takes the focus when it is shown next, and how many were passed over.
    asked: Option<(Region, bool, usize)>,
}

fn id() -> Id {
    Id::unique("regions of the window")
}

/// Asks for the region after the one that has the focus, or for the one before it.
pub fn move_on(context: &Context, forwards: bool) {
    let focused = context.memory(egui::Memory::focused);
    let at = focused.and_then(|id| context.read_response(id)).map(|one| one.rect.center());
    let now = context.cumulative_pass_nr();
    context.data_mut(|data| {
        let regions: &mut Regions = data.get_temp_mut_or_default(id());
        let here = |region: &Region| {
            regions.shown.iter().any(|(other, rect, pass)| {
                other == region
                    && now.saturating_sub(*pass) <= 2
                    && at.is_some_and(|at| rect.contains(at))
            })
        };
        let from = Region::ALL.iter().rposition(here);
        let count = Region::ALL.len();
        let next = match (from, forwards) {
            (Some(from), true) => (from + 1) % count,
            (Some(from), false) => (from + count - 1) % count,
            (None, true) => 0,
            (None, false) => count - 1,
        };
        regions.asked = Some((Region::ALL[next], forwards, 0));
    });
    egui::Popup::close_all(context);
    context.request_repaint();
}

/// Shows a region; where it was asked for, the first thing in it that can have the focus takes
/// it. One that holds nothing of the kind is passed over.
pub fn region<R>(ui: &mut Ui, region: Region, contents: impl FnOnce(&mut Ui) -> R) -> R {
    let asked = begin(ui, region);
    let shown = contents(ui);
    if asked {
        finish(ui.ctx());
    }
    shown
}

/// Begins a region; where it was asked for, the next thing that can have the focus takes it, and
/// [`finish`] is called at its end.
pub fn begin(ui: &Ui, region: Region) -> bool {
    let asked = note(ui.ctx(), region, ui.available_rect_before_wrap());
    if asked {
        ui.memory_mut(|memory| {
            if let Some(focused) = memory.focused() {
                memory.surrender_focus(focused);
            }
            memory.move_focus(FocusDirection::Next);
        });
    }
    asked
}

/// Remembers where a region is; says whether it was asked for.
fn note(context: &Context, region: Region, rect: Rect) -> bool {
    let pass = context.cumulative_pass_nr();
    context.data_mut(|data| {
        let regions: &mut Regions = data.get_temp_mut_or_default(id());
        regions.shown.retain(|(other, ..)| *other != region);
        regions.shown.push((region, rect, pass));
        regions.asked.is_some_and(|(asked, ..)| asked == region)
    })
}

/// Ends the region that was asked for: where nothing took the focus, the next one is asked.
pub fn finish(context: &Context) {
    let taken = context.memory(|memory| memory.focused().is_some());
    if !taken {
        context.memory_mut(|memory| memory.move_focus(FocusDirection::None));
    }
    pass_on(context, taken);
}

/// The region that was asked for took the focus, or the next one is asked.
fn pass_on(context: &Context, taken: bool) {
    context.data_mut(|data| {
        let regions: &mut Regions = data.get_temp_mut_or_default(id());
        let Some((asked, forwards, passed)) = regions.asked.take() else { return };
        let count = Region::ALL.len();
        if taken || passed >= count {
            return;
        }
        let at = Region::ALL.iter().position(|region| *region == asked).unwrap_or(0);
        let next = if forwards { at + 1 } else { at + count - 1 } % count;
        regions.asked = Some((Region::ALL[next], forwards, passed + 1));
    });
    context.request_repaint();
}

/// After a frame: what was asked for and is not shown in this place is passed over.
pub fn settle(context: &Context) {
    let now = context.cumulative_pass_nr();
    let unseen = context.data_mut(|data| {
        let regions: &mut Regions = data.get_temp_mut_or_default(id());
        let asked = regions.asked.map(|(asked, ..)| asked);
        asked.is_some_and(|asked| {
            !regions.shown.iter().any(|(other, _, pass)| *other == asked && *pass == now)
        })
    });
    if unseen {
        pass_on(context, false);
    }
}
