//! Plans for tests: three that are known, and any number that are not.

use std::collections::BTreeMap;

use sightedge_core::geometry::{Point, Rect, Sides, Size};
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::{Board, Colour, Grade};
use sightedge_core::spec::{
    Angle, Backing, Bevel, Document, Entry, EntryKind, Fixing, InHand, Layer, LayerId, Limits,
    Mat, Meets, Opening, OpeningId, Picture, Placement, Ruler, Shape, Variant, VariantId,
    Weight, Work, WorkId,
};

use crate::random::Random;

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

/// Every option that version 1 of the saved form has, each at least once.
pub fn every_option() -> Document {
    let angle = |tenths| Angle::from_tenths(tenths).unwrap_or(Angle::USUAL);
    let board = |n: u8, grade| Board {
        id: format!("board-{n}"),
        name: format!("Board \"{n}\", smooth"),
        colour: Colour::new(n, 0, 255 - n),
        thickness: Length::inch_1000ths(30) * i64::from(n),
        grade,
    };
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
    let mat = Mat {
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
    };
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

/// Any plan that can be saved.
pub fn any(random: &mut Random) -> Document {
    let unit = random.one_of(&[Unit::Inch, Unit::Millimetre]);
    let ruler_unit = random.one_of(&[Unit::Inch, Unit::Millimetre]);
    let ruler = match ruler_unit {
        Unit::Inch => Ruler::new(ruler_unit, random.one_of(&Ruler::INCH_PARTS)),
        Unit::Millimetre => Ruler::new(ruler_unit, random.one_of(&Ruler::MM_PARTS)),
    };
    let works: Vec<Work> =
        ids(random, 1, 3).into_iter().map(|id| work(random, WorkId(id))).collect();
    let shown: Vec<WorkId> = works.iter().map(|work| work.id).collect();
    let variants: Vec<Variant> = ids(random, 1, 3)
        .into_iter()
        .map(|id| Variant { id: VariantId(id), name: words(random), mat: mat(random, &shown) })
        .collect();
    let chosen = variants[random.index(variants.len())].id;
    let log = (0..random.below(4)).map(|_| Entry {
        when: words(random),
        kind: random.one_of(&[EntryKind::Choice, EntryKind::Tick, EntryKind::Reference]),
        text: words(random),
    });
    let log = log.collect();
    let id = format!("{:x}", random.next());
    Document {
        id,
        unit,
        ruler: ruler.unwrap_or(Ruler::usual(unit)),
        works,
        variants,
        chosen,
        log,
    }
}

/// Different ids, in any order.
fn ids(random: &mut Random, least: u32, most: u32) -> Vec<u32> {
    let mut ids: Vec<u32> = Vec::new();
    let count = random.small(least, most);
    while ids.len() < usize::try_from(count).unwrap_or(0) {
        let most = random.one_of(&[9, 1_000_000_000]);
        let id = random.small(1, most);
        if !ids.contains(&id) {
            ids.push(id);
        }
    }
    ids
}

/// A length of either sign, on a ruler or off any, up to the longest.
fn length(random: &mut Random) -> Length {
    match random.below(8) {
        0 => Length::ZERO,
        1 => Length::from_units(random.from_to(-50, 50)),
        2 => Length::mm(random.from_to(-500, 500)),
        3 | 4 => Length::inch_128ths(random.from_to(-5000, 5000)),
        5 => Length::inch_1000ths(random.from_to(-9000, 9000)),
        6 => Length::from_units(random.from_to(-900_000_000, 900_000_000)),
        _ => Length::from_units(random.from_to(-Length::MOST.units(), Length::MOST.units())),
    }
}

fn above_zero(random: &mut Random) -> Length {
    let length = length(random).abs();
    if length.is_positive() { length } else { Length::from_units(1) }
}

fn size(random: &mut Random) -> Size {
    Size::new(above_zero(random), above_zero(random))
}

fn sides(random: &mut Random) -> Sides<Length> {
    Sides::new(length(random), length(random), length(random), length(random))
}

/// Words of all sorts of signs: quotes, line ends, other scripts, signs that are not seen.
fn words(random: &mut Random) -> String {
    let count = random.one_of(&[0, 1, 3, 12, 60]);
    (0..count)
        .map(|_| match random.below(6) {
            0 => random.one_of(&['"', '\\', '\'', '#', '\n', '\r', '\t', '\0', '/', '*', '(']),
            1 => random.one_of(&['é', '日', '\u{301}', '\u{feff}', '\u{202e}', '🖼', '\u{85}']),
            2 => char::from_u32(random.small(0, 0x0010_ffff)).unwrap_or(' '),
            _ => char::from_u32(random.small(32, 126)).unwrap_or(' '),
        })
        .collect()
}

fn work(random: &mut Random, id: WorkId) -> Work {
    let sha256 = (0..4).fold(String::new(), |hash, _| format!("{hash}{:016x}", random.next()));
    Work {
        id,
        title: words(random),
        picture: Picture {
            path: words(random),
            sha256,
            width_px: random.small(1, 1_000_000_000),
            height_px: random.small(1, 50_000),
        },
        sheet: size(random),
        image: Rect::new(Point::new(length(random), length(random)), size(random)),
    }
}

fn board(random: &mut Random) -> Board {
    let [red, green, blue, ..] = random.next().to_be_bytes();
    Board {
        id: words(random),
        name: words(random),
        colour: Colour::new(red, green, blue),
        thickness: above_zero(random),
        grade: random.one_of(&Grade::ALL),
    }
}

fn bevel(random: &mut Random) -> Bevel {
    let tenths = u16::try_from(random.small(300, 890)).unwrap_or(450);
    let angle = Angle::from_tenths(tenths).unwrap_or(Angle::USUAL);
    random.one_of(&[Bevel::Open(angle), Bevel::Straight, Bevel::Reverse(angle)])
}

fn fixing(random: &mut Random) -> Fixing {
    let placement = match random.below(6) {
        0 => return Fixing::Borders(sides(random)),
        1 => Placement::Centred,
        2 => Placement::BottomExtra(length(random)),
        3 => Placement::BottomRatio(Weight {
            bottom: random.small(1, u32::MAX),
            top: random.small(0, 9),
        }),
        4 => Placement::Optical,
        _ => Placement::Free { left: length(random), top: length(random) },
    };
    Fixing::Outer { size: size(random), placement }
}

fn mat(random: &mut Random, works: &[WorkId]) -> Mat {
    let layers: Vec<Layer> = ids(random, 1, 4)
        .into_iter()
        .map(|id| Layer { id: LayerId(id), board: board(random), bevel: bevel(random) })
        .collect();
    let opening = |random: &mut Random, id| Opening {
        id: OpeningId(id),
        work: random.one_of(works),
        shape: Shape::Rectangle,
        place: Point::new(length(random), length(random)),
        meets: if random.once_in(2) {
            Meets::Reveal(sides(random))
        } else {
            Meets::InHand(InHand {
                sight: size(random),
                overlap_left: length(random),
                overlap_top: length(random),
            })
        },
        offsets: layers
            .iter()
            .filter(|_| random.once_in(2))
            .map(|layer| layer.id)
            .collect::<Vec<_>>()
            .into_iter()
            .map(|id| (id, sides(random)))
            .collect(),
    };
    let openings = ids(random, 0, 4).into_iter().map(|id| opening(random, id)).collect();
    Mat {
        openings,
        fixing: fixing(random),
        backing: Backing {
            size: random.once_in(2).then(|| size(random)),
            board: board(random),
        },
        exhibition: random.once_in(2),
        limits: Limits {
            least_border: random.once_in(2).then(|| length(random)),
            hidden_image: random.once_in(2).then(|| length(random)),
        },
        notes: words(random),
        layers,
    }
}

/// The plan that is saved as the `n`th; each differs from the others in length and content.
pub fn numbered(n: u64) -> Document {
    let mut document = any(&mut Random::new(n));
    document.id = format!("plan-{n}");
    document
}

/// Which of the numbered plans this is; `None` unless it is one of them, whole.
pub fn number(document: &Document) -> Option<u64> {
    let n = document.id.strip_prefix("plan-")?.parse().ok()?;
    (numbered(n) == *document).then_some(n)
}
