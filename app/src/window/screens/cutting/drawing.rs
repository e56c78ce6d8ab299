//! The boards and sheets of the plan, the one in front large, with the bound in plain words.

use egui::{Align2, FontId, Rect, RichText, ScrollArea, Sense, Stroke, StrokeKind, Ui, vec2};
use sightedge_cutting::Pattern;

use super::Sheets;
use super::sheet::{Large, View, face};
use crate::window::context::{Requests, ScreenContext};
use crate::window::theme;
use crate::window::widgets::quiet;
use sightedge_core::length::Unit;
use sightedge_service::cutting::model::BoardPlan;
use sightedge_service::wording;

/// Height of the row of small sheets.
const SMALL: f32 = 92.0;

impl Sheets {
    pub(super) fn drawn(
        &mut self,
        ui: &mut Ui,
        cx: ScreenContext<'_>,
        requests: &mut Requests,
    ) {
        self.tabs(ui);
        let Some(cutting) = &self.cutting else { return };
        let unit = cutting.unit();
        let Some(board) = cutting.boards.get(self.board) else {
            ui.label("Nothing is to be cut: none of the plans has a board.");
            return;
        };
        heading(ui, board, &self.faults, self.is_looking());
        if self.is_stale(cx) {
            ui.label(quiet(
                ui,
                "The plans have changed since these sheets were found: find them again.",
            ));
        }
        self.offered(ui, cx, requests);
        let Some(cutting) = &self.cutting else { return };
        let Some(board) = cutting.boards.get(self.board) else { return };
        let patterns = board.plan.patterns.len();
        let Some(pattern) = board.plan.patterns.get(self.pattern) else { return };
        let Some(sequence) = cutting.sequence(self.board, self.pattern) else { return };
        let title = cutting.title(self.board, self.pattern).unwrap_or_default();
        let step = self.step.min(sequence.cuts.len().saturating_sub(1));
        let room = ui.available_size();
        let below = if patterns > 1 { SMALL + 12.0 } else { 0.0 };
        let size = vec2(room.x, (room.y - below).max(120.0));
        let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
        let label = said(board, pattern, &title, unit);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &label));
        let palette = theme::palette(ui);
        let sheet = Large { board, pattern, sequence: &sequence, step, unit, palette };
        sheet.paint(ui, rect);
        if patterns > 1 {
            ui.add_space(4.0);
            let mut picked = None;
            ScrollArea::horizontal().auto_shrink([false, true]).show(ui, |ui| {
                ui.horizontal(|ui| {
                    for (number, pattern) in board.plan.patterns.iter().enumerate() {
                        let front = number == self.pattern;
                        let title = cutting.title(self.board, number).unwrap_or_default();
                        if small(ui, board, pattern, number, (&title, front)) {
                            picked = Some(number);
                        }
                    }
                });
            });
            if let Some(picked) = picked {
                self.put_in_front(self.board, picked);
            }
        }
    }

    /// The boards, each a word to press.
    fn tabs(&mut self, ui: &mut Ui) {
        let Some(cutting) = &self.cutting else { return };
        let mut picked = None;
        ScrollArea::horizontal().id_salt("boards").auto_shrink([false, true]).show(ui, |ui| {
            ui.horizontal(|ui| {
                for (number, board) in cutting.boards.iter().enumerate() {
                    let mark = match (board.is_done, board.is_cut()) {
                        (true, _) => ", cut ✓",
                        (false, true) => " ✓",
                        (false, false) => "",
                    };
                    let mut text = RichText::new(format!("{}{mark}", board.name));
                    if number == self.board {
                        text = text.family(theme::strong());
                    }
                    let on = number == self.board;
                    let button =
                        egui::Button::new(text).frame_when_inactive(false).selected(on);
                    if ui.add(button).clicked() {
                        picked = Some(number);
                    }
                }
            });
        });
        if let Some(picked) = picked {
            self.put_in_front(picked, 0);
        }
    }
}

/// How many sheets, the bound in plain words, and what could not be done.
fn heading(ui: &mut Ui, board: &BoardPlan, faults: &[String], searching: bool) {
    let palette = theme::palette(ui);
    ui.horizontal_wrapped(|ui| {
        let words = board.counts().to_string();
        ui.label(RichText::new(words).family(theme::strong()).size(theme::HEADING));
        ui.label(quiet(ui, &board.bound()));
        if board.patterned {
            ui.label(quiet(ui, "Patterned: it runs along the height, no piece is turned."));
        }
        if searching {
            ui.label(quiet(ui, "Still looking."));
        }
    });
    for fault in faults {
        let words = format!("Do not cut by this plan, it does not check: {fault}");
        ui.label(RichText::new(words).color(palette.fault));
    }
    for complaint in &board.complaints {
        ui.label(RichText::new(wording::set(complaint)).color(palette.caution));
    }
}

/// What a screen reader says of a sheet.
fn said(board: &BoardPlan, pattern: &Pattern, title: &str, unit: Unit) -> String {
    let stock = &board.problem.stocks[pattern.stock];
    let mut words = format!(
        "{title}, {} by {}",
        board.length(stock.width).text(unit),
        board.length(stock.height).text(unit)
    );
    for placed in &pattern.placements {
        let piece = &board.problem.pieces[placed.piece];
        let (width, height) = (board.length(placed.width), board.length(placed.height));
        let size = [width.text(unit), height.text(unit)].join(" by ");
        words.push_str(&["; ", &piece.name, ", ", &size].concat());
    }
    words
}

/// A sheet in the row of small ones; whether it was pressed.
fn small(
    ui: &mut Ui,
    board: &BoardPlan,
    pattern: &Pattern,
    number: usize,
    (title, front): (&str, bool),
) -> bool {
    let palette = theme::palette(ui);
    let stock = &board.problem.stocks[pattern.stock];
    let (rect, response) = ui.allocate_exact_size(vec2(96.0, SMALL - 8.0), Sense::click());
    let painter = ui.painter();
    let edge = if front || response.has_focus() {
        Stroke::new(1.5, palette.accent)
    } else if response.hovered() {
        Stroke::new(1.0, palette.quiet)
    } else {
        Stroke::new(1.0, palette.line)
    };
    painter.rect(rect, 4.0, palette.panel, edge, StrokeKind::Inside);
    let view = View::new(
        Rect::from_min_max(rect.min + vec2(6.0, 6.0), rect.max - vec2(6.0, 22.0)),
        (stock.width, stock.height),
    );
    painter.rect_filled(view.rect(0, 0, stock.width, stock.height), 0.0, palette.hover);
    for placed in &pattern.placements {
        let piece = view.rect(placed.x, placed.y, placed.width, placed.height);
        let face = face(painter, board);
        let line = Stroke::new(1.0, theme::read_on(face));
        painter.rect(piece, 0.0, face, line, StrokeKind::Inside);
    }
    let cut = board.cut.get(number).copied().unwrap_or(0);
    let mark = if cut >= pattern.copies { " ✓" } else { "" };
    let letter = title.split(':').next().unwrap_or_default();
    let word = if board.is_drop_out(pattern) { "drop-out " } else { "" };
    let alike = match pattern.copies {
        0 | 1 => String::new(),
        copies => format!(" · {copies} alike"),
    };
    painter.text(
        rect.center_bottom() - vec2(0.0, 11.0),
        Align2::CENTER_CENTER,
        format!("{word}{letter}{alike}{mark}"),
        FontId::proportional(theme::SMALL),
        palette.text,
    );
    response.widget_info(|| {
        egui::WidgetInfo::selected(egui::Role::RadioButton, true, front, title)
    });
    response.clicked()
}
