//! Published engines as inputs of the full model: their data, what is drawn for what is not known, the power
//! that comes out, and the table.

#![allow(dead_code)] // each test file uses its share

pub mod data;
pub mod drive;
pub mod gpu3;
pub mod heat_side;
pub mod line_drive;
pub mod path;
pub mod predict;
pub mod rhombic;
pub mod table;
