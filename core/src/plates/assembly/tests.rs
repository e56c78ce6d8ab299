use proptest::prelude::*;

use super::super::package;
use super::*;
use crate::derived::{Derived, derive};
use crate::drawing::{Dimension, Item, Text};
use crate::material::Tables;
use crate::sample::{inches, plain, plans, reference, sides, size};
use crate::spec::{Document, HingeAt, HingeKind, WindowBy};

const HEIGHT: Length = Length::mm(3);

fn derived(document: &Document) -> Derived {
    derive(document, &document.variants[0], Tables::shipped())
}

fn drawn(document: &Document, way: AssemblyView, air: Option<HumidityShown>) -> Drawing {
    let derived = derived(document);
    let of = Subject {
        mat: &document.variants[0].mat,
        layout: &derived.layout,
        sheets: &derived.assembly.sheets,
    };
    assembly(way, of, air, &Look::default(), document.unit, HEIGHT)
}

fn fills(drawing: &Drawing) -> Vec<Rect> {
    let items = drawing.items.iter();
    items
        .filter_map(|item| match item {
            Item::Fill(fill) => Some(fill.path.bounds()),
            _ => None,
        })
        .collect()
}

fn texts(drawing: &Drawing) -> Vec<&Text> {
    let items = drawing.items.iter();
    items
        .filter_map(|item| if let Item::Text(text) = item { Some(text) } else { None })
        .collect()
}

/// The reference piece with its hinges where a person put them.
fn hinged() -> Document {
    let mut document = reference();
    let at = |x: &str, locates| HingeAt { x: inches(x), locates };
    document.variants[0].mat.assembly.hinging.at = vec![at("2", true), at("11", false)];
    document
}

/// Source: the reference piece, worked out by hand (D): the sheet lies 3 1/4 in from the left
/// and 3 3/4 in from the right of a 20 in board, seen from the front.
#[test]
fn left_and_right_change_places_and_nothing_else() {
    let document = hinged();
    let lifted = fills(&drawn(&document, AssemblyView::MatLifted, None));
    let turned = fills(&drawn(&document, AssemblyView::TurnedOver, None));
    let sheet =
        |left: &str| Rect::new(Point::new(inches(left), inches("3 7/16")), size("13x19"));
    assert!(lifted.contains(&sheet("3 1/4")), "{lifted:?}");
    assert!(turned.contains(&sheet("3 3/4")), "{turned:?}");
    // The tab at 2 in of a tab 1 1/2 in wide: 3 1/4 + 2 - 3/4 from the left.
    let tab = derived(&document).assembly.sheets[0].hinges.hinges[0].tab;
    assert_eq!(tab.left(), inches("4 1/2"));
    assert!(lifted.contains(&tab));
    let seen = AssemblyView::TurnedOver.seen(tab, size("20x26"));
    assert_eq!(seen.right(), inches("20 - 4 1/2"));
    assert!(turned.contains(&seen));
}

/// Source: the reference piece, worked out by hand (D): the sheet lies 3 1/4 and 3 7/16 in from the
/// left and from the top; a tab of 1 1/2 in about 2 in of its edge holds 3/16 in of it. From the
/// front the sheet hides that, so it is dashed.
#[test]
fn what_of_a_tab_the_sheet_hides_is_dashed() {
    let drawing = drawn(&hinged(), AssemblyView::MatLifted, None);
    let dashed: Vec<Rect> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Line(line) if line.pen == Pen::Hidden => Some(around_all(&line.points)),
            _ => None,
        })
        .collect();
    let tab =
        |left: &str| Rect::new(Point::new(inches(left), inches("3 7/16")), size("1 1/2x3/16"));
    for held in [tab("4 1/2"), tab("13 1/2")] {
        assert!(dashed.contains(&held), "{held:?} of {dashed:?}");
    }
}

/// The rectangle round some points.
fn around_all(points: &[Point]) -> Rect {
    let rects = points.iter().map(|point| Rect::new(*point, Size::default()));
    rects.reduce(around).unwrap()
}

/// Source: the reference piece, worked out by hand (D): stops from the back, as the maker
/// sees them: top 4 1/2, right 3 13/16, bottom 5 1/2, left 4 5/16 in.
#[test]
fn stops_stand_where_the_maker_sees_them() {
    let drawing = drawn(&reference(), AssemblyView::TurnedOver, None);
    let stop = |words: &str| {
        let texts = texts(&drawing);
        texts.iter().find(|text| text.text == words).map(|text| text.at).unwrap()
    };
    let board = size("20x26");
    let half = |of: &str| inches(of).halves().0;
    assert_eq!(stop("stop 4 1/2 in").y, half("4 1/2"));
    assert_eq!(stop("stop 5 1/2 in").y, board.height - half("5 1/2"));
    assert_eq!(stop("stop 3 13/16 in").x, board.width - half("3 13/16"));
    assert_eq!(stop("stop 4 5/16 in").x, half("4 5/16"));
    assert!(
        !texts(&drawn(&reference(), AssemblyView::MatLifted, None))
            .iter()
            .any(|text| text.text.starts_with("stop"))
    );
}

/// Every hinge's place stands beside it, from the sheet's left edge as one looks at it.
#[test]
fn places_are_named() {
    let document = hinged();
    for way in [AssemblyView::TurnedOver, AssemblyView::MatLifted] {
        let drawing = drawn(&document, way, None);
        let named = texts(&drawing);
        for hinge in &derived(&document).assembly.sheets[0].hinges.hinges {
            let x =
                if way == AssemblyView::TurnedOver { inches("13") - hinge.x } else { hinge.x };
            let text = x.text(Unit::Inch);
            let found = named.iter().find(|one| one.text == text).unwrap();
            let middle = hinge.tab.left() + hinge.width.halves().0;
            let middle = way.point(Point::new(middle, Length::ZERO), size("20x26")).x;
            assert_eq!(found.at.x, middle);
        }
    }
}

/// Source: derived (D), the worked example of the trade reference: at 30 % the right edge of
/// the 17 in sheet goes 1.219 mm inwards, so ten times as large 12.19 mm.
#[test]
fn movement_is_drawn_as_many_times_larger_as_is_said() {
    let document = crate::rules::worked_example();
    let at = |now: &str, times| {
        let now = Humidity::read(now).unwrap();
        let drawing =
            drawn(&document, AssemblyView::MatLifted, Some(HumidityShown { now, times }));
        let derived = derived(&document);
        let sheet = derived.layout.exact.openings[0].sheet;
        let all = fills(&drawing);
        let found = all.iter().find(|rect| {
            (rect.size.height - sheet.size.height).abs() < Length::mm(10)
                && (rect.size.width - sheet.size.width).abs() < Length::mm(15)
        });
        sheet.right() - found.unwrap().right()
    };
    assert_eq!(at("50", 10), Length::ZERO);
    assert_eq!(at("30", 1), inches("1.2192mm"));
    assert_eq!(at("30", 10), inches("12.192mm"));
}

#[test]
fn pockets_and_strips_hold_without_glue() {
    let mut document = plain("13x19");
    let mat = &mut document.variants[0].mat;
    mat.openings[0].window_by = WindowBy::Reveal(sides("-1/2"));
    mat.assembly.hinging.kind = Some(HingeKind::Corners);
    let triangles = |drawing: &Drawing| {
        let three = |item: &&Item| matches!(item, Item::Fill(it) if it.path.points.len() == 3);
        drawing.items.iter().filter(three).count()
    };
    assert_eq!(triangles(&drawn(&document, AssemblyView::MatLifted, None)), 4);
    document.variants[0].mat.assembly.hinging.kind = Some(HingeKind::Strips);
    let strips = drawn(&document, AssemblyView::TurnedOver, None);
    assert_eq!(triangles(&strips), 0);
    let plan = &derived(&document).assembly.sheets[0].hinges;
    let wide = plan.reach + plan.slack + crate::hinges::Usual::of(document.unit).cross;
    let long = |rect: &&Rect| rect.size.height == wide || rect.size.width == wide;
    assert_eq!(fills(&strips).iter().filter(long).count(), 4);
}

/// Source: framing tips for works on paper: 1/8 acrylic + 1/16 mat + 3/16 foam board = 3/8 in.
#[test]
fn the_package_is_drawn_to_scale() {
    let mut document = plain("8x10");
    let tables = Tables::shipped();
    document.variants[0].mat.assembly.package.frame = tables.frame("gallery-wood").cloned();
    let packed = derived(&document).assembly.package.unwrap();
    let drawing = package(&packed, Unit::Inch, HEIGHT);
    let dimensions: Vec<&Dimension> = drawing
        .items
        .iter()
        .filter_map(|item| if let Item::Dimension(it) = item { Some(&**it) } else { None })
        .collect();
    let [depth, rabbet] = dimensions.as_slice() else { panic!("{dimensions:?}") };
    assert_eq!(depth.ends[1].y - depth.ends[0].y, packed.depth);
    assert_eq!(rabbet.ends[1].y - rabbet.ends[0].y, inches("1/2"));
    // Layers lie upon each other from the rabbet's wall, in their order and without a gap.
    let stack: Vec<Rect> =
        fills(&drawing).into_iter().filter(|rect| rect.left() == Length::ZERO).collect();
    let thick = packed.layers.iter().filter(|layer| layer.thickness.is_positive());
    let mut top = Length::ZERO;
    for (rect, layer) in stack.iter().zip(thick) {
        assert_eq!((rect.top(), rect.size.height), (top, layer.thickness), "{}", layer.name);
        top += layer.thickness;
    }
    assert_eq!(top, packed.depth);
    // A frame that was not measured has no depth to dimension.
    document.variants[0].mat.assembly.package.frame =
        Some(crate::package::unmeasured("Own", document.unit));
    let packed = derived(&document).assembly.package.unwrap();
    let drawing = package(&packed, Unit::Inch, HEIGHT);
    let count = drawing.items.iter().filter(|item| matches!(item, Item::Dimension(_))).count();
    assert_eq!(count, 1);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn turned_twice_is_as_it_was(document in plans(), x in -9_999_i64..9_999_999, y in 0_i64..99) {
        let outer = derived(&document).layout.exact.outer;
        let rect = Rect::new(Point::new(Length::um(x), Length::um(y)), Size::new(Length::um(y), Length::um(x)));
        for way in [AssemblyView::TurnedOver, AssemblyView::MatLifted] {
            prop_assert_eq!(way.seen(way.seen(rect, outer), outer), rect);
            prop_assert_eq!(way.point(way.point(rect.at, outer), outer), rect.at);
        }
    }
}

/// Nonsense is drawn as it stands, too.
#[test]
fn anything_can_be_drawn() {
    for document in super::super::nonsense() {
        for now in [0, 500, 1000] {
            let air = Humidity::from_tenths(now).map(|now| HumidityShown { now, times: 10 });
            for way in [AssemblyView::TurnedOver, AssemblyView::MatLifted] {
                drawn(&document, way, air);
            }
        }
        if let Some(packed) = derived(&document).assembly.package {
            package(&packed, document.unit, HEIGHT);
        }
    }
}
