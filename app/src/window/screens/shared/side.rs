//! Checks and figures at the right of a place: the checks have the height that they need first,
//! the figures fold; where there is room they stand beside each other.

use egui::{Frame, Panel, Role, ScrollArea, Sense, Ui, WidgetInfo, vec2};

use super::checks;
use crate::window::context::{Requests, View};
use crate::window::request::{Action, Screen};
use crate::window::theme;
use crate::window::widgets::chevron;

/// So wide a panel has two columns.
const TWO: f32 = 500.0;
/// The head of the figures.
const HEAD: f32 = 34.0;
/// What is always left for the figures that are not folded.
const LEAST: f32 = 120.0;
/// Between two columns.
const BETWEEN: f32 = 24.0;

/// Whether a place's figures are folded.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fold {
    /// The place.
    pub(crate) screen: Screen,
    /// Whether they are.
    pub(crate) folded: bool,
}

/// What both needed when they were last shown.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Heights {
    checks: f32,
    figures: f32,
}

/// Shows the checks of a plan, and its figures.
pub(crate) fn judged(
    ui: &mut Ui,
    view: &View<'_>,
    fold: Fold,
    requests: &mut Requests,
    figures: impl FnOnce(&mut Ui),
) {
    let room = ui.available_rect_before_wrap();
    if room.width() >= TWO {
        let each = ((room.width() - BETWEEN) / 2.0).floor();
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = BETWEEN;
            let column = vec2(each, room.height());
            let down = egui::Layout::top_down(egui::Align::LEFT);
            ui.allocate_ui_with_layout(column, down, |ui| {
                ui.set_width(each);
                checks::checks(ui, view, requests);
            });
            ui.allocate_ui_with_layout(column, down, |ui| {
                ui.set_width(each);
                ui.spacing_mut().item_spacing.x = 8.0;
                folding(ui, fold, requests, figures);
            });
        });
        return;
    }
    let key = ui.scope_id().with("heights of checks and figures");
    let before: Heights = ui.data(|data| data.get_temp(key)).unwrap_or_default();
    let most = room.height() - before.checks - 8.0;
    let needed = if fold.folded { HEAD } else { HEAD + before.figures };
    let height = needed.min(most.max(LEAST)).max(HEAD).min(room.height());
    let figures = Panel::bottom("figures")
        .frame(Frame::new())
        .show_separator_line(true)
        .exact_size(height)
        .show(ui, |ui| folding(ui, fold, requests, figures))
        .inner;
    let checks = checks::checks(ui, view, requests);
    let now = Heights { checks, figures: figures.unwrap_or(before.figures) };
    if (now.checks - before.checks).abs() > 0.5 || (now.figures - before.figures).abs() > 0.5 {
        ui.data_mut(|data| data.insert_temp(key, now));
        ui.ctx().request_repaint();
    }
}

/// The figures under their head; gives the height they need, where they are shown.
fn folding(
    ui: &mut Ui,
    fold: Fold,
    requests: &mut Requests,
    figures: impl FnOnce(&mut Ui),
) -> Option<f32> {
    let Fold { screen, folded } = fold;
    let size = vec2(ui.available_width(), theme::ROW);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let palette = theme::palette(ui);
    if response.has_focus() {
        let stroke = egui::Stroke::new(1.5, palette.accent);
        ui.painter().rect_stroke(rect, 4.0, stroke, egui::StrokeKind::Inside);
    }
    let ink = if response.hovered() { palette.accent } else { palette.text };
    let font = egui::FontId::new(theme::BODY, theme::strong());
    let at = rect.left_center();
    ui.painter().text(at, egui::Align2::LEFT_CENTER, "Figures", font, ink);
    chevron(ui, rect.right_center() - vec2(10.0, 0.0), !folded, palette.quiet);
    response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, !folded, "Figures"));
    let hint = if folded { "Show the figures" } else { "Fold the figures away" };
    if response.on_hover_text(hint).clicked() {
        requests.actions.push(Action::Fold(screen, !folded));
    }
    if folded {
        return None;
    }
    let shown = ScrollArea::vertical().id_salt("figures").auto_shrink([false, false]);
    let shown = shown.show(ui, |ui| {
        ui.set_width(ui.available_width() - 8.0);
        figures(ui);
    });
    Some(shown.content_size.y + 4.0)
}
