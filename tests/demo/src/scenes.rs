//! The three pictures of the series: where things stand and how the evening was.

use crate::film::Film;
use crate::noise::random;
use crate::picture::{Camera, Picture};
use crate::shapes::{Part, Shape, WINDOW_X, WINDOW_Y};
use crate::sky::{Ridge, Sky};
use crate::vector::{V, mix, v};
use crate::world::{Lamp, Sea, World};

/// Every demo picture, the large one first.
#[must_use]
pub fn all() -> Vec<Picture> {
    vec![slack_water(), long_ebb(), mooring()]
}

fn post(x: f64, z: f64, height: f64, radius: f64, seed: u32) -> Part {
    let lean = |k| (random(i64::from(seed), k, 31) - 0.5) * 0.13 * height;
    let top = v(x + lean(1), height, z + lean(2));
    Part::new(Shape::Post { foot: v(x, -0.6, z), top, radius }, seed)
}

fn beam(a: V, b: V, half: (f64, f64), seed: u32) -> Part {
    Part::new(Shape::Beam { a, b, half }, seed)
}

fn rock(x: f64, y: f64, z: f64, size: (f64, f64, f64), seed: u32) -> Part {
    Part::new(Shape::Rock { middle: v(x, y, z), size: v(size.0, size.1, size.2) }, seed)
}

fn dusk() -> Sky {
    Sky {
        glow: -0.06,
        spread: 0.30,
        warmth: 0.85,
        top: 0.30,
        cloud: 0.85,
        wind: (0.42, 0.907_5),
        seed: 11,
        haze: 0.00055,
        mist: 0.0036,
        mist_height: 3.2,
    }
}

/// Where the old jetty runs at distance `z`.
fn jetty(z: f64) -> f64 {
    -1.75 + (z - 9.0) * 0.118
}

fn old_jetty(parts: &mut Vec<Part>) {
    // Nearer than 40 m only piles are left; beyond, the deck still stands.
    let mut z = 9.6;
    let mut k = 0_u32;
    while z < 62.0 {
        for side in [-0.85, 0.85] {
            let seed = 100 + k * 2 + u32::from(side > 0.0);
            let r = |c| random(i64::from(seed), c, 5);
            let standing = z > 39.0;
            if !standing && r(1) < 0.16 {
                continue;
            }
            let height = if standing { 1.75 } else { mix(0.75, 2.05, r(2)) };
            let x = jetty(z) + side + (r(3) - 0.5) * 0.22;
            parts.push(post(x, z + (r(4) - 0.5) * 0.5, height, mix(0.10, 0.145, r(5)), seed));
        }
        if z > 39.0 {
            let (a, b) = (v(jetty(z) - 1.0, 1.66, z), v(jetty(z) + 1.0, 1.66, z));
            parts.push(beam(a, b, (0.10, 0.12), 300 + k));
            let (c, d) =
                (v(jetty(z - 1.62), 1.85, z - 1.62), v(jetty(z + 1.62), 1.85, z + 1.62));
            parts.push(beam(c, d, (0.98, 0.055), 340 + k));
            let rail = jetty(z) - 0.92;
            parts.push(post(rail, z, 2.85, 0.05, 380 + k));
            if k % 5 != 1 {
                let next = jetty(z + 3.2) - 0.92;
                let low = if k % 4 == 2 { 2.45 } else { 2.78 };
                parts.push(beam(
                    v(rail, 2.78, z),
                    v(next, low, z + 3.2),
                    (0.03, 0.045),
                    420 + k,
                ));
            }
        }
        z += 3.2;
        k += 1;
    }
    // Two braces and a cap that the sea has not taken yet.
    let cap = 16.0;
    parts.push(beam(
        v(jetty(cap) - 1.1, 1.15, cap + 0.1),
        v(jetty(cap) + 1.05, 0.62, cap + 0.1),
        (0.07, 0.09),
        500,
    ));
    parts.push(beam(
        v(jetty(28.8) - 1.0, 1.5, 28.9),
        v(jetty(28.8) + 1.2, 1.42, 28.9),
        (0.09, 0.11),
        501,
    ));
}

/// A house with a lit window; gives the window's middle.
fn house(parts: &mut Vec<Part>, floor: V, seed: u32) -> V {
    let (sin, cos) = (0.309_0, 0.951_1);
    let size = (2.15, 2.35, 3.1);
    parts.push(Part::new(Shape::House { floor, size, rise: 1.75, yaw: (sin, cos) }, seed));
    let (x, z) = (WINDOW_X, -size.2 - 0.05);
    floor + v(x * cos + z * sin, WINDOW_Y, z * cos - x * sin)
}

fn boathouse(parts: &mut Vec<Part>) -> Lamp {
    let floor = v(8.1, 2.0, 66.0);
    let place = house(parts, floor, 600);
    let (a, b) = (floor + v(-2.9, -0.12, -0.9), floor + v(2.9, -0.12, -0.9));
    parts.push(beam(a, b, (3.7, 0.12), 601));
    let mut k = 610;
    for dz in [-4.0, -1.3, 1.4] {
        for dx in [-2.6, -0.9, 0.9, 2.6] {
            parts.push(post(floor.x + dx, floor.z + dz, 1.95, 0.15, k));
            k += 1;
        }
    }
    Lamp { place, power: v(1.0, 0.50, 0.18) * 2.4, face: v(1.0, 0.50, 0.17) * 1.7, half: 0.45 }
}

fn slack_water() -> Picture {
    let mut parts = Vec::new();
    old_jetty(&mut parts);
    let lamp = boathouse(&mut parts);
    parts.push(rock(1.75, -0.12, 6.6, (1.0, 0.48, 0.75), 731));
    parts.push(rock(0.62, -0.10, 7.3, (0.42, 0.26, 0.38), 702));
    parts.push(rock(2.35, -0.18, 8.6, (0.80, 0.62, 0.70), 703));
    parts.push(rock(0.9, -0.12, 9.9, (0.34, 0.26, 0.30), 704));
    parts.push(rock(-1.75, -0.16, 6.9, (0.55, 0.30, 0.45), 705));
    parts.push(rock(3.6, -0.2, 13.0, (0.9, 0.55, 0.7), 706));
    let ridges = vec![
        Ridge { distance: 620.0, span: (-420.0, -205.0, -10.0), height: 30.0, seed: 21 },
        Ridge { distance: 1500.0, span: (-900.0, -160.0, 240.0), height: 74.0, seed: 22 },
        Ridge { distance: 2600.0, span: (-100.0, 900.0, 2600.0), height: 118.0, seed: 23 },
    ];
    Picture {
        file: "slack-water.jpg",
        size: (2200, 3000),
        density: 200,
        quality: 89,
        camera: Camera { height: 2.75, width: 0.62, horizon: 0.43 },
        world: World {
            parts,
            ridges,
            sky: dusk(),
            sea: Sea { slopes: (0.012, 0.034), milk: 0.12, flat: 0.0, seed: 31 },
            lamp,
            tide: 0.55,
        },
        film: Film { exposure: 1.2, colour: 0.86, grain: 0.0095, corners: 0.26, seed: 41 },
        patience: 48,
    }
}

fn long_ebb() -> Picture {
    let mut parts = Vec::new();
    // Fishing stakes, walking out over the flats.
    for k in 0..27_u32 {
        let t = f64::from(k);
        let r = |c| random(i64::from(k), c, 9);
        let (x, z) = (-9.5 + t * 0.54 + (r(1) - 0.5) * 0.2, 19.0 + t * 1.75);
        if r(2) > 0.1 {
            parts.push(post(x, z, mix(0.7, 1.75, r(3)), mix(0.045, 0.075, r(4)), 800 + k));
        }
    }
    for (k, (x, z, s)) in
        [(5.2, 15.0, 0.5), (6.3, 16.4, 0.34), (-7.6, 13.5, 0.36)].into_iter().enumerate()
    {
        let seed = u32::try_from(k).unwrap_or(0) + 860;
        parts.push(rock(x, -0.10, z, (s * 1.5, s * 0.7, s), seed));
    }
    // A cottage on a low spit, its lamp lit early.
    parts.push(rock(22.5, -0.5, 152.0, (11.5, 1.9, 5.0), 870));
    parts.push(rock(33.0, -0.5, 154.0, (7.0, 1.2, 4.0), 871));
    let place = house(&mut parts, v(21.0, 0.95, 151.5), 872);
    let lamp = Lamp {
        place,
        power: v(1.0, 0.50, 0.18) * 3.5,
        face: v(1.0, 0.50, 0.17) * 1.9,
        half: 0.45,
    };
    Picture {
        file: "long-ebb.jpg",
        size: (1500, 500),
        density: 100,
        quality: 88,
        camera: Camera { height: 1.9, width: 0.95, horizon: 0.50 },
        world: World {
            parts,
            ridges: vec![
                Ridge { distance: 700.0, span: (20.0, 330.0, 900.0), height: 31.0, seed: 24 },
                Ridge {
                    distance: 1700.0,
                    span: (-1500.0, -560.0, 700.0),
                    height: 52.0,
                    seed: 25,
                },
            ],
            sky: Sky { glow: -0.2, spread: 0.34, top: 0.22, seed: 12, ..dusk() },
            sea: Sea { slopes: (0.008, 0.022), milk: 0.07, flat: 0.6, seed: 32 },
            lamp,
            tide: 0.5,
        },
        film: Film { exposure: 1.1, colour: 0.84, grain: 0.006, corners: 0.22, seed: 42 },
        patience: 48,
    }
}

fn mooring() -> Picture {
    let mut parts = Vec::new();
    // A dolphin: three piles leaning together, bound, with a lantern on the king pile.
    let (x, z) = (0.9, 15.0);
    for (k, (dx, dz)) in [(-0.75, -0.3), (0.72, -0.25), (0.05, 0.75)].into_iter().enumerate() {
        let seed = u32::try_from(k).unwrap_or(0) + 900;
        let foot = v(x + dx, -0.6, z + dz);
        let top = v(x + dx * 0.16, 2.55 + 0.14 * f64::from(seed - 900), z + dz * 0.16);
        parts.push(Part::new(Shape::Post { foot, top, radius: 0.155 }, seed));
    }
    parts.push(beam(
        v(x - 0.42, 1.72, z - 0.2),
        v(x + 0.42, 1.70, z - 0.2),
        (0.09, 0.075),
        910,
    ));
    parts.push(beam(v(x, 2.3, z), v(x, 3.25, z), (0.035, 0.035), 911));
    parts.push(beam(v(x - 0.10, 3.46, z), v(x + 0.10, 3.46, z), (0.12, 0.022), 912));
    parts.push(beam(v(x - 0.09, 3.25, z), v(x + 0.09, 3.25, z), (0.09, 0.018), 914));
    for (k, side) in [(915, -0.083), (916, 0.083)] {
        parts.push(beam(v(x + side, 3.25, z), v(x + side, 3.46, z), (0.012, 0.012), k));
    }
    let place = v(x, 3.34, z);
    parts.push(Part::new(Shape::Lantern { middle: place, radius: 0.06 }, 913));
    for (k, (px, pz, h)) in
        [(-3.0, 30.0, 1.5), (-2.1, 33.0, 1.2), (-4.4, 47.0, 1.6)].into_iter().enumerate()
    {
        parts.push(post(px, pz, h, 0.13, u32::try_from(k).unwrap_or(0) + 920));
    }
    Picture {
        file: "mooring.jpg",
        size: (800, 800),
        density: 100,
        quality: 88,
        camera: Camera { height: 2.1, width: 0.52, horizon: 0.60 },
        world: World {
            parts,
            ridges: vec![Ridge {
                distance: 1300.0,
                span: (-600.0, -330.0, 60.0),
                height: 52.0,
                seed: 26,
            }],
            sky: Sky { glow: 0.1, spread: 0.26, warmth: 0.55, seed: 14, mist: 0.010, ..dusk() },
            sea: Sea { slopes: (0.010, 0.030), milk: 0.13, flat: 0.0, seed: 33 },
            lamp: Lamp {
                place,
                power: v(1.0, 0.52, 0.20) * 0.6,
                face: v(1.0, 0.55, 0.20) * 1.25,
                half: 0.09,
            },
            tide: 0.8,
        },
        film: Film { exposure: 1.05, colour: 0.82, grain: 0.006, corners: 0.3, seed: 43 },
        patience: 48,
    }
}
