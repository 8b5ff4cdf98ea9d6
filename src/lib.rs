//! `swept`: from one design file of a small hot-air engine to parts you can cut.
//!
//! Data moves one way: [`design`] → [`sizing`] → [`parts`] → [`drawing`] and [`export`].

#![warn(missing_docs)]

pub mod catalogue;
pub mod checks;
pub mod design;
pub mod diagnostic;
pub mod drawing;
pub mod explore;
pub mod export;
pub mod numerals;
pub mod parts;
pub mod pipeline;
pub mod shape;
pub mod sizing;
