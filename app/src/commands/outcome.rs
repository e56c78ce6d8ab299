//! How a command ends: exit codes, and errors with what to do about them.

use std::process::ExitCode;

/// The exit code of a command. Of several, the highest wins.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Exit {
    /// Done; of a check: nothing above a Note.
    Done = 0,
    /// A check found a Caution.
    Caution = 1,
    /// A check found a Fault.
    Fault = 2,
    /// A plan or picture cannot be read, or what is named is not there.
    Unreadable = 3,
    /// The command is not understood, contradicts itself or is refused.
    Usage = 4,
    /// Something could not be written.
    Unwritten = 5,
    /// Some of it was done, some not.
    Partly = 6,
}

impl Exit {
    /// As a number.
    pub const fn number(self) -> u8 {
        match self {
            Self::Done => 0,
            Self::Caution => 1,
            Self::Fault => 2,
            Self::Unreadable => 3,
            Self::Usage => 4,
            Self::Unwritten => 5,
            Self::Partly => 6,
        }
    }

    /// For the process.
    pub fn code(self) -> ExitCode {
        ExitCode::from(self.number())
    }
}

/// Why a command could not go on.
#[derive(Clone, Debug)]
pub(super) struct CliError {
    pub(super) exit: Exit,
    pub(super) words: String,
}

impl CliError {
    pub(super) fn usage(words: impl Into<String>) -> Self {
        Self { exit: Exit::Usage, words: words.into() }
    }

    pub(super) fn unreadable(words: impl Into<String>) -> Self {
        Self { exit: Exit::Unreadable, words: words.into() }
    }

    pub(super) fn unwritten(words: impl Into<String>) -> Self {
        Self { exit: Exit::Unwritten, words: words.into() }
    }
}

/// Output that cannot be written, such as on a full disk behind a redirection. Who closed the
/// pipe has read enough: nothing is said of that.
impl From<std::io::Error> for CliError {
    fn from(error: std::io::Error) -> Self {
        if error.kind() == std::io::ErrorKind::BrokenPipe {
            return Self { exit: Exit::Unwritten, words: String::new() };
        }
        Self::unwritten(format!("the output could not be written: {error}"))
    }
}
