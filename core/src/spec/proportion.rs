//! The picture's own proportion, and printed areas that keep it.

use super::Picture;
use crate::geometry::Size;
use crate::length::Length;

/// More apart than this is no rounding of a print's size; hundredths of a percent.
/// Source: common practice.
pub const MOST_APART: i64 = 50;

impl Picture {
    /// How far a printed area is from the picture's proportion, in hundredths of a percent,
    /// never more than [`MOST_APART`] rounded down to it; `None` where either has no size.
    pub fn apart(&self, area: Size) -> Option<i64> {
        let (of_pixels, of_area) = self.beside(area)?;
        let off = (of_pixels - of_area).abs() * 10_000;
        let apart = i64::try_from((off + of_area / 2) / of_area).unwrap_or(i64::MAX);
        let above = off > of_area * i128::from(MOST_APART);
        Some(if above { apart.max(MOST_APART + 1) } else { apart.min(MOST_APART) })
    }

    /// Whether a printed area has the picture's proportion, but for a rounding; so it has where
    /// either has no size.
    pub fn is_kept_by(&self, area: Size) -> bool {
        self.apart(area).is_none_or(|apart| apart <= MOST_APART)
    }

    /// The height of a printed area that is so wide, exactly in the picture's proportion; `None`
    /// where the picture has no size.
    pub fn height_at(&self, width: Length) -> Option<Length> {
        (self.width_px > 0 && self.height_px > 0)
            .then(|| width.scaled(self.height_px.into(), self.width_px.into()))
    }

    /// The width of a printed area that is so high, exactly in the picture's proportion; `None`
    /// where the picture has no size.
    pub fn width_at(&self, height: Length) -> Option<Length> {
        (self.width_px > 0 && self.height_px > 0)
            .then(|| height.scaled(self.width_px.into(), self.height_px.into()))
    }

    /// The largest size of the picture's proportion within `area`; `None` where either has no
    /// size.
    pub fn largest_in(&self, area: Size) -> Option<Size> {
        let (of_pixels, of_area) = self.beside(area)?;
        Some(if of_pixels > of_area {
            Size::new(area.width, self.height_at(area.width)?)
        } else {
            Size::new(self.width_at(area.height)?, area.height)
        })
    }

    /// Width over height of picture and area, brought to the same denominator.
    fn beside(&self, area: Size) -> Option<(i128, i128)> {
        (self.width_px > 0 && self.height_px > 0 && area.is_positive()).then(|| {
            (
                i128::from(self.width_px) * i128::from(area.height.units()),
                i128::from(self.height_px) * i128::from(area.width.units()),
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::{inches, plain, size};

    fn picture(width_px: u32, height_px: u32) -> Picture {
        Picture { width_px, height_px, ..plain("8x10").works.remove(0).picture }
    }

    /// Source: derived; a picture of 2 : 3 is 12 in wide where it is 18 in high.
    #[test]
    fn one_side_gives_the_other() {
        let tall = picture(4000, 6000);
        assert_eq!(tall.height_at(inches("12")), Some(inches("18")));
        assert_eq!(tall.width_at(inches("18")), Some(inches("12")));
        assert_eq!(tall.height_at(inches("11")), Some(inches("16 1/2")));
        assert_eq!(picture(0, 6000).height_at(inches("12")), None);
        assert_eq!(picture(4000, 0).width_at(inches("12")), None);
    }

    #[test]
    fn the_largest_within_an_area() {
        let tall = picture(4000, 6000);
        assert_eq!(tall.largest_in(size("12x20")), Some(size("12x18")));
        assert_eq!(tall.largest_in(size("14x18")), Some(size("12x18")));
        assert_eq!(tall.largest_in(size("12x18")), Some(size("12x18")));
        assert_eq!(tall.largest_in(Size::default()), None);
    }

    #[test]
    fn what_is_a_rounding() {
        let picture = picture(2400, 3000);
        assert!(picture.is_kept_by(size("8x10")));
        assert!(picture.is_kept_by(size("8.03x10")));
        assert!(!picture.is_kept_by(size("8.05x10")));
        assert_eq!(picture.apart(size("8.05x10")), Some(62));
        assert!(picture.is_kept_by(Size::default()));
    }
}
