//! What goes with a print: labels for its back, a certificate, and for a show the labels on
//! the wall, the prices and the list of what is left there.

mod certificate;
mod code;
mod labels;
mod list;

use std::collections::BTreeMap;

use sightedge_core::length::Length;

use crate::frame::MARGIN;
use crate::page::{Block, Leaf, Mark, Pages};
use crate::picture::{Placed, fitted};
use crate::set::{LaidOut, set_pages};
use crate::words::{BODY, SUBTITLE, Style};
use crate::{Grid, House, PapersError, Piece, StudioOrder, StudioPaper};
use code::code;

/// The name at the head of a page.
const HOUSE: Style = Style { size: 12.0, weight: 600, quiet: false };
/// The largest logo, in millimetres.
const LOGO: [f64; 2] = [48.0, 18.0];

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

/// What pages of these papers have in common: size, head, pictures, and what the person should
/// know.
struct Desk<'a> {
    order: &'a StudioOrder<'a>,
    size: [f64; 2],
    logo: Option<[f64; 2]>,
    pictures: BTreeMap<String, Placed>,
    notes: Vec<String>,
}

impl<'a> Desk<'a> {
    fn new(order: &'a StudioOrder<'a>, headed: bool) -> Self {
        let mut desk = Self {
            order,
            size: order.paper.size(),
            logo: None,
            pictures: BTreeMap::new(),
            notes: Vec::new(),
        };
        let House { name, logo, .. } = order.house;
        if headed && name.trim().is_empty() {
            desk.note(
                "These pages go out without your name and address: fill in “Your studio” where \
                 printouts are chosen.",
            );
        }
        if let Some(path) = logo.as_ref().filter(|path| headed && !path.as_os_str().is_empty())
        {
            match fitted(path, LOGO) {
                Ok((placed, size)) => {
                    desk.logo = Some(size);
                    desk.pictures.insert("logo.jpg".to_owned(), placed);
                }
                Err(words) => desk.note(&format!("{words}. The logo is left out.")),
            }
        }
        desk
    }

    fn note(&mut self, words: &str) {
        if !self.notes.iter().any(|one| one == words) {
            self.notes.push(words.to_owned());
        }
    }

    /// How wide the text is.
    fn wide(&self) -> f64 {
        self.size[0] - 2.0 * MARGIN
    }

    /// The house at the head of a page; where the page's own text may begin.
    fn head(&self, leaf: &mut Leaf) -> f64 {
        let House { name, address, contact, .. } = self.order.house;
        let w = self.wide();
        let mut end = MARGIN;
        if let Some(size) = self.logo {
            let alt = format!("The logo of {name}.");
            picture(leaf, "logo.jpg", [MARGIN + w - size[0], MARGIN], size, alt);
            end = MARGIN + size[1];
        }
        let room = w - self.logo.map_or(0.0, |size| size[0] + 6.0);
        let mut y = MARGIN;
        if !name.trim().is_empty() {
            y = leaf.text(MARGIN, y, room, HOUSE, HOUSE.at_most(name.trim(), room, 2));
        }
        let lines = address.lines().chain(contact.lines()).map(str::trim);
        for line in lines.filter(|line| !line.is_empty()).take(6) {
            y = leaf.text(MARGIN, y, room, SUBTITLE, vec![SUBTITLE.shortened(line, room)]);
        }
        end = end.max(y);
        if end > MARGIN { end + 7.0 } else { end }
    }
}

/// A picture at a place.
fn picture(leaf: &mut Leaf, name: &str, [x, y]: [f64; 2], [w, h]: [f64; 2], alt: String) {
    let src = name.to_owned();
    let mark = Mark::Picture { src, x: 0.0, y: 0.0, w, h, clip: [0.0, 0.0, w, h] };
    leaf.blocks.push(Block::Drawing { x, y, w, h, alt, marks: vec![mark] });
}

/// A line to write on, with what belongs there.
fn to_fill(leaf: &mut Leaf, [x, y, w]: [f64; 3], word: &str) {
    leaf.text(x, y, w, BODY, vec![word.to_owned()]);
    let at = if word.is_empty() { 0.0 } else { BODY.width(word) + 2.0 };
    leaf.rule(x + at, y + BODY.pitch() * 0.9, (w - at).max(0.0));
}

/// Sets the pages of one such paper.
///
/// # Errors
/// Where this program was built without the typesetter.
pub fn lay_out_studio(
    kind: &StudioPaper,
    order: &StudioOrder<'_>,
) -> Result<LaidOut, PapersError> {
    let headed = matches!(
        kind,
        StudioPaper::Certificate | StudioPaper::Prices(_) | StudioPaper::Consignment { .. }
    );
    let mut desk = Desk::new(order, headed);
    let pieces = order.pieces;
    let pages = match kind {
        StudioPaper::Labels(grid) => {
            let notes = &mut desk.notes;
            labels::sheets(pieces, *grid, &mut |leaf, piece, area| {
                labels::backing(leaf, piece, area, notes);
            })
        }
        StudioPaper::Single(size) => {
            desk.size = size.map(Length::to_mm);
            let [width, height] = desk.size;
            let notes = &mut desk.notes;
            let mut single = |piece| {
                let mut leaf = Leaf::default();
                labels::backing(&mut leaf, piece, [0.0, 0.0, width, height], notes);
                leaf.blocks
            };
            pieces.iter().map(&mut single).collect()
        }
        StudioPaper::Wall => {
            let size = [90, 60].map(Length::mm);
            let grid = Grid::centred(2, 4, size, order.paper);
            grid.map(|grid| labels::sheets(pieces, grid, &mut labels::wall)).unwrap_or_default()
        }
        StudioPaper::Certificate => {
            let all = pieces.iter().enumerate();
            all.map(|(at, piece)| certificate::page(&mut desk, at, piece)).collect()
        }
        StudioPaper::Prices(_) | StudioPaper::Consignment { .. } => list::pages(&desk, kind),
    };
    let of = pieces.first().map(|piece| piece.catalogue.as_str()).unwrap_or_default();
    let [width, height] = desk.size;
    let pages = Pages {
        title: format!("{} \u{b7} {of}", kind.name()),
        keywords: vec![format!("sightedge-catalogue-{of}")],
        date: order.date.parts(),
        width,
        height,
        pages,
    };
    let ident = format!("{of}-{}", kind.name());
    Ok(set_pages(pages, desk.pictures, order.archive, ident, desk.notes))
}

/// Those that say something, with a mark between them.
fn joined(parts: &[&str], between: &str) -> String {
    let parts_given: Vec<&str> =
        parts.iter().copied().filter(|part| !part.is_empty()).collect();
    parts_given.join(between)
}
