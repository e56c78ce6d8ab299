//! How long it takes to lay out and judge a plan, beside a fixed loop that shows how fast the
//! machine is just now. Run: `cargo bench -p sightedge-core`.
#![allow(clippy::print_stdout, reason = "a bench tells its figures")]

use std::hint::black_box;
use std::time::Instant;

use sightedge_core::command::{Command, apply, next_layer};
use sightedge_core::derived::derive;
use sightedge_core::geometry::{Rect, Sides, Size};
use sightedge_core::layout::layout;
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::Tables;
use sightedge_core::spec::{
    BoardBy, Document, Layer, LayerId, Picture, Start, Variant, WindowBy,
};

const TIMES: u32 = 20_000;
const ROUNDS: usize = 9;

fn main() {
    let tables = Tables::shipped();
    let sound = plan(tables);
    let mut faulty = sound.clone();
    let id = faulty.chosen;
    if let Some(opening) = sound.chosen().and_then(|variant| variant.mat.openings.first()) {
        let thin = Sides::all(Length::inches(0, 1, 32));
        let cover = WindowBy::Reveal(Sides::all(-Length::inches(0, 1, 16)));
        for command in [
            Command::SetWindowBy(id, opening.id, cover),
            Command::SetBoardBy(id, BoardBy::Borders(Sides::all(Length::inches(0, 3, 8)))),
            Command::SetOffset(id, opening.id, LayerId(2), thin),
            Command::SetExhibition(id, true),
        ] {
            assert_eq!(apply(&mut faulty, &command), Ok(()), "{command:?}");
        }
    }

    let calibration = median(|| {
        black_box((0..1_000_u64).fold(black_box(88_172_645_463_325_252_u64), |x, _| {
            let x = x ^ (x << 13);
            let x = x ^ (x >> 7);
            x ^ (x << 17)
        }));
    });
    println!("calibration, 1000 rounds of xorshift: {calibration:.3} µs");
    for (name, document) in [("sound plan", &sound), ("plan full of faults", &faulty)] {
        let Some(variant) = document.chosen() else { continue };
        report(name, document, variant, tables, calibration);
    }
}

fn report(
    name: &str,
    document: &Document,
    variant: &Variant,
    tables: &Tables,
    calibration: f64,
) {
    let laid = median(|| drop(black_box(layout(black_box(document), &variant.mat))));
    let all = median(|| drop(black_box(derive(black_box(document), variant, tables))));
    let findings = derive(document, variant, tables).findings.len();
    println!(
        "{name} ({findings} findings): layout {laid:.2} µs, layout and rules {all:.2} µs \
         ({:.2} of the calibration; aim: under 20 µs)",
        all / calibration
    );
}

/// Microseconds for one call, the median of several rounds.
fn median(call: impl Fn()) -> f64 {
    let mut rounds: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            (0..TIMES).for_each(|_| call());
            start.elapsed().as_secs_f64() * 1e6 / f64::from(TIMES)
        })
        .collect();
    rounds.sort_by(f64::total_cmp);
    rounds.get(ROUNDS / 2).copied().unwrap_or_default()
}

/// A sheet of 13 × 19 in held by two layers.
fn plan(tables: &Tables) -> Document {
    let inches = |n| Length::inches(n, 0, 1);
    let sheet = Size::new(inches(13), inches(19));
    let picture = Picture {
        path: "slack-water.jpg".to_owned(),
        sha256: "0".repeat(64),
        width_px: 3900,
        height_px: 5700,
    };
    let image = Rect::at_origin(sheet);
    let start = Start { id: "bench".to_owned(), unit: Unit::Inch, picture, sheet, image };
    let mut document = start.plan(tables);
    let id = document.chosen;
    let above = document.chosen().and_then(|variant| variant.mat.layers.first()).cloned();
    if let Some(above) = above {
        let undermat = Layer { id: next_layer(&document), ..above };
        let add = Command::AddLayer(id, undermat, Sides::all(Length::inches(0, 3, 16)));
        assert_eq!(apply(&mut document, &add), Ok(()), "one more layer");
    }
    document
}
