//! The strokes and areas of what lies behind the mat.

use super::{AssemblyView, HumidityShown};
use crate::assembly::Sheet;
use crate::drawing::Align;
use crate::drawing::{Baseline, Fill, Item, Line, Pen, Picture, Text, TextRole, Tone};
use crate::geometry::{Path, Point, Rect, Side, Sides, Size};
use crate::hinges::{Hinge, HingePlan};
use crate::layout::{Layout, Window};
use crate::length::{Length, Unit};
use crate::movement::{Movement, State};
use crate::plates::Look;
use crate::spec::HingeKind;

/// Tissue and tape, as grey as the surround's rule asks. Our own choice.
const TISSUE: Tone = Tone::grey(0.66);
/// What marks the place that does not move. Our own choice.
const MARK: Tone = Tone::grey(0.03);

/// What moved, drawn so many times larger.
fn drawn(sheet: Rect, state: &State, times: u8) -> Rect {
    sheet.outset(state.moved.map(|moved| moved * i64::from(times)))
}

/// Draws one way round.
pub(super) struct Painter {
    pub(super) way: AssemblyView,
    pub(super) outer: Size,
    pub(super) unit: Unit,
    pub(super) height: Length,
    pub(super) items: Vec<Item>,
}

impl Painter {
    fn seen(&self, rect: Rect) -> Rect {
        self.way.seen(rect, self.outer)
    }

    pub(super) fn fill(&mut self, rect: Rect, tone: Tone) {
        let rect = self.seen(rect);
        if rect.size.is_positive() {
            self.items.push(Fill::rect(rect, tone));
        }
    }

    fn area(&mut self, points: &[Point], tone: Tone, pen: Pen) {
        let points: Vec<Point> =
            points.iter().map(|point| self.way.point(*point, self.outer)).collect();
        self.items.push(Item::Fill(Fill { path: Path { points: points.clone() }, tone }));
        self.items.push(Item::Line(Line { points, closed: true, pen }));
    }

    pub(super) fn outline(&mut self, rect: Rect, pen: Pen) {
        let rect = self.seen(rect);
        if rect.size.is_positive() {
            let points = rect.path().points;
            self.items.push(Item::Line(Line { points, closed: true, pen }));
        }
    }

    /// A figure about its middle.
    fn write(&mut self, text: String, at: Point, baseline: Baseline, turned: bool) {
        let at = self.way.point(at, self.outer);
        let (role, align, height) = (TextRole::Figure, Align::Middle, self.height);
        self.items.push(Item::Text(Text { text, role, at, align, baseline, turned, height }));
    }

    /// A figure that begins at a place, as it is seen.
    fn write_from(&mut self, text: String, at: Point) {
        let at = self.way.point(at, self.outer);
        let (role, align, baseline) = (TextRole::Label, Align::Start, Baseline::Beside);
        let height = self.height;
        self.items.push(Item::Text(Text {
            text,
            role,
            at,
            align,
            baseline,
            turned: false,
            height,
        }));
    }

    pub(super) fn sheet(
        &mut self,
        window: &Window,
        sheet: &Sheet,
        air: Option<HumidityShown>,
        look: &Look,
    ) {
        let Window { sight, sheet: lies, image, work, .. } = *window;
        let (plan, movement) = (&sheet.hinges, &sheet.movement);
        let shift = air.map(|air| (movement.at(air.now), air.times));
        let now = shift.as_ref().map_or(lies, |(state, times)| drawn(lies, state, *times));
        if self.way == AssemblyView::MatLifted {
            self.hinges(plan, shift.as_ref(), false);
        }
        self.fill(now, look.paper.into());
        if self.way == AssemblyView::MatLifted {
            // The picture goes with its paper; drawn larger than true, it is moved, not
            // stretched, for stretched it would be another picture.
            if let Some(clip) = image.intersection(lies).and_then(|clip| clip.intersection(now))
            {
                self.items.push(Item::Picture(Picture { work, image, clip }));
            }
        } else {
            self.outline(image, Pen::Hidden);
        }
        self.outline(now, Pen::Edge);
        if self.way == AssemblyView::TurnedOver {
            self.hinges(plan, shift.as_ref(), true);
        } else {
            self.hidden_tabs(plan);
        }
        self.held_without_glue(plan, lies);
        self.outline(sight, Pen::Hidden);
        if let Some(air) = air {
            self.extremes(movement, lies, air);
        }
        self.anchor(plan, lies);
        self.names(plan, lies.size.width);
    }

    /// Tabs and cross-pieces; what is stuck to the sheet goes with it.
    fn hinges(&mut self, plan: &HingePlan, shift: Option<&(State, u8)>, tab_on_top: bool) {
        for (index, hinge) in plan.hinges.iter().enumerate() {
            let lean = shift.map_or(Length::ZERO, |(state, times)| {
                let travel = state.travel.get(index).copied().unwrap_or_default();
                let away = if hinge.x < plan.anchor.x { -travel } else { travel };
                away * i64::from(*times)
            });
            let (tab, cross) = (leaning(hinge, lean), hinge.cross);
            if tab_on_top {
                if let Some(cross) = cross {
                    self.piece(cross);
                }
                self.area(&tab, TISSUE, Pen::Edge);
            } else {
                self.area(&tab, TISSUE, Pen::Edge);
                if let Some(cross) = cross {
                    self.piece(cross);
                }
            }
        }
    }

    fn piece(&mut self, rect: Rect) {
        self.fill(rect, TISSUE);
        self.outline(rect, Pen::Edge);
    }

    /// What of a tab lies behind the sheet, from the front.
    fn hidden_tabs(&mut self, plan: &HingePlan) {
        for hinge in &plan.hinges {
            let at = Point::new(hinge.tab.left(), hinge.tab.bottom() - hinge.hold);
            self.outline(Rect::new(at, Size::new(hinge.width, hinge.hold)), Pen::Hidden);
        }
    }

    /// Pockets and strips.
    fn held_without_glue(&mut self, plan: &HingePlan, sheet: Rect) {
        let (reach, slack) = (plan.reach, plan.slack);
        let round = sheet.outset(Sides::all(slack));
        match plan.kind {
            HingeKind::Corners => {
                let long = reach + slack * 2;
                for (x, y, right, down) in [
                    (round.left(), round.top(), 1, 1),
                    (round.right(), round.top(), -1, 1),
                    (round.right(), round.bottom(), -1, -1),
                    (round.left(), round.bottom(), 1, -1),
                ] {
                    let corner = [
                        Point::new(x, y),
                        Point::new(x + long * right, y),
                        Point::new(x, y + long * down),
                    ];
                    self.area(&corner, TISSUE, Pen::Edge);
                }
            }
            HingeKind::Strips => {
                let wide = reach + slack + crate::hinges::Usual::of(self.unit).cross;
                let out = wide - reach - slack;
                for side in Side::ALL {
                    let frame = round.outset(Sides::all(out));
                    let strip = match side {
                        Side::Top => Rect::new(
                            Point::new(round.left(), frame.top()),
                            Size::new(round.size.width, wide),
                        ),
                        Side::Bottom => Rect::new(
                            Point::new(round.left(), frame.bottom() - wide),
                            Size::new(round.size.width, wide),
                        ),
                        Side::Left => Rect::new(
                            Point::new(frame.left(), round.top() + wide),
                            Size::new(wide, round.size.height - wide * 2),
                        ),
                        Side::Right => Rect::new(
                            Point::new(frame.right() - wide, round.top() + wide),
                            Size::new(wide, round.size.height - wide * 2),
                        ),
                    };
                    self.piece(strip);
                }
            }
            HingeKind::T | HingeKind::V | HingeKind::PassThrough => {}
        }
    }

    fn extremes(&mut self, movement: &Movement, sheet: Rect, air: HumidityShown) {
        for state in [&movement.bound.dry, &movement.bound.damp] {
            let rect = drawn(sheet, state, air.times);
            if rect != sheet {
                self.outline(rect, Pen::Hidden);
            }
        }
        let words = format!(
            "dry {} %, damp {} %",
            movement.bound.dry.humidity.text(),
            movement.bound.damp.humidity.text()
        );
        // At the corner that is seen at the left, clear of the stop in the middle.
        let most = drawn(sheet, &movement.bound.damp, air.times).bottom();
        let below = sheet.bottom().max(most) + self.height.scaled(4, 5);
        let left = match self.way {
            AssemblyView::MatLifted => sheet.left(),
            AssemblyView::TurnedOver => sheet.right(),
        };
        self.write_from(words, Point::new(left, below));
    }

    /// A mark at the place that does not move.
    fn anchor(&mut self, plan: &HingePlan, sheet: Rect) {
        let at = Point::new(sheet.left() + plan.anchor.x, sheet.top() + plan.anchor.y);
        let half = self.height.scaled(2, 5);
        let mark = [
            Point::new(at.x, at.y - half),
            Point::new(at.x + half, at.y),
            Point::new(at.x, at.y + half),
            Point::new(at.x - half, at.y),
        ];
        self.area(&mark, MARK, Pen::Fine);
    }

    /// Each hinge's place, from the sheet's left edge as it is seen.
    fn names(&mut self, plan: &HingePlan, wide: Length) {
        for hinge in &plan.hinges {
            let top = hinge.cross.map_or(hinge.tab.top(), Rect::top);
            let (at, baseline) = if plan.kind == HingeKind::T {
                (top - self.height.scaled(1, 5), Baseline::On)
            } else {
                (hinge.tab.bottom() + self.height, Baseline::Beside)
            };
            let middle = hinge.tab.left() + hinge.width.halves().0;
            let at = Point::new(middle, at);
            let x = match self.way {
                AssemblyView::MatLifted => hinge.x,
                AssemblyView::TurnedOver => wide - hinge.x,
            };
            self.write(x.near(self.unit), at, baseline, false);
        }
    }

    /// The cutter's stops, in the middle of each border as the maker sees the back.
    /// The upper one stands between the first two hinges.
    pub(super) fn stops(&mut self, layout: &Layout, plan: Option<&HingePlan>) {
        let board = Rect::at_origin(self.outer);
        let figures = &layout.bench;
        let Some(cut) = figures.openings.first().and_then(Window::top) else { return };
        let sight = cut.sight.bounds;
        let half = |from: Length, to: Length| from + (to - from).halves().0;
        let (across, down) =
            (half(sight.left(), sight.right()), half(sight.top(), sight.bottom()));
        // Seen from the front; the drawing turns them over with all else.
        for (side, border) in cut.borders.each() {
            let at = match side {
                Side::Top => {
                    let first = plan.and_then(|plan| match plan.hinges.as_slice() {
                        [one, two, ..] => Some(half(one.tab.left(), two.tab.right())),
                        _ => None,
                    });
                    Point::new(first.unwrap_or(across), half(board.top(), sight.top()))
                }
                // Clear of what is written below the sheet.
                Side::Bottom => {
                    let across = sight.left() + sight.size.width.scaled(1, 5);
                    Point::new(across, half(sight.bottom(), board.bottom()))
                }
                Side::Left => Point::new(half(board.left(), sight.left()), down),
                Side::Right => Point::new(half(sight.right(), board.right()), down),
            };
            let turned = matches!(side, Side::Left | Side::Right);
            let words = format!("stop {}", border.text(self.unit));
            self.write(words, at, Baseline::Beside, turned);
        }
    }
}

/// A tab whose hold went with the sheet while its cross-piece stays.
fn leaning(hinge: &Hinge, lean: Length) -> [Point; 4] {
    let tab = hinge.tab;
    let (l, t, r, b) = (tab.left(), tab.top(), tab.right(), tab.bottom());
    let stays = if hinge.cross.is_some() { Length::ZERO } else { lean };
    [
        Point::new(l + stays, t),
        Point::new(r + stays, t),
        Point::new(r + lean, b),
        Point::new(l + lean, b),
    ]
}
