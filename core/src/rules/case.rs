//! What the rules share: the windows worth judging, and how figures are put into words.

use super::Case;
use crate::assembly::Sheet;
use crate::finding::Place;
use crate::geometry::{Rect, Seen, Side, Sides, Size};
use crate::inscription::Inscription;
use crate::layout::Window;
use crate::length::{Length, Round, Unit};
use crate::package::{Framed, Packed};
use crate::spec::{BoardBy, Inscribed, Opening};

/// One value for an inch document and one for a metric one.
pub(super) const fn by_unit(unit: Unit, inch: Length, metric: Length) -> Length {
    match unit {
        Unit::Inch => inch,
        Unit::Millimetre => metric,
    }
}

/// Less than half of the last digit that [`Length::text`] writes.
pub(super) const fn unseen(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::from_units(914),
        Unit::Millimetre => Length::from_units(360),
    }
}

/// Grams rounded up to whole ones; what a `u32` cannot hold becomes its most.
#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held within the range first"
)]
pub(super) fn grams(grams: f64) -> u32 {
    grams.ceil().clamp(0.0, f64::from(u32::MAX)) as u32
}

/// `found` as `text` writes it, with `just under` or `just over` where the limit reads the same.
fn compared(found: Length, limit: Length, text: impl Fn(Length) -> String) -> String {
    let (words, other) = (text(found), text(limit));
    if found == limit || words != other {
        words
    } else {
        let how = if found < limit { "just under" } else { "just over" };
        format!("{how} {other}")
    }
}

impl<'a> Case<'a> {
    /// What figures are shown in.
    pub(super) fn unit(&self) -> Unit {
        self.document.unit
    }

    /// A length that was found or is asked for, with the digits that one can measure.
    pub(super) fn text(&self, length: Length) -> String {
        length.near(self.unit())
    }

    /// A length that a remedy sets: all of it.
    pub(super) fn exact(&self, length: Length) -> String {
        length.text(self.unit())
    }

    /// A length above zero; one that would read as zero is `a hair`.
    pub(super) fn some(&self, length: Length) -> String {
        let text = self.text(length);
        if text == self.text(Length::ZERO) { "a hair".to_owned() } else { text }
    }

    /// By how much something is too short: to the digits that one can measure, never less.
    pub(super) fn short_by(&self, length: Length) -> String {
        length.sensible(self.unit(), Round::Up)
    }

    /// A mass in grams.
    pub(super) fn mass(&self, grams: f64) -> String {
        self.document.weights().mass(grams)
    }

    /// A mass that a part is rated for, and what it needs to be: a shortage is always seen.
    pub(super) fn rated(&self, has_g: u32, needs_g: f64) -> (String, String) {
        let weights = self.document.weights();
        let has = weights.rounded(f64::from(has_g), Round::Down);
        (has, weights.rounded(needs_g, Round::Up))
    }

    /// A width and a height that were found or are asked for.
    pub(super) fn size_text(&self, size: Size) -> String {
        size.extent_text(|length| self.text(length))
    }

    /// A width and a height that a remedy sets.
    pub(super) fn exact_size(&self, size: Size) -> String {
        size.extent_text(|length| self.exact(length))
    }

    /// How far something moves.
    pub(super) fn fine(&self, length: Length) -> String {
        length.fine(self.unit())
    }

    /// Four lengths in as few words as they need; where left and right differ, with the side they
    /// are seen from, the front.
    pub(super) fn around(&self, sides: Sides<Length>) -> String {
        let Sides { top, right, bottom, left } = sides.map(|side| self.text(side));
        if left != right || top != bottom {
            return format!(
                "top {top}, right {right}, bottom {bottom}, left {left}, seen {}",
                Seen::Front.words()
            );
        }
        if left == top {
            return format!("{top} all round");
        }
        format!("{top} above and below, {left} at the sides")
    }

    /// `found`, in words that never read the same as the limit it misses.
    pub(super) fn against(&self, found: Length, limit: Length) -> String {
        compared(found, limit, |length| self.text(length))
    }

    /// The same of what moves.
    pub(super) fn finely_against(&self, found: Length, limit: Length) -> String {
        compared(found, limit, |length| self.fine(length))
    }

    /// The board as it lies.
    pub(super) fn board(&self) -> Rect {
        Rect::at_origin(self.layout.exact.outer)
    }

    /// Every window with its opening.
    pub(super) fn all_windows(&self) -> impl Iterator<Item = (&'a Opening, &'a Window)> {
        self.mat.openings.iter().zip(&self.layout.exact.openings)
    }

    /// The windows whose figures mean something: sheet and window have a size.
    pub(super) fn windows(&self) -> impl Iterator<Item = (&'a Opening, &'a Window)> {
        self.all_windows().filter(|(_, window)| {
            window.sight.size.is_positive() && window.sheet.size.is_positive()
        })
    }

    /// The windows worth judging, with how their sheets are held and move.
    pub(super) fn held(&self) -> impl Iterator<Item = (&'a Window, &'a Sheet)> {
        let sheets = &self.assembly.sheets;
        self.windows().filter_map(|(_, window)| {
            let sheet = sheets.iter().find(|sheet| sheet.hinges.opening == window.id)?;
            Some((window, sheet))
        })
    }

    /// The same, once the plan has anything on paper or hinges.
    pub(super) fn hinged(&self) -> impl Iterator<Item = (&'a Window, &'a Sheet)> {
        let decided = self.mat.assembly.describes_hinges();
        self.held().filter(move |_| decided)
    }

    /// The same, once the plan has anything on how the paper moves.
    pub(super) fn moving(&self) -> impl Iterator<Item = (&'a Window, &'a Sheet)> {
        let decided = self.mat.assembly.describes_paper();
        self.held().filter(move |_| decided)
    }

    /// The package and its frame, once one is chosen.
    pub(super) fn framed(&self) -> Option<(&'a Packed, &'a Framed)> {
        let packed = self.assembly.package.as_ref()?;
        Some((packed, packed.framed.as_ref()?))
    }

    /// What is written, what was wanted, and the window of the print.
    pub(super) fn written(&self) -> Option<(&'a Inscription, &'a Inscribed, &'a Window)> {
        let (_, window) = self.windows().next()?;
        let wanted = self.document.inscribed.as_ref()?;
        Some((self.inscription?.as_ref().ok()?, wanted, window))
    }

    /// From a window's sight edge to the end of the board or of the backing, whichever comes
    /// first: as far as a sheet may reach out under the mat.
    pub(super) fn reach(&self, window: &Window) -> Sides<Length> {
        window.borders.zip(window.sight.within(self.layout.exact.backing), Length::min)
    }

    /// The borders that a person gives or places: the top layer's where borders are given,
    /// else those of the innermost sight edge; round all windows. `None` without a window.
    pub(super) fn placed_borders(&self) -> Option<Sides<Length>> {
        self.windows().next()?;
        Some(match self.mat.board_by {
            // What is cut already no longer follows the borders that are given.
            BoardBy::Borders(borders) if self.mat.cut_board().is_none() => borders,
            _ => self.layout.exact.group().within(self.board()),
        })
    }

    /// The borders to name in a message, and the words for whose they are: `border` alone means the
    /// top mat's. Its opposite borders differ by as much as `placed`, unless an undermat is uneven.
    pub(super) fn described_borders(
        &self,
        placed: Sides<Length>,
    ) -> (Sides<Length>, &'static str) {
        let windows = || self.layout.exact.openings.iter();
        let tops = windows().filter_map(Window::top).map(|cut| cut.borders);
        let top = tops.reduce(|one, other| one.zip(other, Length::min)).unwrap_or(placed);
        let odd = |of: Sides<Length>| (of.left - of.right, of.top - of.bottom);
        if odd(top) == odd(placed) { (top, "") } else { (placed, " to the undermat's window") }
    }

    /// One side of all windows; the window is named where there is but one.
    pub(super) fn group_side(&self, side: Side) -> Place {
        let opening = match self.mat.openings.as_slice() {
            [only] => Some(only.id),
            _ => None,
        };
        Place { opening, layer: None, side: Some(side) }
    }
}

impl Place {
    /// One side of a window.
    pub(super) fn side(window: &Window, side: Side) -> Self {
        Self { opening: Some(window.id), layer: None, side: Some(side) }
    }

    /// One side of a window in the top layer.
    pub(super) fn top_layer(window: &Window, side: Side) -> Self {
        let layer = window.top().map(|cut| cut.layer);
        Self { opening: Some(window.id), layer, side: Some(side) }
    }

    /// A whole window.
    pub(crate) fn window(window: &Window) -> Self {
        Self { opening: Some(window.id), layer: None, side: None }
    }
}
