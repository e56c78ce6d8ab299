//! A drawing in pixels: sRGB, mixed in linear light, edges by the exact share of each pixel
//! that is covered.
//!
//! Texts are not painted here: a writer of pixels has no typeface. Equal input gives equal
//! pixels, whatever the number of threads.

#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "pixels: every float is held within the buffer before it becomes an index"
)]

mod cover;
mod curve;
mod paint;

use std::fmt;
use std::num::NonZeroUsize;

use crate::drawing::{Drawing, Item, Picture};
use crate::geometry::{Point, Rect};
use crate::spec::WorkId;

/// Upright pixels in sRGB: red, green, blue, alpha, row by row from the top left.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Pixels {
    /// Across.
    pub width: u32,
    /// Down.
    pub height: u32,
    /// Four bytes a pixel. Alpha is 255 in what is painted here, and not looked at in
    /// pictures.
    pub rgba: Vec<u8>,
}

/// Returns the picture of a work, scaled to just so many pixels across and down; one of another
/// size is sampled by nearest pixel. `None` where there is no picture: a grey area takes its
/// place.
pub type Source<'a> = dyn FnMut(WorkId, u32, u32) -> Option<Pixels> + 'a;

/// Why a drawing could not be painted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum RasterError {
    /// It has no width or no height.
    Empty,
    /// So many pixels across and down are more than [`MOST_PIXELS`], or none.
    Size {
        /// Across.
        width: u64,
        /// Down.
        height: u64,
    },
}

/// The most pixels painted at once.
pub const MOST_PIXELS: u64 = 400_000_000;
/// The most pixels asked of a picture, on each side.
const MOST_SIDE: f64 = 30_000.0;
/// Rows painted at a time: little enough to stay in the processor's cache.
const STRIP: usize = 32;

impl fmt::Display for RasterError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => {
                f.write_str("there is nothing to paint: give the board a width and a height")
            }
            Self::Size { width, height } => write!(
                f,
                "a picture of {width} × {height} pixels is too large or has no size: ask for \
                 up to {} million pixels in all, such as 2000 across",
                MOST_PIXELS / 1_000_000
            ),
        }
    }
}

impl std::error::Error for RasterError {}

/// From the drawing's lengths to pixels.
#[derive(Clone, Copy, Debug)]
pub(crate) struct View {
    left_mm: f64,
    top_mm: f64,
    /// Pixels a millimetre.
    scale: f64,
}

impl View {
    fn point(&self, point: Point) -> (f64, f64) {
        (
            (point.x.to_mm() - self.left_mm) * self.scale,
            (point.y.to_mm() - self.top_mm) * self.scale,
        )
    }

    /// Left, top, right, bottom.
    fn rect(&self, rect: Rect) -> [f64; 4] {
        let (left, top) = self.point(rect.at);
        let (right, bottom) = self.point(Point::new(rect.right(), rect.bottom()));
        [left, top, right, bottom]
    }

    /// Every pixel that a rectangle touches: first column, first row, count across and down.
    fn touched(&self, rect: Rect) -> [f64; 4] {
        let [left, top, right, bottom] = self.rect(rect);
        // A hair's breadth of a pixel is no pixel: 24 px wide at 24.000001 asks for 24.
        let (x, y) = ((left + 1e-6).floor(), (top + 1e-6).floor());
        [x, y, ((right - 1e-6).ceil() - x).max(1.0), ((bottom - 1e-6).ceil() - y).max(1.0)]
    }
}

/// How many pixels down a drawing takes when it is so many across.
///
/// # Errors
/// When it has no size, or the pixels would be too many.
pub fn height_px(bounds: Rect, width: u32) -> Result<u32, RasterError> {
    if !bounds.size.is_positive() {
        return Err(RasterError::Empty);
    }
    let scale = f64::from(width) / bounds.size.width.to_mm();
    let height = (bounds.size.height.to_mm() * scale).round().max(1.0);
    let (width, height) = (u64::from(width), height.min(1e12) as u64);
    let all = width * height;
    match u32::try_from(height) {
        Ok(height) if (1..=MOST_PIXELS).contains(&all) => Ok(height),
        _ => Err(RasterError::Size { width, height }),
    }
}

/// Paints `drawing` `width` pixels wide, the height following from its bounds. `source` is
/// asked once for each picture.
///
/// # Errors
/// When the drawing has no size, or the pixels would be too many.
pub fn paint(
    drawing: &Drawing,
    width: u32,
    source: &mut Source<'_>,
) -> Result<Pixels, RasterError> {
    let height = height_px(drawing.bounds, width)?;
    let view = View {
        left_mm: drawing.bounds.left().to_mm(),
        top_mm: drawing.bounds.top().to_mm(),
        scale: f64::from(width) / drawing.bounds.size.width.to_mm(),
    };
    let pictures: Vec<Option<Pixels>> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Picture(picture) => Some(fetch(&view, picture, source)),
            _ => None,
        })
        .collect();

    let across = width as usize;
    let mut rgba = vec![255; across * height as usize * 4];
    let threads = std::thread::available_parallelism().map_or(1, NonZeroUsize::get).min(8);
    // Dealt out in turn, so that no thread has all the empty surround.
    let mut shares: Vec<Vec<(usize, &mut [u8])>> = (0..threads).map(|_| Vec::new()).collect();
    for (index, rows) in rgba.chunks_mut(across * STRIP * 4).enumerate() {
        if let Some(share) = shares.get_mut(index % threads) {
            share.push((index * STRIP, rows));
        }
    }
    std::thread::scope(|scope| {
        let mut shares = shares.into_iter();
        let own = shares.next().unwrap_or_default();
        for share in shares {
            scope.spawn(|| paint::strips(drawing, &view, &pictures, across, share));
        }
        paint::strips(drawing, &view, &pictures, across, own);
    });
    Ok(Pixels { width, height, rgba })
}

/// The picture on the pixels that its image area touches, so that none has to be made up
/// between two others.
fn fetch(view: &View, picture: &Picture, source: &mut Source<'_>) -> Option<Pixels> {
    let [_, _, width, height] = view.touched(picture.image).map(|v| v.min(MOST_SIDE));
    let pixels = source(picture.work, width as u32, height as u32)?;
    let wanted = u64::from(pixels.width) * u64::from(pixels.height) * 4;
    let whole = wanted > 0 && u64::try_from(pixels.rgba.len()).is_ok_and(|len| len >= wanted);
    whole.then_some(pixels)
}

#[cfg(test)]
mod tests;
