use super::dimensioning::{Axis, Dimensioner, Span};
use super::*;
use crate::drawing::{
    Align, Board, Dimension, Drawing, Item, Measure, Pen, Shade, Text, TextRole, Tone,
};
use crate::geometry::{Point, Rect, Side, Sides, Size};
use crate::layout::{Figures, layout};
use crate::length::{Length, Unit};
use crate::sample::{inches, plain, reference, sides, size};
use crate::spec::{Angle, Bevel, BoardBy, Document, LayerId, OpeningId, Placement, WindowBy};

fn exact(document: &Document) -> Figures {
    layout(document, &document.variants[0].mat).exact
}

fn drawn(document: &Document) -> Drawing {
    front(&document.variants[0].mat, &exact(document), &Look::default())
}

fn boards(drawing: &Drawing) -> Vec<&Board> {
    let items = drawing.items.iter();
    items.filter_map(|item| if let Item::Board(it) = item { Some(it) } else { None }).collect()
}

fn shades(drawing: &Drawing) -> Vec<&Shade> {
    let items = drawing.items.iter();
    items.filter_map(|item| if let Item::Shade(it) = item { Some(it) } else { None }).collect()
}

fn dimensioned(drawing: &Drawing) -> Vec<&Dimension> {
    let items = drawing.items.iter();
    items
        .filter_map(|item| if let Item::Dimension(it) = item { Some(&**it) } else { None })
        .collect()
}

fn texts(drawing: &Drawing) -> Vec<&Text> {
    drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Text(text) => Some(text),
            Item::Dimension(one) => Some(&one.figure),
            _ => None,
        })
        .collect()
}

fn four_layers() -> Document {
    let mut document = reference();
    let mat = &mut document.variants[0].mat;
    for id in [3, 4] {
        let layer = crate::spec::Layer { id: LayerId(id), ..mat.layers[1].clone() };
        mat.layers.push(layer);
        mat.openings[0].offsets.insert(LayerId(id), sides("1/8"));
    }
    document
}

/// A sheet that floats with half an inch of its ground round it.
fn floated() -> Document {
    let mut document = plain("8x10");
    document.variants[0].mat.openings[0].window_by = WindowBy::Reveal(sides("1/2"));
    document
}

/// Source: the reference piece, worked out by hand (D).
#[test]
fn every_edge_is_where_the_layout_has_it() {
    let drawing = drawn(&reference());
    let painted = boards(&drawing);
    let [undermat, top] = painted.as_slice() else { panic!("two boards: {painted:?}") };
    assert_eq!(top.outline.bounds(), Rect::at_origin(size("20x26")), "the board");
    let edges = |board: &Board| {
        let window = &board.windows[0];
        (window.face.bounds().size, window.sight.bounds().size)
    };
    assert_eq!(edges(top), (size("11.995x16.12"), size("11 7/8x16")), "top layer");
    assert_eq!(edges(undermat), (size("11.62x15.745"), size("11 1/2x15 5/8")), "undermat");
    // Source: an undermat blank is 1/4 in smaller on each side (common practice).
    assert_eq!(undermat.outline.bounds().size, size("19 1/2x25 1/2"), "undermat blank");
    let Some(Item::Picture(picture)) =
        drawing.items.iter().find(|item| matches!(item, Item::Picture(_)))
    else {
        panic!("a picture")
    };
    let board = Rect::at_origin(size("20x26"));
    assert_eq!(picture.image.within(board), sides("4 15/16,4 3/4,6 1/16,4 1/4"), "image");
}

#[test]
fn bevels_meet_in_their_mitres() {
    for board in boards(&drawn(&four_layers())) {
        let bevels = &board.windows[0].bevels;
        assert_eq!(bevels.len(), 4, "a bevel a side");
        for (face, next) in bevels.iter().zip(bevels.iter().cycle().skip(1)) {
            let ([_, outer, inner, _], [start, _, _, end]) = (face.corners, next.corners);
            assert_eq!((outer, inner), (start, end), "the same mitre");
            let (across, down) = ((inner.x - outer.x).abs(), (inner.y - outer.y).abs());
            assert_eq!(across, down, "at 45 degrees in the plane of the board");
        }
    }
}

#[test]
fn light_falls_from_the_upper_left() {
    let core = Tone::grey(0.9);
    for tenths in [300, 450, 600, 800] {
        let bevel = Angle::from_tenths(tenths).map(Bevel::Open).unwrap();
        let light = |side| light::on_bevel(core, bevel, side).red;
        // The upper and the left one of a steep cut get no direct light at all.
        let steep = tenths > 700;
        assert!(steep || light(Side::Top) < light(Side::Left), "{tenths}");
        assert!(light(Side::Left) < light(Side::Right), "{tenths}");
        assert!(light(Side::Right) < light(Side::Bottom), "{tenths}");
    }
    for shade in shades(&drawn(&reference())) {
        let Sides { top, right, bottom, left } = shade.bands;
        for (deep, slight) in [(top, bottom), (left, right)] {
            assert!(deep.reach > slight.reach, "{shade:?}");
            assert!(deep.strength > slight.strength, "{shade:?}");
        }
    }
}

#[test]
fn shade_grows_with_the_board_and_the_stack() {
    let reach = |document: &Document| -> Vec<Length> {
        shades(&drawn(document)).iter().map(|shade| shade.bands.top.reach).collect()
    };
    let four = reach(&four_layers());
    assert_eq!(four.len(), 4, "one a layer");
    assert!(
        four.windows(2).all(|pair| pair[0] > pair[1]),
        "deeper ones reach further: {four:?}"
    );
    let mut thick = reference();
    for layer in &mut thick.variants[0].mat.layers {
        layer.board.thickness = Length::inch_1000ths(125);
    }
    let (thin, thick) = (reach(&reference()), reach(&thick));
    assert!(thin.iter().zip(&thick).all(|(thin, thick)| thin < thick), "{thin:?} {thick:?}");
}

#[test]
fn a_float_shows_what_it_is_mounted_on() {
    let fills = |document: &Document| {
        let drawing = drawn(document);
        drawing.items.iter().filter(|item| matches!(item, Item::Fill(_))).count()
    };
    assert_eq!(fills(&floated()), 1, "the mount board; the image hides all of the paper");
    assert_eq!(fills(&reference()), 1, "the paper; it hides all of the mount board");
    let mut bled = reference();
    bled.variants[0].mat.openings[0].window_by = WindowBy::Reveal(sides("-1/4"));
    assert_eq!(fills(&bled), 0, "only image is seen");
}

#[test]
fn a_reverse_bevel_shows_no_core() {
    let mut document = reference();
    document.variants[0].mat.layers[0].bevel = Bevel::Reverse(Angle::USUAL);
    document.variants[0].mat.layers[1].bevel = Bevel::Straight;
    let drawing = drawn(&document);
    for board in boards(&drawing) {
        assert_eq!(board.windows[0].bevels, [], "nothing of the cut is seen");
        assert_eq!(board.windows[0].face, board.windows[0].sight, "the face ends there");
    }
    assert_eq!(shades(&drawing).len(), 2, "both cast a shade");
}

fn of(drawing: &Drawing, measure: Measure) -> &str {
    let found = dimensioned(drawing).into_iter().find(|one| one.measure == measure);
    found.map_or("none", |one| &one.figure.text)
}

/// Source: the reference piece (D).
#[test]
fn the_reference_piece_is_dimensioned() {
    let drawing = dimensions(&exact(&reference()), Unit::Inch, inches("1/2"));
    for (measure, wanted) in [
        (Measure::OuterWidth, "20 in"),
        (Measure::OuterHeight, "26 in"),
        (Measure::WindowWidth, "11 1/2 in"),
        (Measure::WindowHeight, "15 5/8 in"),
        (Measure::Border(0, Side::Top), "4 1/2 in"),
        (Measure::Border(0, Side::Right), "4 5/16 in"),
        (Measure::Border(0, Side::Bottom), "5 1/2 in"),
        (Measure::Border(0, Side::Left), "3 13/16 in"),
        (Measure::Border(1, Side::Top), "4 11/16 in"),
        (Measure::Border(1, Side::Right), "4 1/2 in"),
        (Measure::Border(1, Side::Bottom), "5 11/16 in"),
        (Measure::Border(1, Side::Left), "4 in"),
    ] {
        assert_eq!(of(&drawing, measure), wanted, "{measure:?}");
    }
    // Each name stands under its line, or under its figure beside that.
    let names = |drawing: &Drawing, name: &str| {
        texts(drawing).iter().filter(|text| text.text == name).count()
    };
    assert_eq!((names(&drawing, "top mat"), names(&drawing, "undermat")), (4, 4));
    apart(&drawing, "the reference piece");
    let drawing = dimensions(&exact(&reference()), Unit::Millimetre, inches("1/2"));
    let left = Measure::Border(1, Side::Left);
    assert_eq!(of(&drawing, left), "101.6 mm", "in the plan's unit");
    assert_eq!(dimensioned(&drawing).len(), 12, "each once");
    // A mat of one layer has one border: that word alone.
    let mut single = reference();
    single.variants[0].mat.layers.pop();
    let drawing = dimensions(&exact(&single), Unit::Inch, inches("1/2"));
    assert_eq!(of(&drawing, Measure::Border(0, Side::Top)), "4 1/2 in");
    assert_eq!(dimensioned(&drawing).len(), 8);
    for height in ["1/8", "1/2", "3/4"] {
        apart(&dimensions(&exact(&four_layers()), Unit::Inch, inches(height)), "four layers");
    }
}

#[track_caller]
fn apart(drawing: &Drawing, what: &str) {
    let texts = texts(drawing);
    for (index, one) in texts.iter().enumerate() {
        for other in &texts[index + 1..] {
            assert_eq!(
                one.bounds().intersection(other.bounds()),
                None,
                "{what}: {one:?} on {other:?}"
            );
        }
        let inside = one.bounds().within(drawing.bounds).least();
        assert!(!inside.is_negative(), "{what}: {one:?} within {:?}", drawing.bounds);
    }
}

#[test]
fn figures_never_stand_on_each_other() {
    for sheet in ["8x10", "10x8", "3x24", "24x3", "1x1"] {
        for borders in ["4", "1/2,1/2,3,1/2", "1/4", "1/8,2,1/16,3"] {
            for (height, unit) in [("1/8", Unit::Inch), ("1/2", Unit::Millimetre)] {
                let mut document = plain(sheet);
                document.variants[0].mat.board_by = BoardBy::Borders(sides(borders));
                let drawing = dimensions(&exact(&document), unit, inches(height));
                apart(&drawing, &format!("{sheet}, {borders}, {height}"));
            }
        }
    }
}

fn cut(document: &Document, side: Side) -> Drawing {
    let mat = &document.variants[0].mat;
    let look = Look::default();
    let height = Length::inch_1000ths(80);
    section(mat, &exact(document), OpeningId(1), side, &look, Unit::Inch, height)
}

#[test]
fn a_section_shows_how_edges_meet() {
    let mut document = reference();
    let drawing = cut(&document, Side::Right);
    apart(&drawing, "reference");
    let labels: Vec<&str> = texts(&drawing).iter().map(|text| text.text.as_str()).collect();
    for wanted in ["Sheet", "3/16 in", "3/4 in", "1/4 in"] {
        assert!(labels.contains(&wanted), "{wanted} in {labels:?}");
    }
    for start in ["Top mat", "Undermat", "Backing"] {
        assert!(labels.iter().any(|label| label.starts_with(start)), "{start} in {labels:?}");
    }
    // The first fill is the top layer: how its right end slopes.
    let slope = |drawing: &Drawing| match drawing.items.first() {
        Some(Item::Fill(fill)) => fill.path.points[2].x - fill.path.points[1].x,
        other => panic!("a fill, not {other:?}"),
    };
    assert_eq!(slope(&drawing), Length::inch_1000ths(60), "open: the back reaches further in");
    for (bevel, run) in [(Bevel::Straight, 0), (Bevel::Reverse(Angle::USUAL), -60)] {
        document.variants[0].mat.layers[0].bevel = bevel;
        let drawing = cut(&document, Side::Right);
        assert_eq!(slope(&drawing), Length::inch_1000ths(run), "{bevel:?}");
        apart(&drawing, "another bevel");
    }
    for side in Side::ALL {
        apart(&cut(&four_layers(), side), "four layers");
        apart(&cut(&floated(), side), "a float");
    }
}

/// Source: by hand. The names at the left stand 1.3 figures apart, about the middle of the parts
/// they name, each with a line that ends at the height of its part.
#[test]
fn names_of_a_section_stand_in_even_rows() {
    for document in [reference(), four_layers()] {
        let drawing = cut(&document, Side::Right);
        let height = Length::inch_1000ths(80);
        let names: Vec<Length> = drawing
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Text(text)
                    if text.align == Align::End && text.role == TextRole::Label =>
                {
                    Some(text.at.y)
                }
                _ => None,
            })
            .collect();
        let parts: Vec<[Point; 3]> = drawing
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Line(line) if line.pen == Pen::Fine => {
                    <[Point; 3]>::try_from(line.points.clone()).ok()
                }
                _ => None,
            })
            .collect();
        assert!(names.len() > 2 && names.len() == parts.len(), "{names:?} {parts:?}");
        for rows in names.windows(2) {
            assert_eq!(rows[1] - rows[0], height.scaled(13, 10), "{names:?}");
        }
        for (name, [from, bend, to]) in names.iter().zip(&parts) {
            assert_eq!((from.y, bend.y), (*name, to.y), "level with its name, then its part");
            assert!(from.x < bend.x && bend.x < to.x, "{from:?} {bend:?} {to:?}");
        }
        let ends = |all: &[Length]| all[0] + (all[all.len() - 1] - all[0]).halves().0;
        let heights: Vec<Length> = parts.iter().map(|points| points[2].y).collect();
        let off = (ends(&names) - ends(&heights)).abs();
        assert!(off <= Length::from_units(1), "{names:?} about {heights:?}");
    }
}

/// Source: by hand, figures 1 in high, their gap 1/3 in. Where one stands beside its line already,
/// the next stands before its own; in a low space name and figure are one text, first behind the
/// line, then before it.
#[test]
fn a_figure_stands_before_its_line_where_the_place_beside_it_is_taken() {
    let (line, gap) = (inches("20"), inches("1").scaled(1, 3));
    let figures = |long: &str| {
        let mut sheet = Dimensioner::new(Unit::Inch, inches("1"));
        sheet.of = Some("Window 1".to_owned());
        let ends = [Length::ZERO, inches(long)];
        let span = Span { measure: Measure::WindowHeight, axis: Axis::Down, ends };
        for _ in 0..2 {
            sheet.between(span, &[line], 1, Length::ZERO);
        }
        let items = sheet.items.iter();
        let figures = items.filter_map(|item| match item {
            Item::Dimension(dimension) => Some(dimension.figure.clone()),
            _ => None,
        });
        figures.map(|text| (text.at, text.align, text.text)).collect::<Vec<_>>()
    };
    // Figure and name, 4/3 in under it, about the middle together.
    let high = inches("5") - inches("4").scaled(1, 3).halves().0;
    let at = |x: Length, y: Length| Point::new(x, y);
    assert_eq!(
        figures("10"),
        [
            (at(line + gap, high), Align::Start, "10 in".to_owned()),
            (at(line - gap, high), Align::End, "10 in".to_owned()),
        ]
    );
    assert_eq!(
        figures("2"),
        [
            (at(line + gap, inches("1")), Align::Start, "Window 1 2 in".to_owned()),
            (at(line - gap, inches("1")), Align::End, "Window 1 2 in".to_owned()),
        ]
    );
}

#[test]
fn what_is_hidden_is_outlined() {
    let drawing = hidden(&exact(&reference()));
    let zones = drawing.items.iter().filter(|item| matches!(item, Item::Zone(_))).count();
    let lines = drawing.items.iter().filter(|item| matches!(item, Item::Line(_))).count();
    assert_eq!((zones, lines), (4, 2), "overlap on four sides; sheet and image");
}

/// Source: the reference piece, worked out by hand (D).
#[test]
fn an_outline_has_every_edge() {
    let drawing = outline(&exact(&reference()));
    let edges = |pen: Pen| {
        let lines = drawing.items.iter().filter_map(|item| match item {
            Item::Line(line) if line.pen == pen => Some(line.points.as_slice()),
            _ => None,
        });
        let across = |points: &[Point], of: fn(&Point) -> Length| {
            let places = || points.iter().map(of);
            places().max().zip(places().min()).map(|(most, least)| most - least).unwrap()
        };
        lines
            .map(|points| Size::new(across(points, |at| at.x), across(points, |at| at.y)))
            .collect::<Vec<_>>()
    };
    assert_eq!(edges(Pen::Section), [size("20x26")], "the board");
    assert_eq!(edges(Pen::Edge), [size("11 1/2x15 5/8"), size("11 7/8x16")], "sight edges");
    assert_eq!(edges(Pen::Fine), [size("11.62x15.745"), size("11.995x16.12")], "faces");
    assert_eq!(edges(Pen::Hidden), [size("13x19"), size("11x15")], "sheet and image");
}

/// Plans that no one should cut: every plate still draws what it can.
pub(crate) fn nonsense() -> Vec<Document> {
    let with = |change: &dyn Fn(&mut Mat)| {
        let mut document = four_layers();
        change(&mut document.variants[0].mat);
        document
    };
    let far = Length::from_units(Length::MOST.units());
    vec![
        with(&|mat| mat.board_by = BoardBy::Borders(sides("-3"))),
        with(&|mat| mat.board_by = BoardBy::Borders(sides("-30"))),
        with(&|mat| mat.board_by = BoardBy::Borders(Sides::all(far))),
        with(&|mat| mat.openings[0].window_by = WindowBy::Reveal(sides("-20"))),
        with(&|mat| mat.openings[0].window_by = WindowBy::Reveal(sides("40,-5,0,2"))),
        with(&|mat| {
            mat.openings[0].offsets.insert(LayerId(3), sides("-2"));
        }),
        with(&|mat| {
            mat.openings[0].offsets.insert(LayerId(2), sides("9"));
        }),
        with(&|mat| mat.layers[1].board.thickness = Length::ZERO),
        with(&|mat| mat.layers[0].board.thickness = inches("-1")),
        with(&|mat| mat.layers[2].board.thickness = inches("30")),
        with(&|mat| mat.layers.clear()),
        with(&|mat| mat.openings.clear()),
        with(&|mat| {
            let placement = Placement::Free { left: inches("-4"), top: inches("25") };
            mat.board_by = BoardBy::Outer { size: size("20x26"), placement };
        }),
        with(&|mat| {
            let size = Size::new(Length::ZERO, Length::ZERO);
            mat.board_by = BoardBy::Outer { size, placement: Placement::Centred };
        }),
    ]
}

#[test]
fn nonsense_is_drawn_as_far_as_it_goes() {
    for document in nonsense() {
        let figures = exact(&document);
        let drawing = drawn(&document);
        assert!(drawing.items.len() < 40, "{}", drawing.items.len());
        for height in ["-1", "0", "1/4", "50"] {
            dimensions(&figures, Unit::Inch, inches(height));
        }
        hidden(&figures);
        for side in Side::ALL {
            cut(&document, side);
        }
    }
    let mut lost = reference();
    lost.works[0].sheet = Size::default();
    lost.works[0].image = Rect::new(Point::new(inches("-3"), inches("2")), size("-1x-1"));
    drawn(&lost);
}
