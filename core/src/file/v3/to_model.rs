//! File to model, with what only shows when parts are held against each other.

use super::{Board, Inscribed, Layer, Print};
use crate::file::v1::to_model::Wrong;
use crate::{material, spec};

/// As many words as one line on a print holds, and as many lines. Source: our own choice.
const LONGEST: usize = 500;
const MOST_LINES: usize = 20;

impl Layer {
    pub(in crate::file) fn model(self) -> spec::Layer {
        let Self { id, board, bevel } = self;
        spec::Layer { id: spec::LayerId(id.0), board: board.model(), bevel: bevel.model() }
    }
}

impl Board {
    pub(in crate::file) fn model(self) -> material::Board {
        let Self { id, name, colour, thickness, grade, turns, mass_gsm } = self;
        material::Board {
            id,
            name,
            colour: colour.0,
            thickness: thickness.0.0,
            grade: grade.0,
            turns,
            mass_gsm,
        }
    }
}

impl Inscribed {
    pub(in crate::file) fn model(self) -> Result<spec::Inscribed, Wrong> {
        let Self { back, behind, front, left, right, stands, print } = self;
        let Print { title, maker, taken, printed, number, numerals } = print;
        if back.len() > MOST_LINES {
            return Err(Wrong::new(format!(
                "{} lines are to be written on the back: at most {MOST_LINES} are wanted",
                back.len()
            ))
            .inside("inscribed"));
        }
        let lines = back.iter().chain([&left, &right, &stands, &title, &maker]);
        if let Some(long) = lines.map(|line| line.chars().count()).find(|n| *n > LONGEST) {
            return Err(Wrong::new(format!(
                "a line of {long} characters is on no print: at most {LONGEST} are wanted"
            ))
            .inside("inscribed"));
        }
        Ok(spec::Inscribed {
            wish: spec::Wish { back, behind: behind.0, front: front.0, left, right, stands },
            recorded: spec::Recorded {
                title,
                maker,
                taken,
                printed,
                notation: number.map(|number| number.0),
                numerals: numerals.map(|numerals| numerals.0).unwrap_or_default(),
                print: None,
            },
        })
    }
}
