//! How two mats of one picture differ, in words: what a client beside two of them would ask.

use crate::geometry::{Side, Sides};
use crate::layout::layout;
use crate::length::{Length, Unit};
use crate::spec::{Document, Layer, Mat};

/// How `mat` differs from `other`, each a short phrase about `mat`: `mat 20 × 26 in, not 18 ×
/// 24 in`, `bottom border 1/2 in wider`, `undermat Slate, 4-ply, not White cotton, 4-ply`.
/// Nothing where a client would see no difference.
///
/// Borders are those of the top mat, on the ruler the person cuts by.
pub fn differences(document: &Document, mat: &Mat, other: &Mat) -> Vec<String> {
    let unit = document.unit;
    let [own, others] = [mat, other].map(|mat| layout(document, mat).bench);
    let mut found = Vec::new();
    if own.outer != others.outer {
        let [own, others] =
            [own.outer, others.outer].map(|size| size.extent_text(|side| side.text(unit)));
        found.push(format!("mat {own}, not {others}"));
    }
    if let (Some(own), Some(others)) = (own.openings.first(), others.openings.first()) {
        if let (Some(own), Some(others)) = (own.layers.first(), others.layers.first()) {
            let wider = ["wider", "narrower"];
            changed(&mut found, "border", own.borders.minus(others.borders), wider, unit);
        }
        let more = ["more", "less"];
        changed(&mut found, "reveal", own.reveal.minus(others.reveal), more, unit);
    }
    layers(&mut found, mat, other);
    for (index, (own, others)) in mat.layers.iter().zip(&other.layers).enumerate().skip(1) {
        let offset = |mat: &Mat, layer: &Layer| {
            mat.openings.first().and_then(|opening| opening.offsets.get(&layer.id).copied())
        };
        if let (Some(own), Some(others)) = (offset(mat, own), offset(other, others)) {
            let what = format!("of {} showing", mat.the_layer(index));
            changed(&mut found, &what, own.minus(others), ["more", "less"], unit);
        }
    }
    let frame = |mat: &Mat| mat.assembly.package.frame.as_ref().map(|frame| frame.name.clone());
    named(&mut found, "frame", frame(mat), frame(other));
    let glazing =
        |mat: &Mat| mat.assembly.package.glazing.as_ref().map(|glazing| glazing.name.clone());
    named(&mut found, "glazing", glazing(mat), glazing(other));
    found
}

/// Boards and cuts, layer by layer, and layers that only one of the two has.
fn layers(found: &mut Vec<String>, mat: &Mat, other: &Mat) {
    for (index, layer) in mat.layers.iter().enumerate() {
        let name = mat.layer_name(index).to_lowercase();
        match other.layers.get(index) {
            Some(others) => {
                if layer.board.name != others.board.name {
                    found.push(format!(
                        "{name} {}, not {}",
                        layer.board.name, others.board.name
                    ));
                } else if layer.board.colour != others.board.colour {
                    found.push(format!("{name} in another colour"));
                }
                if layer.bevel != others.bevel {
                    found.push(format!("{name} with another bevel"));
                }
            }
            None => found.push(format!("with {} {}", name, layer.board.name)),
        }
    }
    for index in mat.layers.len()..other.layers.len() {
        found.push(format!("without {}", other.layer_name(index).to_lowercase()));
    }
}

/// Something that both, one or none of them has.
fn named(found: &mut Vec<String>, what: &str, own: Option<String>, others: Option<String>) {
    match (own, others) {
        (Some(own), Some(others)) if own != others => {
            found.push(format!("{what} {own}, not {others}"));
        }
        (Some(own), None) => found.push(format!("{what} {own}")),
        (None, Some(_)) => found.push(format!("no {what}")),
        _ => {}
    }
}

/// What differs on some sides, those that differ alike under one phrase.
fn changed(
    found: &mut Vec<String>,
    what: &str,
    by: Sides<Length>,
    [more, less]: [&str; 2],
    unit: Unit,
) {
    let mut left: Vec<Side> =
        Side::ALL.into_iter().filter(|side| by.of(*side) != Length::ZERO).collect();
    while let Some(first) = left.first().copied() {
        let length = by.of(first);
        let (alike, rest): (Vec<Side>, Vec<Side>) =
            left.into_iter().partition(|side| by.of(*side) == length);
        left = rest;
        let sides = match alike.as_slice() {
            [_, _, _, _] => "all round".to_owned(),
            [Side::Right, Side::Left] => "at the sides".to_owned(),
            [Side::Top, Side::Bottom] => "at the top and bottom".to_owned(),
            sides => {
                let names: Vec<_> = sides.iter().map(|side| side.name()).collect();
                match names.as_slice() {
                    [rest @ .., last] if !rest.is_empty() => {
                        format!("at the {} and {last}", rest.join(", "))
                    }
                    names => format!("at the {}", names.join(", ")),
                }
            }
        };
        let how = if length > Length::ZERO { more } else { less };
        let length = if length > Length::ZERO { length } else { -length };
        found.push(match what {
            "border" => format!("borders {} {how} {sides}", length.text(unit)),
            _ => format!("{} {how} {what} {sides}", length.text(unit)),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::{Command, apply};
    use crate::geometry::Size;
    use crate::length::{parse, parse_list};
    use crate::material::Tables;
    use crate::sample::reference;
    use crate::spec::{BoardBy, LayerId, OpeningId, WindowBy};

    #[track_caller]
    fn case(commands: &[Command], wanted: &[&str]) {
        let before = reference();
        let mut after = before.clone();
        for command in commands {
            apply(&mut after, command).unwrap();
        }
        let [mat, other] = [&after, &before].map(|plan| &plan.chosen().unwrap().mat);
        assert_eq!(differences(&before, mat, other), wanted, "{commands:?}");
    }

    fn inches(text: &str) -> Length {
        parse(text, Unit::Inch).unwrap()
    }

    /// Top, right, bottom, left.
    fn sides(text: &str) -> Sides<Length> {
        let all = parse_list(text, Unit::Inch).unwrap();
        Sides { top: all[0], right: all[1], bottom: all[2], left: all[3] }
    }

    #[test]
    fn what_differs_is_said_once() {
        let document = reference();
        let id = document.chosen;
        let opening = OpeningId(1);
        let layers: Vec<LayerId> =
            document.variants[0].mat.layers.iter().map(|layer| layer.id).collect();
        let borders = |text: &str| Command::SetBoardBy(id, BoardBy::Borders(sides(text)));
        case(&[], &[]);
        // The reference piece: top 4 1/2, right 4 5/16, bottom 5 1/2, left 3 13/16.
        case(
            &[borders("4 1/2,4 5/16,6 1/4,3 13/16")],
            &["mat 20 × 26 3/4 in, not 20 × 26 in", "borders 3/4 in wider at the bottom"],
        );
        case(
            &[borders("4,3 13/16,5,3 5/16")],
            &["mat 19 × 25 in, not 20 × 26 in", "borders 1/2 in narrower all round"],
        );
        let slate = Tables::shipped().board("pulp-4-slate").cloned();
        let other = document.variants[0].mat.layers[1].board.name.clone();
        case(
            &[Command::SetBoard(id, layers[1], slate.unwrap())],
            &[&format!("undermat Slate, 4-ply, not {other}")],
        );
        // The window stays where it is: the reference piece's borders are its top mat's.
        case(
            &[Command::RemoveLayer(id, layers[1])],
            &["mat 19 5/8 × 25 5/8 in, not 20 × 26 in", "without undermat"],
        );
        case(
            &[Command::SetOffset(id, opening, layers[1], Sides::all(inches("1/4")))],
            &[
                "mat 20 1/8 × 26 1/8 in, not 20 × 26 in",
                "1/16 in more of the undermat showing all round",
            ],
        );
        let size = Size::new(inches("20"), inches("26"));
        assert_eq!(size.extent_text(|side| side.text(Unit::Inch)), "20 × 26 in");
        let reveal = WindowBy::Reveal(sides("1/4,1/4,1/4,1/4"));
        case(
            &[Command::SetWindowBy(id, opening, reveal)],
            &["mat 20 × 25 7/8 in, not 20 × 26 in", "1/8 in less reveal at the bottom"],
        );
    }
}
