//! What a person decides about the assembly, all that lies behind and round the mat: paper,
//! hinges, humidity, frame, wall. What is left open takes the usual figure, which names its source.

use crate::geometry::{Side, Size};
use crate::length::Length;
use crate::material::{Bag, Filler, Frame, Glazing, Humidity, Paper, Tissue, keyed};

/// What a person decided about the assembly: all that lies behind and round the mat.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Assembly {
    /// The paper the picture is on, as it was when chosen.
    pub paper: Option<Paper>,
    /// Which way its grain runs.
    pub grain: Option<Grain>,
    /// The room where it was hinged.
    pub hinged_at: Option<Humidity>,
    /// The range where it will hang.
    pub hangs_at: Option<Hangs>,
    /// How the sheet is held.
    pub hinging: Hinging,
    /// How the mat is held to its backing.
    pub mat_hinge: MatHinge,
    /// Dots of glue in the mat's corners, where there are any: how far they reach in from its
    /// edges.
    pub corners_glued: Option<Length>,
    /// Whether the makers of all boards claim the photo-activity test (ISO 18916).
    pub activity_tested: Option<bool>,
    /// What it goes into.
    pub package: Package,
    /// How it hangs.
    pub hanging: Hanging,
}

keyed! {
    /// Which way the grain of a sheet runs.
    Grain {
        /// Along its width.
        #[default]
        Width = "width", "along the width";
        /// Along its height.
        Height = "height", "along the height";
    }
}

/// The range of humidity where a piece hangs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Hangs {
    /// At its driest.
    pub dry: Humidity,
    /// At its dampest.
    pub damp: Humidity,
}

keyed! {
    /// How a sheet is held.
    HingeKind {
        /// Tabs on the sheet's back, each under a cross-piece above it.
        #[default]
        T = "t", "T hinges";
        /// Folded tabs behind the sheet.
        V = "v", "V hinges";
        /// Tabs through slits in the board.
        PassThrough = "pass-through", "pass-through hinges";
        /// Pockets over the corners, nothing stuck to the sheet.
        Corners = "corners", "corner pockets";
        /// Strips along the edges, nothing stuck to the sheet.
        Strips = "strips", "edge strips";
    }
}

impl HingeKind {
    /// Whether something is stuck to the sheet.
    pub const fn sticks(self) -> bool {
        matches!(self, Self::T | Self::V | Self::PassThrough)
    }
}

/// How the sheet is held; `None` takes the usual.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Hinging {
    /// The kind, where the person chose it.
    pub kind: Option<HingeKind>,
    /// Where the hinges sit; none: they are placed along the top edge.
    pub at: Vec<HingeAt>,
    /// What they are made of.
    pub tissue: Option<Tissue>,
    /// How wide a tab is.
    pub width: Option<Length>,
    /// How far it holds onto the sheet's back.
    pub hold: Option<Length>,
    /// Between the sheet's edge and the cross-piece of the locating hinge.
    pub gap: Option<Length>,
    /// How much longer than the locating one a yielding hinge is.
    pub longer: Option<Length>,
    /// Room for the sheet in pockets and strips.
    pub slack: Option<Length>,
}

/// One hinge where the person put it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct HingeAt {
    /// Its middle, from the sheet's left edge as seen from the front.
    pub x: Length,
    /// Whether it fixes the sheet's place.
    pub locates: bool,
}

/// The hinge of mat and backing; `None` takes the usual.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct MatHinge {
    /// The edge it runs along.
    pub edge: Option<Side>,
    /// How wide its tape is.
    pub tape: Option<Length>,
    /// Between mat and backing while both lie open.
    pub gap: Option<Length>,
}

/// What the mat goes into. Without a frame it is matted and bagged, and finished.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Package {
    /// The frame, once one is chosen.
    pub frame: Option<Frame>,
    /// Its size, where it is in hand.
    pub size: Option<FrameSize>,
    /// How much smaller than the rabbet the contents are, both sides together.
    pub allowance: Option<Length>,
    /// What covers the picture; `None` takes the usual once there is a frame.
    pub glazing: Option<Glazing>,
    /// Between glazing and mat.
    pub spacer: Option<Length>,
    /// Behind the backing; `None` takes the usual once there is a frame.
    pub filler: Option<Filler>,
    /// Weighed, in grams; `None`: from the layers.
    pub mass_g: Option<u32>,
    /// The bag, where one is chosen.
    pub bag: Option<Bag>,
}

/// The size of a frame: of its recess or of what goes in, never confused.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FrameSize {
    /// The rabbet, from edge to edge.
    Rabbet(Size),
    /// What goes in.
    Contents(Size),
}

/// How a piece hangs; `None` takes the usual or leaves it open.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Hanging {
    /// From ring to ring.
    pub rings_apart: Option<Length>,
    /// How far the pulled-up wire stands above the rings.
    pub rise: Option<Length>,
    /// From the frame's top down to the rings.
    pub rings_below: Option<Length>,
    /// The hooks on the wall.
    pub hooks: Hooks,
    /// The frame from outside.
    pub frame_size: Option<Size>,
    /// The height of the picture's middle above the floor.
    pub centre: Option<Length>,
    /// How much more than it bears each part must be rated for, in tenths.
    pub factor_tenths: Option<u32>,
    /// What the wire, and each ring, is rated for in tension, in grams.
    pub wire_rated_g: Option<u32>,
    /// What each hook is rated for in weight, in grams.
    pub hook_rated_g: Option<u32>,
}

/// The hooks on the wall.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Hooks {
    /// One in the middle.
    #[default]
    One,
    /// Two, so far apart.
    Two(Length),
}

impl Assembly {
    /// Whether nothing was decided yet.
    pub fn is_open(&self) -> bool {
        *self == Self::default()
    }

    /// Whether the plan has anything on how the paper moves.
    pub fn describes_paper(&self) -> bool {
        let Self { paper, grain, hinged_at, hangs_at, .. } = self;
        paper.is_some() || grain.is_some() || hinged_at.is_some() || hangs_at.is_some()
    }

    /// Whether the plan has anything on how the sheet is held.
    pub fn describes_hinges(&self) -> bool {
        self.describes_paper() || self.hinging != Hinging::default()
    }

    /// Whether it goes into a frame.
    pub fn framed(&self) -> bool {
        self.package.frame.is_some() || self.package.size.is_some()
    }
}
