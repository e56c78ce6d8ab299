//! Small pictures for the words of the job, in the order in which one meets them; the sentences
//! are core's. Fronts are seen from the front, sections with the front at the top.

use sightedge_core::glossary;

use super::picture::Part::{self, Block, Line, Shape4, Span, Text};
use super::picture::Shade::{Board, Glass, Image, Lit, Paper, Under, Wood};

/// A word of the job.
#[derive(Clone, Copy, Debug)]
pub struct Term {
    /// As core's glossary has it.
    word: &'static str,
    /// A small picture of it.
    pub picture: &'static [Part],
}

impl Term {
    /// The word as a title.
    pub fn title(self) -> String {
        let mut letters = self.word.chars();
        letters
            .next()
            .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    }

    /// What it means, in a sentence.
    pub fn means(self) -> &'static str {
        glossary::meaning(self.word).unwrap_or_default()
    }
}

const fn term(word: &'static str, picture: &'static [Part]) -> Term {
    Term { word, picture }
}

/// The words that have a picture.
pub const TERMS: [Term; 25] = [
    term(
        "sheet",
        &[Block(Lit, [28.0, 6.0, 76.0, 58.0]), Block(Image, [34.0, 12.0, 70.0, 48.0])],
    ),
    term(
        "image",
        &[Block(Paper, [28.0, 6.0, 76.0, 58.0]), Block(Lit, [34.0, 12.0, 70.0, 48.0])],
    ),
    term(
        "window",
        &[Block(Board, [22.0, 4.0, 82.0, 60.0]), Block(Lit, [36.0, 16.0, 68.0, 44.0])],
    ),
    term(
        "border",
        &[
            Block(Board, [22.0, 4.0, 82.0, 60.0]),
            Block(Image, [38.0, 16.0, 66.0, 44.0]),
            Span((22.0, 30.0), (38.0, 30.0)),
            Span((52.0, 44.0), (52.0, 60.0)),
        ],
    ),
    term(
        "reveal",
        &[
            Block(Board, [6.0, 4.0, 98.0, 60.0]),
            Block(Lit, [28.0, 12.0, 76.0, 52.0]),
            Block(Image, [36.0, 20.0, 68.0, 44.0]),
        ],
    ),
    term(
        "overlap",
        &[
            Block(Paper, [40.0, 36.0, 100.0, 42.0]),
            Shape4(Board, [(4.0, 20.0), (72.0, 20.0), (84.0, 36.0), (4.0, 36.0)]),
            Span((40.0, 50.0), (84.0, 50.0)),
        ],
    ),
    term(
        "bevel",
        &[
            Block(Paper, [4.0, 40.0, 100.0, 46.0]),
            Shape4(Board, [(4.0, 18.0), (56.0, 18.0), (78.0, 40.0), (4.0, 40.0)]),
            Line(Lit, (56.0, 18.0), (78.0, 40.0)),
        ],
    ),
    term(
        "sight edge",
        &[
            Block(Paper, [4.0, 42.0, 100.0, 48.0]),
            Shape4(Board, [(4.0, 20.0), (22.0, 20.0), (32.0, 42.0), (4.0, 42.0)]),
            Shape4(Board, [(82.0, 20.0), (100.0, 20.0), (100.0, 42.0), (72.0, 42.0)]),
            Span((32.0, 34.0), (72.0, 34.0)),
        ],
    ),
    term(
        "ply",
        &[
            Block(Board, [10.0, 14.0, 80.0, 22.0]),
            Block(Board, [10.0, 36.0, 80.0, 52.0]),
            Span((90.0, 36.0), (90.0, 52.0)),
        ],
    ),
    term(
        "undermat",
        &[
            Block(Board, [8.0, 4.0, 96.0, 60.0]),
            Block(Lit, [28.0, 14.0, 76.0, 50.0]),
            Block(Image, [34.0, 20.0, 70.0, 44.0]),
        ],
    ),
    term(
        "offset",
        &[
            Shape4(Board, [(4.0, 14.0), (46.0, 14.0), (54.0, 26.0), (4.0, 26.0)]),
            Shape4(Under, [(4.0, 26.0), (70.0, 26.0), (78.0, 38.0), (4.0, 38.0)]),
            Block(Paper, [4.0, 38.0, 100.0, 42.0]),
            Span((54.0, 50.0), (78.0, 50.0)),
        ],
    ),
    term(
        "gutter",
        &[
            Block(Board, [8.0, 6.0, 96.0, 58.0]),
            Block(Image, [18.0, 16.0, 44.0, 48.0]),
            Block(Image, [60.0, 16.0, 86.0, 48.0]),
            Block(Lit, [45.0, 16.0, 59.0, 48.0]),
        ],
    ),
    term(
        "backing",
        &[
            Shape4(Board, [(4.0, 16.0), (70.0, 16.0), (80.0, 26.0), (4.0, 26.0)]),
            Block(Paper, [30.0, 26.0, 100.0, 30.0]),
            Block(Lit, [4.0, 31.0, 100.0, 44.0]),
        ],
    ),
    term(
        "hinge",
        &[
            Block(Under, [10.0, 4.0, 94.0, 60.0]),
            Block(Paper, [24.0, 22.0, 80.0, 60.0]),
            Block(Lit, [32.0, 12.0, 40.0, 30.0]),
            Block(Lit, [64.0, 12.0, 72.0, 30.0]),
        ],
    ),
    term(
        "locating hinge",
        &[
            Block(Under, [10.0, 4.0, 94.0, 60.0]),
            Block(Paper, [24.0, 22.0, 80.0, 60.0]),
            Block(Lit, [32.0, 14.0, 40.0, 30.0]),
            Block(Board, [64.0, 10.0, 72.0, 30.0]),
        ],
    ),
    term(
        "loose hinge",
        &[
            Block(Under, [10.0, 4.0, 94.0, 60.0]),
            Block(Paper, [24.0, 26.0, 80.0, 60.0]),
            Block(Board, [32.0, 18.0, 40.0, 34.0]),
            Block(Lit, [64.0, 8.0, 72.0, 34.0]),
            Block(Lit, [58.0, 8.0, 78.0, 13.0]),
        ],
    ),
    term(
        "drop-out",
        &[
            Block(Board, [8.0, 4.0, 64.0, 60.0]),
            Block(Image, [20.0, 14.0, 52.0, 46.0]),
            Block(Lit, [68.0, 22.0, 98.0, 54.0]),
        ],
    ),
    term(
        "over-cut",
        &[
            Block(Board, [8.0, 4.0, 96.0, 60.0]),
            Block(Image, [36.0, 26.0, 96.0, 60.0]),
            Line(Lit, (36.0, 12.0), (36.0, 26.0)),
            Line(Lit, (22.0, 26.0), (36.0, 26.0)),
        ],
    ),
    term(
        "board sheet",
        &[
            Block(Lit, [8.0, 6.0, 96.0, 58.0]),
            Block(Board, [11.0, 9.0, 50.0, 55.0]),
            Block(Board, [52.0, 9.0, 93.0, 34.0]),
        ],
    ),
    term(
        "offcut",
        &[
            Block(Board, [8.0, 6.0, 96.0, 58.0]),
            Block(Under, [10.0, 8.0, 58.0, 56.0]),
            Block(Lit, [60.0, 8.0, 94.0, 56.0]),
        ],
    ),
    term(
        "package",
        &[
            Block(Glass, [16.0, 12.0, 88.0, 18.0]),
            Block(Board, [16.0, 19.0, 88.0, 25.0]),
            Block(Paper, [16.0, 26.0, 88.0, 28.0]),
            Block(Under, [16.0, 29.0, 88.0, 36.0]),
            Block(Under, [16.0, 37.0, 88.0, 50.0]),
            Span((96.0, 12.0), (96.0, 50.0)),
        ],
    ),
    term(
        "rabbet",
        &[
            Block(Wood, [8.0, 8.0, 30.0, 56.0]),
            Block(Wood, [30.0, 8.0, 44.0, 18.0]),
            Block(Lit, [31.0, 19.0, 96.0, 56.0]),
        ],
    ),
    term(
        "lip",
        &[
            Block(Wood, [8.0, 8.0, 30.0, 56.0]),
            Block(Lit, [30.0, 8.0, 44.0, 18.0]),
            Block(Glass, [32.0, 19.0, 96.0, 25.0]),
            Block(Board, [32.0, 26.0, 96.0, 32.0]),
        ],
    ),
    term(
        "allowance",
        &[
            Block(Wood, [8.0, 8.0, 26.0, 56.0]),
            Block(Wood, [26.0, 8.0, 40.0, 18.0]),
            Block(Board, [38.0, 20.0, 98.0, 34.0]),
            Span((26.0, 44.0), (38.0, 44.0)),
        ],
    ),
    term(
        "edition",
        &[
            Block(Paper, [18.0, 10.0, 66.0, 58.0]),
            Block(Paper, [26.0, 6.0, 74.0, 54.0]),
            Block(Image, [34.0, 12.0, 66.0, 38.0]),
            Text((50.0, 46.0), "3/25"),
        ],
    ),
];

#[cfg(test)]
mod tests {
    use super::TERMS;

    #[test]
    fn each_word_is_in_the_glossary() {
        for term in TERMS {
            assert_ne!(term.means(), "", "{}", term.title());
        }
    }
}
