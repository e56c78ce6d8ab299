//! The sky at dusk, the headlands under it and the mist that joins them.

use crate::noise::{fbm2, noise2};
use crate::vector::{V, bell, mix, smooth, v};

/// One evening's sky.
#[derive(Clone, Debug)]
pub(crate) struct Sky {
    /// Where the light went down: sideways per metre ahead.
    pub(crate) glow: f64,
    /// How wide the afterglow spreads, in the same measure.
    pub(crate) spread: f64,
    /// How warm the afterglow is: 0 none, 1 full.
    pub(crate) warmth: f64,
    /// Rise (sine of elevation) at which the sky has become its upper tone.
    pub(crate) top: f64,
    /// How strongly clouds show: 0 none, 1 full.
    pub(crate) cloud: f64,
    /// Which way the clouds went while the shutter was open.
    pub(crate) wind: (f64, f64),
    pub(crate) seed: u32,
    /// Density of the air's haze and of the mist on the water, a metre.
    pub(crate) haze: f64,
    pub(crate) mist: f64,
    /// Height over which the mist thins out, in metres.
    pub(crate) mist_height: f64,
}

/// A line of land on the horizon.
#[derive(Clone, Debug)]
pub(crate) struct Ridge {
    pub(crate) distance: f64,
    /// Left foot, crest and right foot, in metres sideways.
    pub(crate) span: (f64, f64, f64),
    pub(crate) height: f64,
    pub(crate) seed: u32,
}

impl Ridge {
    fn crest(&self, x: f64) -> f64 {
        let (left, top, right) = self.span;
        let rise = smooth(left, top, x) * (1.0 - smooth(top, right, x));
        let unit = self.height * 2.6;
        let land = 0.74 + 0.34 * fbm2(x / unit, 0.0, 5, self.seed);
        let growth = 0.05 * fbm2(x / 2.6, 3.0, 3, self.seed + 9).max(-0.2);
        self.height * rise * (land + growth * smooth(0.15, 0.5, rise)) - 0.3
    }

    /// Does its shore hide water that a ray from `o` along `d` would meet at `t`?
    pub(crate) fn stands_before(&self, o: V, d: V, t: f64) -> bool {
        let there = (self.distance - o.z) / d.z;
        there > 0.0 && there < t && self.crest(o.x + d.x * there) > 0.0
    }
}

impl Sky {
    /// Light from the clear sky and the air below it, no clouds.
    pub(crate) fn air(&self, d: V) -> V {
        let e = d.y.max(0.0);
        let side = d.x / d.z.abs().max(0.15);
        let near = bell((side - self.glow) / self.spread);
        let low = v(0.36, 0.36, 0.395).toward(v(0.86, 0.655, 0.50), self.warmth * near);
        let middle =
            v(0.245, 0.28, 0.35).toward(v(0.52, 0.445, 0.43), self.warmth * near * 0.75);
        let high = v(0.090, 0.113, 0.150);
        let t = e / self.top;
        let a = low.toward(middle, smooth(0.0, 0.45, t));
        a.toward(high, smooth(0.12, 1.15, t))
    }

    pub(crate) fn light(&self, d: V) -> V {
        let air = self.air(d);
        if self.cloud <= 0.0 || d.y < 0.004 {
            return air;
        }
        // A sheet of cloud seen from below, drawn out along the wind by the long exposure.
        let k = 1.0 / (d.y + 0.075);
        let (px, pz) = (d.x * k, d.z * k);
        let (wx, wz) = self.wind;
        let along = px * wx + pz * wz;
        let across = px * wz - pz * wx;
        let bend = 0.55 * fbm2(along * 0.13, across * 0.22, 3, self.seed);
        let body = fbm2(along * 0.12, (across + bend) * 0.42, 4, self.seed + 1);
        let streak = fbm2(along * 0.075, (across + bend) * 1.6, 4, self.seed + 2);
        let n = body + 0.48 * streak;
        let high = smooth(0.02, 0.16, d.y);
        let cover = smooth(-0.18, 0.62, n) * smooth(0.006, 0.075, d.y) * self.cloud;
        let thick = smooth(0.1, 0.8, n);
        let side = d.x / d.z.abs().max(0.15);
        let lit = bell((side - self.glow) / (self.spread * 1.5)) * (1.0 - 0.65 * high);
        let shade = v(0.58, 0.62, 0.68).toward(v(0.36, 0.40, 0.47), thick);
        let dark = air.tint(shade);
        // Thin edges pass the afterglow on, thick ones hold it back.
        let edge = smooth(-0.22, 0.06, n) * (1.0 - smooth(0.06, 0.42, n));
        let warm = v(0.20, 0.135, 0.095) * (self.warmth * lit * edge * 0.75);
        air.toward(dark, cover) + warm * self.cloud
    }

    /// What share of light the air lets through from `o` to `t` metres along `d`.
    pub(crate) fn clear(&self, o: V, d: V, t: f64) -> f64 {
        let h = self.mist_height;
        let (y0, y1) = (o.y.max(0.0), (o.y + d.y * t).max(0.0));
        let (e0, e1) = (libm::exp(-y0 / h), libm::exp(-y1 / h));
        let mean = if (y1 - y0).abs() < 1e-4 { e0 } else { h * (e0 - e1) / (y1 - y0) };
        let (x, z) = (o.x + d.x * t, o.z + d.z * t);
        let drift = 1.0
            + 0.55 * noise2(x / 37.0, z / 90.0, self.seed + 40)
            + 0.3 * noise2(x / 11.0, z / 41.0, self.seed + 41);
        libm::exp(-t * (self.haze + self.mist * drift * mean))
    }

    /// The tone things fade into along `d`.
    pub(crate) fn veil(&self, d: V) -> V {
        let low = V { y: d.y.clamp(0.0, 1.0) * 0.6, ..d };
        self.air(low)
    }

    /// Light from all that is far: sky, land on the horizon and the mist at its foot.
    pub(crate) fn far(&self, o: V, d: V, ridges: &[Ridge]) -> V {
        if d.y < 0.35 && d.z > 0.05 {
            for ridge in ridges {
                let t = (ridge.distance - o.z) / d.z;
                let p = o + d * t;
                if t <= 0.0 || p.y > ridge.height * 1.3 {
                    continue;
                }
                let crest = ridge.crest(p.x);
                if p.y < crest {
                    let s = p.x / ridge.height;
                    let fold = fbm2(s * 2.3, p.y / ridge.height * 4.0, 4, ridge.seed + 3);
                    let ground = v(0.034, 0.043, 0.047) * (1.0 + 0.55 * fold);
                    let foot = mix(0.55, 1.0, smooth(0.0, ridge.height * 0.7, p.y));
                    return self.veil(d).toward(ground, self.clear(o, d, t) * foot);
                }
            }
        }
        self.light(d)
    }

    /// Sky light on a surface facing `n`, as the tone of a white card laid there.
    pub(crate) fn on(&self, n: V) -> V {
        let up = 0.5 + 0.5 * n.y;
        let toward = v(self.glow, 0.12, 1.0).unit();
        let warm = (0.35 + 0.65 * n.dot(toward)).max(0.0);
        let dome = v(0.235, 0.27, 0.325) * (up * (0.3 + 0.7 * up));
        let glow = v(0.30, 0.255, 0.22) * (warm * (0.35 + 0.4 * self.warmth));
        let below = v(0.10, 0.105, 0.11) * (1.0 - up);
        dome + glow + below
    }
}
