//! A field for one length: takes fractions, decimals, units and sums.

use egui::{Align2, FontId, Response, Role, Ui, WidgetInfo, vec2};
use sightedge_core::length::{self, Length, Round, Unit};

use super::hint::{Hint, with_row_hint};
use super::typing::Typing;
use crate::window::theme;
use sightedge_service::wording;

/// A field for one length.
#[derive(Clone, Copy, Debug)]
pub struct LengthField<'a> {
    name: &'a str,
    value: Length,
    unit: Unit,
    width: f32,
    enabled: bool,
    rounded: Option<Round>,
    hint: Option<&'a Hint>,
    above_zero: bool,
    unknown: bool,
    within: Option<(Length, Length)>,
}

impl<'a> LengthField<'a> {
    /// A field called `name` (for screen readers), showing `value` in `unit`.
    pub const fn new(name: &'a str, value: Length, unit: Unit) -> Self {
        let (width, enabled, above_zero, unknown) = (96.0, true, false, false);
        let (rounded, hint, within) = (None, None, None);
        Self { name, value, unit, width, enabled, rounded, hint, above_zero, unknown, within }
    }

    /// Its width in points.
    #[must_use]
    pub const fn width(mut self, width: f32) -> Self {
        self.width = width;
        self
    }

    /// Whether it can be typed in; else it shows a derived length.
    #[must_use]
    pub const fn enabled(mut self, enabled: bool) -> Self {
        self.enabled = enabled;
        self
    }

    /// Shows it with the digits that one can measure, rounded so; what is not typed over stays
    /// what it is.
    #[must_use]
    pub const fn rounded(mut self, way: Round) -> Self {
        self.rounded = Some(way);
        self
    }

    /// Shows that the length is not known.
    #[must_use]
    pub const fn unknown(mut self) -> Self {
        self.unknown = true;
        self
    }

    /// What it asks for; without it, what its row does.
    #[must_use]
    pub const fn hint(mut self, hint: &'a Hint) -> Self {
        self.hint = Some(hint);
        self
    }

    /// Refuses zero and less.
    #[must_use]
    pub const fn above_zero(mut self) -> Self {
        self.above_zero = true;
        self
    }

    /// Refuses what is not from `least` to `most`.
    #[must_use]
    pub const fn within(mut self, least: Length, most: Length) -> Self {
        self.within = Some((least, most));
        self
    }

    /// Shows it; gives the length that was typed. What is no length stays in the field with the
    /// reason.
    pub fn show(self, ui: &mut Ui) -> (Response, Option<Length>) {
        let value = self.rounded.map_or(self.value, |way| self.value.rounded(self.unit, way));
        let shown =
            if self.unknown { String::new() } else { wording::number(value, self.unit) };
        if !self.enabled {
            return (self.derived(ui, &shown), None);
        }
        let typing = Typing {
            id: ui.make_persistent_id(("length", self.name)),
            name: self.name,
            shown: &shown,
            empty: if self.unknown { "not known" } else { "" },
            width: self.width,
            hint: self.hint,
        };
        typing.show(ui, |text| self.sign(text), |text| self.read(text))
    }

    fn sign(&self, text: &str) -> &'static str {
        if self.unknown && text.is_empty() { "" } else { unit_sign(text, self.unit) }
    }

    fn read(&self, text: &str) -> Result<Length, String> {
        let length = length::parse(text, self.unit).map_err(|error| error.to_string())?;
        if self.above_zero && !length.is_positive() {
            let example = match self.unit {
                Unit::Inch => ".060 in",
                Unit::Millimetre => "1.4 mm",
            };
            return Err(format!("\"{}\" is not above zero: try {example}", text.trim()));
        }
        if let Some((least, most)) = self.within
            && !(least..=most).contains(&length)
        {
            let [least, most] = [least, most].map(|end| wording::length(end, self.unit));
            return Err(format!(
                "\"{}\" does not fit. Type a length from {least} to {most}",
                text.trim()
            ));
        }
        Ok(length)
    }

    /// A length that follows from others: read, not typed.
    fn derived(self, ui: &mut Ui, shown: &str) -> Response {
        let size = vec2(self.width, theme::ROW);
        let (rect, response) = ui.allocate_exact_size(size, egui::Sense::hover());
        let palette = theme::palette(ui);
        let painter = ui.painter();
        painter.text(
            rect.left_center() + vec2(9.0, 0.0),
            Align2::LEFT_CENTER,
            shown,
            FontId::proportional(theme::BODY),
            palette.text,
        );
        painter.text(
            rect.right_center() - vec2(7.0, 0.0),
            Align2::RIGHT_CENTER,
            self.unit.sign(),
            FontId::proportional(theme::SMALL),
            palette.quiet,
        );
        let text = format!("{} {shown} {}", self.name, self.unit.sign());
        response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &text));
        match self.hint {
            Some(hint) => hint.on(ui, response),
            None => with_row_hint(ui, response),
        }
    }
}

/// The unit shown behind what is typed; none where it is typed itself.
pub(super) fn unit_sign(text: &str, unit: Unit) -> &'static str {
    if length::first_unit(text).is_some() { "" } else { unit.sign() }
}
