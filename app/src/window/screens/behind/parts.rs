//! Fields that the place shares: a length that may be left open, a plain number.

use egui::{Align2, DragValue, FontId, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2};
use sightedge_core::command::Command;
use sightedge_core::length::{Length, Round, Unit};
use sightedge_core::weight::Weights;

use crate::window::context::Requests;
use crate::window::theme;
use crate::window::widgets::{Hint, LengthField, checked, with_row_hint};
use sightedge_service::wording;

/// A length that may be left open: shows what is used then; a button restores the usual one.
pub(super) struct Open<'a> {
    pub(super) name: &'a str,
    pub(super) given: Option<Length>,
    /// What is used where none is given; `None` where nothing is known then.
    pub(super) usual: Option<Length>,
    pub(super) unit: Unit,
    pub(super) width: f32,
    pub(super) hint: Hint,
}

impl Open<'_> {
    pub(super) fn show(
        self,
        ui: &mut Ui,
        requests: &mut Requests,
        set: impl Fn(Option<Length>) -> Command,
    ) {
        const BACK: f32 = 18.0;
        let spacing = ui.spacing().item_spacing.x;
        let given = self.given.is_some();
        let room = if given { BACK } else { 0.0 };
        let shown = self.given.or(self.usual).unwrap_or_default();
        let field = LengthField::new(self.name, shown, self.unit).width(self.width - room);
        // What is usual may follow from other figures, and is then no whole one. Up: where it is
        // what is needed, less would not do.
        let field = if given { field } else { field.rounded(Round::Up) };
        let hint = if given {
            self.hint
        } else {
            self.hint.and("This is the usual figure; type another.")
        };
        ui.spacing_mut().item_spacing.x = if given { 0.0 } else { spacing };
        requests.length(ui, field.hint(&hint), |length| set(Some(length)));
        ui.spacing_mut().item_spacing.x = spacing;
        if given && back(ui, self.name, BACK) {
            requests.run(set(None));
        }
    }
}

/// A small cross that restores the usual figure of a field.
fn back(ui: &mut Ui, name: &str, width: f32) -> bool {
    let palette = theme::palette(ui);
    let (rect, response) = ui.allocate_exact_size(vec2(width, theme::ROW), Sense::click());
    let lit = response.hovered() || response.has_focus();
    let ink = if lit { palette.text } else { palette.quiet };
    let font = FontId::proportional(theme::BODY);
    ui.painter().text(rect.center(), Align2::CENTER_CENTER, "×", font, ink);
    if response.has_focus() {
        let stroke = Stroke::new(1.5, palette.accent);
        ui.painter().rect_stroke(rect.shrink(2.0), 4.0, stroke, StrokeKind::Inside);
    }
    let words = format!("{name}: back to the usual");
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &words));
    response.on_hover_text("Back to the usual figure").clicked()
}

/// A plain number with its unit.
pub(super) fn number(
    ui: &mut Ui,
    name: &str,
    value: u32,
    range: std::ops::RangeInclusive<u32>,
    unit: &str,
    width: f32,
) -> Option<u32> {
    let mut typed = value;
    let field = DragValue::new(&mut typed)
        .range(range)
        .speed(0.2)
        .suffix(format!(" {unit}"))
        .update_while_editing(false);
    let response = ui.add_sized([width, theme::ROW], field);
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(Role::SpinButton, true, name);
        info.value = Some(f64::from(value));
        info
    });
    with_row_hint(ui, response);
    (typed != value).then_some(typed)
}

/// A mass or a rating in grams, shown and typed in `weights`, or with a unit of one's own; zero
/// where it is not known.
pub(super) fn mass(
    ui: &mut Ui,
    name: &str,
    grams: u32,
    weights: Weights,
    width: f32,
) -> Option<u32> {
    let shown =
        if grams == 0 { String::new() } else { wording::set(&weights.mass(f64::from(grams))) };
    checked(ui, name, &shown, "not known", width, |typed| match typed.trim() {
        "" => Ok(0),
        _ => weights.parse(typed).map_err(|error| error.to_string()),
    })
}
