use proptest::prelude::*;

use super::*;
use crate::command::apply;
use crate::figures::sheet;
use crate::layout::{Cut, Layout};
use crate::material::Tables;
use crate::sample::{inches, plans, reference, sides, size};
use crate::spec::{Inscribed, Layer, Recorded};

fn laid(document: &Document) -> Layout {
    layout(document, &document.variants[0].mat)
}

fn enter(document: &mut Document, measured: Measured) {
    let command = as_cut(document, VariantId(1), OpeningId(1), measured).unwrap();
    assert_eq!(apply(document, &command), Ok(()));
}

/// The reference double mat on its board of 20 × 26 in: reveal 1/4 in, undermat 3/16 in, bottom 1 in
/// wider than the top.
fn double() -> Document {
    let mut document = reference();
    let mat = &mut document.variants[0].mat;
    let placement = Placement::BottomExtra(inches("1"));
    mat.board_by = BoardBy::Outer { size: size("20x26"), placement };
    mat.openings[0].window_by = WindowBy::Reveal(Sides::all(inches("1/4")));
    document
}

/// Its top mat as it came out of the cutter.
fn top_mat(seen: Seen) -> Measured {
    Measured {
        outer: None,
        layer: Some(LayerId(1)),
        sight: size("11 15/16x15 7/8"),
        left: inches(if seen == Seen::Front { "4 1/16" } else { "4" }),
        top: inches("4 9/16"),
        seen,
    }
}

/// Source: derived (D), the trade reference's worked miscut. Its borders are 4 9/16, 4 (20 less
/// 4 1/16 and 11 15/16), 5 9/16 and 4 1/16 in. The undermat keeps 11 1/2 × 15 1/2 in: 7/16 in of
/// strips across, seven marks, so 3/16 and 1/4 in; 3/8 in down, 3/16 and 3/16 in.
#[test]
fn a_cut_layer_is_a_fact() {
    for seen in [Seen::Front, Seen::Back] {
        let mut document = double();
        enter(&mut document, top_mat(seen));
        let laid = laid(&document);
        for figures in [&laid.exact, &laid.bench] {
            assert_eq!(figures.outer, size("20x26"));
            let [top, undermat] = figures.openings[0].layers.as_slice() else { panic!("two") };
            assert!(top.done && !undermat.done);
            assert_eq!(top.sight.bounds.size, size("11 15/16x15 7/8"));
            assert_eq!(top.borders, sides("4 9/16,4,5 9/16,4 1/16"));
            assert_eq!(undermat.sight.bounds.size, size("11 1/2x15 1/2"));
        }
        let exact = &laid.exact.openings[0];
        assert_eq!(exact.layers[1].offset, sides("3/16,7/32,3/16,7/32"));
        assert_eq!(exact.reveal, sides("1/4"), "the picture as before");
        let bench = &laid.bench.openings[0];
        assert_eq!(bench.layers[1].offset, sides("3/16,1/4,3/16,3/16"));
        assert_eq!(bench.layers[1].borders, sides("4 3/4,4 1/4,5 3/4,4 1/4"));
        assert_eq!(bench.reveal, sides("1/4"));
    }
}

/// Source: derived (D), the same: with strips of 3/16 in the undermat's window is 11 9/16 ×
/// 15 1/2 in, with strips of 1/4 in 11 7/16 × 15 3/8 in.
#[test]
fn another_window_for_the_undermat_makes_its_strips_even() {
    let of = |offset: &str| {
        let mut document = double();
        enter(&mut document, top_mat(Seen::Front));
        let even = Command::SetOffset(VariantId(1), OpeningId(1), LayerId(2), sides(offset));
        assert_eq!(apply(&mut document, &even), Ok(()));
        laid(&document)
    };
    let wider = of("3/16");
    assert_eq!(wider.bench, wider.exact);
    let window = &wider.bench.openings[0];
    assert_eq!(window.sight.size, size("11 9/16x15 1/2"));
    assert_eq!(window.layers[1].offset, sides("3/16"));
    assert_eq!(window.borders, sides("4 3/4,4 3/16,5 3/4,4 1/4"));
    assert_eq!(window.borders.from_the_back(), sides("4 3/4,4 1/4,5 3/4,4 3/16"), "stops");
    assert_eq!(window.reveal, sides("1/4,9/32,1/4,9/32"));
    assert_eq!((window.overlap.left, window.overlap.right), (inches("23/32"), inches("23/32")));
    let board = Rect::at_origin(size("20x26"));
    let sheet = window.sheet.within(board);
    assert_eq!((sheet.left, sheet.right), (inches("3 17/32"), inches("3 15/32")));
    let narrower = of("1/4");
    assert_eq!(narrower.bench, narrower.exact);
    assert_eq!(narrower.bench.openings[0].sight.size, size("11 7/16x15 3/8"));
    assert_eq!(narrower.bench.openings[0].layers[1].offset, sides("1/4"));
}

/// What the plan says afterwards changes nothing of what is cut.
#[test]
fn no_later_change_moves_what_is_cut() {
    let mut document = double();
    enter(&mut document, top_mat(Seen::Front));
    let cut = laid(&document).bench.openings[0].layers[0].clone();
    let (id, opening) = (VariantId(1), OpeningId(1));
    let larger = BoardBy::Outer { size: size("22x28"), placement: Placement::Optical };
    for command in [
        Command::SetWindowBy(id, opening, WindowBy::Reveal(sides("1/16,1/8,3/8,1/5"))),
        Command::SetBoardBy(id, larger),
        Command::SetBoardBy(id, BoardBy::Borders(sides("2"))),
        Command::SetOffset(id, opening, LayerId(2), sides("1/8,3/16,1/4,1/5")),
    ] {
        assert_eq!(apply(&mut document, &command), Ok(()));
        let laid = laid(&document);
        for figures in [&laid.exact, &laid.bench] {
            assert_eq!(figures.openings[0].layers[0], cut, "{}", command.name());
            assert_eq!(figures.outer, size("20x26"));
        }
    }
    // To be cut again, it is planned as it was before it was cut.
    let anew = Command::CutAnew(id, opening, LayerId(1));
    assert_eq!(apply(&mut document, &anew), Ok(()));
    assert_eq!(laid(&document), laid(&double()));
}

/// Cut again it is the plan from before: not the window that came out, nor what was made of it.
#[test]
fn cut_again_it_is_planned_as_before() {
    let mut document = double();
    let before = document.clone();
    enter(&mut document, top_mat(Seen::Front));
    let (id, opening) = (VariantId(1), OpeningId(1));
    let rescue = Command::SetOffset(id, opening, LayerId(2), sides("3/16"));
    assert_eq!(apply(&mut document, &rescue), Ok(()));
    assert_ne!(laid(&document), laid(&before));
    let anew = Command::CutAnew(id, opening, LayerId(1));
    assert_eq!(apply(&mut document, &anew), Ok(()));
    assert_eq!(document, before);
}

/// Five prints have one plan and five mats: what is cut is that of the print which was at the
/// bench, and the next one's is cut as it was planned.
#[test]
fn what_is_cut_is_one_prints() {
    let at_the_bench = |print| {
        let recorded = Recorded { print: Some(print), ..Recorded::default() };
        let own = Inscribed { recorded, ..Inscribed::default() };
        Command::SetInscribed(Some(Box::new(own)))
    };
    let found = |document: &Document| {
        let variant = &document.variants[0];
        let found = crate::derived::derive(document, variant, Tables::shipped()).findings;
        found.into_iter().find(|finding| finding.rule == "as-cut")
    };
    let mut document = double();
    assert_eq!(apply(&mut document, &at_the_bench(1)), Ok(()));
    enter(&mut document, top_mat(Seen::Front));
    assert_eq!(found(&document), None);
    assert_eq!(apply(&mut document, &at_the_bench(2)), Ok(()));
    let finding = found(&document).unwrap();
    assert!(finding.message.starts_with("The mat entered as cut was cut for another print."));
    let text = crate::file::write(&document);
    assert_eq!(crate::file::read(&text, "plan"), Ok(document.clone()));
    assert_eq!(apply(&mut document, &finding.remedy.unwrap().command), Ok(()));
    assert_eq!(found(&document), None);
    assert_eq!(laid(&document), laid(&double()), "planned as before");
}

/// The one of three that is cut first leaves two that follow; the innermost is cut last.
#[test]
fn one_of_three_and_the_innermost() {
    let mut document = double();
    let mat = &mut document.variants[0].mat;
    mat.layers.push(Layer { id: LayerId(7), ..mat.layers[1].clone() });
    mat.openings[0].offsets.insert(LayerId(7), sides("1/8"));
    let planned = laid(&document).bench.openings[0].clone();
    let (first, middle) = (&planned.layers[0], &planned.layers[1]);
    let sight = middle.sight.bounds.size;
    let measured = Measured {
        outer: None,
        layer: Some(LayerId(2)),
        sight: Size::new(sight.width + inches("1/32"), sight.height),
        left: middle.borders.left - inches("1/32"),
        top: middle.borders.top,
        seen: Seen::Front,
    };
    enter(&mut document, measured);
    let after = laid(&document);
    let layers = &after.bench.openings[0].layers;
    assert_eq!(layers[0].borders, first.borders, "cut as the bench had it");
    assert!(layers[0].done && layers[1].done && !layers[2].done);
    assert_eq!(layers[1].borders.left, measured.left, "off the ruler, and kept so");
    // 1/4 and 1/32 in of strips across: the first stop on its mark leaves 5/32 and 1/8 in.
    assert_eq!(layers[2].offset, sides("1/8,1/8,1/8,5/32"));
    let last = Measured {
        layer: None,
        sight: size("11 1/2x15 17/32"),
        left: inches("4 1/4"),
        top: inches("4 23/32"),
        ..measured
    };
    enter(&mut document, last);
    let done = laid(&document);
    assert!(done.in_hand && done.exact == done.bench);
    let window = &done.exact.openings[0];
    assert!(window.layers.iter().all(|cut| cut.done));
    assert_eq!(window.layers[1], layers[1], "what was cut before stays");
    assert_eq!(window.borders, sides("4 23/32,4 1/4,5 3/4,4 1/4"));
    assert_eq!(window.layers[2].offset.top, inches("3/32"));
}

/// Source: common practice: everything follows from the window as it was cut.
#[test]
fn everything_follows_from_the_window_as_cut() {
    let mut document = reference();
    let measured = Measured {
        outer: None,
        layer: None,
        sight: size("11 3/8x15 5/8"),
        left: inches("4 1/16"),
        top: inches("4 11/16"),
        seen: Seen::Front,
    };
    let command = as_cut(&document, VariantId(1), OpeningId(1), measured).unwrap();
    assert_eq!(command.name(), "as cut");
    assert_eq!(apply(&mut document, &command), Ok(()));
    let laid = layout(&document, &document.variants[0].mat);
    let window = &laid.exact.openings[0];
    assert!(laid.in_hand);
    assert_eq!(laid.exact.outer, size("20x26"));
    assert_eq!(window.borders, sides("4 11/16,4 9/16,5 11/16,4 1/16"));
    assert_eq!(window.overlap, sides("1 1/4,13/16,2 1/8,13/16"));
    assert!(as_cut(&document, VariantId(1), OpeningId(9), measured).is_none());
    assert!(measured.fits_on(size("20x26")));
    assert!(!Measured { left: inches("-1"), ..measured }.fits_on(size("20x26")));
    assert!(!Measured { sight: size("30x16"), ..measured }.fits_on(size("20x26")));
    assert!(!Measured { outer: Some(size("15x26")), ..measured }.fits_on(size("20x26")));
    let nowhere = Measured { layer: Some(LayerId(9)), ..measured };
    assert!(as_cut(&document, VariantId(1), OpeningId(1), nowhere).is_none());
}

/// Source: derived (D) from the reference piece: its top window of 11 7/8 × 16 in at 3 13/16
/// and 4 1/2 in came out 1/8 in wider and 1/16 in further down; its undermat, still to be cut,
/// keeps 11 1/2 × 15 5/8 in and takes 1/16 in more at each side.
#[test]
fn a_undermat_follows_the_window_that_was_cut_before_it() {
    let mut document = reference();
    let top = document.variants[0].mat.layers[0].id;
    let measured = Measured {
        outer: None,
        layer: Some(top),
        sight: size("12x16"),
        left: inches("3 13/16"),
        top: inches("4 9/16"),
        seen: Seen::Front,
    };
    let command = as_cut(&document, VariantId(1), OpeningId(1), measured).unwrap();
    assert_eq!(apply(&mut document, &command), Ok(()));
    let laid = layout(&document, &document.variants[0].mat);
    let window = &laid.exact.openings[0];
    assert!(!laid.in_hand, "the undermat is still to be cut");
    assert_eq!(laid.exact.outer, size("20x26"));
    assert_eq!(window.layers[0].sight.bounds.size, size("12x16"));
    assert_eq!(window.layers[0].borders, sides("4 9/16,4 3/16,5 7/16,3 13/16"));
    assert_eq!(window.sight.size, size("11 1/2x15 5/8"));
    assert_eq!(window.layers[1].offset, sides("3/16,1/4,3/16,1/4"));
    assert_eq!(window.overlap, sides("1 1/4,3/4,2 1/8,3/4"), "the picture as before");
}

/// The middle one of three: what is cut above it stays where it is.
#[test]
fn of_three_layers_the_middle_one() {
    let mut document = reference();
    let mat = &mut document.variants[0].mat;
    let undermat = mat.layers[1].clone();
    mat.layers.push(Layer { id: LayerId(7), ..undermat.clone() });
    mat.openings[0].offsets.insert(LayerId(7), sides("1/8"));
    let before = layout(&document, &document.variants[0].mat).exact;
    let (first, middle) = {
        let layers = &before.openings[0].layers;
        (layers[0].sight.bounds, layers[1].sight.bounds)
    };
    let measured = Measured {
        outer: None,
        layer: Some(undermat.id),
        sight: Size::new(middle.size.width, middle.size.height + inches("1/4")),
        left: middle.left() + inches("1/16"),
        top: middle.top(),
        seen: Seen::Front,
    };
    let command = as_cut(&document, VariantId(1), OpeningId(1), measured).unwrap();
    assert_eq!(apply(&mut document, &command), Ok(()));
    let after = layout(&document, &document.variants[0].mat).exact;
    let layers = &after.openings[0].layers;
    assert_eq!(layers[0].sight.bounds, first);
    assert_eq!(layers[1].sight.bounds.at.x, middle.left() + inches("1/16"));
    assert_eq!(layers[1].sight.bounds.size, measured.sight);
    assert_eq!(layers[2].offset, sides("1/4,1/8,1/4,1/8"));
    assert_eq!(after.openings[0].sight.size, before.openings[0].sight.size);
}

/// The reference mat without its undermat, its window cut 12 × 16 in: 1/2 in of paper shows on every
/// side, twice what was planned.
fn cut_too_large() -> Document {
    let mut document = double();
    let single = Command::RemoveLayer(VariantId(1), LayerId(2));
    assert_eq!(apply(&mut document, &single), Ok(()));
    let measured = Measured { layer: None, sight: size("12x16"), ..top_mat(Seen::Front) };
    let measured = Measured { left: inches("4"), top: inches("4 1/2"), ..measured };
    enter(&mut document, measured);
    document
}

/// Source: derived (D): an undermat with strips of 1/4 in within 12 × 16 in has a window of 11 1/2 ×
/// 15 1/2 in, and 1/4 in of the paper is left to be seen.
#[test]
fn a_undermat_rescues_a_window_that_was_cut_too_large() {
    let measured = cut_too_large();
    // The same, bought ready cut.
    let mut bought = measured.clone();
    bought.variants[0].mat.openings[0].cut.clear();
    for mut document in [measured, bought] {
        let before = laid(&document);
        assert!(before.in_hand && before.exact.openings[0].layers[0].done);
        let (id, opening) = (VariantId(1), OpeningId(1));
        let undermat = document.variants[0].mat.layers[0].clone();
        let undermat = Layer { id: LayerId(9), ..undermat };
        let add = Command::AddLayer(id, undermat, sides("1/4"));
        assert_eq!(apply(&mut document, &add), Ok(()));
        let after = laid(&document);
        assert!(!after.in_hand, "the undermat is still to be cut");
        assert_eq!(after.bench, after.exact, "on the ruler as it is");
        let window = &after.bench.openings[0];
        assert_eq!(window.layers[0], before.exact.openings[0].layers[0], "a fact");
        assert!(!window.layers[1].done);
        assert_eq!(window.sight.size, size("11 1/2x15 1/2"));
        assert_eq!(window.layers[1].offset, sides("1/4"));
        assert_eq!(window.reveal, sides("1/4"));
        let mat = &document.variants[0].mat;
        assert!(mat.is_made(LayerId(1)) && !mat.is_made(LayerId(9)));
        // Its strip can still be another.
        let other = Command::SetOffset(id, opening, LayerId(9), sides("3/16"));
        assert_eq!(apply(&mut document, &other), Ok(()));
        let window = &laid(&document).bench.openings[0];
        assert_eq!(window.layers[1].offset, sides("3/16"));
        assert_eq!(window.reveal, sides("5/16"));
        // And without it all is as it was.
        let remove = Command::RemoveLayer(id, LayerId(9));
        assert_eq!(apply(&mut document, &remove), Ok(()));
        assert_eq!(laid(&document).exact.openings[0].layers, before.exact.openings[0].layers);
    }
}

/// Source: derived (D): the undermat as measured has 4 3/4, 4 7/32, 5 3/4 and 4 7/32 in of border;
/// 3/16 in less at the sides lies between two marks, and the top mat's stops are on marks.
#[test]
fn above_a_measured_undermat_the_top_mat_is_cut_again() {
    let mut document = double();
    let measured = Measured {
        layer: None,
        sight: size("11 9/16x15 1/2"),
        left: inches("4 7/32"),
        top: inches("4 3/4"),
        ..top_mat(Seen::Front)
    };
    enter(&mut document, measured);
    let undermat = laid(&document).bench.openings[0].layers[1].clone();
    let anew = Command::CutAnew(VariantId(1), OpeningId(1), LayerId(1));
    assert_eq!(apply(&mut document, &anew), Ok(()));
    let after = laid(&document);
    assert!(!after.in_hand);
    let window = &after.bench.openings[0];
    assert!(!window.layers[0].done);
    assert_eq!(window.layers[1].borders, undermat.borders, "a fact");
    assert_eq!(window.layers[0].borders, sides("4 9/16,4 1/16,5 9/16,4 1/16"));
    assert_eq!(window.layers[1].offset, sides("3/16,5/32,3/16,5/32"));
    assert!(!document.variants[0].mat.is_made(LayerId(1)), "its blank is cut");
    // The undermat measured once more leaves the top mat to be cut.
    enter(&mut document, Measured { top: inches("4 25/32"), ..measured });
    assert!(!laid(&document).bench.openings[0].layers[0].done);
    // Of a mat that was bought ready cut, one layer is cut again.
    document.variants[0].mat.openings[0].cut.clear();
    assert!(laid(&document).bench.openings[0].layers[0].done);
    assert_eq!(apply(&mut document, &anew), Ok(()));
    let done: Vec<_> =
        laid(&document).bench.openings[0].layers.iter().map(|cut| cut.done).collect();
    assert_eq!(done, [false, true]);
}

/// All layers are measured on one board: a later one does not move what was measured before.
#[test]
fn a_second_board_is_refused() {
    let mut document = double();
    enter(&mut document, top_mat(Seen::Front));
    let undermat = Measured {
        outer: Some(size("20 1/16x26")),
        layer: Some(LayerId(2)),
        sight: size("11 1/2x15 1/2"),
        left: inches("4 1/4"),
        top: inches("4 3/4"),
        seen: Seen::Front,
    };
    let of =
        |document: &Document, measured| as_cut(document, VariantId(1), OpeningId(1), measured);
    assert_eq!(of(&document, undermat), None);
    let mat = &document.variants[0].mat;
    assert_eq!(
        undermat.refusal(mat, OpeningId(1), Unit::Inch).unwrap(),
        "you gave a board of 20 1/16 in × 26 in, but the top mat was cut from one of 20 in × \
         26 in, and all layers are measured on one board. Keep 20 in × 26 in, or have the top \
         mat cut again and enter it from the new board"
    );
    let same = Measured { outer: Some(size("20x26")), ..undermat };
    assert!(of(&document, same).is_some());
    // Alone, it is measured again with its board.
    let again = Measured { outer: Some(size("20 1/16x26")), ..top_mat(Seen::Back) };
    enter(&mut document, again);
    let top = &laid(&document).exact.openings[0].layers[0];
    assert_eq!(top.borders, sides("4 9/16,4,5 9/16,4 1/8"), "4 in from the back is the right");
}

/// A plan with more layers, and windows as they may come out of a cutter.
fn cuts() -> impl Strategy<Value = (Document, Vec<Measured>, [Length; 4])> {
    let um = |most: i64| (-most..most).prop_map(Length::um);
    let off = move || (um(2_000), um(2_000), um(3_000), um(3_000), any::<bool>(), 0_usize..4);
    let even = prop::option::of((500_i64..9_000).prop_map(Length::um));
    let more = [um(9_000), um(9_000), um(9_000), um(30_000)];
    (plans(), 0_u32..3, even, prop::collection::vec(off(), 1..4), more).prop_map(
        |(mut document, undermats, even, offs, more)| {
            let mat = &mut document.variants[0].mat;
            let opening = &mut mat.openings[0];
            let offset = even.map_or(opening.offset(LayerId(2)), Sides::all);
            for id in (2..).take(1 + usize::try_from(undermats).unwrap()) {
                if id > 2 {
                    mat.layers.push(Layer { id: LayerId(id), ..mat.layers[1].clone() });
                }
                opening.offsets.insert(LayerId(id), offset);
            }
            let bench = laid(&document).bench;
            let layers = &bench.openings[0].layers;
            let first = bench.outer;
            let measured = offs.into_iter().enumerate().map(|(n, off)| {
                let (wide, high, right, down, back, at) = off;
                // Boards are measured, too, with the first layer.
                let grown = Size::new(first.width + down.abs(), first.height + wide.abs());
                let outer = (n == 0 && high.is_positive()).then_some(grown);
                let cut = &layers[at % layers.len()];
                let sight = cut.sight.bounds.size;
                let seen = if back { Seen::Back } else { Seen::Front };
                Measured {
                    outer,
                    layer: Some(cut.layer),
                    sight: Size::new(sight.width + wide, sight.height + high),
                    left: cut.borders.left + right,
                    top: cut.borders.top + down,
                    seen,
                }
            });
            let measured = measured.collect();
            (document, measured, more)
        },
    )
}

/// Every strip that is told is the one that results; all adds up; what is cut is as measured.
fn sound(document: &Document, with_sheet: bool) -> Result<(), TestCaseError> {
    let laid = laid(document);
    let mat = &document.variants[0].mat;
    let step = document.ruler.step();
    // Written out it takes long: once a plan.
    let with_sheet = with_sheet.then(|| sheet(document, mat, &laid));
    let with_sheet = with_sheet.as_ref();
    for (figures, with_sheet) in [
        (&laid.exact, with_sheet.map(|with_sheet| &with_sheet.exact)),
        (&laid.bench, with_sheet.map(|with_sheet| &with_sheet.bench)),
    ] {
        let window = &figures.openings[0];
        for (index, cut) in window.layers.iter().enumerate() {
            let (sums, sight) = (cut.borders.sums(), cut.sight.bounds.size);
            prop_assert_eq!(sums.width + sight.width, figures.outer.width);
            prop_assert_eq!(sums.height + sight.height, figures.outer.height);
            if let Some(as_cut) = mat.openings[0].cut.get(&cut.layer) {
                prop_assert_eq!((sight, cut.borders), (as_cut.sight, as_cut.borders));
                prop_assert!(cut.done);
            } else if !laid.in_hand && std::ptr::eq(figures, &raw const laid.bench) {
                let on = cut.borders.each().iter().all(|(_, border)| border.is_on(step));
                prop_assert!(on, "{:?}", cut.borders);
            }
            let Some(above) = index.checked_sub(1).map(|above| &window.layers[above]) else {
                continue;
            };
            let results = cut.borders.minus(above.borders);
            prop_assert_eq!(cut.offset, results);
            let Some(with_sheet) = with_sheet else { continue };
            let said = &with_sheet.openings[0].layers[index].offset;
            let said = [said.top_mm, said.right_mm, said.bottom_mm, said.left_mm];
            for ((_, strip), said) in results.each().into_iter().zip(said) {
                prop_assert!((strip.to_mm() - said).abs() < 1e-9);
            }
        }
    }
    let (exact, bench) = (&laid.exact.openings[0], &laid.bench.openings[0]);
    for (side, asked) in exact.overlap.each() {
        prop_assert!(bench.overlap.of(side) >= asked, "{:?}", side);
    }
    // As even as the marks allow: what differs is wished, or no more than a step of the ruler.
    let pairs = exact.layers.iter().zip(&bench.layers).enumerate();
    for (index, (exact, bench)) in pairs {
        if mat.follows_what_is_cut(&mat.openings[0], index)
            && mat.is_cut(&mat.openings[0], index - 1)
        {
            let odd = |cut: &Cut| {
                [cut.offset.left - cut.offset.right, cut.offset.top - cut.offset.bottom]
            };
            for (exact, bench) in odd(exact).into_iter().zip(odd(bench)) {
                prop_assert!((bench - exact).abs() <= step + Length::from_units(2));
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100_000))]

    #[test]
    fn every_strip_is_the_one_that_results((mut document, cuts, more) in cuts()) {
        let (id, opening) = (VariantId(1), OpeningId(1));
        for measured in cuts {
            enter(&mut document, measured);
            sound(&document, false)?;
            let as_cut = document.variants[0].mat.openings[0].cut[&measured.layer.unwrap()];
            let left = match measured.seen {
                Seen::Front => as_cut.borders.left,
                Seen::Back => as_cut.borders.right,
            };
            prop_assert_eq!((as_cut.sight, as_cut.borders.top, left),
                (measured.sight, measured.top, measured.left));
        }
        let cut = document.variants[0].mat.openings[0].cut.clone();
        let [top, right, bottom, wide] = more;
        let size = document.variants[0].mat.cut_board().unwrap();
        let size = Size::new(size.width + wide, size.height);
        let reveal = WindowBy::Reveal(Sides::new(top, right, bottom, top));
        let undermat = document.variants[0].mat.layers.last().unwrap().id;
        let offset = Sides::new(bottom.abs(), top.abs(), top.abs(), right.abs());
        let with_sheet = [true, false, false];
        for (change, with_sheet) in [
            Command::SetOffset(id, opening, undermat, offset),
            Command::SetWindowBy(id, opening, reveal),
            Command::SetBoardBy(id, BoardBy::Outer { size, placement: Placement::Centred }),
        ].into_iter().zip(with_sheet) {
            prop_assert_eq!(apply(&mut document, &change), Ok(()));
            sound(&document, with_sheet)?;
            prop_assert_eq!(&document.variants[0].mat.openings[0].cut, &cut);
        }
        // On another board none is measured any more, unless it was the only one.
        let mat = &document.variants[0].mat;
        let layers = laid(&document).bench.openings[0].layers.clone();
        for layer in &layers {
            let board = Size::new(size.width + Length::um(1), size.height);
            let measured = Measured {
                outer: Some(board),
                layer: Some(layer.layer),
                sight: layer.sight.bounds.size,
                left: layer.borders.left,
                top: layer.borders.top,
                seen: Seen::Front,
            };
            let others = cut.keys().any(|id| *id != layer.layer);
            let refusal = measured.refusal(mat, opening, document.unit).is_some();
            prop_assert_eq!(refusal, others && board != mat.cut_board().unwrap());
        }
        // An undermat more lies within what is cut; one cut again follows what is left of it.
        let room = layers.len() < Mat::MOST_LAYERS;
        let new = LayerId(90);
        if room {
            let layer = Layer { id: new, ..mat.layers[0].clone() };
            let was = laid(&document).exact.openings[0].clone();
            let add = Command::AddLayer(id, layer, offset);
            prop_assert_eq!(apply(&mut document, &add), Ok(()));
            sound(&document, false)?;
            let now = laid(&document).exact.openings[0].clone();
            prop_assert_eq!(&document.variants[0].mat.openings[0].cut, &cut);
            let added = now.layers.last().unwrap();
            prop_assert!(!added.done);
            prop_assert_eq!(now.reveal, was.reveal.minus(offset));
        }
        for layer in &layers {
            let anew = Command::CutAnew(id, opening, layer.layer);
            prop_assert_eq!(apply(&mut document, &anew), Ok(()));
            sound(&document, false)?;
            let laid = laid(&document);
            let with_sheet = laid.bench.openings[0].layers.iter().find(|cut| cut.layer == layer.layer);
            prop_assert!(!with_sheet.unwrap().done);
            let left = &document.variants[0].mat.openings[0].cut;
            prop_assert!(left.iter().all(|(id, as_cut)| cut.get(id) == Some(as_cut)));
        }
    }
}
