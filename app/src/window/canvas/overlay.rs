//! What lies over the board: dimensions, hidden edges, the value beside the pointer, the place
//! of a finding, the magnified corner.

use egui::{Align2, Color32, FontId, Painter, Rect, Stroke, StrokeKind, Ui, vec2};
use sightedge_core::drawing::{Drawing, Item};
use sightedge_core::finding::Place;
use sightedge_core::geometry::{Path, Rect as BoardRect, Side};
use sightedge_core::length::{Length, parse};
use sightedge_core::material::Colour;
use sightedge_core::plates;
use sightedge_core::spec::Front;

use super::Shows;
use super::drag::Drag;
use super::edges::{edge_of, grip};
use super::finding_label::for_keyboard;
use super::grips::label;
use super::lens::Lens;
use super::paint::{self, Inks};
use crate::window::handle::{Handle, HandleContext};
use crate::window::session::PlanSession;
use crate::window::theme;
use sightedge_service::wording;

/// Text of figures on the board, in points.
pub(super) const FIGURE: f32 = 12.0;

/// Inks that are read on a surround of this grey.
pub(crate) fn inks(surround: u8, board: Option<Colour>) -> Inks {
    let surround = Color32::from_gray(surround);
    let board = board
        .map_or(surround, |Colour { red, green, blue }| Color32::from_rgb(red, green, blue));
    let (line, hidden) = (theme::read_on(surround), theme::seen_on(board));
    Inks { line, board: theme::read_on(board), hidden }
}

/// Dimension lines and the outline of what is hidden.
pub(super) fn plates(
    painter: &Painter,
    lens: Lens,
    cx: HandleContext<'_>,
    shows: Shows,
    inks: Inks,
) {
    let none = |_| Vec::new();
    if shows.hidden {
        let drawing = plates::hidden(&cx.layout.exact);
        paint::paint(painter, lens, &drawing, inks, None, &none);
    }
    if shows.dimensions {
        let height = lens.length(FIGURE);
        let unit = cx.document.unit;
        // As it is cut, so that these are the figures of the list for the bench.
        let drawing = plates::dimensions_on_screen(&cx.layout.bench, unit, height);
        // Lines that begin on the board and end beside it are read on both.
        let board = lens.screen_rect(BoardRect::at_origin(cx.layout.exact.outer));
        let room = painter.clip_rect();
        let on_board = Inks { line: inks.board, ..inks };
        let strips = [
            (board.intersect(room), on_board),
            (room.with_max_y(board.top()), inks),
            (room.with_min_y(board.bottom()), inks),
            (board.with_min_x(room.left()).with_max_x(board.left()).intersect(room), inks),
            (board.with_max_x(room.right()).with_min_x(board.right()).intersect(room), inks),
        ];
        for (strip, inks) in strips.into_iter().filter(|(strip, _)| strip.is_positive()) {
            let painter = painter.with_clip_rect(strip);
            paint::paint(&painter, lens, &drawing, inks, None, &none);
        }
    }
}

/// What is written on the front: in pencil on the paper, or on the mat.
pub(super) fn writing(painter: &Painter, lens: Lens, session: &PlanSession, inks: Inks) {
    let wanted = session.document().inscribed.as_ref();
    let (Some(wanted), Some(made)) = (wanted, &session.derived().inscription) else { return };
    let line = match wanted.lettering.front {
        Front::Mat => inks.board,
        // Paper is white, or nearly.
        Front::Margin | Front::Nothing => Color32::from_gray(72),
    };
    let items = plates::inscription::on_front(made);
    let drawing = Drawing { items, ..Drawing::default() };
    paint::paint(painter, lens, &drawing, Inks { line, ..inks }, None, &|_| Vec::new());
}

/// Marks what can be dragged: a thin line, and a square where it has the focus.
pub(super) fn approach(ui: &Ui, edge: Rect, handle: Handle, focused: bool) {
    let painter = ui.painter();
    let width = if focused { 2.0 } else { 1.0 };
    match handle {
        Handle::Window(_) | Handle::Sheet(_) => mark_round(painter, edge, width),
        _ => mark_along(painter, [edge.min, edge.max], width),
    }
    if focused {
        let mark = Rect::from_center_size(edge.center(), vec2(8.0, 8.0));
        let [line, edges] = theme::MARK;
        painter.rect(mark, 2.0, edges, Stroke::new(2.0, line), StrokeKind::Middle);
    }
}

/// A line that is seen on any board and picture: light edges, a dark middle.
fn mark_along(painter: &Painter, ends: [egui::Pos2; 2], width: f32) {
    let [line, edges] = theme::MARK;
    painter.line_segment(ends, Stroke::new(width + 2.0, edges));
    painter.line_segment(ends, Stroke::new(width, line));
}

/// The same round a rectangle.
fn mark_round(painter: &Painter, rect: Rect, width: f32) {
    let [line, edges] = theme::MARK;
    painter.rect_stroke(rect, 0.0, Stroke::new(width + 2.0, edges), StrokeKind::Middle);
    painter.rect_stroke(rect, 0.0, Stroke::new(width, line), StrokeKind::Middle);
}

/// The place a finding points at.
pub(super) fn place(painter: &Painter, lens: Lens, cx: HandleContext<'_>, place: Place) {
    let exact = &cx.layout.exact;
    let window = place.opening.and_then(|id| exact.opening(id)).or(exact.openings.first());
    let rect = match (window, place.layer) {
        (Some(window), Some(layer)) => window
            .layers
            .iter()
            .find(|cut| cut.layer == layer)
            .map_or(window.sight, |cut| cut.sight.bounds),
        (Some(window), None) if place.opening.is_some() => window.sight,
        _ => BoardRect::at_origin(exact.outer),
    };
    let rect = lens.screen_rect(rect);
    match place.side {
        None => mark_round(painter, rect, 3.0),
        Some(side) => {
            let (from, to) = match side {
                Side::Top => (rect.left_top(), rect.right_top()),
                Side::Right => (rect.right_top(), rect.right_bottom()),
                Side::Bottom => (rect.left_bottom(), rect.right_bottom()),
                Side::Left => (rect.left_top(), rect.left_bottom()),
            };
            mark_along(painter, [from, to], 3.0);
        }
    }
}

/// The value beside the pointer, and the line of the stop it rests at.
pub(super) fn riding(
    ui: &Ui,
    painter: &Painter,
    lens: Lens,
    cx: HandleContext<'_>,
    drag: &Drag,
) {
    let handle = drag.handle();
    let unit = cx.document.unit;
    let (across, down) = handle.moves(cx);
    let mut lines = Vec::new();
    match (across && down, handle) {
        (true, Handle::Window(_)) => {
            for side in [Side::Left, Side::Right, Side::Top, Side::Bottom] {
                lines.push(border(cx, side));
            }
        }
        (false, Handle::Window(_)) => {
            lines.extend([border(cx, Side::Top), border(cx, Side::Bottom)]);
        }
        (true, _) => {
            for (across, name) in [(true, "Overlap, left"), (false, "Overlap, top")] {
                if let Some(value) = handle.value(cx, across) {
                    lines.push(format!("{name}  {}", wording::length(value, unit)));
                }
            }
        }
        (false, _) => lines.extend(handle.readout(cx, drag.tie())),
    }
    if let Some(edge) = edge_of(handle, cx, lens) {
        mark_along(painter, [edge.min, edge.max], 1.5);
    }
    let sight = cx.layout.exact.openings.first().map(|window| lens.screen_rect(window.sight));
    for (across, rest) in &drag.rests {
        lines.push(rest.name.clone());
        // A short line says that it rests, where what is moved rests and not the pointer.
        let along = if *across { vec2(0.0, 28.0) } else { vec2(28.0, 0.0) };
        let on = match handle {
            Handle::Window(_) => sight.map(|sight| sight.center()),
            Handle::Sheet(id) => {
                cx.layout.exact.opening(id).map(|w| lens.screen_rect(w.sheet).center())
            }
            _ => edge_of(handle, cx, lens).map(|edge| edge.center()),
        };
        if let Some(on) = on {
            let at =
                if *across { egui::pos2(on.x, drag.at.y) } else { egui::pos2(drag.at.x, on.y) };
            mark_along(painter, [at - along, at + along], 2.0);
        }
    }
    label(ui, painter, drag.at, &lines.join("\n"));
}

/// A border of the board, in words.
fn border(cx: HandleContext<'_>, side: Side) -> String {
    let exact = &cx.layout.exact;
    let tops = exact.openings.iter().filter_map(|window| window.top());
    let tops = tops.map(|cut| cut.borders).reduce(|one, other| one.zip(other, Length::min));
    let width = tops.unwrap_or_default().of(side);
    let name = match side {
        Side::Top => "Top border",
        Side::Right => "Right border",
        Side::Bottom => "Bottom border",
        Side::Left => "Left border",
    };
    format!("{name}  {}", wording::length(width, cx.document.unit))
}

/// What is typed for the selected handle.
pub(super) fn typing(
    ui: &Ui,
    painter: &Painter,
    lens: Lens,
    cx: HandleContext<'_>,
    handle: Handle,
    typed: &str,
) {
    let Some(rect) = grip(handle, cx, lens) else { return };
    let unit = cx.document.unit;
    let name = handle.name(cx);
    let hint = match parse(typed, unit) {
        Ok(length) => {
            let keys = for_keyboard(ui.ctx(), handle.typing(cx));
            format!("= {}, {keys}", wording::length(length, unit))
        }
        Err(error) => error.to_string(),
    };
    label(ui, painter, rect.center(), &format!("{name}  {typed}|\n{hint}"));
}

/// Why there is no picture, and a button to show where it is.
pub(super) fn trouble(ui: &mut Ui, words: &str) -> bool {
    let palette = theme::palette(ui);
    let room = ui.min_rect();
    let width = (room.width() - 80.0).clamp(160.0, 420.0);
    let area = Align2::CENTER_CENTER.align_size_within_rect(vec2(width, 120.0), room);
    let mut pressed = false;
    ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        egui::Frame::new()
            .fill(palette.panel)
            .stroke(Stroke::new(1.0, palette.fault))
            .corner_radius(6.0)
            .inner_margin(12.0)
            .show(ui, |ui| {
                ui.label(words);
                pressed = ui.button("Show where it is…").clicked();
            });
    });
    pressed
}

/// Where the magnified corner is shown.
pub(super) fn corner_rect(room: Rect) -> Rect {
    let size = vec2((room.width() * 0.6).min(460.0), (room.height() * 0.3).min(220.0));
    Rect::from_min_size(room.left_bottom() + vec2(12.0, -size.y - 12.0), size)
}

/// The magnified corner: a section through the left side of the window.
pub(super) fn corner(ui: &Ui, room: Rect, cx: HandleContext<'_>, shows: Shows, inks: Inks) {
    let rect = corner_rect(room);
    let palette = theme::PAPER;
    let painter = ui.painter_at(rect);
    painter.rect(rect, 6.0, palette.panel, Stroke::new(1.0, palette.line), StrokeKind::Inside);
    painter.text(
        rect.left_top() + vec2(12.0, 10.0),
        Align2::LEFT_TOP,
        "Section through the left edge of the window",
        FontId::proportional(theme::SMALL),
        palette.quiet,
    );
    let Some(window) = cx.layout.exact.openings.first() else { return };
    let inside = rect.shrink2(vec2(12.0, 8.0)).with_min_y(rect.top() + 30.0);
    let inks = Inks { line: palette.text, board: palette.text, ..inks };
    // Letters keep their size on the screen, so the scale is found in a few rounds.
    let mut height = Length::mm(2);
    let mut last = None;
    for _ in 0..4 {
        let mut drawing = plates::section(
            &cx.variant.mat,
            &cx.layout.exact,
            window.id,
            Side::Left,
            &plates::Look::default(),
            cx.document.unit,
            height,
        );
        shorten(&mut drawing);
        let lens = Lens::fit(drawing.bounds, inside);
        height = lens.length(11.0);
        last = Some((drawing, lens));
    }
    if let Some((drawing, lens)) = last {
        paint::paint(&painter, lens, &drawing, inks, shows.vision, &|_| Vec::new());
    }
}

/// Names of parts without those of their boards, and the drawing no larger than what is left.
fn shorten(drawing: &mut Drawing) {
    let mut bounds: Option<BoardRect> = None;
    let mut take = |rect: BoardRect| {
        bounds = Some(bounds.map_or(rect, |all| {
            let out = all.within(rect).map(|inside| inside.max(Length::ZERO));
            all.outset(out)
        }));
    };
    for item in &mut drawing.items {
        match item {
            Item::Text(text) => {
                if let Some((part, _)) = text.text.split_once(':') {
                    text.text = part.to_owned();
                }
                take(text.bounds());
            }
            Item::Fill(fill) => take(fill.path.bounds()),
            Item::Line(line) => {
                take(Path { points: line.points.clone() }.bounds());
            }
            Item::Dimension(dimension) => {
                for stroke in dimension.strokes() {
                    take(Path { points: stroke.to_vec() }.bounds());
                }
                take(dimension.figure.bounds());
            }
            _ => {}
        }
    }
    drawing.bounds = bounds.unwrap_or(drawing.bounds);
}
