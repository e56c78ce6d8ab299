//! Plans for the tests of this crate. The reference piece is worked out by hand in the
//! project's trade reference; every figure of it is checked here and through the commands.

use proptest::prelude::*;

use crate::geometry::{Point, Rect, Sides, Size};
use crate::length::{Length, Unit, parse, parse_list, parse_pair};
use crate::material::Tables;
use crate::spec::{
    Angle, Bevel, BoardBy, Document, InHand, Layer, LayerId, Limits, Picture, Placement, Ruler,
    Start, Weight, WindowBy, usual_board,
};

/// A length in inches.
#[track_caller]
pub(crate) fn inches(text: &str) -> Length {
    parse(text, Unit::Inch).unwrap()
}

/// A size in inches.
#[track_caller]
pub(crate) fn size(text: &str) -> Size {
    let (width, height) = parse_pair(text, Unit::Inch).unwrap();
    Size::new(width, height)
}

/// Four sides in inches, or one for all.
#[track_caller]
pub(crate) fn sides(text: &str) -> Sides<Length> {
    match parse_list(text, Unit::Inch).unwrap().as_slice() {
        [all] => Sides::all(*all),
        [top, right, bottom, left] => Sides::new(*top, *right, *bottom, *left),
        other => panic!("{other:?}"),
    }
}

/// A plan for a whole sheet in inches.
pub(crate) fn plain(sheet: &str) -> Document {
    let sheet = size(sheet);
    let picture = Picture {
        path: "slack-water.jpg".to_owned(),
        sha256: "0".repeat(64),
        width_px: 2200,
        height_px: 3000,
    };
    let image = Rect::at_origin(sheet);
    Start { id: "sample".to_owned(), unit: Unit::Inch, picture, sheet, image }
        .plan(Tables::shipped())
}

/// The reference piece: a 13 × 19 in sheet with an 11 × 15 in image, two layers, borders given.
pub(crate) fn reference() -> Document {
    let mut document = plain("13x19");
    document.works[0].image =
        Rect::new(Point::new(inches("1"), inches("1 1/2")), size("11x15"));
    let mat = &mut document.variants[0].mat;
    mat.board_by = BoardBy::Borders(sides("4 1/2,4 5/16,5 1/2,3 13/16"));
    mat.layers.push(Layer {
        id: LayerId(2),
        board: usual_board(Unit::Inch, Tables::shipped()),
        bevel: Bevel::default(),
    });
    mat.openings[0].window_by = WindowBy::Reveal(sides("1/4,1/4,3/8,1/4"));
    mat.openings[0].offsets.insert(LayerId(2), Sides::all(inches("3/16")));
    document
}

/// Any plan within reason, in both units, on every ruler.
pub(crate) fn plans() -> impl Strategy<Value = Document> {
    let length = |least: i64, most: i64| (least..most).prop_map(Length::um);
    let four = move |least, most| {
        (length(least, most), length(least, most), length(least, most), length(least, most))
            .prop_map(|(t, r, b, l)| Sides::new(t, r, b, l))
    };
    let even = move |least, most| length(least, most).prop_map(Sides::all);
    let placement = prop_oneof![
        Just(Placement::Centred),
        length(0, 40_000).prop_map(Placement::BottomExtra),
        (1_u32..9, 1_u32..9)
            .prop_map(|(bottom, top)| Placement::BottomRatio(Weight { bottom, top })),
        Just(Placement::Optical),
        (length(20_000, 90_000), length(20_000, 90_000))
            .prop_map(|(left, top)| Placement::Free { left, top }),
    ];
    let board_by = prop_oneof![
        (length(300_000, 900_000), length(300_000, 900_000), placement).prop_map(
            |(width, height, placement)| BoardBy::Outer {
                size: Size::new(width, height),
                placement
            }
        ),
        four(20_000, 200_000).prop_map(BoardBy::Borders),
    ];
    let reveal = prop_oneof![even(-8_000, 20_000), four(-8_000, 20_000)];
    let rulers = prop_oneof![
        prop::sample::select(&Ruler::INCH_PARTS[..]).prop_map(|n| (Unit::Inch, n)),
        prop::sample::select(&Ruler::MM_PARTS[..]).prop_map(|n| (Unit::Millimetre, n)),
    ];
    let paper = (length(80_000, 280_000), length(80_000, 280_000));
    (paper, board_by, reveal, four(1_000, 9_000), rulers).prop_map(
        |((width, height), board_by, reveal, offset, (unit, parts))| {
            let mut document = reference();
            document.unit = unit;
            document.ruler = Ruler::new(unit, parts).unwrap();
            document.works[0].image.size = Size::new(width, height);
            let mat = &mut document.variants[0].mat;
            mat.board_by = board_by;
            mat.openings[0].window_by = WindowBy::Reveal(reveal);
            mat.openings[0].offsets.insert(LayerId(2), offset);
            document
        },
    )
}

/// Any plan that can be expressed, mostly nonsense: no size, less than none, a kilometre.
pub(crate) fn nonsense() -> impl Strategy<Value = Document> {
    let most = Length::MOST.units();
    let length = move || {
        prop_oneof![
            Just(0),
            Just(most),
            Just(-most),
            -3_i64..3,
            -most..most,
            -36_000_000_i64..720_000_000,
        ]
        .prop_map(Length::from_units)
    };
    let size = move || (length(), length()).prop_map(|(w, h)| Size::new(w, h));
    let four = move || {
        (length(), length(), length(), length()).prop_map(|(t, r, b, l)| Sides::new(t, r, b, l))
    };
    let placement = prop_oneof![
        Just(Placement::Centred),
        length().prop_map(Placement::BottomExtra),
        (any::<u32>(), 0_u32..3)
            .prop_map(|(bottom, top)| Placement::BottomRatio(Weight { bottom, top })),
        Just(Placement::Optical),
        (length(), length()).prop_map(|(left, top)| Placement::Free { left, top }),
    ];
    let board_by = prop_oneof![
        (size(), placement).prop_map(|(size, placement)| BoardBy::Outer { size, placement }),
        four().prop_map(BoardBy::Borders),
    ];
    let window_by = prop_oneof![
        four().prop_map(WindowBy::Reveal),
        (size(), length(), length()).prop_map(|(sight, overlap_left, overlap_top)| {
            WindowBy::InHand(InHand { sight, overlap_left, overlap_top })
        }),
    ];
    let bevel = prop_oneof![
        Just(Bevel::Straight),
        (300_u16..=890).prop_map(|t| Bevel::Open(Angle::from_tenths(t).unwrap())),
        (300_u16..=890).prop_map(|t| Bevel::Reverse(Angle::from_tenths(t).unwrap())),
    ];
    let limits = (prop::option::of(length()), prop::option::of(length()))
        .prop_map(|(least_border, hidden_image)| Limits { least_border, hidden_image });
    let work = (size(), length(), length(), size(), any::<u32>(), any::<u32>());
    let rest = (prop::option::of(size()), any::<bool>(), limits, any::<bool>(), 1_usize..=4);
    (work, board_by, window_by, (four(), bevel, length()), rest).prop_map(
        |(work, board_by, window_by, (offset, bevel, thickness), rest)| {
            let (sheet, x, y, image, width_px, height_px) = work;
            let (backing, exhibition, limits, metric, layers) = rest;
            let mut document = reference();
            if metric {
                document.unit = Unit::Millimetre;
                document.ruler = Ruler::usual(Unit::Millimetre);
            }
            let work = &mut document.works[0];
            work.sheet = sheet;
            work.image = Rect::new(Point::new(x, y), image);
            work.picture.width_px = width_px;
            work.picture.height_px = height_px;
            let mat = &mut document.variants[0].mat;
            mat.board_by = board_by;
            mat.limits = limits;
            mat.exhibition = exhibition;
            mat.backing.size = backing;
            mat.openings[0].window_by = window_by;
            let mut layer = mat.layers[0].clone();
            layer.bevel = bevel;
            layer.board.thickness = thickness;
            mat.layers.clear();
            for id in (1..).map(LayerId).take(layers) {
                mat.layers.push(Layer { id, ..layer.clone() });
                mat.openings[0].offsets.insert(id, offset);
            }
            document
        },
    )
}
