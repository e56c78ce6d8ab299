//! `sightedge preview`: a picture in its true colours at a smaller size.

use sightedge_pictures::{CancelToken, Limits, Target, preview};

use super::options::{Known, Options};
use super::outcome::CliError;
use sightedge_service::files;

use super::{Exit, Streams, Verb, help, plans};

pub(super) const VERB: Verb = Verb {
    known: Known { verb: "preview", values: &["out", "size"], flags: &[] },
    help: help::PREVIEW,
    run,
};

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let picture = options.word("a picture")?;
    let out = options.path("out").ok_or_else(|| {
        CliError::usage("--out is wanted: the file to write, as in --out small.png")
    })?;
    plans::spare(&picture, &out)?;
    let size = pixels(options, "size", 2048)?;
    let made =
        preview(&picture, Target::Longest(size), &Limits::default(), &CancelToken::default())
            .map_err(|error| CliError::unreadable(error.to_string()))?;
    for finding in &made.findings {
        writeln!(streams.err, "{}", finding.message())?;
    }
    files::write_picture(&out, &made)
        .map_err(|error| CliError::unwritten(error.to_string()))?;
    Ok(Exit::Done)
}

/// A count of pixels.
pub(super) fn pixels(options: &Options, name: &str, usual: u32) -> Result<u32, CliError> {
    let Some(text) = options.text(name)? else { return Ok(usual) };
    text.parse().ok().filter(|size| (16..=16_384).contains(size)).ok_or_else(|| {
        CliError::usage(format!("--{name} {text} is no size: 16 to 16384 pixels are wanted"))
    })
}
