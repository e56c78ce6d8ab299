//! Three numbers: a place, a direction or a colour in linear light.

use std::ops::{Add, AddAssign, Mul, Sub};

/// A place in metres (y up, z away from the camera), a direction, or linear light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct V {
    pub(crate) x: f64,
    pub(crate) y: f64,
    pub(crate) z: f64,
}

pub(crate) const fn v(x: f64, y: f64, z: f64) -> V {
    V { x, y, z }
}

pub(crate) const BLACK: V = v(0.0, 0.0, 0.0);

impl V {
    pub(crate) fn dot(self, o: Self) -> f64 {
        self.x * o.x + self.y * o.y + self.z * o.z
    }

    pub(crate) fn cross(self, o: Self) -> Self {
        v(self.y * o.z - self.z * o.y, self.z * o.x - self.x * o.z, self.x * o.y - self.y * o.x)
    }

    pub(crate) fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    pub(crate) fn unit(self) -> Self {
        self * (1.0 / self.length().max(1e-12))
    }

    /// Component by component: a surface's colour times the light on it.
    pub(crate) fn tint(self, o: Self) -> Self {
        v(self.x * o.x, self.y * o.y, self.z * o.z)
    }

    pub(crate) fn toward(self, o: Self, t: f64) -> Self {
        self + (o - self) * t
    }

    pub(crate) fn luminance(self) -> f64 {
        0.2126 * self.x + 0.7152 * self.y + 0.0722 * self.z
    }
}

impl Add for V {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        v(self.x + o.x, self.y + o.y, self.z + o.z)
    }
}

impl AddAssign for V {
    fn add_assign(&mut self, o: Self) {
        *self = *self + o;
    }
}

impl Sub for V {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        v(self.x - o.x, self.y - o.y, self.z - o.z)
    }
}

impl Mul<f64> for V {
    type Output = Self;
    fn mul(self, k: f64) -> Self {
        v(self.x * k, self.y * k, self.z * k)
    }
}

/// 0 below `a`, 1 above `b`, smooth between.
pub(crate) fn smooth(a: f64, b: f64, x: f64) -> f64 {
    let t = ((x - a) / (b - a)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

pub(crate) fn mix(a: f64, b: f64, t: f64) -> f64 {
    a + (b - a) * t
}

/// A bell of height 1 and standard deviation 1.
pub(crate) fn bell(x: f64) -> f64 {
    libm::exp(-0.5 * x * x)
}
