//! `compare A.ppm B.ppm`: mean, 99th percentile and maximum CIEDE2000 between two pictures of
//! one size, for the quality bench.
#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a command-line program speaks on its streams"
)]

use std::path::Path;
use std::process::ExitCode;

use sightedge_pictures::colour::{Lab, delta_e_2000};
use sightedge_pictures::read_ppm;

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let [a, b] = args.as_slice() else {
        eprintln!("usage: compare A.ppm B.ppm");
        return ExitCode::from(2);
    };
    let (a, b) = match (read_ppm(Path::new(a)), read_ppm(Path::new(b))) {
        (Ok(a), Ok(b)) => (a, b),
        (Err(error), _) | (_, Err(error)) => {
            eprintln!("{error}");
            return ExitCode::FAILURE;
        }
    };
    if a.size != b.size {
        eprintln!("the sizes differ: {} and {}", a.size, b.size);
        return ExitCode::FAILURE;
    }
    let lab = |p: &[u8; 4]| Lab::from_srgb([p[0], p[1], p[2]]);
    let pairs = a.rgba.as_chunks::<4>().0.iter().zip(b.rgba.as_chunks::<4>().0);
    let mut all: Vec<f64> = pairs.map(|(a, b)| delta_e_2000(lab(a), lab(b))).collect();
    all.sort_by(f64::total_cmp);
    let count = u32::try_from(all.len()).unwrap_or(u32::MAX);
    let mean = all.iter().sum::<f64>() / f64::from(count.max(1));
    let at = |share: usize| all.get((all.len().saturating_sub(1)) * share / 100);
    let (p99, max) = (at(99).copied().unwrap_or(0.0), at(100).copied().unwrap_or(0.0));
    println!("{mean:.4} {p99:.4} {max:.4}");
    ExitCode::SUCCESS
}
