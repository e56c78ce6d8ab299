//! Layers of a mat: added, removed, reordered, and how far they stand in.

use super::{Refusal, as_cut, layer, mat, opening};
use crate::geometry::Sides;
use crate::length::Length;
use crate::spec::{Document, Layer, LayerId, Mat, Opening, OpeningId, VariantId, WindowBy};

/// An undermat under a layer that is cut leaves that where it is: its own window changes, and with it
/// the reveal.
pub(super) fn set_offset(
    document: &mut Document,
    id: VariantId,
    opening_id: OpeningId,
    layer_id: LayerId,
    offset: Sides<Length>,
) -> Result<(), Refusal> {
    let now = as_cut::strip(document, id, opening_id, layer_id);
    let mat = mat(document, id)?;
    layer(mat, layer_id)?;
    let opening = opening(mat, opening_id)?;
    opening.offsets.insert(layer_id, offset);
    if let (Some(now), WindowBy::Reveal(reveal)) = (now, opening.window_by) {
        opening.window_by = WindowBy::Reveal(reveal.plus(now.minus(offset)));
    }
    Ok(())
}

pub(super) fn add(
    document: &mut Document,
    id: VariantId,
    layer: &Layer,
    offset: Sides<Length>,
) -> Result<(), Refusal> {
    if mat(document, id)?.layers.len() >= Mat::MOST_LAYERS {
        return Err(Refusal::Layers);
    }
    as_cut::prepare_for_undermat(document, id, offset);
    let mat = mat(document, id)?;
    mat.layers.push(layer.clone());
    for opening in &mut mat.openings {
        opening.offsets.insert(layer.id, offset);
    }
    Ok(())
}

/// The layer below takes the removed one's place: its sight edge stays where it is.
pub(super) fn remove(mat: &mut Mat, id: LayerId) -> Result<(), Refusal> {
    let index = index(mat, id)?;
    if mat.layers.len() == 1 {
        return Err(Refusal::Layers);
    }
    let below = mat.layers.get(index + 1).map(|layer| layer.id);
    mat.layers.remove(index);
    for opening in openings(mat) {
        let lost = opening.offsets.remove(&id);
        opening.cut.remove(&id);
        if let Some(below) = below {
            // A new top layer has none to stand inside of.
            if index == 0 {
                opening.offsets.remove(&below);
            } else if let (Some(lost), Some(kept)) = (lost, opening.offsets.get_mut(&below)) {
                *kept = kept.plus(lost);
            }
        }
    }
    Ok(())
}

/// The windows, and those of what was planned before some were cut.
fn openings(mat: &mut Mat) -> impl Iterator<Item = &mut Opening> {
    let planned = mat.planned.iter_mut().flat_map(|planned| &mut planned.openings);
    mat.openings.iter_mut().chain(planned)
}

pub(super) fn reorder(mat: &mut Mat, id: LayerId, to: usize) -> Result<(), Refusal> {
    let from = index(mat, id)?;
    if to >= mat.layers.len() {
        return Err(Refusal::Layers);
    }
    // Offsets belong to places in the stack; ids travel with their boards.
    let order: Vec<LayerId> = mat.layers.iter().map(|layer| layer.id).collect();
    let moved = mat.layers.remove(from);
    mat.layers.insert(to, moved);
    let layers = mat.layers.clone();
    for opening in openings(mat) {
        let offsets: Vec<_> = order.iter().map(|id| opening.offset(*id)).collect();
        opening.offsets = layers
            .iter()
            .zip(offsets)
            .skip(1)
            .map(|(layer, offset)| (layer.id, offset))
            .collect();
    }
    Ok(())
}

fn index(mat: &Mat, id: LayerId) -> Result<usize, Refusal> {
    mat.layers.iter().position(|layer| layer.id == id).ok_or(Refusal::Gone("layer"))
}
