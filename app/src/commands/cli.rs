//! What can be typed behind `sightedge`, and the reading of it.

use std::any::TypeId;
use std::ffi::{OsStr, OsString};
use std::path::{Path, PathBuf};

use clap::builder::{OsStringValueParser, TypedValueParser};
use clap::{ArgAction, CommandFactory, FromArgMatches, Parser, Subcommand};

use super::outcome::CliError;
use super::values::Read;
use super::{
    as_cut, check, cut, edition, figures, hinges, new, package, picture, preview, printouts,
    refusal, steps, values,
};

/// Plan, judge and draw the mat around a print
#[derive(Debug, Parser)]
#[command(
    name = "sightedge",
    bin_name = "sightedge",
    version,
    no_binary_name = true,
    args_conflicts_with_subcommands = true,
    after_help = "\
Each command has its own help, as in: sightedge new --help

A plan is saved beside its picture, as in print.jpg.sightedge.ron; for PLAN you can give the
picture. --mat NAME chooses among the mats of a plan. Several plans, or a FOLDER of plans, can be
given to check, figures, hinges, package, steps, printouts and cut: one that fails is named and
the others go on.

Lengths: 13 1/2, 13-1/2in, .060in, 343mm, 34.3cm, 1' 2\", 16 - 2*1/8. A number without a unit is in
the plan's; in a new plan, in the first unit you type, or else in inches.
W is width, H is height.

Exit codes: 0 done, 1 a check found a Caution, 2 a Fault, 3 something could not be read or does
not exist, 4 the command is not understood or refused, 5 something could not be written, 6 only
part was done."
)]
pub(super) struct Cli {
    #[command(subcommand)]
    pub(super) command: Option<Command>,
    /// Files to open in the window; all else here works without one
    #[arg(value_name = "PICTURE|PLAN")]
    pub(super) files: Vec<PathBuf>,
    /// Print the licences of all that is inside the program
    #[arg(long)]
    pub(super) licences: bool,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    New(Box<new::New>),
    Figures(figures::Figures),
    Check(check::Check),
    Hinges(hinges::Hinges),
    Package(package::Package),
    Steps(steps::Steps),
    AsCut(as_cut::AsCut),
    Picture(picture::Picture),
    #[command(alias = "papers")]
    Printouts(printouts::Printouts),
    Preview(preview::Preview),
    Cut(cut::Cut),
    Edition(edition::Editions),
}

/// What the program is to do.
#[derive(Debug)]
pub(super) enum Asked {
    /// A command, or files to open in the window.
    Run(Box<Cli>),
    /// Help or the version.
    Show(String),
}

/// All that can be typed: commands, options and their help.
pub fn command() -> clap::Command {
    let mut command = alike(Cli::command());
    // Names all commands in full, for their refusals.
    command.build();
    command
}

/// What is the same for all options.
fn alike(command: clap::Command) -> clap::Command {
    let of_arg = |mut arg: clap::Arg| {
        if matches!(arg.get_action(), ArgAction::SetTrue) {
            let id = arg.get_id().clone();
            return arg.overrides_with(id);
        }
        let of = arg.get_value_parser().type_id();
        if of == TypeId::of::<String>() {
            arg = arg.value_parser(Read(values::text));
        } else if of == TypeId::of::<PathBuf>() {
            // An empty name is refused as any other that is no file.
            arg = arg.value_parser(OsStringValueParser::new().map(PathBuf::from));
        }
        // A value may begin with a minus, as in --reveal -1/8.
        if arg.is_positional() { arg } else { arg.allow_hyphen_values(true) }
    };
    command.mut_args(of_arg).mut_subcommands(alike)
}

/// Reads `arguments`, the program's own name left out.
pub(super) fn read(arguments: &[OsString]) -> Result<Asked, CliError> {
    let mut command = command();
    let read = command.try_get_matches_from_mut(arguments);
    let read = read.and_then(|matches| Cli::from_arg_matches(&matches));
    match read {
        Ok(cli) => match cli.files.iter().find(|file| !file.is_file()) {
            Some(odd) => Err(neither(odd.as_os_str(), &command)),
            None => Ok(Asked::Run(Box::new(cli))),
        },
        Err(error) if !error.use_stderr() => Ok(Asked::Show(error.render().to_string())),
        Err(error) => Err(refused(&error, arguments, &command)),
    }
}

fn refused<'a>(
    error: &clap::Error,
    arguments: &[OsString],
    command: &'a clap::Command,
) -> CliError {
    let (first, rest) =
        arguments.split_first().map_or((None, arguments), |(a, b)| (Some(a), b));
    match first.and_then(|first| command.find_subcommand(first)) {
        Some(help) if help.get_name() == "help" => {
            neither(rest.last().map(OsString::as_os_str).unwrap_or_default(), command)
        }
        Some(typed) => {
            let below =
                |typed: &'a clap::Command, word| typed.find_subcommand(word).unwrap_or(typed);
            refusal::in_words(error, rest.iter().fold(typed, below))
        }
        // Without a command, all words are files.
        None => {
            let odd = arguments.iter().find(|argument| !Path::new(argument).is_file());
            neither(odd.map(OsString::as_os_str).unwrap_or_default(), command)
        }
    }
}

/// That `word` is nothing to open and nothing to do.
fn neither(word: &OsStr, command: &clap::Command) -> CliError {
    let alone = Command::augment_subcommands(clap::Command::new("sightedge"));
    let unknown = alone.no_binary_name(true).try_get_matches_from([word]).err();
    CliError::usage(format!(
        "\"{}\" is neither a file nor a command: {}, or see --help",
        word.display(),
        refusal::one_of(command, unknown.as_ref().and_then(refusal::nearest))
    ))
}

#[cfg(test)]
mod tests {
    use super::command;

    /// Every command and all that can be given to it is explained, once.
    #[test]
    fn everything_has_its_help() {
        fn explained(command: &clap::Command) {
            let typed = command.get_bin_name().unwrap_or_default();
            assert!(command.get_about().is_some(), "{typed} is not explained");
            for arg in command.get_arguments() {
                let help = arg.get_help().map(ToString::to_string).unwrap_or_default();
                assert!(!help.is_empty(), "{typed} {arg} is not explained");
                assert!(arg.get_long_help().is_none(), "{typed} {arg} has two texts");
            }
            let below = command.get_subcommands().filter(|below| below.get_name() != "help");
            below.for_each(explained);
        }
        let command = command();
        command.clone().debug_assert();
        explained(&command);
    }
}
