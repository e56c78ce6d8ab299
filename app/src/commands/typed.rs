//! What the fields of a command do not tell of it: which options were typed, in which order.

use clap::parser::ValueSource;
use clap::{ArgMatches, Args, FromArgMatches};
use sightedge_core::length::{Unit, first_unit};

use super::lengths::Measure;

/// The options of a command as they were typed. The fields of a command take the options away
/// as they are read, so this is the first of them.
#[derive(Clone, Debug)]
pub(super) struct AsTyped {
    /// The first unit in any [`Measure`].
    pub(super) first_unit: Option<Unit>,
    options: Vec<String>,
}

impl AsTyped {
    /// What bare numbers mean.
    pub(super) fn unit(&self) -> Unit {
        self.first_unit.unwrap_or_default()
    }

    /// The first that was typed of these options, all with their dashes.
    pub(super) fn first_of(&self, options: &[String]) -> Option<&str> {
        self.options.iter().find(|typed| options.contains(typed)).map(String::as_str)
    }
}

impl Args for AsTyped {
    fn augment_args(command: clap::Command) -> clap::Command {
        command
    }

    fn augment_args_for_update(command: clap::Command) -> clap::Command {
        command
    }
}

impl FromArgMatches for AsTyped {
    fn from_arg_matches(matches: &ArgMatches) -> Result<Self, clap::Error> {
        let is_typed = |id: &&str| matches.value_source(id) == Some(ValueSource::CommandLine);
        let mut typed: Vec<&str> =
            matches.ids().map(clap::Id::as_str).filter(is_typed).collect();
        typed.sort_by_key(|id| matches.index_of(id));
        // Options of other types are no measures and fail to be read as such.
        let measure = |id: &&str| matches.try_get_one::<Measure>(id).ok().flatten();
        let first_unit = typed.iter().filter_map(measure).find_map(|one| first_unit(&one.text));
        // An option is called as its field is.
        let options = typed.iter().map(|id| format!("--{}", id.replace('_', "-"))).collect();
        Ok(Self { first_unit, options })
    }

    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), clap::Error> {
        *self = Self::from_arg_matches(matches)?;
        Ok(())
    }
}
