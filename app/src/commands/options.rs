//! Reading a verb's arguments: names with values, bare words in between.
//!
//! A value may start with a minus (`--reveal -1/8`), so every option that takes a value takes
//! the next argument whatever it looks like.

use std::ffi::{OsStr, OsString};
use std::path::PathBuf;

use super::outcome::CliError;

/// What a verb was given.
#[derive(Debug, Default)]
pub(super) struct Options {
    words: Vec<OsString>,
    values: Vec<(&'static str, OsString)>,
    flags: Vec<&'static str>,
    help: bool,
}

/// The options a verb knows, without their dashes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Known {
    pub(super) verb: &'static str,
    /// Those that take a value.
    pub(super) values: &'static [&'static str],
    /// Those that stand alone.
    pub(super) flags: &'static [&'static str],
}

impl Options {
    /// Reads `arguments` as those of a verb that knows `known`.
    pub(super) fn read(known: Known, arguments: &[OsString]) -> Result<Self, CliError> {
        let mut options = Self::default();
        let mut parser = lexopt::Parser::from_args(arguments.iter().cloned());
        let see = |why: String| {
            CliError::usage(format!("{why}; see sightedge {} --help", known.verb))
        };
        loop {
            let argument = parser.next().map_err(|error| see(error.to_string()))?;
            let Some(argument) = argument else { break };
            match argument {
                lexopt::Arg::Value(word) => options.words.push(word),
                lexopt::Arg::Short('h') | lexopt::Arg::Long("help") => options.help = true,
                lexopt::Arg::Short(letter) => {
                    return Err(see(format!("there is no option -{letter}")));
                }
                lexopt::Arg::Long(name) => {
                    if let Some(name) = known.flags.iter().find(|known| **known == name) {
                        if !options.flags.contains(name) {
                            options.flags.push(name);
                        }
                    } else if let Some(name) = known.values.iter().find(|known| **known == name)
                    {
                        if options.has(name) {
                            return Err(see(format!("--{name} is given twice")));
                        }
                        let value = parser
                            .value()
                            .map_err(|_| see(format!("--{name} wants a value behind it")))?;
                        options.values.push((name, value));
                    } else {
                        return Err(see(format!("there is no option --{name}")));
                    }
                }
            }
        }
        Ok(options)
    }

    pub(super) fn wants_help(&self) -> bool {
        self.help
    }

    pub(super) fn has(&self, name: &str) -> bool {
        self.flags.contains(&name) || self.values.iter().any(|(given, _)| *given == name)
    }

    /// The value of `name` as text.
    pub(super) fn text(&self, name: &str) -> Result<Option<&str>, CliError> {
        self.raw(name)
            .map(|value| {
                value.to_str().ok_or_else(|| {
                    CliError::usage(format!("the value of --{name} is no text: type it again"))
                })
            })
            .transpose()
    }

    pub(super) fn path(&self, name: &str) -> Option<PathBuf> {
        self.raw(name).map(PathBuf::from)
    }

    fn raw(&self, name: &str) -> Option<&OsStr> {
        let found = self.values.iter().find(|(given, _)| *given == name);
        found.map(|(_, value)| value.as_os_str())
    }

    /// All values that are text, in the order they were typed.
    pub(super) fn texts(&self) -> impl Iterator<Item = (&'static str, &str)> {
        self.values.iter().filter_map(|(name, value)| Some((*name, value.to_str()?)))
    }

    pub(super) fn words(&self) -> &[OsString] {
        &self.words
    }

    /// Refuses `names` where more than one of them is given.
    pub(super) fn one_of(&self, names: &[&str]) -> Result<(), CliError> {
        let given: Vec<_> = names.iter().filter(|name| self.has(name)).collect();
        match given.as_slice() {
            [first, second, ..] => Err(CliError::usage(format!(
                "--{first} and --{second} contradict each other: give one of them"
            ))),
            _ => Ok(()),
        }
    }

    /// Refuses `name` where `other` is missing.
    pub(super) fn needs(&self, name: &str, other: &str) -> Result<(), CliError> {
        if self.has(name) && !self.has(other) {
            return Err(CliError::usage(format!("--{name} needs --{other} beside it")));
        }
        Ok(())
    }
}
