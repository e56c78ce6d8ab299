//! Coefficients of a row of units, laid out so that eight blocks are transformed at once.
#![allow(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    reason = "coefficients of at most 17 bits become f32"
)]

use super::idct::Sizes;
use super::markers::{Frame, NATURAL};

/// Blocks side by side that are transformed together.
pub(super) const LANES: usize = 8;

/// A place that is not kept when shrinking.
const DROPPED: u8 = 255;

/// How one component is decoded.
#[derive(Debug, Clone)]
pub(super) struct Part {
    pub(super) h: usize,
    pub(super) v: usize,
    /// Samples across (and down) that a block becomes: 8, 4, 2 or 1.
    pub(super) side: usize,
    /// Blocks across, in whole units.
    pub(super) across: usize,
    /// Slot of each coefficient in sending order; [`DROPPED`] where it is not kept. The tail
    /// lets a run beyond the last coefficient be looked up.
    slots: [u8; 64],
    /// What each coefficient is multiplied by, in sending order.
    scale: [f32; 64],
}

impl Part {
    /// The parts of `frame` when both sides are shrunk by `shrink`.
    pub(super) fn all(
        frame: &Frame,
        quants: &[Option<[u16; 64]>; 4],
        shrink: usize,
    ) -> Vec<Self> {
        let (across, _) = frame.mcus();
        let side = 8 / shrink.clamp(1, 8);
        frame
            .components
            .iter()
            .map(|c| {
                // A component that is sampled less often is shrunk less.
                let spare = (frame.h_max / c.h).min(frame.v_max / c.v);
                let more = if spare >= 4 { 4 } else { spare.min(2) };
                let side = (side * more.max(1)).min(8);
                let quant = quants[c.quant].unwrap_or([1; 64]);
                let mut part = Self {
                    h: c.h,
                    v: c.v,
                    side,
                    across: across * c.h,
                    slots: [DROPPED; 64],
                    scale: [0.0; 64],
                };
                let sizes = Sizes::of(side);
                for (k, &natural) in NATURAL.iter().enumerate() {
                    let (x, y) = (usize::from(natural % 8), usize::from(natural / 8));
                    if x < side && y < side {
                        part.slots[k] = u8::try_from(y * side + x).unwrap_or(DROPPED);
                        let quant = f32::from(quant[usize::from(natural)]);
                        part.scale[k] = quant * sizes.scale[x] * sizes.scale[y];
                    }
                }
                part
            })
            .collect()
    }

    /// Coefficients kept of each block.
    pub(super) fn kept(&self) -> usize {
        self.side * self.side
    }

    /// The slot of the coefficient sent as number `k`, if it is kept.
    pub(super) fn slot(&self, k: usize) -> Option<usize> {
        let slot = self.slots[k & 63];
        (slot != DROPPED).then_some(usize::from(slot))
    }

    fn groups(&self) -> usize {
        self.across.div_ceil(LANES)
    }
}

/// One component's coefficients in one row of units.
#[derive(Debug, Clone, Default)]
pub(super) struct Plane {
    /// Groups of [`LANES`] blocks, each `kept` slots of one number a lane; row by row.
    pub(super) numbers: Vec<f32>,
    /// For each group the slots that are not zero anywhere in it.
    pub(super) used: Vec<u64>,
}

/// The coefficients of one row of units.
#[derive(Debug, Clone, Default)]
pub(super) struct Band {
    pub(super) planes: Vec<Plane>,
}

impl Band {
    /// An empty band for `parts`, its memory kept if it has any.
    pub(super) fn cleared(mut self, parts: &[Part]) -> Self {
        self.planes.resize_with(parts.len(), Plane::default);
        for (plane, part) in self.planes.iter_mut().zip(parts) {
            let groups = part.groups() * part.v;
            plane.numbers.clear();
            plane.numbers.resize(groups * part.kept() * LANES, 0.0);
            plane.used.clear();
            plane.used.resize(groups, 0);
        }
        self
    }
}

/// Where one block's coefficients go.
#[derive(Debug)]
pub(super) struct Block<'a> {
    part: &'a Part,
    group: &'a mut [f32],
    used: &'a mut u64,
    lane: usize,
}

impl<'a> Block<'a> {
    /// The block in column `x` of row `y` (counted in this component's blocks of the band).
    #[inline]
    pub(super) fn at(plane: &'a mut Plane, part: &'a Part, x: usize, y: usize) -> Option<Self> {
        let group = y * part.groups() + x / LANES;
        let length = part.kept() * LANES;
        Some(Self {
            part,
            group: plane.numbers.get_mut(group * length..(group + 1) * length)?,
            used: plane.used.get_mut(group)?,
            lane: x % LANES,
        })
    }

    /// Puts the coefficient sent as number `k`.
    #[inline]
    pub(super) fn put(&mut self, k: usize, value: i32) {
        let slot = self.part.slots[k & 63];
        // A dropped one's slot lies beyond every group.
        if let Some(to) = self.group.get_mut(usize::from(slot) * LANES + self.lane) {
            *to = value as f32 * self.part.scale[k & 63];
            *self.used |= 1 << (slot & 63);
        }
    }
}
