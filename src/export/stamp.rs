//! What the last build was made of and what it said, kept beside its files, so that an unchanged design is not worked out
//! again.
//!
//! The stamp is no part of the set: it names the very program that wrote it, and the set is the same whoever builds it.
//! It counts only while every file is there as it was written; anything else makes the next build a full one.

use super::disk::{Disk, RealDisk};
use super::folder::{Files, Folder};
use super::listing::sha256;
use super::{file, listing::Listed};
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::io;

/// Name of the stamp in the output folder.
pub const STAMP: &str = ".last-build.json";

/// Version of the layout of the stamp; one of another version does not count.
const SCHEMA_VERSION: u32 = 1;

/// What a build said, to be said again where nothing changed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Said {
    /// What the engine does and which checks it did not pass, as it stands on the terminal.
    pub summary: String,
    /// How many parts there are, in words.
    pub counts: String,
    /// How many there are.
    pub parts: usize,
    /// Warnings as they stand on the terminal.
    pub shown: String,
    /// Warnings as data.
    pub warnings: serde_json::Value,
}

/// A file and its size.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Made {
    /// Path and hash.
    #[serde(flatten)]
    pub listed: Listed,
    /// Size \[bytes\].
    pub size_bytes: usize,
}

/// The stamp of a build.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stamp {
    schema_version: u32,
    /// Identity of all that went in, see [`identity`].
    inputs: String,
    /// Every file, the manifest included, in order of path.
    pub files: Vec<Made>,
    /// What was said.
    pub said: Said,
}

/// One hash over everything that a build hangs on; no two lists of inputs run into each other.
pub fn identity<'a>(inputs: impl IntoIterator<Item = &'a [u8]>) -> String {
    let mut hash = Sha256::new();
    for input in inputs {
        hash.update((input.len() as u64).to_le_bytes());
        hash.update(input);
    }
    hash.finalize().iter().map(|b| format!("{b:02x}")).collect()
}

impl Stamp {
    /// The stamp of a set that was written.
    pub fn new(inputs: &str, files: &Files, said: Said) -> Self {
        let all: Vec<(&String, &Vec<u8>)> = files.iter().collect();
        let made = |(path, bytes): &(&String, &Vec<u8>)| Made {
            listed: Listed { path: (*path).clone(), sha256: sha256(bytes) },
            size_bytes: bytes.len(),
        };
        let files = all.par_iter().map(made).collect();
        Self { schema_version: SCHEMA_VERSION, inputs: inputs.to_owned(), files, said }
    }
}

impl Folder {
    /// The stamp of the last build, when it was made of these inputs and every file is as it was written; `None` when
    /// there is anything to do.
    pub fn unchanged(&self, inputs: &str) -> Option<Stamp> {
        let bytes = RealDisk.read(&self.root().join(STAMP)).ok()??;
        let stamp: Stamp = serde_json::from_slice(&bytes).ok()?;
        let same = |made: &Made| {
            let path = self.root().join(&made.listed.path);
            // a changed size saves reading the file
            let size = std::fs::metadata(&path).map(|there| there.len());
            size.is_ok_and(|size| size == made.size_bytes as u64)
                && RealDisk.read(&path).ok().flatten().is_some_and(|b| sha256(&b) == made.listed.sha256)
        };
        let counts = stamp.schema_version == SCHEMA_VERSION && stamp.inputs == inputs;
        (counts && stamp.files.par_iter().all(same)).then_some(stamp)
    }

    /// Keeps a stamp beside the set that was written.
    ///
    /// # Errors
    /// When it cannot be written; the next build is a full one then.
    pub fn keep_stamp(&self, stamp: &Stamp) -> io::Result<()> {
        let bytes = serde_json::to_vec(stamp).map_err(io::Error::other)?;
        file::write(&self.root().join(STAMP), &bytes)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::folder::list_of;
    use crate::export::listing::MANIFEST;
    use std::fs;

    fn said() -> Said {
        Said {
            summary: "done\n".into(),
            counts: "2 parts\n".into(),
            parts: 2,
            shown: String::new(),
            warnings: serde_json::json!([]),
        }
    }

    /// A folder with two files, a manifest and a stamp of the inputs "a".
    fn built() -> (tempfile::TempDir, Folder) {
        let root = tempfile::tempdir().unwrap();
        let folder = Folder::new(root.path().join("pump"));
        let mut files: Files = [("step/a.step", "A"), ("b.csv", "B")]
            .map(|(path, text)| (path.to_owned(), text.as_bytes().to_vec()))
            .into();
        let manifest = serde_json::json!({ "files": list_of(&files) }).to_string();
        files.insert(MANIFEST.into(), manifest.into_bytes());
        folder.write(&files).unwrap();
        folder.keep_stamp(&Stamp::new("a", &files, said())).unwrap();
        (root, folder)
    }

    #[test]
    fn the_same_inputs_and_files_leave_nothing_to_do() {
        let (_root, folder) = built();
        let stamp = folder.unchanged("a").unwrap();
        assert_eq!((stamp.files.len(), stamp.said), (3, said()));
        assert_eq!(folder.unchanged("b"), None, "other inputs");
    }

    #[test]
    fn a_file_that_was_edited_or_deleted_and_a_stamp_that_cannot_be_read_do_not_count() {
        for path in ["step/a.step", "b.csv", MANIFEST] {
            let (_root, folder) = built();
            let at = folder.root().join(path);
            let mut other = fs::read(&at).unwrap();
            other[0] ^= 1;
            fs::write(&at, other).unwrap();
            assert_eq!(folder.unchanged("a"), None, "{path} edited to the same size");
            fs::remove_file(&at).unwrap();
            assert_eq!(folder.unchanged("a"), None, "{path} deleted");
        }
        let (_root, folder) = built();
        fs::write(folder.root().join(STAMP), b"{").unwrap();
        assert_eq!(folder.unchanged("a"), None);
    }

    #[test]
    fn inputs_do_not_run_into_each_other() {
        let of = |all: &[&str]| identity(all.iter().map(|s| s.as_bytes()));
        assert_ne!(of(&["ab", "c"]), of(&["a", "bc"]));
        assert_ne!(of(&["ab"]), of(&["ab", ""]));
        assert_eq!(of(&["ab", "c"]), of(&["ab", "c"]));
    }
}
