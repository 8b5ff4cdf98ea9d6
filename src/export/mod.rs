//! Files: cut files, tables, the manifest and the output folder. Writers return bytes; only
//! [`folder`] and [`file`](mod@file) put them on disk.

pub mod aids;
pub mod audit;
pub mod bed;
mod beside;
pub mod change;
pub mod contours;
pub mod cutfile;
pub mod decided;
mod disk;
pub mod dxf;
mod dxf_mend;
pub mod file;
pub mod folder;
pub mod geometry;
pub mod holes;
pub mod layers;
pub mod lettering;
pub mod listing;
pub mod manifest;
pub mod mesh;
pub mod metal_off;
mod name_mark;
pub mod nest;
pub mod outline_svg;
mod place;
pub mod revision;
pub mod setups;
pub mod stamp;
pub mod step;
pub mod stock;
pub mod tables;
pub mod verdict;
