//! The form of what is decided behind the mat: paper, hinges, package and hanging.

use serde::{Deserialize, Serialize};

use super::text::{
    Colour, Fibre, Grain, Growth, Kind, Measured, Percent, Process, Profile, Side, Size,
    Surface,
};

/// A part of the plan in which everything may be left open, and is then left out.
macro_rules! open {
    ($($name:ident { $($field:ident: $type:ty,)* })*) => {$(
        #[derive(Serialize, Deserialize, Default)]
        #[serde(deny_unknown_fields, default)]
        pub(super) struct $name {
            $(
                #[serde(skip_serializing_if = "Option::is_none")]
                pub(super) $field: Option<$type>,
            )*
        }
    )*};
}

open! {
    Assembly {
        paper: Paper,
        grain: Grain,
        hinged_at: Percent,
        hangs_at: Hangs,
        hinging: Hinging,
        mat_hinge: MatHinge,
        corners_glued: Measured,
        activity_tested: bool,
        package: Package,
        hanging: Hanging,
    }
    Hinging {
        kind: Kind,
        at: Vec<HingeAt>,
        tissue: Tissue,
        width: Measured,
        hold: Measured,
        gap: Measured,
        longer: Measured,
        slack: Measured,
    }
    MatHinge {
        edge: Side,
        tape: Measured,
        gap: Measured,
    }
    Package {
        frame: Frame,
        size: FrameSize,
        allowance: Measured,
        glazing: Glazing,
        spacer: Measured,
        filler: Filler,
        mass_g: u32,
        bag: Bag,
    }
    Hanging {
        rings_apart: Measured,
        rise: Measured,
        rings_below: Measured,
        hooks_apart: Measured,
        frame_size: Size,
        centre: Measured,
        factor_tenths: u32,
        wire_rated_g: u32,
        hook_rated_g: u32,
    }
    Paper {
        id: String,
        name: String,
        fibre: Fibre,
        process: Process,
        mass_gsm: u32,
        thickness: Measured,
        white: Colour,
        along: Growth,
        across: Growth,
        water_based: bool,
        pencil: bool,
        origin: String,
    }
    Tissue {
        id: String,
        name: String,
        width: Measured,
        tensile_n_per_m: u32,
        shear_pa: u32,
        reversible: bool,
        pressure_sensitive: bool,
        origin: String,
    }
    Glazing {
        id: String,
        name: String,
        thickness: Measured,
        density_kg_m3: u32,
        glass: bool,
        origin: String,
    }
    Filler {
        id: String,
        name: String,
        thickness: Measured,
        mass_gsm: u32,
        origin: String,
    }
    Frame {
        id: String,
        name: String,
        rabbet_depth: Measured,
        lip: Measured,
        face: Measured,
        mass_g_per_m: u32,
        colour: Colour,
        profile: Profile,
        surface: Surface,
        origin: String,
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Hangs {
    pub(super) dry: Percent,
    pub(super) damp: Percent,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct HingeAt {
    pub(super) x: Measured,
    pub(super) locates: bool,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum FrameSize {
    Rabbet(Size),
    Contents(Size),
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Bag {
    pub(super) id: String,
    pub(super) name: String,
    pub(super) size: Size,
    pub(super) origin: String,
}
