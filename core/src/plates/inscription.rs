//! What is written on the print and on its mat, as lines and words for whatever shows drawings:
//! the front as one stands before it, the back of the sheet as one sees it, mirrored.

use super::assembly::AssemblyView;
use crate::assembly::Sheet;
use crate::drawing::{Align, Baseline, Drawing, Item, Line, Pen, Text, TextRole, around};
use crate::geometry::{Point, Rect};
use crate::inscription::{HAND, Inscription, LINE, SIGNATURE, Written};
use crate::layout::Layout;
use crate::length::Length;

/// What is written on the front alone, to be laid over the matted picture.
pub fn on_front(inscription: &Inscription) -> Vec<Item> {
    let mut items = Vec::new();
    for one in &inscription.front {
        written(&mut items, one, |place| place);
    }
    items
}

/// What is written on the sheet's back alone, to be laid over the board turned over.
pub fn on_back(inscription: &Inscription, layout: &Layout) -> Vec<Item> {
    let outer = layout.exact.outer;
    let mut items = Vec::new();
    for one in &inscription.back {
        written(&mut items, one, |place| AssemblyView::TurnedOver.seen(place, outer));
    }
    items
}

/// The front of the board, window and image in outline, with what is written there.
pub fn front(inscription: &Inscription, layout: &Layout) -> Drawing {
    let exact = &layout.exact;
    let mut items = Vec::new();
    outline(&mut items, Rect::at_origin(exact.outer), Pen::Edge);
    for window in &exact.openings {
        outline(&mut items, window.sight, Pen::Edge);
        outline(&mut items, window.image, Pen::Hidden);
    }
    items.extend(on_front(inscription));
    Drawing { bounds: Rect::at_origin(exact.outer), ground: None, items }
}

/// The back of the print's sheet with its tabs and what is written there.
pub fn back(inscription: &Inscription, layout: &Layout, sheets: &[Sheet]) -> Drawing {
    let outer = layout.exact.outer;
    let mirrored = |place: Rect| AssemblyView::TurnedOver.seen(place, outer);
    let mut items = Vec::new();
    let mut bounds = Rect::at_origin(outer);
    if let Some(window) = layout.exact.openings.first() {
        bounds = mirrored(window.sheet);
        outline(&mut items, bounds, Pen::Edge);
        outline(&mut items, mirrored(window.image), Pen::Hidden);
        let held = sheets.iter().find(|sheet| sheet.hinges.opening == window.id);
        for hinge in held.iter().flat_map(|sheet| &sheet.hinges.hinges) {
            let tab = mirrored(hinge.tab);
            bounds = around(bounds, tab);
            outline(&mut items, tab, Pen::Fine);
        }
    }
    items.extend(on_back(inscription, layout));
    Drawing { bounds, ground: None, items }
}

fn outline(items: &mut Vec<Item>, rect: Rect, pen: Pen) {
    if rect.size.is_positive() {
        items.push(Item::Line(Line { points: rect.path().points, closed: true, pen }));
    }
}

fn written(items: &mut Vec<Item>, one: &Written, seen: impl Fn(Rect) -> Rect) {
    let place = seen(one.place);
    let foot: Length = place.bottom() - (LINE - HAND).halves().0;
    if !one.text.is_empty() {
        items.push(Item::Text(Text {
            text: one.text.clone(),
            role: TextRole::Hand,
            at: Point::new(place.left(), foot),
            align: Align::Start,
            baseline: Baseline::On,
            turned: false,
            height: HAND,
        }));
    }
    if one.sign {
        let points = vec![
            Point::new(place.right() - SIGNATURE + HAND, foot),
            Point::new(place.right(), foot),
        ];
        items.push(Item::Line(Line { points, closed: false, pen: Pen::Fine }));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Kind, Notation};
    use crate::derived::derive;
    use crate::material::Tables;
    use crate::sample::reference;
    use crate::spec::{Front, Inscribed, Lettering, Recorded};

    fn at(items: &[Item], wanted: &str) -> Point {
        let found = items.iter().find_map(|item| match item {
            Item::Text(text) if text.text == wanted => Some(text.at),
            _ => None,
        });
        found.unwrap()
    }

    /// The back is drawn as one sees it: what is at the sheet's right from the front is at its
    /// left there.
    #[test]
    fn both_sides_are_drawn() {
        let mut document = reference();
        document.inscribed = Some(Inscribed {
            lettering: Lettering { front: Front::Mat, ..Lettering::default() },
            recorded: Recorded {
                title: "Slack water".to_owned(),
                notation: Some(Notation { kind: Kind::Numbered, number: 3, of: 25 }),
                ..Recorded::default()
            },
        });
        let derived = derive(&document, document.chosen().unwrap(), Tables::shipped());
        let made = derived.inscription.unwrap();
        let (layout, sheets) = (&derived.layout, &derived.assembly.sheets);
        let drawn = back(&made, layout, sheets);
        let title = at(&drawn.items, "Slack water");
        let sheet = layout.exact.openings[0].sheet;
        assert_eq!(title.x, layout.exact.outer.width - made.back[0].place.right());
        assert_eq!(title.x, drawn.bounds.left() + crate::inscription::CLEAR);
        assert_eq!(drawn.bounds.size.width, sheet.size.width);
        assert!(drawn.bounds.top() < sheet.top(), "the tabs above it too");
        let turned = |item: &Item| matches!(item, Item::Text(text) if text.turned);
        assert!(!drawn.items.iter().any(turned), "one writes along the sheet");
        let drawn = front(&made, layout);
        assert_eq!(at(&drawn.items, "3/25").x, made.front[0].place.left());
        assert!(drawn.items.len() >= 5);
    }
}
