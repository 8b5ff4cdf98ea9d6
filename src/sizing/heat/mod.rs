//! Heat into the engine and out of it: heater and fuel, water jacket, fins, radiator, hot cap wall, stored heat.
//!
//! The models of the cycle take the temperatures of the walls as given. Here it is asked what holds them there:
//! pure pieces, a file each with formula, units, source and a worked value; [`chain`] puts the cold side together and
//! `of_engine` feeds all of it from the sized engine.

pub mod air;
pub mod burner;
pub mod chain;
pub mod channels;
pub mod creep;
pub mod cross_flow;
pub mod fins;
pub mod free_convection;
pub mod hot_wall;
pub mod jacket;
pub mod of_engine;
mod of_work;
pub mod radiator;
pub mod stored;
pub mod surface;
pub mod told;
mod warnings;
pub mod water;

pub use of_engine::{AtWork, heat_answer};
pub use of_work::of_work;
pub use told::HeatAnswer;
pub use warnings::warnings;
