//! What the output folder asks of a disk; a trait, so that tests can let any single step fail.

use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// A disk.
pub(super) trait Disk {
    /// Content of a file, `None` if there is none.
    fn read(&self, path: &Path) -> io::Result<Option<Vec<u8>>>;
    /// Whether a directory is there.
    fn has_dir(&self, path: &Path) -> bool;
    /// Makes one directory.
    fn make_dir(&self, path: &Path) -> io::Result<()>;
    /// Writes a new file with a free name in a directory.
    fn stage(&self, dir: &Path, bytes: &[u8]) -> io::Result<PathBuf>;
    /// Gives a file's content a second name, which must be free; on a fault nothing is left under it.
    fn keep(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Renames, replacing what is there.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Removes a file.
    fn remove(&self, path: &Path) -> io::Result<()>;
    /// Removes a directory if it is empty.
    fn remove_dir(&self, path: &Path) -> io::Result<()>;
}

/// The real one.
pub(super) struct RealDisk;

impl Disk for RealDisk {
    fn read(&self, path: &Path) -> io::Result<Option<Vec<u8>>> {
        match fs::read(path) {
            Ok(bytes) => Ok(Some(bytes)),
            Err(e) if e.kind() == ErrorKind::NotFound => Ok(None),
            Err(e) => Err(e),
        }
    }

    fn has_dir(&self, path: &Path) -> bool {
        path.as_os_str().is_empty() || path.is_dir()
    }

    fn make_dir(&self, path: &Path) -> io::Result<()> {
        fs::create_dir(path)
    }

    fn stage(&self, dir: &Path, bytes: &[u8]) -> io::Result<PathBuf> {
        let mut builder = tempfile::Builder::new();
        builder.prefix(".swept-").suffix(".tmp");
        // Temporary files are private by default; these become the user's files, so the usual
        // permissions hold, less the user's mask.
        #[cfg(unix)]
        builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
        let mut file = builder.tempfile_in(dir)?;
        file.write_all(bytes)?;
        file.flush()?;
        Ok(file.into_temp_path().keep()?)
    }

    fn keep(&self, from: &Path, to: &Path) -> io::Result<()> {
        match fs::hard_link(from, to) {
            Err(e) if e.kind() == ErrorKind::AlreadyExists => Err(e),
            // Some file systems (memory sticks) know no hard links.
            Err(_) => copy(from, to).inspect_err(|e| {
                if e.kind() != ErrorKind::AlreadyExists {
                    let _ = fs::remove_file(to);
                }
            }),
            Ok(()) => Ok(()),
        }
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    fn remove_dir(&self, path: &Path) -> io::Result<()> {
        fs::remove_dir(path)
    }
}

/// Copies a file to a name that must be free.
fn copy(from: &Path, to: &Path) -> io::Result<()> {
    let mut source = fs::File::open(from)?;
    let mut target = fs::OpenOptions::new().write(true).create_new(true).open(to)?;
    io::copy(&mut source, &mut target).map(|_| ())
}
