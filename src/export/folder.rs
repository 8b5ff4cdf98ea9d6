//! The output folder: the only place where files are written.
//!
//! A build hands over the whole set of its files. What is on disk already is left alone; what differs is
//! written aside, then all of it is put in place at once; on any error the old set stays whole. Files that
//! the old manifest names and the new set lacks are removed, but only if nobody changed them since.
//!
//! **Files edited by hand.** The set must agree with the design, so our file is written, but no work is
//! lost: the edited file is kept beside it as `<name>.edited` (`.edited-2` … if that is taken), and the
//! summary says so. The same holds for a foreign file that happens to have one of our names. A stale file
//! that was edited stays where it is.

use super::disk::{Disk, RealDisk};
use super::listing::{Listed, MANIFEST, listed, sha256};
use super::place::{self, Change};
use rayon::prelude::*;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::{Component, Path, PathBuf};

/// Relative path (with `/`) → content.
pub type Files = BTreeMap<String, Vec<u8>>;

/// The output folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Folder {
    root: PathBuf,
}

/// What happens, or would happen, to a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum State {
    /// It is not there yet.
    New,
    /// It is ours and its content changes.
    Changed,
    /// It was edited by hand or is not ours: it is set aside, and ours written.
    Edited,
    /// It is there with this content.
    Same,
    /// It is ours, unchanged since, and no longer part of the set.
    Removed,
    /// It is no longer part of the set, but was edited by hand and stays.
    Kept,
}

/// A file and what happens to it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Planned {
    /// Path below the folder.
    pub path: String,
    /// What happens.
    pub state: State,
    /// Size of the new content \[bytes\]; of the old for files that go or stay.
    pub size_bytes: usize,
}

/// What a run did.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Summary {
    /// Files written, new or changed.
    pub written: Vec<String>,
    /// Files that were there already with the same content.
    pub unchanged: usize,
    /// Files of an earlier run taken away.
    pub removed: Vec<String>,
    /// Files edited by hand and where they were kept: (path, new name).
    pub set_aside: Vec<(String, String)>,
    /// Stale files that stay because they were edited by hand.
    pub kept: Vec<String>,
    /// Temporary files that could not be removed after all was in place.
    pub left_over: Vec<String>,
}

/// Why nothing was written.
#[derive(Debug, thiserror::Error)]
pub enum FolderError {
    /// The disk or the permissions refuse.
    #[error("could not write {}: {source}", path.display())]
    CouldNotWrite {
        /// Where.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// What is there cannot be read.
    #[error("could not read {}: {source}", path.display())]
    CouldNotRead {
        /// Where.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// The set of files is not fit to be written: a fault of the program.
    #[error("the set of files is wrong: {0}")]
    BadSet(String),
}

impl Summary {
    /// One line for the end of a run, for example `wrote 3 files to output/fan (38 unchanged)`, and a line
    /// for each file that needs a person's eye.
    pub fn text(&self, root: &Path) -> String {
        let files = |n: usize| format!("{n} {}", if n == 1 { "file" } else { "files" });
        let mut first = match self.written.len() {
            0 => format!("nothing changed: wrote no file to {}", root.display()),
            n => format!("wrote {} to {}", files(n), root.display()),
        };
        first.push_str(&format!(" ({} unchanged", self.unchanged));
        if !self.removed.is_empty() {
            first.push_str(&format!(", {} removed", self.removed.len()));
        }
        let mut lines = vec![first + ")"];
        let aside = |(path, kept): &(String, String)| format!("{path} was edited by hand; kept as {kept}");
        lines.extend(self.set_aside.iter().map(aside));
        lines
            .extend(self.kept.iter().map(|p| format!("{p} is no longer made, but was edited by hand; kept")));
        lines.extend(self.left_over.iter().map(|p| format!("{p} could not be cleared away")));
        lines.join("\n")
    }
}

impl Folder {
    /// The folder at `root`, which need not exist yet.
    pub fn new(root: impl Into<PathBuf>) -> Self {
        Self { root: root.into() }
    }

    /// Where it is.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// The manifest of the last run, if there is one.
    ///
    /// # Errors
    /// When it is there and cannot be read.
    pub fn manifest(&self) -> Result<Option<Vec<u8>>, FolderError> {
        self.read(&RealDisk, MANIFEST)
    }

    /// What [`Folder::write`] would do with each file, in order of path; touches nothing.
    ///
    /// # Errors
    /// When the set is wrong or what is there cannot be read.
    pub fn plan(&self, files: &Files) -> Result<Vec<Planned>, FolderError> {
        self.planned(&RealDisk, files)
    }

    /// Makes the folder hold the set of files, which must hold a manifest that lists all others.
    ///
    /// # Errors
    /// When the set is wrong, or anything cannot be read or written; the old set is whole then.
    pub fn write(&self, files: &Files) -> Result<Summary, FolderError> {
        self.write_on(&RealDisk, files)
    }

    /// [`Folder::write`] on any disk.
    pub(super) fn write_on(&self, disk: &dyn Disk, files: &Files) -> Result<Summary, FolderError> {
        let plan = self.planned(disk, files)?;
        let mut summary = Summary::default();
        let mut changes = Vec::new();
        for file in &plan {
            let path = file.path.clone();
            let content = || files[&path].as_slice();
            let target = self.root.join(&path);
            match file.state {
                State::New => changes.push(Change::Create(target, content())),
                State::Changed => changes.push(Change::Replace(target, content())),
                State::Edited => {
                    let aside = self.aside(disk, &path)?;
                    changes.push(Change::SetAside(target, self.root.join(&aside), content()));
                    summary.set_aside.push((path.clone(), aside));
                }
                State::Removed => changes.push(Change::Remove(target)),
                State::Same | State::Kept => {}
            }
            match file.state {
                State::New | State::Changed | State::Edited => summary.written.push(path),
                State::Same => summary.unchanged += 1,
                State::Removed => summary.removed.push(path),
                State::Kept => summary.kept.push(path),
            }
        }
        // The manifest goes last: until then the old one describes the old set.
        changes.sort_by_key(|c| c.target() == self.root.join(MANIFEST));
        let left = place::place(disk, &self.root, &changes)
            .map_err(|(path, source)| FolderError::CouldNotWrite { path, source })?;
        summary.left_over = left.iter().map(|p| p.display().to_string()).collect();
        Ok(summary)
    }

    /// The state of every file of the new and the old set.
    fn planned(&self, disk: &dyn Disk, files: &Files) -> Result<Vec<Planned>, FolderError> {
        fit(files)?;
        let old_manifest = self.read(disk, MANIFEST)?;
        let old = old_manifest.as_deref().and_then(listed);
        let ours: BTreeMap<String, String> =
            old.iter().flatten().map(|l| (l.path.clone(), l.sha256.clone())).collect();
        let mut out = Vec::new();
        for (path, new) in files {
            let is_ours = |there: &[u8]| match path.as_str() {
                MANIFEST => old.is_some(),
                _ => ours.get(path) == Some(&sha256(there)),
            };
            let state = match self.read(disk, path)? {
                None => State::New,
                Some(there) if there == *new => State::Same,
                Some(there) if is_ours(&there) => State::Changed,
                Some(_) => State::Edited,
            };
            out.push(Planned { path: path.clone(), state, size_bytes: new.len() });
        }
        for (path, hash) in ours.iter().filter(|(p, _)| !files.contains_key(*p) && safe(p)) {
            if let Some(there) = self.read(disk, path)? {
                let state = if sha256(&there) == *hash { State::Removed } else { State::Kept };
                out.push(Planned { path: path.clone(), state, size_bytes: there.len() });
            }
        }
        out.sort_by(|a, b| a.path.cmp(&b.path));
        Ok(out)
    }

    /// Content of a file, `None` if there is none.
    fn read(&self, disk: &dyn Disk, path: &str) -> Result<Option<Vec<u8>>, FolderError> {
        let path = self.root.join(path);
        disk.read(&path).map_err(|source| FolderError::CouldNotRead { path, source })
    }

    /// A free name beside a file that was edited.
    fn aside(&self, disk: &dyn Disk, path: &str) -> Result<String, FolderError> {
        let mut name = format!("{path}.edited");
        let mut n = 1;
        while self.read(disk, &name)?.is_some() {
            n += 1;
            name = format!("{path}.edited-{n}");
        }
        Ok(name)
    }
}

/// Whether a path stays inside the folder, whoever wrote it.
fn safe(path: &str) -> bool {
    let plain = |c: Component| matches!(c, Component::Normal(_));
    !path.is_empty() && !path.contains('\\') && Path::new(path).components().all(plain)
}

/// Whether a set can be written: safe paths, told apart on every system, and a manifest that lists them.
fn fit(files: &Files) -> Result<(), FolderError> {
    let mut seen = BTreeSet::new();
    for path in files.keys() {
        if !safe(path) {
            return Err(FolderError::BadSet(format!("{path:?} is not a path inside the folder")));
        }
        if !seen.insert(path.to_lowercase()) {
            return Err(FolderError::BadSet(format!("two files are called {path:?}")));
        }
    }
    let list = files.get(MANIFEST).and_then(|m| listed(m));
    let list = list.ok_or(FolderError::BadSet(format!("{MANIFEST} is missing or no manifest")))?;
    let expected: Vec<Listed> = list_of(files);
    if list != expected {
        return Err(FolderError::BadSet(format!("{MANIFEST} does not list the files as they are")));
    }
    Ok(())
}

/// The list of a set for its manifest: all files but the manifest itself, in order of path.
pub fn list_of(files: &Files) -> Vec<Listed> {
    let others: Vec<_> = files.iter().filter(|(path, _)| *path != MANIFEST).collect();
    others.par_iter().map(|(path, bytes)| Listed { path: (*path).clone(), sha256: sha256(bytes) }).collect()
}

#[cfg(test)]
#[path = "folder_faults.rs"]
mod faults;
