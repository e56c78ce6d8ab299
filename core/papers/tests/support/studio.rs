//! Papers of a studio: invented prints in every kind of paper.

use sightedge_core::catalogue::{Order, dimensions};
use sightedge_core::date::Date;
use sightedge_core::length::Length;
use sightedge_papers::{Archive, Grid, LaidOut, Paper, Piece, StudioPaper, lay_out_studio};

pub(crate) fn piece(number: u32) -> Piece {
    let parts = [Length::inches(15, 0, 1), Length::inches(11, 0, 1)];
    Piece {
        catalogue: format!("W{number:04}"),
        title: "Slack water".to_owned(),
        maker: "Ada Brook".to_owned(),
        year: "2021".to_owned(),
        medium: "pigment print".to_owned(),
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
    lay_out_studio(kind, pieces, Paper::A4, date, archive).unwrap()
}

#[track_caller]
pub(crate) fn studio_paper(kind: &StudioPaper, count: u32, archive: Archive) -> LaidOut {
    let pieces: Vec<Piece> = (1..=count).map(piece).collect();
    set(kind, &pieces, archive)
}
