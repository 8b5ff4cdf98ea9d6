//! Clearances: exact distances of what moves over the turn, and how heat changes them.

pub mod fit;
pub mod growth;
pub mod hull;
pub mod piece;
