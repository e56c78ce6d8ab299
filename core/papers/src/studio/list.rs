//! Lists of a show: its prices, and what is left with a gallery.

use super::{Desk, asking_price, final_price, joined, to_fill};
use crate::frame::MARGIN;
use crate::page::{Block, Leaf, Mark, count};
use crate::words::{BODY, HEADING, SMALL, STRONG, SUBTITLE, Style, prose};
use crate::{Piece, StudioPaper};

const TITLE: Style = Style { size: 18.0, weight: 600, quiet: false };
/// The column of the catalogue numbers, and that of the prices.
const NUMBERS: f64 = 24.0;
const PRICES: f64 = 44.0;
/// How high the terms and the places to sign are.
const TERMS: f64 = 112.0;
/// The edge of a box to tick.
const BOX: f64 = 3.2;

/// Lays out a list.
pub(super) fn pages(desk: &Desk<'_>, kind: &StudioPaper) -> Vec<Vec<Block>> {
    let (place, sums) = match kind {
        StudioPaper::Consignment { place, sums } => (place.as_str(), Some(sums)),
        StudioPaper::Prices(show) => (show.as_str(), None),
        _ => return Vec::new(),
    };
    let bottom = desk.size[1] - MARGIN - 6.0;
    let w = desk.wide();
    let mut leaves = Vec::new();
    let mut leaf = Leaf::default();
    let head = |leaf: &mut Leaf| {
        let y = desk.head(leaf);
        let title = joined(&[kind.name(), place.trim()], ": ");
        let title = vec![TITLE.shortened(&title, w)];
        let y = leaf.set(MARGIN, y, w, TITLE, 1, "left", title) + 0.6;
        let day = vec![desk.order.date.to_string()];
        let y = leaf.set(MARGIN, y, w, SUBTITLE, 0, "left", day) + 1.4;
        leaf.rule(MARGIN, y, w);
        y + 4.0
    };
    let mut y = head(&mut leaf);
    if sums.is_some() {
        y = parties(desk, place, y, &mut leaf);
    }
    for piece in desk.order.pieces {
        let tall = entry(piece, sums.is_some(), [y, w], &mut Leaf::default()) - y;
        if y + tall > bottom {
            leaves.push(std::mem::take(&mut leaf).blocks);
            y = head(&mut leaf);
        }
        y = entry(piece, sums.is_some(), [y, w], &mut leaf);
    }
    if let Some(sums) = sums {
        let many = if desk.order.pieces.len() == 1 { "print" } else { "prints" };
        let first = format!("{} {many}", desk.order.pieces.len());
        let all: Vec<String> = std::iter::once(first).chain(sums.iter().cloned()).collect();
        if y + STRONG.pitch() * count(all.len()) + 4.0 > bottom {
            leaves.push(std::mem::take(&mut leaf).blocks);
            y = head(&mut leaf);
        }
        leaf.rule(MARGIN, y, w);
        y = leaf.text(MARGIN + NUMBERS, y + 1.6, w - NUMBERS, STRONG, all) + 4.0;
        if y + TERMS > bottom {
            leaves.push(std::mem::take(&mut leaf).blocks);
            y = head(&mut leaf);
        }
        terms([y, w], &mut leaf);
    }
    leaves.push(leaf.blocks);
    let all = leaves.len();
    for (index, blocks) in leaves.iter_mut().enumerate().filter(|_| all > 1) {
        let mut foot = Leaf { blocks: std::mem::take(blocks) };
        let text = vec![format!("{} / {all}", index + 1)];
        foot.set(MARGIN, desk.size[1] - MARGIN + 1.0, w, SMALL, 0, "right", text);
        *blocks = foot.blocks;
    }
    leaves
}

/// Who leaves the works, and who takes them in.
fn parties(desk: &Desk<'_>, place: &str, y: f64, leaf: &mut Leaf) -> f64 {
    let half = (desk.wide() - 10.0) / 2.0;
    let right = MARGIN + half + 10.0;
    let house = desk.order.house;
    leaf.set(MARGIN, y, half, HEADING, 2, "left", vec!["Artist".to_owned()]);
    let top = leaf.set(right, y, half, HEADING, 2, "left", vec!["Gallery".to_owned()]) + 1.0;
    let artist = desk.order.pieces.first().map_or("", |piece| piece.artist.as_str());
    let name = if house.name.trim().is_empty() { artist } else { house.name.trim() };
    let mut known: Vec<String> = vec![name.to_owned()];
    known.extend(house.address.lines().map(|line| line.trim().to_owned()));
    known.retain(|line| !line.is_empty());
    let step = BODY.pitch() + 2.2;
    let mut columns = [(MARGIN, known), (right, vec![place.trim().to_owned()])];
    for (x, lines) in &mut columns {
        lines.retain(|line| !line.is_empty());
        for row in 0..3 {
            let at = top + step * count(row);
            match lines.get(row) {
                Some(line) => {
                    leaf.text(*x, at, half, BODY, vec![BODY.shortened(line, half)]);
                }
                None => leaf.rule(*x, at + BODY.pitch() * 0.9, half),
            }
        }
    }
    top + step * 3.0 + 3.0
}

/// One work; where it ends.
fn entry(piece: &Piece, consigned: bool, [y, w]: [f64; 2], leaf: &mut Leaf) -> f64 {
    let room = w - NUMBERS - PRICES - 2.0;
    // Below the price, a line has room to the edge.
    let sizes = prose(&piece.dimensions);
    let about = [&piece.artist, &piece.medium, &sizes, &piece.edition].map(String::as_str);
    let number = vec![SMALL.shortened(&piece.catalogue, NUMBERS - 2.0)];
    leaf.text(MARGIN, y + 0.4, NUMBERS - 2.0, SMALL, number);
    let price = if consigned { final_price(piece) } else { asking_price(piece) };
    leaf.set(MARGIN + w - PRICES, y, PRICES, STRONG, 0, "right", vec![price]);
    let title = STRONG.titled(&piece.title, &piece.year, room, 2);
    let y = leaf.text(MARGIN + NUMBERS, y, room, STRONG, title);
    let detail = BODY.listed(&about, w - NUMBERS, 4);
    let y = leaf.text(MARGIN + NUMBERS, y, w - NUMBERS, BODY, detail);
    if !consigned {
        return y + 3.0;
    }
    let half = (w - NUMBERS - 6.0) / 2.0;
    to_fill(leaf, [MARGIN + NUMBERS, y + 1.6, half], "Insured for");
    to_fill(leaf, [MARGIN + NUMBERS + half + 6.0, y + 1.6, half], "Condition on arrival");
    y + BODY.pitch() + 5.0
}

/// What both agree on, and where they sign. Source: common practice.
fn terms([y, w]: [f64; 2], leaf: &mut Leaf) {
    let mut y = leaf.heading(MARGIN, y, w, 2, "Terms");
    let step = BODY.pitch() + 3.4;
    let half = (w - 8.0) / 2.0;
    let right = MARGIN + half + 8.0;
    to_fill(leaf, [MARGIN, y, half], "From");
    to_fill(leaf, [right, y, half], "to");
    y += step;
    to_fill(leaf, [MARGIN, y, half], "Commission of the gallery, %");
    to_fill(leaf, [right, y, half], "Days from sale to payment");
    y += step;
    y = choice(
        leaf,
        y,
        "The cost of the frame is repaid before the commission",
        &["yes", "no"],
    );
    let who = ["the artist", "the gallery", "both by halves"];
    y = choice(leaf, y, "Discounts are borne by", &who);
    let who = ["the artist", "the gallery"];
    y = choice(leaf, y, "Transport is paid by", &who);
    let words = "The works stay the artist’s property until the artist is paid in full. From \
                 arrival until they are back with the artist or paid for, the gallery insures them \
                 for the amounts above and answers for loss and damage. They are not lent on, \
                 reframed or sold below the price listed unless the artist agrees in writing.";
    y = leaf.text(MARGIN, y + 1.0, w, BODY, BODY.lines(words, w)) + 14.0;
    for (x, who) in [(MARGIN, "Artist, handed over"), (right, "Gallery, received as listed")] {
        leaf.rule(x, y, half);
        leaf.text(x, y + 1.2, half, SMALL, vec![format!("{who}: signature, place and date")]);
    }
}

/// A box to tick.
pub(super) fn tick_box(leaf: &mut Leaf, [x, y]: [f64; 2]) {
    let p = vec![[0.0, 0.0], [BOX, 0.0], [BOX, BOX], [0.0, BOX]];
    let marks = vec![Mark::Line { p, closed: true, pen: "fine" }];
    let alt = "A box to tick.".to_owned();
    leaf.blocks.push(Block::Drawing { x, y, w: BOX, h: BOX, alt, marks });
}

/// A sentence that one of several boxes ends.
fn choice(leaf: &mut Leaf, y: f64, words: &str, choices: &[&str]) -> f64 {
    let words = format!("{words}:");
    let mut x = MARGIN + BODY.width(&words) + 4.0;
    leaf.text(MARGIN, y, x, BODY, vec![words]);
    for choice in choices {
        tick_box(leaf, [x, y + 0.6]);
        leaf.text(x + 4.6, y, 60.0, BODY, vec![(*choice).to_owned()]);
        x += BODY.width(choice) + 11.0;
    }
    y + BODY.pitch() + 2.6
}
