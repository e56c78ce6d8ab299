//! One field for all four sides, which opens into four.

use egui::{Response, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use sightedge_core::geometry::{Side, Sides, Size};
use sightedge_core::length::{Length, Unit};
use sightedge_service::{four_sides, wording};

use super::hint::{Hint, hinted};
use super::length_field::unit_sign;
use super::typing::Typing;
use super::{LengthField, field_width, row};
use crate::window::theme;

/// Room for the button that opens the four sides.
const OPENER: f32 = 24.0;

/// What was typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SidesEvent {
    /// All sides together.
    All(Sides<Length>),
    /// One of them.
    One(Side, Length),
}

impl SidesEvent {
    /// The four sides that were `now` so, with what was typed.
    pub fn applied(self, now: Sides<Length>) -> Sides<Length> {
        match self {
            Self::All(sides) => sides,
            Self::One(side, length) => now.with(side, length),
        }
    }
}

/// A row with one field for four sides.
#[derive(Clone, Copy, Debug)]
pub struct SidesField<'a> {
    /// Its label.
    pub label: &'a str,
    /// Its name, for screen readers; the sides are called `name, top` and so on.
    pub name: &'a str,
    /// The sides as they are.
    pub sides: Sides<Length>,
    /// What they are shown in.
    pub unit: Unit,
    /// Whether they can be typed.
    pub enabled: bool,
    /// What is asked for.
    pub hint: &'a Hint,
    /// The size whose sides are taken in by them, where something must be left of it.
    pub leaves: Option<Size>,
}

impl SidesField<'_> {
    /// Shows it; gives what was typed.
    pub fn show(self, ui: &mut Ui) -> Option<SidesEvent> {
        let key = ui.make_persistent_id(("four sides", self.name));
        let open = ui.data(|data| data.get_temp(key)).unwrap_or(false);
        let mut event = None;
        hinted(ui, self.hint, |ui| {
            row(ui, self.label, |ui| {
                let width = field_width(ui, 1) - OPENER - 4.0;
                ui.spacing_mut().item_spacing.x = 4.0;
                event = self.all(ui, width).map(SidesEvent::All);
                if self.opener(ui, open).clicked() {
                    ui.data_mut(|data| data.insert_temp(key, !open));
                }
            });
            if !open {
                return;
            }
            for (label, pair) in [
                ("top, right", [Side::Top, Side::Right]),
                ("bottom, left", [Side::Bottom, Side::Left]),
            ] {
                row(ui, label, |ui| {
                    let width = field_width(ui, 2);
                    for side in pair {
                        let name = format!("{}, {}", self.name, side.name());
                        let field = LengthField::new(&name, self.sides.of(side), self.unit);
                        let typed = field.width(width).enabled(self.enabled).show(ui).1;
                        event = event.or(typed.map(|length| SidesEvent::One(side, length)));
                    }
                });
            }
        });
        event
    }

    fn all(&self, ui: &mut Ui, width: f32) -> Option<Sides<Length>> {
        let shown = four_sides::text(self.sides, self.unit);
        let id = ui.make_persistent_id(("sides", self.name));
        let typing =
            Typing { id, name: self.name, shown: &shown, empty: "", width, hint: None };
        let read = |text: &str| {
            let sides = four_sides::read(text, self.unit, self.sides)?;
            self.leaves_room(text, sides).map(|()| sides)
        };
        let show = |ui: &mut Ui| {
            typing.show(ui, |text| unit_sign(&four_sides::lengths(text), self.unit), read).1
        };
        ui.add_enabled_ui(self.enabled, show).inner
    }

    /// A button with a mark that points down where the four sides are shown, to the right else.
    fn opener(&self, ui: &mut Ui, open: bool) -> Response {
        let (rect, response) = ui.allocate_exact_size(vec2(OPENER, theme::ROW), Sense::click());
        let palette = theme::palette(ui);
        if response.hovered() {
            ui.painter().rect_filled(rect, 4.0, palette.hover);
        }
        if response.has_focus() {
            let stroke = Stroke::new(1.5, palette.accent);
            ui.painter().rect_stroke(rect, 4.0, stroke, StrokeKind::Inside);
        }
        chevron(ui, rect.center(), open, palette.text);
        let words = format!("{}: each side", self.name);
        response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, open, &words));
        let more = if open { "Press to fold the four sides." } else { "Press for each side." };
        self.hint.clone().and(more).on(ui, response)
    }

    fn leaves_room(&self, text: &str, sides: Sides<Length>) -> Result<(), String> {
        let Some(size) = self.leaves else { return Ok(()) };
        let wide = size.width - sides.left - sides.right;
        let high = size.height - sides.top - sides.bottom;
        if wide.is_positive() && high.is_positive() {
            return Ok(());
        }
        let all = size.extent_text(|side| wording::length(side, self.unit));
        Err(format!("\"{}\" leaves nothing of {all}: try smaller ones", text.trim()))
    }
}

/// A mark that points down where something is open, to the right where it is folded.
pub fn chevron(ui: &Ui, at: egui::Pos2, open: bool, ink: egui::Color32) {
    let points = if open {
        [(-4.0, -2.0), (0.0, 2.5), (4.0, -2.0)]
    } else {
        [(-2.0, -4.0), (2.5, 0.0), (-2.0, 4.0)]
    };
    let points = points.map(|(x, y)| pos2(at.x + x, at.y + y)).to_vec();
    ui.painter().line(points, Stroke::new(1.5, ink));
}
