//! Sheets drawn to scale: pieces with their names, cuts in their order, what is left.

use egui::{
    Align2, Color32, FontId, Painter, Pos2, Rect, RichText, ScrollArea, Sense, Stroke,
    StrokeKind, Ui, pos2, vec2,
};
use sightedge_cutting::{Pattern, Supply};

use super::{Hall, Sheets};
use crate::action::{Action, Deed};
use crate::cutting::kept::BoardPlan;
use crate::cutting::{narrower, order};
use crate::panels::Asks;
use crate::theme::{self, Palette};
use crate::widgets::{fitted, quiet};
use crate::wording;
use sightedge_core::length::{Length, Unit};

/// Height of the row of small sheets.
const SMALL: f32 = 92.0;

impl Sheets {
    pub(super) fn drawn(&mut self, ui: &mut Ui, hall: Hall<'_>, asks: &mut Asks) {
        self.tabs(ui);
        let Some(cutting) = &self.cutting else { return };
        let unit = cutting.unit();
        let Some(board) = cutting.boards.get(self.board) else {
            ui.label("Nothing is to be cut: none of the plans has a board.");
            return;
        };
        heading(ui, board, &self.faults, self.search.is_some());
        if self.is_stale(hall) {
            ui.label(quiet(
                ui,
                "The plans have changed since these sheets were found: find them again.",
            ));
        }
        self.offered(ui, hall, asks);
        let Some(cutting) = &self.cutting else { return };
        let Some(board) = cutting.boards.get(self.board) else { return };
        let patterns = board.plan.patterns.len();
        let Some(pattern) = board.plan.patterns.get(self.pattern) else { return };
        let room = ui.available_size();
        let below = if patterns > 1 { SMALL + 12.0 } else { 0.0 };
        let size = vec2(room.x, (room.y - below).max(120.0));
        let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
        let label = said(board, pattern, self.pattern, unit);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &label));
        let sheet = Large { board, pattern, unit, palette: theme::palette(ui) };
        sheet.paint(ui, rect);
        if patterns > 1 {
            ui.add_space(4.0);
            let mut picked = None;
            ScrollArea::horizontal().auto_shrink([false, true]).show(ui, |ui| {
                ui.horizontal(|ui| {
                    for (number, pattern) in board.plan.patterns.iter().enumerate() {
                        let front = number == self.pattern;
                        if small(ui, board, pattern, number, front) {
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
                    let mark = if board.is_cut() { " ✓" } else { "" };
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

    /// Borders that might give a little to save a sheet.
    fn offered(&mut self, ui: &mut Ui, hall: Hall<'_>, asks: &mut Asks) {
        let Some(asked) = &self.asked else { return };
        if self.is_stale(hall) {
            return;
        }
        for offer in &self.offers {
            ui.horizontal_wrapped(|ui| {
                let plan = offer.plan.and_then(|at| asked.get(at));
                let unit = plan.or(asked.first()).map_or(Unit::Inch, |(_, d, _)| d.unit);
                let who = plan.map_or("all mats", |(title, _, _)| title);
                let by = wording::length(offer.by, unit);
                let saved = match offer.sheets {
                    0 if offer.priced => format!("saves {}", super::fields::coins(offer.cost)),
                    0 => "lets smaller sheets do".to_owned(),
                    1 => "saves a sheet".to_owned(),
                    n => format!("saves {n} sheets"),
                };
                ui.label(format!(
                    "Borders {by} narrower on {} {saved}.",
                    fitted(ui, who, 140.0)
                ));
                let Some((title, _, _)) = plan else { return };
                let Some(wanted) = self.wanted.iter().find(|wanted| wanted.title == *title)
                else {
                    return;
                };
                let front = hall.front.and_then(|front| hall.desks.get(front));
                match (wanted.desk, front) {
                    (Some(id), Some((front, desk))) if id == *front => {
                        let hint = "Narrows each border of this plan; undo gives it back";
                        if ui.button("Narrow its borders").on_hover_text(hint).clicked()
                            && let Some(command) = narrower::change(desk.kept(), offer.by)
                        {
                            asks.actions.push(Action::Run(command));
                        }
                    }
                    (Some(_), _) => {
                        ui.label(quiet(ui, "Bring its plan to the front to narrow it."));
                    }
                    (None, _) => {
                        if ui.button("Open its plan").clicked() {
                            let path = wanted.path.clone();
                            asks.actions.push(Action::Do(Deed::OpenPath(path)));
                        }
                    }
                }
            });
        }
    }
}

/// How many sheets, the bound in plain words, and what could not be done.
fn heading(ui: &mut Ui, board: &BoardPlan, faults: &[String], searching: bool) {
    let sheets = board.sheets();
    let palette = theme::palette(ui);
    ui.horizontal_wrapped(|ui| {
        let words = if sheets == 1 { "1 sheet".to_owned() } else { format!("{sheets} sheets") };
        ui.label(RichText::new(words).family(theme::strong()).size(theme::HEADING));
        ui.label(quiet(ui, &board.bound()));
        if searching {
            ui.label(quiet(ui, "Still looking."));
        }
    });
    for fault in faults {
        let words = format!("Do not cut by this plan, it does not check: {fault}");
        ui.label(RichText::new(words).color(palette.stop));
    }
    for complaint in &board.complaints {
        ui.label(RichText::new(wording::set(complaint)).color(palette.caution));
    }
}

/// What a screen reader says of a sheet.
fn said(board: &BoardPlan, pattern: &Pattern, number: usize, unit: Unit) -> String {
    let stock = &board.problem.stocks[pattern.stock];
    let mut words = format!(
        "Sheet {}, {} by {}",
        number + 1,
        board.length(stock.width).text(unit),
        board.length(stock.height).text(unit)
    );
    for placed in &pattern.placements {
        let piece = &board.problem.pieces[placed.piece];
        words.push_str(&format!(
            "; {}, {} by {}",
            piece.name,
            board.length(placed.width).text(unit),
            board.length(placed.height).text(unit)
        ));
    }
    words
}

/// A sheet in the row of small ones; whether it was pressed.
fn small(
    ui: &mut Ui,
    board: &BoardPlan,
    pattern: &Pattern,
    number: usize,
    front: bool,
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
        let line = Stroke::new(1.0, palette.quiet);
        painter.rect(piece, 0.0, palette.field, line, StrokeKind::Inside);
    }
    let cut = board.cut.get(number).copied().unwrap_or(0);
    let mark = if cut >= pattern.copies { " ✓" } else { "" };
    let alike = if pattern.copies > 1 {
        format!(" · {} alike", pattern.copies)
    } else {
        String::new()
    };
    painter.text(
        rect.center_bottom() - vec2(0.0, 11.0),
        Align2::CENTER_CENTER,
        format!("{}{alike}{mark}", number + 1),
        FontId::proportional(theme::SMALL),
        palette.text,
    );
    let label = format!("Sheet {}{alike}", number + 1);
    response.widget_info(|| {
        egui::WidgetInfo::selected(egui::Role::RadioButton, true, front, &label)
    });
    response.clicked()
}

/// From the sheet's own places, counted from below, to the screen's.
#[derive(Clone, Copy)]
struct View {
    left: f32,
    bottom: f32,
    scale: f32,
}

impl View {
    fn new(room: Rect, (width, height): (i64, i64)) -> Self {
        let scale = (room.width() / real(width)).min(room.height() / real(height));
        let size = vec2(real(width) * scale, real(height) * scale);
        let rect = Align2::CENTER_CENTER.align_size_within_rect(size, room);
        Self { left: rect.left(), bottom: rect.bottom(), scale }
    }

    fn at(self, x: i64, y: i64) -> Pos2 {
        pos2(self.left + real(x) * self.scale, self.bottom - real(y) * self.scale)
    }

    fn rect(self, x: i64, y: i64, width: i64, height: i64) -> Rect {
        Rect::from_two_pos(self.at(x, y), self.at(x + width, y + height))
    }
}

#[expect(clippy::as_conversions, clippy::cast_precision_loss, reason = "places on the screen")]
fn real(units: i64) -> f32 {
    units.max(1) as f32
}

struct Large<'a> {
    board: &'a BoardPlan,
    pattern: &'a Pattern,
    unit: Unit,
    palette: Palette,
}

impl Large<'_> {
    fn text(&self, units: i64) -> String {
        wording::number(self.board.length(units), self.unit)
    }

    fn paint(&self, ui: &Ui, rect: Rect) {
        let Self { board, pattern, palette, .. } = self;
        let stock = &board.problem.stocks[pattern.stock];
        // Room for the measures of the sheet and the numbers of the cuts.
        let room = Rect::from_min_max(rect.min + vec2(48.0, 28.0), rect.max - vec2(28.0, 32.0));
        let view = View::new(room, (stock.width, stock.height));
        let painter = ui.painter_at(rect);
        let sheet = view.rect(0, 0, stock.width, stock.height);
        painter.rect(
            sheet,
            0.0,
            palette.hover,
            Stroke::new(1.0, palette.quiet),
            StrokeKind::Outside,
        );
        let small = FontId::proportional(theme::SMALL);
        painter.text(
            sheet.center_bottom() + vec2(0.0, 16.0),
            Align2::CENTER_CENTER,
            format!("{} {}", self.text(stock.width), self.unit.sign()),
            small.clone(),
            palette.quiet,
        );
        painter.text(
            sheet.left_center() - vec2(10.0, 0.0),
            Align2::RIGHT_CENTER,
            self.text(stock.height),
            small,
            palette.quiet,
        );
        for rest in order::rests(pattern) {
            let place = view.rect(rest.x, rest.y, rest.width, rest.height);
            hatch(&painter, place, palette.line);
            let size = format!("{} × {}", self.text(rest.width), self.text(rest.height));
            // A number cut short would be another number.
            if fitted(ui, &size, place.width() - 12.0) == size {
                let lines = ["left".to_owned(), size];
                self.label(ui, &painter, place, &lines, palette.quiet);
            }
        }
        for placed in &pattern.placements {
            let place = view.rect(placed.x, placed.y, placed.width, placed.height);
            let line = Stroke::new(1.0, palette.text);
            painter.rect(place, 0.0, palette.field, line, StrokeKind::Inside);
            self.drop_out(&painter, view, placed.piece, place);
            let piece = &board.problem.pieces[placed.piece];
            let turned = if placed.turned { ", turned" } else { "" };
            let size =
                format!("{} × {}{turned}", self.text(placed.width), self.text(placed.height));
            let (picture, layer) =
                piece.name.rsplit_once(", ").unwrap_or((piece.name.as_str(), ""));
            let lines = [picture.to_owned(), layer.to_owned(), size];
            self.label(ui, &painter, place, &lines, palette.text);
        }
        for (number, step) in (1..).zip(order::steps(pattern)) {
            let (from, to) = (view.at(step.from.0, step.from.1), view.at(step.to.0, step.to.1));
            let width = if step.stage == 1 { 2.0 } else { 1.25 };
            painter.line_segment([from, to], Stroke::new(width, palette.accent));
            self.number(&painter, number, from, to);
        }
    }

    /// A cut's number in a small disc on its line, near its beginning.
    fn number(&self, painter: &Painter, number: usize, from: Pos2, to: Pos2) {
        let along = to - from;
        let at = from + along.normalized() * (along.length() * 0.5).min(18.0);
        painter.circle_filled(at, 8.5, self.palette.accent);
        painter.text(
            at,
            Align2::CENTER_CENTER,
            number.to_string(),
            FontId::new(10.0, theme::strong()),
            self.palette.on_accent,
        );
    }

    /// The window that falls from a piece, where what falls is cut up.
    fn drop_out(&self, painter: &Painter, view: View, piece: usize, place: Rect) {
        for stock in &self.board.problem.stocks {
            let Supply::Window { piece: of, .. } = stock.supply else { continue };
            if of != piece {
                continue;
            }
            let mut size = vec2(real(stock.width), real(stock.height)) * view.scale;
            if size.x > place.width() || size.y > place.height() {
                size = vec2(size.y, size.x);
            }
            let window = Rect::from_center_size(place.center(), size);
            let corners = [
                window.left_top(),
                window.right_top(),
                window.right_bottom(),
                window.left_bottom(),
                window.left_top(),
            ];
            let line = Stroke::new(1.0, self.palette.quiet);
            painter.extend(egui::Shape::dashed_line(&corners, line, 4.0, 3.0));
        }
    }

    /// Lines of text in the middle of a place; as many as have room.
    fn label(&self, ui: &Ui, painter: &Painter, place: Rect, lines: &[String], ink: Color32) {
        let each = 16.0;
        let room = place.shrink(6.0);
        let lines: Vec<&String> = lines.iter().filter(|line| !line.is_empty()).collect();
        let mut many = 0;
        while many < lines.len() && each * real_count(many + 1) <= room.height() {
            many += 1;
        }
        if room.width() < 28.0 {
            return;
        }
        let mut y = room.center().y - each * real_count(many) / 2.0 + each / 2.0;
        for line in lines.into_iter().take(many) {
            let text = fitted(ui, line, room.width());
            let font = FontId::proportional(theme::SMALL);
            painter.text(pos2(room.center().x, y), Align2::CENTER_CENTER, text, font, ink);
            y += each;
        }
    }
}

fn real_count(count: usize) -> f32 {
    f32::from(u8::try_from(count).unwrap_or(u8::MAX))
}

/// Slanting lines over what is left.
fn hatch(painter: &Painter, place: Rect, ink: Color32) {
    let painter = painter.with_clip_rect(place.intersect(painter.clip_rect()));
    let mut x = place.left() - place.height();
    while x < place.right() {
        let from = pos2(x, place.bottom());
        let to = pos2(x + place.height(), place.top());
        painter.line_segment([from, to], Stroke::new(1.0, ink));
        x += 10.0;
    }
}

/// A length of a board in the plan's unit.
pub(super) fn length(board: &BoardPlan, units: i64, unit: Unit) -> String {
    let length: Length = board.length(units);
    wording::length(length, unit)
}
