//! Lines, words and zones: what is drawn over the board, as sharp as the screen allows.

use egui::{Color32, Pos2, Shape, Stroke, pos2, vec2};
use sightedge_core::drawing::{
    Align, Baseline, Dimension, Line, Measure, Pen, Text, TextRole, Zone, ZoneKind,
};

use super::Brush;
use crate::window::canvas::lens::mm;

impl Brush<'_> {
    pub(super) fn zone(&mut self, zone: &Zone) {
        let tint = match zone.kind {
            ZoneKind::Overlap => self.inks.hidden.gamma_multiply(0.28),
            ZoneKind::HiddenImage => self.inks.hidden.gamma_multiply(0.5),
        };
        self.flush();
        let points: Vec<Pos2> = zone.path.points.iter().map(|p| self.lens.screen(*p)).collect();
        if points.len() == 4 {
            self.painter.add(Shape::convex_polygon(points, tint, Stroke::NONE));
        } else {
            // A frame-shaped zone: its outline alone tells it.
            self.painter.add(Shape::closed_line(points, Stroke::new(1.0, tint)));
        }
    }

    fn snapped(&self, at: Pos2) -> Pos2 {
        let half = |value: f32| ((value * self.ppp).floor() + 0.5) / self.ppp;
        pos2(half(at.x), half(at.y))
    }

    pub(super) fn line(&mut self, line: &Line) {
        self.flush();
        let mut points: Vec<Pos2> =
            line.points.iter().map(|p| self.snapped(self.lens.screen(*p))).collect();
        if line.closed
            && let Some(first) = points.first().copied()
        {
            points.push(first);
        }
        let thin = 1.0 / self.ppp;
        match line.pen {
            Pen::Hidden => {
                let stroke = Stroke::new(thin.max(1.0), self.inks.hidden);
                self.painter.extend(Shape::dashed_line(&points, stroke, 6.0, 4.0));
            }
            Pen::Fine => {
                self.painter.add(Shape::line(points, Stroke::new(thin, self.inks.line)));
            }
            Pen::Edge => {
                self.painter
                    .add(Shape::line(points, Stroke::new(thin.max(1.0), self.inks.line)));
            }
            Pen::Section => {
                self.painter.add(Shape::line(points, Stroke::new(1.6, self.inks.line)));
            }
        }
    }

    pub(super) fn text(&mut self, text: &Text, ink: Color32) {
        self.flush();
        let size = mm(text.height) * self.lens.scale;
        let font = egui::FontId::proportional(match text.role {
            TextRole::Figure | TextRole::Label => size.clamp(9.0, 18.0),
            // True to the board, whether or not it can be read from here.
            TextRole::Hand => size.clamp(2.0, 400.0),
        });
        let words = match text.role {
            TextRole::Hand => text.text.clone(),
            TextRole::Figure | TextRole::Label => sightedge_service::wording::set(&text.text),
        };
        let galley = self.painter.layout_no_wrap(words, font, ink);
        let (long, high) = (galley.size().x, galley.size().y);
        let at = self.lens.screen(text.at);
        let along = match text.align {
            Align::Start => 0.0,
            Align::Middle => long / 2.0,
            Align::End => long,
        };
        let rise = match text.baseline {
            Baseline::On => high,
            Baseline::Beside => high / 2.0,
        };
        let (corner, angle) = if text.turned {
            (at + vec2(-rise, along), -std::f32::consts::FRAC_PI_2)
        } else {
            (at - vec2(along, rise), 0.0)
        };
        let whole = |value: f32| (value * self.ppp).round() / self.ppp;
        let corner = pos2(whole(corner.x), whole(corner.y));
        let mut shape = egui::epaint::TextShape::new(corner, galley, ink);
        shape.angle = angle;
        self.painter.add(shape);
    }

    pub(super) fn dimension(&mut self, dimension: &Dimension) {
        self.flush();
        let ink = match dimension.measure {
            Measure::Border(..) => self.inks.board,
            _ => self.inks.line,
        };
        let stroke = Stroke::new(1.0 / self.ppp.max(1.0), ink);
        for [from, to] in dimension.strokes() {
            let (from, to) =
                (self.snapped(self.lens.screen(from)), self.snapped(self.lens.screen(to)));
            self.painter.line_segment([from, to], stroke);
        }
        self.text(&dimension.figure, ink);
    }
}
