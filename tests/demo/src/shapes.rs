//! What stands in the water, each as a distance: posts, beams, rocks, a boathouse.

use crate::noise::{fbm3, hash, noise2, noise3, unit};
use crate::vector::{V, smooth, v};

/// What a surface is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stuff {
    Wood,
    Rock,
    Board,
    Slate,
    Window,
    /// Painted wood round a window.
    Trim,
}

#[derive(Clone, Debug)]
pub(crate) enum Shape {
    /// A pile driven into the bed; `top` is the middle of its head.
    Post { foot: V, top: V, radius: f64 },
    /// A squared timber from `a` to `b`, half as wide and high as `half` says.
    Beam { a: V, b: V, half: (f64, f64) },
    /// Broken rock: a lump cut by planes, then weathered.
    Rock { middle: V, size: V },
    /// A gabled house: half width, wall height, half depth, roof rise; turned by `yaw`.
    House { floor: V, size: (f64, f64, f64), rise: f64, yaw: (f64, f64) },
    /// A lantern: a small bright ball.
    Lantern { middle: V, radius: f64 },
}

#[derive(Clone, Debug)]
pub(crate) struct Part {
    pub(crate) shape: Shape,
    pub(crate) seed: u32,
    low: V,
    high: V,
    planes: Vec<(V, f64)>,
}

fn inside_box(q: V, half: V) -> f64 {
    let (x, y, z) = (q.x.abs() - half.x, q.y.abs() - half.y, q.z.abs() - half.z);
    let out = v(x.max(0.0), y.max(0.0), z.max(0.0)).length();
    out + x.max(y).max(z).min(0.0)
}

fn smooth_max(a: f64, b: f64, k: f64) -> f64 {
    let h = (k - (a - b).abs()).max(0.0) / k;
    a.max(b) + h * h * k * 0.25
}

impl Part {
    pub(crate) fn new(shape: Shape, seed: u32) -> Self {
        let (low, high) = match &shape {
            Shape::Post { foot, top, radius } => around(*foot, *top, radius * 1.5),
            Shape::Beam { a, b, half } => around(*a, *b, half.0 + half.1),
            Shape::Rock { middle, size } => {
                let half = *size * 1.12 + v(0.1, 0.1, 0.1);
                (*middle - half, *middle + half)
            }
            Shape::House { floor, size, rise, .. } => {
                let reach = size.0 + size.2 + 0.6;
                let top = v(floor.x, floor.y + size.1 + rise + 1.2, floor.z);
                let (mut l, mut h) = around(*floor, top, reach);
                l.y = floor.y - 0.2;
                h.y = top.y;
                (l, h)
            }
            Shape::Lantern { middle, radius } => around(*middle, *middle, *radius),
        };
        let mut planes = Vec::new();
        if let Shape::Rock { .. } = shape {
            for k in 0..15 {
                let r = |c| unit(hash(k, c, 7, seed));
                let (z, turn) = (r(1) * 1.7 - 0.7, r(2) * std::f64::consts::TAU);
                let s = (1.0 - z * z).max(0.0).sqrt();
                let n = v(s * libm::cos(turn), z * 0.9, s * libm::sin(turn)).unit();
                planes.push((n, 0.55 + 0.33 * r(3)));
            }
        }
        Self { shape, seed, low, high, planes }
    }

    /// The stretch of a ray that passes the part's bounds.
    pub(crate) fn stretch(&self, o: V, inverse: V) -> Option<(f64, f64)> {
        let (mut near, mut far) = (0.0_f64, 1e9_f64);
        for (low, high, from, inv) in [
            (self.low.x, self.high.x, o.x, inverse.x),
            (self.low.y, self.high.y, o.y, inverse.y),
            (self.low.z, self.high.z, o.z, inverse.z),
        ] {
            let (a, b) = ((low - from) * inv, (high - from) * inv);
            near = near.max(a.min(b));
            far = far.min(a.max(b));
        }
        (near <= far).then_some((near, far))
    }

    /// How far `p` lies outside the part's bounds, at least.
    pub(crate) fn bounds_distance(&self, p: V) -> f64 {
        let x = (self.low.x - p.x).max(p.x - self.high.x).max(0.0);
        let y = (self.low.y - p.y).max(p.y - self.high.y).max(0.0);
        let z = (self.low.z - p.z).max(p.z - self.high.z).max(0.0);
        v(x, y, z).length()
    }

    /// Distance to the surface, a little short where it is rough.
    pub(crate) fn distance(&self, p: V) -> f64 {
        match &self.shape {
            Shape::Post { foot, top, radius } => self.post(p, *foot, *top, *radius),
            Shape::Beam { a, b, half } => self.beam(p, *a, *b, *half),
            Shape::Rock { middle, size } => self.rock(p, *middle, *size),
            Shape::House { floor, size, rise, yaw } => {
                let q = local(p, *floor, *yaw);
                let (walls, roof) = house(q, *size, *rise);
                walls.min(roof)
            }
            Shape::Lantern { middle, radius } => (p - *middle).length() - radius,
        }
    }

    fn post(&self, p: V, foot: V, top: V, radius: f64) -> f64 {
        let axis = top - foot;
        let along = axis.unit();
        let h = (p - foot).dot(along);
        let out = p - foot - along * h;
        let len = axis.length();
        let r = out.length();
        let (bx, bz) = (out.x / radius, out.z / radius);
        if r > radius * 1.6 + 0.1 {
            return r - radius * 1.2;
        }
        let bend = noise3(v(bx * 1.7, p.y * 0.9, bz * 1.7), self.seed);
        let split = noise3(v(bx * 3.4, p.y * 0.55, bz * 3.4), self.seed + 1);
        let grain = noise3(v(bx * 9.0, p.y * 1.6, bz * 9.0), self.seed + 2);
        let crust = fbm3(v(out.x, p.y * 0.8, out.z) * 26.0, 2, self.seed + 3);
        // The sea eats timber between the tides and leaves a crust of barnacles on it.
        let eaten = 0.16 * smooth(1.5, 0.1, p.y) * (0.7 + bend);
        let crusted = 0.11 * crust * smooth(1.0, 0.45, p.y);
        let cracks = 0.22 * smooth(0.18, 0.0, split.abs()) * smooth(0.3, 1.2, p.y);
        let skin = radius
            * (1.06 + 0.09 * bend + 0.045 * grain - eaten - cracks + crusted - 0.05 * p.y);
        // Its head has weathered to a point, a slope or a crown of splinters.
        let pick = |k| unit(hash(3, k, 4, self.seed)) - 0.5;
        let slope = 1.5 * pick(1) * out.x + 1.1 * pick(2) * out.z;
        let crown = radius * (0.75 * noise2(bx * 1.3, bz * 1.3, self.seed + 5))
            + radius * 0.5 * noise2(bx * 4.0, bz * 4.0, self.seed + 6);
        let worn = 0.5 * r * r / radius;
        let head = h - len + slope + crown + worn;
        smooth_max(r - skin, head * 0.7, radius * 0.22) * 0.62
    }

    fn beam(&self, p: V, a: V, b: V, half: (f64, f64)) -> f64 {
        let along = (b - a).unit();
        let level = if along.y.abs() > 0.9 { v(0.0, 0.0, 1.0) } else { v(0.0, 1.0, 0.0) };
        let side = along.cross(level).unit();
        let up = side.cross(along);
        let q = p - (a + b) * 0.5;
        let at = v(q.dot(side), q.dot(up), q.dot(along));
        let worn = 0.12 * half.1 * noise3(v(at.x * 6.0, at.y * 6.0, at.z * 1.5), self.seed);
        let r = half.1 * 0.25;
        let extent = v(half.0 - r, half.1 - r, (b - a).length() * 0.5 - r);
        (inside_box(at, extent) - r + worn) * 0.85
    }

    fn rock(&self, p: V, middle: V, size: V) -> f64 {
        let q = p - middle;
        let unit = v(q.x / size.x, q.y / size.y, q.z / size.z);
        let small = size.x.min(size.y).min(size.z);
        let ball = (unit.length() - 1.15) * small;
        if ball > 0.3 {
            return ball * 0.8;
        }
        let warp = v(
            noise3(unit * 1.3, self.seed + 11),
            noise3(unit * 1.3, self.seed + 12),
            noise3(unit * 1.3, self.seed + 13),
        );
        let u = unit + warp * 0.16;
        let mut d = u.length() - 1.0;
        for (n, r) in &self.planes {
            d = smooth_max(d, u.dot(*n) - r, 0.07);
        }
        let d = d * small;
        if d > 0.35 {
            return d * 0.6;
        }
        // Beds of the stone, cracks across them, then weathering at every size.
        let bed = noise2(q.y * 7.0 + q.x * 1.9 + warp.x * 1.4, q.z * 0.6, self.seed + 20);
        let crack = 1.0 - fbm3(q * 1.3, 3, self.seed + 21).abs() * 7.0;
        let joint = 1.0 - fbm3(q * 3.6, 3, self.seed + 23).abs() * 7.0;
        let rough = fbm3(q * 2.6, 6, self.seed + 22);
        let cut = 0.055 * crack.max(0.0) + 0.022 * joint.max(0.0);
        let scale = (small / 0.55).clamp(0.25, 1.0);
        (d + (0.05 * bed.abs() + cut - 0.085 * rough) * scale) * 0.55
    }

    /// Distance to the shape without its roughness: enough to know what is near.
    pub(crate) fn coarse(&self, p: V) -> f64 {
        match &self.shape {
            Shape::Post { foot, top, radius } => {
                let (axis, q) = (*top - *foot, p - *foot);
                let h = (q.dot(axis) / axis.dot(axis)).clamp(0.0, 1.0);
                (q - axis * h).length() - radius
            }
            Shape::Rock { middle, size } => {
                let q = p - *middle;
                let unit = v(q.x / size.x, q.y / size.y, q.z / size.z);
                (unit.length() - 0.86) * size.x.min(size.y).min(size.z)
            }
            _ => self.distance(p),
        }
    }

    pub(crate) fn stuff(&self, p: V) -> Stuff {
        match &self.shape {
            Shape::Post { .. } | Shape::Beam { .. } => Stuff::Wood,
            Shape::Rock { .. } => Stuff::Rock,
            Shape::Lantern { .. } => Stuff::Window,
            Shape::House { floor, size, rise, yaw } => {
                let q = local(p, *floor, *yaw);
                let (walls, roof) = house(q, *size, *rise);
                if roof < walls {
                    Stuff::Slate
                } else if q.z < -size.2 + 0.03 && pane(q.x - WINDOW_X, q.y - WINDOW_Y) {
                    Stuff::Window
                } else if q.z < -size.2 + 0.03 && trim(q) {
                    Stuff::Trim
                } else if opening(q, *size) {
                    Stuff::Slate
                } else {
                    Stuff::Board
                }
            }
        }
    }

    /// A place in the house's own frame, for the run of its boards.
    pub(crate) fn own(&self, p: V) -> V {
        match &self.shape {
            Shape::House { floor, yaw, .. } => local(p, *floor, *yaw),
            _ => p,
        }
    }
}

/// Middle of the lit window on the front wall, from the middle of the floor.
pub(crate) const WINDOW_X: f64 = -0.55;
pub(crate) const WINDOW_Y: f64 = 1.45;

/// Glass between the glazing bars?
fn pane(x: f64, y: f64) -> bool {
    x.abs() < 0.42 && y.abs() < 0.52 && x.abs() > 0.025 && (y - 0.12).abs() > 0.022
}

/// The painted frame and bars of the lit window.
fn trim(q: V) -> bool {
    (q.x - WINDOW_X).abs() < 0.52 && (q.y - WINDOW_Y + 0.03).abs() < 0.66
}

/// The door, and the unlit window in the side wall.
fn opening(q: V, (half, _, deep): (f64, f64, f64)) -> bool {
    let door = q.z < -deep + 0.03 && (q.x - 1.1).abs() < 0.42 && q.y < 1.95;
    let side = q.x > half - 0.03 && q.z.abs() < 0.5 && (q.y - 1.4).abs() < 0.5;
    door || side && q.z.abs() > 0.03
}

fn local(p: V, floor: V, (sin, cos): (f64, f64)) -> V {
    let q = p - floor;
    v(q.x * cos - q.z * sin, q.y, q.x * sin + q.z * cos)
}

fn house(q: V, (half, wall, deep): (f64, f64, f64), rise: f64) -> (f64, f64) {
    let walls = inside_box(q - v(0.0, wall * 0.5, 0.0), v(half, wall * 0.5, deep));
    let slope = (half * half + rise * rise).sqrt();
    let (nx, ny) = (rise / slope, half / slope);
    // The gable wall goes up under the roof; the roof reaches past it all round.
    let under = (q.x.abs() * nx + (q.y - wall - rise) * ny + 0.02)
        .max(wall - 0.05 - q.y)
        .max(q.z.abs() - deep);
    let top = q.x.abs() * nx + (q.y - wall - rise) * ny - 0.10;
    let sag = 0.03 * noise2(q.z * 0.9, q.x * 0.8, 77);
    let roof = (top + sag)
        .max(-(top + 0.12))
        .max(wall - 0.28 - q.y)
        .max(q.z.abs() - deep - 0.28)
        .max(q.x.abs() - half - 0.3);
    let stack =
        inside_box(q - v(half * 0.45, wall + rise * 0.8, deep * 0.35), v(0.2, 0.75, 0.2));
    (walls.min(under).min(stack), roof)
}

fn around(a: V, b: V, r: f64) -> (V, V) {
    (
        v(a.x.min(b.x) - r, a.y.min(b.y) - r, a.z.min(b.z) - r),
        v(a.x.max(b.x) + r, a.y.max(b.y) + r, a.z.max(b.z) + r),
    )
}
