//! Every change of a document has a name, and one function applies it. The canvas, the
//! panels, a finding's remedy and the headless commands all go through here.

mod as_cut;
mod layers;
mod mats;

pub use as_cut::{Measured, as_cut};
pub use mats::{copy_mat, free_name, new_mat};

use crate::geometry::{Rect, Sides, Size};
use crate::layout::layout;
use crate::length::{Length, Unit};
use crate::material::{Board, Humidity, Paper};
use crate::spec::{
    AsCut, Backing, Bevel, BoardBy, Choice, Document, Grain, Hanging, Hangs, Hinging,
    Inscribed, Layer, LayerId, Limits, Mat, MatHinge, Opening, OpeningId, Package, Picture,
    Ruler, Variant, VariantId, WindowBy, Work, WorkId,
};
use crate::weight::Weights;

/// A change of the document.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Command {
    /// What the work is called.
    SetTitle(WorkId, String),
    /// The paper and the printed area on it. A window that meets the picture by its reveal
    /// follows.
    SetPaper(WorkId, Size, Rect),
    /// The picture is another file, or lies elsewhere.
    Relink(WorkId, Picture),
    /// What bare numbers mean.
    SetUnit(Unit),
    /// What weights and forces are shown in; `None`: what goes with the unit.
    SetWeights(Option<Weights>),
    /// The ruler the maker cuts by.
    SetRuler(Ruler),
    /// A further mat, at this place among the plan's, counted from the first.
    AddMat(usize, Box<Variant>),
    /// What a mat is called.
    RenameMat(VariantId, String),
    /// One mat less.
    RemoveMat(VariantId),
    /// A mat at another place among the plan's, counted from the first.
    MoveMat(VariantId, usize),
    /// Which mat is to be made, with the day and the client's words.
    Choose(VariantId, Option<Choice>),
    /// What is given of the outer size and the borders.
    SetBoardBy(VariantId, BoardBy),
    /// What is given of a window: the reveal, or a window in hand.
    SetWindowBy(VariantId, OpeningId, WindowBy),
    /// How far an undermat's sight edge stands inside the layer above. Where that one is cut
    /// already, the undermat's own window becomes larger or smaller, and the reveal with it.
    SetOffset(VariantId, OpeningId, LayerId, Sides<Length>),
    /// The window of a layer was cut, with these measured figures.
    SetCut(VariantId, OpeningId, LayerId, AsCut),
    /// The window of a layer is to be cut again, in another board.
    CutAnew(VariantId, OpeningId, LayerId),
    /// A further layer under the lowest, with this offset in every opening. What is cut stays
    /// as it is: there the new layer's window lies within the lowest one.
    AddLayer(VariantId, Layer, Sides<Length>),
    /// One layer less.
    RemoveLayer(VariantId, LayerId),
    /// A layer's board and cut at another place in the stack, counted from the top; the
    /// windows stay where they are.
    MoveLayer(VariantId, LayerId, usize),
    /// What a layer is cut from.
    SetBoard(VariantId, LayerId, Board),
    /// How a layer's windows are cut.
    SetBevel(VariantId, LayerId, Bevel),
    /// The board behind everything.
    SetBacking(VariantId, Backing),
    /// Whether the borders are held to the exhibition rule.
    SetExhibition(VariantId, bool),
    /// What the person allows.
    SetLimits(VariantId, Limits),
    /// The maker's own words.
    SetNotes(VariantId, String),
    /// The paper the picture is on.
    SetStock(VariantId, Option<Paper>),
    /// Which way its grain runs.
    SetGrain(VariantId, Option<Grain>),
    /// The room where it is hinged, and the range where it will hang.
    SetHumidity(VariantId, Option<Humidity>, Option<Hangs>),
    /// How the sheet is held.
    SetHinging(VariantId, Hinging),
    /// How the mat is held to its backing.
    SetMatHinge(VariantId, MatHinge),
    /// Glue in the mat's corners.
    SetCornersGlued(VariantId, Option<Length>),
    /// Whether the boards' makers claim the photo-activity test.
    SetActivityTested(VariantId, Option<bool>),
    /// What it goes into.
    SetPackage(VariantId, Box<Package>),
    /// How it hangs.
    SetHanging(VariantId, Hanging),
    /// What is written on the print and its mat.
    SetInscribed(Option<Box<Inscribed>>),
    /// Several changes under one name, all or none.
    Together(&'static str, Vec<Command>),
}

/// Why a command cannot be applied.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Refusal {
    /// It names something the document does not have.
    Gone(&'static str),
    /// A mat has one to four layers.
    Layers,
    /// A plan has so many mats and no more.
    Mats,
    /// A plan has one mat at least.
    LastMat,
    /// Another mat of the plan has that name.
    NameTaken,
    /// A mat has a name.
    NoName,
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Gone(what) => {
                write!(f, "this plan no longer has that {what}: choose another")
            }
            Self::Layers => write!(
                f,
                "a mat has one to {} layers: this change would leave none, or too many",
                Mat::MOST_LAYERS
            ),
            Self::Mats => write!(
                f,
                "a plan holds up to {} mats: remove one first, or save the plan under another \
                 name",
                Mat::MOST_IN_PLAN
            ),
            Self::LastMat => f.write_str("this is the plan's only mat: add another one first"),
            Self::NameTaken => {
                f.write_str("another mat of this plan has that name: choose a different one")
            }
            Self::NoName => f.write_str("the mat has no name: type one, as in Wide"),
        }
    }
}

impl std::error::Error for Refusal {}

impl Command {
    /// What undo calls it.
    pub fn name(&self) -> &'static str {
        match self {
            Self::SetTitle(..) => "title",
            Self::SetPaper(..) => "sheet and image",
            Self::Relink(..) => "picture",
            Self::SetUnit(_) => "unit",
            Self::SetWeights(_) => "unit of weights",
            Self::SetRuler(_) => "ruler",
            Self::AddMat(..) => "new mat",
            Self::RenameMat(..) => "name of the mat",
            Self::RemoveMat(_) => "removed mat",
            Self::MoveMat(..) => "order of mats",
            Self::Choose(..) => "choice of mat",
            Self::SetBoardBy(_, BoardBy::Outer { .. }) => "outer size and placement",
            Self::SetBoardBy(_, BoardBy::Borders(_)) => "borders",
            Self::SetWindowBy(_, _, WindowBy::Reveal(_)) => "reveal",
            Self::SetWindowBy(_, _, WindowBy::InHand(_)) => "ready-cut window",
            Self::SetOffset(..) => "undermat offset",
            Self::SetCut(..) => "as cut",
            Self::CutAnew(..) => "to be cut again",
            Self::AddLayer(..) => "added layer",
            Self::RemoveLayer(..) => "removed layer",
            Self::MoveLayer(..) => "order of layers",
            Self::SetBoard(..) => "board",
            Self::SetBevel(..) => "bevel",
            Self::SetBacking(..) => "backing",
            Self::SetExhibition(..) => "exhibition rule",
            Self::SetLimits(..) => "limits",
            Self::SetNotes(..) => "notes",
            Self::SetStock(..) => "paper",
            Self::SetGrain(..) => "grain",
            Self::SetHumidity(..) => "humidity",
            Self::SetHinging(..) => "hinges",
            Self::SetMatHinge(..) => "hinge of mat and backing",
            Self::SetCornersGlued(..) => "glued corners",
            Self::SetActivityTested(..) => "photo-activity test",
            Self::SetPackage(..) => "frame and package",
            Self::SetHanging(..) => "hanging",
            Self::SetInscribed(_) => "inscription",
            Self::Together(name, _) => name,
        }
    }
}

/// Applies one command. A refused command leaves the document as it was.
///
/// # Errors
/// Where the command names something that is gone, or asks for no layer or too many.
pub fn apply(document: &mut Document, command: &Command) -> Result<(), Refusal> {
    change(document, command)?;
    as_cut::follow(document);
    Ok(())
}

fn change(document: &mut Document, command: &Command) -> Result<(), Refusal> {
    match command {
        Command::SetTitle(id, title) => work(document, *id)?.title.clone_from(title),
        Command::SetPaper(id, sheet, image) => {
            let work = work(document, *id)?;
            work.sheet = *sheet;
            work.image = *image;
        }
        Command::Relink(id, picture) => work(document, *id)?.picture.clone_from(picture),
        Command::SetUnit(unit) => {
            document.unit = *unit;
            if document.ruler.unit() != *unit {
                document.ruler = Ruler::usual(*unit);
            }
        }
        Command::SetWeights(weights) => document.weights = *weights,
        Command::SetRuler(ruler) => document.ruler = *ruler,
        Command::AddMat(at, variant) => mats::add(document, *at, variant)?,
        Command::RenameMat(id, name) => mats::rename(document, *id, name)?,
        Command::RemoveMat(id) => mats::remove(document, *id)?,
        Command::MoveMat(id, to) => mats::reorder(document, *id, *to)?,
        Command::Choose(id, choice) => mats::choose(document, *id, choice.as_ref())?,
        Command::SetBoardBy(id, board_by) => mat(document, *id)?.board_by = *board_by,
        Command::SetWindowBy(id, opening_id, window_by) => {
            opening(mat(document, *id)?, *opening_id)?.window_by = *window_by;
            as_cut::take_in_hand(document, *id, *opening_id);
        }
        Command::SetOffset(id, opening_id, layer_id, offset) => {
            layers::set_offset(document, *id, *opening_id, *layer_id, *offset)?;
        }
        Command::SetCut(id, opening_id, layer_id, as_cut) => {
            as_cut::remember_plan(document, *id);
            let mat = mat(document, *id)?;
            layer(mat, *layer_id)?;
            opening(mat, *opening_id)?.cut.insert(*layer_id, *as_cut);
        }
        Command::CutAnew(id, opening_id, layer_id) => {
            as_cut::cut_anew(document, *id, *opening_id, *layer_id)?;
        }
        Command::AddLayer(id, layer, offset) => {
            layers::add(document, *id, layer, *offset)?;
        }
        Command::RemoveLayer(id, layer_id) => {
            let before = document.variant(*id).map(|variant| layout(document, &variant.mat));
            let mat = mat(document, *id)?;
            layers::remove(mat, *layer_id)?;
            if let Some(before) = before {
                as_cut::after_innermost_removed(mat, *layer_id, &before.exact);
            }
        }
        Command::MoveLayer(id, layer_id, to) => {
            layers::reorder(mat(document, *id)?, *layer_id, *to)?;
        }
        Command::SetBoard(id, layer_id, board) => {
            layer(mat(document, *id)?, *layer_id)?.board.clone_from(board);
        }
        Command::SetBevel(id, layer_id, bevel) => {
            layer(mat(document, *id)?, *layer_id)?.bevel = *bevel;
        }
        Command::SetBacking(id, backing) => mat(document, *id)?.backing.clone_from(backing),
        Command::SetExhibition(id, on) => mat(document, *id)?.exhibition = *on,
        Command::SetLimits(id, limits) => mat(document, *id)?.limits = *limits,
        Command::SetNotes(id, notes) => mat(document, *id)?.notes.clone_from(notes),
        Command::SetStock(id, paper) => mat(document, *id)?.assembly.paper.clone_from(paper),
        Command::SetGrain(id, grain) => mat(document, *id)?.assembly.grain = *grain,
        Command::SetHumidity(id, hinged_at, hangs_at) => {
            let assembly = &mut mat(document, *id)?.assembly;
            assembly.hinged_at = *hinged_at;
            assembly.hangs_at = *hangs_at;
        }
        Command::SetHinging(id, hinging) => {
            mat(document, *id)?.assembly.hinging.clone_from(hinging);
        }
        Command::SetMatHinge(id, hinge) => mat(document, *id)?.assembly.mat_hinge = *hinge,
        Command::SetCornersGlued(id, glue) => {
            mat(document, *id)?.assembly.corners_glued = *glue;
        }
        Command::SetActivityTested(id, tested) => {
            mat(document, *id)?.assembly.activity_tested = *tested;
        }
        Command::SetPackage(id, package) => {
            mat(document, *id)?.assembly.package.clone_from(package);
        }
        Command::SetHanging(id, hanging) => mat(document, *id)?.assembly.hanging = *hanging,
        Command::SetInscribed(inscribed) => document.inscribed = inscribed.as_deref().cloned(),
        Command::Together(_, commands) => {
            let mut changed = document.clone();
            for command in commands {
                apply(&mut changed, command)?;
            }
            *document = changed;
        }
    }
    Ok(())
}

/// An id for a new layer that no layer of the document has.
pub fn next_layer(document: &Document) -> LayerId {
    let layers = document.variants.iter().flat_map(|variant| &variant.mat.layers);
    LayerId(layers.map(|layer| layer.id.0).max().unwrap_or(0).saturating_add(1))
}

/// The command that makes the outer size the given thing instead of the borders, leaving
/// every edge where it is; or the other way round.
pub fn exchange_board_by(document: &Document, id: VariantId) -> Option<Command> {
    use crate::spec::Placement;
    let mat = &document.variant(id)?.mat;
    let exact = layout(document, mat).exact;
    let board_by = match mat.board_by {
        BoardBy::Outer { .. } => BoardBy::Borders(exact.openings.first()?.top()?.borders),
        BoardBy::Borders(_) => {
            let borders = exact.group().within(Rect::at_origin(exact.outer));
            let placement = match (borders.left == borders.right, borders.top == borders.bottom)
            {
                (true, true) => Placement::Centred,
                (true, false) => Placement::BottomExtra(borders.bottom - borders.top),
                (false, _) => Placement::Free { left: borders.left, top: borders.top },
            };
            BoardBy::Outer { size: exact.outer, placement }
        }
    };
    Some(Command::SetBoardBy(id, board_by))
}

fn work(document: &mut Document, id: WorkId) -> Result<&mut Work, Refusal> {
    document.works.iter_mut().find(|work| work.id == id).ok_or(Refusal::Gone("picture"))
}

fn mat(document: &mut Document, id: VariantId) -> Result<&mut Mat, Refusal> {
    let variant = document.variants.iter_mut().find(|variant| variant.id == id);
    variant.map(|variant| &mut variant.mat).ok_or(Refusal::Gone("mat"))
}

fn opening(mat: &mut Mat, id: OpeningId) -> Result<&mut Opening, Refusal> {
    mat.openings.iter_mut().find(|opening| opening.id == id).ok_or(Refusal::Gone("window"))
}

fn layer(mat: &mut Mat, id: LayerId) -> Result<&mut Layer, Refusal> {
    mat.layers.iter_mut().find(|layer| layer.id == id).ok_or(Refusal::Gone("layer"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::{inches, reference, sides, size};

    fn after(commands: &[Command]) -> Document {
        let mut document = reference();
        for command in commands {
            assert_eq!(apply(&mut document, command), Ok(()), "{command:?}");
        }
        document
    }

    #[test]
    fn removing_the_top_layer_keeps_the_undermat_where_it_was() {
        let document = after(&[Command::RemoveLayer(VariantId(1), LayerId(1))]);
        let mat = &document.variants[0].mat;
        assert_eq!(mat.layers.len(), 1);
        let exact = layout(&document, mat).exact;
        assert_eq!(exact.openings[0].sight.size, size("11 1/2x15 5/8"));
    }

    /// Source: derived (D): 3/16 and 1/8 in become 5/16 in where the undermat between is taken out; a
    /// new top mat stands inside of nothing.
    #[test]
    fn removing_a_layer_leaves_the_sight_edges_below_it() {
        let mut triple = reference();
        let mat = &mut triple.variants[0].mat;
        mat.layers.push(Layer { id: LayerId(3), ..mat.layers[1].clone() });
        mat.openings[0].offsets.insert(LayerId(3), sides("1/8"));
        let offsets = |removed: u32| {
            let mut document = triple.clone();
            let command = Command::RemoveLayer(VariantId(1), LayerId(removed));
            assert_eq!(apply(&mut document, &command), Ok(()));
            document.variants[0].mat.openings[0].offsets.clone()
        };
        assert_eq!(offsets(2), [(LayerId(3), sides("5/16"))].into());
        assert_eq!(offsets(1), [(LayerId(3), sides("1/8"))].into());
        assert_eq!(offsets(3), [(LayerId(2), sides("3/16"))].into());
    }

    #[test]
    fn moving_a_layer_moves_its_board_and_leaves_the_windows() {
        let mut document = reference();
        document.variants[0].mat.layers[0].board.name = "Top".to_owned();
        let before = layout(&document, &document.variants[0].mat).exact;
        let moved = Command::MoveLayer(VariantId(1), LayerId(1), 1);
        assert_eq!(apply(&mut document, &moved), Ok(()));
        let mat = &document.variants[0].mat;
        assert_eq!(mat.layers[1].board.name, "Top");
        let after = layout(&document, mat).exact;
        assert_eq!(after.outer, before.outer);
        for (a, b) in after.openings[0].layers.iter().zip(&before.openings[0].layers) {
            assert_eq!(a.sight, b.sight);
        }
    }

    #[test]
    fn exchanging_what_is_given_moves_nothing() {
        let mut document = reference();
        let before = layout(&document, &document.variants[0].mat).exact;
        for _ in 0..2 {
            let command = exchange_board_by(&document, VariantId(1)).unwrap();
            assert_eq!(apply(&mut document, &command), Ok(()));
            assert_eq!(layout(&document, &document.variants[0].mat).exact, before);
        }
    }

    #[test]
    fn all_or_none() {
        let mut document = reference();
        let before = document.clone();
        let both = Command::Together(
            "both",
            vec![
                Command::SetExhibition(VariantId(1), true),
                Command::SetOffset(VariantId(1), OpeningId(1), LayerId(9), sides("1")),
            ],
        );
        assert_eq!(apply(&mut document, &both), Err(Refusal::Gone("layer")));
        assert_eq!(document, before);
        let one = Command::RemoveLayer(VariantId(1), LayerId(1));
        assert_eq!(apply(&mut document, &one), Ok(()));
        let last = Command::RemoveLayer(VariantId(1), LayerId(2));
        assert_eq!(apply(&mut document, &last), Err(Refusal::Layers));
        assert_eq!(next_layer(&document), LayerId(3));
        assert_eq!(inches("1"), Length::INCH);
    }
}
