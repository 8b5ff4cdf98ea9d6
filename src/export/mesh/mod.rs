//! Meshes as files for printing: [`stl`] and [`threemf`].

pub mod stl;
pub mod threemf;
