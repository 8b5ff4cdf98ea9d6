//! Parts: pure functions of the sized engine. One file for each part.

pub mod part;
