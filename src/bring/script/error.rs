//! Why a script is not read, and what in one that is read should be looked at.

use std::fmt;

use crate::store::Position;

/// Why a script is not read. Nothing is taken from it then.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ScriptError {
    /// The file cannot be read; what the system says.
    #[error("it cannot be read: {0}")]
    Unread(String),
    /// It is a folder, a pipe or something stranger.
    #[error("it is no file")]
    NoFile,
    /// More bytes than any script has.
    #[error("it is larger than {} MiB, so it is no script", super::source::LARGEST >> 20)]
    TooLarge,
    /// The bytes are no UTF-8, or hold what no text holds.
    #[error("{0}: this is no text in UTF-8")]
    NoText(Position),
    /// `/*` without `*/`: all that follows would be out of the script.
    #[error("{0}: this `/*` takes all the rest out of the script: expected `*/` somewhere behind it")]
    OpenBoneyard(Position),
    /// No scene heading.
    #[error(
        "there is no scene in it: expected a line such as `INT. NET LOFT - DAY` with an empty line above it"
    )]
    NoScenes,
    /// More scenes than any script has.
    #[error("{0}: more than {most} scenes, so it is no script of one film", most = super::draft::MOST_SCENES)]
    TooManyScenes(Position),
    /// Two headings with one number.
    #[error("{at}: scene {number} is in line {first} already: expected each number once")]
    SameNumber {
        /// Where the second stands.
        at: Position,
        /// The number.
        number: String,
        /// The line of the first.
        first: usize,
    },
}

impl ScriptError {
    /// Whether its words begin with a place in the file.
    pub fn is_placed(&self) -> bool {
        !matches!(self, Self::Unread(_) | Self::NoFile | Self::TooLarge | Self::NoScenes)
    }

    /// What to do about it.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::Unread(_) => "name a file that is there and may be read",
            Self::NoFile | Self::TooLarge => "name a script in Fountain, a text of some hundred kilobytes",
            Self::NoText(_) => "export it from the writing program as Fountain, or save it as UTF-8 text",
            Self::OpenBoneyard(_) => "close it, or take the `/*` out",
            Self::NoScenes => "a heading of another kind begins with a full stop: `.THE DREAM`",
            Self::TooManyScenes(_) => "bring it in in parts",
            Self::SameNumber { .. } => "give one of them a letter, such as `#12A#`",
        }
    }
}

/// What should be looked at in a script that is read all the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Warning {
    /// Where.
    pub at: Position,
    /// What is the matter, and how it was read.
    pub what: String,
}

impl Warning {
    pub(super) fn new(line: usize, column: usize, what: impl Into<String>) -> Self {
        Self { at: position(line, column), what: what.into() }
    }
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.at, self.what)
    }
}

/// A place, both counted from 1. No script that is read has more lines than fit.
pub(super) fn position(line: usize, column: usize) -> Position {
    let small = |number| u32::try_from(number).unwrap_or(u32::MAX);
    Position { line: small(line), column: small(column) }
}
