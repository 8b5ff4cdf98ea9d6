//! Cut files, tables, manifest, comparison and output folder, through the public interface.

mod flat_parts;

#[path = "export/audit.rs"]
mod audit;
#[path = "export/change.rs"]
mod change;
#[path = "export/cutfile.rs"]
mod cutfile;
#[path = "export/dxf.rs"]
mod dxf;
#[path = "export/folder.rs"]
mod folder;
#[path = "export/manifest.rs"]
mod manifest;
#[path = "export/svg.rs"]
mod svg;
