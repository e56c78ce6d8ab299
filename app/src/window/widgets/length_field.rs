//! A field for one length: takes fractions, decimals, units and sums.
//!
//! Enter, Tab and a click elsewhere keep what was typed; Esc gives back what was there. While
//! nothing was typed, the field follows the plan, so that undo is seen in it at once.

use egui::{Align2, FontId, Id, Key, Response, Role, TextEdit, Ui, WidgetInfo, vec2};
use sightedge_core::length::{self, Length, Round, Unit};

use crate::window::theme;
use sightedge_service::wording;

/// What came of a field in this frame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FieldEvent {
    /// Nothing.
    None,
    /// This length is wanted.
    Set(Length),
    /// What was typed is no length; in words that say what is.
    Refused(String),
}

/// A field for one length.
#[derive(Clone, Copy, Debug)]
pub struct LengthField<'a> {
    name: &'a str,
    value: Length,
    unit: Unit,
    width: f32,
    enabled: bool,
    rounded: Option<Round>,
}

/// What is typed while a field has the focus.
#[derive(Clone, Debug, Default)]
struct Typed {
    text: String,
    /// What the field showed before anything was typed.
    shown: String,
    /// Whether the field had the focus when it was last shown: what was typed then is still to
    /// be kept.
    active: bool,
}

impl<'a> LengthField<'a> {
    /// A field called `name` (for screen readers), showing `value` in `unit`.
    pub const fn new(name: &'a str, value: Length, unit: Unit) -> Self {
        Self { name, value, unit, width: 96.0, enabled: true, rounded: None }
    }

    /// Its width in points.
    #[must_use]
    pub const fn width(mut self, width: f32) -> Self {
        self.width = width;
        self
    }

    /// Whether it can be typed in; else it tells a derived length.
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

    /// Shows it.
    pub fn show(self, ui: &mut Ui) -> (Response, FieldEvent) {
        let id = ui.make_persistent_id(("length", self.name));
        let shown = self.shown();
        if !self.enabled {
            return (self.derived(ui, &shown), FieldEvent::None);
        }
        let mut typed: Typed = ui.data(|data| data.get_temp(id)).unwrap_or_default();
        let focused = ui.memory(|memory| memory.has_focus(id));
        // Untouched: follow the plan.
        if (!focused && !typed.active) || typed.text == typed.shown {
            typed = Typed { text: shown.clone(), shown, active: typed.active };
        }
        // What is being typed is taken back before any step of the plan is.
        if focused
            && typed.text != typed.shown
            && ui.input_mut(|input| input.consume_key(egui::Modifiers::COMMAND, Key::Z))
        {
            typed.text.clone_from(&typed.shown);
        }

        // Esc and Enter may have taken the focus away before this field is shown.
        let (given_back, entered) = if focused || typed.active {
            ui.input(|input| (input.key_pressed(Key::Escape), input.key_pressed(Key::Enter)))
        } else {
            (false, false)
        };
        let response = self.edit(ui, id, &mut typed.text);

        let mut event = FieldEvent::None;
        if given_back {
            typed.text.clone_from(&typed.shown);
            response.surrender_focus();
        } else if (entered || response.lost_focus()) && typed.text != typed.shown {
            event = match length::parse(&typed.text, self.unit) {
                Ok(length) => FieldEvent::Set(length),
                Err(error) => {
                    FieldEvent::Refused(format!("{}: {error}. It stays as it was.", self.name))
                }
            };
            typed.text.clone_from(&typed.shown);
        }
        if response.gained_focus() {
            select_all(ui, id, typed.text.chars().count());
        }
        let problem = parse_problem(&typed.text, self.unit);
        let touched = typed.text != typed.shown;
        typed.active = response.has_focus();
        if touched && typed.active {
            tell_typing(ui.ctx());
        }
        ui.data_mut(|data| data.insert_temp(id, typed));
        let response = match problem {
            Some(problem) if touched && response.has_focus() => {
                let palette = theme::palette(ui);
                ui.painter().rect_stroke(
                    response.rect,
                    4.0,
                    egui::Stroke::new(1.5, palette.fault),
                    egui::StrokeKind::Inside,
                );
                response.on_hover_text(problem)
            }
            _ => response,
        };
        (response, event)
    }

    /// Its number.
    fn shown(&self) -> String {
        let value = self.rounded.map_or(self.value, |way| self.value.rounded(self.unit, way));
        wording::number(value, self.unit)
    }

    fn edit(self, ui: &mut Ui, id: Id, text: &mut String) -> Response {
        // What is typed with a unit of its own says it itself.
        let sign = if length::first_unit(text).is_some() { "" } else { self.unit.sign() };
        let edit = TextEdit::singleline(text)
            .id(id)
            .desired_width(self.width - 34.0)
            .margin(egui::Margin { left: 8, right: 26, top: 5, bottom: 5 })
            .align(Align2::LEFT_CENTER)
            .min_size(vec2(self.width, theme::ROW));
        let response = ui.add_sized(vec2(self.width, theme::ROW), edit);
        let palette = theme::palette(ui);
        ui.painter().text(
            response.rect.right_center() - vec2(7.0, 0.0),
            Align2::RIGHT_CENTER,
            sign,
            FontId::proportional(theme::SMALL),
            palette.quiet,
        );
        let (name, shown) =
            (self.name.to_owned(), format!("{text} {sign}").trim_end().to_owned());
        response.widget_info(|| {
            let mut info = WidgetInfo::labeled(Role::TextInput, true, &name);
            info.current_text_value = Some(shown.clone());
            info
        });
        response
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
        response
    }
}

fn typing() -> Id {
    Id::unique("something is being typed")
}

/// Tells that something is being typed in a field, which then takes its own text back.
pub fn tell_typing(context: &egui::Context) {
    let now = context.cumulative_pass_nr();
    context.data_mut(|data| data.insert_temp(typing(), now));
}

/// Whether something was being typed in a field when it was last shown.
pub fn is_typing(context: &egui::Context) -> bool {
    let last: Option<u64> = context.data(|data| data.get_temp(typing()));
    last.is_some_and(|last| context.cumulative_pass_nr().saturating_sub(last) <= 1)
}

/// Why a text is no length; `None` where it is one.
pub fn parse_problem(text: &str, unit: Unit) -> Option<String> {
    length::parse(text, unit).err().map(|error| error.to_string())
}

/// Selects the whole text of a field, `count` characters, so that typing replaces it.
pub fn select_all(ui: &Ui, id: Id, count: usize) {
    use egui::text::{CCursor, CCursorRange};
    let mut state = TextEdit::load_state(ui.ctx(), id).unwrap_or_default();
    state.cursor.set_char_range(Some(CCursorRange::two(CCursor::new(0), CCursor::new(count))));
    state.store(ui.ctx(), id);
}
