//! What goes with a print: labels for its back, a certificate, and for a show the labels on
//! the wall, the prices and the list of what is left there.

use qrcode::{EcLevel, QrCode};
use sightedge_core::length::{Length, typeset};

use crate::frame::MARGIN;
use crate::page::{Block, Leaf, Mark, Pages, count};
use crate::words::{BODY, KEY, LONG_TITLE, SMALL, STRONG, SUBTITLE, TITLE};
use crate::{Archive, Date, Laid, Paper, PapersError, Templates, set_pages};

/// What the studio's record says of a print, in words.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Piece {
    /// The number in the catalogue, which the code on the label tells too.
    pub catalogue: String,
    /// Its title.
    pub title: String,
    /// Who made it.
    pub maker: String,
    /// The year or years.
    pub year: String,
    /// Medium and paper.
    pub medium: String,
    /// Height × width in both units, as catalogues have it.
    pub dimensions: String,
    /// Its number in the edition: 3/25.
    pub edition: String,
    /// What it costs.
    pub price: String,
    /// How to treat it.
    pub care: String,
    /// A digest of what the record says of it.
    pub digest: String,
}

/// Labels on a sheet: how many, how large, and where the first one is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Grid {
    /// Side by side.
    pub columns: u32,
    /// One above the other.
    pub rows: u32,
    /// Of one label.
    pub width: Length,
    /// Of one label.
    pub height: Length,
    /// From the sheet's left edge to the first.
    pub left: Length,
    /// From the sheet's top edge to the first.
    pub top: Length,
}

impl Grid {
    /// So many of that size in the middle of a sheet; `None` where they do not fit.
    pub fn centred(
        columns: u32,
        rows: u32,
        [width, height]: [Length; 2],
        paper: Paper,
    ) -> Option<Self> {
        let [wide, high] = paper.size().map(Length::from_mm_nearest);
        let left = (wide - width * i64::from(columns)).halves().0;
        let top = (high - height * i64::from(rows)).halves().0;
        let some =
            columns > 0 && rows > 0 && width >= Length::mm(40) && height >= Length::mm(25);
        let fits = !left.is_negative() && !top.is_negative();
        (some && fits).then_some(Self { columns, rows, width, height, left, top })
    }
}

/// A paper that goes with prints.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum StudioPaper {
    /// For the backing.
    Labels(Grid),
    /// That a print is what it is said to be.
    Certificate,
    /// Beside the pictures of a show.
    Wall,
    /// The prices of a show.
    Prices(String),
    /// What is left with a gallery, to be signed by both.
    Consignment(String),
}

impl StudioPaper {
    const fn name(&self) -> &'static str {
        match self {
            Self::Labels(_) => "Labels",
            Self::Certificate => "Certificate of authenticity",
            Self::Wall => "Wall labels",
            Self::Prices(_) => "Prices",
            Self::Consignment(_) => "Consignment",
        }
    }
}

/// Sets the pages of one such paper.
///
/// # Errors
/// Where a template of the maker's own does not work.
pub fn lay_out_studio(
    kind: &StudioPaper,
    pieces: &[Piece],
    paper: Paper,
    date: Date,
    templates: &Templates,
) -> Result<Laid, PapersError> {
    let [width, height] = paper.size();
    let pages = match kind {
        StudioPaper::Labels(grid) => labels(pieces, *grid, &|leaf, piece, at, size| {
            backing(leaf, piece, at, size);
        }),
        StudioPaper::Wall => {
            let size = [90, 60].map(Length::mm);
            let grid = Grid::centred(2, 4, size, paper);
            grid.map(|grid| {
                labels(pieces, grid, &|leaf, piece, at, size| wall(leaf, piece, at, size))
            })
            .unwrap_or_default()
        }
        StudioPaper::Certificate => {
            pieces.iter().map(|piece| certificate(piece, [width, height], date)).collect()
        }
        StudioPaper::Prices(show) => list(kind, show, pieces, [width, height], date),
        StudioPaper::Consignment(place) => list(kind, place, pieces, [width, height], date),
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
    set_pages(
        &pages,
        "steps.typ",
        templates,
        &std::collections::BTreeMap::new(),
        Archive::A2aUa1,
        ident,
        Vec::new(),
    )
}

type Draws<'a> = &'a dyn Fn(&mut Leaf, &Piece, [f64; 2], [f64; 2]);

fn labels(pieces: &[Piece], grid: Grid, draw: Draws<'_>) -> Vec<Vec<Block>> {
    let (wide, high) = (grid.width.to_mm(), grid.height.to_mm());
    let columns = usize::try_from(grid.columns.max(1)).unwrap_or(1);
    let each = columns * usize::try_from(grid.rows.max(1)).unwrap_or(1);
    let mut leaves = Vec::new();
    for sheet in pieces.chunks(each) {
        let mut leaf = Leaf::default();
        for (n, piece) in sheet.iter().enumerate() {
            let at = [
                grid.left.to_mm() + wide * count(n % columns),
                grid.top.to_mm() + high * count(n / columns),
            ];
            draw(&mut leaf, piece, at, [wide, high]);
        }
        leaves.push(leaf.blocks);
    }
    leaves
}

/// Room between a label's edge and its text.
const INSIDE: f64 = 4.0;
/// A code's edge, its quiet zone counted.
const CODE: f64 = 22.0;

fn backing(leaf: &mut Leaf, piece: &Piece, [x, y]: [f64; 2], [wide, high]: [f64; 2]) {
    let (left, w) = (x + INSIDE, wide - 2.0 * INSIDE);
    // The code stands at the lower right; beside it, lines are shorter.
    let mut at = y + INSIDE;
    at = leaf.text(left, at, w, STRONG, vec![STRONG.shortened(&piece.maker, w)]);
    let title = joined(&[&piece.title, &piece.year], ", ");
    at = leaf.text(left, at, w, BODY, vec![BODY.shortened(&title, w)]);
    let narrow = w - CODE - 2.0;
    // A number of an edition is no fraction: only sizes are set as such.
    let sizes = typeset(&piece.dimensions);
    for text in [&piece.medium, &sizes, &piece.edition] {
        if !text.is_empty() {
            let lines = BODY.lines(text, narrow);
            at = leaf.text(left, at, narrow, BODY, lines);
        }
    }
    let room = y + high - INSIDE - at - SMALL.pitch() - 0.5;
    let mut care = SMALL.lines(&piece.care, narrow);
    while !care.is_empty() && SMALL.pitch() * count(care.len()) > room {
        care.pop();
    }
    leaf.text(left, at + 0.5, narrow, SMALL, care);
    let foot = y + high - INSIDE - SMALL.pitch();
    leaf.text(left, foot, narrow, SMALL, vec![SMALL.shortened(&piece.catalogue, narrow)]);
    let corner = [x + wide - INSIDE - CODE, y + high - INSIDE - CODE];
    leaf.blocks.extend(code(&piece.catalogue, corner, CODE));
}

/// The catalogue number as a code that telephones read, with the quiet zone of four modules
/// the standard asks for. Source: ISO/IEC 18004.
fn code(text: &str, [x, y]: [f64; 2], edge: f64) -> Option<Block> {
    let made = QrCode::with_error_correction_level(text.as_bytes(), EcLevel::M).ok()?;
    let wide = made.width();
    let module = edge / count(wide + 8);
    let dark = made.to_colors();
    let mut marks = Vec::new();
    for row in 0..wide {
        let mut column = 0;
        while column < wide {
            let is_dark = |column: usize| {
                dark.get(row * wide + column).is_some_and(|one| *one == qrcode::Color::Dark)
            };
            let from = column;
            while column < wide && is_dark(column) {
                column += 1;
            }
            if column > from {
                let [left, right] = [from, column].map(|at| module * count(at + 4));
                let [top, bottom] = [row, row + 1].map(|at| module * count(at + 4));
                marks.push(Mark::Fill {
                    p: vec![[left, top], [right, top], [right, bottom], [left, bottom]],
                    c: "#000000".to_owned(),
                });
            }
            column += 1;
        }
    }
    let alt = format!("A code that says {text}.");
    Some(Block::Drawing { x, y, w: edge, h: edge, alt, marks })
}

/// Artist / title, date / medium / dimensions. Source: a university library's exhibition guide.
fn wall(leaf: &mut Leaf, piece: &Piece, [x, y]: [f64; 2], [wide, _]: [f64; 2]) {
    let (left, w) = (x + INSIDE, wide - 2.0 * INSIDE);
    let mut at = y + INSIDE;
    at = leaf.text(left, at, w, KEY, KEY.lines(&piece.maker, w));
    let title = joined(&[&piece.title, &piece.year], ", ");
    at = leaf.text(left, at, w, KEY, KEY.lines(&title, w).into_iter().take(2).collect());
    at += 1.0;
    let edition = joined(&[&piece.edition, &piece.price], " \u{b7} ");
    for text in [&piece.medium, &typeset(&piece.dimensions), &edition] {
        at = leaf.text(left, at, w, BODY, BODY.lines(text, w));
    }
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
    at = leaf.text(left, at, w, LONG_TITLE, LONG_TITLE.lines(&piece.title, w)) + 6.0;
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
        at = leaf.text(left + 42.0, at, w - 42.0, BODY, BODY.lines(text, w - 42.0));
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
    let signed = matches!(kind, StudioPaper::Consignment(_));
    let foot = if signed { 46.0 } else { 8.0 };
    let mut leaves = Vec::new();
    let mut leaf = Leaf::default();
    let head = |leaf: &mut Leaf| {
        let title = vec![TITLE.shortened(&format!("{}: {place}", kind.name()), w)];
        let y = leaf.set(MARGIN, MARGIN, w, TITLE, 1, "left", title) + 0.6;
        let y = leaf.set(MARGIN, y, w, SUBTITLE, 0, "left", vec![date.to_string()]) + 1.4;
        leaf.rule(MARGIN, y, w);
        y + 4.0
    };
    let mut at = head(&mut leaf);
    for piece in pieces {
        let about =
            joined(&[&piece.medium, &typeset(&piece.dimensions), &piece.edition], " \u{b7} ");
        let room = w - 66.0;
        let detail = BODY.lines(&about, room);
        let tall = STRONG.pitch() + BODY.pitch() * count(detail.len()) + 3.0;
        if at + tall > high - MARGIN - foot {
            leaves.push(std::mem::take(&mut leaf).blocks);
            at = head(&mut leaf);
        }
        leaf.text(MARGIN, at, 22.0, SMALL, vec![SMALL.shortened(&piece.catalogue, 22.0)]);
        leaf.set(MARGIN + w - 40.0, at, 40.0, STRONG, 0, "right", vec![piece.price.clone()]);
        let title = joined(&[&piece.title, &piece.year, &piece.maker], ", ");
        let below =
            leaf.text(MARGIN + 24.0, at, room, STRONG, vec![STRONG.shortened(&title, room)]);
        leaf.text(MARGIN + 24.0, below, room, BODY, detail);
        at += tall;
    }
    if signed {
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
    let said: Vec<&str> = parts.iter().copied().filter(|part| !part.is_empty()).collect();
    said.join(between)
}
