//! The output folder on a real disk. That every single step may fail is tested beside the code.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use swept::export::folder::{Files, Folder, FolderError, State, list_of};
use swept::export::listing::MANIFEST;

fn set(files: &[(&str, &str)]) -> Files {
    let mut out: Files = files.iter().map(|(p, t)| ((*p).to_owned(), t.as_bytes().to_vec())).collect();
    let list = serde_json::json!({ "files": list_of(&out) });
    out.insert(MANIFEST.to_owned(), list.to_string().into_bytes());
    out
}

/// Every file below a folder with its content.
fn snapshot(root: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut out = BTreeMap::new();
    for entry in fs::read_dir(root).expect("the folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            out.extend(snapshot(&path));
        } else {
            out.insert(path.clone(), fs::read(&path).expect("a file"));
        }
    }
    out
}

fn temporary() -> (tempfile::TempDir, Folder) {
    let dir = tempfile::tempdir().expect("a temporary folder");
    let folder = Folder::new(dir.path().join("pump"));
    (dir, folder)
}

fn states(folder: &Folder, files: &Files) -> Vec<(String, State)> {
    folder.plan(files).expect("a plan").into_iter().map(|p| (p.path, p.state)).collect()
}

#[test]
fn a_second_run_writes_nothing() {
    let (_dir, folder) = temporary();
    let files = set(&[("step/piston.step", "solid"), ("tables/parts.csv", "name\n")]);
    assert_eq!(folder.write(&files).expect("first").written.len(), 3);
    let times = |f: &Folder| -> Vec<_> {
        snapshot(f.root())
            .keys()
            .map(|p| fs::metadata(p).and_then(|m| m.modified()).expect("a time"))
            .collect()
    };
    let before = times(&folder);
    std::thread::sleep(std::time::Duration::from_millis(20));
    let second = folder.write(&files).expect("second");
    assert_eq!((second.written.len(), second.unchanged), (0, 3));
    assert_eq!(times(&folder), before, "time stamps stay");
}

#[test]
fn two_folders_get_the_same_bytes() {
    let files = set(&[("step/piston.step", "solid"), ("a/b/c.svg", "<svg/>")]);
    let ((_a, one), (_b, two)) = (temporary(), temporary());
    one.write(&files).expect("one");
    two.write(&set(&[("old.txt", "old")])).expect("an older set");
    two.write(&files).expect("two");
    let relative = |f: &Folder| -> BTreeMap<PathBuf, Vec<u8>> {
        let strip = |p: PathBuf| p.strip_prefix(f.root()).expect("below the root").to_owned();
        snapshot(f.root()).into_iter().map(|(p, b)| (strip(p), b)).collect()
    };
    assert_eq!(relative(&one), relative(&two));
}

#[test]
fn a_plan_says_what_a_run_would_do_and_touches_nothing() {
    let (_dir, folder) = temporary();
    let old = set(&[("changed", "1"), ("edited", "1"), ("gone", "1"), ("kept", "1"), ("same", "1")]);
    assert!(states(&folder, &old).iter().all(|(_, s)| *s == State::New));
    assert!(!folder.root().exists());
    folder.write(&old).expect("the old set");
    for edited in ["edited", "kept"] {
        fs::write(folder.root().join(edited), "by hand").expect("an edit");
    }
    let new = set(&[("changed", "2"), ("edited", "2"), ("new", "2"), ("same", "1")]);
    let before = snapshot(folder.root());
    let expected = [
        (MANIFEST, State::Changed),
        ("changed", State::Changed),
        ("edited", State::Edited),
        ("gone", State::Removed),
        ("kept", State::Kept),
        ("new", State::New),
        ("same", State::Same),
    ];
    assert_eq!(states(&folder, &new), expected.map(|(p, s)| (p.to_owned(), s)));
    assert_eq!(snapshot(folder.root()), before);
    let summary = folder.write(&new).expect("the new set");
    assert_eq!(summary.written, [MANIFEST, "changed", "edited", "new"]);
    assert_eq!(summary.unchanged, 1);
    assert_eq!(summary.removed, ["gone"]);
    assert_eq!(summary.kept, ["kept"]);
    assert!(summary.left_over.is_empty());
    assert_eq!(
        summary.text(Path::new("output/pump")),
        "wrote 4 files to output/pump (1 unchanged, 1 removed)\n\
         edited was edited by hand; kept as edited.edited\n\
         kept is no longer made, but was edited by hand; kept"
    );
    let again = folder.write(&new).expect("the new set again");
    assert_eq!(
        again.text(Path::new("output/pump")),
        "nothing changed: wrote no file to output/pump (5 unchanged)"
    );
}

#[test]
fn a_file_edited_by_hand_is_kept_beside_ours() {
    let (_dir, folder) = temporary();
    let file = folder.root().join("drawings/piston.svg");
    folder.write(&set(&[("drawings/piston.svg", "one")])).expect("the old set");
    for (edit, ours, aside) in
        [("mine", "two", "piston.svg.edited"), ("again", "three", "piston.svg.edited-2")]
    {
        fs::write(&file, edit).expect("an edit");
        let summary = folder.write(&set(&[("drawings/piston.svg", ours)])).expect("a new set");
        assert_eq!(summary.set_aside, [("drawings/piston.svg".to_owned(), format!("drawings/{aside}"))]);
        assert_eq!(fs::read_to_string(&file).expect("ours"), ours);
        assert_eq!(fs::read_to_string(file.with_file_name(aside)).expect("theirs"), edit);
    }
    // An edit that is undone by hand, or that equals the new content, is no edit.
    let same = folder.write(&set(&[("drawings/piston.svg", "three")])).expect("the same set");
    assert!(same.written.is_empty() && same.set_aside.is_empty());
}

#[test]
fn foreign_files_are_never_touched_or_lost() {
    let (_dir, folder) = temporary();
    fs::create_dir_all(folder.root().join("step")).expect("a folder");
    fs::write(folder.root().join("notes.txt"), "mine").expect("a foreign file");
    fs::write(folder.root().join("step/piston.step"), "mine too").expect("a foreign file with our name");
    fs::write(folder.root().join(MANIFEST), "not a manifest").expect("a foreign manifest");
    let summary = folder.write(&set(&[("step/piston.step", "ours")])).expect("a set");
    assert_eq!(summary.set_aside.len(), 2);
    let read = |p: &str| fs::read_to_string(folder.root().join(p)).expect(p);
    assert_eq!(read("notes.txt"), "mine");
    assert_eq!(read("step/piston.step.edited"), "mine too");
    assert_eq!(read("build.json.edited"), "not a manifest");
    // Nor does a set without them remove them.
    folder.write(&set(&[("other", "ours")])).expect("another set");
    assert!(!folder.root().join("step/piston.step").exists());
    assert_eq!(read("step/piston.step.edited"), "mine too");
}

#[test]
fn stale_files_go_with_their_empty_directories() {
    let (_dir, folder) = temporary();
    folder.write(&set(&[("a/b/c.txt", "1"), ("d/e.txt", "1")])).expect("the old set");
    fs::write(folder.root().join("d/mine.txt"), "mine").expect("a foreign file");
    folder.write(&set(&[("f.txt", "1")])).expect("the new set");
    assert!(!folder.root().join("a").exists(), "empty directories go");
    assert!(folder.root().join("d/mine.txt").exists(), "others stay");
}

#[test]
fn a_manifest_cannot_point_outside_the_folder() {
    let (dir, folder) = temporary();
    fs::create_dir_all(folder.root()).expect("a folder");
    fs::write(dir.path().join("victim"), "x").expect("a file outside");
    let hash = swept::export::listing::sha256(b"x");
    let evil = format!(r#"{{"files": [{{"path": "../victim", "sha256": "{hash}"}}]}}"#);
    fs::write(folder.root().join(MANIFEST), evil).expect("an evil manifest");
    folder.write(&set(&[("f.txt", "1")])).expect("a set");
    assert!(dir.path().join("victim").exists());
}

#[test]
fn a_set_that_is_wrong_is_refused() {
    let (_dir, folder) = temporary();
    for path in ["../up", "/root", "a/../b", "", "a\\b", "./a"] {
        let error = folder.write(&set(&[(path, "1")]));
        assert!(matches!(error, Err(FolderError::BadSet(_))), "{path:?}");
    }
    assert!(matches!(folder.write(&set(&[("a.txt", "1"), ("A.txt", "1")])), Err(FolderError::BadSet(_))));
    assert!(matches!(folder.write(&Files::new()), Err(FolderError::BadSet(_))));
    let mut wrong = set(&[("a.txt", "1")]);
    wrong.insert("a.txt".to_owned(), b"2".to_vec());
    assert!(matches!(folder.write(&wrong), Err(FolderError::BadSet(_))));
    assert!(!folder.root().exists());
}

#[test]
fn a_file_in_the_way_of_a_directory_leaves_the_old_set_whole() {
    let (_dir, folder) = temporary();
    folder.write(&set(&[("a.txt", "1")])).expect("the old set");
    fs::write(folder.root().join("step"), "in the way").expect("a file");
    let before = snapshot(folder.root());
    let error = folder.write(&set(&[("a.txt", "2"), ("step/piston.step", "2")])).expect_err("no room");
    assert!(error.to_string().starts_with("could not"), "{error}");
    assert_eq!(snapshot(folder.root()), before);
}

#[cfg(unix)]
mod refused {
    //! Permissions and limits of the system. They do not bind the super-user, so these tests run
    //! themselves again as another user, or under a limit.

    use super::*;
    use std::os::unix::fs::PermissionsExt;
    use std::os::unix::process::CommandExt;
    use std::process::Command;

    const CHILD: &str = "SWEPT_TEST_CHILD_FOLDER";

    fn mode(path: &Path, mode: u32) {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).expect("permissions");
    }

    fn new_set() -> Files {
        set(&[("a.txt", "2"), ("sub/big.txt", &"2".repeat(1 << 20)), ("other/c.txt", "3")])
    }

    /// In the child: the write is refused with the right kind of error.
    fn child(root: &str) {
        match Folder::new(root).write(&new_set()) {
            Err(FolderError::CouldNotWrite { .. }) => {}
            other => panic!("{other:?}"),
        }
    }

    /// A copy of this test program that another user may run.
    fn program(dir: &Path) -> PathBuf {
        let copy = dir.join("program");
        fs::copy(std::env::current_exe().expect("this program"), &copy).expect("a copy");
        mode(&copy, 0o755);
        mode(dir, 0o755);
        copy
    }

    fn run(command: &mut Command, name: &str, folder: &Folder) {
        let before = snapshot(folder.root());
        let args = ["--exact", name, "--nocapture"];
        let output = command.args(args).env(CHILD, folder.root()).output().expect("the child runs");
        let text = String::from_utf8_lossy(&output.stdout);
        assert!(output.status.success() && text.contains("1 passed"), "{text}{:?}", output);
        assert_eq!(snapshot(folder.root()), before, "the old set is whole and nothing is left over");
    }

    #[test]
    fn a_read_only_folder_is_refused() {
        if let Ok(root) = std::env::var(CHILD) {
            return child(&root);
        }
        let (dir, folder) = temporary();
        folder.write(&set(&[("a.txt", "1"), ("sub/b.txt", "1")])).expect("the old set");
        let program = program(dir.path());
        for path in [folder.root().join("sub"), folder.root().to_owned()] {
            mode(&path, 0o555);
        }
        let mut command = Command::new(program);
        if fs::write(folder.root().join("probe"), "").is_ok() {
            fs::remove_file(folder.root().join("probe")).expect("the probe");
            // The super-user: go on as "nobody", who may not write there.
            command.uid(65534).gid(65534);
        }
        run(command.current_dir("/"), "folder::refused::a_read_only_folder_is_refused", &folder);
        for path in [folder.root().to_owned(), folder.root().join("sub")] {
            mode(&path, 0o755);
        }
    }

    #[test]
    fn a_disk_that_takes_no_more_is_refused() {
        if let Ok(root) = std::env::var(CHILD) {
            return child(&root);
        }
        let (dir, folder) = temporary();
        folder.write(&set(&[("a.txt", "1"), ("sub/b.txt", "1")])).expect("the old set");
        let program = program(dir.path());
        // No file may grow beyond 64 blocks; a write beyond fails half way, as on a full disk.
        let mut command = Command::new("sh");
        command.args(["-c", "trap '' XFSZ; ulimit -f 64; exec \"$0\" \"$@\""]).arg(program);
        run(&mut command, "folder::refused::a_disk_that_takes_no_more_is_refused", &folder);
    }

    #[test]
    fn written_files_have_the_usual_permissions() {
        let (dir, folder) = temporary();
        fs::write(dir.path().join("usual"), "").expect("a usual file");
        folder.write(&set(&[("a.txt", "1")])).expect("a set");
        let bits = |p: PathBuf| fs::metadata(p).expect("a file").permissions().mode() & 0o777;
        assert_eq!(bits(folder.root().join("a.txt")), bits(dir.path().join("usual")));
    }
}
