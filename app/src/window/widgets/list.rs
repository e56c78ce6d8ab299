//! A list that drops down: with colours, chosen by arrows, Home, End and letters; the focus stays
//! on it after a choice.

use egui::{
    Align, Align2, Color32, EventFilter, FontId, Id, Key, PopupCloseBehavior, Rect, Response,
    Role, ScrollArea, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};
use sightedge_core::material::Colour;

use super::hint::with_row_hint;
use super::{chevron, fitted};
use crate::window::{display, theme};

/// A row of an open list, in points.
const ROW: f32 = 26.0;
/// Rows of an open list at most; more are scrolled to.
const ROWS: u8 = 14;
/// The widest that an open list becomes.
const WIDEST: f32 = 560.0;
/// A colour beside a name, and the gap after it.
const SWATCH: f32 = 16.0;
/// Letters typed within so many seconds belong together.
const TOGETHER: f64 = 1.0;

/// One that can be chosen.
#[derive(Clone, Debug)]
pub struct Entry<T> {
    /// Its words.
    pub words: String,
    /// Its colour, where it has one.
    pub colour: Option<Colour>,
    /// What is chosen with it.
    pub value: T,
}

impl<T> From<(String, T)> for Entry<T> {
    fn from((words, value): (String, T)) -> Self {
        Self { words, colour: None, value }
    }
}

/// A list called `name` that shows `chosen`; gives what was picked and is not the chosen one.
pub fn list<T>(
    ui: &mut Ui,
    name: &str,
    chosen: &str,
    width: f32,
    entries: impl IntoIterator<Item = Entry<T>>,
) -> Option<T> {
    spoken(ui, (name, name), chosen, (width, true), entries.into_iter().collect())
}

/// The same, beside the colour of what is chosen: at rest it shows the name alone.
pub fn list_beside_colour<T>(
    ui: &mut Ui,
    name: &str,
    chosen: &str,
    width: f32,
    entries: impl IntoIterator<Item = Entry<T>>,
) -> Option<T> {
    spoken(ui, (name, name), chosen, (width, false), entries.into_iter().collect())
}

/// The same of words alone, with what is chosen in its name.
pub fn pick<T>(
    ui: &mut Ui,
    name: &str,
    chosen: &str,
    width: f32,
    options: impl IntoIterator<Item = (String, T)>,
) -> Option<T> {
    let words = format!("{name}: {chosen}");
    let options = options.into_iter().map(Entry::from).collect();
    spoken(ui, (name, &words), chosen, (width, true), options)
}

fn spoken<T>(
    ui: &mut Ui,
    (key, name): (&str, &str),
    chosen: &str,
    (width, coloured): (f32, bool),
    entries: Vec<Entry<T>>,
) -> Option<T> {
    let id = ui.make_persistent_id(("list", key));
    let (rect, _) = ui.allocate_exact_size(vec2(width, theme::ROW), Sense::hover());
    let response = ui.interact(rect, id, Sense::click());
    let now = entries.iter().position(|entry| entry.words == chosen);
    let colour = now.and_then(|now| entries.get(now)).and_then(|entry| entry.colour);
    let colour = colour.filter(|_| coloured);
    let whole = button(ui, &response, chosen, colour);
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(Role::ComboBox, ui.is_enabled(), name);
        info.current_text_value = Some(chosen.to_owned());
        info
    });
    let mut picked = None;
    let popup = egui::Popup::default_response_id(&response);
    let open = egui::Popup::is_id_open(ui.ctx(), popup);
    if response.has_focus() {
        let filter =
            EventFilter { vertical_arrows: true, escape: open, ..EventFilter::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
        let words: Vec<&str> = entries.iter().map(|entry| entry.words.as_str()).collect();
        picked = keyed(ui, id, &words, now);
    }
    egui::Popup::menu(&response)
        .close_behavior(PopupCloseBehavior::CloseOnClickOutside)
        .gap(2.0)
        .show(|ui| {
            ui.set_style(ui.ctx().global_style());
            let words = entries.iter().map(|entry| (entry.words.as_str(), entry.colour));
            if let Some(taken) = rows(ui, id, words.collect(), now, width) {
                picked = Some(taken);
                ui.close();
                response.request_focus();
            }
        });
    // What is read whole elsewhere or below needs no second telling.
    if !open {
        if whole {
            with_row_hint(ui, response);
        } else {
            let response = response.on_hover_text(chosen);
            with_row_hint(ui, response);
        }
    }
    let picked = picked.filter(|picked| Some(*picked) != now)?;
    entries.into_iter().nth(picked).map(|entry| entry.value)
}

/// What the list shows at rest; says whether all of it is read.
fn button(ui: &Ui, response: &Response, chosen: &str, colour: Option<Colour>) -> bool {
    let palette = theme::palette(ui);
    let visuals = ui.style().interact(response);
    let rect = response.rect;
    let edge =
        if response.has_focus() { Stroke::new(1.5, palette.accent) } else { visuals.bg_stroke };
    ui.painter().rect(rect, 4.0, visuals.weak_bg_fill, edge, StrokeKind::Inside);
    let mut left = rect.left() + 8.0;
    if let Some(colour) = colour {
        swatch(ui, pos2(left, rect.center().y), colour);
        left += SWATCH + 6.0;
    }
    let room = rect.right() - 22.0 - left;
    let shown = fitted(ui, chosen, room);
    let font = FontId::proportional(theme::BODY);
    let ink = visuals.text_color();
    ui.painter().text(pos2(left, rect.center().y), Align2::LEFT_CENTER, &shown, font, ink);
    chevron(ui, rect.right_center() - vec2(12.0, 0.0), true, palette.quiet);
    shown == chosen
}

/// A colour, its left edge in the middle at `at`.
fn swatch(ui: &Ui, at: egui::Pos2, colour: Colour) {
    let rect = Rect::from_min_size(at - vec2(0.0, SWATCH / 2.0), vec2(SWATCH, SWATCH));
    let fill = display::colour(ui.ctx(), [colour.red, colour.green, colour.blue]);
    let line = Stroke::new(1.0, theme::palette(ui).quiet);
    ui.painter().rect(rect, 3.0, fill, line, StrokeKind::Inside);
}

/// The rows of an open list; gives the one that was taken.
fn rows(
    ui: &mut Ui,
    id: Id,
    entries: Vec<(&str, Option<Colour>)>,
    now: Option<usize>,
    least: f32,
) -> Option<usize> {
    let font = FontId::proportional(theme::BODY);
    let coloured = entries.iter().any(|(_, colour)| colour.is_some());
    let before = 10.0 + if coloured { SWATCH + 8.0 } else { 0.0 };
    let wide = |words: &str| {
        let galley =
            ui.painter().layout_no_wrap(words.to_owned(), font.clone(), Color32::PLACEHOLDER);
        galley.size().x
    };
    let longest = entries.iter().map(|(words, _)| wide(words)).fold(0.0, f32::max);
    ui.spacing_mut().scroll = egui::style::ScrollStyle::solid();
    let bar = ui.spacing().scroll.allocated_width();
    let width = (before + longest + 12.0 + bar).clamp(least, WIDEST);
    // Where the list was scrolled to: to what is chosen, as often as that changes.
    let seen = id.with("seen");
    let pass = ui.ctx().cumulative_pass_nr();
    let before_now: Option<(Option<usize>, u64)> = ui.data(|data| data.get_temp(seen));
    let scroll = before_now.is_none_or(|(chosen, at)| chosen != now || at + 2 < pass);
    ui.data_mut(|data| data.insert_temp(seen, (now, pass)));
    let mut taken = None;
    ScrollArea::vertical().max_height(ROW * f32::from(ROWS)).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        let room = if entries.len() > usize::from(ROWS) { width - bar } else { width };
        for (index, (words, colour)) in entries.into_iter().enumerate() {
            // Not to be tabbed to: the list itself has the keys.
            let sense = Sense::CLICK | Sense::HOVER;
            let (rect, response) = ui.allocate_exact_size(vec2(room, ROW), sense);
            let on = now == Some(index);
            if on && scroll {
                ui.scroll_to_rect_animation(
                    rect,
                    Some(Align::Center),
                    egui::style::ScrollAnimation::none(),
                );
            }
            let shown = one(ui, &response, words, colour, before, on);
            response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, on, words));
            let response = if shown { response } else { response.on_hover_text(words) };
            if response.clicked() {
                taken = Some(index);
            }
        }
    });
    taken
}

/// One row; says whether all of it is read.
fn one(
    ui: &Ui,
    response: &Response,
    words: &str,
    colour: Option<Colour>,
    before: f32,
    on: bool,
) -> bool {
    let palette = theme::palette(ui);
    let rect = response.rect;
    if on || response.hovered() {
        let fill = if on { palette.chosen } else { palette.hover };
        ui.painter().rect_filled(rect, 3.0, fill);
    }
    if let Some(colour) = colour {
        swatch(ui, pos2(rect.left() + 8.0, rect.center().y), colour);
    }
    let at = pos2(rect.left() + before, rect.center().y);
    let shown = fitted(ui, words, rect.right() - at.x - 6.0);
    let font = FontId::proportional(theme::BODY);
    ui.painter().text(at, Align2::LEFT_CENTER, &shown, font, palette.text);
    shown == words
}

/// The one that is chosen by a key.
fn keyed(ui: &Ui, id: Id, words: &[&str], now: Option<usize>) -> Option<usize> {
    let last = words.len().checked_sub(1)?;
    let pressed = |key| ui.input(|input| input.key_pressed(key) && input.modifiers.is_none());
    if pressed(Key::ArrowDown) {
        return Some(now.map_or(0, |now| (now + 1).min(last)));
    }
    if pressed(Key::ArrowUp) {
        return Some(now.map_or(last, |now| now.saturating_sub(1)));
    }
    if pressed(Key::Home) {
        return Some(0);
    }
    if pressed(Key::End) {
        return Some(last);
    }
    let typed: String = ui.input(|input| {
        let texts = input.events.iter().filter_map(|event| match event {
            egui::Event::Text(text) => Some(text.as_str()),
            _ => None,
        });
        texts.collect::<String>().split_whitespace().collect()
    });
    if typed.is_empty() {
        return None;
    }
    let time = ui.input(|input| input.time);
    let found = id.with("typed");
    let (before, at): (String, f64) = ui.data(|data| data.get_temp(found)).unwrap_or_default();
    let sought = if time - at <= TOGETHER { before } else { String::new() };
    let first = sought.is_empty();
    let sought = sought + &typed.to_lowercase();
    ui.data_mut(|data| data.insert_temp(found, (sought.clone(), time)));
    sought_in(words, &sought, now, first)
}

/// The next entry after the one that is chosen, or that one itself while more is typed, whose name
/// begins with `sought`; else one of whose words begins so.
fn sought_in(words: &[&str], sought: &str, now: Option<usize>, first: bool) -> Option<usize> {
    let start = now.map_or(0, |now| now + usize::from(first));
    let count = words.len();
    let order = || (0..count).map(|step| (start + step) % count);
    let begins = |index: &usize| {
        let name: String = words[*index].to_lowercase().split_whitespace().collect();
        name.starts_with(sought)
    };
    let within = |index: &usize| {
        let name = words[*index].to_lowercase();
        name.split_whitespace().any(|word| word.starts_with(sought))
    };
    order().find(begins).or_else(|| order().find(within))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_find_an_entry() {
        const WORDS: [&str; 5] =
            ["Slate, 4-ply", "Snow, 4-ply", "Snow, 8-ply", "A3", "Deep slate"];
        #[track_caller]
        fn case(sought: &str, now: Option<usize>, first: bool, wanted: Option<usize>) {
            assert_eq!(sought_in(&WORDS, sought, now, first), wanted, "{sought}");
        }
        case("s", None, true, Some(0));
        case("s", Some(0), true, Some(1));
        case("sn", Some(1), false, Some(1));
        case("snow,8", Some(1), false, Some(2));
        case("s", Some(2), true, Some(0));
        case("deep", Some(0), false, Some(4));
        case("sla", Some(4), false, Some(0));
        case("8", Some(0), true, Some(2));
        case("x", Some(0), true, None);
    }
}
