use proptest::prelude::*;

use super::*;
use crate::layout::layout;
use crate::sample::{inches, plain, plans, sides, size};
use crate::spec::{Document, WindowBy};

fn planned(document: &Document) -> HingePlan {
    let mat = &document.variants[0].mat;
    let laid = layout(document, mat);
    plan(document.unit, mat, &laid, &laid.exact.openings[0])
}

/// Source: Paschke, The Artist's Magazine, 2014: a 15 × 22 in light sheet has two or more; a
/// 22 × 30 in heavy sheet three upright, four lying; the outer two just inside the corners,
/// the others spaced evenly.
#[test]
fn published_counts() {
    #[track_caller]
    fn case(sheet: &str, wanted: std::ops::RangeInclusive<usize>) {
        let plan = planned(&plain(sheet));
        assert!(wanted.contains(&plan.hinges.len()), "{sheet}: {}", plan.hinges.len());
        let gaps: Vec<_> = plan.hinges.windows(2).map(|two| two[1].x - two[0].x).collect();
        assert!(gaps.iter().all(|gap| (*gap - gaps[0]).abs() <= Length::from_units(1)));
        assert!(gaps[0] <= inches("12"), "{gaps:?}");
        assert_eq!(plan.hinges[0].x, inches("1"));
        let last = plan.hinges[plan.hinges.len() - 1];
        assert_eq!(last.x, size(sheet).width - inches("1"));
        assert_eq!(
            (last.width, last.gap),
            (inches("1 1/2"), inches("1/8") + Usual::of(Unit::Inch).longer)
        );
    }
    case("15x22", 2..=4);
    case("22x15", 2..=4);
    case("22x30", 3..=3);
    case("30x22", 4..=4);
}

/// Source: Paschke 2014 (tab, gap); Library of Congress (hold).
#[test]
fn one_locates_and_the_others_are_longer() {
    let plan = planned(&plain("13x19"));
    let [first, second] = plan.hinges.as_slice() else { panic!("{plan:?}") };
    assert!(first.locates && !second.locates);
    assert_eq!(first.rise, inches("1/8 + 1/2"));
    assert_eq!(second.rise, first.rise + Usual::of(Unit::Inch).longer);
    assert_eq!(first.hold, inches("3/16"));
    assert!(plan.behind_image, "the image is the whole sheet");
    assert_eq!(first.tab.left(), first.cross.unwrap().left() + inches("1/4"));
}

#[test]
fn kinds() {
    #[track_caller]
    fn case(overlap: &str, paper: &str, wanted: HingeKind) {
        let mut document = plain("13x19");
        let mat = &mut document.variants[0].mat;
        mat.openings[0].window_by = WindowBy::Reveal(sides(overlap).map(|overlap| -overlap));
        mat.assembly.paper = crate::material::Tables::shipped().paper(paper).cloned();
        let plan = planned(&document);
        assert_eq!(plan.kind, wanted, "{overlap} {paper}: {}", plan.reason);
        assert_eq!(plan.hinges.is_empty(), !wanted.sticks());
    }
    case("1/8", "", HingeKind::T);
    case("1/8", "etching-300", HingeKind::T);
    case("-1/4", "drawing-160", HingeKind::V);
    case("-1/4", "etching-300", HingeKind::V);
    case("1/8", "cotton-300", HingeKind::Strips);
    case("1/4", "cotton-300", HingeKind::Corners);
    case("1/16", "resin-coated-260", HingeKind::T);
    case("3/8,3/8,1/8,1/8", "resin-coated-260", HingeKind::Strips);
}

#[test]
fn a_heavy_floated_sheet_hangs_through_the_board() {
    let mut document = plain("30x40");
    let mat = &mut document.variants[0].mat;
    mat.openings[0].window_by = WindowBy::Reveal(sides("1/4"));
    mat.assembly.paper = crate::material::Tables::shipped().paper("etching-300").cloned();
    assert_eq!(planned(&document).kind, HingeKind::PassThrough);
}

/// Source: mass = grams per square metre × area; standard gravity 9.80665 m/s² (CGPM 1901).
#[test]
fn load() {
    let mut document = plain("500x700mm");
    document.variants[0].mat.assembly.paper =
        Some(Paper { mass_gsm: Some(300), ..Paper::default() });
    let plan = planned(&document);
    assert_eq!(plan.hinges.len(), 3, "448 mm between the outer ones");
    assert!((plan.sheet_g.unwrap() - 105.0).abs() < 1e-9);
    assert!((plan.load_n.unwrap() - 0.105 * 9.806_65 / 3.0).abs() < 1e-9);
    let area = 0.0381 * 0.004_762_5;
    assert!((plan.shear_pa.unwrap() - 0.105 * 9.806_65 / 3.0 / area).abs() < 1e-6);
}

/// Source: Library of Congress: along the long side, top when lying, left when upright.
#[test]
fn the_mats_own_hinge() {
    let hinge = |text: &str| mat_hinge(&Assembly::default(), size(text), Unit::Inch);
    assert_eq!((hinge("20x16").edge, hinge("20x16").length), (Side::Top, inches("20")));
    assert_eq!((hinge("16x20").edge, hinge("16x20").length), (Side::Left, inches("20")));
    let metric = mat_hinge(&Assembly::default(), size("16x20"), Unit::Millimetre);
    assert_eq!((metric.gap, metric.tape), (Length::MM, Length::mm(40)));
    assert_eq!((hinge("16x20").gap, hinge("16x20").tape), (inches("1/32"), inches("1 1/2")));
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 10_000,
        max_global_rejects: 1_000_000,
        ..ProptestConfig::default()
    })]

    #[test]
    fn hinges_never_overlap_show_or_leave_the_board(mut document in plans()) {
        // Margins as the reference piece has them.
        let work = &mut document.works[0];
        let image = work.image.size;
        work.sheet = Size::new(image.width + inches("2"), image.height + inches("4"));
        let mat = &document.variants[0].mat;
        let laid = layout(&document, mat);
        let window = &laid.exact.openings[0];
        let board = Rect::at_origin(laid.exact.outer);
        // A sheet that leaves the board is told of elsewhere; its hinges go with it.
        prop_assume!(!window.sheet.within(board).least().is_negative());
        let plan = plan(document.unit, mat, &laid, window);
        prop_assert!(plan.hinges.len() >= FEWEST || !plan.kind.sticks());
        let whole = |hinge: &Hinge| {
            hinge.cross.map_or(hinge.tab, |cross| Rect::new(
                Point::new(cross.left().min(hinge.tab.left()), hinge.tab.top()),
                Size::new(
                    cross.right().max(hinge.tab.right()) - cross.left().min(hinge.tab.left()),
                    hinge.tab.size.height,
                ),
            ))
        };
        for hinge in &plan.hinges {
            prop_assert!(!whole(hinge).within(board).least().is_negative(), "{:?}", hinge);
            prop_assert!(!hinge.tab.within(board).least().is_negative(), "{:?}", hinge);
            prop_assert!(hinge.tab.left() >= window.sheet.left());
            prop_assert!(hinge.tab.right() <= window.sheet.right());
            // What stands above the sheet lies under the mat.
            if let Some(above) = hinge.cross {
                prop_assert!(above.bottom() <= window.sheet.top());
                if window.overlap.top.is_positive() {
                    prop_assert!(above.bottom() <= window.sight.top());
                }
            }
        }
        for two in plan.hinges.windows(2) {
            prop_assert!(whole(&two[0]).right() <= whole(&two[1]).left(), "{:?}", two);
        }
        prop_assert_eq!(plan.hinges.iter().filter(|hinge| hinge.locates).count(),
            usize::from(plan.kind.sticks()));
    }
}
