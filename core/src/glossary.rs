//! The words of the job, each in one plain sentence. Help, hints and legends take them from
//! here, so that a word means the same wherever it stands.

use crate::finding::Severity;

/// A word of the job, and what it means.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Term {
    /// As on screen and paper, in small letters.
    pub word: &'static str,
    /// One sentence with its full stop.
    pub meaning: &'static str,
}

const fn term(word: &'static str, meaning: &'static str) -> Term {
    Term { word, meaning }
}

/// The words of the mat, from the print outwards.
pub const MAT: &[Term] = &[
    term("sheet", "The paper the print is on, with its white margins."),
    term("image", "The printed area of the sheet."),
    term("margin", "The bare paper between the image and the sheet's edge."),
    term("mat", "A board with a window cut in it, laid over the print."),
    term("window", "The hole in the mat through which the picture is seen."),
    term("sight edge", "The edge of the window next to the picture, where the bevel ends."),
    term(
        "reveal",
        "The paper showing between the image and the window's sight edge; below \
        zero, the mat covers some of the image.",
    ),
    term(
        "overlap",
        "How far the mat covers the sheet on each side, which is what holds it \
        in.",
    ),
    term(
        "border",
        "The width of the mat from its outer edge to the sight edge; alone, the \
        top mat's.",
    ),
    term("outer size", "The width and height of the whole mat."),
    term("bottom extra", "How much wider the bottom border is than the top one."),
    term(
        "optical centre",
        "A place a little above the middle, where a picture looks \
        centred.",
    ),
    term(
        "undermat",
        "A second mat under the first, with a slightly smaller window, so that \
        a strip of it shows all round.",
    ),
    term(
        "offset",
        "The distance from the sight edge of one mat to the sight edge of the \
        undermat below it: the strip of undermat that shows, with its bevel.",
    ),
    term("bevel", "The slanted cut along the window, which shows the board's core."),
    term("reverse bevel", "A bevel cut from the front, so that the board's core is hidden."),
    term("face opening", "The window measured on the front of the board, outside the bevel."),
    term("gutter", "The strip of board between two windows of one mat."),
    term("drop-out", "The piece that falls out when a window is cut."),
    term(
        "over-cut",
        "The hair's breadth that the knife goes past a corner, so that the drop-out falls free.",
    ),
    term("blank", "A board cut to size before its window is cut."),
    term(
        "stop",
        "The part of a mat cutter that sets how far from the edge it cuts; its \
        setting is the border seen from the back.",
    ),
    term("ply", "A layer of a board; 4-ply is the usual thickness, about 1/16 in or 1.5 mm."),
    term(
        "ruler",
        "The smallest step you cut by, such as 1/16 in; figures for the bench are \
        rounded to it and still add up.",
    ),
    term(
        "as cut",
        "The window as it was measured after cutting; all that is still to be cut \
        follows from it.",
    ),
    term("board sheet", "Board as it is bought, before anything is cut from it."),
    term("offcut", "A piece of board left over and worth keeping."),
];

/// The words of what is behind the mat and round it.
pub const BEHIND: &[Term] = &[
    term("backing", "The board behind the print, to which the mat and the print are hinged."),
    term("hinge", "A small piece of tissue or tape that hangs the sheet from its backing."),
    term(
        "T hinge",
        "A tab behind the sheet's top edge, with a second piece across it on the \
        backing; for sheets whose edges are under the mat.",
    ),
    term("V hinge", "A folded tab behind the sheet, out of sight; for floated sheets."),
    term(
        "pass-through hinge",
        "A tab that goes through a slit in the backing; for heavy \
        floated sheets.",
    ),
    term(
        "corner pocket",
        "A folded paper corner the sheet slips into, with no adhesive on \
        the print.",
    ),
    term(
        "edge strip",
        "A strip of paper stuck to the backing beside the sheet and lying \
        over its edge, with no adhesive on the print.",
    ),
    term("tab", "The part of a hinge that is stuck to the sheet."),
    term(
        "cross-piece",
        "The part of a T hinge that is stuck across the tab onto the \
        backing.",
    ),
    term("locating hinge", "The one hinge that fixes the sheet's place."),
    term("loose hinge", "A hinge with a longer tab, which lets the sheet grow and shrink."),
    term("held", "The mat covers the sheet's edges."),
    term("floated", "The whole sheet shows, with its edges free inside the window."),
    term(
        "grain",
        "The way the paper's fibres lie; a sheet swells far more across the grain \
        than along it.",
    ),
    term(
        "relative humidity",
        "How damp the air is, in percent; paper grows in damp air and \
        shrinks in dry air.",
    ),
    term(
        "photo-activity test",
        "A laboratory test (ISO 18916) that shows whether a board \
        harms photographs.",
    ),
    term(
        "buffered",
        "With an alkaline reserve that takes up acid; some photographs need \
        unbuffered board.",
    ),
    term("package", "All that goes into the frame: glazing, mat, print, backing and filler."),
    term("glazing", "The glass or acrylic in front of the picture."),
    term("filler", "The board behind the backing that fills the frame's depth."),
    term("spacer", "A strip inside the frame that keeps the glazing off the picture."),
    term("moulding", "The strip of wood or metal that a frame is made from."),
    term("rabbet", "The recess in the back of the frame that the package goes into."),
    term("lip", "The part of the frame that covers the edge of the package."),
    term("face", "The front of the moulding, as wide as it is seen from the front."),
    term(
        "allowance",
        "How much smaller the package is than the rabbet, both sides \
        together.",
    ),
    term("points", "Small metal points pushed into the rabbet to hold the package in."),
    term("dust cover", "Paper stuck over the back of the frame."),
    term("rings", "The two fittings on the back of the frame that carry the wire."),
];

/// The words of editions and of a show.
pub const EDITIONS: &[Term] = &[
    term("work", "A picture, whatever sizes it is printed in."),
    term("edition", "All prints of a work in one size, numbered up to a fixed count."),
    term("edition size", "How many numbered prints there will ever be."),
    term("record", "The list of all works, editions and prints, kept on this computer."),
    term("AP", "Artist's proof, a print outside the numbered ones that the artist keeps."),
    term("PP", "Printer's proof, a print outside the numbered ones for the printer."),
    term("HC", "Hors commerce, a print outside the numbered ones, not for sale."),
    term("BAT", "Bon à tirer, the print that all others are matched to."),
    term("TP", "Trial proof, a print made while the picture was still being worked on."),
    term("price step", "The price from a number on; it rises as an edition sells."),
    term("void", "A number that no print has; it is not used again by mistake."),
    term("printouts", "The pages this program prints: plans, templates, steps, labels."),
    term(
        "round of cuts",
        "Cuts that go right across a piece before it is turned; fewer \
        rounds are quicker to cut.",
    ),
];

/// What a severity means, in few words for a legend.
pub const fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Fault => "would fail",
        Severity::Caution => "may fail",
        Severity::Note => "good to know",
    }
}

/// What `word` means, where it is one of these words.
pub fn meaning(word: &str) -> Option<&'static str> {
    let of = |terms: &'static [Term]| terms.iter().find(|term| term.word == word);
    of(MAT).or_else(|| of(BEHIND)).or_else(|| of(EDITIONS)).map(|term| term.meaning)
}

#[cfg(test)]
mod tests {
    use super::{BEHIND, EDITIONS, MAT, meaning};

    #[test]
    fn each_word_is_explained_once_in_one_sentence() {
        let all: Vec<_> = [MAT, BEHIND, EDITIONS].concat();
        for (n, term) in all.iter().enumerate() {
            let found = term.meaning;
            assert!(found.ends_with('.') && !found.contains(". "), "{}: {found}", term.word);
            assert!(found.starts_with(char::is_uppercase), "{}: {found}", term.word);
            assert!(all[n + 1..].iter().all(|other| other.word != term.word), "{}", term.word);
            assert_eq!(meaning(term.word), Some(found), "{}", term.word);
        }
        assert_eq!(meaning("liner"), None, "a liner is a part of a frame");
    }
}
