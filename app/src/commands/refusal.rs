//! What is wrong with a command line, in this program's words.

use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Arg, Command};

use super::outcome::CliError;

/// A value that is refused in `words`, which name its option.
pub(super) fn of_value(words: &str) -> clap::Error {
    let mut error = clap::Error::new(ErrorKind::ValueValidation);
    error.insert(ContextKind::Custom, ContextValue::String(words.to_owned()));
    error
}

/// One option that has a meaning only beside another.
pub(super) fn needs(option: &str, other: &str) -> CliError {
    CliError::usage(format!("--{option} needs --{other} too"))
}

/// What `error` says of a command line that is one of `command`, the program's or one below it.
pub(super) fn in_words(error: &clap::Error, command: &Command) -> CliError {
    let typed = command.get_bin_name().unwrap_or_else(|| command.get_name());
    let see = |what: String| CliError::usage(format!("{what}; see {typed} --help"));
    let arg = first(error, ContextKind::InvalidArg);
    let name = bare(arg);
    match error.kind() {
        ErrorKind::ValueValidation => CliError::usage(first(error, ContextKind::Custom)),
        ErrorKind::UnknownArgument if name.starts_with('-') => {
            match first(error, ContextKind::SuggestedArg) {
                "" => see(format!("there is no option {name}")),
                near => CliError::usage(format!(
                    "there is no option {name}: did you mean {near}? See {typed} --help"
                )),
            }
        }
        ErrorKind::InvalidSubcommand => {
            unknown_word(first(error, ContextKind::InvalidSubcommand), error, command)
        }
        ErrorKind::UnknownArgument if command.has_subcommands() => {
            unknown_word(arg, error, command)
        }
        ErrorKind::UnknownArgument => one_too_many(arg, command),
        ErrorKind::MissingSubcommand => see(one_of(command, None)),
        ErrorKind::MissingRequiredArgument => missing(error, command),
        ErrorKind::InvalidValue => see(format!("{name} needs a value after it")),
        ErrorKind::TooManyValues => see(format!(
            "{name} takes no value, so remove \"{}\"",
            first(error, ContextKind::InvalidValue)
        )),
        ErrorKind::ArgumentConflict => match first(error, ContextKind::PriorArg) {
            other if other == arg => see(format!("{name} is given twice")),
            other => CliError::usage(format!(
                "{name} and {} cannot be used together: give one of them",
                bare(other)
            )),
        },
        _ => {
            let words = error.render().to_string();
            let line = words.lines().next().unwrap_or_default();
            see(line.trim_start_matches("error: ").to_owned())
        }
    }
}

/// The names of the commands below `command`, one of which is missing, and the one that may be
/// meant.
pub(super) fn one_of(command: &Command, near: Option<&str>) -> String {
    let names = command.get_subcommands().map(Command::get_name);
    let names: Vec<_> = names.filter(|name| *name != "help").collect();
    let names = names.join(", ");
    match near {
        None => format!("use one of {names}"),
        Some(near) => format!("did you mean {near}? Use one of {names}"),
    }
}

fn unknown_word(word: &str, error: &clap::Error, command: &Command) -> CliError {
    CliError::usage(format!(
        "\"{word}\" is not a command for editions: {}",
        one_of(command, nearest(error))
    ))
}

/// The command whose name is near to the one that was typed.
pub(super) fn nearest(error: &clap::Error) -> Option<&str> {
    match error.get(ContextKind::SuggestedSubcommand)? {
        // The nearest comes last.
        ContextValue::Strings(names) => names.last().map(String::as_str),
        _ => None,
    }
}

fn one_too_many(word: &str, command: &Command) -> CliError {
    let mut words = command.get_positionals();
    CliError::usage(match (words.next(), words.next()) {
        (Some(only), None) => format!(
            "only {} is needed, so remove \"{word}\": values with spaces go in quotes, as in \
             \"13 1/2x17 5/8in\"",
            noun(only)
        ),
        _ => format!(
            "\"{word}\" is one word too many: values with spaces go in quotes; see {} --help",
            command.get_bin_name().unwrap_or_default()
        ),
    })
}

fn missing(error: &clap::Error, command: &Command) -> CliError {
    let Some(ContextValue::Strings(missing)) = error.get(ContextKind::InvalidArg) else {
        return CliError::usage(error.to_string());
    };
    let missing = |arg: &&Arg| missing.iter().any(|text| is(arg, text));
    if let Some(word) = command.get_positionals().find(missing) {
        return missing_word(word, command);
    }
    let options: Vec<&Arg> = command.get_arguments().filter(missing).collect();
    let names: Vec<String> = options
        .iter()
        .map(|option| format!("--{}", option.get_long().unwrap_or_default()))
        .collect();
    CliError::usage(match (names.as_slice(), options.as_slice()) {
        ([name], [option]) => {
            let help = option.get_help().map(ToString::to_string).unwrap_or_default();
            let words = help.split_whitespace().collect::<Vec<_>>().join(" ");
            let (begins, rest) = words.split_at(words.chars().next().map_or(0, char::len_utf8));
            format!("{name} is missing: {}{rest}", begins.to_lowercase())
        }
        (names, _) => format!(
            "{} are missing; see {} --help",
            names.join(" and "),
            command.get_bin_name().unwrap_or_default()
        ),
    })
}

fn missing_word(word: &Arg, command: &Command) -> CliError {
    let words = command.get_positionals().map(|word| {
        let name = value_name(word);
        if word.is_required_set() { name } else { format!("[{name}]") }
    });
    let words: Vec<String> = words.collect();
    let typed = command.get_bin_name().unwrap_or_default();
    CliError::usage(format!(
        "{} is missing: {typed} {}; see {typed} --help",
        noun(word),
        words.join(" ")
    ))
}

/// The name of an option or a word without its value and brackets.
fn bare(text: &str) -> &str {
    text.split(' ').next().unwrap_or_default().trim_matches(['<', '>', '[', ']', '.'])
}

/// Whether `text` is how clap writes `arg`; its brackets differ with what else was typed.
fn is(arg: &Arg, text: &str) -> bool {
    let plain = |text: &str| text.replace(['<', '>', '[', ']', '.'], "");
    plain(&arg.to_string()) == plain(text)
}

fn value_name(arg: &Arg) -> String {
    arg.get_value_names().and_then(<[_]>::first).map(ToString::to_string).unwrap_or_default()
}

/// What is typed there, as in "a plan or a folder"; what is typed to the letter is left out.
fn noun(arg: &Arg) -> String {
    let names = value_name(arg);
    let stems = names.split('|').filter_map(|name| name.split('.').next());
    let nouns = stems.filter(|name| name.starts_with(char::is_uppercase));
    let nouns: Vec<String> = nouns.map(|name| format!("a {}", name.to_lowercase())).collect();
    nouns.join(" or ")
}

/// The first text of a kind of context; empty where there is none.
fn first(error: &clap::Error, kind: ContextKind) -> &str {
    match error.get(kind) {
        Some(ContextValue::String(text)) => text,
        Some(ContextValue::Strings(texts)) => texts.first().map_or("", String::as_str),
        _ => "",
    }
}
