//! Model to file: what lies behind the mat.

use super::super::assembly::{
    Assembly, Bag, Filler, Frame, FrameSize, Glazing, Hanging, Hangs, HingeAt, Hinging,
    MatHinge, Package, Paper, Tissue,
};
use super::super::text::{
    Colour, Fibre, Grain, Growth, Kind, Percent, Process, Profile, Side, Surface,
};
use super::{In, decided};
use crate::{material, spec};

/// Words are left out where there are none.
fn words(text: &str) -> Option<String> {
    (!text.is_empty()).then(|| text.to_owned())
}

impl In {
    pub(super) fn assembly(self, assembly: &spec::Assembly) -> Assembly {
        let spec::Assembly {
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
        } = assembly;
        Assembly {
            paper: paper.as_ref().map(|paper| self.paper(paper)),
            grain: grain.map(Grain),
            hinged_at: hinged_at.map(Percent),
            hangs_at: hangs_at.map(|spec::Hangs { dry, damp }| Hangs {
                dry: Percent(dry),
                damp: Percent(damp),
            }),
            hinging: decided(hinging, &spec::Hinging::default(), |hinging| {
                self.hinging(hinging)
            }),
            mat_hinge: decided(mat_hinge, &spec::MatHinge::default(), |hinge| {
                let spec::MatHinge { edge, tape, gap } = *hinge;
                MatHinge {
                    edge: edge.map(Side),
                    tape: tape.map(|tape| self.length(tape)),
                    gap: gap.map(|gap| self.length(gap)),
                }
            }),
            corners_glued: corners_glued.map(|glue| self.length(glue)),
            activity_tested: *activity_tested,
            package: decided(package, &spec::Package::default(), |package| {
                self.package(package)
            }),
            hanging: decided(hanging, &spec::Hanging::default(), |hanging| {
                self.hanging(*hanging)
            }),
        }
    }

    fn paper(self, paper: &material::Paper) -> Paper {
        let material::Paper {
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
        } = paper;
        Paper {
            id: words(id),
            name: words(name),
            fibre: Some(Fibre(*fibre)),
            process: Some(Process(*process)),
            mass_gsm: *mass_gsm,
            thickness: thickness.map(|thickness| self.length(thickness)),
            white: white.map(Colour),
            along: along.map(Growth),
            across: across.map(Growth),
            water_based: Some(*water_based),
            pencil: Some(*pencil),
            origin: words(origin),
        }
    }

    fn hinging(self, hinging: &spec::Hinging) -> Hinging {
        let spec::Hinging { kind, at, tissue, width, hold, gap, longer, slack } = hinging;
        let tissue = tissue.as_ref().map(|tissue| {
            let material::Tissue {
                id,
                name,
                width,
                tensile_n_per_m,
                shear_pa,
                reversible,
                pressure_sensitive,
                origin,
            } = tissue;
            Tissue {
                id: words(id),
                name: words(name),
                width: width.map(|width| self.length(width)),
                tensile_n_per_m: *tensile_n_per_m,
                shear_pa: *shear_pa,
                reversible: Some(*reversible),
                pressure_sensitive: Some(*pressure_sensitive),
                origin: words(origin),
            }
        });
        let places = at.iter().map(|spec::HingeAt { x, locates }| HingeAt {
            x: self.length(*x),
            locates: *locates,
        });
        Hinging {
            kind: kind.map(Kind),
            at: (!at.is_empty()).then(|| places.collect()),
            tissue,
            width: width.map(|width| self.length(width)),
            hold: hold.map(|hold| self.length(hold)),
            gap: gap.map(|gap| self.length(gap)),
            longer: longer.map(|longer| self.length(longer)),
            slack: slack.map(|slack| self.length(slack)),
        }
    }

    fn package(self, package: &spec::Package) -> Package {
        let spec::Package { frame, size, allowance, glazing, spacer, filler, mass_g, bag } =
            package;
        Package {
            frame: frame.as_ref().map(|frame| self.frame(frame)),
            size: size.map(|size| match size {
                spec::FrameSize::Rabbet(size) => FrameSize::Rabbet(self.size(size)),
                spec::FrameSize::Contents(size) => FrameSize::Contents(self.size(size)),
            }),
            allowance: allowance.map(|allowance| self.length(allowance)),
            glazing: glazing.as_ref().map(|glazing| self.glazing(glazing)),
            spacer: spacer.map(|spacer| self.length(spacer)),
            filler: filler.as_ref().map(|filler| self.filler(filler)),
            mass_g: *mass_g,
            bag: bag.as_ref().map(|material::Bag { id, name, size, origin }| Bag {
                id: id.clone(),
                name: name.clone(),
                size: self.size(*size),
                origin: origin.clone(),
            }),
        }
    }

    fn frame(self, frame: &material::Frame) -> Frame {
        let material::Frame {
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
        } = frame;
        Frame {
            id: words(id),
            name: words(name),
            rabbet_depth: rabbet_depth.map(|depth| self.length(depth)),
            lip: Some(self.length(*lip)),
            face: Some(self.length(*face)),
            mass_g_per_m: Some(*mass_g_per_m),
            colour: colour.map(Colour),
            // What is left out is level and wood: so plans from before frames were drawn stay.
            profile: (*profile != material::Profile::default()).then_some(Profile(*profile)),
            surface: (*surface != material::Surface::default()).then_some(Surface(*surface)),
            origin: words(origin),
        }
    }

    fn glazing(self, glazing: &material::Glazing) -> Glazing {
        let material::Glazing { id, name, thickness, density_kg_m3, glass, origin } = glazing;
        Glazing {
            id: words(id),
            name: words(name),
            thickness: Some(self.length(*thickness)),
            density_kg_m3: Some(*density_kg_m3),
            glass: Some(*glass),
            origin: words(origin),
        }
    }

    fn filler(self, filler: &material::Filler) -> Filler {
        let material::Filler { id, name, thickness, mass_gsm, origin } = filler;
        Filler {
            id: words(id),
            name: words(name),
            thickness: Some(self.length(*thickness)),
            mass_gsm: Some(*mass_gsm),
            origin: words(origin),
        }
    }

    fn hanging(self, hanging: spec::Hanging) -> Hanging {
        let spec::Hanging {
            rings_apart,
            rise,
            rings_below,
            hooks,
            frame_size,
            centre,
            factor_tenths,
            wire_rated_g,
            hook_rated_g,
        } = hanging;
        Hanging {
            rings_apart: rings_apart.map(|apart| self.length(apart)),
            rise: rise.map(|rise| self.length(rise)),
            rings_below: rings_below.map(|below| self.length(below)),
            hooks_apart: match hooks {
                spec::Hooks::One => None,
                spec::Hooks::Two(apart) => Some(self.length(apart)),
            },
            frame_size: frame_size.map(|size| self.size(size)),
            centre: centre.map(|centre| self.length(centre)),
            factor_tenths,
            wire_rated_g,
            hook_rated_g,
        }
    }
}
