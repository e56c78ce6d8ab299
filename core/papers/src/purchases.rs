//! What is to be bought for a plan or many: mouldings, glazing, boards, and all that is used up.

use std::collections::BTreeMap;

use sightedge_core::date::Date;
use sightedge_core::derived::Derived;
use sightedge_core::export::csv::{Error, Table, cell};
use sightedge_core::geometry::Size;
use sightedge_core::hinges::mat_hinge;
use sightedge_core::layout::Blank;
use sightedge_core::length::{Length, Round, Unit};
use sightedge_core::package::{Framed, Packed, Part};
use sightedge_core::spec::{Document, Mat};
use sightedge_core::steps::{points, wire_length};

use crate::{Archive, House, Paper};

/// A list for many plans.
#[derive(Clone, Copy, Debug)]
pub struct OrderList<'a> {
    /// What is bought.
    pub purchases: &'a [Purchase],
    /// How many plans it is for.
    pub plans: usize,
    /// What sizes are written in.
    pub unit: Unit,
    /// What it is printed on.
    pub paper: Paper,
    /// The day written on it.
    pub date: Date,
    /// Which rules the PDF keeps.
    pub archive: Archive,
    /// Whose list it is.
    pub house: &'a House,
}

/// What a saw takes with each cut. Source: common practice (1/8 in).
const fn kerf(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inches(0, 1, 8),
        Unit::Millimetre => Length::mm(3),
    }
}

/// Cuts in a frame: one at both ends of each of its four pieces.
const CUTS: i64 = 8;

/// What things are bought together.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Group {
    /// By length, with the frame from outside.
    Moulding,
    /// Cut to size.
    Glazing,
    /// Of the mat, cut to size.
    Boards,
    /// Cut to size.
    Backing,
    /// Cut to size.
    Filler,
    /// By length.
    Tape,
    /// Wire, rings, hooks, points, bumpers.
    Hanging,
    /// For what is not framed.
    Bags,
}

impl Group {
    /// All of them, in the order of the list.
    pub const ALL: [Self; 8] = [
        Self::Moulding,
        Self::Glazing,
        Self::Boards,
        Self::Backing,
        Self::Filler,
        Self::Tape,
        Self::Hanging,
        Self::Bags,
    ];

    /// In words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Moulding => "Mouldings",
            Self::Glazing => "Glazing",
            Self::Boards => "Mat boards",
            Self::Backing => "Backing boards",
            Self::Filler => "Fillers",
            Self::Tape => "Tape, paper and spacers",
            Self::Hanging => "Hardware",
            Self::Bags => "Bags",
        }
    }

    /// What is to be known about its sizes.
    pub fn about(self, unit: Unit) -> Option<String> {
        Some(match self {
            Self::Moulding => format!(
                "Sizes are the frame’s, from outside. The length is the outside perimeter: each \
                 piece measured at its longest edge, so mitres are in it, with {} more for each of \
                 the {CUTS} saw cuts of a frame. Buy whole lengths.",
                kerf(unit).near(unit)
            ),
            Self::Glazing => "Cut to these sizes: they fit the rabbet with room to move.".to_owned(),
            Self::Boards => {
                "Blanks as they go into the cutter. How few board sheets they take: see Cutting."
                    .to_owned()
            }
            Self::Bags => "Inside, flap closed, or larger.".to_owned(),
            Self::Backing | Self::Filler | Self::Tape | Self::Hanging => return None,
        })
    }
}

/// One line of the list.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Purchase {
    /// Where it stands.
    pub group: Group,
    /// What it is.
    pub what: String,
    /// How many; 0 for what is bought by length alone.
    pub pieces: u32,
    /// Of each.
    pub size: Option<Size>,
    /// In all.
    pub length: Option<Length>,
    /// The titles of the pictures it is for, each once.
    pub of: Vec<String>,
}

impl Purchase {
    /// Its length in `unit`, and in feet or metres to the next tenth up.
    pub fn length_text(&self, unit: Unit) -> Option<String> {
        let length = self.length?;
        let (per, sign) = match unit {
            Unit::Inch => (Length::inches(12, 0, 1), "ft"),
            Unit::Millimetre => (Length::mm(1000), "m"),
        };
        let tenths = (i128::from(length.units()) * 10 + i128::from(per.units()) - 1)
            .div_euclid(i128::from(per.units()));
        let near = length.sensible(unit, Round::Up);
        Some(format!("{near} ({}.{} {sign})", tenths / 10, tenths % 10))
    }
}

/// What is known by when two lines are one.
type Key = (Group, String, Option<(Length, Length)>);

/// Lines in the making.
#[derive(Debug, Default)]
struct Lines(BTreeMap<Key, Purchase>);

impl Lines {
    fn add(
        &mut self,
        of: &str,
        (group, what): (Group, &str),
        pieces: u32,
        size: Option<Size>,
        length: Option<Length>,
    ) {
        let key = (group, what.to_owned(), size.map(|size| (size.width, size.height)));
        let line = self.0.entry(key).or_insert_with(|| Purchase {
            group,
            what: what.to_owned(),
            pieces: 0,
            size,
            length: None,
            of: Vec::new(),
        });
        line.pieces += pieces;
        line.length = match (line.length, length) {
            (Some(one), Some(other)) => Some(one + other),
            (one, other) => one.or(other),
        };
        if !line.of.iter().any(|one| one == of) {
            line.of.push(of.to_owned());
        }
    }
}

/// Everything to be bought for these plans, each with its mat and what follows from it; what
/// is cut already is not bought again.
pub fn purchases<'a>(
    plans: impl IntoIterator<Item = (&'a Document, &'a Mat, &'a Derived)>,
) -> Vec<Purchase> {
    let mut lines = Lines::default();
    for (document, mat, derived) in plans {
        let title = document.works.first().map_or("", |work| work.title.trim());
        boards(title, document, mat, derived, &mut lines);
        let Some(packed) = &derived.assembly.package else { continue };
        if let Some(framed) = &packed.framed {
            frame(title, document.unit, mat, (packed, framed), &mut lines);
            continue;
        }
        let bag = packed.chosen_bag.as_ref();
        let name = bag.map_or("Bag", |bag| bag.name.as_str());
        let size = bag.map_or(packed.bag, |bag| bag.size);
        lines.add(title, (Group::Bags, name), 1, Some(size), None);
    }
    lines.0.into_values().collect()
}

fn boards(title: &str, document: &Document, mat: &Mat, derived: &Derived, lines: &mut Lines) {
    let bench = &derived.layout.bench;
    let blanks = bench.blanks(document.unit);
    for (index, layer) in mat.layers.iter().enumerate() {
        if mat.is_made(layer.id) || derived.layout.in_hand {
            continue;
        }
        // With several windows an undermat is one board, as large as the mat.
        let blank = |blank: &&Blank| blank.layer == layer.id;
        let size = match bench.openings.as_slice() {
            [_] if index > 0 => blanks.iter().find(blank).map(|blank| blank.rect.size),
            _ => None,
        };
        let size = Some(size.unwrap_or(bench.outer));
        lines.add(title, (Group::Boards, &layer.board.name), 1, size, None);
    }
    let size = Some(bench.backing.size);
    lines.add(title, (Group::Backing, &mat.backing.board.name), 1, size, None);
    let hinges = mat.assembly.hinging.tissue.as_ref();
    let hinges = hinges.map_or("Hinging tissue or tape", |tissue| tissue.name.as_str());
    for sheet in derived.assembly.sheets.iter().filter(|one| one.hinges.tape.is_positive()) {
        lines.add(title, (Group::Tape, hinges), 0, None, Some(sheet.hinges.tape));
    }
    let own = mat_hinge(&mat.assembly, bench.outer, document.unit);
    let name = format!("Cloth tape, {} wide, mat to backing", own.tape.near(document.unit));
    lines.add(title, (Group::Tape, &name), 0, None, Some(own.length));
}

fn frame(
    title: &str,
    unit: Unit,
    mat: &Mat,
    (packed, framed): (&Packed, &Framed),
    lines: &mut Lines,
) {
    let round = |size: Size| (size.width + size.height) * 2;
    let length = round(framed.outside) + kerf(unit) * CUTS;
    let name = framed.frame.name.as_str();
    lines.add(title, (Group::Moulding, name), 1, Some(framed.outside), Some(length));
    let contents = packed.contents;
    let name = framed.glazing.name.as_str();
    lines.add(title, (Group::Glazing, name), 1, Some(contents), None);
    for layer in &packed.layers {
        match layer.part {
            Part::Filler => {
                lines.add(title, (Group::Filler, &layer.name), 1, Some(contents), None);
            }
            Part::Spacer => {
                let name = format!("Spacer, {} thick", layer.thickness.near(unit));
                lines.add(title, (Group::Tape, &name), 0, None, Some(round(contents)));
            }
            _ => {}
        }
    }
    let tape = |lines: &mut Lines, name, length| {
        lines.add(title, (Group::Tape, name), 0, None, Some(length));
    };
    tape(lines, "Sealing tape, round the package", round(contents));
    tape(lines, "Double-sided tape, for the dust cover", round(framed.outside));
    lines.add(title, (Group::Tape, "Kraft paper"), 1, Some(framed.outside), None);
    let hanging = &mat.assembly.hanging;
    // Half as long again as the rings are apart, these at the frame's sides.
    let wire = wire_length(hanging, unit)
        .unwrap_or_else(|| hanging.rings_apart.unwrap_or(framed.outside.width).scaled(3, 2));
    lines.add(title, (Group::Hanging, "Wire"), 0, None, Some(wire));
    let [across, down] =
        [framed.rabbet.width, framed.rabbet.height].map(|one| points(one, unit));
    for (name, pieces) in [
        ("Rings, with screws", 2),
        ("Hooks, with nails", packed.hung.hooks),
        ("Points", (across + down) * 2),
        ("Bumpers", 2),
    ] {
        lines.add(title, (Group::Hanging, name), pieces, None, None);
    }
}

/// The list as a table for other programs: sizes in `unit` and in millimetres.
///
/// # Errors
/// None in practice: every row has the same cells.
pub fn purchases_csv(purchases: &[Purchase], unit: Unit) -> Result<String, Error> {
    let mut out = Table::default();
    out.row([
        "group",
        "what",
        "pieces",
        "width",
        "height",
        "length",
        "width_mm",
        "height_mm",
        "length_mm",
        "for",
    ])?;
    for purchase in purchases {
        let text = |length: Option<Length>| {
            length.map(|one| one.sensible(unit, Round::Near)).unwrap_or_default()
        };
        let mm = |length: Option<Length>| {
            length.map(|one| format!("{:.1}", one.to_mm())).unwrap_or_default()
        };
        let (width, height) =
            (purchase.size.map(|size| size.width), purchase.size.map(|size| size.height));
        let pieces = match purchase.pieces {
            0 => String::new(),
            pieces => pieces.to_string(),
        };
        out.row([
            purchase.group.name().to_owned(),
            cell(&purchase.what).into_owned(),
            pieces,
            text(width),
            text(height),
            text(purchase.length),
            mm(width),
            mm(height),
            mm(purchase.length),
            cell(&purchase.of.join("; ")).into_owned(),
        ])?;
    }
    out.text()
}
