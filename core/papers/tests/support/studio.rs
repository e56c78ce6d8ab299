//! Papers of a studio: invented prints in every kind of paper.

use sightedge_core::catalogue::{Order, dimensions};
use sightedge_core::date::Date;
use sightedge_core::length::Length;
use sightedge_papers::{
    Archive, Grid, House, LaidOut, Paper, Piece, StudioOrder, StudioPaper, lay_out_studio,
};

use super::root;

pub(crate) fn piece(number: u32) -> Piece {
    let parts = [Length::inches(15, 0, 1), Length::inches(11, 0, 1)];
    Piece {
        catalogue: format!("W{number:04}"),
        title: "Slack water".to_owned(),
        artist: "Ada Brook".to_owned(),
        year: "2021".to_owned(),
        taken: "2021".to_owned(),
        printed: "2026".to_owned(),
        medium: "pigment print".to_owned(),
        process: "pigment print".to_owned(),
        support: "cotton paper".to_owned(),
        sheet: dimensions(
            &[Length::inches(19, 0, 1), Length::inches(13, 0, 1)],
            Order::InchesFirst,
        ),
        size: "25 and no more".to_owned(),
        proofs: "2 AP (artist's proof), 1 BAT (bon à tirer)".to_owned(),
        others: "“Large”: 10 numbered prints".to_owned(),
        picture: Some(root().join("assets/demo/slack-water.jpg")),
        dimensions: dimensions(&parts, Order::InchesFirst),
        edition: format!("{number}/25"),
        price: "800.00 EUR".to_owned(),
        sold: number == 2,
        care: "Keep out of the sun and away from damp walls.".to_owned(),
        digest: "0".repeat(64),
    }
}

pub(crate) fn grid() -> Grid {
    Grid::centred(2, 4, [90, 60].map(Length::mm), Paper::A4).unwrap()
}

/// Every kind of paper, by a name for its file.
pub(crate) fn studio_papers() -> [(&'static str, StudioPaper); 6] {
    let hall = || "Harbour hall".to_owned();
    [
        ("labels", StudioPaper::Labels(grid())),
        ("single", StudioPaper::Single([90, 60].map(Length::mm))),
        ("certificate", StudioPaper::Certificate),
        ("wall", StudioPaper::Wall),
        ("prices", StudioPaper::Prices(hall())),
        (
            "consignment",
            StudioPaper::Consignment {
                place: hall(),
                sums: vec!["2 offered at 1600.00 EUR".to_owned()],
            },
        ),
    ]
}

#[track_caller]
pub(crate) fn set(kind: &StudioPaper, pieces: &[Piece], archive: Archive) -> LaidOut {
    let date = Date::new(2026, 3, 1).unwrap();
    let house = house();
    let order = StudioOrder { pieces, paper: Paper::A4, date, archive, house: &house };
    lay_out_studio(kind, &order).unwrap()
}

/// An invented studio, with a demo picture for its logo.
pub(crate) fn house() -> House {
    House {
        name: "Ada Brook, Prints".to_owned(),
        address: "12 Sluice Lane\nLower Weir".to_owned(),
        contact: "ada@studio.example".to_owned(),
        logo: Some(root().join("assets/demo/long-ebb.jpg")),
    }
}

#[track_caller]
pub(crate) fn studio_paper(kind: &StudioPaper, count: u32, archive: Archive) -> LaidOut {
    let pieces: Vec<Piece> = (1..=count).map(piece).collect();
    set(kind, &pieces, archive)
}
