//! Plans that are known, saved once for ever in `saved/`.

use std::collections::BTreeMap;

use sightedge_core::catalogue::{Kind, Notation, Numerals};
use sightedge_core::geometry::{Point, Rect, Side, Sides, Size};
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::{
    Bag, Board, Colour, Fibre, Filler, Frame, Glazing, Grade, Humidity, Paper, Process,
    Profile, Rate, Surface, Tissue,
};
use sightedge_core::spec::{
    Angle, AsCut, Assembly, Back, Backing, Bevel, BoardBy, Document, Entry, EntryKind,
    FrameSize, Front, Grain, Hanging, Hangs, HingeAt, HingeKind, Hinging, Hooks, InHand,
    Inscribed, Layer, LayerId, Lettering, Limits, Mat, MatHinge, Opening, OpeningId, Package,
    Picture, Placement, Recorded, Ruler, Shape, Variant, VariantId, Weight, WindowBy, Work,
    WorkId,
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
        turns: true,
        mass_gsm: None,
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
        window_by: WindowBy::Reveal(Sides::new(in16(4), in16(4), in16(6), in16(4))),
        offsets: BTreeMap::from([(LayerId(2), Sides::all(in16(3)))]),
        cut: BTreeMap::new(),
    };
    let mat = Mat {
        board_by: BoardBy::Borders(Sides::new(in16(72), in16(69), in16(88), in16(61))),
        layers: vec![layer(1), layer(2)],
        openings: vec![opening],
        backing: Backing { size: None, board: white_4_ply() },
        exhibition: false,
        limits: Limits::default(),
        notes: String::new(),
        assembly: Assembly::default(),
        planned: None,
    };
    Document {
        id: "sample".to_owned(),
        unit: Unit::Inch,
        weights: None,
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
        choice: None,
        inscribed: None,
        log: Vec::new(),
    }
}

/// The reference piece with its top mat cut, a sixteenth too wide; its undermat is still to be cut.
pub fn partly_cut() -> Document {
    let mut document = reference();
    let mat = &mut document.variants[0].mat;
    let outer = size16(320, 416);
    let placement = Placement::Free { left: in16(64), top: in16(75) };
    mat.board_by = BoardBy::Outer { size: outer, placement };
    let opening = &mut mat.openings[0];
    opening.offsets.insert(LayerId(2), Sides::new(in16(3), in16(4), in16(3), in16(3)));
    let borders = Sides::new(in16(72), in16(68), in16(88), in16(61));
    opening.cut.insert(LayerId(1), AsCut { sight: size16(191, 256), borders });
    document
}

/// A mat already cut, measured in millimetres, the sheet moved under its window.
pub fn in_hand() -> Document {
    let board = Board {
        id: String::new(),
        name: "From the drawer".to_owned(),
        colour: Colour::new(0x1c, 0x1c, 0x1e),
        thickness: Length::um(1400),
        grade: Grade::Unknown,
        turns: true,
        mass_gsm: None,
    };
    let opening = Opening {
        id: OpeningId(4),
        work: WorkId(2),
        shape: Shape::Rectangle,
        place: Point::default(),
        window_by: WindowBy::InHand(InHand {
            sight: Size::new(Length::um(290_500), Length::mm(395)),
            overlap_left: Length::um(3250),
            overlap_top: Length::mm(-1),
        }),
        offsets: BTreeMap::new(),
        cut: BTreeMap::new(),
    };
    let placement = Placement::Free { left: Length::mm(55), top: Length::um(62_500) };
    let mat = Mat {
        board_by: BoardBy::Outer { size: mm_size(400, 500), placement },
        layers: vec![Layer { id: LayerId(3), board: board.clone(), bevel: Bevel::default() }],
        openings: vec![opening],
        backing: Backing { size: Some(mm_size(398, 498)), board },
        exhibition: false,
        limits: Limits::default(),
        notes: "Bought at the fair; a nick at the lower left.".to_owned(),
        assembly: Assembly::default(),
        planned: None,
    };
    Document {
        id: "in-hand-1".to_owned(),
        unit: Unit::Millimetre,
        weights: None,
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
        choice: None,
        inscribed: None,
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
        turns: true,
        mass_gsm: None,
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
        window_by: WindowBy::Reveal(Sides::new(
            in16(4),
            in16(-1),
            in16(0),
            Length::from_units(1),
        )),
        offsets,
        cut: BTreeMap::new(),
    };
    let hand = Opening {
        id: OpeningId(2),
        work: WorkId(5),
        place: Point::new(in16(200), Length::mm(-7)),
        window_by: WindowBy::InHand(InHand {
            sight: size16(150, 151),
            overlap_left: in16(2),
            overlap_top: in16(-2),
        }),
        offsets: BTreeMap::new(),
        ..reveal.clone()
    };
    Mat {
        board_by: BoardBy::Borders(Sides::new(
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
        assembly: Assembly::default(),
        planned: None,
    }
}

/// Every option of a mat and of its windows, each at least once.
pub fn every_option() -> Document {
    let mat = mat();
    let outer = |placement| Mat {
        board_by: BoardBy::Outer { size: size16(320, 384), placement },
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
        ticked: None,
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
        weights: None,
        ruler: Ruler::new(Unit::Millimetre, 2).unwrap_or(Ruler::usual(Unit::Inch)),
        works: vec![work(1, "a.jpg"), work(5, "C:/prints/Größe \"b\".png")],
        variants,
        chosen: VariantId(12),
        choice: None,
        inscribed: None,
        log: vec![
            entry("2026-03-01", EntryKind::Choice, "Took the darker undermat"),
            entry("2026-03-02T10:15:00+01:00", EntryKind::Tick, "Cut the top layer"),
            entry("", EntryKind::Reference, "INV-7"),
        ],
    }
}

fn gallery_wood(origin: String) -> Frame {
    Frame {
        id: "gallery-wood".to_owned(),
        name: "Gallery, wood".to_owned(),
        rabbet_depth: Some(in16(8)),
        lip: in16(4),
        face: in16(12),
        mass_g_per_m: 350,
        colour: Some(Colour::new(0xb9, 0x8a, 0x5a)),
        profile: Profile::Flat,
        surface: Surface::Wood,
        origin,
    }
}

/// The reference piece with everything behind the mat decided.
pub fn behind_the_mat() -> Document {
    let mut document = reference();
    let origin = || "from \"memory\"".to_owned();
    document.variants[0].mat.assembly = Assembly {
        paper: Some(Paper {
            id: "cotton-300".to_owned(),
            name: "Cotton, matt, 300 g".to_owned(),
            fibre: Fibre::Cotton,
            process: Process::Inkjet,
            mass_gsm: Some(300),
            thickness: Some(Length::um(500)),
            white: Some(Colour::new(0xf7, 0xf5, 0xee)),
            along: Rate::from_millionths(3_000),
            across: Rate::from_millionths(15_000),
            water_based: true,
            pencil: true,
            origin: origin(),
        }),
        grain: Some(Grain::Height),
        hinged_at: Humidity::from_tenths(500),
        hangs_at: Humidity::from_tenths(300)
            .zip(Humidity::from_tenths(605))
            .map(|(dry, damp)| Hangs { dry, damp }),
        hinging: Hinging {
            kind: Some(HingeKind::PassThrough),
            at: [(16, true), (192, false)]
                .map(|(x, locates)| HingeAt { x: in16(x), locates })
                .to_vec(),
            tissue: Some(Tissue {
                id: "gummed".to_owned(),
                name: "Gummed paper".to_owned(),
                width: Some(in16(16)),
                tensile_n_per_m: Some(2_500),
                shear_pa: Some(60_000),
                reversible: true,
                pressure_sensitive: false,
                origin: origin(),
            }),
            width: Some(in16(24)),
            hold: Some(Length::mm(5)),
            gap: Some(in16(2)),
            longer: Some(in16(8)),
            slack: Some(Length::um(1_500)),
        },
        mat_hinge: MatHinge {
            edge: Some(Side::Left),
            tape: Some(in16(24)),
            gap: Some(Length::mm(1)),
        },
        corners_glued: Some(in16(8)),
        activity_tested: Some(false),
        package: Package {
            frame: Some(gallery_wood(origin())),
            size: Some(FrameSize::Rabbet(size16(322, 418))),
            allowance: Some(in16(2)),
            glazing: Some(Glazing {
                id: "glass-2".to_owned(),
                name: "Float glass, 2 mm".to_owned(),
                thickness: Length::mm(2),
                density_kg_m3: 2_500,
                glass: true,
                origin: origin(),
            }),
            spacer: Some(in16(2)),
            filler: Some(Filler {
                id: "foam-5".to_owned(),
                name: "Foam board".to_owned(),
                thickness: in16(3),
                mass_gsm: 650,
                origin: origin(),
            }),
            mass_g: Some(3_150),
            bag: Some(Bag {
                id: "20x26".to_owned(),
                name: "20 × 26 in".to_owned(),
                size: size16(324, 420),
                origin: origin(),
            }),
        },
        hanging: Hanging {
            rings_apart: Some(in16(256)),
            rise: Some(in16(48)),
            rings_below: Some(in16(96)),
            hooks: Hooks::Two(in16(128)),
            frame_size: Some(size16(338, 434)),
            centre: Some(in16(960)),
            factor_tenths: Some(40),
            wire_rated_g: Some(15_000),
            hook_rated_g: Some(9_000),
        },
    };
    document
}

/// Some of it decided, the rest left open.
pub fn partly_decided() -> Document {
    let mut document = in_hand();
    let assembly = &mut document.variants[0].mat.assembly;
    assembly.paper = Some(Paper { name: "Unknown rag".to_owned(), ..Paper::default() });
    assembly.package.size = Some(FrameSize::Contents(mm_size(400, 500)));
    assembly.hinging.slack = Some(Length::um(1_250));
    document
}

/// A print with its number, on a board with a pattern whose mass is known.
pub fn inscribed_print() -> Document {
    let mut document = reference();
    for variant in &mut document.variants {
        for layer in &mut variant.mat.layers {
            layer.board.turns = false;
            layer.board.mass_gsm = Some(1080);
        }
    }
    document.inscribed = Some(Inscribed {
        lettering: Lettering {
            back: vec!["{title}".to_owned(), "© {taken}[, printed {printed}]".to_owned()],
            behind: Back::Image,
            front: Front::Mat,
            left: "{number}".to_owned(),
            right: "{maker} {sign}".to_owned(),
            already_written: "AP 2/5".to_owned(),
        },
        recorded: Recorded {
            title: "Slack water, \"low\"".to_owned(),
            maker: "Ada Brook".to_owned(),
            taken: Some(2021),
            printed: Some(2025),
            notation: Some(Notation { kind: Kind::Artist, number: 2, of: 5 }),
            numerals: Numerals::Fraction,
            print: None,
        },
    });
    document
}
