//! One sheet drawn to scale: pieces with their names, cuts in their order, what is left.

use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Stroke, StrokeKind, Ui, pos2, vec2};
use sightedge_core::geometry::Size;
use sightedge_core::length::Unit;
use sightedge_cutting::{Becomes, Cut, NamedPiece, Pattern, Placement, Sequence, Step};

use super::marks::{hatch, label};
use crate::window::display;
use crate::window::theme::{self, Palette};
use crate::window::widgets::fitted;
use sightedge_service::cutting::model::BoardPlan;
use sightedge_service::wording;

/// From the sheet's own places, counted from below, to the screen's.
#[derive(Clone, Copy)]
pub(super) struct View {
    left: f32,
    bottom: f32,
    scale: f32,
}

impl View {
    pub(super) fn new(room: Rect, (width, height): (i64, i64)) -> Self {
        let scale =
            (room.width() / real(width.max(1))).min(room.height() / real(height.max(1)));
        let size = vec2(real(width) * scale, real(height) * scale);
        let rect = Align2::CENTER_CENTER.align_size_within_rect(size, room);
        Self { left: rect.left(), bottom: rect.bottom(), scale }
    }

    fn at(self, x: i64, y: i64) -> Pos2 {
        self.place(real(x), real(y))
    }

    /// A place that need not be whole.
    fn place(self, x: f32, y: f32) -> Pos2 {
        pos2(self.left + x * self.scale, self.bottom - y * self.scale)
    }

    pub(super) fn rect(self, x: i64, y: i64, width: i64, height: i64) -> Rect {
        Rect::from_two_pos(self.at(x, y), self.at(x + width, y + height))
    }
}

#[expect(clippy::as_conversions, clippy::cast_precision_loss, reason = "places on the screen")]
fn real(units: i64) -> f32 {
    units as f32
}

/// A board's own colour, as this monitor shows it.
pub(super) fn face(painter: &Painter, board: &BoardPlan) -> Color32 {
    let (red, green, blue) = board.colour;
    display::colour(painter.ctx(), [red, green, blue])
}

/// One sheet, as large as there is room.
pub(super) struct Large<'a> {
    pub(super) board: &'a BoardPlan,
    pub(super) pattern: &'a Pattern,
    /// Its cuts one after another.
    pub(super) sequence: &'a Sequence,
    /// The one that is shown on its piece.
    pub(super) step: usize,
    pub(super) unit: Unit,
    pub(super) palette: Palette,
}

impl Large<'_> {
    fn text(&self, units: i64) -> String {
        wording::number(self.board.length(units), self.unit)
    }

    pub(super) fn paint(&self, ui: &Ui, rect: Rect) {
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
        for placed in &pattern.placements {
            let place = view.rect(placed.x, placed.y, placed.width, placed.height);
            // A board keeps its own colour, in the dark theme, too.
            let face = face(&painter, board);
            let line = Stroke::new(1.0, theme::read_on(face));
            painter.rect(place, 0.0, face, line, StrokeKind::Inside);
            self.windows(&painter, view, placed);
        }
        for named in &self.sequence.pieces {
            self.named(ui, &painter, view, named);
        }
        if let Some(step) = self.sequence.cuts.get(self.step) {
            self.veil(&painter, sheet, self.place(view, step.of));
        }
        let ends = |step: &Step| [step.from, step.to].map(|(across, up)| view.at(across, up));
        for step in &self.sequence.cuts {
            let width = if step.stage == 1 { 2.0 } else { 1.25 };
            painter.line_segment(ends(step), Stroke::new(width, palette.accent));
        }
        let front = self.sequence.cuts.get(self.step);
        if let Some(step) = front {
            self.shown(&painter, view, step);
        }
        for (number, step) in (1..).zip(&self.sequence.cuts) {
            let [from, to] = ends(step);
            self.number(&painter, number, from, to);
        }
        // Nothing lies over the stop.
        if let Some(step) = front {
            self.stop(ui, &painter, view, step);
        }
    }

    fn place(&self, view: View, at: usize) -> Rect {
        let NamedPiece { x, y, width, height, .. } = self.sequence.pieces[at];
        view.rect(x, y, width, height)
    }

    /// A piece that is cut no further: its name, what it is and its size.
    fn named(&self, ui: &Ui, painter: &Painter, view: View, named: &NamedPiece) {
        let (board, palette) = (self.board, self.palette);
        let place = view.rect(named.x, named.y, named.width, named.height);
        let [width, height] = [named.width, named.height].map(|side| board.length(side));
        let mut size =
            Size::new(width, height).sides_text(|side| wording::number(side, self.unit));
        match named.becomes {
            Becomes::Cut => {}
            Becomes::Rest => {
                hatch(painter, place, palette.line);
                // A number cut short would be another number.
                if fitted(ui, &size, place.width() - 12.0) == size {
                    let lines = [format!("{}, left over", named.name), size];
                    label(ui, painter, place, &lines, (palette.quiet, None));
                }
            }
            Becomes::Piece { piece, turned } => {
                let turned_size = format!("{size}, turned");
                let room = place.width() - 12.0;
                if turned && fitted(ui, &turned_size, room) == turned_size {
                    size = turned_size;
                }
                // A number cut short would be another number.
                if fitted(ui, &size, room) != size {
                    size.clear();
                }
                let name = &board.problem.pieces[piece].name;
                let (picture, layer) = name.rsplit_once(", ").unwrap_or((name.as_str(), ""));
                let lines = [named.name.clone(), picture.to_owned(), layer.to_owned(), size];
                label(ui, painter, place, &lines, (palette.text, Some(palette.field)));
            }
        }
    }

    /// Puts back all but the piece that is cut.
    fn veil(&self, painter: &Painter, sheet: Rect, piece: Rect) {
        let veil = self.palette.panel.gamma_multiply(0.6);
        let rows = [
            Rect::from_min_max(sheet.min, pos2(sheet.right(), piece.top())),
            Rect::from_min_max(pos2(sheet.left(), piece.bottom()), sheet.max),
            Rect::from_min_max(pos2(sheet.left(), piece.top()), piece.left_bottom()),
            Rect::from_min_max(piece.right_top(), pos2(sheet.right(), piece.bottom())),
        ];
        for rect in rows.into_iter().filter(Rect::is_positive) {
            painter.rect_filled(rect, 0.0, veil);
        }
    }

    /// The cut in front, on its piece: the piece's outline, and its edge at the stop as a bar.
    fn shown(&self, painter: &Painter, view: View, step: &Step) {
        let (palette, piece) = (self.palette, self.place(view, step.of));
        let accent = |width| Stroke::new(width, palette.accent);
        painter.rect_stroke(piece, 0.0, accent(2.0), StrokeKind::Outside);
        let (from, to) = (view.at(step.from.0, step.from.1), view.at(step.to.0, step.to.1));
        painter.line_segment([from, to], accent(3.0));
        // The bar lies outside the piece, as the stop does.
        let bar = match step.cut {
            Cut::Upright => {
                Rect::from_min_max(piece.left_top() - vec2(7.0, 0.0), piece.left_bottom())
            }
            Cut::Level => {
                Rect::from_min_max(piece.left_bottom(), piece.right_bottom() + vec2(0.0, 7.0))
            }
        };
        painter.rect_filled(bar, 0.0, palette.accent);
    }

    /// How far it is from the edge at the stop to the cut in front.
    fn stop(&self, ui: &Ui, painter: &Painter, view: View, step: &Step) {
        let (palette, piece) = (self.palette, self.place(view, step.of));
        let accent = |width| Stroke::new(width, palette.accent);
        let at = view.at(step.from.0, step.from.1);
        let (start, end) = match step.cut {
            Cut::Upright => {
                let y = piece.top() + (piece.height() * 0.5).min(28.0);
                (pos2(piece.left(), y), pos2(at.x, y))
            }
            Cut::Level => {
                let x = piece.right() - (piece.width() * 0.5).min(48.0);
                (pos2(x, piece.bottom()), pos2(x, at.y))
            }
        };
        painter.line_segment([start, end], accent(1.5));
        let tick = if step.cut == Cut::Upright { vec2(0.0, 5.0) } else { vec2(5.0, 0.0) };
        for at in [start, end] {
            painter.line_segment([at - tick, at + tick], accent(1.5));
        }
        let name = &self.sequence.pieces[step.of].name;
        let words = format!("{name}: stop {} {}", self.text(step.stop), self.unit.sign());
        let font = FontId::new(theme::SMALL, theme::strong());
        let text = painter.layout_no_wrap(words, font, palette.on_accent);
        let size = text.size() + vec2(10.0, 4.0);
        // Within what is drawn, wherever the piece lies.
        let mut chip = Rect::from_center_size(start + (end - start) * 0.5, size);
        let room = ui.clip_rect();
        chip = chip.translate(vec2(
            (room.left() - chip.left()).max(0.0) - (chip.right() - room.right()).max(0.0),
            0.0,
        ));
        painter.rect_filled(chip, 3.0, palette.accent);
        painter.galley(chip.min + vec2(5.0, 2.0), text, palette.on_accent);
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

    /// The windows of a piece, dashed; darker where what falls from them is cut up.
    fn windows(&self, painter: &Painter, view: View, placed: &Placement) {
        let used = self.board.gives_drop_outs(placed.piece);
        let ink = theme::read_on(face(painter, self.board));
        let ink = if used { ink } else { ink.gamma_multiply(0.7) };
        let step = self.board.length(1).to_mm();
        for window in self.board.windows(placed) {
            let [x, y, w, h] = window.map(|length| narrow(length.to_mm() / step));
            let window = Rect::from_two_pos(view.place(x, y), view.place(x + w, y + h));
            let corners = [
                window.left_top(),
                window.right_top(),
                window.right_bottom(),
                window.left_bottom(),
                window.left_top(),
            ];
            let line = Stroke::new(1.0, ink);
            painter.extend(egui::Shape::dashed_line(&corners, line, 4.0, 3.0));
        }
    }
}

#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    reason = "places on the screen"
)]
fn narrow(place: f64) -> f32 {
    place as f32
}
