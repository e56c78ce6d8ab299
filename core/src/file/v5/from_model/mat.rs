//! Model to file: a mat.

use super::super::mat::{
    Backing, Bevel, Board, BoardBy, Cut, Layer, Limits, Mat, Offset, Opening, Place, Placement,
    Planned, Shape, WindowBy,
};
use super::super::text::{Colour, Count, Degrees, Grade, Thickness};
use super::{In, decided, which};
use crate::geometry::{Point, Sides};
use crate::length::Length;
use crate::{material, spec};

impl In {
    pub(super) fn mat(self, mat: &spec::Mat) -> Mat {
        let spec::Mat {
            board_by,
            layers,
            openings,
            backing,
            exhibition,
            limits,
            notes,
            assembly,
            planned,
        } = mat;
        let spec::Backing { size, board: behind_all } = backing;
        Mat {
            board_by: self.board_by(*board_by),
            layers: layers.iter().map(|layer| self.layer(layer)).collect(),
            openings: openings.iter().map(|opening| self.opening(opening)).collect(),
            cut: openings.iter().flat_map(|opening| self.cut(opening)).collect(),
            backing: Backing {
                size: size.map(|size| self.size(size)),
                board: self.board(behind_all),
            },
            exhibition: *exhibition,
            limits: self.limits(*limits),
            notes: notes.clone(),
            assembly: decided(assembly, &spec::Assembly::default(), |assembly| {
                self.assembly(assembly)
            }),
            planned: planned.as_deref().map(|planned| self.planned(planned)),
        }
    }

    fn planned(self, planned: &spec::Planned) -> Planned {
        let spec::Planned { board_by, openings, print } = planned;
        let (print, number) = which(*print);
        Planned {
            board_by: self.board_by(*board_by),
            openings: openings.iter().map(|opening| self.opening(opening)).collect(),
            print,
            number,
        }
    }

    fn layer(self, layer: &spec::Layer) -> Layer {
        let spec::Layer { id, board, bevel: cut } = layer;
        Layer { id: Count(id.0), board: self.board(board), bevel: bevel(*cut) }
    }

    fn board(self, board: &material::Board) -> Board {
        let material::Board { id, name, colour, thickness, grade, turns, mass_gsm } = board;
        Board {
            id: id.clone(),
            name: name.clone(),
            colour: Colour(*colour),
            thickness: Thickness(self.length(*thickness)),
            grade: Grade(*grade),
            turns: *turns,
            mass_gsm: *mass_gsm,
        }
    }

    /// The layers whose window was cut.
    fn cut(self, opening: &spec::Opening) -> impl Iterator<Item = Cut> {
        opening.cut.iter().map(move |(layer, as_cut)| {
            let spec::AsCut { sight, borders } = as_cut;
            let Sides { top, right, bottom, left } = self.sides(*borders);
            let (opening, layer) = (Count(opening.id.0), Count(layer.0));
            Cut { opening, layer, sight: self.size(*sight), top, right, bottom, left }
        })
    }

    fn limits(self, limits: spec::Limits) -> Limits {
        let spec::Limits { least_border, hidden_image } = limits;
        Limits {
            least_border: least_border.map(|border| self.length(border)),
            hidden_image: hidden_image.map(|hidden| self.length(hidden)),
        }
    }

    fn board_by(self, board_by: spec::BoardBy) -> BoardBy {
        match board_by {
            spec::BoardBy::Outer { size, placement } => BoardBy::Outer {
                size: self.size(size),
                placement: match placement {
                    spec::Placement::Centred => Placement::Centred,
                    spec::Placement::BottomExtra(extra) => {
                        Placement::BottomExtra(self.length(extra))
                    }
                    spec::Placement::BottomRatio(spec::Weight { bottom, top }) => {
                        Placement::BottomRatio { bottom, top }
                    }
                    spec::Placement::Optical => Placement::Optical,
                    spec::Placement::Free { left, top } => {
                        Placement::Free { left: self.length(left), top: self.length(top) }
                    }
                },
            },
            spec::BoardBy::Borders(borders) => {
                let Sides { top, right, bottom, left } = self.sides(borders);
                BoardBy::Borders { top, right, bottom, left }
            }
        }
    }

    fn opening(self, opening: &spec::Opening) -> Opening {
        let spec::Opening {
            id,
            work,
            shape,
            place: Point { x, y },
            window_by,
            offsets,
            cut: _,
        } = opening;
        let window_by = match *window_by {
            spec::WindowBy::Reveal(reveal) => {
                let Sides { top, right, bottom, left } = self.sides(reveal);
                WindowBy::Reveal { top, right, bottom, left }
            }
            spec::WindowBy::InHand(hand) => WindowBy::InHand {
                sight: self.size(hand.sight),
                overlap_left: self.length(hand.overlap_left),
                overlap_top: self.length(hand.overlap_top),
            },
        };
        let offset = |(layer, sides): (&spec::LayerId, &Sides<Length>)| {
            let Sides { top, right, bottom, left } = self.sides(*sides);
            Offset { layer: Count(layer.0), top, right, bottom, left }
        };
        Opening {
            id: Count(id.0),
            work: Count(work.0),
            shape: match shape {
                spec::Shape::Rectangle => Shape::Rectangle,
            },
            place: Place { left: self.length(*x), top: self.length(*y) },
            window_by,
            offsets: offsets.iter().map(offset).collect(),
        }
    }
}

const fn bevel(bevel: spec::Bevel) -> Bevel {
    match bevel {
        spec::Bevel::Open(angle) => Bevel::Open(Degrees(angle)),
        spec::Bevel::Straight => Bevel::Straight,
        spec::Bevel::Reverse(angle) => Bevel::Reverse(Degrees(angle)),
    }
}
