//! Tables of the trade: limits and fits, threads, bearings, bushes, seals, belts, stock, materials, gases.
//!
//! The numbers lie in `data/`, each file with its standard, where its numbers were read and how sure they are;
//! `data/sources.csv` explains the source codes. Each table is read once.

pub mod bearings;
pub mod belts;
mod book;
pub mod bushes;
pub mod drill_bushes;
pub mod fits;
pub mod fuels;
pub mod gases;
pub mod gaskets;
pub mod listing;
pub mod materials;
pub mod orings;
pub mod stock;
mod table;
pub mod threads;

pub(crate) use book::put;
pub use book::{Catalogue, OwnScrews};
pub use table::{Listed, UnknownEntry, nearest};
