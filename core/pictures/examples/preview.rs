//! `preview PICTURE --out FILE.png|.ppm [--size N]`: the pipeline as one process, for the bench.
#![allow(clippy::print_stderr, reason = "a command-line program speaks on its error stream")]

use std::path::Path;
use std::process::ExitCode;

use sightedge_pictures::{CancelToken, Limits, PictureError, Target, WriteForm, preview};

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let value = |name: &str| {
        args.iter().position(|a| a == name).and_then(|at| args.get(at + 1)).cloned()
    };
    let (Some(picture), Some(out)) = (args.first(), value("--out")) else {
        eprintln!("usage: preview PICTURE --out FILE.png|.ppm [--size N]");
        return ExitCode::from(2);
    };
    let side = value("--size").and_then(|v| v.parse().ok()).unwrap_or(2048);
    match make(Path::new(picture), Path::new(&out), side) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn make(picture: &Path, out: &Path, side: u32) -> Result<(), PictureError> {
    let target = Target::Longest(side);
    let made = preview(picture, target, &Limits::default(), &CancelToken::default())?;
    for finding in &made.findings {
        eprintln!("{}", finding.message());
    }
    let unwritable = |reason: String| PictureError::Unwritable { path: out.into(), reason };
    let form = WriteForm::from_path(out).ok_or_else(|| unwritable("no .png or .ppm".into()))?;
    let written = std::fs::File::create(out).and_then(|mut file| form.write(&made, &mut file));
    written.map_err(|error| unwritable(error.to_string()))
}
