//! Rows and groups on one grid: labels right-aligned to one column, fields to another.

use egui::{
    Align, Align2, Color32, FontId, Layout, Rect, Response, RichText, Role, Ui, WidgetInfo,
    pos2, vec2,
};
use sightedge_core::finding::Severity;

use super::hint::{Hint, hinted, with_row_hint};
use crate::window::request::AppCommand;
use crate::window::theme;

/// Widens or narrows the column of labels of a panel, in points.
pub fn label_column(ui: &mut Ui, width: f32) {
    ui.spacing_mut().indent = width;
}

/// The column of labels: fields are indented by it.
fn labels(ui: &Ui) -> f32 {
    ui.spacing().indent
}

/// What is wrong with what was typed in the rows that are being shown: how many of them there
/// are within each other, and the reasons.
#[derive(Clone, Debug, Default)]
struct Problems {
    rows: u32,
    reasons: Vec<String>,
}

fn problems(ui: &Ui, change: impl FnOnce(&mut Problems)) {
    let id = egui::Id::unique("what is wrong in the rows that are being shown");
    ui.data_mut(|data| change(data.get_temp_mut_or_default(id)));
}

/// Shows why what was typed in a field was refused: below its row, or where it is in none, below
/// the field.
pub(super) fn problem(ui: &Ui, field: &Response, why: &str) {
    let mut in_row = false;
    problems(ui, |problems| {
        in_row = problems.rows > 0;
        if in_row {
            problems.reasons.push(why.to_owned());
        }
    });
    if !in_row {
        field.show_tooltip_text(why);
    }
}

/// Shows `contents`, and below it what is wrong with what was typed there.
fn with_problems<R>(ui: &mut Ui, contents: impl FnOnce(&mut Ui) -> R) -> R {
    problems(ui, |problems| problems.rows += 1);
    let made = contents(ui);
    let mut reasons = Vec::new();
    problems(ui, |problems| {
        problems.rows -= 1;
        if problems.rows == 0 {
            reasons = std::mem::take(&mut problems.reasons);
        }
    });
    for why in reasons {
        let fault = theme::palette(ui).fault;
        note_in(ui, RichText::new(why).size(theme::SMALL).color(fault));
    }
    made
}

/// The width of one of `count` fields side by side in what is left of a row.
pub fn field_width(ui: &Ui, count: u8) -> f32 {
    let all = ui.available_width().max(80.0);
    let count = f32::from(count);
    ((all - 8.0 * (count - 1.0)) / count).floor()
}

/// A group of rows under its title.
pub fn group<R>(ui: &mut Ui, title: &str, contents: impl FnOnce(&mut Ui) -> R) -> R {
    ui.add_space(theme::GROUP - theme::GAP);
    ui.label(RichText::new(title).family(theme::strong()).size(theme::BODY));
    contents(ui)
}

/// The head of a group of rows: its title with the first decision beside it.
pub fn heading(ui: &mut Ui, title: &str, head: impl FnOnce(&mut Ui)) {
    ui.add_space(theme::GROUP - theme::GAP);
    with_problems(ui, |ui| headed(ui, title, head));
}

fn headed(ui: &mut Ui, title: &str, head: impl FnOnce(&mut Ui)) {
    ui.horizontal(|ui| {
        ui.set_min_height(theme::ROW);
        ui.set_max_width(ui.available_width());
        let (rect, response) =
            ui.allocate_exact_size(vec2(labels(ui), theme::ROW), egui::Sense::hover());
        ui.painter().text(
            rect.left_center(),
            Align2::LEFT_CENTER,
            title,
            FontId::new(theme::BODY, theme::strong()),
            theme::palette(ui).text,
        );
        let name = title.to_owned();
        response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &name));
        head(ui);
    });
}

/// A labelled row.
pub fn row<R>(ui: &mut Ui, label: &str, contents: impl FnOnce(&mut Ui) -> R) -> R {
    labelled(ui, label, contents).1
}

/// A labelled row; fields in it that have no hint of their own have this one.
pub fn asked<R>(
    ui: &mut Ui,
    label: &str,
    hint: &Hint,
    contents: impl FnOnce(&mut Ui) -> R,
) -> R {
    hinted(ui, hint, |ui| row(ui, label, contents))
}

/// A labelled row, and what its label leaves free of the column of labels.
pub fn labelled<R>(ui: &mut Ui, label: &str, contents: impl FnOnce(&mut Ui) -> R) -> (Rect, R) {
    with_problems(ui, |ui| in_row(ui, label, contents))
}

fn in_row<R>(ui: &mut Ui, label: &str, contents: impl FnOnce(&mut Ui) -> R) -> (Rect, R) {
    ui.horizontal(|ui| {
        ui.set_min_height(theme::ROW);
        // A row that does not fit must not widen its panel.
        ui.set_max_width(ui.available_width());
        let (rect, response) =
            ui.allocate_exact_size(vec2(labels(ui), theme::ROW), egui::Sense::hover());
        let mut free = rect;
        if !label.is_empty() {
            let text = ui.painter().text(
                rect.right_center(),
                Align2::RIGHT_CENTER,
                label,
                FontId::proportional(13.0),
                theme::palette(ui).quiet,
            );
            free = rect.with_max_x(text.left());
            let name = label.to_owned();
            response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &name));
            with_row_hint(ui, response);
        }
        (free, contents(ui))
    })
    .inner
}

/// As much of `text` as fits `width`, with an ellipsis where something is left out.
pub fn fitted(ui: &Ui, text: &str, width: f32) -> String {
    let font = FontId::proportional(theme::BODY);
    let long = |text: &str| {
        ui.painter().layout_no_wrap(text.to_owned(), font.clone(), Color32::BLACK).size().x
    };
    if long(text) <= width {
        return text.to_owned();
    }
    let mut kept = text;
    while let Some((last, _)) = kept.char_indices().next_back() {
        kept = kept[..last].trim_end();
        let shown = format!("{kept}…");
        if long(&shown) <= width {
            return shown;
        }
    }
    "…".to_owned()
}

/// A small quiet text under a row, in the column of fields.
pub fn note(ui: &mut Ui, text: &str) {
    note_in(ui, quiet(ui, text));
}

fn note_in(ui: &mut Ui, text: RichText) {
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = 14.0;
        ui.add_space(labels(ui) + 8.0);
        ui.vertical(|ui| ui.add(egui::Label::new(text).wrap()));
    });
}

/// Secondary text.
pub fn quiet(ui: &Ui, text: &str) -> RichText {
    RichText::new(text).size(theme::SMALL).color(theme::palette(ui).quiet)
}

/// A name at the left, a value at the right of the same line, or of the next one where both
/// have no room beside each other.
pub fn pair(ui: &mut Ui, name: &str, value: &str) -> Response {
    let wide = |text: &str, size| {
        let font = FontId::proportional(size);
        let ink = Color32::PLACEHOLDER;
        ui.painter().layout_no_wrap(text.to_owned(), font, ink).size().x
    };
    let both = wide(name, theme::SMALL) + wide(value, theme::BODY);
    if both + ui.spacing().item_spacing.x > ui.available_width() {
        ui.label(quiet(ui, name));
        let right = Layout::top_down(Align::RIGHT);
        return ui.with_layout(right, |ui| ui.label(value)).inner;
    }
    ui.horizontal(|ui| {
        let name = ui.label(quiet(ui, name));
        let right = Layout::right_to_left(Align::Center);
        // What is said of the figure is said of its name as well.
        ui.with_layout(right, |ui| ui.label(value)).inner | name
    })
    .inner
}

/// A button for a command, with its hint, what it is `of`, and its key.
#[expect(
    clippy::fn_params_excessive_bools,
    reason = "what egui asks of a button, in its order"
)]
pub fn icon_button(
    ui: &mut Ui,
    command: &AppCommand,
    of: Option<&str>,
    enabled: bool,
    on: bool,
) -> bool {
    let mut text = RichText::new(command.label());
    if on {
        text = text.color(theme::palette(ui).accent);
    }
    let button = egui::Button::new(text).frame_when_inactive(false).selected(on);
    let mut hint = command.hint().to_owned();
    if let Some(of) = of {
        hint = format!("{hint}: {of}");
    }
    if let Some(shortcut) = command.shortcut() {
        hint = format!("{hint} ({})", ui.ctx().format_shortcut(&shortcut));
    }
    ui.add_enabled(enabled, button).on_hover_text(hint).clicked()
}

/// A severity's sign: its form tells it without its colour.
pub fn severity_icon(ui: &mut Ui, severity: Severity) {
    let colour = theme::palette(ui).severity(severity);
    let (rect, response) = ui.allocate_exact_size(vec2(18.0, 20.0), egui::Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, severity.name()));
    let centre = rect.center();
    let painter = ui.painter();
    let mark = |text: &str, ink: Color32, by: f32| {
        painter.text(
            centre + vec2(0.0, by),
            Align2::CENTER_CENTER,
            text,
            FontId::new(11.0, theme::strong()),
            ink,
        );
    };
    let on = theme::palette(ui).on_accent;
    match severity {
        Severity::Fault => {
            let (r, s) = (8.0, 3.3);
            let points =
                [(-s, -r), (s, -r), (r, -s), (r, s), (s, r), (-s, r), (-r, s), (-r, -s)];
            let points = points.map(|(x, y)| centre + vec2(x, y)).to_vec();
            painter.add(egui::Shape::convex_polygon(points, colour, egui::Stroke::NONE));
            mark("!", on, 0.0);
        }
        Severity::Caution => {
            let points = vec![
                pos2(centre.x, centre.y - 8.0),
                pos2(centre.x + 9.0, centre.y + 7.5),
                pos2(centre.x - 9.0, centre.y + 7.5),
            ];
            painter.add(egui::Shape::convex_polygon(points, colour, egui::Stroke::NONE));
            mark("!", on, 2.0);
        }
        Severity::Note => {
            painter.circle_stroke(centre, 7.5, egui::Stroke::new(1.5, colour));
            mark("i", colour, 0.0);
        }
    }
}
