//! What lies behind the mat: the board turned over, as the maker sees its back, and the mat
//! lifted, as one sees what it covers. Both are drawn from the one layout; turned over, left
//! and right change places.

mod painter;

use super::Look;
use crate::assembly::Sheet;
use crate::drawing::{Drawing, Pen, Tone, around};
use crate::geometry::{Point, Rect, Side, Size};
use crate::hinges::{MatHinge, mat_hinge};
use crate::layout::Layout;
use crate::length::{Length, Unit};
use crate::material::Humidity;
use crate::spec::Mat;
use painter::Painter;

/// From where it is seen.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum AssemblyView {
    /// The board turned over about its upright middle: its back, the sheet's back, the tabs.
    #[default]
    TurnedOver,
    /// From the front, the mat lifted: backing, sheet, cross-pieces.
    MatLifted,
}

impl AssemblyView {
    /// A place on the board as it is seen this way; once more, and it is where it was.
    pub fn seen(self, rect: Rect, outer: Size) -> Rect {
        match self {
            Self::MatLifted => rect,
            Self::TurnedOver => {
                let at = Point::new(outer.width - rect.right(), rect.top());
                Rect::new(at, rect.size)
            }
        }
    }

    /// A point likewise.
    pub fn point(self, point: Point, outer: Size) -> Point {
        match self {
            Self::MatLifted => point,
            Self::TurnedOver => Point::new(outer.width - point.x, point.y),
        }
    }
}

/// The humidity that is shown, and how much larger than true the movement is drawn.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct HumidityShown {
    /// The sheet is drawn as it lies in this.
    pub now: Humidity,
    /// True at 1.
    pub times: u8,
}

/// A mat, where everything lies, and how its sheets are held.
#[derive(Clone, Copy, Debug)]
pub struct Subject<'a> {
    /// The mat.
    pub mat: &'a Mat,
    /// Its layout.
    pub layout: &'a Layout,
    /// Its sheets.
    pub sheets: &'a [Sheet],
}

/// How much less light the mat's back is drawn with than its core. Our own choice.
const BACK: f32 = 0.84;
/// Cloth tape of the mat's own hinge. Our own choice.
const CLOTH: Tone = Tone::grey(0.5);

/// What lies behind the mat, seen one way. `air` adds the sheet's edge at its driest and
/// dampest and draws the sheet as it lies in between; without it, it lies as it was hinged.
/// `height` is that of a figure at the drawing's scale; figures are in `unit`.
pub fn assembly(
    way: AssemblyView,
    of: Subject<'_>,
    air: Option<HumidityShown>,
    look: &Look,
    unit: Unit,
    height: Length,
) -> Drawing {
    let Subject { mat, layout, sheets } = of;
    let outer = layout.exact.outer;
    let mut pen = Painter { way, outer, unit, height, items: Vec::new() };
    let board = Rect::at_origin(outer);
    let own = mat_hinge(&mat.assembly, outer, unit);
    let all = around(board, layout.exact.backing);
    if !outer.is_positive() {
        return Drawing { bounds: all, ground: None, items: pen.items };
    }
    let windows = || {
        layout.exact.openings.iter().filter_map(|window| {
            let sheet = sheets.iter().find(|sheet| sheet.hinges.opening == window.id)?;
            Some((window, sheet))
        })
    };
    match way {
        AssemblyView::TurnedOver => {
            // A little darker than paper, so that the sheet stands out.
            pen.fill(board, Tone::from(look.core).lit(BACK));
            pen.outline(board, Pen::Section);
            for blank in layout.bench.blanks(unit).into_iter().filter(|b| b.rect != board) {
                pen.outline(blank.rect, Pen::Edge);
            }
            pen.outline(layout.exact.backing, Pen::Hidden);
        }
        AssemblyView::MatLifted => {
            pen.fill(layout.exact.backing, mat.backing.board.colour.into());
            pen.outline(layout.exact.backing, Pen::Section);
            pen.outline(board, Pen::Hidden);
        }
    }
    pen.fill(strip(own, board, layout.exact.backing, way), CLOTH);
    for (window, sheet) in windows() {
        pen.sheet(window, sheet, air, look);
    }
    if way == AssemblyView::TurnedOver {
        pen.stops(layout, sheets.first().map(|sheet| &sheet.hinges));
    }
    Drawing { bounds: all, ground: None, items: pen.items }
}

/// The tape along the mat's own hinge: half of it on the mat's back, half on the backing.
fn strip(own: MatHinge, board: Rect, backing: Rect, way: AssemblyView) -> Rect {
    let on = match way {
        AssemblyView::TurnedOver => board,
        AssemblyView::MatLifted => backing,
    };
    let (half, _) = (own.tape - own.gap).halves();
    let half = half.max(Length::ZERO);
    match own.edge {
        Side::Top => Rect::new(on.at, Size::new(on.size.width, half)),
        Side::Left => Rect::new(on.at, Size::new(half, on.size.height)),
        Side::Right => {
            Rect::new(Point::new(on.right() - half, on.top()), Size::new(half, on.size.height))
        }
        Side::Bottom => {
            Rect::new(Point::new(on.left(), on.bottom() - half), Size::new(on.size.width, half))
        }
    }
}

#[cfg(test)]
mod tests;
