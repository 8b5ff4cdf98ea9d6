//! The mechanism: motion of crank and slider, forces on every pin and slide through the turn, what friction
//! leaves of the work of the gas.

pub(in crate::sizing) mod build;
#[cfg(test)]
mod cases;
mod crank;
mod drive_forces;
mod effectiveness;
mod factors;
mod line;
pub(in crate::sizing) mod masses;
mod model;

pub use build::{BIG_END, Choices};
pub use crank::{MechanismError, Motion, SliderCrank};
pub use drive_forces::{DriveError, DrivePoint, DriveResult, FrictionWork, GasLoop, drive_forces};
pub use effectiveness::effectiveness;
pub use factors::FrictionFactors;
pub use line::{Element, LineForces};
pub use masses::{Masses, masses};
pub use model::{Guide, Guides, Journals, Line, Mechanism, Riding, Seals};
