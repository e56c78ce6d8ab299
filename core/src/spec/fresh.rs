//! A plan to start from: one picture, one mat of one layer round it.

use std::collections::BTreeMap;

use super::{
    Backing, Behind, Bevel, Document, Fixing, Layer, LayerId, Limits, Mat, Meets, Opening,
    OpeningId, Picture, Placement, Ruler, Shape, Variant, VariantId, Work, WorkId,
};
use crate::geometry::{Point, Rect, Sides, Size};
use crate::length::{Length, Unit};
use crate::material::{Board, Tables};

/// What a new plan starts from.
#[derive(Clone, Debug)]
pub struct Start {
    /// Tells the plan from every other.
    pub id: String,
    /// The person's unit.
    pub unit: Unit,
    /// The file of the picture.
    pub picture: Picture,
    /// The paper.
    pub sheet: Size,
    /// The printed area on it.
    pub image: Rect,
}

/// How far a mat lies on the sheet unless something else is asked: 1/8 in in an inch document,
/// 3 mm in a metric one. Source: workshop tutorials on measuring a mat; common practice.
pub const fn usual_overlap(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(0, 1, 8),
        Unit::Millimetre => Length::mm(3),
    }
}

/// How far a liner stands in unless something else is asked: 1/4 in in an inch document, 6 mm in
/// a metric one. Source: framers' glossary; common practice.
pub const fn usual_offset(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(0, 1, 4),
        Unit::Millimetre => Length::mm(6),
    }
}

impl Start {
    /// A plan with one layer, the mat lying on the sheet by the usual overlap, centred on a
    /// board of the smallest standard outer size of `tables` that leaves at least 2 in (50 mm)
    /// of border all round; where none is large enough, with such borders.
    pub fn plan(self, tables: &Tables) -> Document {
        let Self { id, unit, picture, sheet, image } = self;
        let overlap = Sides::all(usual_overlap(unit));
        let reveal = margins(sheet, image).minus(overlap);
        let shown = reveal.sums();
        let window =
            Size::new(image.size.width + shown.width, image.size.height + shown.height);
        let work = WorkId(1);
        let mat = Mat {
            fixing: standard(window, unit, tables),
            layers: vec![Layer {
                id: LayerId(1),
                board: usual_board(unit, tables),
                bevel: Bevel::default(),
            }],
            openings: vec![Opening {
                id: OpeningId(1),
                work,
                shape: Shape::Rectangle,
                place: Point::default(),
                meets: Meets::Reveal(reveal),
                offsets: BTreeMap::new(),
                cut: BTreeMap::new(),
            }],
            backing: Backing { size: None, board: usual_board(unit, tables) },
            exhibition: false,
            limits: Limits::default(),
            notes: String::new(),
            behind: Behind::default(),
        };
        Document {
            id,
            unit,
            ruler: Ruler::usual(unit),
            works: vec![Work { id: work, title: String::new(), picture, sheet, image }],
            variants: vec![Variant { id: VariantId(1), name: "First".to_owned(), mat }],
            chosen: VariantId(1),
            inscribed: None,
            log: Vec::new(),
        }
    }
}

/// The paper round the image on each side of the sheet.
pub fn margins(sheet: Size, image: Rect) -> Sides<Length> {
    image.within(Rect::at_origin(sheet))
}

/// The board a mat is cut from unless another is chosen: 4-ply of .060 in, or 1.4 mm.
pub fn usual_board(unit: Unit, tables: &Tables) -> Board {
    let id = match unit {
        Unit::Inch => "cotton-4-white",
        Unit::Millimetre => "cotton-1400-white",
    };
    tables.board(id).or(tables.boards.first()).cloned().unwrap_or_else(|| Board {
        id: String::new(),
        name: "White".to_owned(),
        colour: crate::material::Colour::new(246, 245, 241),
        thickness: Length::inch_1000ths(60),
        grade: crate::material::Grade::Unknown,
        turns: true,
        mass_gsm: None,
    })
}

/// The border that a standard outer size leaves at least on every side: 2 in, or 50 mm.
/// Source: common practice.
pub const fn standard_border(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(2, 0, 1),
        Unit::Millimetre => Length::mm(50),
    }
}

/// The standard outer sizes with room for the [`standard_border`] all round `window`, lying
/// where the window lies; the smallest first.
pub fn standard_sizes(window: Size, unit: Unit, tables: &Tables) -> Vec<Size> {
    let least = standard_border(unit) * 2;
    let room = |size: &Size| {
        size.width - window.width >= least && size.height - window.height >= least
    };
    let mut sizes: Vec<Size> = tables
        .outer
        .iter()
        .filter(|row| row.unit == unit)
        .map(|row| if window.width > window.height { row.size.turned() } else { row.size })
        .filter(room)
        .collect();
    sizes.sort_by_key(|size| {
        (i128::from(size.width.units()) * i128::from(size.height.units()), size.width)
    });
    sizes
}

/// The smallest standard outer size for `window`, centred; where none is large enough, the
/// [`standard_border`] all round.
pub fn standard(window: Size, unit: Unit, tables: &Tables) -> Fixing {
    let smallest = standard_sizes(window, unit, tables).first().copied();
    smallest.map_or(Fixing::Borders(Sides::all(standard_border(unit))), |size| Fixing::Outer {
        size,
        placement: Placement::Centred,
    })
}
