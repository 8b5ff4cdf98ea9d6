//! Checks: two numbers that both exist already are compared; nothing is decided here.

pub mod accept;
pub mod builder;
pub mod cutters;
mod envelope;
pub mod holes;
pub mod screws;
mod spaces;

use crate::design::Design;
use crate::diagnostic::Diagnostic;
use crate::parts::part::PartSet;
use crate::sizing::engine::Engine;

/// Everything that should be said about the parts as drawn.
pub fn all(design: &Design, engine: &Engine, set: &PartSet) -> Vec<Diagnostic> {
    let mut found = envelope::check(design, engine);
    found.extend(spaces::check(engine, set));
    found
}
