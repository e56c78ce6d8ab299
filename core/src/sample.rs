//! Plans for the tests of this crate. The reference piece is worked out by hand in the
//! project's trade reference; every figure of it is checked here and through the verbs.

use crate::geometry::{Point, Rect, Sides, Size};
use crate::length::{Length, Unit, parse, parse_list, parse_pair};
use crate::material::Tables;
use crate::spec::{
    Bevel, Document, Fixing, Layer, LayerId, Meets, Picture, Start, usual_board,
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
    mat.fixing = Fixing::Borders(sides("4 1/2,4 5/16,5 1/2,3 13/16"));
    mat.layers.push(Layer {
        id: LayerId(2),
        board: usual_board(Unit::Inch, Tables::shipped()),
        bevel: Bevel::default(),
    });
    mat.openings[0].meets = Meets::Reveal(sides("1/4,1/4,3/8,1/4"));
    mat.openings[0].offsets.insert(LayerId(2), Sides::all(inches("3/16")));
    document
}
