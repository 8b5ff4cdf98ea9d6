//! The verdict: will it turn itself over, with what power, why not, and what to change.
//!
//! Everything here asks a [`NetWork`], a model of cycle and mechanism together; [`IsothermalEngine`] is the first, and
//! [`WithCycle`] joins any other model of the cycle to the drive.

mod build;
#[cfg(test)]
pub(crate) mod cases;
mod change;
mod changed;
mod cycle_turn;
pub mod exchange;
mod full;
mod gains;
mod heat_paths;
mod isothermal;
mod judge;
pub mod leaky;
mod load;
mod net_work;
mod operate;
mod reasons;
mod search;
mod shortfall;
mod speeds;
mod start;
mod stroke;

pub use build::{Surroundings, isothermal_engine};
#[cfg(test)]
pub(crate) use cases as test_cases;
pub use change::Change;
pub use cycle_turn::{CycleTurn, WithCycle};
pub use full::FullEngine;
pub use gains::{Gain, gains};
pub use heat_paths::{Ends, HeatPaths};
pub use isothermal::{GAP, IsothermalEngine};
pub use judge::{Judgement, Question, judge};
pub use load::LoadCurve;
pub use net_work::{Facts, HeatBalance, NetWork, VerdictError, WorkBreakdown};
pub use operate::{Gearing, Running, running};
pub use reasons::{Cause, Reason, reasons};
pub use shortfall::{ByCharge, Shortfall, by_charge};
pub use speeds::{SpeedCurve, SpeedPoint, SpeedRange};
pub use start::{Start, start};
pub use stroke::{StrokeAdvice, stroke_advice};
