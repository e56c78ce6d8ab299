//! The numbers of an edition at a glance: each is a small box whose form tells where its print
//! is; no form is told by colour alone.

use egui::{
    Align2, Color32, FontId, Key, Modifiers, Rect, Role, Sense, Stroke, StrokeKind, Ui,
    WidgetInfo, vec2,
};
use sightedge_core::catalogue::Kind;
use sightedge_studio::{Edition, Print, State};

use super::chosen::{How, Number};
use crate::window::theme::{self, Palette};

/// A box, in points.
const BOX: egui::Vec2 = vec2(52.0, 30.0);
const GAP: f32 = 4.0;

/// What a number is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Form {
    Free,
    /// Free again: a print had it, and it was voided.
    Voided,
    There(State),
}

impl Form {
    /// In words.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Free => "free",
            Self::Voided => "free again, voided",
            Self::There(state) => state.name(),
        }
    }

    /// In the legend, in this order.
    pub(super) const ALL: [Self; 8] = [
        Self::Free,
        Self::Voided,
        Self::There(State::Studio),
        Self::There(State::Returned),
        Self::There(State::Show),
        Self::There(State::Sold),
        Self::There(State::Unknown),
        Self::There(State::Destroyed),
    ];

    /// Whether a print in that state is counted under this form of the legend.
    pub(super) fn holds(self, state: State) -> bool {
        match self {
            Self::Free | Self::Voided => false,
            Self::There(own) => own == state,
        }
    }
}

/// Draws a box of that form.
pub(super) fn draw(ui: &Ui, rect: Rect, form: Form, text: &str, palette: Palette) {
    let painter = ui.painter();
    let line = |colour: Color32, width: f32| Stroke::new(width, colour);
    let corner = rect.right_bottom() - vec2(5.0, 5.0);
    let (fill, ink, edge) = match form {
        Form::Free | Form::Voided => {
            (Color32::TRANSPARENT, palette.quiet, line(palette.line, 1.0))
        }
        Form::There(State::Sold) => (palette.text, palette.panel, line(palette.text, 1.0)),
        Form::There(_) => (palette.field, palette.text, line(palette.text, 1.0)),
    };
    painter.rect(rect, 3.0, fill, edge, StrokeKind::Inside);
    painter.text(
        rect.center(),
        Align2::CENTER_CENTER,
        text,
        FontId::proportional(if text.contains(' ') || text.len() > 4 { 11.0 } else { 13.0 }),
        ink,
    );
    match form {
        // A flag for what is out on a wall.
        Form::There(State::Show) => {
            let points =
                [corner + vec2(3.0, 3.0), corner + vec2(3.0, -6.0), corner + vec2(-6.0, 3.0)];
            painter.add(egui::Shape::convex_polygon(
                points.to_vec(),
                palette.text,
                Stroke::NONE,
            ));
        }
        Form::There(State::Unknown) => {
            painter.text(
                rect.right_top() + vec2(-3.0, 0.0),
                Align2::RIGHT_TOP,
                "?",
                FontId::proportional(11.0),
                palette.text,
            );
        }
        Form::There(State::Destroyed) => {
            painter.line_segment(
                [rect.left_bottom() + vec2(3.0, -3.0), rect.right_top() + vec2(-3.0, 3.0)],
                line(palette.text, 1.5),
            );
        }
        // Its history, folded away in the corner.
        Form::Voided => {
            let at = rect.right_top() + vec2(-7.0, 7.0);
            painter.circle_stroke(at, 2.5, line(palette.quiet, 1.2));
        }
        Form::There(State::Returned) => {
            let from = rect.left_bottom() + vec2(4.0, -4.0);
            painter.line_segment([from, from + vec2(8.0, 0.0)], line(palette.text, 1.5));
        }
        _ => {}
    }
}

/// Where the numbers stand, and which of them the keys lead to next.
#[derive(Clone, Copy, Debug, Default)]
struct Walk {
    offset: f32,
    tall: f32,
    to: Option<u32>,
    /// The one that was chosen in the frame before.
    chosen: Option<u32>,
}

/// What of the numbers is chosen: the one the keys go on from, and several at once.
#[derive(Clone, Copy, Debug)]
pub(super) struct Picked<'a> {
    pub(super) one: Option<Number>,
    pub(super) several: &'a [Number],
}

impl Picked<'_> {
    fn holds(self, number: Number) -> bool {
        self.one == Some(number) || self.several.binary_search(&number).is_ok()
    }
}

/// What was pressed among the numbers.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Press {
    Number(u32, How),
    /// Ctrl+A: all of the kind.
    All,
}

/// All numbers of one kind; returns what was pressed or where an arrow led. Only rows in sight are
/// made. One of them is a stop of the Tab key; from there arrows lead on.
pub(super) fn grid(
    ui: &mut Ui,
    edition: &Edition,
    kind: Kind,
    prints: &[Print],
    picked: Picked<'_>,
    most_height: f32,
) -> Option<Press> {
    let count = edition.what.count(kind);
    let columns = columns(ui.available_width() - 14.0);
    let rows = usize::try_from(count.div_ceil(columns)).unwrap_or(0);
    let id = egui::Id::unique(("numbers", edition.id, kind));
    let mut walk: Walk = ui.data(|data| data.get_temp(id)).unwrap_or_default();
    let chosen = picked.one.filter(|(of, _)| *of == kind).map(|(_, number)| number);
    let mut pressed = None;
    // Before the rows are counted, or the last one would be cut off.
    let usual = std::mem::replace(&mut ui.spacing_mut().item_spacing, vec2(GAP, GAP));
    let mut area = egui::ScrollArea::vertical()
        .id_salt(id)
        .max_height(most_height)
        .auto_shrink([false, true]);
    // Where a key led in the frame before.
    let led = walk.to.take();
    let new = chosen.filter(|_| walk.chosen != chosen);
    walk.chosen = chosen;
    if let Some(offset) = led.or(new).and_then(|to| walk.offset_for((to - 1) / columns)) {
        area = area.vertical_scroll_offset(offset);
    }
    let output = area.show_rows(ui, BOX.y, rows, |ui, range| {
        let numbers = |row: usize| {
            let row = u32::try_from(row).unwrap_or(0);
            row * columns + 1..=((row + 1) * columns).min(count)
        };
        let (first, end) = (numbers(range.start), numbers(range.end));
        let stop = chosen.filter(|number| (*first.start()..*end.start()).contains(number));
        let stop = stop.unwrap_or(*first.start());
        for row in range {
            ui.horizontal(|ui| {
                for number in numbers(row) {
                    let on = picked.holds((kind, number));
                    let stops = number == stop || led == Some(number);
                    let response = number_box(ui, edition, kind, prints, number, (on, stops));
                    if led == Some(number) {
                        response.request_focus();
                    }
                    let keys = ui.input(|input| input.modifiers);
                    if response.clicked() {
                        let how = if keys.shift {
                            How::UpTo
                        } else if keys.command {
                            How::Also
                        } else {
                            How::Alone
                        };
                        pressed = Some(Press::Number(number, how));
                    }
                    if !response.has_focus() {
                        continue;
                    }
                    if let Some(to) = stepped(ui, response.id, number, columns, count) {
                        walk.to = Some(to);
                        // With Ctrl the keys go on and choose nothing.
                        if !keys.command {
                            let how = if keys.shift { How::UpTo } else { How::Alone };
                            pressed = Some(Press::Number(to, how));
                        }
                        ui.ctx().request_repaint();
                    }
                    if ui.input_mut(|input| input.consume_key(Modifiers::COMMAND, Key::A)) {
                        pressed = Some(Press::All);
                    }
                }
            });
        }
    });
    ui.spacing_mut().item_spacing = usual;
    (walk.offset, walk.tall) = (output.state.clamped_offset().y, output.inner_rect.height());
    ui.data_mut(|data| data.insert_temp(id, walk));
    pressed
}

impl Walk {
    /// Where the rows must stand so that this one is in sight, if it is not.
    fn offset_for(self, row: u32) -> Option<f32> {
        let row = f32::from(u16::try_from(row).unwrap_or(u16::MAX));
        let top = row * (BOX.y + GAP);
        let least = top + BOX.y - self.tall;
        let there = top >= self.offset && least <= self.offset;
        (!there).then_some(if top < self.offset { top } else { least })
    }
}

/// The number a key leads to from one that has the focus.
fn stepped(ui: &Ui, id: egui::Id, from: u32, columns: u32, count: u32) -> Option<u32> {
    let filter = egui::EventFilter {
        horizontal_arrows: true,
        vertical_arrows: true,
        ..egui::EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
    let to = ui.input(|input| {
        let steps = [
            (Key::ArrowRight, from + 1),
            (Key::ArrowLeft, from.saturating_sub(1)),
            (Key::ArrowDown, from + columns),
            (Key::ArrowUp, from.saturating_sub(columns)),
            (Key::Home, 1),
            (Key::End, count),
        ];
        steps.into_iter().find(|(key, _)| input.key_pressed(*key)).map(|(_, to)| to)
    });
    to.filter(|to| (1..=count).contains(to) && *to != from)
}

/// The box of a number; `on`: it is chosen; `stop`: the Tab key stops there.
fn number_box(
    ui: &mut Ui,
    edition: &Edition,
    kind: Kind,
    prints: &[Print],
    number: u32,
    (on, stop): (bool, bool),
) -> egui::Response {
    let palette = theme::palette(ui);
    let form = holder(prints, kind, number)
        .map_or_else(|| free(prints, kind, number), |print| Form::There(print.now.state));
    let (_, rect) = ui.allocate_space(BOX);
    // Its own, so that the focus stays with the number while the rows move.
    let id = egui::Id::unique(("number", edition.id, kind, number));
    // One that the keys stand on stays a stop.
    let stop = stop || ui.memory(|memory| memory.has_focus(id));
    let response = ui.interact(rect, id, if stop { Sense::click() } else { Sense::CLICK });
    let written = edition.what.notation(kind, number);
    let shown = if kind == Kind::Numbered {
        number.to_string()
    } else {
        written.split('/').next().unwrap_or_default().to_owned()
    };
    draw(ui, rect, form, &shown, palette);
    if on || response.has_focus() || response.hovered() {
        let colour = if on || response.has_focus() { palette.accent } else { palette.quiet };
        let stroke = Stroke::new(if on { 2.5 } else { 1.5 }, colour);
        // Within the box, where nothing is cut off at the edge of the rows.
        ui.painter().rect_stroke(rect, 3.0, stroke, StrokeKind::Inside);
        if response.has_focus() {
            let inner = rect.shrink(4.0);
            ui.painter().rect_stroke(inner, 2.0, Stroke::new(1.0, colour), StrokeKind::Inside);
        }
    }
    let name = format!("{written}, {}", form.name());
    response.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, on, &name));
    response.on_hover_text(name)
}

/// All prints that have or had a number, the older first; `prints` are by kind and number.
pub(super) fn holders(
    prints: &[Print],
    kind: Kind,
    number: u32,
) -> impl Iterator<Item = &Print> {
    let from = prints.partition_point(|print| (print.kind, print.number) < (kind, number));
    let rest = prints.iter().skip(from);
    rest.take_while(move |print| (print.kind, print.number) == (kind, number))
}

/// The live print that holds a number.
pub(super) fn holder(prints: &[Print], kind: Kind, number: u32) -> Option<&Print> {
    holders(prints, kind, number).find(|print| print.live)
}

/// A number that no print holds.
pub(super) fn free(prints: &[Print], kind: Kind, number: u32) -> Form {
    if holders(prints, kind, number).next().is_some() { Form::Voided } else { Form::Free }
}

/// How many numbers of an edition no print holds, but one did.
pub(super) fn voided(prints: &[Print]) -> u32 {
    let numbered = prints.iter().filter(|print| print.kind == Kind::Numbered);
    let mut numbers: Vec<u32> = numbered.map(|print| print.number).collect();
    numbers.dedup();
    let gone = { numbers }.into_iter().filter(|n| holder(prints, Kind::Numbered, *n).is_none());
    u32::try_from(gone.count()).unwrap_or(u32::MAX)
}

/// The lowest free number.
pub(super) fn next(edition: &Edition, prints: &[Print]) -> Option<u32> {
    let held = prints.iter().filter(|print| print.live && print.kind == Kind::Numbered);
    let mut free = 1;
    for print in held {
        if print.number == free {
            free += 1;
        } else if print.number > free {
            break;
        }
    }
    (free <= edition.what.size).then_some(free)
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a few dozen boxes side by side"
)]
fn columns(wide: f32) -> u32 {
    (((wide + GAP) / (BOX.x + GAP)).floor().clamp(1.0, 100.0)) as u32
}
