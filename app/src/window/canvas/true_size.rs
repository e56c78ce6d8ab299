//! What goes with true size: a rule along the lower edge, and a magnifier.

use egui::{Align2, FontId, Rect, Stroke, StrokeKind, Ui, pos2, vec2};
use sightedge_core::drawing::Drawing;
use sightedge_core::geometry::Point;
use sightedge_core::length::Length;
use sightedge_pictures::colour::Vision;

use super::lens::Lens;
use super::paint::{self, Inks};
use crate::window::display::Display;
use crate::window::handle::HandleContext;
use crate::window::textures::Shown;
use crate::window::theme;

/// How high the rule is, in points.
const HIGH: f32 = 40.0;
/// How many times larger than it is the magnifier shows the board.
const TIMES: f32 = 4.0;
/// A side of the magnifier, in points.
const SIDE: f32 = 220.0;
/// Millimetres to the inch.
const INCH: f32 = 25.4;

/// A rule in both units along the lower edge of `room`, its zero at the board's left edge; gives
/// the room above it.
pub(super) fn rule(ui: &Ui, room: Rect, lens: Lens) -> Rect {
    let palette = theme::palette(ui);
    let strip = room.with_min_y((room.bottom() - HIGH).max(room.top()));
    let painter = ui.painter_at(strip);
    painter.rect_filled(strip, 0.0, palette.panel);
    painter.hline(strip.x_range(), strip.top(), Stroke::new(1.0, palette.line));
    let ppp = ui.pixels_per_point();
    let font = FontId::proportional(theme::SMALL);
    // On whole pixels, a pixel wide: what is laid against the screen is read to a pixel.
    let tick = |at: f32, from: f32, to: f32| {
        let left = (at * ppp).round() / ppp;
        let line = Rect::from_min_max(pos2(left, from), pos2(left + 1.0 / ppp, to));
        painter.rect_filled(line, 0.0, palette.text);
    };
    // Its units, and what it measures from, over its ends.
    let plate = |align: Align2, words: &str| {
        let text = painter.layout_no_wrap(words.to_owned(), font.clone(), palette.quiet);
        let plate = align.align_size_within_rect(text.size() + vec2(16.0, 4.0), strip);
        painter.galley(plate.min + vec2(8.0, 2.0), text, palette.quiet);
        plate
    };
    let units = plate(Align2::LEFT_CENTER, "mm\nin");
    let from = plate(Align2::RIGHT_CENTER, "from the board’s left\nedge, from the front");
    let figure = |at: egui::Pos2, align: Align2, value: i32| {
        let text = value.to_string().replace('-', "−");
        let text = painter.layout_no_wrap(text, font.clone(), palette.text);
        let rect = align.anchor_size(at, text.size());
        if !rect.intersects(units) && !rect.intersects(from) {
            painter.galley(rect.min, text, palette.text);
        }
    };
    let zero = lens.origin.x;
    let (top, bottom) = (strip.top(), strip.bottom());
    let marks = |step: f32, mark: &dyn Fn(i32, f32)| {
        // As far as the strip goes, and a little more: a figure's middle may lie beside it.
        let first = ((strip.left() - zero) / step).floor() - 1.0;
        let last = ((strip.right() - zero) / step).ceil() + 1.0;
        for index in whole(first.max(-FAR))..=whole(last.min(FAR)) {
            mark(index, zero + real(index) * step);
        }
    };
    let mm = lens.scale;
    // Marks closer than this run into one another.
    let finest = if mm >= 2.5 { 1 } else { 5 };
    marks(mm * real(finest), &|index, at| {
        let index = index * finest;
        let deep = match index {
            _ if index % 10 == 0 => 9.0,
            _ if index % 5 == 0 => 7.0,
            _ => 4.0,
        };
        tick(at, top, top + deep);
    });
    let tens = if mm * 10.0 >= 28.0 { 10 } else { 50 };
    marks(mm * real(tens), &|index, at| {
        figure(pos2(at, top + 8.0), Align2::CENTER_TOP, index * tens);
    });
    let parts = if mm * INCH / 16.0 >= 3.0 { 16 } else { 8 };
    marks(mm * INCH / real(parts), &|index, at| {
        let deep = match index {
            _ if index % parts == 0 => 9.0,
            _ if index % (parts / 2) == 0 => 7.0,
            _ if index % (parts / 4) == 0 => 5.0,
            _ => 3.0,
        };
        tick(at, bottom - deep, bottom);
    });
    marks(mm * INCH, &|index, at| {
        figure(pos2(at + 3.0, bottom - 4.0), Align2::LEFT_BOTTOM, index);
    });
    room.with_max_y(strip.top())
}

/// So many marks at most to each side of the zero.
const FAR: f32 = 20_000.0;

/// What the magnifier looks at.
#[derive(Clone, Copy)]
pub(super) struct Glass<'a> {
    pub(super) lens: Lens,
    pub(super) drawing: &'a Drawing,
    pub(super) inks: Inks,
    pub(super) vision: Option<Vision>,
}

/// What is under the pointer at four times its true size, in the upper right corner of `room`;
/// while the pointer is elsewhere, the upper left corner of the window.
pub(super) fn magnifier(
    ui: &Ui,
    room: Rect,
    cx: HandleContext<'_>,
    glass: Glass<'_>,
    pictures: &[Shown],
) {
    let Some(mm) = Display::of(ui.ctx()).points_per_mm(ui.pixels_per_point()) else { return };
    let side = SIDE.min(room.width() / 2.0).min(room.height() / 2.0);
    let rect =
        Rect::from_min_size(room.right_top() + vec2(-side - 12.0, 12.0), vec2(side, side));
    let hand = ui.input(|input| input.pointer.hover_pos());
    let corner = cx.layout.exact.openings.first().and_then(|window| window.top());
    let corner =
        corner.map_or(Point::new(Length::ZERO, Length::ZERO), |top| top.sight.bounds.at);
    let at = hand.filter(|at| room.contains(*at) && !rect.contains(*at));
    let at = at.map_or(corner, |at| glass.lens.board(at));
    let lens = Lens { origin: pos2(0.0, 0.0), scale: mm * TIMES };
    let lens = lens.with(at, rect.center()).on_pixels(ui.pixels_per_point());
    let palette = theme::palette(ui);
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, 0.0, palette.hover);
    let seen = |_| pictures.to_vec();
    paint::paint(&painter, lens, glass.drawing, glass.inks, glass.vision, &seen);
    let font = FontId::proportional(theme::SMALL);
    let words = painter.layout_no_wrap("4 times true size".to_owned(), font, palette.text);
    let plate = Rect::from_min_size(rect.min, words.size() + vec2(12.0, 6.0));
    painter.rect_filled(plate, 0.0, palette.panel);
    painter.galley(plate.min + vec2(6.0, 3.0), words, palette.text);
    let line = Stroke::new(1.0, palette.text);
    painter.rect_stroke(rect, 0.0, line, StrokeKind::Inside);
}

#[expect(clippy::as_conversions, clippy::cast_possible_truncation, reason = "held within FAR")]
fn whole(value: f32) -> i32 {
    value as i32
}

#[expect(clippy::as_conversions, clippy::cast_precision_loss, reason = "a count of marks")]
fn real(count: i32) -> f32 {
    count as f32
}
