//! Sizing: decides every dimension of the engine that the design file leaves open, and works out
//! what the engine will do. Whatever changes power, heat, stress or a clearance is decided here.

pub mod answer;
pub mod at_work;
pub mod band;
pub mod blame;
pub mod check;
pub mod clearance;
pub mod cycle;
pub mod decide;
pub mod dimension;
pub mod drive_train;
pub mod engine;
pub mod heat;
pub mod inspect;
pub mod layouts;
pub mod ledger;
pub mod losses;
pub mod mechanism;
pub mod regenerator;
pub mod result;
pub mod rings;
pub mod search;
pub mod strength;
mod turn;
pub mod uncertain;
pub mod verdict;
pub mod volumes;
mod why;
