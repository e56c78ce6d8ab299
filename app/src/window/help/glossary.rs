//! The words of the job: a sentence and a small picture each, in the order in which one meets
//! them. Fronts are seen from the front, sections with the front at the top.

use super::picture::Part::{self, Block, Line, Shape4, Span, Text};
use super::picture::Shade::{Board, Glass, Image, Lit, Paper, Under, Wood};

/// A word of the job.
#[derive(Clone, Copy, Debug)]
pub struct Term {
    /// The word.
    pub word: &'static str,
    /// What it means, in a sentence.
    pub means: &'static str,
    /// A small picture of it.
    pub picture: &'static [Part],
}

const fn term(word: &'static str, means: &'static str, picture: &'static [Part]) -> Term {
    Term { word, means, picture }
}

/// The words.
pub const TERMS: [Term; 24] = [
    term(
        "Sheet and image",
        "The sheet is the print’s paper; the image is the printed part of it.",
        &[Block(Paper, [28.0, 6.0, 76.0, 58.0]), Block(Lit, [34.0, 12.0, 70.0, 48.0])],
    ),
    term(
        "Window",
        "The opening cut in the mat, through which the print is seen.",
        &[Block(Board, [22.0, 4.0, 82.0, 60.0]), Block(Lit, [36.0, 16.0, 68.0, 44.0])],
    ),
    term(
        "Border",
        "The board from its outer edge to the window, measured on each side.",
        &[
            Block(Board, [22.0, 4.0, 82.0, 60.0]),
            Block(Image, [38.0, 16.0, 66.0, 44.0]),
            Span((22.0, 30.0), (38.0, 30.0)),
            Span((52.0, 44.0), (52.0, 60.0)),
        ],
    ),
    term(
        "Reveal",
        "The paper that shows between the image and the window; below zero the mat covers the \
         image’s edge.",
        &[
            Block(Board, [6.0, 4.0, 98.0, 60.0]),
            Block(Lit, [28.0, 12.0, 76.0, 52.0]),
            Block(Image, [36.0, 20.0, 68.0, 44.0]),
        ],
    ),
    term(
        "Overlap",
        "How far the mat covers the edge of the sheet, so that it stays in.",
        &[
            Block(Paper, [40.0, 36.0, 100.0, 42.0]),
            Shape4(Board, [(4.0, 20.0), (72.0, 20.0), (84.0, 36.0), (4.0, 36.0)]),
            Span((40.0, 50.0), (84.0, 50.0)),
        ],
    ),
    term(
        "Bevel",
        "The sloped cut edge of the window; the core of the board shows in it.",
        &[
            Block(Paper, [4.0, 40.0, 100.0, 46.0]),
            Shape4(Board, [(4.0, 18.0), (56.0, 18.0), (78.0, 40.0), (4.0, 40.0)]),
            Line(Lit, (56.0, 18.0), (78.0, 40.0)),
        ],
    ),
    term(
        "Sight edge",
        "The inner edge of the window, where the bevel ends nearest the picture; the sight size \
         is measured from one to the other.",
        &[
            Block(Paper, [4.0, 42.0, 100.0, 48.0]),
            Shape4(Board, [(4.0, 20.0), (22.0, 20.0), (32.0, 42.0), (4.0, 42.0)]),
            Shape4(Board, [(82.0, 20.0), (100.0, 20.0), (100.0, 42.0), (72.0, 42.0)]),
            Span((32.0, 34.0), (72.0, 34.0)),
        ],
    ),
    term(
        "Ply",
        "The thickness of a board: 4-ply is about 1/16 in (1.5 mm), 8-ply twice that.",
        &[
            Block(Board, [10.0, 14.0, 80.0, 22.0]),
            Block(Board, [10.0, 36.0, 80.0, 52.0]),
            Span((90.0, 36.0), (90.0, 52.0)),
        ],
    ),
    term(
        "Undermat",
        "A second mat below the top one, of which a narrow rim shows.",
        &[
            Block(Board, [8.0, 4.0, 96.0, 60.0]),
            Block(Lit, [28.0, 14.0, 76.0, 50.0]),
            Block(Image, [34.0, 20.0, 70.0, 44.0]),
        ],
    ),
    term(
        "Offset",
        "How wide the rim of an undermat shows inside the mat above it.",
        &[
            Shape4(Board, [(4.0, 14.0), (46.0, 14.0), (54.0, 26.0), (4.0, 26.0)]),
            Shape4(Under, [(4.0, 26.0), (70.0, 26.0), (78.0, 38.0), (4.0, 38.0)]),
            Block(Paper, [4.0, 38.0, 100.0, 42.0]),
            Span((54.0, 50.0), (78.0, 50.0)),
        ],
    ),
    term(
        "Gutter",
        "The board between two windows of one mat.",
        &[
            Block(Board, [8.0, 6.0, 96.0, 58.0]),
            Block(Image, [18.0, 16.0, 44.0, 48.0]),
            Block(Image, [60.0, 16.0, 86.0, 48.0]),
            Block(Lit, [45.0, 16.0, 59.0, 48.0]),
        ],
    ),
    term(
        "Backing board",
        "The board behind the print, joined to the mat along one edge like the covers of a book.",
        &[
            Shape4(Board, [(4.0, 16.0), (70.0, 16.0), (80.0, 26.0), (4.0, 26.0)]),
            Block(Paper, [30.0, 26.0, 100.0, 30.0]),
            Block(Lit, [4.0, 31.0, 100.0, 44.0]),
        ],
    ),
    term(
        "Hinge",
        "A strip of thin Japanese paper and paste that holds the sheet to the backing board.",
        &[
            Block(Under, [10.0, 4.0, 94.0, 60.0]),
            Block(Paper, [24.0, 22.0, 80.0, 60.0]),
            Block(Lit, [32.0, 12.0, 40.0, 30.0]),
            Block(Lit, [64.0, 12.0, 72.0, 30.0]),
        ],
    ),
    term(
        "Locating hinge",
        "The hinge that fixes the place of the sheet: the paper grows and shrinks away from it.",
        &[
            Block(Under, [10.0, 4.0, 94.0, 60.0]),
            Block(Paper, [24.0, 22.0, 80.0, 60.0]),
            Block(Lit, [32.0, 14.0, 40.0, 30.0]),
            Block(Board, [64.0, 10.0, 72.0, 30.0]),
        ],
    ),
    term(
        "Yielding hinge",
        "A longer hinge with its cross-piece higher up, which lets the sheet grow and shrink \
         sideways.",
        &[
            Block(Under, [10.0, 4.0, 94.0, 60.0]),
            Block(Paper, [24.0, 26.0, 80.0, 60.0]),
            Block(Board, [32.0, 18.0, 40.0, 34.0]),
            Block(Lit, [64.0, 8.0, 72.0, 34.0]),
            Block(Lit, [58.0, 8.0, 78.0, 13.0]),
        ],
    ),
    term(
        "Drop-out",
        "The piece of board that falls from the window; a large one makes a smaller mat.",
        &[
            Block(Board, [8.0, 4.0, 64.0, 60.0]),
            Block(Image, [20.0, 14.0, 52.0, 46.0]),
            Block(Lit, [68.0, 22.0, 98.0, 54.0]),
        ],
    ),
    term(
        "Over-cut",
        "The hair’s breadth that the knife goes past a corner, so that the drop-out falls free.",
        &[
            Block(Board, [8.0, 4.0, 96.0, 60.0]),
            Block(Image, [36.0, 26.0, 96.0, 60.0]),
            Line(Lit, (36.0, 12.0), (36.0, 26.0)),
            Line(Lit, (22.0, 26.0), (36.0, 26.0)),
        ],
    ),
    term(
        "Board sheet",
        "The whole board as it is bought, from which mats and backing boards are cut.",
        &[
            Block(Lit, [8.0, 6.0, 96.0, 58.0]),
            Block(Board, [11.0, 9.0, 50.0, 55.0]),
            Block(Board, [52.0, 9.0, 93.0, 34.0]),
        ],
    ),
    term(
        "Offcut",
        "What is left of a board sheet and is large enough to keep.",
        &[
            Block(Board, [8.0, 6.0, 96.0, 58.0]),
            Block(Under, [10.0, 8.0, 58.0, 56.0]),
            Block(Lit, [60.0, 8.0, 94.0, 56.0]),
        ],
    ),
    term(
        "Package",
        "Glazing, mat, print, backing board and filler, put into the frame together.",
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
        "Rabbet",
        "The recess at the back of the frame that holds the package: its size is the frame’s \
         inside size, its depth must hold all layers.",
        &[
            Block(Wood, [8.0, 8.0, 30.0, 56.0]),
            Block(Wood, [30.0, 8.0, 44.0, 18.0]),
            Block(Lit, [31.0, 19.0, 96.0, 56.0]),
        ],
    ),
    term(
        "Lip",
        "The front edge of the frame, which covers the edge of the package.",
        &[
            Block(Wood, [8.0, 8.0, 30.0, 56.0]),
            Block(Lit, [30.0, 8.0, 44.0, 18.0]),
            Block(Glass, [32.0, 19.0, 96.0, 25.0]),
            Block(Board, [32.0, 26.0, 96.0, 32.0]),
        ],
    ),
    term(
        "Allowance",
        "How much smaller the package is than the rabbet, both sides together, so that it goes \
         in and can move.",
        &[
            Block(Wood, [8.0, 8.0, 26.0, 56.0]),
            Block(Wood, [26.0, 8.0, 40.0, 18.0]),
            Block(Board, [38.0, 20.0, 98.0, 34.0]),
            Span((26.0, 44.0), (38.0, 44.0)),
        ],
    ),
    term(
        "Edition",
        "The numbered prints of one work in one size: 3/25 is the third of twenty-five.",
        &[
            Block(Paper, [18.0, 10.0, 66.0, 58.0]),
            Block(Paper, [26.0, 6.0, 74.0, 54.0]),
            Block(Image, [34.0, 12.0, 66.0, 38.0]),
            Text((50.0, 46.0), "3/25"),
        ],
    ),
];
