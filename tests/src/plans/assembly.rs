//! Anything that can be decided behind a mat.

use sightedge_core::geometry::Side;
use sightedge_core::material::{
    Bag, Colour, Fibre, Filler, Frame, Glazing, Humidity, Paper, Process, Profile, Rate,
    Surface, Tissue,
};
use sightedge_core::movement::USUAL_ROOM;
use sightedge_core::spec::{
    Assembly, FrameSize, Grain, Hanging, Hangs, HingeAt, HingeKind, Hinging, Hooks, MatHinge,
    Package,
};

use super::{length, size, words};
use crate::random::Random;

/// Open as often as not, else anything.
pub(super) fn any(random: &mut Random) -> Assembly {
    if random.once_in(2) {
        return Assembly::default();
    }
    Assembly {
        paper: maybe(random, paper),
        grain: maybe(random, |random| random.one_of(Grain::ALL)),
        hinged_at: maybe(random, humidity),
        hangs_at: maybe(random, |random| Hangs {
            dry: humidity(random),
            damp: humidity(random),
        }),
        hinging: hinging(random),
        mat_hinge: MatHinge {
            edge: maybe(random, |random| random.one_of(&Side::ALL)),
            tape: maybe(random, length),
            gap: maybe(random, length),
        },
        corners_glued: maybe(random, length),
        activity_tested: maybe(random, |random| random.once_in(2)),
        package: package(random),
        hanging: hanging(random),
    }
}

fn maybe<T>(random: &mut Random, make: impl Fn(&mut Random) -> T) -> Option<T> {
    random.once_in(2).then(|| make(random))
}

fn humidity(random: &mut Random) -> Humidity {
    let tenths = u16::try_from(random.below(1001)).unwrap_or(0);
    Humidity::from_tenths(tenths).unwrap_or(USUAL_ROOM)
}

fn rate(random: &mut Random) -> Option<Rate> {
    maybe(random, |random| random.small(0, Rate::MOST)).and_then(Rate::from_millionths)
}

fn number(random: &mut Random) -> u32 {
    random.small(0, u32::MAX)
}

fn paper(random: &mut Random) -> Paper {
    let [red, green, blue, ..] = random.number().to_be_bytes();
    Paper {
        id: words(random),
        name: words(random),
        fibre: random.one_of(Fibre::ALL),
        process: random.one_of(Process::ALL),
        mass_gsm: maybe(random, number),
        thickness: maybe(random, length),
        white: maybe(random, |_| Colour::new(red, green, blue)),
        along: rate(random),
        across: rate(random),
        water_based: random.once_in(2),
        pencil: random.once_in(2),
        origin: words(random),
    }
}

fn hinging(random: &mut Random) -> Hinging {
    let at = |random: &mut Random| HingeAt { x: length(random), locates: random.once_in(2) };
    Hinging {
        kind: maybe(random, |random| random.one_of(HingeKind::ALL)),
        at: (0..random.below(4)).map(|_| at(random)).collect(),
        tissue: maybe(random, |random| Tissue {
            id: words(random),
            name: words(random),
            width: maybe(random, length),
            tensile_n_per_m: maybe(random, number),
            shear_pa: maybe(random, number),
            reversible: random.once_in(2),
            pressure_sensitive: random.once_in(2),
            origin: words(random),
        }),
        width: maybe(random, length),
        hold: maybe(random, length),
        gap: maybe(random, length),
        longer: maybe(random, length),
        slack: maybe(random, length),
    }
}

fn package(random: &mut Random) -> Package {
    Package {
        frame: maybe(random, |random| Frame {
            id: words(random),
            name: words(random),
            rabbet_depth: maybe(random, length),
            lip: length(random),
            face: length(random),
            mass_g_per_m: number(random),
            colour: maybe(random, |random| {
                let [red, green, blue, ..] = random.number().to_be_bytes();
                Colour::new(red, green, blue)
            }),
            profile: random.one_of(Profile::ALL),
            surface: random.one_of(Surface::ALL),
            origin: words(random),
        }),
        size: maybe(random, |random| {
            if random.once_in(2) {
                FrameSize::Rabbet(size(random))
            } else {
                FrameSize::Contents(size(random))
            }
        }),
        allowance: maybe(random, length),
        glazing: maybe(random, |random| Glazing {
            id: words(random),
            name: words(random),
            thickness: length(random),
            density_kg_m3: number(random),
            glass: random.once_in(2),
            origin: words(random),
        }),
        spacer: maybe(random, length),
        filler: maybe(random, |random| Filler {
            id: words(random),
            name: words(random),
            thickness: length(random),
            mass_gsm: number(random),
            origin: words(random),
        }),
        mass_g: maybe(random, number),
        bag: maybe(random, |random| Bag {
            id: words(random),
            name: words(random),
            size: size(random),
            origin: words(random),
        }),
    }
}

fn hanging(random: &mut Random) -> Hanging {
    Hanging {
        rings_apart: maybe(random, length),
        rise: maybe(random, length),
        rings_below: maybe(random, length),
        hooks: if random.once_in(2) { Hooks::One } else { Hooks::Two(length(random)) },
        frame_size: maybe(random, size),
        centre: maybe(random, length),
        factor_tenths: maybe(random, number),
        wire_rated_g: maybe(random, number),
        hook_rated_g: maybe(random, number),
    }
}
