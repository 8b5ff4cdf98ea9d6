//! Layouts: how cylinders, cranks and gas spaces are arranged. One folder for each.

pub mod gamma_twin_crank;

use super::engine::Engine;
use crate::design::{Design, Layout};
use crate::diagnostic::Diagnostic;

/// Decides every dimension of the engine by its layout.
///
/// # Errors
/// All rules that the design breaks.
pub fn size(design: &Design) -> Result<Engine, Vec<Diagnostic>> {
    match design.engine.layout.value {
        Layout::GammaTwinCrank => gamma_twin_crank::size(design),
    }
}
