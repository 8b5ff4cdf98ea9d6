//! `swept`: from one design file of a small hot-air engine to parts you can cut.
//!
//! Data moves one way: [`design`] → [`sizing`] → [`parts`] → [`drawing`] and [`export`].

#![warn(missing_docs)]

pub mod drawing;
pub mod parts;
pub mod shape;
