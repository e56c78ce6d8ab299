//! Plans for tests: three that are known, and any number that are not.

mod assembly;
mod known;

use sightedge_core::catalogue::{Kind, Notation, Numerals};
use sightedge_core::geometry::{Point, Rect, Sides, Size};
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::{Board, Colour, Grade};
use sightedge_core::spec::{
    Angle, AsCut, Back, Backing, Bevel, BoardBy, Choice, Document, Entry, EntryKind, Front,
    InHand, Inscribed, Layer, LayerId, Lettering, Limits, Mat, Opening, OpeningId, Picture,
    Placement, PrintRef, Recorded, Ruler, Shape, Ticked, Variant, VariantId, Weight, WindowBy,
    Work, WorkId,
};
use sightedge_core::weight::Weights;

use crate::random::Random;

pub use known::{
    behind_the_mat, every_option, in_hand, inscribed_print, partly_cut, partly_decided,
    reference,
};

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
    let log = (0..random.below(4)).map(|_| entry(random)).collect();
    let id = format!("{:x}", random.number());
    Document {
        id,
        unit,
        weights: random.one_of(&[None, Some(Weights::Pounds), Some(Weights::Grams)]),
        ruler: ruler.unwrap_or(Ruler::usual(unit)),
        works,
        variants,
        chosen,
        choice: (random.below(2) == 0).then(|| Choice {
            when: "2026-03-01".to_owned(),
            words: random.one_of(&["", "The calm one", "“Größer”, she said"]).to_owned(),
        }),
        inscribed: (random.below(3) == 0).then(|| inscribed(random)),
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
    let sha256 =
        (0..4).fold(String::new(), |hash, _| format!("{hash}{:016x}", random.number()));
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

fn inscribed(random: &mut Random) -> Inscribed {
    let kind = random.one_of(&Kind::ALL);
    let (number, of) = match kind {
        kind if kind.single() => (1, 1),
        _ => (random.small(1, 9000), 0),
    };
    let of =
        if random.below(2) == 0 || kind.single() { of } else { number + random.small(0, 90) };
    let notation = (random.below(2) == 0).then_some(Notation { kind, number, of });
    let numerals = random.one_of(&[Numerals::Roman, Numerals::Fraction]);
    // Often what the record says, one way or the other.
    let already_written = match notation.filter(|_| random.below(2) == 0) {
        Some(notation) => notation.text(random.one_of(&[Numerals::Roman, Numerals::Fraction])),
        None => words(random),
    };
    let year = |random: &mut Random| {
        (random.below(2) == 0).then(|| i64::from(random.small(1850, 2030)))
    };
    Inscribed {
        lettering: Lettering {
            back: (0..random.below(5)).map(|_| words(random)).collect(),
            behind: random.one_of(Back::ALL),
            front: random.one_of(Front::ALL),
            left: words(random),
            right: words(random),
            already_written,
        },
        recorded: Recorded {
            title: words(random),
            maker: words(random),
            taken: year(random),
            printed: year(random),
            notation,
            numerals,
            print: (notation.is_some() && random.below(2) == 0)
                .then(|| random.small(1, 1_000_000)),
        },
    }
}

fn entry(random: &mut Random) -> Entry {
    let kind = random.one_of(&[EntryKind::Choice, EntryKind::Tick, EntryKind::Reference]);
    let print = match random.below(3) {
        0 => None,
        1 => Some(PrintRef::Recorded(random.small(1, 1_000_000))),
        _ => Some(PrintRef::Numbered(Notation {
            kind: Kind::Numbered,
            number: random.small(1, 50),
            of: 50,
        })),
    };
    let step = (0..=random.below(3)).map(|_| words(random)).collect();
    let ticked = kind == EntryKind::Tick && random.below(3) > 0;
    let ticked = ticked.then_some(Ticked { print, step });
    Entry { when: words(random), kind, text: words(random), ticked }
}

fn board(random: &mut Random) -> Board {
    let [red, green, blue, ..] = random.number().to_be_bytes();
    Board {
        id: words(random),
        name: words(random),
        colour: Colour::new(red, green, blue),
        thickness: above_zero(random),
        grade: random.one_of(&Grade::ALL),
        turns: random.below(3) > 0,
        mass_gsm: (random.below(2) == 0).then(|| random.small(0, 50_000)),
    }
}

fn bevel(random: &mut Random) -> Bevel {
    let tenths = u16::try_from(random.small(300, 890)).unwrap_or(450);
    let angle = Angle::from_tenths(tenths).unwrap_or(Angle::USUAL);
    random.one_of(&[Bevel::Open(angle), Bevel::Straight, Bevel::Reverse(angle)])
}

fn board_by(random: &mut Random) -> BoardBy {
    let placement = match random.below(6) {
        0 => return BoardBy::Borders(sides(random)),
        1 => Placement::Centred,
        2 => Placement::BottomExtra(length(random)),
        3 => Placement::BottomRatio(Weight {
            bottom: random.small(1, u32::MAX),
            top: random.small(0, 9),
        }),
        4 => Placement::Optical,
        _ => Placement::Free { left: length(random), top: length(random) },
    };
    BoardBy::Outer { size: size(random), placement }
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
        window_by: if random.once_in(2) {
            WindowBy::Reveal(sides(random))
        } else {
            WindowBy::InHand(InHand {
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
        cut: layers
            .iter()
            .filter(|_| random.below(4) == 0)
            .map(|layer| layer.id)
            .collect::<Vec<_>>()
            .into_iter()
            .map(|id| (id, AsCut { sight: size(random), borders: sides(random) }))
            .collect(),
    };
    let openings = ids(random, 0, 4).into_iter().map(|id| opening(random, id)).collect();
    Mat {
        openings,
        board_by: board_by(random),
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
        assembly: assembly::any(random),
        planned: None,
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
