//! A picture: a world, a camera and a film, drawn pixel by pixel or in part.

#![allow(clippy::as_conversions, reason = "pixel counts become places in the frame")]

use std::num::NonZeroUsize;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU32, Ordering};

use image::codecs::jpeg::{JpegEncoder, PixelDensity};
use image::{ExtendedColorType, ImageError};

use crate::film::Film;
use crate::noise::{hash, unit};
use crate::vector::{BLACK, V, v};
use crate::world::World;

/// A view camera, held level: uprights stay upright, the horizon is moved by shift.
#[derive(Clone, Debug)]
pub(crate) struct Camera {
    /// Height of the lens above the water, in metres.
    pub(crate) height: f64,
    /// Width of the frame one metre ahead, in metres.
    pub(crate) width: f64,
    /// Where the horizon lies, as a share of the frame from its upper edge.
    pub(crate) horizon: f64,
}

/// One of the demo pictures.
#[derive(Clone, Debug)]
pub struct Picture {
    /// File name in the demo folder.
    pub file: &'static str,
    /// Pixels across and down.
    pub size: (u32, u32),
    /// Pixels an inch, recorded in the file.
    pub density: u16,
    /// JPEG quality, 1 to 100.
    pub quality: u8,
    pub(crate) camera: Camera,
    pub(crate) world: World,
    pub(crate) film: Film,
    /// Most samples a pixel may take.
    pub(crate) patience: u32,
}

/// Part of a picture, in its pixels.
#[derive(Clone, Copy, Debug)]
pub struct Area {
    /// First column.
    pub x: u32,
    /// First row.
    pub y: u32,
    /// Columns.
    pub width: u32,
    /// Rows.
    pub height: u32,
}

/// Steps of the R4 sequence: even cover in four dimensions at any count of samples.
const EVEN: [f64; 4] = [
    0.856_674_883_854_502_9,
    0.733_891_856_627_126,
    0.628_706_721_037_805_5,
    0.538_597_255_722_361_2,
];

impl Picture {
    /// The same view with `1 / divisor` of the pixels each way, for a quick look.
    #[must_use]
    pub fn smaller(mut self, divisor: u32) -> Self {
        let divisor = divisor.max(1);
        self.film.grain /= f64::from(divisor);
        self.size = ((self.size.0 / divisor).max(1), (self.size.1 / divisor).max(1));
        self
    }

    fn light(&self, x: u32, y: u32) -> V {
        let cam = &self.camera;
        let pixel = cam.width / f64::from(self.size.0);
        let middle = f64::from(self.size.0) * 0.5;
        let level = f64::from(self.size.1) * cam.horizon;
        let eye = v(0.0, cam.height, 0.0);
        let mut start = [0.0; 4];
        for (k, s) in (0..).zip(&mut start) {
            *s = unit(hash(i64::from(x), i64::from(y), k, 0x5EA));
        }
        // The sea mirrors one slope a sample, and needs more of them than the air.
        let first = if f64::from(y) > level { 11 } else { 6 };
        let (mut sum, mut squares, mut n) = (BLACK, 0.0, 0_u32);
        loop {
            n += 1;
            let mut r = [0.0; 4];
            for k in 0..4 {
                let s = start[k] + f64::from(n) * EVEN[k];
                r[k] = s - s.floor();
            }
            let px = f64::from(x) + 0.5 + tent(r[0]);
            let py = f64::from(y) + 0.5 + tent(r[1]);
            let d = v((px - middle) * pixel, (level - py) * pixel, 1.0).unit();
            let far = (-2.0 * libm::log(1.0 - r[2] * 0.97)).sqrt();
            let turn = r[3] * std::f64::consts::TAU;
            let wobble = (far * libm::cos(turn), far * libm::sin(turn));
            let c = self.world.seen(eye, d, pixel * 0.5, wobble);
            sum += c;
            let tone = c.luminance() / (c.luminance() + 0.25);
            squares += tone * tone;
            if n == first || n == 24 || n >= self.patience {
                // Squares against the square of the mean tone: the spread left in the mean.
                let mean = sum.luminance() / f64::from(n);
                let mean = mean / (mean + 0.25);
                let spread = (squares / f64::from(n) - mean * mean).abs() / f64::from(n);
                if n >= self.patience || spread < 5.0e-6 {
                    return sum * (1.0 / f64::from(n));
                }
            }
        }
    }

    /// The levels of one area, red, green and blue in turn, row by row.
    #[must_use]
    pub fn part(&self, area: Area) -> Vec<u8> {
        let next = AtomicU32::new(0);
        let rows = Mutex::new(vec![Vec::new(); area.height as usize]);
        let hands = std::thread::available_parallelism().map_or(1, NonZeroUsize::get);
        std::thread::scope(|scope| {
            for _ in 0..hands {
                scope.spawn(|| {
                    loop {
                        let row = next.fetch_add(1, Ordering::Relaxed);
                        if row >= area.height {
                            break;
                        }
                        let levels = self.row(area, area.y + row);
                        if let Ok(mut rows) = rows.lock() {
                            rows[row as usize] = levels;
                        }
                    }
                });
            }
        });
        rows.into_inner().map(|rows| rows.concat()).unwrap_or_default()
    }

    fn row(&self, area: Area, y: u32) -> Vec<u8> {
        let (w, h) = (f64::from(self.size.0), f64::from(self.size.1));
        let mut out = Vec::new();
        for x in area.x..area.x + area.width {
            let across = (f64::from(x) / w * 2.0 - 1.0, f64::from(y) / h * 2.0 - 1.0);
            out.extend(self.film.develop(self.light(x, y), (x, y), across));
        }
        out
    }

    /// The whole picture's levels.
    #[must_use]
    pub fn whole(&self) -> Vec<u8> {
        self.part(Area { x: 0, y: 0, width: self.size.0, height: self.size.1 })
    }

    /// A JPEG file of `levels`, `width` by `height` pixels, at this picture's quality.
    ///
    /// # Errors
    /// When the levels are not as many as the size wants.
    pub fn jpeg(&self, levels: &[u8], width: u32, height: u32) -> Result<Vec<u8>, ImageError> {
        let mut out = Vec::new();
        let mut encoder = JpegEncoder::new_with_quality(&mut out, self.quality);
        encoder.set_pixel_density(PixelDensity::dpi(self.density));
        encoder.encode(levels, width, height, ExtendedColorType::Rgb8)?;
        Ok(out)
    }
}

/// A place within a soft pixel: a lens draws no hard edge.
fn tent(r: f64) -> f64 {
    let t = 2.0 * r - 1.0;
    let s = 1.0 - (1.0 - t.abs()).sqrt();
    if t < 0.0 { -s } else { s }
}
