//! Small pictures of the words of the job: a few shapes, what is meant in the accent.

use egui::{Pos2, Rect, Response, Sense, Shape, Stroke, StrokeKind, Ui, Vec2, pos2, vec2};

use crate::window::theme;

/// The size of a picture, in points. Its shapes lie within.
pub const SIZE: Vec2 = vec2(104.0, 64.0);

/// What a shape is made of.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Shade {
    /// The face of a board.
    Board,
    /// An undermat, or a board behind.
    Under,
    /// The print's paper.
    Paper,
    /// The printed image.
    Image,
    /// A frame.
    Wood,
    /// Glazing.
    Glass,
    /// What is meant.
    Lit,
}

/// A part of a picture, in points from its top left corner.
#[derive(Clone, Copy, Debug)]
pub enum Part {
    /// A rectangle: left, top, right, bottom.
    Block(Shade, [f32; 4]),
    /// A shape of four corners.
    Shape4(Shade, [(f32, f32); 4]),
    /// A line.
    Line(Shade, (f32, f32), (f32, f32)),
    /// A measured distance, marked at its ends.
    Span((f32, f32), (f32, f32)),
    /// A few letters about a point.
    Text((f32, f32), &'static str),
}

/// Paints a picture; boards and paper keep their colours in the dark theme too.
pub fn show(ui: &mut Ui, parts: &[Part]) -> Response {
    let (rect, response) = ui.allocate_exact_size(SIZE, Sense::hover());
    let paper = theme::PAPER;
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    let ground = egui::Color32::from_gray(224);
    painter.rect(rect, 4.0, ground, Stroke::new(1.0, paper.line), StrokeKind::Inside);
    let at = |(x, y): (f32, f32)| rect.min + vec2(x, y);
    let fine = Stroke::new(1.0, egui::Color32::from_gray(96));
    for part in parts {
        match *part {
            Part::Block(shade, [left, top, right, bottom]) => {
                let block = Rect::from_min_max(at((left, top)), at((right, bottom)));
                let edge = if shade == Shade::Lit { Stroke::NONE } else { fine };
                painter.rect(block, 0.0, shade.fill(), edge, StrokeKind::Inside);
            }
            Part::Shape4(shade, corners) => {
                let edge = if shade == Shade::Lit { Stroke::NONE } else { fine };
                let corners = corners.map(at).to_vec();
                painter.add(Shape::convex_polygon(corners, shade.fill(), edge));
            }
            Part::Line(shade, from, to) => {
                let wide = if shade == Shade::Lit { 2.5 } else { 1.5 };
                painter.line_segment([at(from), at(to)], Stroke::new(wide, shade.fill()));
            }
            Part::Span(from, to) => span(&painter, at(from), at(to)),
            Part::Text(middle, words) => {
                let font = egui::FontId::new(11.0, theme::strong());
                painter.text(at(middle), egui::Align2::CENTER_CENTER, words, font, paper.text);
            }
        }
    }
    response
}

fn span(painter: &egui::Painter, from: Pos2, to: Pos2) {
    let stroke = Stroke::new(2.0, theme::PAPER.accent);
    painter.line_segment([from, to], stroke);
    let along = (to - from).normalized();
    let across = vec2(-along.y, along.x) * 4.0;
    for end in [from, to] {
        let end = pos2(end.x, end.y);
        painter.line_segment([end - across, end + across], stroke);
    }
}

impl Shade {
    fn fill(self) -> egui::Color32 {
        use egui::Color32;
        match self {
            Self::Board => Color32::from_gray(250),
            Self::Under => Color32::from_gray(190),
            Self::Paper => Color32::from_gray(255),
            Self::Image => Color32::from_gray(120),
            Self::Wood => Color32::from_gray(84),
            Self::Glass => Color32::from_gray(206),
            Self::Lit => theme::PAPER.accent,
        }
    }
}
