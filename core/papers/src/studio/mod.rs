//! What goes with a print: labels for its back, a certificate, and for a show the labels on
//! the wall, the prices and the list of what is left there.

mod code;
mod labels;

use std::collections::BTreeMap;

use sightedge_core::date::Date;
use sightedge_core::length::{Length, typeset};

use crate::frame::MARGIN;
use crate::page::{Block, Leaf, Pages, count};
use crate::set::{LaidOut, set_pages};
use crate::words::{BODY, LONG_TITLE, SMALL, STRONG, SUBTITLE, TITLE};
use crate::{Archive, Grid, Paper, PapersError, Piece, StudioPaper};
use code::code;

/// On a list for buyers: what is sold is no longer asked for.
fn asking_price(piece: &Piece) -> String {
    if piece.sold { "sold".to_owned() } else { piece.price.clone() }
}

/// Between artist and gallery: what it was sold for counts.
fn final_price(piece: &Piece) -> String {
    match (piece.sold, piece.price.as_str()) {
        (true, "") => "sold".to_owned(),
        (true, price) => format!("sold, {price}"),
        (false, price) => price.to_owned(),
    }
}

/// Sets the pages of one such paper.
///
/// # Errors
/// Where this program was built without the typesetter.
pub fn lay_out_studio(
    kind: &StudioPaper,
    pieces: &[Piece],
    paper: Paper,
    date: Date,
    archive: Archive,
) -> Result<LaidOut, PapersError> {
    let [mut width, mut height] = paper.size();
    let mut notes = Vec::new();
    let pages = match kind {
        StudioPaper::Labels(grid) => labels::sheets(pieces, *grid, &mut |leaf, piece, area| {
            labels::backing(leaf, piece, area, &mut notes);
        }),
        StudioPaper::Single(size) => {
            [width, height] = size.map(Length::to_mm);
            let mut single = |piece| {
                let mut leaf = Leaf::default();
                labels::backing(&mut leaf, piece, [0.0, 0.0, width, height], &mut notes);
                leaf.blocks
            };
            pieces.iter().map(&mut single).collect()
        }
        StudioPaper::Wall => {
            let size = [90, 60].map(Length::mm);
            let grid = Grid::centred(2, 4, size, paper);
            grid.map(|grid| labels::sheets(pieces, grid, &mut labels::wall)).unwrap_or_default()
        }
        StudioPaper::Certificate => {
            pieces.iter().map(|piece| certificate(piece, [width, height], date)).collect()
        }
        StudioPaper::Prices(show) => list(kind, show, pieces, [width, height], date),
        StudioPaper::Consignment { place, .. } => {
            list(kind, place, pieces, [width, height], date)
        }
    };
    let of = pieces.first().map(|piece| piece.catalogue.as_str()).unwrap_or_default();
    let pages = Pages {
        title: format!("{} \u{b7} {of}", kind.name()),
        keywords: vec![format!("sightedge-catalogue-{of}")],
        date: date.parts(),
        width,
        height,
        pages,
    };
    let ident = format!("{of}-{}", kind.name());
    Ok(set_pages(pages, BTreeMap::new(), archive, ident, notes))
}

/// Title, dimensions, edition notation, date of issue, issuer. Source: appraisers' guide.
fn certificate(piece: &Piece, [wide, high]: [f64; 2], date: Date) -> Vec<Block> {
    let mut leaf = Leaf::default();
    let (left, w) = (MARGIN + 12.0, wide - 2.0 * MARGIN - 24.0);
    let mut at = MARGIN + 24.0;
    let heading = vec!["Certificate of authenticity".to_owned()];
    at = leaf.set(left, at, w, TITLE, 1, "left", heading) + 3.0;
    leaf.rule(left, at, w);
    at += 10.0;
    at = leaf.text(left, at, w, LONG_TITLE, LONG_TITLE.at_most(&piece.title, w, 3)) + 6.0;
    let (issued, sizes) = (date.to_string(), typeset(&piece.dimensions));
    for (name, text) in [
        ("Maker", &piece.maker),
        ("Year", &piece.year),
        ("Medium", &piece.medium),
        ("Height × width", &sizes),
        ("Edition", &piece.edition),
        ("Catalogue number", &piece.catalogue),
        ("Date of issue", &issued),
        ("Issued by", &piece.maker),
    ] {
        if text.is_empty() {
            continue;
        }
        leaf.text(left, at, 40.0, SUBTITLE, vec![name.to_owned()]);
        at = leaf.text(left + 42.0, at, w - 42.0, BODY, BODY.at_most(text, w - 42.0, 3));
        at += 2.4;
    }
    at += 8.0;
    let words = "This print was made by the one named above or under their eyes, is one of the \
                 edition told here, and bears its number.";
    at = leaf.text(left, at, w, BODY, BODY.lines(words, w)) + 24.0;
    leaf.rule(left, at, 80.0);
    leaf.text(left, at + 1.2, 80.0, SMALL, vec!["Signature".to_owned()]);
    leaf.rule(left + w - 50.0, at, 50.0);
    leaf.text(left + w - 50.0, at + 1.2, 50.0, SMALL, vec!["Place and date".to_owned()]);
    let foot = high - MARGIN - 22.0;
    leaf.blocks.extend(code(&piece.catalogue, [left + w - 22.0, foot - 2.0], 22.0));
    if !piece.digest.is_empty() {
        let text = format!("Digest of the record: {}", piece.digest);
        leaf.text(left, foot + 8.0, w - 26.0, SMALL, SMALL.lines(&text, w - 26.0));
    }
    leaf.blocks
}

fn list(
    kind: &StudioPaper,
    place: &str,
    pieces: &[Piece],
    [wide, high]: [f64; 2],
    date: Date,
) -> Vec<Vec<Block>> {
    let w = wide - 2.0 * MARGIN;
    let sums = match kind {
        StudioPaper::Consignment { sums, .. } => Some(sums),
        _ => None,
    };
    let signed = sums.is_some();
    let foot = if signed { 46.0 } else { 8.0 };
    let mut leaves = Vec::new();
    let mut leaf = Leaf::default();
    let head = |leaf: &mut Leaf| {
        let title = joined(&[kind.name(), place.trim()], ": ");
        let title = vec![TITLE.shortened(&title, w)];
        let y = leaf.set(MARGIN, MARGIN, w, TITLE, 1, "left", title) + 0.6;
        let y = leaf.set(MARGIN, y, w, SUBTITLE, 0, "left", vec![date.to_string()]) + 1.4;
        leaf.rule(MARGIN, y, w);
        y + 4.0
    };
    let mut at = head(&mut leaf);
    for piece in pieces {
        let sizes = typeset(&piece.dimensions);
        let room = w - 66.0;
        // Below the price, a line has room to the edge.
        let about = [&piece.maker, &piece.medium, &sizes, &piece.edition].map(String::as_str);
        let detail = BODY.listed(&about, w - 24.0, 4);
        let title = STRONG.titled(&piece.title, &piece.year, room, 2);
        let tall =
            STRONG.pitch() * count(title.len()) + BODY.pitch() * count(detail.len()) + 3.0;
        if at + tall > high - MARGIN - foot {
            leaves.push(std::mem::take(&mut leaf).blocks);
            at = head(&mut leaf);
        }
        leaf.text(MARGIN, at, 22.0, SMALL, vec![SMALL.shortened(&piece.catalogue, 22.0)]);
        let price = if signed { final_price(piece) } else { asking_price(piece) };
        leaf.set(MARGIN + w - 40.0, at, 40.0, STRONG, 0, "right", vec![price]);
        let below = leaf.text(MARGIN + 24.0, at, room, STRONG, title);
        leaf.text(MARGIN + 24.0, below, w - 24.0, BODY, detail);
        at += tall;
    }
    if let Some(sums) = sums {
        if at + BODY.pitch() * count(sums.len() + 1) > high - MARGIN - foot {
            leaves.push(std::mem::take(&mut leaf).blocks);
            at = head(&mut leaf);
        }
        let many = if pieces.len() == 1 { "print" } else { "prints" };
        let all = [format!("{} {many}", pieces.len())].into_iter().chain(sums.iter().cloned());
        leaf.rule(MARGIN, at, w);
        leaf.text(MARGIN + 24.0, at + 2.0, w - 24.0, BODY, all.collect());
        let y = high - MARGIN - 16.0;
        let words = "Handed over and received as listed. The works stay the maker’s until they \
                     are paid for.";
        leaf.text(MARGIN, y - 22.0, w, BODY, BODY.lines(words, w));
        for (x, who) in [(MARGIN, "Handed over by"), (MARGIN + w - 80.0, "Received by")] {
            leaf.rule(x, y, 80.0);
            leaf.text(x, y + 1.2, 80.0, SMALL, vec![format!("{who}, place and date")]);
        }
    }
    leaves.push(leaf.blocks);
    leaves
}

/// Those that say something, with a mark between them.
fn joined(parts: &[&str], between: &str) -> String {
    let parts_given: Vec<&str> =
        parts.iter().copied().filter(|part| !part.is_empty()).collect();
    parts_given.join(between)
}
