//! The verdict: will it turn itself over, with what power, why not, and what to change.
//!
//! Everything here asks a [`NetWork`], a model of cycle and mechanism together; [`FullEngine`] is the one that judges.

mod against;
mod build;
#[cfg(test)]
pub(crate) mod cases;
mod change;
mod cycle_turn;
mod full;
mod gains;
mod heat_paths;
mod judge;
mod load;
mod net_work;
mod operate;
mod reasons;
mod search;
mod shortfall;
mod speeds;
mod start;
mod steadiness;
mod stroke;

pub use against::{Against, LoadBand, Loaded, against, load_band};
pub use build::{Surroundings, hot_flange_k, through_hot_joint_w};
#[cfg(test)]
pub(crate) use cases as test_cases;
pub use change::Change;
pub use cycle_turn::CycleTurn;
pub use full::FullEngine;
pub use gains::{Gain, gains};
pub use heat_paths::{Ends, HeatPaths};
pub use judge::{Judgement, Question, judge};
pub use load::{LoadCurve, load_of};
pub use net_work::{Facts, HeatBalance, NetWork, VerdictError, WorkBreakdown};
pub use operate::{Gearing, Running, running};
pub use reasons::{Cause, Reason, reasons};
pub use shortfall::{ByCharge, Shortfall, by_charge};
pub use speeds::{SpeedCurve, SpeedPoint, SpeedRange};
pub use start::{Start, start};
pub use steadiness::{flywheel_for, unsteadiness};
pub use stroke::{StrokeAdvice, stroke_advice};
