//! What can be wrong with a recipe as a solid.

use super::surface::short;

/// Why a recipe cannot be made into a solid. Each would be a mistake in the workshop too.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SolidError {
    /// A number is not finite, a radius or depth is not positive, a direction is not a unit direction.
    #[error("{what}: {problem}")]
    Number {
        /// The body or the feature.
        what: String,
        /// What is wrong with which number.
        problem: String,
    },
    /// A profile, chain or outline crosses itself, runs the wrong way or does not close.
    #[error("{what}: {problem}")]
    Profile {
        /// The body or the feature.
        what: String,
        /// What is wrong with it.
        problem: String,
    },
    /// No face at the place where the feature should start or come out.
    #[error("{feature}: {problem}")]
    NoFace {
        /// The feature.
        feature: String,
        /// Which face was looked for, and what there is instead.
        problem: String,
    },
    /// The feature's outline crosses the edge of its face or another feature in it.
    #[error("{feature}: breaks out of the {face} by {} mm", short(*distance_mm))]
    BreaksOut {
        /// The feature.
        feature: String,
        /// The face in words.
        face: String,
        /// How far the outline lies outside \[mm\].
        distance_mm: f64,
    },
    /// The feature's outline leaves no metal between itself and the edge of its face.
    #[error("{feature}: leaves only {} mm of metal in the {face}", short(*web_mm))]
    ThinWeb {
        /// The feature.
        feature: String,
        /// The face in words.
        face: String,
        /// What is left \[mm\].
        web_mm: f64,
    },
    /// The feature's outline goes round an opening that is already in the face.
    #[error("{feature}: goes round an opening that is already in the {face}; make it before that opening")]
    Swallows {
        /// The feature.
        feature: String,
        /// The face in words.
        face: String,
    },
    /// Two features, or a feature and the body, run into each other inside the metal.
    #[error("{first} and {second} run into each other inside the metal by {} mm", short(*overlap_mm))]
    Clash {
        /// The feature made later.
        first: String,
        /// The feature made earlier, or the body's surface in words.
        second: String,
        /// Overlap \[mm\].
        overlap_mm: f64,
    },
    /// The faces do not close to one solid.
    #[error("the faces do not close to one solid: {0}")]
    Open(String),
}

impl SolidError {
    /// Name of the feature that cannot be, where it is one.
    pub fn feature(&self) -> Option<&str> {
        match self {
            Self::Number { what, .. } | Self::Profile { what, .. } => Some(what),
            Self::NoFace { feature, .. }
            | Self::BreaksOut { feature, .. }
            | Self::ThinWeb { feature, .. }
            | Self::Swallows { feature, .. } => Some(feature),
            Self::Clash { first, .. } => Some(first),
            Self::Open(_) => None,
        }
    }
}
