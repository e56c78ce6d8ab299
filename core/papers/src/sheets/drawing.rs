//! A sheet to scale: its pieces, what is left of it, its cuts with their numbers.

use crate::CutSheet;
use crate::page::{Mark, count};
use crate::words::{SMALL, STRONG, Style};

/// The height of a line in a drawing, for text of [`SMALL`]'s size.
const LINE: f64 = 3.1;

/// A sheet to scale.
pub(super) struct Drawing<'a> {
    pub(super) sheet: &'a CutSheet,
    pub(super) scale: f64,
}

impl Drawing<'_> {
    /// For who cannot see it.
    pub(super) fn alt(&self) -> String {
        let pieces: Vec<String> =
            self.sheet.pieces.iter().map(|(_, lines)| lines.join(" ")).collect();
        format!("{}: {}", self.sheet.about, pieces.join("; "))
    }

    /// From the lower left corner of the sheet to the drawing's upper left one.
    fn at(&self, x: f64, y: f64) -> [f64; 2] {
        [x * self.scale, (self.sheet.size[1] - y) * self.scale]
    }

    fn outline(&self, [x, y, w, h]: [f64; 4]) -> Vec<[f64; 2]> {
        [(x, y), (x + w, y), (x + w, y + h), (x, y + h)].map(|(x, y)| self.at(x, y)).to_vec()
    }

    pub(super) fn marks(&self) -> Vec<Mark> {
        let [wide, high] = self.sheet.size;
        let mut marks = Vec::new();
        for (place, lines) in &self.sheet.rests {
            marks.push(Mark::Fill { p: self.outline(*place), c: "#ececec".to_owned() });
            self.words(*place, lines, true, &mut marks);
        }
        for (place, _) in &self.sheet.pieces {
            marks.push(Mark::Line { p: self.outline(*place), closed: true, pen: "fine" });
        }
        for window in &self.sheet.windows {
            marks.push(Mark::Line { p: self.outline(*window), closed: true, pen: "hidden" });
        }
        for (place, lines) in &self.sheet.pieces {
            self.words(*place, lines, false, &mut marks);
        }
        let outline = self.outline([0.0, 0.0, wide, high]);
        marks.push(Mark::Line { p: outline, closed: true, pen: "edge" });
        for (number, [x, y, to_x, to_y]) in (1_usize..).zip(&self.sheet.cuts) {
            let (from, to) = (self.at(*x, *y), self.at(*to_x, *to_y));
            marks.push(Mark::Line { p: vec![from, to], closed: false, pen: "section" });
            let long = (to[0] - from[0]).hypot(to[1] - from[1]).max(1e-6);
            let part = (long * 0.5).min(5.0) / long;
            let [x, y] =
                [from[0] + (to[0] - from[0]) * part, from[1] + (to[1] - from[1]) * part];
            let (text, r) = (number.to_string(), 1.9);
            let p = (0..16).map(|n| {
                let (sin, cos) = (f64::from(n) * std::f64::consts::TAU / 16.0).sin_cos();
                [x + r * cos, y + r * sin]
            });
            marks.push(Mark::Fill { p: p.collect(), c: "#ffffff".to_owned() });
            marks.push(Mark::Circle { x, y, r });
            let wide = STRONG_SMALL.width(&text);
            marks.push(text_at(x - wide / 2.0, y + 0.85, &text, STRONG_SMALL, false));
        }
        marks
    }

    /// Lines in the middle of a place, as many as have room, none cut short.
    fn words(
        &self,
        [x, y, w, h]: [f64; 4],
        lines: &[String],
        quiet: bool,
        marks: &mut Vec<Mark>,
    ) {
        let room = [w * self.scale - 2.0, h * self.scale - 2.0];
        // A name or a number cut short would be another one: the first and the last line are
        // whole, or not there.
        let last = lines.len().saturating_sub(1);
        let lines: Vec<String> = lines
            .iter()
            .enumerate()
            .filter(|(at, line)| {
                let whole = !quiet && (*at == 0 || *at == last);
                !line.is_empty() && (!whole || SMALL.width(line) <= room[0])
            })
            .map(|(_, line)| if quiet { line.clone() } else { SMALL.shortened(line, room[0]) })
            .collect();
        if count(lines.len()) * LINE > room[1] {
            return;
        }
        // A number cut short would be another number.
        if quiet && lines.iter().any(|line| SMALL.width(line) > room[0]) {
            return;
        }
        let [middle_x, middle_y] = self.at(x + w / 2.0, y + h / 2.0);
        let mut at = middle_y - count(lines.len()) * LINE / 2.0 + 2.3;
        for line in lines {
            let wide = SMALL.width(&line);
            if !quiet {
                // A window's outline does not run through words.
                let (left, right) = (middle_x - wide / 2.0 - 0.5, middle_x + wide / 2.0 + 0.5);
                let (top, foot) = (at - 2.4, at - 2.4 + LINE);
                let ground = vec![[left, top], [right, top], [right, foot], [left, foot]];
                marks.push(Mark::Fill { p: ground, c: "#ffffff".to_owned() });
            }
            marks.push(text_at(middle_x - wide / 2.0, at, &line, SMALL, quiet));
            at += LINE;
        }
    }
}

/// The numbers of cuts.
const STRONG_SMALL: Style = Style { size: 6.5, ..STRONG };

fn text_at(x: f64, y: f64, text: &str, style: Style, label: bool) -> Mark {
    let (w, s) = (style.width(text), text.to_owned());
    Mark::Text { x, y, w, s, size: style.size, turned: false, label }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A piece keeps its name and its size where what stands between is too long for it; what is
    /// left of a sheet is named whole or not at all.
    #[test]
    fn what_is_too_long_is_shortened_in_pieces_alone() {
        let lines = ["Ebb", "a note that is far too long for a piece of this size", "16 × 20"];
        let lines = lines.map(str::to_owned).to_vec();
        let place = [0.0, 0.0, 40.0, 40.0];
        let sheet = |pieces, rests| CutSheet {
            name: String::new(),
            about: String::new(),
            size: [80.0, 80.0],
            pieces,
            windows: Vec::new(),
            rests,
            cuts: Vec::new(),
            first: None,
            lines: Vec::new(),
        };
        let texts = |sheet: &CutSheet| {
            let marks = Drawing { sheet, scale: 1.0 }.marks();
            let texts = marks.into_iter().filter_map(|mark| match mark {
                Mark::Text { s, .. } => Some(s),
                _ => None,
            });
            texts.collect::<Vec<_>>()
        };
        let piece = texts(&sheet(vec![(place, lines.clone())], Vec::new()));
        let [first, between, last] = piece.as_slice() else { panic!("{piece:?}") };
        assert_eq!((first, last), (&lines[0], &lines[2]));
        assert!(between.len() < lines[1].len() && between.starts_with("a note"), "{between}");
        assert_eq!(texts(&sheet(Vec::new(), vec![(place, lines)])), [""; 0]);
    }
}
