//! Every single step of the disk is made to fail once; the old set must stay whole each time.

use super::*;
use std::cell::Cell;
use std::fs;

/// A real disk whose `fail`-th writing step fails, and nothing after it on the way back.
struct Faulty {
    fail: usize,
    steps: Cell<usize>,
}

impl Faulty {
    fn step(&self) -> io::Result<()> {
        self.steps.set(self.steps.get() + 1);
        if self.steps.get() == self.fail { Err(io::Error::from(io::ErrorKind::StorageFull)) } else { Ok(()) }
    }
}

impl Disk for Faulty {
    fn read(&self, path: &Path) -> io::Result<Option<Vec<u8>>> {
        RealDisk.read(path)
    }
    fn has_dir(&self, path: &Path) -> bool {
        RealDisk.has_dir(path)
    }
    fn make_dir(&self, path: &Path) -> io::Result<()> {
        self.step().and_then(|()| RealDisk.make_dir(path))
    }
    fn stage(&self, dir: &Path, bytes: &[u8]) -> io::Result<PathBuf> {
        self.step().and_then(|()| RealDisk.stage(dir, bytes))
    }
    fn keep(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step().and_then(|()| RealDisk.keep(from, to))
    }
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step().and_then(|()| RealDisk.rename(from, to))
    }
    fn remove(&self, path: &Path) -> io::Result<()> {
        RealDisk.remove(path)
    }
    fn remove_dir(&self, path: &Path) -> io::Result<()> {
        RealDisk.remove_dir(path)
    }
}

fn set(files: &[(&str, &str)]) -> Files {
    let mut out: Files = files.iter().map(|(p, t)| ((*p).to_owned(), t.as_bytes().to_vec())).collect();
    let list = serde_json::json!({ "files": list_of(&out) });
    out.insert(MANIFEST.to_owned(), list.to_string().into_bytes());
    out
}

fn snapshot(root: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut out = BTreeMap::new();
    for entry in fs::read_dir(root).into_iter().flatten() {
        let path = entry.expect("the test's own folder").path();
        if path.is_dir() {
            out.insert(path.clone(), Vec::new());
            out.extend(snapshot(&path));
        } else {
            out.insert(path.clone(), fs::read(&path).expect("the test's own file"));
        }
    }
    out
}

#[test]
fn whichever_step_fails_the_old_set_stays_whole() {
    let old =
        set(&[("a.txt", "one"), ("b/edited.txt", "two"), ("b/gone.txt", "three"), ("same.txt", "four")]);
    let new = set(&[("a.txt", "1"), ("b/edited.txt", "2"), ("c/d/new.txt", "5"), ("same.txt", "four")]);
    let mut failed = 0;
    for fail in 1.. {
        let dir = tempfile::tempdir().expect("a temporary folder");
        let folder = Folder::new(dir.path().join("out"));
        folder.write(&old).expect("the old set");
        fs::write(folder.root().join("b/edited.txt"), "by hand").expect("an edit");
        fs::write(folder.root().join("mine.txt"), "mine").expect("a foreign file");
        let before = snapshot(dir.path());
        let disk = Faulty { fail, steps: Cell::new(0) };
        match folder.write_on(&disk, &new) {
            Err(FolderError::CouldNotWrite { source, .. }) => {
                assert_eq!(source.kind(), io::ErrorKind::StorageFull);
                assert_eq!(snapshot(dir.path()), before, "step {fail}");
                failed += 1;
            }
            Err(other) => panic!("step {fail}: {other}"),
            Ok(summary) => {
                assert!(disk.steps.get() < fail, "the fault was swallowed");
                assert_eq!(
                    summary.set_aside,
                    [("b/edited.txt".to_owned(), "b/edited.txt.edited".to_owned())]
                );
                break;
            }
        }
    }
    // 2 directories, 5 files written aside, 3 second names, 5 renames.
    assert_eq!(failed, 15);
}

#[test]
fn a_first_build_that_fails_leaves_no_folder() {
    let new = set(&[("c/d/new.txt", "5")]);
    for fail in 1..=7 {
        let dir = tempfile::tempdir().expect("a temporary folder");
        let folder = Folder::new(dir.path().join("deep/out"));
        let disk = Faulty { fail, steps: Cell::new(0) };
        assert!(folder.write_on(&disk, &new).is_err(), "step {fail}");
        assert!(snapshot(dir.path()).is_empty(), "step {fail}");
    }
}
