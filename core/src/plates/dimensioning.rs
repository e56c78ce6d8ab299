//! Setting dimensions so that every figure can be read.

use crate::drawing::{
    Align, Baseline, Dimension, Drawing, Item, Measure, Text, TextRole, around,
};
use crate::geometry::{Point, Rect, Sides, Size};
use crate::length::{Length, Round, Unit};

/// Along which axis a dimension runs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Axis {
    /// It measures a width.
    Across,
    /// It measures a height.
    Down,
}

/// Where the figure of a dimension goes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum FigurePlace {
    /// On the middle of the line; a height's figure is turned with it.
    Along,
    /// Upright, to the right of the middle of the line.
    Beside,
    /// Upright, to the left of the middle of the line.
    Before,
    /// As these two, the name before the figure on one line.
    OneLine { before: bool },
    /// Past one end of the line, the first (0) or the second (1); a height's figure is turned
    /// with it unless it is to stand upright.
    Past { along: Length, end: usize, upright: bool },
    /// As [`Self::Past`], level, with the name under the figure, which takes less room beside the
    /// thing.
    Stacked { along: Length, end: usize },
}

/// Where a dimension may stand: its line's place and ends, its figure, and its name where that
/// is a text of its own.
type Choice = (Length, [Length; 2], Text, Option<Text>);

/// What is to be dimensioned.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span {
    pub(super) measure: Measure,
    pub(super) axis: Axis,
    /// Its two ends along the axis.
    pub(super) ends: [Length; 2],
}

/// Puts dimensions on a sheet and remembers where figures stand.
#[derive(Debug)]
pub(super) struct Dimensioner {
    unit: Unit,
    /// The height of a figure.
    pub(super) height: Length,
    /// What the next dimensions belong to, where their figures must name it.
    pub(super) of: Option<String>,
    /// Whether the name of a figure that stands level beside the thing is under it; else before it.
    stacks: bool,
    taken: Vec<Rect>,
    /// The lines that no figure may stand on but its own.
    lines: Vec<Rect>,
    pub(super) items: Vec<Item>,
}

impl Axis {
    /// The point `along` this axis and `off` it.
    pub(super) const fn point(self, along: Length, off: Length) -> Point {
        match self {
            Self::Across => Point::new(along, off),
            Self::Down => Point::new(off, along),
        }
    }
}

impl FigurePlace {
    /// Whether what a dimension is of stands before its figure, in one text.
    const fn is_one_text(self) -> bool {
        matches!(self, Self::OneLine { .. } | Self::Past { .. })
    }
}

impl Span {
    fn length(&self) -> Length {
        self.ends[1] - self.ends[0]
    }

    fn middle(&self) -> Length {
        self.ends[0] + self.length().halves().0
    }
}

impl Dimensioner {
    pub(super) fn new(unit: Unit, height: Length) -> Self {
        // A figure of no height takes no room and collides with nothing.
        let height = height.max(Length::ZERO);
        let (taken, lines, items) = (Vec::new(), Vec::new(), Vec::new());
        Self { unit, height, of: None, stacks: false, taken, lines, items }
    }

    /// With names under the figures that stand level beside the thing.
    pub(super) const fn stacked(mut self) -> Self {
        self.stacks = true;
        self
    }

    /// The least gap between a line and a figure, and between a thing and its extension line.
    pub(super) fn gap(&self) -> Length {
        self.height.scaled(1, 3)
    }

    /// A dimension on a line outside the thing, `off` the axis; extension lines come from
    /// `from`. Its figure stands in the middle, or past the second end where it does not fit.
    pub(super) fn outside(&mut self, span: Span, from: Length, off: Length) {
        self.outside_at(span, from, &[off]);
    }

    /// As [`Self::outside`], at the first of `offs` where its figure stands in the middle and
    /// meets no other, else at the first where it stands past an end.
    pub(super) fn outside_at(&mut self, span: Span, from: Length, offs: &[Length]) {
        let [first, second] = [span.ends[0] - self.gap(), span.ends[1] + self.gap()];
        let past = [
            (
                FigurePlace::Past { along: second, end: 1, upright: false },
                [span.ends[0], second],
            ),
            (FigurePlace::Past { along: first, end: 0, upright: false }, [first, span.ends[1]]),
        ];
        let choices = offs.iter().map(|off| (*off, FigurePlace::Along, span.ends));
        let past = offs.iter().flat_map(|off| past.map(|(set, line)| (*off, set, line)));
        if let Some((off, line, figure, name)) = self.best(span, choices.chain(past)) {
            let away = if off >= from { self.gap() } else { -self.gap() };
            let extensions = span
                .ends
                .map(|end| [from + away, off + away].map(|off| span.axis.point(end, off)));
            self.put(span, (off, line, figure, name), Some(extensions));
        }
    }

    /// A dimension between two edges of the thing itself, at the first of `offs` where its
    /// figure meets no other: between them where there is room, else past the end `outer`
    /// (0 or 1), by `beyond` at least.
    pub(super) fn between(
        &mut self,
        span: Span,
        offs: &[Length],
        outer: usize,
        beyond: Length,
    ) {
        let set = match span.axis {
            Axis::Across => FigurePlace::Along,
            Axis::Down => FigurePlace::Beside,
        };
        let within = offs.iter().map(|off| (*off, set, span.ends));
        // With names, two beside each other stand on both sides of their lines.
        let before = offs.iter().filter(|_| set == FigurePlace::Beside && self.of.is_some());
        let before = before.map(|off| (*off, FigurePlace::Before, span.ends));
        // Where the border is too low for both one under the other.
        let flat = [false, true]
            .into_iter()
            .filter(|_| set == FigurePlace::Beside && self.of.is_some());
        let flat = flat.flat_map(|before| {
            offs.iter().map(move |off| (*off, FigurePlace::OneLine { before }, span.ends))
        });
        let stacks = self.stacks && self.of.is_some() && span.axis == Axis::Across;
        // Further out each time, by what an upright figure takes.
        let one = match span.axis {
            Axis::Across => {
                let figure = self.figure(span, Length::ZERO, FigurePlace::Along);
                let name = self.name(&figure, FigurePlace::Along).filter(|_| stacks);
                name.as_ref().map_or(Length::ZERO, long).max(long(&figure))
            }
            Axis::Down => self.height.scaled(13, 10),
        };
        let further = (0..6).map(|n| self.gap() + beyond + one * n);
        let past = further.flat_map(|away| {
            let mut line = span.ends;
            line[outer] += if outer == 0 { -away } else { away };
            let (along, end) = (line[outer], outer);
            let stacked = offs.iter().filter(move |_| stacks);
            let stacked =
                stacked.map(move |off| (*off, FigurePlace::Stacked { along, end }, line));
            let set = FigurePlace::Past { along, end, upright: true };
            stacked.chain(offs.iter().map(move |off| (*off, set, line)))
        });
        if let Some(choice) = self.best(span, within.chain(before).chain(flat).chain(past)) {
            self.put(span, choice, None);
        }
    }

    /// The first of these whose figure has room and meets no other; else the first whose figure
    /// meets none though its line runs through one; else the first past an end.
    fn best(
        &self,
        span: Span,
        choices: impl Iterator<Item = (Length, FigurePlace, [Length; 2])>,
    ) -> Option<Choice> {
        let mut best: Option<(u8, Choice)> = None;
        for (off, set, line) in choices {
            let figure = self.figure(span, off, set);
            let name = self.name(&figure, set);
            let free = self.free(&figure) && name.as_ref().is_none_or(|name| self.free(name));
            // The ticks at both ends stay clear.
            let wide = name.as_ref().map_or(Length::ZERO, long).max(long(&figure));
            let need = match set {
                FigurePlace::Along => wide + self.gap(),
                FigurePlace::Beside | FigurePlace::Before => {
                    let name = if name.is_some() { self.under() } else { Length::ZERO };
                    self.height + name + self.gap() * 2
                }
                FigurePlace::OneLine { .. } => self.height + self.gap() * 2,
                FigurePlace::Past { .. } | FigurePlace::Stacked { .. } => Length::ZERO,
            };
            let clear = self.clear(span.axis, off, line);
            let room = need <= span.length().max(Length::ZERO);
            let fault = match (room, free, clear) {
                (true, true, true) => 0,
                (true, true, false) => 1,
                (true, false, _) => 2,
                (false, ..) => 3,
            };
            if best.as_ref().is_none_or(|(least, _)| fault < *least) {
                best = Some((fault, (off, line, figure, name)));
            }
            if fault == 0 {
                break;
            }
        }
        best.map(|(_, best)| best)
    }

    /// What a dimension is of: under its line where its figure stands on that, under the figure
    /// beside the line or stacked past its end; else past an end both are one text.
    fn name(&self, figure: &Text, set: FigurePlace) -> Option<Text> {
        let name = self.of.clone().filter(|_| !set.is_one_text())?;
        let under = self.under();
        let at = if figure.turned {
            Point::new(figure.at.x + under, figure.at.y)
        } else {
            Point::new(figure.at.x, figure.at.y + under)
        };
        Some(Text { text: name, role: TextRole::Label, at, ..figure.clone() })
    }

    /// How far a name stands under its figure.
    fn under(&self) -> Length {
        self.height.scaled(4, 3)
    }

    /// A label at a place of its own.
    pub(super) fn label(&mut self, text: String, at: Point, align: Align) {
        let height = self.height;
        let (role, baseline) = (TextRole::Label, Baseline::Beside);
        let label = Text { text, role, at, align, baseline, turned: false, height };
        self.taken.push(label.bounds());
        self.items.push(Item::Text(label));
    }

    /// All that was drawn, with `room` round `about` and every figure.
    pub(super) fn finish(self, about: Rect) -> Drawing {
        let bounds = self.taken.iter().fold(about, |all, next| around(all, *next));
        let room = Sides::all(self.height);
        Drawing { bounds: bounds.outset(room), ground: None, items: self.items }
    }

    /// Whether a dimension's line runs through no figure.
    fn clear(&self, axis: Axis, off: Length, line: [Length; 2]) -> bool {
        let strip = strip(line.map(|end| axis.point(end, off)), self.gap().halves().1);
        self.taken.iter().all(|taken| taken.intersection(strip).is_none())
    }

    fn free(&self, figure: &Text) -> bool {
        let bounds = figure.bounds();
        self.taken.iter().chain(&self.lines).all(|taken| taken.intersection(bounds).is_none())
    }

    fn figure(&self, span: Span, off: Length, set: FigurePlace) -> Text {
        let Self { unit, height, .. } = *self;
        let half = height.halves().1;
        let above = off - height.scaled(1, 6);
        let down = span.axis == Axis::Down;
        // Figure and name stand about the middle together.
        let name = if self.of.is_some() { self.under() } else { Length::ZERO };
        let middle = span.middle() - name.halves().0;
        let (align, baseline, along, off) = match set {
            FigurePlace::Along => (Align::Middle, Baseline::On, span.middle(), above),
            FigurePlace::Beside => (Align::Start, Baseline::Beside, middle, off + self.gap()),
            FigurePlace::Before => (Align::End, Baseline::Beside, middle, off - self.gap()),
            FigurePlace::OneLine { before: false } => {
                (Align::Start, Baseline::Beside, span.middle(), off + self.gap())
            }
            FigurePlace::OneLine { before: true } => {
                (Align::End, Baseline::Beside, span.middle(), off - self.gap())
            }
            FigurePlace::Past { along, end, upright: true } if down => {
                let along = if end == 0 { along - half } else { along + half };
                (Align::Middle, Baseline::Beside, along, off)
            }
            FigurePlace::Past { along, end, .. } | FigurePlace::Stacked { along, end } => {
                // A turned line begins at its lower end.
                let align = if (end == 0) == down { Align::Start } else { Align::End };
                (align, Baseline::Beside, along, off)
            }
        };
        let length = match span.measure {
            // A sum of what was bought: to what one can measure, the needed one up.
            Measure::PackageDepth => span.length().sensible(unit, Round::Up),
            Measure::RabbetDepth => span.length().near(unit),
            _ => span.length().text(unit),
        };
        let text = match &self.of {
            Some(name) if set.is_one_text() => format!("{name} {length}"),
            _ => length,
        };
        Text {
            text,
            role: TextRole::Figure,
            at: span.axis.point(along, off),
            align,
            baseline,
            turned: down
                && matches!(set, FigurePlace::Along | FigurePlace::Past { upright: false, .. }),
            height,
        }
    }

    fn put(
        &mut self,
        span: Span,
        (off, line, figure, name): Choice,
        extensions: Option<[[Point; 2]; 2]>,
    ) {
        if let Some(name) = name {
            self.taken.push(name.bounds());
            self.items.push(Item::Text(name));
        }
        let own = line.map(|end| span.axis.point(end, off));
        let by = self.gap().scaled(1, 4);
        self.lines.push(strip(own, by));
        self.lines.extend(extensions.into_iter().flatten().map(|ends| strip(ends, by)));
        self.taken.push(figure.bounds());
        self.items.push(Item::Dimension(Box::new(Dimension {
            measure: span.measure,
            line: own,
            ends: span.ends.map(|end| span.axis.point(end, off)),
            tick: self.height.scaled(1, 5),
            extensions,
            figure,
        })));
    }
}

/// The rectangle round a straight line, `by` away from it.
fn strip([from, to]: [Point; 2], by: Length) -> Rect {
    let at = Point::new(from.x.min(to.x), from.y.min(to.y));
    let long = Size::new((to.x - from.x).abs(), (to.y - from.y).abs());
    Rect::new(at, long).outset(Sides::all(by))
}

fn long(figure: &Text) -> Length {
    let size = figure.bounds().size;
    if figure.turned { size.height } else { size.width }
}
