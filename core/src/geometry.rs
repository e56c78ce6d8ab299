//! Points, sizes, sides, rectangles and closed paths in exact lengths.
//!
//! The board's axes: x to the right, y downwards, zero at the board's top left corner as it
//! is seen from the front.

use crate::length::Length;

/// A place on the board.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Hash)]
pub struct Point {
    /// From the left edge.
    pub x: Length,
    /// From the top edge.
    pub y: Length,
}

/// A width and a height.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Hash)]
pub struct Size {
    /// Across.
    pub width: Length,
    /// Down.
    pub height: Length,
}

/// One of four sides.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash)]
pub enum Side {
    /// The upper edge.
    Top,
    /// The edge at the right hand, seen from the front.
    Right,
    /// The lower edge.
    Bottom,
    /// The edge at the left hand, seen from the front.
    Left,
}

/// From which side a board is seen; left and right change places with it.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Seen {
    /// Face up, as it hangs.
    #[default]
    Front,
    /// Face down, as the maker sees it in the cutter.
    Back,
}

/// One value for each side, in the order top, right, bottom, left.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Hash)]
pub struct Sides<T> {
    /// Of the upper edge.
    pub top: T,
    /// Of the right edge, seen from the front.
    pub right: T,
    /// Of the lower edge.
    pub bottom: T,
    /// Of the left edge, seen from the front.
    pub left: T,
}

/// An upright rectangle: its top left corner and its size, which may be negative where a
/// plan is nonsense.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Hash)]
pub struct Rect {
    /// The top left corner.
    pub at: Point,
    /// Its width and height.
    pub size: Size,
}

/// A closed outline: straight lines from each point to the next and back to the first.
#[derive(Clone, PartialEq, Eq, Debug, Default, Hash)]
pub struct Path {
    /// The corners, clockwise as seen from the front.
    pub points: Vec<Point>,
}

impl Point {
    /// A point.
    pub const fn new(x: Length, y: Length) -> Self {
        Self { x, y }
    }
}

impl Size {
    /// A size.
    pub const fn new(width: Length, height: Length) -> Self {
        Self { width, height }
    }

    /// Both sides longer than nothing.
    pub const fn is_positive(self) -> bool {
        self.width.is_positive() && self.height.is_positive()
    }

    /// The same with width and height exchanged.
    pub const fn turned(self) -> Self {
        Self { width: self.height, height: self.width }
    }

    /// The shorter of both.
    pub fn short(self) -> Length {
        self.width.min(self.height)
    }

    /// The longer of both.
    pub fn long(self) -> Length {
        self.width.max(self.height)
    }

    /// Whether this lies within `other`, turned or not.
    pub fn fits(self, other: Self) -> bool {
        self.short() <= other.short() && self.long() <= other.long()
    }

    /// Width × height, each as `text` writes it, the unit once: `8 1/2 × 11 in`.
    pub fn extent_text(self, text: impl Fn(Length) -> String) -> String {
        extent_of(&text(self.width), &text(self.height))
    }

    /// Width × height, each as `text` writes it: `8 1/2 in × 11 in`.
    pub fn sides_text(self, text: impl Fn(Length) -> String) -> String {
        format!("{} × {}", text(self.width), text(self.height))
    }
}

/// Two lengths that end with their unit, as a size that names it once.
pub fn extent_of(width: &str, height: &str) -> String {
    let number = width.rsplit_once([' ', '\u{a0}']).map_or(width, |(number, _)| number);
    format!("{number} × {height}")
}

impl Side {
    /// All four, in the order of [`Sides`].
    pub const ALL: [Self; 4] = [Self::Top, Self::Right, Self::Bottom, Self::Left];

    /// The side across.
    pub const fn opposite(self) -> Self {
        match self {
            Self::Top => Self::Bottom,
            Self::Right => Self::Left,
            Self::Bottom => Self::Top,
            Self::Left => Self::Right,
        }
    }

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Top => "top",
            Self::Right => "right",
            Self::Bottom => "bottom",
            Self::Left => "left",
        }
    }
}

impl Seen {
    /// What is given from the front, as it is seen from here.
    pub const fn sides<T: Copy>(self, front: Sides<T>) -> Sides<T> {
        match self {
            Self::Front => front,
            Self::Back => front.from_the_back(),
        }
    }

    /// As every group of figures with a left and a right in it says.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Front => "from the front",
            Self::Back => "from the back",
        }
    }
}

impl<T: Copy> Sides<T> {
    /// Four values: top, right, bottom, left.
    pub const fn new(top: T, right: T, bottom: T, left: T) -> Self {
        Self { top, right, bottom, left }
    }

    /// The same value on each side.
    pub const fn all(value: T) -> Self {
        Self::new(value, value, value, value)
    }

    /// The value of one side.
    pub const fn of(&self, side: Side) -> T {
        match side {
            Side::Top => self.top,
            Side::Right => self.right,
            Side::Bottom => self.bottom,
            Side::Left => self.left,
        }
    }

    /// The same with another value on one side.
    #[must_use]
    pub const fn with(mut self, side: Side, value: T) -> Self {
        match side {
            Side::Top => self.top = value,
            Side::Right => self.right = value,
            Side::Bottom => self.bottom = value,
            Side::Left => self.left = value,
        }
        self
    }

    /// Each side with its value.
    pub fn each(&self) -> [(Side, T); 4] {
        Side::ALL.map(|side| (side, self.of(side)))
    }

    /// Each value changed by `change`.
    pub fn map<U>(self, change: impl Fn(T) -> U) -> Sides<U> {
        Sides {
            top: change(self.top),
            right: change(self.right),
            bottom: change(self.bottom),
            left: change(self.left),
        }
    }

    /// Side by side with `other`.
    pub fn zip<U: Copy, V>(self, other: Sides<U>, join: impl Fn(T, U) -> V) -> Sides<V> {
        Sides {
            top: join(self.top, other.top),
            right: join(self.right, other.right),
            bottom: join(self.bottom, other.bottom),
            left: join(self.left, other.left),
        }
    }

    /// As the maker sees it with the board turned over: left and right change places.
    #[must_use]
    pub const fn from_the_back(self) -> Self {
        Self { top: self.top, right: self.left, bottom: self.bottom, left: self.right }
    }
}

impl Sides<Length> {
    /// Left and right together, top and bottom together.
    pub fn sums(self) -> Size {
        Size::new(self.left + self.right, self.top + self.bottom)
    }

    /// Side by side sum.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        self.zip(other, |a, b| a + b)
    }

    /// Side by side difference.
    #[must_use]
    pub fn minus(self, other: Self) -> Self {
        self.zip(other, |a, b| a - b)
    }

    /// The least of the four.
    pub fn least(self) -> Length {
        self.top.min(self.right).min(self.bottom).min(self.left)
    }
}

impl Rect {
    /// A rectangle from its corner and size.
    pub const fn new(at: Point, size: Size) -> Self {
        Self { at, size }
    }

    /// A rectangle of `size` at the origin.
    pub const fn at_origin(size: Size) -> Self {
        Self { at: Point { x: Length::ZERO, y: Length::ZERO }, size }
    }

    /// What `margins` leave of `self`.
    #[must_use]
    pub fn inset(self, margins: Sides<Length>) -> Self {
        let taken = margins.sums();
        Self {
            at: Point::new(self.at.x + margins.left, self.at.y + margins.top),
            size: Size::new(self.size.width - taken.width, self.size.height - taken.height),
        }
    }

    /// `self` grown by `margins`.
    #[must_use]
    pub fn outset(self, margins: Sides<Length>) -> Self {
        self.inset(margins.map(|margin| -margin))
    }

    /// The left edge.
    pub const fn left(self) -> Length {
        self.at.x
    }

    /// The upper edge.
    pub const fn top(self) -> Length {
        self.at.y
    }

    /// The right edge.
    pub fn right(self) -> Length {
        self.at.x + self.size.width
    }

    /// The lower edge.
    pub fn bottom(self) -> Length {
        self.at.y + self.size.height
    }

    /// Where one side lies: y of top and bottom, x of left and right.
    pub fn edge(self, side: Side) -> Length {
        match side {
            Side::Top => self.top(),
            Side::Right => self.right(),
            Side::Bottom => self.bottom(),
            Side::Left => self.left(),
        }
    }

    /// How far each side of `self` lies inside `outer`; negative where it stands out.
    pub fn within(self, outer: Self) -> Sides<Length> {
        Sides {
            top: self.top() - outer.top(),
            right: outer.right() - self.right(),
            bottom: outer.bottom() - self.bottom(),
            left: self.left() - outer.left(),
        }
    }

    /// What both cover, or `None`.
    pub fn intersection(self, other: Self) -> Option<Self> {
        let at = Point::new(self.left().max(other.left()), self.top().max(other.top()));
        let size = Size::new(
            self.right().min(other.right()) - at.x,
            self.bottom().min(other.bottom()) - at.y,
        );
        size.is_positive().then_some(Self { at, size })
    }

    /// Its outline.
    pub fn path(self) -> Path {
        Path {
            points: vec![
                self.at,
                Point::new(self.right(), self.top()),
                Point::new(self.right(), self.bottom()),
                Point::new(self.left(), self.bottom()),
            ],
        }
    }
}

impl Path {
    /// The smallest upright rectangle around it.
    pub fn bounds(&self) -> Rect {
        let Some(first) = self.points.first() else { return Rect::default() };
        let (mut least, mut most) = (*first, *first);
        for point in &self.points {
            least = Point::new(least.x.min(point.x), least.y.min(point.y));
            most = Point::new(most.x.max(point.x), most.y.max(point.y));
        }
        Rect::new(least, Size::new(most.x - least.x, most.y - least.y))
    }
}
