//! Sizing: decides every dimension of the engine that the design file leaves open, and works out
//! what the engine will do. Whatever changes power, heat, stress or a clearance is decided here.

pub mod dimension;
pub mod ledger;
mod why;
