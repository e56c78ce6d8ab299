//! The frame package and the wall: the stack of layers, the rabbet it needs, what the lip
//! hides, the mass, the wire and its hooks, the bag. Lengths are exact; masses, angles and
//! forces are floats, for they are estimates to begin with.

use crate::geometry::{Rect, Sides, Size};
use crate::hinges::sheet_mass;
use crate::layout::{Figures, Layout};
use crate::length::{Length, Unit};
use crate::material::{Bag, Board, Colour, Filler, Frame, Glazing, Profile, Surface, Tables};
use crate::spec::{Assembly, Document, FrameSize, Hanging, Hooks, Mat, Package};
use crate::weight::GRAVITY;

/// One figure for an inch plan and one for a metric one.
const fn by_unit(unit: Unit, inch: Length, metric: Length) -> Length {
    match unit {
        Unit::Inch => inch,
        Unit::Millimetre => metric,
    }
}

/// Contents smaller than the rabbet, both sides together: 1/8 in, 3 mm. Source: workshop
/// tutorial.
pub const fn usual_allowance(unit: Unit) -> Length {
    by_unit(unit, Length::inches(0, 1, 8), Length::mm(3))
}

/// Room behind the package for points and dust cover: 1/8 in, 3 mm. Source: from memory.
const fn room(unit: Unit) -> Length {
    by_unit(unit, Length::inches(0, 1, 8), Length::mm(3))
}

/// The lip of a frame that was not measured: 1/4 in, 6 mm. Source: a framing supplier's answer
/// to customers (1/4 in on most of its frames); common practice.
pub const fn usual_lip(unit: Unit) -> Length {
    by_unit(unit, Length::inches(0, 1, 4), Length::mm(6))
}
/// Mat board, in kilograms per cubic metre. Source: from memory.
const BOARD_KG_M3: f64 = 700.0;
/// A bag is larger than what goes in, each way: 1/4 in, 6 mm. Source: common practice; from
/// memory (1/8-1/4 in).
const fn bag_more(unit: Unit) -> Length {
    by_unit(unit, Length::inches(0, 1, 4), Length::mm(6))
}

/// What covers a framed picture unless the plan has another, and what fills the frame behind
/// it: rows of the tables. Source: framing tips for works on paper.
const USUAL_GLAZING: &str = "acrylic-3";
const USUAL_FILLER: &str = "foam-5";

/// One layer of the stack, from the front.
#[derive(Clone, PartialEq, Debug)]
pub struct Layer {
    /// What it is.
    pub name: String,
    /// How thick it is.
    pub thickness: Length,
    /// Its mass in grams.
    pub mass_g: f64,
    /// What part it plays.
    pub part: Part,
    /// The colour of a board or a frame.
    pub colour: Option<Colour>,
}

/// What part a layer plays.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Part {
    /// Glass or acrylic.
    Glazing,
    /// Between glazing and mat.
    Spacer,
    /// A board of the mat.
    Mat,
    /// The picture.
    Sheet,
    /// The board behind it.
    Backing,
    /// What fills the frame behind that.
    Filler,
    /// The frame; no part of the depth.
    Frame,
}

/// A package and how it hangs.
#[derive(Clone, PartialEq, Debug)]
pub struct Packed {
    /// From the front; the frame last, where there is one.
    pub layers: Vec<Layer>,
    /// All layers together, the frame apart.
    pub depth: Length,
    /// The least depth of rabbet that takes them, with room for points and dust cover.
    pub rabbet: Length,
    /// In all, in grams.
    pub mass_g: f64,
    /// Whether that was weighed.
    pub weighed: bool,
    /// What goes in: on each axis the larger of mat and backing.
    pub contents: Size,
    /// How far the backing comes out beyond the mat; nothing where it does not.
    pub beyond: Sides<Length>,
    /// What it goes into; `None` without a frame.
    pub framed: Option<Framed>,
    /// From the picture's face up to the glazing or, without one, to the mat's face.
    pub air: Length,
    /// Whether the whole sheet shows, its edges free.
    pub floated: bool,
    /// The top layer's borders as seen: less what the lip hides. Sideways the package is
    /// taken to lie in the middle.
    pub visible_border: Sides<Length>,
    /// How it hangs.
    pub hung: Hung,
    /// The least bag, inside, flap closed.
    pub bag: Size,
    /// The bag the person chose, where they did.
    pub chosen_bag: Option<Bag>,
}

/// A frame and how the package lies in it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Framed {
    /// The moulding.
    pub frame: Frame,
    /// The glazing.
    pub glazing: Glazing,
    /// The rabbet from edge to edge.
    pub rabbet: Size,
    /// The frame from outside.
    pub outside: Size,
    /// How much smaller than the rabbet the contents should be.
    pub allowance: Length,
    /// How much smaller they are.
    pub play: Size,
    /// What of the mat the lip hides, the package resting on the bottom and in the middle sideways.
    pub hidden: Sides<Length>,
    /// The least and the most it may hide at either side.
    pub hidden_sideways: (Length, Length),
}

/// How a piece hangs.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Hung {
    /// Hooks on the wall.
    pub hooks: u32,
    /// The wire, where rings and rise are known.
    pub wire: Option<Wire>,
    /// What each hook carries, in newtons.
    pub hook_n: f64,
    /// The hooks above the floor; `None` where the frame's height or the wire is not known.
    pub hook_height: Option<Length>,
    /// The middle of the picture above the floor.
    pub centre: Length,
    /// How much more than it bears each part must be rated for.
    pub factor: f64,
}

/// A hanging wire.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Wire {
    /// With the horizontal, in degrees.
    pub angle_deg: f64,
    /// On each side, in newtons; wire and rings are rated against it.
    pub tension_n: f64,
}

/// The wire of a piece of that mass on rings so far apart, pulled up by `rise`.
/// With the angle a from the horizontal: tension = weight / (2 sin a). Two hooks take the
/// level stretch between them out of the span. `None` where the wire has no slope.
pub fn wire(mass_g: f64, rings_apart: Length, rise: Length, hooks: Hooks) -> Option<Wire> {
    let between = match hooks {
        Hooks::One => Length::ZERO,
        Hooks::Two(apart) => apart,
    };
    let run = (rings_apart - between).to_mm() / 2.0;
    if !rise.is_positive() || run < 0.0 {
        return None;
    }
    let angle = rise.to_mm().atan2(run);
    let tension_n = mass_g / 1000.0 * GRAVITY / (2.0 * angle.sin());
    Some(Wire { angle_deg: angle.to_degrees(), tension_n })
}

/// The hook above the floor: middle + half of the frame - from the frame's top to the
/// pulled-up wire.
pub fn hook_height(centre: Length, frame_height: Length, wire_below_top: Length) -> Length {
    centre + frame_height.halves().1 - wire_below_top
}

/// The middle of a hung picture: 60 in in an inch document, 1450 mm in a metric one.
/// Source: a museum's hanging guide.
pub const fn usual_centre(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(60, 0, 1),
        Unit::Millimetre => Length::mm(1450),
    }
}

/// The outer size that goes into a frame.
pub fn contents_of(size: FrameSize, allowance: Length) -> Size {
    match size {
        FrameSize::Rabbet(size) => Size::new(size.width - allowance, size.height - allowance),
        FrameSize::Contents(size) => size,
    }
}

/// The rabbet of a frame.
pub fn rabbet_of(size: FrameSize, allowance: Length) -> Size {
    match size {
        FrameSize::Rabbet(size) => size,
        FrameSize::Contents(size) => Size::new(size.width + allowance, size.height + allowance),
    }
}

/// A frame that was not measured.
pub fn unmeasured(name: &str, unit: Unit) -> Frame {
    Frame {
        id: String::new(),
        name: name.to_owned(),
        rabbet_depth: None,
        lip: usual_lip(unit),
        face: by_unit(unit, Length::inches(0, 3, 4), Length::mm(20)),
        mass_g_per_m: 350,
        colour: None,
        profile: Profile::default(),
        surface: Surface::default(),
        origin: "common practice; not measured".to_owned(),
    }
}

fn area_m2(size: Size) -> f64 {
    size.width.to_mm().max(0.0) * size.height.to_mm().max(0.0) / 1e6
}

/// Keeps in the plan what a framed piece usually has of glazing and filler, where that is left
/// open: what the tables say of it later changes no plan.
pub fn keep_usual(package: &mut Package, tables: &Tables) {
    if package.frame.is_none() && package.size.is_none() {
        return;
    }
    if package.glazing.is_none() {
        package.glazing = tables.glazing(USUAL_GLAZING).cloned();
    }
    if package.filler.is_none() {
        package.filler = tables.filler(USUAL_FILLER).cloned();
    }
}

/// The package of one variant. What its plan leaves open is what ships with the program, never
/// a row that a person can change.
pub fn package(document: &Document, mat: &Mat, layout: &Layout) -> Packed {
    let Assembly { paper, package, hanging, .. } = &mat.assembly;
    let Package {
        frame: _,
        size: _,
        allowance: _,
        glazing: _,
        spacer,
        filler,
        mass_g,
        bag: chosen,
    } = package;
    let figures = &layout.exact;
    let outer = figures.outer;
    let (contents, beyond) = contents(outer, figures.backing);
    let mut framed = framed(package, (contents, beyond), document.unit);
    // One that was measured from outside is as it was measured, for frame and hooks alike.
    if let Some((framed, measured)) = framed.as_mut().zip(hanging.frame_size) {
        framed.outside = measured;
    }
    let mut layers = Vec::new();
    let mut add = |part, name: &str, thickness: Length, mass_g: f64, colour| {
        layers.push(Layer { name: name.to_owned(), thickness, mass_g, part, colour });
    };
    if let Some(Framed { glazing, .. }) = &framed {
        let mass =
            area_m2(contents) * glazing.thickness.to_mm() * f64::from(glazing.density_kg_m3);
        add(Part::Glazing, &glazing.name, glazing.thickness, mass, None);
        if let Some(spacer) = spacer {
            add(Part::Spacer, "Spacer", *spacer, 0.0, None);
        }
    }
    for (index, layer) in mat.layers.iter().enumerate() {
        // An undermat is no larger than its blank, which is smaller than the board above it.
        let blank =
            layout.bench.blanks(document.unit).into_iter().find(|blank| {
                index > 0 && figures.openings.len() == 1 && blank.layer == layer.id
            });
        let whole = blank.map_or(outer, |blank| blank.rect.size);
        let windows: f64 = figures
            .openings
            .iter()
            .filter_map(|window| window.layers.get(index))
            .map(|cut| area_m2(cut.sight.bounds.size))
            .sum();
        let board = &layer.board;
        let face = (area_m2(whole) - windows).max(0.0);
        let (mass, colour) = (face * board_gsm(board), Some(board.colour));
        add(Part::Mat, &board.name, board.thickness, mass, colour);
    }
    let name = paper.as_ref().map_or("Sheet", |paper| paper.name.as_str());
    let sheet = paper.as_ref().and_then(|paper| paper.thickness).unwrap_or_default();
    let windows = figures.openings.iter();
    let sheets = windows.map(|window| sheet_mass(paper.as_ref(), window.sheet.size));
    let sheets: f64 = sheets.map(Option::unwrap_or_default).sum();
    add(Part::Sheet, name, sheet, sheets, None);
    let backing = &mat.backing.board;
    let backed = area_m2(layout.exact.backing.size) * board_gsm(backing);
    add(Part::Backing, &backing.name, backing.thickness, backed, Some(backing.colour));
    if framed.is_some() {
        let usual = || Tables::shipped().filler(USUAL_FILLER).cloned();
        if let Some(Filler { name, thickness, mass_gsm, .. }) = filler.clone().or_else(usual)
            && thickness.is_positive()
        {
            let mass = area_m2(contents) * f64::from(mass_gsm);
            add(Part::Filler, &name, thickness, mass, None);
        }
    }
    // A sheet whose thickness is not known adds nothing, as framing shops' guides count it.
    let depth = layers.iter().map(|layer| layer.thickness).sum();
    if let Some(Framed { frame, rabbet, .. }) = &framed {
        let length_m = (rabbet.width + rabbet.height).to_mm() * 2.0 / 1000.0;
        let mass_g = length_m * f64::from(frame.mass_g_per_m);
        let (name, colour) = (frame.name.clone(), frame.colour);
        let (thickness, part) = (Length::ZERO, Part::Frame);
        layers.push(Layer { name, thickness, mass_g, part, colour });
    }
    let sum: f64 = layers.iter().map(|layer| layer.mass_g).sum();
    let grams = mass_g.map_or(sum, f64::from);
    let boards: Length = mat.layers.iter().map(|layer| layer.board.thickness).sum();
    let hidden = framed.as_ref().map(|framed| framed.hidden).unwrap_or_default();
    let bag_more = bag_more(document.unit);
    let outside = hanging.frame_size.or(framed.as_ref().map(|framed| framed.outside));
    Packed {
        depth,
        rabbet: depth + room(document.unit),
        mass_g: grams,
        weighed: mass_g.is_some(),
        contents,
        beyond,
        air: if framed.is_some() { boards + spacer.unwrap_or_default() } else { boards },
        floated: is_floated(figures),
        visible_border: least_borders(figures).minus(hidden),
        hung: hung(hanging, grams, outside, document.unit),
        bag: Size::new(contents.width + bag_more, contents.height + bag_more),
        chosen_bag: chosen.clone(),
        framed,
        layers,
    }
}

/// Whether some sheet shows with all its edges.
fn is_floated(figures: &Figures) -> bool {
    let free =
        |overlap: Sides<Length>| overlap.each().iter().all(|(_, side)| side.is_negative());
    figures.openings.iter().any(|window| free(window.overlap))
}

/// The least of the top mat's borders, side by side.
fn least_borders(figures: &Figures) -> Sides<Length> {
    let borders = figures.openings.iter().filter_map(|window| window.top());
    let borders = borders.map(|cut| cut.borders);
    borders.reduce(|a, b| a.zip(b, Length::min)).unwrap_or_default()
}

impl Packed {
    /// Which bag: the one that was chosen, else how large one must be; sizes written by `size`.
    pub fn bag_in_words(&self, size: impl Fn(Size) -> String) -> String {
        match &self.chosen_bag {
            Some(bag) if bag.name.is_empty() => format!("{} inside", size(bag.size)),
            Some(bag) => format!("“{}”, {} inside", bag.name, size(bag.size)),
            None => format!("of at least {} inside", size(self.bag)),
        }
    }
}

/// As it was known when the board was chosen, else from its thickness.
fn board_gsm(board: &Board) -> f64 {
    board.mass_gsm.map_or_else(|| board.thickness.to_mm() * BOARD_KG_M3, f64::from)
}

/// What goes into bag or frame, and how far its backing comes out beyond the mat.
fn contents(outer: Size, backing: Rect) -> (Size, Sides<Length>) {
    let size =
        Size::new(outer.width.max(backing.size.width), outer.height.max(backing.size.height));
    let beyond = Rect::at_origin(outer).within(backing);
    (size, beyond.map(|side| side.max(Length::ZERO)))
}

fn framed(
    package: &Package,
    (contents, beyond): (Size, Sides<Length>),
    unit: Unit,
) -> Option<Framed> {
    if package.frame.is_none() && package.size.is_none() {
        return None;
    }
    let frame = package.frame.clone().unwrap_or_else(|| unmeasured("Frame", unit));
    let allowance = package.allowance.unwrap_or(usual_allowance(unit));
    let rabbet = package.size.map_or_else(
        || Size::new(contents.width + allowance, contents.height + allowance),
        |size| rabbet_of(size, allowance),
    );
    let play = Size::new(rabbet.width - contents.width, rabbet.height - contents.height);
    let lip = frame.lip;
    let seen = |hidden: Length| hidden.max(Length::ZERO);
    let (near, far) = play.width.halves();
    let hidden = Sides::new(
        seen(lip - play.height.max(Length::ZERO) - beyond.top),
        seen(lip - far.max(Length::ZERO) - beyond.right),
        seen(lip - beyond.bottom),
        seen(lip - near.max(Length::ZERO) - beyond.left),
    );
    let sideways = beyond.left.max(beyond.right);
    let nearest = beyond.left.min(beyond.right);
    let over = (frame.face - lip) * 2;
    let usual = || Tables::shipped().glazing(USUAL_GLAZING).cloned();
    let glazing = package.glazing.clone().or_else(usual);
    Some(Framed {
        outside: Size::new(rabbet.width + over, rabbet.height + over),
        hidden_sideways: (
            seen(lip - play.width.max(Length::ZERO) - sideways),
            seen(lip - nearest),
        ),
        glazing: glazing.unwrap_or_default(),
        frame,
        rabbet,
        allowance,
        play,
        hidden,
    })
}

fn hung(hanging: &Hanging, mass_g: f64, outside: Option<Size>, unit: Unit) -> Hung {
    let Hanging {
        rings_apart,
        rise,
        rings_below,
        hooks,
        frame_size: _,
        centre,
        factor_tenths,
        wire_rated_g: _,
        hook_rated_g: _,
    } = *hanging;
    let (count, share) = match hooks {
        Hooks::One => (1, 1.0),
        Hooks::Two(_) => (2, 2.0),
    };
    let centre = centre.unwrap_or(usual_centre(unit));
    let below = rings_below.zip(rise).map(|(rings, rise)| rings - rise);
    Hung {
        hooks: count,
        wire: rings_apart.zip(rise).and_then(|(apart, rise)| wire(mass_g, apart, rise, hooks)),
        hook_n: mass_g / 1000.0 * GRAVITY / share,
        hook_height: outside
            .zip(below)
            .map(|(size, below)| hook_height(centre, size.height, below)),
        centre,
        // At least 2 (weak source), 4 by trade habit.
        factor: f64::from(factor_tenths.unwrap_or(40)) / 10.0,
    }
}

impl Hung {
    /// What to beware of where one hangs it.
    pub fn caution(&self) -> String {
        let hooks = if self.hooks < 2 {
            "Use two hooks rather than one: they keep the piece level and share its weight. "
        } else {
            ""
        };
        format!(
            "{hooks}Use hardware rated for the wall and the weight. Heavy or public work follows \
             local codes and a licensed installer; some places require laminated glass."
        )
    }

    /// A force as the mass it would hold, in grams.
    pub fn grams(newtons: f64) -> f64 {
        newtons / GRAVITY * 1000.0
    }
}

#[cfg(test)]
mod tests;
