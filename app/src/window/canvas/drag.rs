//! A drag of a handle: from the pointer to a length, on the ruler or at a rest.

use egui::{Key, Modifiers, Pos2, Ui, Vec2};
use sightedge_core::command::{Command, apply};
use sightedge_core::finding::Finding;
use sightedge_core::geometry::{Point, Rect, Side};
use sightedge_core::layout::layout;

use super::grips::{Arrow, arrow, presses};
use super::lens::Lens;
use crate::window::handle::{
    Anchor, Handle, HandleContext, Judge, Others, Pull, Rest, Tie, nudged, step, value_at,
    worsened,
};
use crate::window::session::PlanSession;

/// Within this distance of a rest a drag snaps to it, in points.
const MAGNET: f32 = 6.0;
/// The least such distance, where a step of the ruler is too small to see.
const LEAST_MAGNET: f32 = 2.0;

/// A handle that is dragged.
#[derive(Clone, Debug)]
pub(super) struct Drag {
    handle: Handle,
    tie: Tie,
    /// As it was when the handle was taken.
    start: Lens,
    /// From the handle to the pointer, so that it does not jump when taken.
    grip: Vec2,
    /// Where the picture and the board's middle and far corner were on the screen.
    image_at: Pos2,
    middle_at: Pos2,
    far_at: Pos2,
    /// What the rules found before it was taken.
    before: Vec<Finding>,
    /// Where the pointer is.
    pub(super) at: Pos2,
    /// Where it came to rest, across and down.
    pub(super) rests: Vec<(bool, Rest)>,
}

impl Drag {
    pub(super) fn begin(
        handle: Handle,
        session: &PlanSession,
        lens: Lens,
        at: Pos2,
    ) -> Option<Self> {
        let cx = session.handle_context()?;
        let image = cx.layout.exact.openings.first()?.image;
        let outer = Rect::at_origin(cx.layout.exact.outer);
        let reference = lens.screen(reference(handle, cx)?);
        let far_at = lens.screen(far(outer));
        Some(Self {
            handle,
            tie: Tie::default(),
            start: lens,
            grip: at - reference,
            image_at: lens.screen(image.at),
            middle_at: lens.screen(outer.at) + (far_at - lens.screen(outer.at)) / 2.0,
            far_at,
            before: session.derived().findings.clone(),
            at,
            rests: Vec::new(),
        })
    }

    pub(super) const fn handle(&self) -> Handle {
        self.handle
    }

    pub(super) const fn tie(&self) -> Tie {
        self.tie
    }

    /// The worst finding that the drag caused, once it is beyond the last good place.
    pub(super) fn trouble<'a>(&self, session: &'a PlanSession) -> Option<&'a Finding> {
        let moved = self.handle.sides(session.handle_context()?, self.tie);
        worsened(&self.before, &session.derived().findings, &moved)
    }

    /// The view in which the anchor keeps its place on the screen.
    pub(super) fn lens(&self, cx: HandleContext<'_>) -> Lens {
        let outer = Rect::at_origin(cx.layout.exact.outer);
        match self.handle.anchor(cx, self.tie) {
            Anchor::Board | Anchor::Edge(Side::Left | Side::Top) => self.start,
            Anchor::Edge(_) => self.start.with(far(outer), self.far_at),
            Anchor::Middle => {
                let (corner, far) =
                    (self.start.screen(outer.at), self.start.screen(far(outer)));
                self.start.moved(self.middle_at - (corner + (far - corner) / 2.0))
            }
            Anchor::Image => match cx.layout.exact.openings.first() {
                Some(window) => self.start.with(window.image.at, self.image_at),
                None => self.start,
            },
        }
    }

    /// The command that puts the handle where the pointer is.
    pub(super) fn follow(
        &mut self,
        session: &PlanSession,
        at: Pos2,
        modifiers: Modifiers,
    ) -> Option<Command> {
        self.at = at;
        self.tie = Tie::of(modifiers);
        self.rests.clear();
        let shown = session.handle_context()?;
        let lens = self.lens(shown);
        let board = lens.board(at - self.grip);
        let (across, down) = self.handle.moves(shown);

        // Everything is set on the plan as it is kept: what a modifier tied is free again
        // when the modifier is let go.
        let mut moved = session.kept().clone();
        let mut command = None;
        let ways = [(across, true), (down, false)].into_iter().filter(|way| way.0);
        for across in ways.map(|way| way.1) {
            let pull = Pull { across, tie: self.tie, others: Others::Follow };
            // Both ways: the second is set on what the first made.
            let base = moved.clone();
            let variant = base.variant(shown.variant.id)?;
            let layout = layout(&base, &variant.mat);
            let cx = HandleContext { document: &base, variant, layout: &layout };
            let raw = value_at(self.handle, shown, cx, board, pull)?;
            let rest = if modifiers.alt {
                // Free of the ruler is free of the rests, too: every length can be reached.
                None
            } else {
                // Short of a step of the ruler, so that the marks beside it can be had.
                let step = cx.document.ruler.step().scaled(3, 4);
                let reach = lens.length(MAGNET).min(step).max(lens.length(LEAST_MAGNET));
                let judge = Judge { tables: session.tables(), before: &self.before };
                self.handle.rest_near(cx, judge, raw, reach, pull)
            };
            let step = step(&base, modifiers.alt);
            let value = rest.as_ref().map_or_else(|| raw.round_to(step), |rest| rest.value);
            self.rests.extend(rest.map(|rest| (across, rest)));
            let set = self.handle.set(cx, value, pull)?;
            apply(&mut moved, &set).ok()?;
            command = Some(set);
        }
        command
    }
}

const fn far(outer: Rect) -> Point {
    Point::new(outer.size.width, outer.size.height)
}

/// The point of the board that a handle is, for its grip.
fn reference(handle: Handle, cx: HandleContext<'_>) -> Option<Point> {
    let rect = handle.rect(cx)?;
    Some(match handle.side() {
        Some(Side::Right | Side::Bottom) => Point::new(rect.right(), rect.bottom()),
        Some(Side::Top | Side::Left) | None => rect.at,
    })
}

/// What the keys that are held ask for.
pub(super) fn tie(ui: &Ui) -> Tie {
    ui.input(|input| Tie::of(input.modifiers))
}

/// Which sides Enter means, pressed in this frame.
pub(super) fn tie_of_enter(ui: &Ui) -> Tie {
    presses(ui, Key::Enter).first().copied().map(Tie::of).unwrap_or_default()
}

/// Which way a typed number counts for a handle that moves both ways: down, as the top border
/// is what people name; a sheet and a window alike.
pub(super) fn across(handle: Handle, cx: HandleContext<'_>) -> bool {
    matches!(handle.moves(cx), (true, false))
}

/// What an arrow key asks for: one step the way it points.
pub(super) fn nudge(ui: &Ui, handle: Handle, cx: HandleContext<'_>) -> Option<Command> {
    let Arrow { across, forwards, times, held } = arrow(ui)?;
    let (can_across, can_down) = handle.moves(cx);
    if (across && !can_across) || (!across && !can_down) {
        return None;
    }
    // Outwards makes a reveal, an offset, a border or a board larger; a sheet that goes left
    // lies further under the left edge.
    let more = match handle {
        Handle::Sight(_, side) | Handle::Undermat(_, _, side) | Handle::Outer(side) => {
            forwards == matches!(side, Side::Right | Side::Bottom)
        }
        Handle::Window(_) => forwards,
        Handle::Sheet(_) => !forwards,
    };
    let step = step(cx.document, held.alt);
    let value = handle.value(cx, across)?;
    let value = nudged(value, step, if more { times } else { -times });
    handle.set(cx, value, Pull { across, tie: Tie::of(held), others: Others::Follow })
}
