//! The open plans side by side: they shrink as they become many, and those that have no room
//! are in a list at the end.

use egui::{
    FontId, Rect, RichText, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};

use crate::window::session::SessionId;
use crate::window::theme;

/// A plan in the line of open ones.
#[derive(Clone, Debug)]
pub(crate) struct Tab {
    /// Keeps what is pressed apart from that of other plans.
    pub id: SessionId,
    /// Its name, told apart from those of the others.
    pub name: String,
    /// Where it is saved, or will be.
    pub path: String,
    /// Whether something is not saved.
    pub unsaved: bool,
}

/// What was pressed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum TabEvent {
    /// This plan comes to the front.
    Front(usize),
    /// This one closes.
    Close(usize),
}

/// The narrowest and the widest tab, in points.
const LEAST: f32 = 96.0;
const MOST: f32 = 240.0;
/// What a tab needs beside its name: its ends and the cross.
const ENDS: f32 = 10.0;
const CROSS: f32 = 20.0;
/// The mark of what is not saved.
const MARK: f32 = 12.0;
/// The list of all plans, where not all have a tab.
const LIST: f32 = 88.0;
/// Between two tabs.
const BETWEEN: f32 = 2.0;

/// Shows them within `room`.
pub(crate) fn tabs(
    ui: &mut Ui,
    room: Rect,
    tabs: &[Tab],
    front: Option<usize>,
) -> Option<TabEvent> {
    let wished: Vec<f32> = tabs.iter().map(|tab| wished(ui, tab)).collect();
    let (shown, widths) = placed(&wished, front.unwrap_or(0), room.width());
    let mut event = None;
    let mut left = room.left();
    for (index, width) in shown.clone().zip(widths) {
        let Some(tab) = tabs.get(index) else { continue };
        let rect = Rect::from_min_size(pos2(left, room.top()), vec2(width, room.height()));
        event = one(ui, tab, rect, front == Some(index))
            .map(|press| match press {
                Press::Front => TabEvent::Front(index),
                Press::Close => TabEvent::Close(index),
            })
            .or(event);
        left += width + BETWEEN;
    }
    if shown.len() < tabs.len() {
        let rect = Rect::from_min_max(pos2(left, room.top()), room.max);
        let mut place = ui.new_child(egui::UiBuilder::new().max_rect(rect));
        event = list(&mut place, tabs, front).or(event);
    }
    event
}

/// Which of the tabs have room, the one in front among them, and how wide each is.
fn placed(wished: &[f32], front: usize, room: f32) -> (std::ops::Range<usize>, Vec<f32>) {
    let between = |count: usize| BETWEEN * whole(count.saturating_sub(1));
    let count = wished.len();
    let all = wished.iter().sum::<f32>() + between(count);
    if all <= room {
        return (0..count, wished.to_vec());
    }
    let fits = |count: usize, room: f32| LEAST * whole(count) + between(count) <= room;
    if fits(count, room) {
        return (0..count, shrunk(wished, room - between(count)));
    }
    let left = room - LIST - BETWEEN;
    let most = (1..count).rev().find(|count| fits(*count, left)).unwrap_or(1);
    let first = (front + 1).saturating_sub(most);
    let shown = first..first + most;
    let width = ((left - between(most)) / whole(most)).clamp(0.0, MOST);
    (shown, vec![width; most])
}

/// All as wide as they would be but for the widest, which are made equal.
fn shrunk(wished: &[f32], room: f32) -> Vec<f32> {
    let (mut low, mut high) = (LEAST, MOST);
    for _ in 0..20 {
        let middle = f32::midpoint(low, high);
        let all: f32 = wished.iter().map(|wide| wide.min(middle)).sum();
        if all <= room { low = middle } else { high = middle }
    }
    // Halving comes close to a whole point from below.
    wished.iter().map(|wide| wide.min(low + 0.001).floor()).collect()
}

fn whole(count: usize) -> f32 {
    u16::try_from(count).map_or(f32::MAX, f32::from)
}

fn font(front: bool) -> FontId {
    if front {
        FontId::new(theme::BODY, theme::strong())
    } else {
        FontId::proportional(theme::BODY)
    }
}

/// As wide as a tab would be with all of its name.
fn wished(ui: &Ui, tab: &Tab) -> f32 {
    let ink = egui::Color32::PLACEHOLDER;
    // The wider of both typefaces: a tab keeps its width when it comes to the front.
    let name = ui.painter().layout_no_wrap(tab.name.clone(), font(true), ink).size().x;
    let mark = if tab.unsaved { MARK } else { 0.0 };
    (name.ceil() + ENDS * 2.0 + mark + CROSS).clamp(LEAST, MOST)
}

#[derive(Clone, Copy)]
enum Press {
    Front,
    Close,
}

fn one(ui: &mut Ui, tab: &Tab, rect: Rect, front: bool) -> Option<Press> {
    let palette = theme::palette(ui);
    let id = ui.make_persistent_id(("tab", tab.id));
    let response = ui.interact(rect, id, Sense::click());
    let name = if tab.unsaved { format!("{} •", tab.name) } else { tab.name.clone() };
    response.widget_info(|| WidgetInfo::selected(Role::Tab, true, front, &name));
    let place = Rect::from_center_size(
        pos2(rect.right() - CROSS / 2.0 - 2.0, rect.center().y),
        vec2(CROSS, CROSS),
    );
    let cross = ui.interact(place, id.with("close"), Sense::click());
    let close = format!("Close {}", tab.name);
    cross.widget_info(|| WidgetInfo::labeled(Role::Button, true, &close));

    let hovered = response.hovered() || cross.hovered();
    let painter = ui.painter();
    if front {
        painter.rect_filled(rect, 4.0, palette.chosen);
    } else if hovered {
        painter.rect_filled(rect, 4.0, palette.hover);
    }
    let ring = Stroke::new(1.5, palette.accent);
    if response.has_focus() {
        painter.rect_stroke(rect, 4.0, ring, StrokeKind::Inside);
    }
    let mut left = rect.left() + ENDS;
    if tab.unsaved {
        painter.circle_filled(pos2(left + 3.0, rect.center().y), 3.0, palette.accent);
        left += MARK;
    }
    let ink = if front { palette.accent } else { palette.text };
    let name = shortened(ui, &tab.name, front, place.left() - left);
    let painter = ui.painter();
    let galley = painter.layout_no_wrap(name, font(front), ink);
    let at = pos2(left, rect.center().y - galley.size().y / 2.0);
    painter.galley(at, galley, ink);

    if cross.hovered() {
        painter.rect_filled(place, 3.0, palette.line);
    }
    if cross.has_focus() {
        painter.rect_stroke(place, 3.0, ring, StrokeKind::Inside);
    }
    let ink = if cross.hovered() { palette.text } else { palette.quiet };
    let (middle, arm) = (place.center(), 4.0);
    for arm in [vec2(arm, arm), vec2(arm, -arm)] {
        painter.line_segment([middle - arm, middle + arm], Stroke::new(1.5, ink));
    }

    let closed = cross.on_hover_text(close).clicked() || response.middle_clicked();
    let saved = if tab.unsaved { "Not saved yet: " } else { "" };
    let hint = format!("{}\n{saved}{}", tab.name, tab.path);
    let pressed = response.on_hover_text(hint).clicked();
    closed.then_some(Press::Close).or(pressed.then_some(Press::Front))
}

/// As much of a name as fits: its end stays, for names in a row often differ there alone.
fn shortened(ui: &Ui, name: &str, front: bool, width: f32) -> String {
    let ink = egui::Color32::PLACEHOLDER;
    let fits = |text: &str| {
        ui.painter().layout_no_wrap(text.to_owned(), font(front), ink).size().x <= width
    };
    if fits(name) {
        return name.to_owned();
    }
    let letters: Vec<char> = name.chars().collect();
    for kept in (2..letters.len()).rev() {
        let (head, tail) = (kept - kept / 2, kept / 2);
        let head: String = letters.iter().take(head).collect();
        let tail: String = letters.iter().skip(letters.len() - tail).collect();
        let shown = format!("{}…{}", head.trim_end(), tail.trim_start());
        if fits(&shown) {
            return shown;
        }
    }
    "…".to_owned()
}

/// All plans in a list, by their whole names.
fn list(ui: &mut Ui, tabs: &[Tab], front: Option<usize>) -> Option<TabEvent> {
    let mut event = None;
    let shown = ui.menu_button(format!("{} plans", tabs.len()), |ui| {
        egui::ScrollArea::vertical().max_height(480.0).show(ui, |ui| {
            ui.style_mut().wrap_mode = Some(egui::TextWrapMode::Extend);
            for (index, tab) in tabs.iter().enumerate() {
                let mark = if tab.unsaved { " •" } else { "" };
                let text = RichText::new(format!("{}{mark}", tab.name));
                let entry = ui.selectable_label(front == Some(index), text);
                if entry.on_hover_text(&tab.path).clicked() {
                    event = Some(TabEvent::Front(index));
                    ui.close();
                }
            }
        });
    });
    shown.response.on_hover_text("All open plans");
    event
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(wished: &[f32], front: usize, room: f32, shown: std::ops::Range<usize>) {
        let (found, widths) = placed(wished, front, room);
        assert_eq!(found, shown);
        assert_eq!(widths.len(), found.len());
        assert!(found.contains(&front), "{found:?}");
        let list = if found.len() < wished.len() { LIST + BETWEEN } else { 0.0 };
        let all = widths.iter().sum::<f32>() + BETWEEN * whole(widths.len() - 1) + list;
        assert!(all <= room + 0.01, "{all} in {room}");
        for width in widths {
            assert!((LEAST..=MOST).contains(&width) || found.len() == 1, "{width}");
        }
    }

    #[test]
    fn tabs_shrink_and_then_overflow() {
        case(&[120.0, 200.0], 0, 600.0, 0..2);
        // The short one keeps its width.
        let (_, widths) = placed(&[100.0, 240.0, 240.0], 0, 484.0);
        assert_eq!(widths, [100.0, 190.0, 190.0]);
        case(&[240.0; 6], 5, 600.0, 0..6);
        case(&[240.0; 12], 0, 600.0, 0..5);
        case(&[240.0; 12], 7, 600.0, 3..8);
        case(&[240.0; 12], 11, 600.0, 7..12);
        case(&[240.0; 2], 1, 150.0, 1..2);
    }
}
