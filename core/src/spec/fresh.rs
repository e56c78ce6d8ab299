//! A plan to start from: one picture, one mat of one layer round it.

use std::collections::BTreeMap;

use super::{
    Assembly, Backing, Bevel, BoardBy, Document, Layer, LayerId, Limits, Mat, Opening,
    OpeningId, Picture, Placement, Ruler, Shape, Variant, VariantId, WindowBy, Work, WorkId,
};
use crate::geometry::{Point, Rect, Sides, Size};
use crate::length::{Length, Unit};
use crate::material::{Board, Tables};

/// What a new plan starts from.
#[derive(Clone, Debug)]
pub struct Start {
    /// The id of the plan, which no other plan has.
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

/// How far an undermat stands in unless something else is asked: 1/4 in in an inch document, 6 mm in
/// a metric one. Source: framers' glossary; common practice.
pub const fn usual_offset(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(0, 1, 4),
        Unit::Millimetre => Length::mm(6),
    }
}

impl Start {
    /// A plan with one layer, the mat lying on the sheet by the usual overlap, centred on a
    /// board of the [`usual_outer`] size.
    pub fn plan(self, tables: &Tables) -> Document {
        self.plan_and_size(tables).0
    }

    /// The same, with the size that was taken; `None` where the window is out of all proportion
    /// and borders were taken instead.
    pub fn plan_and_size(self, tables: &Tables) -> (Document, Option<UsualOuter>) {
        let Self { id, unit, picture, sheet, image } = self;
        let overlap = Sides::all(usual_overlap(unit));
        let reveal = margins(sheet, image).minus(overlap);
        let shown = reveal.sums();
        let window =
            Size::new(image.size.width + shown.width, image.size.height + shown.height);
        let work = WorkId(1);
        let held = held_by(window, overlap);
        let usual = usual_outer((window, held), unit, tables, |_| true);
        let mat = Mat {
            board_by: usual.map_or(
                BoardBy::Borders(Sides::all(standard_border(unit))),
                |UsualOuter { size, .. }| BoardBy::Outer {
                    size,
                    placement: Placement::Centred,
                },
            ),
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
                window_by: WindowBy::Reveal(reveal),
                offsets: BTreeMap::new(),
                cut: BTreeMap::new(),
            }],
            backing: Backing { size: None, board: usual_board(unit, tables) },
            exhibition: false,
            limits: Limits::default(),
            notes: String::new(),
            assembly: Assembly::default(),
            planned: None,
        };
        let document = Document {
            id,
            unit,
            weights: None,
            ruler: Ruler::usual(unit),
            works: vec![Work { id: work, title: String::new(), picture, sheet, image }],
            variants: vec![Variant { id: VariantId(1), name: "First".to_owned(), mat }],
            chosen: VariantId(1),
            inscribed: None,
            log: Vec::new(),
        };
        (document, usual)
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

/// A standard size with more than this much of the [`standard_border`] at its narrowest is no
/// mat for such a picture: 15 × 5 in is lost in 24 × 36 in. Source: common practice.
const MOST_BORDERS: i64 = 2;

/// How far the side border may be from half of top and bottom together: 1 in, or 25 mm.
/// Source: common practice.
const fn most_uneven(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(1, 0, 1),
        Unit::Millimetre => Length::mm(25),
    }
}

/// A mat of a size of its own is whole half inches wide and high, or whole centimetres.
/// Source: common practice.
const fn own_step(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(0, 1, 2),
        Unit::Millimetre => Length::mm(10),
    }
}

/// A size of its own is tried so many steps beyond the smallest.
const MOST_STEPS: usize = 64;

/// The outer size of a mat for which none was given.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct UsualOuter {
    /// The size.
    pub size: Size,
    /// Whether it is one of the tables; else it is the mat's own.
    pub standard: bool,
    /// Whether its borders are even; they are not where the sheet reaches far behind the mat on
    /// two sides only.
    pub even: bool,
    /// Whether it is as large as it is for the sheet's sake.
    pub for_sheet: bool,
}

impl UsualOuter {
    /// Which size was taken and why, as the end of a sentence.
    pub fn words(self, unit: Unit) -> String {
        let size = self.size.sides_text(|length| length.text(unit));
        let least = standard_border(unit).text(unit);
        match (self.standard, self.even) {
            (true, true) => format!(
                "{size} is the smallest standard size with even borders of at least {least}"
            ),
            (true, false) => format!(
                "{size} is the smallest standard size that takes the sheet and leaves at \
                 least {least} all round; its borders are uneven, because the sheet reaches \
                 far behind the mat"
            ),
            (false, true) if self.for_sheet => format!(
                "no standard size with even borders takes the sheet, so the mat has a size of \
                 its own, {size}"
            ),
            (false, true) => format!(
                "no standard size leaves even borders of about {least}, so the mat has a size \
                 of its own, {size}"
            ),
            (false, false) => format!(
                "no standard size takes the sheet, so the mat has a size of its own, {size}; \
                 its borders are uneven, because the sheet reaches far behind the mat"
            ),
        }
    }
}

/// The smallest board on which a sheet lies whole, that reaches so far behind the mat round a
/// `window` in its middle.
pub fn held_by(window: Size, overlap: Sides<Length>) -> Size {
    let over = |first: Length, second: Length| first.max(second).max(Length::ZERO) * 2;
    Size::new(
        window.width + over(overlap.left, overlap.right),
        window.height + over(overlap.top, overlap.bottom),
    )
}

/// The outer size for a top mat's `window` where none is given, lying where the window lies:
/// the smallest standard size that leaves the [`standard_border`] all round and keeps the side
/// border within 1 in (25 mm) of half of top and bottom together, none of them wider than need
/// be; where none does, as for squares and panoramas, a size of its own with such borders, on
/// whole half inches (10 mm). Each is at least as large as `held`, on which the sheet lies whole
/// ([`held_by`]); where even borders would have to be too wide for that, the smallest standard
/// size that holds it, however it lies, or one of its own.
/// `holds` says whether a size leaves that much as the window is placed in it; `None` where
/// nothing near does.
pub fn usual_outer(
    (window, held): (Size, Size),
    unit: Unit,
    tables: &Tables,
    holds: impl Fn(Size) -> bool,
) -> Option<UsualOuter> {
    // Both borders of a direction together: twice what each is.
    let least = standard_border(unit) * 2;
    let borders = |size: Size| (size.width - window.width, size.height - window.height);
    let narrow = |size: Size| {
        let (across, down) = borders(size);
        across.min(down)
    };
    let even = |size: &Size| {
        let (across, down) = borders(*size);
        narrow(*size) <= least * MOST_BORDERS && (across - down).abs() <= most_uneven(unit) * 2
    };
    let sound = |size: &Size| {
        narrow(*size) >= least
            && size.width >= held.width
            && size.height >= held.height
            && holds(*size)
    };
    let smallest = |sizes: &mut dyn Iterator<Item = Size>| {
        sizes.min_by_key(|size| {
            (i128::from(size.width.units()) * i128::from(size.height.units()), size.width)
        })
    };
    let rows = || tables.outer.iter().filter(|row| row.unit == unit).map(|row| row.size);
    let as_it_lies =
        |size: Size| if window.width > window.height { size.turned() } else { size };
    let mut standard = rows().map(as_it_lies).filter(|size| even(size) && sound(size));
    if let Some(size) = smallest(&mut standard) {
        return Some(UsualOuter { size, standard: true, even: true, for_sheet: false });
    }
    let step = own_step(unit);
    let own = |across: Length, down: Length| {
        let width = (window.width + across).ceil_to(step);
        let height = (window.height + down).ceil_to(step);
        // A window that is placed high or low asks for more above and below.
        let heights = (0..).take(MOST_STEPS).map(|more| height + step * more);
        heights.map(|height| Size::new(width, height)).find(sound)
    };
    let (across, down) = borders(held);
    let (across, down) = (across.max(least), down.max(least));
    let wide = across.max(down);
    let for_sheet = wide > least;
    if wide <= least * MOST_BORDERS
        && let Some(size) = own(wide, wide)
    {
        return Some(UsualOuter { size, standard: false, even: true, for_sheet });
    }
    let mut standard = rows().flat_map(|size| [size, size.turned()]).filter(sound);
    if for_sheet && let Some(size) = smallest(&mut standard) {
        return Some(UsualOuter { size, standard: true, even: false, for_sheet });
    }
    let size = own(across, down).filter(|_| for_sheet)?;
    Some(UsualOuter { size, standard: false, even: false, for_sheet })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::{inches, size};

    /// The mat for a picture that fills its sheet, held by the usual overlap.
    #[track_caller]
    fn case(unit: Unit, sheet: &str, wanted: &str, standard: bool) {
        let (sheet, wanted) = (size(sheet), size(wanted));
        let held = usual_overlap(unit) * 2;
        let window = Size::new(sheet.width - held, sheet.height - held);
        let usual = usual_outer((window, sheet), unit, Tables::shipped(), |_| true).unwrap();
        let wanted_usual = UsualOuter { size: wanted, standard, even: true, for_sheet: false };
        assert_eq!(usual, wanted_usual, "{sheet:?}");
        // Lying as upright.
        let turned = (window.turned(), sheet.turned());
        let lying = usual_outer(turned, unit, Tables::shipped(), |_| true).unwrap();
        assert_eq!(lying.size, wanted.turned(), "{sheet:?} lying");
    }

    /// Source: common practice: 2 in (50 mm) at least, sides within 1 in (25 mm) of half of top
    /// and bottom. Windows are 1/4 in (6 mm) smaller each way than the sheet.
    #[test]
    fn a_mat_of_no_given_size() {
        use Unit::{Inch, Millimetre};
        // 3 3/4 × 5 3/4, at least 7 3/4 × 9 3/4; 8 × 10 leaves 2 1/8 and 2 1/8.
        case(Inch, "4x6", "8x10", true);
        // 4 3/4 × 6 3/4, at least 8 3/4 × 10 3/4; 10 × 12 leaves 2 5/8 and 2 5/8.
        case(Inch, "5x7", "10x12", true);
        // 5 3/4 × 8 3/4, at least 9 3/4 × 12 3/4; 11 × 14 leaves 2 5/8 and 2 5/8.
        case(Inch, "6x9", "11x14", true);
        // 7 3/4 × 9 3/4, at least 11 3/4 × 13 3/4; 14 × 18 leaves 3 1/8 and 4 1/8: 1 apart.
        case(Inch, "8x10", "14x18", true);
        // 8 1/4 × 10 3/4, at least 12 1/4 × 14 3/4; 14 × 18 leaves 2 7/8 and 3 5/8.
        case(Inch, "8.5x11", "14x18", true);
        // 10 3/4 × 13 3/4, at least 14 3/4 × 17 3/4; 16 × 20 leaves 2 5/8 and 3 1/8.
        case(Inch, "11x14", "16x20", true);
        // 10 3/4 × 16 3/4, at least 14 3/4 × 20 3/4; 16 × 22 leaves 2 5/8 and 2 5/8.
        case(Inch, "11x17", "16x22", true);
        // 11 3/4 × 17 3/4, at least 15 3/4 × 21 3/4; 16 × 22 leaves 2 1/8 and 2 1/8.
        case(Inch, "12x18", "16x22", true);
        // 12 3/4 × 18 3/4, at least 16 3/4 × 22 3/4; 18 × 24 leaves 2 5/8 and 2 5/8.
        case(Inch, "13x19", "18x24", true);
        // 15 3/4 × 19 3/4, at least 19 3/4 × 23 3/4; 20 × 24 leaves 2 1/8 and 2 1/8.
        case(Inch, "16x20", "20x24", true);
        // 16 3/4 × 21 3/4, at least 20 3/4 × 25 3/4; 22 × 28 leaves 2 5/8 and 3 1/8.
        case(Inch, "17x22", "22x28", true);
        // 7 3/4 × 7 3/4: each standard size leaves 2 in or more between the two, as 14 × 18
        // with 3 1/8 and 5 1/8; 11 3/4 up to the half inch is 12.
        case(Inch, "8x8", "12x12", false);
        // 9 3/4 + 4 = 13 3/4.
        case(Inch, "10x10", "14x14", false);
        // 14 3/4 + 4 = 18 3/4, 4 3/4 + 4 = 8 3/4; upright here. 16 × 20 would leave 5 5/8 and
        // 2 5/8; 24 × 36 leaves 9 5/8 and 10 5/8, even but more than twice 2.
        case(Inch, "5x15", "9x19", false);
        // 23 3/4 + 4 = 27 3/4, 7 3/4 + 4 = 11 3/4.
        case(Inch, "8x24", "12x28", false);
        // 39 3/4 + 4 = 43 3/4, 29 3/4 + 4 = 33 3/4: beyond every standard size.
        case(Inch, "30x40", "34x44", false);
        // 94 × 144, at least 194 × 244; 240 × 300 leaves 73 and 78.
        case(Millimetre, "100x150mm", "240x300mm", true);
        // 204 × 291, at least 304 × 391; 400 × 500 leaves 98 and 104.5.
        case(Millimetre, "210x297mm", "400x500mm", true);
        // 291 × 414, at least 391 × 514; 500 × 600 leaves 104.5 and 93.
        case(Millimetre, "297x420mm", "500x600mm", true);
        // 323 × 477, at least 423 × 577; 500 × 600 leaves 88.5 and 61.5, 27 apart;
        // 500 × 700 leaves 88.5 and 111.5, 23 apart.
        case(Millimetre, "329x483mm", "500x700mm", true);
        // 414 × 588, at least 514 × 688; 600 × 800 leaves 93 and 106.
        case(Millimetre, "420x594mm", "600x800mm", true);
        // 194 + 100 = 294; 400 × 500 would leave 103 and 153.
        case(Millimetre, "200x200mm", "300x300mm", false);
        // 194 + 100 = 294, 594 + 100 = 694.
        case(Millimetre, "200x600mm", "300x700mm", false);
    }

    /// The board holds the sheet, too: a small picture on a large sheet.
    /// Source: derived from the same borders; a standard frame before a size of its own.
    #[test]
    fn the_sheet_lies_on_the_board() {
        #[track_caller]
        fn case(unit: Unit, window: &str, sheet: &str, wanted: &str, words: &str) {
            let (window, sheet) = (size(window), size(sheet));
            for (window, sheet, wanted) in [
                (window, sheet, size(wanted)),
                (window.turned(), sheet.turned(), size(wanted).turned()),
            ] {
                let usual =
                    usual_outer((window, sheet), unit, Tables::shipped(), |_| true).unwrap();
                assert_eq!(usual.size, wanted, "{window:?} on {sheet:?}");
                assert!(usual.words(unit).contains(words), "{}", usual.words(unit));
                assert!(
                    usual.size.width >= sheet.width && usual.size.height >= sheet.height,
                    "{sheet:?} would be crushed"
                );
            }
        }
        use Unit::{Inch, Millimetre};
        // 9 × 9: 13 × 13 would cut off the sheet; even borders would be 5, more than twice 2.
        // 16 × 20 leaves 3 1/2 and 5 1/2.
        case(Inch, "9x9", "13x19", "16x20", "smallest standard size that takes the sheet");
        // 9 1/2 × 6 1/2 on an upright sheet: 18 × 24 leaves 4 1/4 and 8 3/4.
        case(Inch, "9.5x6.5", "17x22", "18x24", "its borders are uneven");
        // 9 × 9 on 15 × 15: 3 all round, still even.
        case(
            Inch,
            "9x9",
            "15x15",
            "15x15",
            "no standard size with even borders takes the sheet",
        );
        // 9 × 12 on 13 × 17: 13 × 16 would do without; 14 × 18 leaves 2 1/2 and 3.
        case(Inch, "9x12", "13x17", "14x18", "with even borders");
        // 200 × 200 on 329 × 483: 400 × 500 leaves 100 and 150, 50 apart.
        case(Millimetre, "200x200mm", "329x483mm", "400x500mm", "uneven");
        // Beyond every standard size: up to the whole half inch.
        case(Inch, "10x10", "20x50.25", "20x50.5", "no standard size takes the sheet");
    }

    /// A sheet that reaches further on one side needs as much on the other.
    #[test]
    fn a_sheet_out_of_the_middle() {
        let over = Sides::new(inches("1"), inches("2"), inches("3"), inches("-1"));
        assert_eq!(held_by(size("8x10"), over), size("12x16"));
    }

    /// The limit itself: both borders across against both down, 2 in or 50 mm apart.
    #[test]
    fn how_even_is_even() {
        #[track_caller]
        fn case(window: &str, unit: Unit, wanted: &str) {
            let both = (size(window), size(window));
            let usual = usual_outer(both, unit, Tables::shipped(), |_| true).unwrap();
            assert_eq!(usual.words(unit).split(" in").next().unwrap(), wanted);
        }
        // On 14 × 18: 6 and 8; 6 and 8.001, and no larger one is even either.
        case("8x10", Unit::Inch, "14");
        case("8x9.999", Unit::Inch, "no standard size leaves even borders of about 2");
    }

    #[test]
    fn what_holds_less_is_made_higher() {
        let high = |size: Size| size.height >= inches("14 1/4");
        let window = size("7 3/4x7 3/4");
        let usual = usual_outer((window, window), Unit::Inch, Tables::shipped(), high);
        assert_eq!(usual.map(|usual| usual.size), Some(size("12x14.5")));
        let window = size("8x10");
        let never = usual_outer((window, window), Unit::Inch, Tables::shipped(), |_| false);
        assert_eq!(never, None);
    }
}
