use proptest::prelude::*;

use super::*;
use crate::geometry::Point;
use crate::length::Unit;
use crate::sample::{inches, plain, plans, reference, sides, size};
use crate::spec::{InHand, Weight};

fn laid(document: &Document) -> Layout {
    layout(document, &document.variants[0].mat)
}

/// Source: worked out by hand (D), with the definitions of the trade reference.
#[test]
fn the_reference_piece() {
    let laid = laid(&reference());
    for (set, figures) in [("exact", &laid.exact), ("bench", &laid.bench)] {
        let window = &figures.openings[0];
        let (top, undermat) = (&window.layers[0], &window.layers[1]);
        assert_eq!(figures.outer, size("20x26"), "{set}");
        assert_eq!(top.sight.bounds.size, size("11 7/8x16"), "{set}");
        assert_eq!(top.face.bounds.size, size("11.995x16.12"), "{set}");
        assert_eq!(top.borders, sides("4 1/2,4 5/16,5 1/2,3 13/16"), "{set}");
        assert_eq!(undermat.sight.bounds.size, size("11 1/2x15 5/8"), "{set}");
        assert_eq!(undermat.face.bounds.size, size("11.62x15.745"), "{set}");
        assert_eq!(undermat.flat, sides(".1275"), "{set}");
        assert_eq!(undermat.bevel, inches(".060"), "{set}");
        assert_eq!(undermat.borders, sides("4 11/16,4 1/2,5 11/16,4"), "{set}");
        assert_eq!(window.borders, undermat.borders, "{set}");
        assert_eq!(window.overlap, sides("1 1/4,3/4,2 1/8,3/4"), "{set}");
        assert_eq!(window.reveal, sides("1/4,1/4,3/8,1/4"), "{set}");
        let board = Rect::at_origin(figures.outer);
        assert_eq!(window.sheet.within(board), sides("3 7/16,3 3/4,3 9/16,3 1/4"), "{set}");
        assert_eq!(window.image.within(board), sides("4 15/16,4 3/4,6 1/16,4 1/4"), "{set}");
        assert_eq!(top.drop_out, size("11 7/8x16"), "{set}");
        assert_eq!(undermat.drop_out, size("11 1/2x15 5/8"), "{set}");
    }
}

#[track_caller]
fn placed(sheet: &str, reveal: &str, outer: &str, placement: Placement, wanted: &str) {
    let mut document = plain(sheet);
    let mat = &mut document.variants[0].mat;
    mat.openings[0].window_by = WindowBy::Reveal(sides(reveal));
    mat.board_by = BoardBy::Outer { size: size(outer), placement };
    assert_eq!(laid(&document).exact.openings[0].borders, sides(wanted), "{placement:?}");
}

#[test]
fn placements() {
    use Placement::{BottomExtra, BottomRatio, Centred, Free, Optical};
    // Source: workshop tutorial: 14 × 11 in mat, 8 × 10 in print lying, overlap 1/8 in.
    placed("10x8", "-1/8", "14x11", Centred, "1 5/8,2 1/8,1 5/8,2 1/8");
    // Source: derived from the construction in photography course handouts.
    placed("8x10", "0", "16x20", Optical, "3 3/4,4,6 1/4,4");
    placed("8x10", "-1/8", "16x20", BottomExtra(inches("1/2")), "4 7/8,4 1/8,5 3/8,4 1/8");
    let ratio = BottomRatio(Weight { bottom: 6, top: 5 });
    placed("8x10", "-1/8", "16x20 3/4", ratio, "5,4 1/8,6,4 1/8");
    let free = Free { left: inches("3"), top: inches("-1") };
    placed("8x10", "0", "16x20", free, "-1,5,11,3");
}

/// Source: derived (D): the optical top of an 8 × 10 in print held by 1/8 in on 16 × 20 in.
#[test]
fn the_optical_top_of_a_held_print() {
    let mut document = plain("8x10");
    document.variants[0].mat.board_by =
        BoardBy::Outer { size: size("16x20"), placement: Placement::Optical };
    let borders = laid(&document).exact.openings[0].borders;
    assert_eq!(borders.left, inches("4 1/8"));
    assert_eq!(borders.top.text(Unit::Inch), "3.8037 in");
}

/// Source: derived (D), the worked example of the rule of the ruler.
#[test]
fn an_a4_sheet_on_a_ruler_of_sixteenths() {
    let mut document = plain("210x297mm");
    let mat = &mut document.variants[0].mat;
    mat.openings[0].window_by = WindowBy::Reveal(sides("-3mm"));
    mat.board_by = BoardBy::Outer { size: size("16x20"), placement: Placement::Centred };
    let bench = laid(&document).bench;
    let window = &bench.openings[0];
    assert_eq!(window.borders, sides("4 5/16,4,4 5/16,4"));
    assert_eq!(window.sight.size, size("8x11 3/8"));
    assert_eq!(window.overlap.left, inches("3.4mm"));
    assert_eq!(window.overlap.right, inches("3.4mm"));
    assert!((window.overlap.top.to_mm() - 4.04).abs() < 0.005);
    assert_eq!(window.overlap.top + window.overlap.bottom, inches("297mm - 11 3/8in"));
}

/// Source: photography course handouts and a museum resource centre's matting guide: the optical
/// top to the nearest unit, bottom the rest; the window keeps its size on the ruler. A ratio
/// and a window placed by hand alike.
#[test]
fn a_top_goes_to_its_nearest_mark_and_the_window_stays() {
    #[track_caller]
    fn case(placement: Placement, wanted: &str) {
        let mut document = plain("13x19");
        document.works[0].image =
            Rect::new(Point::new(inches("1"), inches("1 1/2")), size("11x15"));
        let mat = &mut document.variants[0].mat;
        mat.openings[0].window_by = WindowBy::Reveal(sides("1/4,1/4,3/8,1/4"));
        mat.board_by = BoardBy::Outer { size: size("20x26"), placement };
        let bench = laid(&document).bench;
        let window = &bench.openings[0];
        assert_eq!(window.sight.size, size("11 1/2x15 5/8"));
        assert_eq!(window.borders, sides(wanted));
    }
    case(Placement::Optical, "4 1/16,4 1/4,6 5/16,4 1/4");
    case(Placement::BottomRatio(Weight { bottom: 6, top: 5 }), "4 11/16,4 1/4,5 11/16,4 1/4");
    let by_hand = Placement::Free { left: inches("4.24"), top: inches("4.1") };
    case(by_hand, "4 1/8,4 1/4,6 1/4,4 1/4");
}

/// Source: derived (D): triple mat, top border 2 in, offsets 1/8 and 1/4 in.
#[test]
fn a_triple_mat() {
    let mut document = reference();
    let mat = &mut document.variants[0].mat;
    let third = crate::spec::Layer { id: LayerId(3), ..mat.layers[1].clone() };
    mat.layers.push(third);
    mat.board_by = BoardBy::Borders(sides("2"));
    mat.openings[0].offsets.insert(LayerId(2), sides("1/8"));
    mat.openings[0].offsets.insert(LayerId(3), sides("1/4"));
    let laid = laid(&document);
    let layers = &laid.exact.openings[0].layers;
    let borders: Vec<_> = layers.iter().map(|cut| cut.borders).collect();
    assert_eq!(borders, [sides("2"), sides("2 1/8"), sides("2 3/8")]);
}

/// Source: worked out by hand (D): two windows of 7 3/4 × 9 3/4 in, the second one 9 in to the right
/// and 1/2 in down, borders of 3 in: a board of 3 + 16 3/4 + 3 by 3 + 10 1/4 + 3 in. On a given
/// board both go to its middle together.
#[test]
fn a_second_window_lies_where_it_is_placed() {
    let mut document = plain("8x10");
    let mat = &mut document.variants[0].mat;
    mat.openings[0].window_by = WindowBy::Reveal(sides("-1/8"));
    let place = Point::new(inches("9"), inches("1/2"));
    let first = mat.openings[0].clone();
    mat.openings.push(Opening { id: OpeningId(2), place, ..first });
    mat.board_by = BoardBy::Borders(sides("3"));
    let corners = |document: &Document| {
        let laid = laid(document);
        assert_eq!(laid.exact.openings[1].overlap, sides("1/8"));
        assert_eq!(laid.exact.openings[1].image, laid.exact.openings[1].sheet);
        assert_eq!(laid.exact.openings, laid.bench.openings);
        let at = |index: usize| laid.exact.openings[index].sight.at;
        (laid.exact.outer, [at(0), at(1)])
    };
    let at = |x: &str, y: &str| Point::new(inches(x), inches(y));
    assert_eq!(corners(&document), (size("22 3/4x16 1/4"), [at("3", "3"), at("12", "3 1/2")]));
    document.variants[0].mat.board_by =
        BoardBy::Outer { size: size("24x20"), placement: Placement::Centred };
    let middle = [at("3 5/8", "4 7/8"), at("12 5/8", "5 3/8")];
    assert_eq!(corners(&document), (size("24x20"), middle));
}

use crate::spec::{Opening, OpeningId};

#[test]
fn a_window_in_hand() {
    let mut document = plain("8x10");
    let mat = &mut document.variants[0].mat;
    mat.board_by = BoardBy::Outer { size: size("11x14"), placement: Placement::Centred };
    mat.openings[0].window_by = WindowBy::InHand(InHand {
        sight: size("7 1/2x9 1/2"),
        overlap_left: inches("1/8"),
        overlap_top: inches("1/4"),
    });
    let laid = laid(&document);
    let window = &laid.exact.openings[0];
    assert_eq!(window.overlap, sides("1/4,3/8,1/4,1/8"));
    assert_eq!(window.reveal, sides("-1/4,-3/8,-1/4,-1/8"));
    assert_eq!(laid.bench, laid.exact, "a window in hand is as measured");
}

#[test]
fn a_reverse_bevel_hides_its_core() {
    let mut document = reference();
    document.variants[0].mat.layers[0].bevel =
        crate::spec::Bevel::Reverse(crate::spec::Angle::USUAL);
    let laid = laid(&document);
    let top = &laid.exact.openings[0].layers[0];
    assert_eq!(top.face.bounds, top.sight.bounds, "the face's edge is the innermost");
    assert_eq!(top.back.bounds.size, size("11.995x16.12"));
    assert_eq!(top.bevel, Length::ZERO);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100_000))]

    #[test]
    fn both_sets_sum_to_the_whole(document in plans()) {
        let laid = laid(&document);
        let step = document.ruler.step();
        for figures in [&laid.exact, &laid.bench] {
            let window = &figures.openings[0];
            for cut in &window.layers {
                let sums = cut.borders.sums();
                let sight = cut.sight.bounds.size;
                prop_assert_eq!(sums.width + sight.width, figures.outer.width);
                prop_assert_eq!(sums.height + sight.height, figures.outer.height);
            }
            let sums = window.overlap.sums();
            prop_assert_eq!(sums.width + window.sight.size.width, window.sheet.size.width);
        }
        let (exact, bench) = (&laid.exact.openings[0], &laid.bench.openings[0]);
        for (side, asked) in exact.overlap.each() {
            prop_assert!(bench.overlap.of(side) >= asked, "{:?}", side);
            prop_assert!(bench.borders.of(side).is_on(step), "{:?}", bench.borders);
            for cut in &bench.layers {
                prop_assert!(cut.borders.of(side).is_on(step), "{:?}", cut.borders);
            }
        }
        // Equal where they were given or placed: of the top layer where its borders are given,
        // of the window where it is placed in a given board.
        let given = |window: &Window| match document.variants[0].mat.board_by {
            BoardBy::Borders(_) => window.layers[0].borders,
            BoardBy::Outer { .. } => window.borders,
        };
        let (was, is) = (given(exact), given(bench));
        prop_assert!(was.left != was.right || is.left == is.right, "equal borders stay equal");
        prop_assert!(was.top != was.bottom || is.top == is.bottom, "equal borders stay equal");
        let lost = exact.sight.size.width - bench.sight.size.width;
        prop_assert!(lost < step * 2, "no more is given up than needed");
    }

    /// Source: the construction drawn in photography course handouts, by similar triangles,
    /// against the closed form.
    #[test]
    fn the_optical_construction(
        board_w in 2_000_i64..40_000, board_h in 2_000_i64..40_000,
        part_w in 1_i64..100, part_h in 1_i64..100,
    ) {
        // Whole hundredths of a millimetre; the print lies in the board's top left corner.
        let hundredth = Length::um(10);
        let (board_w, board_h) = (hundredth * board_w, hundredth * board_h);
        let (w, h) = (board_w.scaled(i128::from(part_w), 100), board_h.scaled(i128::from(part_h), 100));
        let board = Size::new(board_w, board_h);
        let corner = place::corner(board, Size::new(w, h), Placement::Optical);
        // The line from the print's lower left corner to the right edge at the half-height
        // line, met by the vertical half-way between the print's and the board's right edge.
        let (w, h) = (w.to_mm(), h.to_mm());
        let (board_w, board_h) = (board_w.to_mm(), board_h.to_mm());
        let half_height = f64::midpoint(h, board_h);
        let half_width = f64::midpoint(w, board_w);
        let lower_right = h + (half_height - h) * half_width / board_w;
        prop_assert!((corner.y.to_mm() - (lower_right - h)).abs() < 2e-6);
        prop_assert!((corner.x.to_mm() - (half_width - w)).abs() < 2e-6);
    }
}
