//! The eight ways a stored picture is turned to be shown.

use serde::{Deserialize, Serialize};

use crate::Size;

/// How stored pixels are turned to be shown. The numbers are EXIF's.
/// Source: CIPA DC-008 (EXIF 2.32), tag 0x0112; TIFF 6.0, tag 274.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Orientation {
    /// 1: as stored.
    #[default]
    Upright,
    /// 2: mirrored left to right.
    Mirrored,
    /// 3: turned by half.
    Half,
    /// 4: mirrored top to bottom.
    Flipped,
    /// 5: rows and columns exchanged.
    Transposed,
    /// 6: to be turned a quarter clockwise.
    Clockwise,
    /// 7: exchanged about the other diagonal.
    Transversed,
    /// 8: to be turned a quarter anticlockwise.
    Anticlockwise,
}

impl Orientation {
    /// The orientation of a tag's value; `None` outside 1 to 8.
    #[must_use]
    pub fn from_tag(value: u32) -> Option<Self> {
        Some(match value {
            1 => Self::Upright,
            2 => Self::Mirrored,
            3 => Self::Half,
            4 => Self::Flipped,
            5 => Self::Transposed,
            6 => Self::Clockwise,
            7 => Self::Transversed,
            8 => Self::Anticlockwise,
            _ => return None,
        })
    }
    /// Whether width and height change places.
    #[must_use]
    pub fn turns(self) -> bool {
        matches!(
            self,
            Self::Transposed | Self::Clockwise | Self::Transversed | Self::Anticlockwise
        )
    }
    /// `size` as shown, or back again.
    #[must_use]
    pub fn apply_size(self, size: Size) -> Size {
        if self.turns() { size.turned() } else { size }
    }
    /// Whether the stored picture is read mirrored along x, then y, after any exchange.
    fn mirrors(self) -> (bool, bool) {
        match self {
            Self::Upright | Self::Transposed => (false, false),
            Self::Mirrored | Self::Anticlockwise => (true, false),
            Self::Half | Self::Transversed => (true, true),
            Self::Flipped | Self::Clockwise => (false, true),
        }
    }
    /// Where the shown point (x, y) lies in the stored picture of size `stored`; both in
    /// fractions of pixels from the top left corner.
    pub(crate) fn stored_from_shown(self, stored: Size, x: f64, y: f64) -> (f64, f64) {
        let (sx, sy) = if self.turns() { (y, x) } else { (x, y) };
        let (mx, my) = self.mirrors();
        (
            if mx { f64::from(stored.width) - sx } else { sx },
            if my { f64::from(stored.height) - sy } else { sy },
        )
    }
    /// Turns `pixels` (RGBA, `stored` large) to be shown.
    pub(crate) fn apply(self, pixels: Vec<u8>, stored: Size) -> Vec<u8> {
        if self == Self::Upright {
            return pixels;
        }
        let (source, _) = pixels.as_chunks::<4>();
        let width = to_usize(stored.width);
        let height = to_usize(stored.height);
        let (mx, my) = self.mirrors();
        let mut out = vec![[0u8; 4]; source.len()];
        if self.turns() {
            // Blocks keep both the rows read and the rows written in the cache.
            const BLOCK: usize = 32;
            for by in (0..height).step_by(BLOCK) {
                for bx in (0..width).step_by(BLOCK) {
                    for y in by..(by + BLOCK).min(height) {
                        let to_x = if my { height - 1 - y } else { y };
                        for x in bx..(bx + BLOCK).min(width) {
                            let to_y = if mx { width - 1 - x } else { x };
                            out[to_y * height + to_x] = source[y * width + x];
                        }
                    }
                }
            }
        } else {
            for (y, row) in source.chunks_exact(width.max(1)).enumerate() {
                let to_y = if my { height - 1 - y } else { y };
                let to = &mut out[to_y * width..(to_y + 1) * width];
                to.copy_from_slice(row);
                if mx {
                    to.reverse();
                }
            }
        }
        out.into_flattened()
    }
}

fn to_usize(n: u32) -> usize {
    usize::try_from(n).unwrap_or(usize::MAX)
}
