//! What was said wrong of a work, its edition or one print, put right by a new entry.

mod print;
mod work;

pub(super) use work::size_line;

use super::super::options::Options;
use super::super::outcome::CliError;
use super::super::{Exit, Streams};
use super::{Asked, VERB};

/// Said of a work.
const WORK: [&str; 8] =
    ["title", "maker", "taken", "printed", "medium", "paper", "picture", "notes"];
/// Said of a size it is printed in.
const SIZE: [&str; 3] = ["image", "sheet", "format"];
/// Said of an edition.
const EDITION: [&str; 8] = ["size", "proofs", "pp", "hc", "tp", "fraction", "roman", "price"];
/// Said of one print.
const PRINT: [&str; 6] = ["to", "place", "buyer", "price", "printed", "matted"];
/// Which one, when and why.
const ALWAYS: [&str; 6] = ["studio", "in", "date", "why", "json", "variant"];

pub(super) fn correct(
    asked: &mut Asked<'_>,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    asked.at_most(3)?;
    let options = asked.options;
    match asked.rest.as_slice() {
        [] | [_] => {
            for name in given(options) {
                if PRINT.contains(&name) && !WORK.contains(&name) && !EDITION.contains(&name) {
                    return Err(CliError::usage(format!(
                        "--{name} is said of one print, and none is named: give its number \
                         behind the work, as in sightedge edition correct W0012 3/25 --{name}"
                    )));
                }
                known(name, &[&WORK, &SIZE, &EDITION])?;
            }
            work::correct(asked, streams)
        }
        [_, number, ..] => {
            for name in given(options) {
                let of_all = [&WORK[..], &SIZE, &EDITION].concat().contains(&name);
                if of_all && !PRINT.contains(&name) {
                    return Err(CliError::usage(format!(
                        "--{name} is said of the work or its edition, not of {number} alone: \
                         leave the number out"
                    )));
                }
                known(name, &[&PRINT])?;
            }
            print::correct(asked, streams)
        }
    }
}

/// The names that were given, but for those that say which, when and why.
fn given(options: &Options) -> impl Iterator<Item = &'static str> + use<'_> {
    let names = VERB.known.values.iter().chain(VERB.known.flags).copied();
    names.filter(|name| options.has(name) && !ALWAYS.contains(name))
}

fn known(name: &str, lists: &[&[&str]]) -> Result<(), CliError> {
    if lists.iter().any(|list| list.contains(&name)) {
        return Ok(());
    }
    Err(CliError::usage(format!(
        "--{name} corrects nothing: see sightedge edition correct --help for what can be put \
         right"
    )))
}

/// Names as they are typed, parted by commas.
fn names(list: &[&str]) -> String {
    list.iter().map(|name| format!("--{name}")).collect::<Vec<_>>().join(", ")
}
