//! One place at one time: what stands there, its light, and how a camera sees it.

use crate::noise::{fbm2, fbm3, noise2, noise3};
use crate::shapes::{Part, Stuff};
use crate::sky::{Ridge, Sky};
use crate::vector::{BLACK, V, bell, mix, smooth, v};

/// A small warm light.
#[derive(Clone, Debug)]
pub(crate) struct Lamp {
    pub(crate) place: V,
    /// Light sent out a steradian, in the picture's own measure.
    pub(crate) power: V,
    /// Tone of the bright surface itself.
    pub(crate) face: V,
    /// Half the size of that surface, in metres.
    pub(crate) half: f64,
}

/// The sea, as a long exposure leaves it.
#[derive(Clone, Debug)]
pub(crate) struct Sea {
    /// Spread of the surface's slopes across and along the view.
    pub(crate) slopes: (f64, f64),
    /// Share of light the averaged foam scatters back.
    pub(crate) milk: f64,
    /// Wet sand under a skin of water, 0 to 1.
    pub(crate) flat: f64,
    pub(crate) seed: u32,
}

#[derive(Clone, Debug)]
pub(crate) struct World {
    pub(crate) parts: Vec<Part>,
    pub(crate) ridges: Vec<Ridge>,
    pub(crate) sky: Sky,
    pub(crate) sea: Sea,
    pub(crate) lamp: Lamp,
    /// Height to which the tide wets things, in metres.
    pub(crate) tide: f64,
}

struct Hit<'a> {
    part: &'a Part,
    t: f64,
}

impl World {
    fn hit(&self, o: V, d: V, limit: f64, fine: f64) -> Option<Hit<'_>> {
        let inverse = v(1.0 / d.x, 1.0 / d.y, 1.0 / d.z);
        let mut best = limit;
        let mut found = None;
        for part in &self.parts {
            let Some((near, far)) = part.stretch(o, inverse) else { continue };
            let far = far.min(best);
            let mut t = near;
            let mut steps = 0;
            while t < far && steps < 160 {
                let gap = part.distance(o + d * t);
                if gap < fine * 0.5 * t + 2e-4 {
                    best = t;
                    found = Some(Hit { part, t });
                    break;
                }
                t += gap.max(fine * t * 0.7);
                steps += 1;
            }
        }
        found
    }

    /// Distance from `p` to the nearest part, exact up to `reach`.
    fn gap(&self, p: V, reach: f64) -> f64 {
        let mut best = reach;
        for part in &self.parts {
            if part.bounds_distance(p) < best {
                best = best.min(part.distance(p));
            }
        }
        best
    }

    /// The same, of the parts' smooth forms.
    fn coarse_gap(&self, p: V, reach: f64) -> f64 {
        let mut best = reach;
        for part in &self.parts {
            if part.bounds_distance(p) < best {
                best = best.min(part.coarse(p));
            }
        }
        best
    }

    /// Light arriving at `o` from direction `d`; `fine` is the angle one sample covers.
    pub(crate) fn seen(&self, o: V, d: V, fine: f64, wobble: (f64, f64)) -> V {
        let water = if d.y < -1e-6 { -o.y / d.y } else { 1e7 };
        let hit = self.hit(o, d, water.min(1e5), fine);
        let open = || !self.ridges.iter().any(|r| r.stands_before(o, d, water));
        if hit.is_none() && water < 2e4 && open() {
            return self.water(o, d, water, fine, wobble, true) + self.halo(o, d, water);
        }
        let end = hit.as_ref().map_or(4e3, |h| h.t);
        let tone = self.dry(o, d, hit.as_ref(), fine, true) + self.halo(o, d, end);
        let p = o + d * end;
        // While the shutter was open the swell rose and fell along the foot of everything.
        let swell = 0.055 + 0.05 * noise2(p.x * 2.3, p.z * 2.3, 90);
        let washed = smooth(swell * 2.2, -0.03, p.y) * 0.8;
        if washed <= 0.0 || water > 2e4 {
            return tone;
        }
        tone.toward(self.water(o, d, water, fine, wobble, false), washed)
    }

    fn dry(&self, o: V, d: V, hit: Option<&Hit<'_>>, fine: f64, lit: bool) -> V {
        match hit {
            None => self.sky.far(o, d, &self.ridges),
            Some(&Hit { part, t }) => {
                let p = o + d * t;
                let tone = self.surface(part, p, d, (fine * t).max(4e-4), lit);
                self.sky.veil(d).toward(tone, self.sky.clear(o, d, t))
            }
        }
    }

    fn surface(&self, part: &Part, p: V, d: V, step: f64, lit: bool) -> V {
        let stuff = part.stuff(p);
        let q = part.own(p);
        if stuff == Stuff::Window {
            if !lit {
                return self.lamp.face * 0.1;
            }
            // A lamp stands low on one side of the room; the far corner is dimmer.
            let r = p - self.lamp.place;
            let fall = mix(0.45, 1.0, bell((r.y + 0.15) / 0.45) * bell((r.x - 0.12) / 0.5));
            return self.lamp.face * fall;
        }
        let e = step * 1.2;
        let f = |x: f64, y: f64, z: f64| part.distance(p + v(x, y, z) * e);
        let (a, b, c, g) =
            (f(1.0, -1.0, -1.0), f(-1.0, -1.0, 1.0), f(-1.0, 1.0, -1.0), f(1.0, 1.0, 1.0));
        let n = v(a - b - c + g, -a - b + c + g, -a + b - c + g).unit();
        let (tone, gloss) = self.tone(part, stuff, p, q, n);
        let mut open = 0.0;
        let mut weight = 0.0;
        for (k, w) in [(0.03, 0.8), (0.09, 1.0), (0.25, 0.9), (0.7, 0.5)] {
            open += w * (self.gap(p + n * k, k) / k).clamp(0.0, 1.0);
            weight += w;
        }
        let open = open / weight;
        let open = open * (0.35 + 0.65 * open);
        let mut out = tone.tint(self.sky.on(n)) * open;
        let to = self.lamp.place - p;
        let far = to.length().max(0.15);
        let facing = (n.dot(to) / far).max(0.0);
        // Bars and frame stand against the lit pane: none of its light falls on their faces.
        if stuff != Stuff::Trim {
            out += tone.tint(self.lamp.power) * (facing / (far * far));
        }
        if gloss > 0.0 {
            let r = d - n * (2.0 * d.dot(n));
            let grazing = 1.0 - (-d.dot(n)).clamp(0.0, 1.0);
            let fresnel = 0.03 + 0.6 * grazing * grazing * grazing * grazing * grazing;
            let up = V { y: r.y.max(0.0), ..r };
            out += self.sky.air(up.unit()) * (gloss * fresnel * open * smooth(-0.2, 0.3, r.y));
        }
        out
    }

    /// Colour of a surface under white light and how wet it shines.
    fn tone(&self, part: &Part, stuff: Stuff, p: V, q: V, n: V) -> (V, f64) {
        let s = part.seed;
        let edge = self.tide + 0.22 * noise3(p * 1.7, s + 60) + 0.1 * noise3(p * 6.0, s + 61);
        // Low rocks lie open to the rain and drain; only their feet stay dark.
        let edge = if stuff == Stuff::Rock { edge * 0.45 } else { edge };
        let wet = smooth(edge + 0.12, edge - 0.12, p.y);
        match stuff {
            Stuff::Wood => {
                let grain = fbm3(v(p.x * 42.0, p.y * 2.2, p.z * 42.0), 3, s + 62);
                let streak = fbm3(v(p.x * 14.0, p.y * 0.7, p.z * 14.0), 3, s + 67);
                let patch = fbm3(p * 1.6, 3, s + 63);
                let shell = smooth(0.05, 0.45, fbm3(p * 34.0, 3, s + 68));
                let dry = v(0.185, 0.174, 0.160)
                    * (1.0 + 0.55 * grain + 0.7 * streak + 0.5 * patch).max(0.12);
                let weed = v(0.034, 0.037, 0.029) * (1.0 + 0.8 * patch + 0.6 * grain).max(0.2);
                let band = bell((p.y - self.tide * 0.8) / 0.22);
                let weed = weed.toward(v(0.17, 0.165, 0.15), shell * band * 0.75);
                (dry.toward(weed, wet), 0.25 + 0.75 * wet)
            }
            Stuff::Rock => {
                let patch = fbm3(p * 1.1, 4, s + 64);
                let speck = fbm3(p * 13.0, 4, s + 65);
                let dry = v(0.215, 0.208, 0.198) * (1.0 + 0.6 * patch + 0.6 * speck).max(0.15);
                let lichen =
                    smooth(0.10, 0.4, fbm3(p * 3.1, 5, s + 66)) * smooth(0.1, 0.8, n.y);
                let dry = dry.toward(v(0.30, 0.29, 0.25), lichen * 0.55);
                let weed = v(0.058, 0.061, 0.050) * (1.0 + 0.7 * patch + 0.8 * speck).max(0.15);
                (dry.toward(weed, wet), 0.15 + 0.85 * wet)
            }
            Stuff::Board => {
                let run = q.x + q.z;
                let board = (run * 5.2).floor();
                let seam = (run * 5.2 - board - 0.5).abs();
                let own = noise2(board * 1.37, 0.5, s + 67);
                let stain = fbm2(run * 1.3, q.y * 0.8, 3, s + 68);
                let tone = v(0.105, 0.100, 0.096) * (1.0 + 0.8 * own + 0.7 * stain).max(0.2);
                (tone * mix(1.0, 0.45, smooth(0.42, 0.49, seam)), 0.1)
            }
            Stuff::Trim => (v(0.30, 0.295, 0.28), 0.1),
            Stuff::Slate | Stuff::Window => {
                let row = fbm2(q.x * 4.0, q.z * 3.0, 3, s + 69);
                (v(0.052, 0.056, 0.062) * (1.0 + 0.5 * row), 0.5)
            }
        }
    }

    fn water(&self, o: V, d: V, t: f64, fine: f64, wobble: (f64, f64), mirrors: bool) -> V {
        let p = o + d * t;
        let sea = &self.sea;
        // Lanes of wind lie across the view and grow finer than a sample far off.
        let far = smooth(2500.0, 250.0, t);
        let lane = far * fbm2(p.x / 17.0, p.z / 4.2, 4, sea.seed);
        let drift = far * fbm2(p.x / 5.0 + 0.4 * lane, p.z / 1.7, 4, sea.seed + 1);
        let rough = 1.0 + 0.75 * lane;
        let (sx, sz) = (sea.slopes.0 * rough, sea.slopes.1 * rough);
        let n = v(-wobble.0 * sx, 1.0, -wobble.1 * sz).unit();
        let mut r = d - n * (2.0 * d.dot(n));
        r.y = r.y.abs() + 0.002;
        let r = r.unit();
        let cos = (-d.dot(n)).clamp(0.0, 1.0);
        let graze = 1.0 - cos.max(0.045);
        let fresnel = 0.02 + 0.98 * graze * graze * graze * graze * graze;
        let base = v(p.x, 0.01, p.z);
        let (mirror, near) = if mirrors {
            let hit = self.hit(base, r, 1e5, fine * 3.0);
            let near = self.coarse_gap(v(p.x, 0.05, p.z), 2.6).max(0.0);
            (self.dry(base, r, hit.as_ref(), fine * 3.0, false), near)
        } else {
            (self.sky.light(r), 0.0)
        };
        // Foam and lapping swell blur the mirror at the very foot of things.
        let blur = 0.7 * libm::exp(-near / 0.08);
        let mirror = if mirrors && blur > 0.01 {
            mirror.toward(self.sky.light(r), blur)
        } else {
            mirror
        };
        let lap = fbm2(p.x * 1.1, p.z * 0.8, 4, sea.seed + 2);
        let foam = (0.18 + 0.28 * lap).max(0.0) * libm::exp(-near / 0.55)
            + (0.10 + 0.14 * lap).max(0.0) * bell((near - 0.9 - 0.5 * lap) / 0.5);
        let shade = 1.0 - 0.35 * libm::exp(-near / 0.28);
        let milk = sea.milk * (1.0 + 0.75 * drift + 0.45 * lane).max(0.1);
        let white = v(0.93, 0.98, 1.0) * (milk + foam * (sea.milk * 5.0).min(1.0));
        let bed = v(0.030, 0.028, 0.026) * (sea.flat * (1.0 + 0.6 * drift));
        let deep = v(0.010, 0.017, 0.020);
        let up = self.sky.on(v(0.0, 1.0, 0.0)) * 1.25;
        let body = deep + (white + bed).tint(up) * shade;
        let mut out = mirror * fresnel + body * (1.0 - fresnel);
        out += self.glitter(p, d, sx.max(0.008), sz.max(0.012));
        let to = self.lamp.place - p;
        let reach = to.length().max(0.3);
        out += white.tint(self.lamp.power) * (to.y.max(0.0) / (reach * reach * reach));
        self.sky.veil(d).toward(out, self.sky.clear(o, d, t))
    }

    /// The lamp's path on the water: every slope that sends its light to the eye.
    fn glitter(&self, p: V, d: V, sx: f64, sz: f64) -> V {
        let to = self.lamp.place - p;
        let far = to.length();
        let l = to * (1.0 / far);
        let h = (l - d).unit();
        if h.y <= 0.05 || l.y <= 0.0 {
            return BLACK;
        }
        // The lamp's own width blurs its path as more slope would.
        let own = self.lamp.half / far * 0.5;
        let (sx, sz) = ((sx * sx + own * own).sqrt(), (sz * sz + own * own).sqrt());
        let spread = bell(h.x / h.y / sx) * bell(h.z / h.y / sz)
            / (std::f64::consts::TAU * sx * sz * h.y * h.y * h.y * h.y);
        let graze = 1.0 - h.dot(l).clamp(0.045, 1.0);
        let fresnel = 0.02 + 0.98 * graze * graze * graze * graze * graze;
        let view = (-d.y).max(0.03);
        self.lamp.power * (fresnel * spread / (4.0 * view * far * far))
    }

    /// Lamp light the mist sends back along a ray: 1/r² in even mist, summed in closed form.
    fn halo(&self, o: V, d: V, end: f64) -> V {
        let to = self.lamp.place - o;
        let b = to.dot(d);
        let h = (to.dot(to) - b * b).max(0.0).sqrt().max(self.lamp.half * 0.6);
        let sum = (libm::atan((end - b) / h) + libm::atan(b / h)) / h;
        let through = self.sky.clear(o, d, b.clamp(1.0, end));
        let rise = libm::exp(-(self.lamp.place.y * 0.6) / self.sky.mist_height);
        let dense = self.sky.haze + self.sky.mist * rise;
        self.lamp.power * (dense * sum.max(0.0) * through * 0.16)
    }
}
