//! Files: cut files, tables, the manifest and the output folder. Writers return bytes; only
//! [`folder`] puts them on disk.

pub mod audit;
mod beside;
pub mod contours;
pub mod cutfile;
mod disk;
pub mod dxf;
mod dxf_mend;
pub mod folder;
pub mod layers;
pub mod lettering;
pub mod listing;
mod name_mark;
pub mod outline_svg;
mod place;
