//! Puts changes on disk all or none: first everything is written aside, then renamed into place, each step
//! with the way back noted before the next is tried.

use super::disk::Disk;
use std::io;
use std::path::{Path, PathBuf};

/// One change.
pub(super) enum Change<'a> {
    /// A file that is not there.
    Create(PathBuf, &'a [u8]),
    /// A file of ours with new content.
    Replace(PathBuf, &'a [u8]),
    /// A file that is kept under the second name, and replaced.
    SetAside(PathBuf, PathBuf, &'a [u8]),
    /// A file that goes.
    Remove(PathBuf),
}

/// The way back from a step.
enum Undo {
    /// Remove a directory that was made.
    Directory(PathBuf),
    /// Remove a file that was written.
    File(PathBuf),
    /// Rename a file back over the new one.
    Back(PathBuf, PathBuf),
}

/// A path and what the system said about it.
type Fault = (PathBuf, io::Error);

impl Change<'_> {
    /// The file that changes.
    pub(super) fn target(&self) -> &Path {
        match self {
            Change::Create(t, _) | Change::Replace(t, _) | Change::SetAside(t, _, _) | Change::Remove(t) => t,
        }
    }

    /// Its new content; nothing for a file that goes.
    fn content(&self) -> &[u8] {
        match self {
            Change::Create(_, b) | Change::Replace(_, b) | Change::SetAside(_, _, b) => b,
            Change::Remove(_) => &[],
        }
    }
}

/// Makes all changes below `root`, or none. Returns the temporary files that could not be removed at the
/// end, when everything else was done.
pub(super) fn place(disk: &dyn Disk, root: &Path, changes: &[Change]) -> Result<Vec<PathBuf>, Fault> {
    let mut work = Work { disk, way_back: Vec::new(), spent: Vec::new() };
    match work.all(changes) {
        Ok(()) => Ok(work.finish(root, changes)),
        Err(fault) => {
            work.go_back();
            Err(fault)
        }
    }
}

/// A run in progress.
struct Work<'a> {
    disk: &'a dyn Disk,
    way_back: Vec<Undo>,
    /// Files that are no longer needed once all is done.
    spent: Vec<PathBuf>,
}

impl Work<'_> {
    /// Writes everything aside, then puts it in place.
    fn all(&mut self, changes: &[Change]) -> Result<(), Fault> {
        let mut staged = Vec::new();
        for change in changes {
            staged.push(self.stage(change)?);
        }
        changes.iter().zip(staged).try_for_each(|(change, temp)| self.put(change, &temp))
    }

    /// The new content in a temporary file beside its place.
    fn stage(&mut self, change: &Change) -> Result<PathBuf, Fault> {
        let target = change.target();
        let dir = target.parent().unwrap_or(Path::new(""));
        self.directory(dir)?;
        let temp = self.disk.stage(dir, change.content()).map_err(|e| (target.to_owned(), e))?;
        self.way_back.push(Undo::File(temp.clone()));
        Ok(temp)
    }

    /// Makes a directory and those above it, where they are missing.
    fn directory(&mut self, dir: &Path) -> Result<(), Fault> {
        if self.disk.has_dir(dir) {
            return Ok(());
        }
        if let Some(above) = dir.parent() {
            self.directory(above)?;
        }
        self.disk.make_dir(dir).map_err(|e| (dir.to_owned(), e))?;
        self.way_back.push(Undo::Directory(dir.to_owned()));
        Ok(())
    }

    /// Puts one change in place.
    fn put(&mut self, change: &Change, temp: &Path) -> Result<(), Fault> {
        let target = change.target();
        let fault = |e| (target.to_owned(), e);
        match change {
            Change::Create(..) => {
                self.disk.rename(temp, target).map_err(fault)?;
                self.way_back.push(Undo::File(target.to_owned()));
            }
            Change::Replace(..) => {
                let mut old = temp.as_os_str().to_owned();
                old.push(".old");
                let old = PathBuf::from(old);
                self.swap(target, &old, temp).map_err(fault)?;
                self.spent.push(old);
            }
            Change::SetAside(_, aside, _) => self.swap(target, aside, temp).map_err(fault)?,
            Change::Remove(_) => {
                self.disk.rename(target, temp).map_err(fault)?;
                self.way_back.push(Undo::Back(temp.to_owned(), target.to_owned()));
                self.spent.push(temp.to_owned());
            }
        }
        Ok(())
    }

    /// Keeps the old content under a second name, then renames the new over it; at no moment is the
    /// target missing.
    fn swap(&mut self, target: &Path, old: &Path, temp: &Path) -> io::Result<()> {
        self.disk.keep(target, old)?;
        self.way_back.push(Undo::File(old.to_owned()));
        self.disk.rename(temp, target)?;
        self.way_back.push(Undo::Back(old.to_owned(), target.to_owned()));
        Ok(())
    }

    /// Undoes all steps, last first. A step that cannot be undone does not keep the others from it.
    fn go_back(&mut self) {
        while let Some(step) = self.way_back.pop() {
            // The fault that led here is the one to report; files already gone are expected.
            let _ = match step {
                Undo::Directory(dir) => self.disk.remove_dir(&dir),
                Undo::File(file) => self.disk.remove(&file),
                Undo::Back(old, target) => self.disk.rename(&old, &target),
            };
        }
    }

    /// Clears away what is no longer needed, and directories that became empty.
    fn finish(self, root: &Path, changes: &[Change]) -> Vec<PathBuf> {
        let left: Vec<PathBuf> = self.spent.into_iter().filter(|p| self.disk.remove(p).is_err()).collect();
        for change in changes.iter().filter(|c| matches!(c, Change::Remove(_))) {
            let above = change.target().ancestors().skip(1);
            for dir in above.take_while(|d| *d != root && d.starts_with(root)) {
                if self.disk.remove_dir(dir).is_err() {
                    break;
                }
            }
        }
        left
    }
}
