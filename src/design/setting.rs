//! A value with where it came from.

use std::fmt;

/// Where a value came from.
#[derive(Clone, Debug, PartialEq)]
pub enum Source {
    /// The design file.
    File {
        /// Name of the file as the user gave it.
        file: String,
        /// Line, counted from 1.
        line: usize,
        /// Column in characters, counted from 1.
        column: usize,
    },
    /// The user's own file of what is on their shelf.
    Shelf {
        /// Name of the file as the design gives it.
        file: String,
        /// Line, counted from 1.
        line: usize,
        /// Column in characters, counted from 1.
        column: usize,
    },
    /// An override on the command line.
    Override {
        /// The option as typed, for example `piston.stroke=28 mm`.
        text: String,
    },
    /// The search found it for a target.
    Solved {
        /// What was to be met, for example `5 W at 300 rpm`.
        target: String,
        /// How far the engine is over it, in the target's unit; negative where it falls short.
        residual: f64,
    },
    /// Nobody gave it.
    Default {
        /// Why this value.
        why: &'static str,
    },
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::File { file, line, column } => write!(f, "given in {file}:{line}:{column}"),
            Self::Shelf { file, line, column } => {
                write!(f, "given in your shelf file {file}:{line}:{column}")
            }
            Self::Override { text } => write!(f, "given by --set {text}"),
            Self::Solved { target, residual } => write!(f, "solved for {target}, off by {residual}"),
            Self::Default { why } => write!(f, "default: {why}"),
        }
    }
}

/// A value of the design with where it came from.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting<T> {
    /// The value, in the unit that the field's name says.
    pub value: T,
    /// Where it came from.
    pub from: Source,
}

impl<T> Setting<T> {
    /// Whether the user gave it, in the file or on the command line.
    pub fn is_given(&self) -> bool {
        !matches!(self.from, Source::Default { .. } | Source::Solved { .. })
    }
}
