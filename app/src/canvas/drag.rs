//! A hand moving a handle: from pointer to length, on the ruler or at rest.

use egui::{Key, Modifiers, Pos2, Ui, Vec2};
use sightedge_core::command::{Command, apply};
use sightedge_core::geometry::{Point, Rect, Side};
use sightedge_core::layout::layout;

use super::lens::Lens;
use crate::desk::Desk;
use crate::handle::{Anchor, Bench, Handle, Rest, Tie, nudged, step, value_at};

/// How near, in points, a drag comes to rest by itself.
const MAGNET: f32 = 6.0;

/// A handle in hand.
#[derive(Clone, Debug)]
pub(super) struct Drag {
    handle: Handle,
    tie: Tie,
    /// As it was when the handle was taken.
    start: Lens,
    /// From the handle to the pointer, so that it does not jump when taken.
    grip: Vec2,
    /// Where the picture, the board and its far corner were on the screen.
    image_at: Pos2,
    far_at: Pos2,
    /// Where the pointer is.
    pub(super) at: Pos2,
    /// Where it came to rest, across and down.
    pub(super) rests: Vec<(bool, Rest)>,
}

impl Drag {
    pub(super) fn begin(
        handle: Handle,
        bench: Bench<'_>,
        lens: Lens,
        at: Pos2,
    ) -> Option<Self> {
        let image = bench.layout.exact.openings.first()?.image;
        let outer = Rect::at_origin(bench.layout.exact.outer);
        let reference = lens.screen(reference(handle, bench)?);
        Some(Self {
            handle,
            tie: Tie::One,
            start: lens,
            grip: at - reference,
            image_at: lens.screen(image.at),
            far_at: lens.screen(Point::new(outer.right(), outer.bottom())),
            at,
            rests: Vec::new(),
        })
    }

    pub(super) const fn handle(&self) -> Handle {
        self.handle
    }

    /// Where the board is seen while its anchor stays.
    pub(super) fn lens(&self, bench: Bench<'_>) -> Lens {
        let outer = Rect::at_origin(bench.layout.exact.outer);
        match self.handle.anchor(self.tie) {
            Anchor::Board | Anchor::Edge(Side::Left | Side::Top) => self.start,
            Anchor::Edge(_) => {
                let far = Point::new(outer.right(), outer.bottom());
                self.start.with(far, self.far_at)
            }
            Anchor::Image => match bench.layout.exact.openings.first() {
                Some(window) => self.start.with(window.image.at, self.image_at),
                None => self.start,
            },
        }
    }

    /// The command that puts the handle where the pointer is.
    pub(super) fn follow(
        &mut self,
        desk: &Desk,
        at: Pos2,
        modifiers: Modifiers,
    ) -> Option<Command> {
        self.at = at;
        self.tie = tie_of(modifiers);
        self.rests.clear();
        let shown = desk.bench()?;
        let lens = self.lens(shown);
        let board = lens.board(at - self.grip);
        let tolerance = lens.length(MAGNET);
        let (across, down) = self.handle.moves(shown);

        // Everything is set on the plan as it is kept: what a modifier tied is free again
        // when the modifier is let go.
        let kept = desk.kept();
        let variant = kept.chosen()?;
        let kept_layout = layout(kept, &variant.mat);
        let kept_bench = Bench { document: kept, variant, layout: &kept_layout };
        let step = step(kept, modifiers.alt);

        let mut wanted = Vec::new();
        for across in [(across, true), (down, false)].into_iter().filter(|d| d.0).map(|d| d.1) {
            let raw = value_at(self.handle, shown, board, across, self.tie)?;
            let rests = self.handle.rests(kept_bench, across);
            // Free of the ruler is free of the rests, too: every length can be reached.
            let near = rests
                .into_iter()
                .filter(|rest| !modifiers.alt && (rest.value - raw).abs() <= tolerance)
                .min_by_key(|rest| (rest.value - raw).abs());
            let value = near.map_or_else(|| raw.round_to(step), |rest| rest.value);
            self.rests.extend(near.map(|rest| (across, rest)));
            wanted.push((across, value));
        }
        let [.., (last_across, last)] = wanted.as_slice() else { return None };
        let [(first_across, first), _] = wanted.as_slice() else {
            return self.handle.set(kept_bench, *last, *last_across, self.tie);
        };
        // Both ways: the second is set on what the first made.
        let first = self.handle.set(kept_bench, *first, *first_across, self.tie)?;
        let mut moved = kept.clone();
        apply(&mut moved, &first).ok()?;
        let variant = moved.chosen()?;
        let moved_layout = layout(&moved, &variant.mat);
        let bench = Bench { document: &moved, variant, layout: &moved_layout };
        self.handle.set(bench, *last, *last_across, self.tie)
    }
}

/// The point of the board that a handle is, for its grip.
fn reference(handle: Handle, bench: Bench<'_>) -> Option<Point> {
    let exact = &bench.layout.exact;
    let corner = |rect: Rect, side: Side| match side {
        Side::Top | Side::Left => rect.at,
        Side::Right | Side::Bottom => Point::new(rect.right(), rect.bottom()),
    };
    Some(match handle {
        Handle::Sight(id, side) => corner(exact.opening(id)?.sight, side),
        Handle::Liner(id, layer, side) => {
            let cuts = &exact.opening(id)?.layers;
            let index = cuts.iter().position(|cut| cut.layer == layer)?;
            corner(cuts.get(index.checked_sub(1)?)?.sight.bounds, side)
        }
        Handle::Outer(side) => corner(Rect::at_origin(exact.outer), side),
        Handle::Window(_) => exact.group().at,
        Handle::Sheet(id) => exact.opening(id)?.sheet.at,
    })
}

fn tie_of(modifiers: Modifiers) -> Tie {
    if modifiers.command {
        Tie::All
    } else if modifiers.shift {
        Tie::Opposite
    } else {
        Tie::One
    }
}

pub(super) fn tie(ui: &Ui) -> Tie {
    ui.input(|input| tie_of(input.modifiers))
}

/// Which way a typed number counts for a handle that moves both ways: down, as the top border
/// is what people name; a sheet and a window alike.
pub(super) fn across(handle: Handle, bench: Bench<'_>) -> bool {
    matches!(handle.moves(bench), (true, false))
}

/// What an arrow key asks for: one step the way it points.
pub(super) fn nudge(ui: &Ui, handle: Handle, bench: Bench<'_>) -> Option<Command> {
    let arrows = [
        (Key::ArrowLeft, true, false),
        (Key::ArrowRight, true, true),
        (Key::ArrowUp, false, false),
        (Key::ArrowDown, false, true),
    ];
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    let (_, across, forwards) = arrows.into_iter().find(|(key, ..)| pressed(*key))?;
    let (can_across, can_down) = handle.moves(bench);
    if (across && !can_across) || (!across && !can_down) {
        return None;
    }
    // Outwards makes a reveal, an offset, a border or a board larger; a sheet that goes left
    // lies further under the left edge.
    let more = match handle {
        Handle::Sight(_, side) | Handle::Liner(_, _, side) | Handle::Outer(side) => {
            forwards == matches!(side, Side::Right | Side::Bottom)
        }
        Handle::Window(_) => forwards,
        Handle::Sheet(_) => !forwards,
    };
    let step = step(bench.document, ui.input(|input| input.modifiers.alt));
    let value = handle.value(bench, across)?;
    let value = nudged(value, step, if more { 1 } else { -1 });
    handle.set(bench, value, across, tie(ui))
}
