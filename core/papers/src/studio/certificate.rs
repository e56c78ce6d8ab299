//! The certificate of a print.
//!
//! Its fields are those that laws on the sale of fine prints ask for. Source: Official Code of
//! Georgia 10-1-432 (read in part); California Civil Code 1744 and New York Arts and Cultural
//! Affairs Law 15.03 ask for much the same (from memory, and from lawyers' summaries). What the
//! record has no word on is a line to fill in by hand.

use super::{Desk, code, picture};
use crate::Piece;
use crate::frame::MARGIN;
use crate::page::{Block, Leaf};
use crate::picture::fitted;
use crate::words::{SMALL, Style, prose};

const TITLE: Style = Style { size: 20.0, weight: 600, quiet: false };
const WORK: Style = Style { size: 14.0, weight: 600, quiet: false };
const LABEL: Style = Style { size: 10.0, weight: 400, quiet: true };
const VALUE: Style = Style { size: 12.0, weight: 400, quiet: false };
/// The column of the labels.
const LABELS: f64 = 52.0;
/// The largest picture of the work.
const PICTURE: [f64; 2] = [58.0, 52.0];
/// The edge of the code.
const CODE: f64 = 22.0;

/// Lays out the certificate of one print.
pub(super) fn page(desk: &mut Desk<'_>, at: usize, piece: &Piece) -> Vec<Block> {
    let mut leaf = Leaf::default();
    let [wide, high] = desk.size;
    let w = wide - 2.0 * MARGIN;
    let mut y = desk.head(&mut leaf) + 2.0;
    let name = vec!["Certificate of authenticity".to_owned()];
    y = leaf.set(MARGIN, y, w, TITLE, 1, "left", name) + 1.5;
    leaf.rule(MARGIN, y, w);
    y += 5.0;
    let mut beside = w;
    let mut below = y;
    if let Some(path) = &piece.picture {
        match fitted(path, PICTURE) {
            Ok((placed, size)) => {
                let src = format!("work-{at}.jpg");
                let alt = format!("The picture “{}”.", piece.title);
                picture(&mut leaf, &src, [MARGIN + w - size[0], y], size, alt);
                desk.pictures.insert(src, placed);
                beside = w - size[0] - 6.0;
                below = y + size[1] + 3.0;
            }
            Err(words) => desk.note(&format!("{words}. The certificate has no picture.")),
        }
    }
    y = leaf.text(MARGIN, y, beside, WORK, WORK.at_most(&piece.title, beside, 3)) + 2.5;
    let sizes = [&piece.dimensions, &piece.sheet].map(|text| prose(text));
    let number = match (piece.edition.as_str(), piece.catalogue.as_str()) {
        (edition, "") => edition.to_owned(),
        (edition, catalogue) => format!("{edition}, catalogue number {catalogue}"),
    };
    let mut by_hand = Vec::new();
    for (label, value) in [
        ("Artist", &piece.artist),
        ("Year of the picture", &piece.taken),
        ("Year of this print", &piece.printed),
        ("Medium and process", &piece.process),
        ("Support", &piece.support),
        ("Image, height × width", &sizes[0]),
        ("Sheet, height × width", &sizes[1]),
        ("Number of this print", &number),
        ("Numbered prints", &piece.size),
        ("Proofs beside them", &piece.proofs),
        ("Other editions", &piece.others),
    ] {
        let room = if y < below { beside } else { w } - LABELS;
        y = row(&mut leaf, y, room, label, value);
        if value.is_empty() {
            by_hand.push(label.to_lowercase());
        }
    }
    y = y.max(below);
    // The record has no word on these.
    for label in ["Signed where and how", "Printed by", "Negative, plate or file"] {
        y = row(&mut leaf, y, w - LABELS, label, "");
        by_hand.push(label.to_lowercase());
    }
    y = ticked(&mut leaf, y, "This print was made", ["in the artist’s lifetime", "after it"]);
    y = ticked(&mut leaf, y, "The artist authorised it", ["yes", "no"]);
    by_hand.push("whether made in the artist’s lifetime and authorised".to_owned());
    y += 2.0;
    let words = "I made this print, or had it made under my supervision. It is one of the edition \
                 described here and bears its number. All that this certificate says is true and \
                 correct.";
    leaf.text(MARGIN, y, w, VALUE, VALUE.lines(words, w));
    let foot = high - MARGIN - CODE;
    let line = w - CODE - 8.0;
    leaf.rule(MARGIN, foot + 6.0, line * 0.55);
    leaf.text(MARGIN, foot + 7.2, line * 0.55, SMALL, vec!["Artist’s signature".to_owned()]);
    let x = MARGIN + line * 0.6;
    leaf.rule(x, foot + 6.0, line * 0.4);
    let day = format!("Place and date; issued {}", desk.order.date);
    leaf.text(x, foot + 7.2, line * 0.4, SMALL, vec![day]);
    leaf.blocks.extend(code(&piece.catalogue, [MARGIN + w - CODE, foot], CODE));
    if !piece.digest.is_empty() {
        let text = format!("Digest of the record: {}", piece.digest);
        leaf.text(MARGIN, foot + 14.0, line, SMALL, SMALL.at_most(&text, line, 2));
    }
    desk.note(&format!(
        "The certificate has lines to fill in by hand: {}. What must stand on it depends on the \
         law where you sell: ask a lawyer.",
        by_hand.join(", ")
    ));
    leaf.blocks
}

/// A field, or a line to write it on.
fn row(leaf: &mut Leaf, y: f64, w: f64, label: &str, value: &str) -> f64 {
    let drop = (VALUE.size - LABEL.size) * 0.35 * 0.78;
    leaf.text(MARGIN, y + drop, LABELS - 2.0, LABEL, vec![label.to_owned()]);
    if value.is_empty() {
        leaf.rule(MARGIN + LABELS, y + VALUE.pitch() * 0.9, w);
        return y + VALUE.pitch() + 1.4;
    }
    leaf.text(MARGIN + LABELS, y, w, VALUE, VALUE.at_most(value, w, 3)) + 1.2
}

/// Two boxes, one of them to be ticked by hand.
fn ticked(leaf: &mut Leaf, y: f64, label: &str, choices: [&str; 2]) -> f64 {
    leaf.text(MARGIN, y + 0.4, LABELS - 2.0, LABEL, vec![label.to_owned()]);
    let mut x = MARGIN + LABELS;
    for choice in choices {
        super::list::tick_box(leaf, [x, y + 0.8]);
        leaf.text(x + 5.0, y, 70.0, VALUE, vec![choice.to_owned()]);
        x += VALUE.width(choice) + 12.0;
    }
    y + VALUE.pitch() + 1.4
}
