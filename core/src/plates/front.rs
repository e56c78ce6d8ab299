//! The matted picture, face on.

use super::{Look, frame, light};
use crate::drawing::{
    BevelFace, Board, Cutout, Drawing, Fill, Item, Picture, Tone, linear_from_srgb, mitred,
};
use crate::geometry::{Rect, Side, Sides};
use crate::layout::{Cut, Figures, Window};
use crate::length::Length;
use crate::package::Packed;
use crate::spec::{Bevel, Layer, Mat};

/// How far a floated sheet stands above the board it is hinged to (from memory).
const LIFT: Length = Length::um(900);

/// The matted picture face on: its boards, bevels and shadows, the sheet where it shows, the
/// picture, on the surround. `figures` are the exact ones or the bench's of `mat`'s layout.
pub fn front(mat: &Mat, figures: &Figures, look: &Look) -> Drawing {
    finished(mat, figures, None, look)
}

/// The same in its frame, where the package has one: the lip hides what it hides of the mat. The
/// board's top left corner stays the origin.
pub fn finished(mat: &Mat, figures: &Figures, packed: Option<&Packed>, look: &Look) -> Drawing {
    let board = Rect::at_origin(figures.outer);
    let round = packed.and_then(|packed| frame::round(board, packed));
    let whole = round.as_ref().map_or(board, |round| round.moulding.outer);
    let margin = whole.size.long().scaled(i128::from(look.margin), 1000);
    let surround = linear_from_srgb(f32::from(look.surround) / 255.0);
    let mut items = Vec::with_capacity(8 + 4 * figures.openings.len() + 3 * mat.layers.len());
    if board.size.is_positive() {
        let height = mat.layers.iter().map(|layer| layer.board.thickness).sum::<Length>()
            + mat.backing.board.thickness;
        let shadows = match &round {
            Some(round) => frame::shadows(round),
            None => light::under_board(board, height),
        };
        items.extend(shadows.map(Item::Shadow));
        if let Some(round) = &round {
            // Where the mat does not reach under the lip one looks past it, into the dark.
            let opening = round.moulding.opening();
            if !covers(board, opening) {
                items.push(Fill::rect(opening, Tone::grey(0.012)));
            }
        }
        let tuck = tuck(figures, board);
        for window in &figures.openings {
            under_the_mat(mat, window, tuck, look, &mut items);
        }
        layers(mat, figures, tuck, look, &mut items);
        if let Some(round) = round {
            let shade =
                light::in_window(round.moulding.opening(), round.above, Bevel::Straight);
            items.extend([Item::Shade(shade), Item::Moulding(Box::new(round.moulding))]);
        }
    }
    Drawing {
        bounds: whole.outset(Sides::all(margin)),
        ground: Some(Tone::grey(surround)),
        items,
    }
}

/// How far what lies under the top layer stays hidden behind the board's edge. An undermat's
/// blank is cut 1/4 in smaller on each side (common practice); less where a border is narrow.
fn tuck(figures: &Figures, board: Rect) -> Length {
    let cuts = figures.openings.iter().flat_map(|window| &window.layers);
    let room = cuts.map(|cut| cut.face.bounds.within(board).least()).min();
    room.unwrap_or_default().scaled(1, 4).min(Length::inches(0, 1, 4)).max(Length::ZERO)
}

/// What is seen through one window: the mount board round a float, the sheet, the picture.
/// It may run on under the mat.
fn under_the_mat(mat: &Mat, window: &Window, tuck: Length, look: &Look, items: &mut Vec<Item>) {
    let Window { sight, sheet, image, .. } = *window;
    if !sight.size.is_positive() {
        return;
    }
    if !covers(sheet, sight) {
        items.push(Fill::rect(sight.outset(Sides::all(tuck)), mat.backing.board.colour.into()));
        items.push(Item::Shadow(light::under_sheet(sheet, LIFT)));
    }
    if !sheet.size.is_positive() {
        return;
    }
    // Where the picture fills all that is seen of its paper, paper would only fray its edge.
    if sight.intersection(sheet).is_some_and(|seen| !covers(image, seen)) {
        items.push(Fill::rect(sheet, look.paper_of(mat).into()));
    }
    if let Some(clip) = image.intersection(sheet) {
        items.push(Item::Picture(Picture { work: window.work, image, clip }));
    }
}

/// Whether nothing of `under` is seen beside `over`.
fn covers(over: Rect, under: Rect) -> bool {
    !under.within(over).least().is_negative()
}

/// Board upon board, the innermost first, each after the shade that it casts.
fn layers(mat: &Mat, figures: &Figures, tuck: Length, look: &Look, items: &mut Vec<Item>) {
    let board = Rect::at_origin(figures.outer);
    let core = Tone::from(look.core);
    for (index, layer) in mat.layers.iter().enumerate().rev() {
        let above: Length = mat.layers.iter().take(index).map(|l| l.board.thickness).sum();
        // The boards above it keep some of the room's light away, too.
        let height = layer.board.thickness + above.halves().0;
        let cuts = || figures.openings.iter().filter_map(|window| window.layers.get(index));
        for cut in cuts().filter(|cut| cut.sight.bounds.size.is_positive()) {
            let shade = light::in_window(cut.sight.bounds, height, layer.bevel);
            items.push(Item::Shade(shade));
        }
        let outline = if index == 0 { board } else { board.inset(Sides::all(tuck)) };
        items.push(Item::Board(Board {
            outline: outline.path(),
            tone: layer.board.colour.into(),
            windows: cuts().filter_map(|cut| cutout(cut, layer, core)).collect(),
        }));
    }
}

fn cutout(cut: &Cut, layer: &Layer, core: Tone) -> Option<Cutout> {
    let (face, sight) = (cut.face.bounds, cut.sight.bounds);
    if !sight.size.is_positive() {
        return None;
    }
    let bevels = if cut.bevel.is_positive() {
        let tone = |side| light::on_bevel(core, layer.bevel, side);
        Vec::from(
            Side::ALL
                .map(|side| BevelFace { corners: mitred(face, sight, side), tone: tone(side) }),
        )
    } else {
        Vec::new()
    };
    Some(Cutout { face: cut.face.path.clone(), sight: cut.sight.path.clone(), bevels })
}
