//! The board's size and borders, and where the window lies in it.

use sightedge_core::geometry::{Rect, Sides};
use sightedge_core::layout::layout;
use sightedge_core::length::Length;
use sightedge_core::material::Tables;
use sightedge_core::spec::{
    BoardBy, Document, Mat, Placement, Weight, held_by, standard_border, usual_outer,
};

use super::super::lengths::{Lengths, MOST};
use super::super::outcome::CliError;
use super::Wants;
use super::options::Board;

pub(super) fn placement(board: &Board, lengths: Lengths) -> Result<Placement, CliError> {
    if let Some(extra) = lengths.length(board.bottom_extra.as_ref())? {
        return Ok(Placement::BottomExtra(extra));
    }
    Ok(match board.bottom_ratio {
        Some(weight) => Placement::BottomRatio(weight),
        None if board.optical => Placement::Optical,
        None => Placement::Centred,
    })
}

/// What is given of the outer size and the borders, or what is taken instead.
pub(super) fn fixing(
    document: &Document,
    wants: &Wants,
    tables: &Tables,
    said: &mut Vec<String>,
) -> BoardBy {
    let (unit, placement) = (document.unit, wants.placement);
    match (wants.outer, wants.border) {
        (Some(size), _) => return BoardBy::Outer { size, placement },
        (None, Some(borders)) => return BoardBy::Borders(borders),
        (None, None) => {}
    }
    let least = standard_border(unit);
    let neither = "neither --outer nor --border was given";
    let fixed = |board_by: BoardBy| {
        let mat = Mat { board_by, ..document.variants[0].mat.clone() };
        let figures = layout(document, &mat).exact;
        let window = &figures.openings[0];
        let on_board = window.sheet.within(Rect::at_origin(figures.outer));
        (window.layers[0].clone(), window.sheet, on_board)
    };
    let (top, sheet, _) = fixed(BoardBy::Borders(Sides::all(least)));
    let window = top.sight.bounds;
    let held = held_by(window.size, window.within(sheet));
    // The sheet lies whole on the board: what stands out beyond it would be crushed.
    let holds = |size| {
        let (top, _, on_board) = fixed(BoardBy::Outer { size, placement });
        top.borders.least() >= least && !on_board.least().is_negative()
    };
    if let Some(usual) = usual_outer((window.size, held), unit, tables, holds) {
        said.push(format!("{neither}: {}", usual.words(unit)));
        return BoardBy::Outer { size: usual.size, placement };
    }
    let text = least.text(unit);
    let left_out = match placement {
        Placement::Optical => "; --optical is left out, because it needs an outer size",
        _ => "",
    };
    said.push(format!(
        "{neither}, and no standard size is large enough: the borders are {text}{left_out}"
    ));
    BoardBy::Borders(borders(placement, least))
}

/// Borders of at least `least`, the bottom as heavy as `placement` wants it.
fn borders(placement: Placement, least: Length) -> Sides<Length> {
    let (top, bottom) = match placement {
        Placement::BottomExtra(extra) if extra.is_negative() => (least - extra, least),
        Placement::BottomExtra(extra) => (least, least + extra),
        Placement::BottomRatio(Weight { bottom, top }) => {
            let part = |part: u32| least.scaled(part.into(), bottom.min(top).into()).min(MOST);
            (part(top), part(bottom))
        }
        Placement::Centred | Placement::Optical | Placement::Free { .. } => (least, least),
    };
    Sides::new(top, least, bottom, least)
}
