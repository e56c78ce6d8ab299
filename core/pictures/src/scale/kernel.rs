//! Which source samples make up a target sample, and by what weight.
#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "positions are sample numbers of one picture side: far inside f64 and usize"
)]

use std::f64::consts::PI;
use std::ops::Range;

/// Lobes of the Lanczos window. Source: Duchon, "Lanczos Filtering in One and Two Dimensions",
/// J. Applied Meteorology 18 (1979); three lobes are common practice.
const LOBES: f64 = 3.0;

/// The weights along one side of a picture.
#[derive(Debug, Clone)]
pub(crate) struct Kernel {
    taps: Vec<(usize, usize)>,
    weights: Vec<f32>,
}

fn lanczos(x: f64) -> f64 {
    if x.abs() < 1e-9 {
        return 1.0;
    }
    if x.abs() >= LOBES {
        return 0.0;
    }
    let (a, b) = (PI * x, PI * x / LOBES);
    (a.sin() / a) * (b.sin() / b)
}

impl Kernel {
    /// Reduces the source span `from..to` (in samples, of `source` there are) to `target`
    /// samples. Weights of each target sample add up to 1, at the edges too.
    pub(crate) fn new(source: usize, from: f64, to: f64, target: usize) -> Self {
        let step = (to - from) / target.max(1) as f64;
        let stretch = step.max(1.0);
        let mut kernel = Self { taps: Vec::with_capacity(target), weights: Vec::new() };
        let last = source.saturating_sub(1);
        for i in 0..target {
            let centre = from + (i as f64 + 0.5) * step - 0.5;
            let reach = LOBES * stretch;
            let first = ((centre - reach).ceil().max(0.0) as usize).min(last);
            let end = ((centre + reach).floor().max(0.0) as usize).min(last) + 1;
            let raw: Vec<f64> =
                (first..end).map(|s| lanczos((s as f64 - centre) / stretch)).collect();
            let sum: f64 = raw.iter().sum();
            // Taps that carry nothing are dropped at both ends: at 1:1 one is left.
            let counts = |w: &f64| (w / sum).abs() > 1e-6;
            let skip = raw.iter().position(counts).unwrap_or(0);
            let keep = raw.iter().rposition(counts).map_or(1, |k| k + 1).max(skip + 1);
            kernel.taps.push((first + skip, kernel.weights.len()));
            kernel.weights.extend(raw.iter().take(keep).skip(skip).map(|w| (w / sum) as f32));
        }
        kernel
    }

    pub(crate) fn len(&self) -> usize {
        self.taps.len()
    }

    /// The first source sample of target sample `i`, and the weights from there on.
    pub(crate) fn taps(&self, i: usize) -> (usize, &[f32]) {
        let (first, start) = self.taps[i];
        let end = self.taps.get(i + 1).map_or(self.weights.len(), |next| next.1);
        (first, &self.weights[start..end])
    }

    /// The source samples that the target samples of `range` need.
    pub(crate) fn needs(&self, range: Range<usize>) -> Range<usize> {
        let spans = range.map(|i| {
            let (first, weights) = self.taps(i);
            (first, first + weights.len())
        });
        let (mut low, mut high) = (usize::MAX, 0);
        for (first, end) in spans {
            low = low.min(first);
            high = high.max(end);
        }
        low.min(high)..high
    }

    /// The most source samples any target sample spans.
    pub(crate) fn longest(&self) -> usize {
        (0..self.len()).map(|i| self.taps(i).1.len()).max().unwrap_or(1)
    }

    /// The same kernel, its source samples counted from `origin`.
    pub(crate) fn shifted(mut self, origin: usize) -> Self {
        for tap in &mut self.taps {
            tap.0 -= origin.min(tap.0);
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_add_up_to_one_everywhere() {
        for (source, target) in [(100, 100), (100, 37), (4000, 1365), (5, 1), (1, 1)] {
            let kernel = Kernel::new(source, 0.0, source as f64, target);
            assert_eq!(kernel.len(), target, "one entry a target sample");
            for i in 0..target {
                let (first, weights) = kernel.taps(i);
                let sum: f32 = weights.iter().sum();
                assert!((sum - 1.0).abs() < 1e-5, "{source} to {target}, {i}: {sum}");
                assert!(first + weights.len() <= source, "taps stay inside the source");
            }
        }
    }

    #[test]
    fn one_to_one_copies() {
        let kernel = Kernel::new(9, 0.0, 9.0, 9);
        for i in 0..9 {
            assert_eq!(kernel.taps(i), (i, &[1.0f32][..]), "sample {i} is itself");
        }
    }

    #[test]
    fn a_part_is_taken_from_where_it_lies() {
        let kernel = Kernel::new(100, 40.0, 60.0, 20);
        assert_eq!(kernel.taps(0), (40, &[1.0f32][..]), "the first sample of the part");
        assert_eq!(kernel.needs(0..20), 40..60, "only the part is needed");
    }
}
