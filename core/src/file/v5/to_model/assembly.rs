//! File to model: what lies behind the mat.

use super::super::assembly::{
    Assembly, Filler, Frame, FrameSize, Glazing, Hanging, Hinging, MatHinge, Package, Paper,
    Tissue,
};
use super::super::text::Measured;
use crate::length::Length;
use crate::{material, spec};

fn length(measured: Option<Measured>) -> Option<Length> {
    measured.map(|measured| measured.0)
}

impl Assembly {
    pub(in crate::file) fn model(self) -> spec::Assembly {
        let Self {
            paper,
            grain,
            hinged_at,
            hangs_at,
            hinging,
            mat_hinge,
            corners_glued,
            activity_tested,
            package,
            hanging,
        } = self;
        let MatHinge { edge, tape, gap } = mat_hinge.unwrap_or_default();
        spec::Assembly {
            paper: paper.map(Paper::model),
            grain: grain.map(|grain| grain.0),
            hinged_at: hinged_at.map(|humidity| humidity.0),
            hangs_at: hangs_at
                .map(|hangs| spec::Hangs { dry: hangs.dry.0, damp: hangs.damp.0 }),
            hinging: hinging.map(Hinging::model).unwrap_or_default(),
            mat_hinge: spec::MatHinge {
                edge: edge.map(|edge| edge.0),
                tape: length(tape),
                gap: length(gap),
            },
            corners_glued: length(corners_glued),
            activity_tested,
            package: package.map(Package::model).unwrap_or_default(),
            hanging: hanging.map(Hanging::model).unwrap_or_default(),
        }
    }
}

impl Paper {
    fn model(self) -> material::Paper {
        let Self {
            id,
            name,
            fibre,
            process,
            mass_gsm,
            thickness,
            white,
            along,
            across,
            water_based,
            pencil,
            origin,
        } = self;
        material::Paper {
            id: id.unwrap_or_default(),
            name: name.unwrap_or_default(),
            fibre: fibre.map(|fibre| fibre.0).unwrap_or_default(),
            process: process.map(|process| process.0).unwrap_or_default(),
            mass_gsm,
            thickness: length(thickness),
            white: white.map(|white| white.0),
            along: along.map(|along| along.0),
            across: across.map(|across| across.0),
            water_based: water_based.unwrap_or_default(),
            pencil: pencil.unwrap_or_default(),
            origin: origin.unwrap_or_default(),
        }
    }
}

impl Hinging {
    fn model(self) -> spec::Hinging {
        let Self { kind, at, tissue, width, hold, gap, longer, slack } = self;
        spec::Hinging {
            kind: kind.map(|kind| kind.0),
            at: at
                .unwrap_or_default()
                .into_iter()
                .map(|at| spec::HingeAt { x: at.x.0, locates: at.locates })
                .collect(),
            tissue: tissue.map(Tissue::model),
            width: length(width),
            hold: length(hold),
            gap: length(gap),
            longer: length(longer),
            slack: length(slack),
        }
    }
}

impl Tissue {
    fn model(self) -> material::Tissue {
        let Self {
            id,
            name,
            width,
            tensile_n_per_m,
            shear_pa,
            reversible,
            pressure_sensitive,
            origin,
        } = self;
        material::Tissue {
            id: id.unwrap_or_default(),
            name: name.unwrap_or_default(),
            width: length(width),
            tensile_n_per_m,
            shear_pa,
            reversible: reversible.unwrap_or_default(),
            pressure_sensitive: pressure_sensitive.unwrap_or_default(),
            origin: origin.unwrap_or_default(),
        }
    }
}

impl Package {
    fn model(self) -> spec::Package {
        let Self { frame, size, allowance, glazing, spacer, filler, mass_g, bag } = self;
        spec::Package {
            frame: frame.map(Frame::model),
            size: size.map(|size| match size {
                FrameSize::Rabbet(size) => spec::FrameSize::Rabbet(size.0),
                FrameSize::Contents(size) => spec::FrameSize::Contents(size.0),
            }),
            allowance: length(allowance),
            glazing: glazing.map(Glazing::model),
            spacer: length(spacer),
            filler: filler.map(Filler::model),
            mass_g,
            bag: bag.map(|bag| material::Bag {
                id: bag.id,
                name: bag.name,
                size: bag.size.0,
                origin: bag.origin,
            }),
        }
    }
}

impl Frame {
    fn model(self) -> material::Frame {
        let Self {
            id,
            name,
            rabbet_depth,
            lip,
            face,
            mass_g_per_m,
            colour,
            profile,
            surface,
            origin,
        } = self;
        material::Frame {
            id: id.unwrap_or_default(),
            name: name.unwrap_or_default(),
            rabbet_depth: length(rabbet_depth),
            lip: length(lip).unwrap_or_default(),
            face: length(face).unwrap_or_default(),
            mass_g_per_m: mass_g_per_m.unwrap_or_default(),
            colour: colour.map(|colour| colour.0),
            profile: profile.map(|profile| profile.0).unwrap_or_default(),
            surface: surface.map(|surface| surface.0).unwrap_or_default(),
            origin: origin.unwrap_or_default(),
        }
    }
}

impl Glazing {
    fn model(self) -> material::Glazing {
        let Self { id, name, thickness, density_kg_m3, glass, origin } = self;
        material::Glazing {
            id: id.unwrap_or_default(),
            name: name.unwrap_or_default(),
            thickness: length(thickness).unwrap_or_default(),
            density_kg_m3: density_kg_m3.unwrap_or_default(),
            glass: glass.unwrap_or_default(),
            origin: origin.unwrap_or_default(),
        }
    }
}

impl Filler {
    fn model(self) -> material::Filler {
        let Self { id, name, thickness, mass_gsm, origin } = self;
        material::Filler {
            id: id.unwrap_or_default(),
            name: name.unwrap_or_default(),
            thickness: length(thickness).unwrap_or_default(),
            mass_gsm: mass_gsm.unwrap_or_default(),
            origin: origin.unwrap_or_default(),
        }
    }
}

impl Hanging {
    fn model(self) -> spec::Hanging {
        let Self {
            rings_apart,
            rise,
            rings_below,
            hooks_apart,
            frame_size,
            centre,
            factor_tenths,
            wire_rated_g,
            hook_rated_g,
        } = self;
        spec::Hanging {
            rings_apart: length(rings_apart),
            rise: length(rise),
            rings_below: length(rings_below),
            hooks: length(hooks_apart).map_or(spec::Hooks::One, spec::Hooks::Two),
            frame_size: frame_size.map(|size| size.0),
            centre: length(centre),
            factor_tenths,
            wire_rated_g,
            hook_rated_g,
        }
    }
}
