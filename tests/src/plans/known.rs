//! Plans that are known, saved once for ever in `saved/`.

use std::collections::BTreeMap;

use sightedge_core::geometry::{Point, Rect, Sides, Size};
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::{Board, Colour, Grade};
use sightedge_core::spec::{
    Angle, Backing, Bevel, Document, Entry, EntryKind, Fixing, InHand, Layer, LayerId, Limits,
    Mat, Meets, Opening, OpeningId, Picture, Placement, Ruler, Shape, Variant, VariantId,
    Weight, Work, WorkId,
};

/// 16ths of an inch.
const fn in16(n: i64) -> Length {
    Length::inch_128ths(n * 8)
}

const fn size16(width: i64, height: i64) -> Size {
    Size::new(in16(width), in16(height))
}

fn mm_size(width: i64, height: i64) -> Size {
    Size::new(Length::mm(width), Length::mm(height))
}

fn white_4_ply() -> Board {
    Board {
        id: "cotton-4-white".to_owned(),
        name: "White cotton, 4-ply".to_owned(),
        colour: Colour::new(0xf6, 0xf5, 0xf1),
        thickness: Length::inch_1000ths(60),
        grade: Grade::CottonBuffered,
    }
}

fn picture(path: &str) -> Picture {
    Picture { path: path.to_owned(), sha256: "0".repeat(64), width_px: 2200, height_px: 3000 }
}

/// The reference piece: a 13 × 19 in sheet with an 11 × 15 in image, two layers, borders given.
pub fn reference() -> Document {
    let layer = |id| Layer { id: LayerId(id), board: white_4_ply(), bevel: Bevel::default() };
    let opening = Opening {
        id: OpeningId(1),
        work: WorkId(1),
        shape: Shape::Rectangle,
        place: Point::default(),
        meets: Meets::Reveal(Sides::new(in16(4), in16(4), in16(6), in16(4))),
        offsets: BTreeMap::from([(LayerId(2), Sides::all(in16(3)))]),
    };
    let mat = Mat {
        fixing: Fixing::Borders(Sides::new(in16(72), in16(69), in16(88), in16(61))),
        layers: vec![layer(1), layer(2)],
        openings: vec![opening],
        backing: Backing { size: None, board: white_4_ply() },
        exhibition: false,
        limits: Limits::default(),
        notes: String::new(),
    };
    Document {
        id: "sample".to_owned(),
        unit: Unit::Inch,
        ruler: Ruler::usual(Unit::Inch),
        works: vec![Work {
            id: WorkId(1),
            title: String::new(),
            picture: picture("slack-water.jpg"),
            sheet: size16(208, 304),
            image: Rect::new(Point::new(in16(16), in16(24)), size16(176, 240)),
        }],
        variants: vec![Variant { id: VariantId(1), name: "First".to_owned(), mat }],
        chosen: VariantId(1),
        log: Vec::new(),
    }
}

/// A mat already cut, measured in millimetres, the sheet moved under its window.
pub fn in_hand() -> Document {
    let board = Board {
        id: String::new(),
        name: "From the drawer".to_owned(),
        colour: Colour::new(0x1c, 0x1c, 0x1e),
        thickness: Length::um(1400),
        grade: Grade::Unknown,
    };
    let opening = Opening {
        id: OpeningId(4),
        work: WorkId(2),
        shape: Shape::Rectangle,
        place: Point::default(),
        meets: Meets::InHand(InHand {
            sight: Size::new(Length::um(290_500), Length::mm(395)),
            overlap_left: Length::um(3250),
            overlap_top: Length::mm(-1),
        }),
        offsets: BTreeMap::new(),
    };
    let placement = Placement::Free { left: Length::mm(55), top: Length::um(62_500) };
    let mat = Mat {
        fixing: Fixing::Outer { size: mm_size(400, 500), placement },
        layers: vec![Layer { id: LayerId(3), board: board.clone(), bevel: Bevel::default() }],
        openings: vec![opening],
        backing: Backing { size: Some(mm_size(398, 498)), board },
        exhibition: false,
        limits: Limits::default(),
        notes: "Bought at the fair; a nick at the lower left.".to_owned(),
    };
    Document {
        id: "in-hand-1".to_owned(),
        unit: Unit::Millimetre,
        ruler: Ruler::usual(Unit::Millimetre),
        works: vec![Work {
            id: WorkId(2),
            title: "Slack water".to_owned(),
            picture: picture("../scans/slack water.tif"),
            sheet: mm_size(297, 420),
            image: Rect::new(Point::new(Length::mm(10), Length::mm(15)), mm_size(277, 385)),
        }],
        variants: vec![Variant { id: VariantId(6), name: "Drawer".to_owned(), mat }],
        chosen: VariantId(6),
        log: Vec::new(),
    }
}

fn board(n: u8, grade: Grade) -> Board {
    Board {
        id: format!("board-{n}"),
        name: format!("Board \"{n}\", smooth"),
        colour: Colour::new(n, 0, 255 - n),
        thickness: Length::inch_1000ths(30) * i64::from(n),
        grade,
    }
}

/// Borders given, four layers, two windows.
fn mat() -> Mat {
    let angle = |tenths| Angle::from_tenths(tenths).unwrap_or(Angle::USUAL);
    let layers = vec![
        Layer {
            id: LayerId(1),
            board: board(1, Grade::CottonBuffered),
            bevel: Bevel::Open(angle(450)),
        },
        Layer {
            id: LayerId(7),
            board: board(2, Grade::CottonUnbuffered),
            bevel: Bevel::Open(angle(525)),
        },
        Layer { id: LayerId(3), board: board(3, Grade::PurifiedPulp), bevel: Bevel::Straight },
        Layer {
            id: LayerId(4),
            board: board(4, Grade::Lignin),
            bevel: Bevel::Reverse(angle(899 - 9)),
        },
    ];
    let offsets = BTreeMap::from([
        (LayerId(3), Sides::all(Length::ZERO)),
        (LayerId(4), Sides::new(in16(1), in16(2), in16(-3), in16(4))),
        (LayerId(7), Sides::all(Length::um(4762))),
    ]);
    let reveal = Opening {
        id: OpeningId(1),
        work: WorkId(1),
        shape: Shape::Rectangle,
        place: Point::default(),
        meets: Meets::Reveal(Sides::new(in16(4), in16(-1), in16(0), Length::from_units(1))),
        offsets,
    };
    let hand = Opening {
        id: OpeningId(2),
        work: WorkId(5),
        place: Point::new(in16(200), Length::mm(-7)),
        meets: Meets::InHand(InHand {
            sight: size16(150, 151),
            overlap_left: in16(2),
            overlap_top: in16(-2),
        }),
        offsets: BTreeMap::new(),
        ..reveal.clone()
    };
    Mat {
        fixing: Fixing::Borders(Sides::new(
            in16(72),
            in16(69),
            in16(88),
            Length::from_units(7),
        )),
        layers,
        openings: vec![reveal, hand],
        backing: Backing { size: Some(size16(500, 501)), board: board(5, Grade::Unknown) },
        exhibition: true,
        limits: Limits { least_border: Some(in16(24)), hidden_image: Some(Length::mm(5)) },
        notes: "Ärmel & \"Søn\" \\ it's\n\ttwo lines, 50 % of 日本\u{301}\u{0}\r\u{7f}"
            .to_owned(),
    }
}

/// Every option that version 1 of the saved form has, each at least once.
pub fn every_option() -> Document {
    let mat = mat();
    let outer = |placement| Mat {
        fixing: Fixing::Outer { size: size16(320, 384), placement },
        limits: Limits::default(),
        backing: Backing { size: None, board: board(6, Grade::Unknown) },
        openings: Vec::new(),
        ..mat.clone()
    };
    let placements = [
        Placement::Centred,
        Placement::BottomExtra(in16(8)),
        Placement::BottomRatio(Weight { bottom: 5, top: u32::MAX }),
        Placement::Optical,
        Placement::Free { left: in16(33), top: Length::mm(61) },
    ];
    let mut variants =
        vec![Variant { id: VariantId(1), name: "Borders".to_owned(), mat: mat.clone() }];
    for (id, placement) in (10..).zip(placements) {
        let mat = outer(placement);
        variants.push(Variant { id: VariantId(id), name: format!("Outer {id}"), mat });
    }
    let entry = |when: &str, kind, text: &str| Entry {
        when: when.to_owned(),
        kind,
        text: text.to_owned(),
    };
    let work = |id, path: &str| Work {
        id: WorkId(id),
        title: format!("Work {id}"),
        picture: Picture {
            sha256: "0123456789abcdef".repeat(4),
            width_px: 1,
            height_px: 1_000_000_000,
            ..picture(path)
        },
        sheet: size16(208, 304),
        image: Rect::new(Point::new(in16(-16), in16(24)), size16(176, 240)),
    };
    Document {
        id: "every/option:1".to_owned(),
        unit: Unit::Inch,
        ruler: Ruler::new(Unit::Millimetre, 2).unwrap_or(Ruler::usual(Unit::Inch)),
        works: vec![work(1, "a.jpg"), work(5, "C:/prints/Größe \"b\".png")],
        variants,
        chosen: VariantId(12),
        log: vec![
            entry("2026-03-01", EntryKind::Choice, "Took the darker liner"),
            entry("2026-03-02T10:15:00+01:00", EntryKind::Tick, "Cut the top layer"),
            entry("", EntryKind::Reference, "INV-7"),
        ],
    }
}
