//! A drawing's items as marks on a page, at a scale.

use std::collections::BTreeMap;

use sightedge_core::drawing::{
    Align, Baseline, Board, Drawing, Item, Line, Moulding, Pen, Shade, Text, TextRole, Tone,
};
use sightedge_core::geometry::{Path, Point, Rect, Side, Sides};
use sightedge_core::length::{Length, typeset};
use sightedge_core::spec::WorkId;

use crate::page::Mark;
use crate::words::{BODY, POINT, Style};

/// Strips in a shade.
const STRIPS: i64 = 4;
/// The least band of a moulding, in millimetres on paper.
const BAND: f64 = 0.25;
/// How far a fill goes on below the one that meets it, in millimetres on paper.
const LAP: f64 = 0.2;
/// Room at both ends of a text that lines break for.
const BREAK: f64 = 0.5;

/// How large a drawing is: so many on paper for so many of the thing.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Scale {
    pub(crate) paper: i64,
    pub(crate) thing: i64,
}

impl Scale {
    /// True to size.
    pub(crate) const TRUE: Self = Self { paper: 1, thing: 1 };

    /// Scales of a picture, which nobody measures.
    pub(crate) const ANY: [i64; 17] =
        [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 14, 16, 20, 50, 100];

    /// Scales that rules have, the largest first; beyond 1:10 those of ISO 5455 alone.
    pub(crate) const SMALLER: [i64; 9] = [1, 2, 4, 5, 8, 10, 20, 50, 100];

    /// One so many times smaller than the thing.
    pub(crate) const fn smaller(thing: i64) -> Self {
        Self { paper: 1, thing }
    }

    pub(crate) fn mm(self, length: Length) -> f64 {
        fine(length.scaled(self.paper.into(), self.thing.into()).to_mm())
    }

    /// A length on the thing that is so long on paper.
    pub(crate) fn on_thing(self, mm: f64) -> Length {
        Length::from_mm_nearest(mm).scaled(self.thing.into(), self.paper.into())
    }

    pub(crate) fn name(self) -> String {
        format!("{}:{}", self.paper, self.thing)
    }
}

/// To the nearest nanometre, so that a number is short.
pub(crate) fn fine(mm: f64) -> f64 {
    (mm * 1e6).round() / 1e6
}

/// How marks are made of items.
#[derive(Debug)]
pub(crate) struct Marks<'a> {
    pub(crate) scale: Scale,
    /// What lies at the drawing's upper left corner.
    pub(crate) corner: Point,
    /// The files of the pictures.
    pub(crate) pictures: &'a BTreeMap<WorkId, String>,
    /// Whether light and shade may be painted, which needs transparency.
    pub(crate) shades: bool,
    /// Whether lines break behind texts, as on a workshop drawing.
    pub(crate) breaks: bool,
}

/// No picture in a drawing.
static NO_PICTURES: BTreeMap<WorkId, String> = BTreeMap::new();

impl Marks<'static> {
    /// For a drawing of lines and texts alone.
    pub(crate) fn plain(drawing: &Drawing, scale: Scale, breaks: bool) -> Self {
        let (corner, pictures) = (drawing.bounds.at, &NO_PICTURES);
        Self { scale, corner, pictures, shades: false, breaks }
    }
}

impl Marks<'_> {
    /// Every item of `drawing`.
    pub(crate) fn of(&self, drawing: &Drawing) -> Vec<Mark> {
        let mut marks = Vec::with_capacity(drawing.items.len() * 2);
        let mut texts = Vec::new();
        for item in &drawing.items {
            self.item(item, &mut marks, &mut texts);
        }
        if self.breaks {
            marks.extend(texts.iter().filter_map(ground));
        }
        marks.extend(texts);
        marks
    }

    fn item(&self, item: &Item, marks: &mut Vec<Mark>, texts: &mut Vec<Mark>) {
        match item {
            Item::Fill(fill) => marks.push(self.fill(&fill.path, fill.tone)),
            Item::Picture(picture) => {
                let [x, y, w, h] = self.rect(picture.image);
                let clip = self.rect(picture.clip);
                match self.pictures.get(&picture.work) {
                    Some(src) => {
                        marks.push(Mark::Picture { src: src.clone(), x, y, w, h, clip });
                    }
                    None => marks.push(self.fill(&picture.clip.path(), Tone::grey(0.55))),
                }
            }
            Item::Board(board) => self.board(board, marks),
            Item::Moulding(moulding) => self.moulding(moulding, marks),
            Item::Shade(shade) if self.shades => self.shade(shade, marks),
            // A shadow on the ground is for the screen; what is hidden is drawn as lines.
            Item::Shade(_) | Item::Shadow(_) | Item::Zone(_) => {}
            Item::Line(line) => marks.push(self.line(line)),
            Item::Text(text) => texts.push(self.text(text)),
            Item::Dimension(dimension) => {
                for stroke in dimension.strokes() {
                    let p = stroke.map(|point| self.point(point)).to_vec();
                    marks.push(Mark::Line { p, closed: false, pen: "fine" });
                }
                texts.push(self.text(&dimension.figure));
            }
        }
    }

    pub(crate) fn point(&self, point: Point) -> [f64; 2] {
        let Point { x, y } = self.corner;
        [self.scale.mm(point.x - x), self.scale.mm(point.y - y)]
    }

    fn rect(&self, rect: Rect) -> [f64; 4] {
        let [x, y] = self.point(rect.at);
        [x, y, self.scale.mm(rect.size.width), self.scale.mm(rect.size.height)]
    }

    fn points(&self, points: &[Point]) -> Vec<[f64; 2]> {
        points.iter().map(|point| self.point(*point)).collect()
    }

    fn fill(&self, path: &Path, tone: Tone) -> Mark {
        Mark::Fill { p: self.points(&path.points), c: tone.colour().hex() }
    }

    fn line(&self, line: &Line) -> Mark {
        Mark::Line { p: self.points(&line.points), closed: line.closed, pen: pen(line.pen) }
    }

    /// A board is painted in one piece, its bevels below it a little larger than they are: no
    /// viewer shows a hairline where two fills meet.
    fn board(&self, board: &Board, marks: &mut Vec<Mark>) {
        let more = Sides::all(self.scale.on_thing(LAP));
        for window in &board.windows {
            if let Some(bevel) = window.bevels.first() {
                let p = self.points(&window.face.bounds().outset(more).path().points);
                let holes = vec![self.points(&window.sight.points)];
                marks.push(Mark::Ring { p, holes, c: bevel.tone.colour().hex() });
            }
            for bevel in &window.bevels {
                let path = Path { points: bevel.corners.to_vec() };
                marks.push(self.fill(&path, bevel.tone));
            }
        }
        let p = self.points(&board.outline.points);
        let holes =
            board.windows.iter().map(|window| self.points(&window.face.points)).collect();
        marks.push(Mark::Ring { p: p.clone(), holes, c: board.tone.colour().hex() });
        marks.push(Mark::Line { p, closed: true, pen: "outline" });
    }

    /// A moulding in bands that lie on each other, each going on below the next: no seam shows.
    fn moulding(&self, moulding: &Moulding, marks: &mut Vec<Mark>) {
        let Some(first) = moulding.stops.first() else { return };
        let points = |rect: Rect| self.points(&rect.path().points);
        // Below the mitres, where two fills meet.
        let p = points(moulding.outer);
        let holes = vec![points(moulding.opening())];
        let c = first.tones.of(Side::Left).colour().hex();
        marks.push(Mark::Ring { p: p.clone(), holes, c });
        let mut from = Length::ZERO;
        while from < moulding.face {
            // A band is no narrower than a printer shows.
            let to = (from + self.scale.on_thing(BAND)).min(moulding.face);
            let middle = from + (to - from).halves().0;
            for side in Side::ALL {
                let path = Path { points: moulding.side(side, from, moulding.face).to_vec() };
                marks.push(self.fill(&path, moulding.tone(side, middle.to_mm())));
            }
            from = to;
        }
        for edge in [moulding.outer, moulding.opening()] {
            marks.push(Mark::Line { p: points(edge), closed: true, pen: "outline" });
        }
    }

    /// A shade in strips that lie on each other, so that no seam shows between them: on paper it
    /// is half a millimetre wide, and a gradient would take more room in a file than all the
    /// figures.
    fn shade(&self, shade: &Shade, marks: &mut Vec<Mark>) {
        let edge = shade.edge;
        for (side, band) in shade.bands.each() {
            let reach = band.reach.min(edge.size.short());
            // A faint one is not seen at this size.
            if !reach.is_positive() || band.strength < 0.2 {
                continue;
            }
            // What shows through so far, from the innermost strip outwards.
            let mut through = 1.0;
            for n in (0..STRIPS).rev() {
                let from = reach.scaled(n.into(), STRIPS.into());
                let to = reach.scaled((n + 1).into(), STRIPS.into());
                let mut rect = edge;
                match side {
                    Side::Top | Side::Bottom => rect.size.height = to,
                    Side::Left | Side::Right => rect.size.width = to,
                }
                match side {
                    Side::Top | Side::Left => {}
                    Side::Bottom => rect.at.y = edge.bottom() - to,
                    Side::Right => rect.at.x = edge.right() - to,
                }
                // Light lost is linear; what is laid over is in sRGB.
                let middle = from + (to - from).halves().0;
                let light = f64::from(band.light(middle.to_mm())).clamp(0.0, 1.0);
                let wanted: f64 = light.powf(1.0 / 2.4);
                let dark = (100.0 * (1.0 - wanted / through)).round() / 100.0;
                if dark > 0.0 {
                    let [x, y, w, h] = self.rect(rect);
                    marks.push(Mark::Shade { x, y, w, h, dark });
                    through *= 1.0 - dark;
                }
            }
        }
    }

    fn text(&self, text: &Text) -> Mark {
        // What is written by hand stands as it is written: 3/25 is no fraction.
        let s = match text.role {
            TextRole::Hand => text.text.clone(),
            TextRole::Figure | TextRole::Label => typeset(&text.text),
        };
        let height = self.scale.mm(text.height);
        // A line is as high as its letters and the room between two of them.
        let size = height * 0.84 * 72.0 / 25.4;
        let style = Style { size, ..BODY };
        let w = style.width(&s);
        let [x, y] = self.point(text.at);
        let start = match text.align {
            Align::Start => 0.0,
            Align::Middle => -w / 2.0,
            Align::End => -w,
        };
        // Capitals are 0.727 of the size high in this face.
        let fall = match text.baseline {
            Baseline::On => -height * 0.1,
            Baseline::Beside => height * 0.84 * 0.727 / 2.0,
        };
        let [x, y] = if text.turned { [x + fall, y - start] } else { [x + start, y + fall] };
        let [x, y, w, size] = [x, y, w, size].map(fine);
        let label = text.role == TextRole::Label;
        Mark::Text { x, y, w, s, size, turned: text.turned, label }
    }
}

/// The white behind a text that lines break for.
fn ground(mark: &Mark) -> Option<Mark> {
    let Mark::Text { x, y, w, size, turned, .. } = mark else { return None };
    // Round capitals and descenders, in sizes of the letters.
    let [above, below] = [0.96, 0.3].map(|part| part * size * POINT);
    let [left, top, right, bottom] = if *turned {
        [x - above, y - w - BREAK, x + below, y + BREAK]
    } else {
        [x - BREAK, y - above, x + w + BREAK, y + below]
    };
    let p = vec![[left, top], [right, top], [right, bottom], [left, bottom]];
    Some(Mark::Fill { p, c: "#ffffff".to_owned() })
}

/// What a template calls a pen.
pub(crate) const fn pen(pen: Pen) -> &'static str {
    match pen {
        Pen::Edge => "edge",
        Pen::Hidden => "hidden",
        Pen::Section => "section",
        Pen::Fine => "fine",
    }
}
