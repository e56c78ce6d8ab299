//! Small pictures for fields: a corner, a section, a hinge, a frame or a wall, with the measured
//! distance lit up. Schematic, not to scale.

use egui::{
    Align2, Color32, FontId, Painter, Pos2, Rect, Sense, Shape, Stroke, StrokeKind, Ui, Vec2,
    vec2,
};

use crate::window::theme::{self, Palette};

/// How large they are.
pub(super) const SIZE: Vec2 = vec2(152.0, 92.0);

/// What is lit up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Picture {
    /// From the sheet's edge to the image.
    Margin,
    /// From the image to the sight edge.
    Reveal,
    /// From the sheet's edge to the sight edge, under the mat.
    Overlap,
    /// From the board's edge to the top mat's sight edge.
    Border,
    /// From the top mat's sight edge to the undermat's.
    Offset,
    /// From the corner in: where glue may be.
    Glue,
    /// A board, from face to back.
    Thickness,
    /// The slope of the window's edge.
    Bevel,
    /// A hinge, across.
    TabWidth,
    /// A hinge, on the sheet's back.
    Hold,
    /// Between the sheet's edge and the cross-piece.
    HingeGap,
    /// What a hinge that lets the sheet move is longer by.
    HingeLonger,
    /// From the sheet's left edge to a hinge's middle.
    HingePlace,
    /// The tape between mat and backing, across.
    TapeWidth,
    /// Between mat and backing, both lying open.
    TapeGap,
    /// From the lip backwards.
    RabbetDepth,
    /// What reaches over the package.
    Lip,
    /// Between the rabbet's wall and the package.
    Allowance,
    /// Between glazing and mat.
    Spacer,
    /// From ring to ring.
    RingsApart,
    /// From the rings up to the wire where it hangs.
    Rise,
    /// From the frame's top down to the rings.
    RingsBelow,
    /// From hook to hook.
    HooksApart,
    /// From the floor to the picture's middle.
    Centre,
    /// The frame's own width.
    Outside,
}

/// Shows it.
pub(super) fn show(ui: &mut Ui, picture: Picture) {
    let (rect, _) = ui.allocate_exact_size(SIZE, Sense::hover());
    let palette = theme::palette(ui);
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, 4.0, palette.field);
    let pen = Pen { painter: &painter, origin: rect.min, palette };
    match picture {
        Picture::Margin
        | Picture::Reveal
        | Picture::Overlap
        | Picture::Border
        | Picture::Offset
        | Picture::Glue => corner(&pen, picture),
        Picture::Thickness | Picture::Bevel => section(&pen, picture),
        Picture::TabWidth
        | Picture::Hold
        | Picture::HingeGap
        | Picture::HingeLonger
        | Picture::HingePlace => hinges(&pen, picture),
        Picture::TapeWidth | Picture::TapeGap => tape(&pen, picture),
        Picture::RabbetDepth | Picture::Lip | Picture::Allowance | Picture::Spacer => {
            frame(&pen, picture);
        }
        Picture::RingsApart
        | Picture::Rise
        | Picture::RingsBelow
        | Picture::HooksApart
        | Picture::Centre
        | Picture::Outside => wall(&pen, picture),
    }
    painter.rect_stroke(rect, 4.0, Stroke::new(1.0, palette.line), StrokeKind::Inside);
}

struct Pen<'a> {
    painter: &'a Painter,
    origin: Pos2,
    palette: Palette,
}

impl Pen<'_> {
    fn at(&self, (x, y): (f32, f32)) -> Pos2 {
        self.origin + vec2(x, y)
    }

    fn thin(&self) -> Stroke {
        Stroke::new(1.0, self.palette.quiet)
    }

    fn block(&self, from: (f32, f32), to: (f32, f32), fill: Color32) {
        let rect = Rect::from_min_max(self.at(from), self.at(to));
        self.painter.rect(rect, 0.0, fill, self.thin(), StrokeKind::Middle);
    }

    fn line(&self, from: (f32, f32), to: (f32, f32)) {
        self.painter.line_segment([self.at(from), self.at(to)], self.thin());
    }

    fn dashed(&self, points: &[(f32, f32)]) {
        let points: Vec<Pos2> = points.iter().map(|point| self.at(*point)).collect();
        self.painter.extend(Shape::dashed_line(&points, self.thin(), 4.0, 3.0));
    }

    fn word(&self, at: (f32, f32), text: &str) {
        let font = FontId::proportional(10.5);
        self.painter.text(self.at(at), Align2::LEFT_CENTER, text, font, self.palette.quiet);
    }

    /// The measured distance, level or straight down, with an end mark at either side.
    fn lit(&self, from: (f32, f32), to: (f32, f32)) {
        let stroke = Stroke::new(2.5, self.palette.accent);
        let (from, to) = (self.at(from), self.at(to));
        let mark = if (from.y - to.y).abs() < 0.5 { vec2(0.0, 5.0) } else { vec2(5.0, 0.0) };
        self.painter.line_segment([from, to], stroke);
        for end in [from, to] {
            self.painter.line_segment([end - mark, end + mark], stroke);
        }
    }

    fn board(&self) -> Color32 {
        self.palette.hover
    }

    fn paper(&self) -> Color32 {
        self.palette.panel
    }

    fn image(&self) -> Color32 {
        self.palette.line
    }
}

/// The top left corner from the front.
fn corner(pen: &Pen<'_>, picture: Picture) {
    const END: (f32, f32) = (160.0, 100.0);
    if picture == Picture::Margin {
        pen.block((16.0, 12.0), END, pen.paper());
        pen.block((66.0, 46.0), END, pen.image());
        pen.word((22.0, 22.0), "sheet");
        pen.word((74.0, 58.0), "image");
        pen.lit((16.0, 74.0), (66.0, 74.0));
        pen.lit((112.0, 12.0), (112.0, 46.0));
        return;
    }
    pen.block((8.0, 8.0), END, pen.board());
    pen.block((62.0, 40.0), END, pen.board());
    pen.block((80.0, 52.0), END, pen.paper());
    pen.block((100.0, 66.0), END, pen.image());
    pen.dashed(&[(40.0, 100.0), (40.0, 26.0), (160.0, 26.0)]);
    pen.word((14.0, 17.0), "top mat");
    pen.word((108.0, 78.0), "image");
    match picture {
        Picture::Border => pen.lit((8.0, 62.0), (62.0, 62.0)),
        Picture::Offset => pen.lit((62.0, 72.0), (80.0, 72.0)),
        Picture::Reveal => pen.lit((80.0, 80.0), (100.0, 80.0)),
        Picture::Overlap => {
            pen.word((44.0, 33.0), "sheet");
            pen.lit((40.0, 66.0), (80.0, 66.0));
        }
        _ => {
            pen.painter.circle_filled(pen.at((22.0, 72.0)), 5.0, pen.palette.quiet);
            pen.lit((8.0, 84.0), (27.0, 84.0));
        }
    }
}

/// The window's edge, cut through.
fn section(pen: &Pen<'_>, picture: Picture) {
    let points = [(-4.0, 30.0), (84.0, 30.0), (106.0, 52.0), (-4.0, 52.0)];
    let points = points.map(|point| pen.at(point)).to_vec();
    pen.painter.add(Shape::convex_polygon(points, pen.board(), pen.thin()));
    pen.block((34.0, 52.0), (160.0, 57.0), pen.paper());
    pen.block((-4.0, 57.0), (160.0, 72.0), pen.board());
    pen.word((8.0, 20.0), "face");
    pen.word((108.0, 44.0), "sheet");
    pen.word((8.0, 80.0), "backing");
    if picture == Picture::Thickness {
        pen.lit((52.0, 30.0), (52.0, 52.0));
    } else {
        let stroke = Stroke::new(2.5, pen.palette.accent);
        pen.painter.line_segment([pen.at((84.0, 30.0)), pen.at((106.0, 52.0))], stroke);
        pen.painter.line_segment([pen.at((106.0, 52.0)), pen.at((74.0, 52.0))], stroke);
    }
}

/// The sheet's upper edge with two hinges, from the front, the mat lifted.
fn hinges(pen: &Pen<'_>, picture: Picture) {
    pen.block((10.0, 54.0), (160.0, 100.0), pen.paper());
    pen.word((14.0, 84.0), "sheet");
    for (x, top) in [(52.0, 24.0), (116.0, 10.0)] {
        pen.block((x - 13.0, top), (x + 13.0, 54.0), pen.board());
        pen.block((x - 24.0, top), (x + 24.0, top + 14.0), pen.board());
        pen.dashed(&[(x - 13.0, 54.0), (x - 13.0, 68.0), (x + 13.0, 68.0), (x + 13.0, 54.0)]);
    }
    match picture {
        Picture::TabWidth => pen.lit((39.0, 61.0), (65.0, 61.0)),
        Picture::Hold => pen.lit((52.0, 54.0), (52.0, 68.0)),
        Picture::HingeGap => pen.lit((52.0, 38.0), (52.0, 54.0)),
        Picture::HingeLonger => {
            pen.dashed(&[(76.0, 38.0), (148.0, 38.0)]);
            pen.lit((116.0, 24.0), (116.0, 38.0));
        }
        _ => pen.lit((10.0, 76.0), (52.0, 76.0)),
    }
}

/// Mat and backing lying open beside each other, the tape over the joint.
fn tape(pen: &Pen<'_>, picture: Picture) {
    pen.block((-4.0, 12.0), (70.0, 70.0), pen.board());
    pen.block((80.0, 12.0), (160.0, 70.0), pen.board());
    pen.word((8.0, 22.0), "mat, back");
    pen.word((104.0, 22.0), "backing");
    let rect = Rect::from_min_max(pen.at((56.0, 12.0)), pen.at((94.0, 70.0)));
    let fill = pen.palette.chosen.gamma_multiply(0.6);
    pen.painter.rect(rect, 0.0, fill, pen.thin(), StrokeKind::Middle);
    if picture == Picture::TapeWidth {
        pen.lit((56.0, 80.0), (94.0, 80.0));
    } else {
        pen.lit((70.0, 46.0), (80.0, 46.0));
    }
}

/// The frame's lower side, cut through: the front at the top.
fn frame(pen: &Pen<'_>, picture: Picture) {
    let wall = pen.image();
    pen.block((8.0, 22.0), (32.0, 82.0), wall);
    pen.block((8.0, 10.0), (56.0, 22.0), wall);
    let spaced = if picture == Picture::Spacer { 10.0 } else { 0.0 };
    pen.block((40.0, 22.0), (160.0, 28.0), pen.paper());
    if spaced > 0.0 {
        pen.block((40.0, 28.0), (50.0, 38.0), wall);
    }
    pen.block((40.0, 28.0 + spaced), (160.0, 36.0 + spaced), pen.board());
    pen.block((40.0, 36.0 + spaced), (160.0, 42.0 + spaced), pen.board());
    pen.block((40.0, 42.0 + spaced), (160.0, 54.0 + spaced), pen.paper());
    pen.word((62.0, 14.0), "front");
    match picture {
        Picture::RabbetDepth => {
            pen.dashed(&[(32.0, 82.0), (110.0, 82.0)]);
            pen.lit((104.0, 22.0), (104.0, 82.0));
        }
        Picture::Lip => pen.lit((32.0, 16.0), (56.0, 16.0)),
        Picture::Allowance => pen.lit((32.0, 62.0), (40.0, 62.0)),
        _ => pen.lit((96.0, 28.0), (96.0, 38.0)),
    }
}

/// The frame's back on the wall, with rings, wire and hooks.
fn wall(pen: &Pen<'_>, picture: Picture) {
    pen.block((28.0, 12.0), (116.0, 64.0), pen.board());
    pen.line((0.0, 86.0), (152.0, 86.0));
    pen.word((4.0, 78.0), "floor");
    let wire = [(46.0, 38.0), (60.0, 24.0), (84.0, 24.0), (98.0, 38.0)];
    let wire = wire.map(|point| pen.at(point)).to_vec();
    pen.painter.line(wire, pen.thin());
    for ring in [(46.0, 38.0), (98.0, 38.0)] {
        pen.painter.circle_stroke(pen.at(ring), 3.0, pen.thin());
    }
    for hook in [(60.0, 24.0), (84.0, 24.0)] {
        pen.painter.circle_filled(pen.at(hook), 2.5, pen.palette.text);
    }
    match picture {
        Picture::RingsApart => pen.lit((46.0, 46.0), (98.0, 46.0)),
        Picture::Rise => {
            pen.dashed(&[(46.0, 38.0), (98.0, 38.0)]);
            pen.lit((72.0, 24.0), (72.0, 38.0));
        }
        Picture::RingsBelow => pen.lit((38.0, 12.0), (38.0, 38.0)),
        Picture::HooksApart => pen.lit((60.0, 18.0), (84.0, 18.0)),
        Picture::Centre => {
            pen.dashed(&[(28.0, 38.0), (136.0, 38.0)]);
            pen.lit((130.0, 38.0), (130.0, 86.0));
        }
        _ => {
            pen.lit((28.0, 72.0), (116.0, 72.0));
            pen.lit((124.0, 12.0), (124.0, 64.0));
        }
    }
}
