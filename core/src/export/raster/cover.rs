//! The exact share of each pixel that lies within a closed path.

/// A band of rows of the picture.
#[derive(Clone, Copy, Debug)]
pub(super) struct Strip {
    /// Pixels across.
    pub(super) width: usize,
    /// The first row.
    pub(super) top: usize,
    /// How many.
    pub(super) rows: usize,
}

/// The pixels of a strip that a shape may touch.
#[derive(Clone, Copy, Debug)]
pub(super) struct Window {
    pub(super) columns: (usize, usize),
    /// Counted from the strip's first.
    pub(super) rows: (usize, usize),
}

impl Strip {
    pub(super) fn window(&self, left: f64, top: f64, right: f64, bottom: f64) -> Window {
        let index = |value: f64, most: usize| value.clamp(0.0, most as f64) as usize;
        let up = self.top as f64;
        Window {
            columns: (index(left.floor(), self.width), index(right.ceil(), self.width)),
            rows: (
                index((top - up).floor(), self.rows),
                index((bottom - up).ceil(), self.rows),
            ),
        }
    }

    pub(super) fn pixels(&self) -> usize {
        self.width * self.rows
    }
}

/// How much of the pixel from `n` to `n + 1` lies between both.
pub(super) fn share(n: usize, from: f64, to: f64) -> f32 {
    let n = n as f64;
    ((n + 1.0).min(to) - n.max(from)).max(0.0) as f32
}

/// Adds `times` the share of each pixel that lies within the path through `points` to `mask`.
/// Returns the pixels that it may have touched.
pub(super) fn add(
    mask: &mut [f32],
    strip: &Strip,
    points: &[(f64, f64)],
    times: f32,
) -> Window {
    let bound = |pick: fn(&(f64, f64)) -> f64| {
        points.iter().map(pick).fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), v| {
            (least.min(v), most.max(v))
        })
    };
    let ((left, right), (top, bottom)) = (bound(|p| p.0), bound(|p| p.1));
    let window = strip.window(left, top, right, bottom);
    let ((x0, x1), (y0, y1)) = (window.columns, window.rows);
    if x0 >= x1 || y0 >= y1 {
        return window;
    }
    if upright(points) {
        let columns: Vec<f32> = (x0..x1).map(|x| share(x, left, right) * times).collect();
        for y in y0..y1 {
            let down = share(y + strip.top, top, bottom);
            let row = &mut mask[y * strip.width + x0..y * strip.width + x1];
            for (pixel, across) in row.iter_mut().zip(&columns) {
                *pixel += across * down;
            }
        }
        return window;
    }
    let across = x1 - x0;
    // What an edge adds to its own pixel and all to the right of it, and a place for the rest.
    let mut line = vec![0.0_f32; across + 2];
    for y in y0..y1 {
        line.fill(0.0);
        let row_top = (y + strip.top) as f64;
        for (from, to) in points.iter().zip(points.iter().cycle().skip(1)) {
            edge(&mut line, across, x0 as f64, row_top, *from, *to);
        }
        let mut sum = 0.0;
        let row = &mut mask[y * strip.width + x0..y * strip.width + x1];
        for (pixel, change) in row.iter_mut().zip(&line) {
            sum += change;
            *pixel += times * sum.abs().min(1.0);
        }
    }
    window
}

/// Whether it is a rectangle along the axes.
fn upright(points: &[(f64, f64)]) -> bool {
    let [a, b, c, d] = points else { return false };
    let same = |one: f64, other: f64| (one - other).abs() < 1e-9;
    (same(a.1, b.1) && same(b.0, c.0) && same(c.1, d.1) && same(d.0, a.0))
        || (same(a.0, b.0) && same(b.1, c.1) && same(c.0, d.0) && same(d.1, a.1))
}

/// What one edge of a path adds to one row.
fn edge(
    line: &mut [f32],
    across: usize,
    left: f64,
    row_top: f64,
    from: (f64, f64),
    to: (f64, f64),
) {
    let fall = to.1 - from.1;
    let (upper, lower) = if fall < 0.0 { (to, from) } else { (from, to) };
    let (top, bottom) = (upper.1.max(row_top), lower.1.min(row_top + 1.0));
    if top >= bottom {
        return;
    }
    let at =
        |y: f64| upper.0 + (y - upper.1) / (lower.1 - upper.1) * (lower.0 - upper.0) - left;
    let (a, b) = (at(top), at(bottom));
    let (least, most) = (a.min(b), a.max(b));
    let all = (bottom - top) * fall.signum();
    let end = across as f64;
    if most <= 0.0 {
        line[0] += all as f32;
    } else if least >= end {
    } else if most - least < 1e-9 {
        cell(line, least.max(0.0), all);
    } else {
        let each = all / (most - least);
        if least < 0.0 {
            line[0] += (each * -least) as f32;
        }
        let (mut x, stop) = (least.max(0.0), most.min(end));
        while x < stop {
            let next = (x.floor() + 1.0).min(stop);
            cell(line, f64::midpoint(x, next), each * (next - x));
            x = next;
        }
    }
}

/// A piece of an edge within one pixel: what lies right of its middle is covered.
fn cell(line: &mut [f32], middle: f64, height: f64) {
    let index = middle.floor();
    let part = middle - index;
    let index = (index as usize).min(line.len() - 2);
    line[index] += (height * (1.0 - part)) as f32;
    line[index + 1] += (height * part) as f32;
}

#[cfg(test)]
mod tests {
    use super::*;

    fn covered(points: &[(f64, f64)]) -> Vec<f32> {
        let strip = Strip { width: 4, top: 0, rows: 4 };
        let mut mask = vec![0.0; 16];
        add(&mut mask, &strip, points, 1.0);
        mask
    }

    #[test]
    fn areas_are_exact() {
        let near = |mask: &[f32], wanted: f32| {
            let sum: f32 = mask.iter().sum();
            assert!((sum - wanted).abs() < 1e-5, "{sum} for {wanted}");
        };
        near(&covered(&[(0.25, 0.5), (3.5, 0.5), (3.5, 2.25), (0.25, 2.25)]), 3.25 * 1.75);
        near(&covered(&[(0.0, 0.0), (4.0, 0.0), (0.0, 4.0)]), 8.0);
        near(&covered(&[(0.0, 4.0), (4.0, 0.0), (0.0, 0.0)]), 8.0);
        // Half of it lies outside on every side.
        near(&covered(&[(2.0, -2.0), (6.0, 2.0), (2.0, 6.0), (-2.0, 2.0)]), 16.0);
        near(&covered(&[(-9.0, 1.0), (9.0, 1.0), (9.0, 1.5)]), 4.0 * 0.5 * 11.0 / 18.0);
    }

    #[test]
    fn two_halves_make_a_whole() {
        let strip = Strip { width: 4, top: 0, rows: 4 };
        let mut mask = vec![0.0; 16];
        add(&mut mask, &strip, &[(0.3, 0.2), (3.7, 0.2), (3.7, 3.9)], 1.0);
        add(&mut mask, &strip, &[(3.7, 3.9), (0.3, 3.9), (0.3, 0.2)], 1.0);
        let whole = covered(&[(0.3, 0.2), (3.7, 0.2), (3.7, 3.9), (0.3, 3.9)]);
        for (sum, wanted) in mask.iter().zip(&whole) {
            assert!((sum - wanted).abs() < 1e-5, "{sum} for {wanted}");
        }
    }
}
