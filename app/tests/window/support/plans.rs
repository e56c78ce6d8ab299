//! Plans beside pictures of their own, in a folder that goes with the test.

use std::path::{Path, PathBuf};

use sightedge_core::file::store::Overwrite;
use sightedge_core::geometry::{Point, Rect, Sides, Size};
use sightedge_core::length::{Length, Unit, parse, parse_list, parse_pair};
use sightedge_core::material::Tables;
use sightedge_core::spec::{
    Bevel, BoardBy, Document, InHand, Layer, LayerId, Placement, Start, WindowBy, usual_board,
};
use sightedge_pictures::Preview;
use sightedge_service::files::{self, plan_of};
use sightedge_service::picture_facts::{self, plan_id};

/// A folder with pictures and plans.
pub(crate) struct Plans(tempfile::TempDir);

/// A length in inches.
#[track_caller]
pub(crate) fn inches(text: &str) -> Length {
    parse(text, Unit::Inch).unwrap()
}

/// A size in inches.
#[track_caller]
pub(crate) fn size(text: &str) -> Size {
    let (width, height) = parse_pair(text, Unit::Inch).unwrap();
    Size::new(width, height)
}

/// Four sides in inches.
#[track_caller]
pub(crate) fn sides(text: &str) -> Sides<Length> {
    let sides = parse_list(text, Unit::Inch).unwrap();
    let [top, right, bottom, left] = sides.as_slice() else { panic!("{text}: four sides") };
    Sides::new(*top, *right, *bottom, *left)
}

impl Plans {
    pub(crate) fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub(crate) fn folder(&self) -> &Path {
        self.0.path()
    }

    /// A picture without a stated resolution, 1100 × 1500 pixels of soft bands.
    pub(crate) fn picture(&self, name: &str) -> PathBuf {
        let path = self.0.path().join(name);
        let (width, height) = (1100_u32, 1500_u32);
        let mut rgba = Vec::new();
        for y in 0..height {
            for x in 0..width {
                let part = |value: u32| u8::try_from(value.min(255)).unwrap();
                let wave = (x / 4 + y / 7) % 160;
                rgba.extend([part(60 + wave), part(70 + y / 10), part(200 - wave), 255]);
            }
        }
        let size = sightedge_pictures::Size::new(width, height);
        let picture = Preview { size, rgba, picture: size, findings: Vec::new() };
        files::write_picture(&path, &picture).unwrap();
        path
    }

    /// A saved plan for a picture of its own.
    pub(crate) fn plan(&self, name: &str, decide: impl FnOnce(&mut Document)) -> PathBuf {
        let picture = self.picture(name);
        let plan = plan_of(&picture);
        let facts = picture_facts::facts(&picture).unwrap();
        let sheet = size("13x19");
        let start = Start {
            id: plan_id(&facts.sha256, &plan),
            unit: Unit::Inch,
            picture: facts.picture(&picture, &plan).unwrap(),
            sheet,
            image: Rect::new(Point::new(inches("1"), inches("1 1/2")), size("11x15")),
        };
        let mut document = start.plan(Tables::shipped());
        document.variants[0].mat.openings[0].window_by =
            WindowBy::Reveal(sides("1/4,1/4,3/8,1/4"));
        decide(&mut document);
        files::save(&plan, &document, Overwrite::Nothing).unwrap();
        plan
    }

    /// The reference piece: two layers, the borders given.
    pub(crate) fn reference(&self) -> PathBuf {
        self.plan("slack-water.png", |document| {
            let mat = &mut document.variants[0].mat;
            mat.board_by = BoardBy::Borders(sides("4 1/2,4 5/16,5 1/2,3 13/16"));
            mat.layers.push(Layer {
                id: LayerId(2),
                board: usual_board(Unit::Inch, Tables::shipped()),
                bevel: Bevel::default(),
            });
            mat.openings[0].offsets.insert(LayerId(2), Sides::all(inches("3/16")));
        })
    }

    /// One layer on a board of 20 × 26 in, the window placed so.
    pub(crate) fn single(&self, placement: Placement) -> PathBuf {
        self.plan("long-ebb.png", |document| {
            let board_by = BoardBy::Outer { size: size("20x26"), placement };
            document.variants[0].mat.board_by = board_by;
        })
    }

    /// A window in hand of 10 × 14 in, the sheet under it by 1 in at the left and at the top.
    pub(crate) fn in_hand(&self) -> PathBuf {
        self.plan("mooring.png", |document| {
            let mat = &mut document.variants[0].mat;
            let left = inches("5");
            let placement = Placement::Free { left, top: left };
            mat.board_by = BoardBy::Outer { size: size("20x26"), placement };
            // It hides as much of the image as the person allows.
            mat.limits.hidden_image = Some(inches("1"));
            mat.openings[0].window_by = WindowBy::InHand(InHand {
                sight: size("10x14"),
                overlap_left: inches("1"),
                overlap_top: inches("1"),
            });
        })
    }
}
