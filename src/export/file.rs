//! One file of the user's choice, written whole or not at all.

use super::disk::{Disk, RealDisk};
use std::fs;
use std::io;
use std::path::Path;

/// Writes a file: aside first, then in place of what is there. A pipe or a device is written to as it is, a link is
/// followed.
///
/// # Errors
/// When it cannot be written; what was there stays.
pub fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    match fs::metadata(&target) {
        Ok(there) if there.is_dir() => {
            return Err(io::Error::new(io::ErrorKind::IsADirectory, "it is a folder"));
        }
        Ok(there) if !there.is_file() => return fs::write(&target, bytes),
        _ => {}
    }
    let folder = target.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let aside = RealDisk.stage(folder, bytes)?;
    RealDisk.rename(&aside, &target).inspect_err(|_| {
        let _ = RealDisk.remove(&aside);
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_replaced_whole_and_nothing_else_is_left() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("sweep.csv");
        write(&path, b"old").unwrap();
        write(&path, b"new").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"new");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
        assert!(write(folder.path(), b"x").is_err());
        assert!(write(&folder.path().join("no/such.csv"), b"x").is_err());
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_a_link() {
        let folder = tempfile::tempdir().unwrap();
        let (real, link) = (folder.path().join("real.csv"), folder.path().join("link.csv"));
        write(&real, b"old").unwrap();
        std::os::unix::fs::symlink(&real, &link).unwrap();
        write(&link, b"new").unwrap();
        assert_eq!(fs::read(&real).unwrap(), b"new");
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    }
}
