//! Folders of broken designs, shared by the tests that read them.

use std::fs;
use std::path::PathBuf;

/// The design files of a folder below `tests`, in order of name.
pub fn designs(folder: &str) -> Vec<PathBuf> {
    let folder = format!("{}/tests/{folder}", env!("CARGO_MANIFEST_DIR"));
    let mut files: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "toml"));
    files.sort();
    files
}
