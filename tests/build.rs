//! `swept build` as a user runs it: the folder, a second run, a changed stroke, a broken design.

mod broken_support;

use broken_support::designs;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use swept::export::stamp::STAMP;

/// A folder that goes away with the test.
struct Bench(tempfile::TempDir);

impl Bench {
    fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    fn out(&self) -> PathBuf {
        self.0.path().join("out")
    }

    fn swept(&self, arguments: &[&str]) -> Output {
        let out = self.out();
        Command::new(env!("CARGO_BIN_EXE_swept"))
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .args(arguments)
            .args(["--out", out.to_str().unwrap()])
            .output()
            .unwrap()
    }

    fn build(&self, more: &[&str]) -> String {
        let mut arguments = vec!["build", "sample-designs/allotment-pump.toml"];
        arguments.extend(more);
        let done = self.swept(&arguments);
        assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
        String::from_utf8(done.stdout).unwrap()
    }

    /// Every file below the output folder, with its content and when it was written.
    fn files(&self) -> BTreeMap<String, (Vec<u8>, std::time::SystemTime)> {
        let mut found = BTreeMap::new();
        collect(&self.out(), &self.out(), &mut found);
        found
    }
}

fn collect(root: &Path, folder: &Path, found: &mut BTreeMap<String, (Vec<u8>, std::time::SystemTime)>) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries {
        let path = entry.unwrap().path();
        if path.is_dir() {
            collect(root, &path, found);
        } else {
            let name = path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/");
            let when = fs::metadata(&path).unwrap().modified().unwrap();
            found.insert(name, (fs::read(&path).unwrap(), when));
        }
    }
}

#[test]
fn the_folder_holds_what_it_should_and_a_second_run_writes_nothing() {
    let bench = Bench::new();
    let first = bench.build(&[]);
    assert!(first.contains("wrote"), "{first}");
    let files = bench.files();
    for wanted in [
        "allotment-pump/build.json",
        "allotment-pump/step/assembly.step",
        "allotment-pump/step/piston.step",
        "allotment-pump/blanks/piston.step",
        "allotment-pump/blanks/displacer-crank.step",
        "allotment-pump/outlines/hot-cap-gasket.dxf",
        "allotment-pump/outlines/hot-cap-gasket.svg",
        "allotment-pump/drawings/power-cylinder-block.svg",
        "allotment-pump/tables/parts.csv",
        "allotment-pump/tables/geometry.csv",
        "allotment-pump/tables/holes.csv",
        "allotment-pump/tables/aids.csv",
        "allotment-pump/prints/hot-cap-gasket-knife-template.3mf",
        "allotment-pump/prints/hot-cap-gasket-knife-template.stl",
        "allotment-pump/prints/hot-cap-gasket-knife-template.step",
        "allotment-pump/prints/crank-bracket.3mf",
    ] {
        assert!(files.contains_key(wanted), "{wanted} is missing");
    }
    let second = bench.build(&[]);
    assert!(second.contains("nothing changed: wrote no file"), "{second}");
    assert_eq!(files, bench.files(), "contents and times of writing");
}

/// Whether the last build was found to be still good: what `--verbose` says.
fn is_quick(done: &Output) -> bool {
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    String::from_utf8_lossy(&done.stderr).contains("nothing is worked out again")
}

const VERBOSE: [&str; 3] = ["build", "sample-designs/allotment-pump.toml", "-v"];

/// Without its stamp a build is a full one; what it tells when nothing changed is what the quick way tells.
#[test]
fn an_unchanged_build_is_not_worked_out_again_and_says_the_same() {
    let bench = Bench::new();
    assert!(!is_quick(&bench.swept(&VERBOSE)));
    assert!(is_quick(&bench.swept(&VERBOSE)));
    for more in [&[][..], &["--json"], &["--quiet"], &["--dry-run"]] {
        let run = || bench.swept(&[&VERBOSE[..2], more].concat());
        let quick = run();
        fs::remove_file(bench.out().join("allotment-pump").join(STAMP)).unwrap();
        let full = run();
        assert_eq!(quick, full, "{more:?}");
        assert!(!quick.stdout.is_empty());
    }
}

#[test]
fn another_key_title_block_name_or_program_is_worked_out_again() {
    let bench = Bench::new();
    let bytes = bench.0.path().join("title.txt");
    let design = bench.0.path().join("pump.toml");
    let text = fs::read_to_string("sample-designs/allotment-pump.toml").unwrap();
    fs::write(&design, text + "title_block = \"title.txt\"\n").unwrap();
    fs::copy("templates/title-block.txt", &bytes).unwrap();
    let build = ["build", design.to_str().unwrap(), "-v"];
    let set = [&build[..], &["--set", "piston.stroke=31 mm"]].concat();
    assert!(!is_quick(&bench.swept(&build)) && is_quick(&bench.swept(&build)));
    assert!(!is_quick(&bench.swept(&set)) && is_quick(&bench.swept(&set)), "another key");
    let sheet = |bench: &Bench| bench.files()["allotment-pump/drawings/con-rod.svg"].0.clone();
    let before = sheet(&bench);
    let title = fs::read_to_string(&bytes).unwrap();
    fs::write(&bytes, title.replace("Title", "Name of the part")).unwrap();
    assert!(!is_quick(&bench.swept(&set)) && is_quick(&bench.swept(&set)), "another title block");
    assert_ne!(before, sheet(&bench));
    let renamed = design.with_file_name("renamed.toml");
    fs::rename(&design, &renamed).unwrap();
    let renamed = ["build", renamed.to_str().unwrap(), "-v"];
    assert!(!is_quick(&bench.swept(&renamed)) && is_quick(&bench.swept(&renamed)), "another name");
}

/// A byte behind the end of the program changes nothing that it does: the identity is that of the file.
#[cfg(target_os = "linux")]
#[test]
fn a_program_with_other_bytes_is_another_program() {
    let bench = Bench::new();
    let other = bench.0.path().join("swept");
    let mut bytes = fs::read(env!("CARGO_BIN_EXE_swept")).unwrap();
    bytes.push(0);
    fs::write(&other, bytes).unwrap();
    fs::set_permissions(&other, fs::metadata(env!("CARGO_BIN_EXE_swept")).unwrap().permissions()).unwrap();
    assert!(!is_quick(&bench.swept(&VERBOSE)));
    let out = bench.out();
    let run = || Command::new(&other).args(VERBOSE).arg("--out").arg(&out).output().unwrap();
    assert!(!is_quick(&run()) && is_quick(&run()));
}

#[test]
fn a_file_edited_or_deleted_by_hand_is_made_again() {
    let bench = Bench::new();
    bench.build(&[]);
    let before = bench.files();
    let path = bench.out().join("allotment-pump/tables/holes.csv");
    fs::remove_file(&path).unwrap();
    assert!(bench.build(&[]).contains("wrote 1 file"));
    let mut edited = fs::read(&path).unwrap();
    edited[0] ^= 1;
    fs::write(&path, &edited).unwrap();
    let said = bench.build(&[]);
    assert!(said.contains("tables/holes.csv was edited by hand; kept as"), "{said}");
    let after = bench.files();
    let name = "allotment-pump/tables/holes.csv";
    assert_eq!(before[name].0, after[name].0);
    assert_eq!(after["allotment-pump/tables/holes.csv.edited"].0, edited);
}

#[test]
fn the_same_design_gives_the_same_bytes_in_another_folder() {
    let (one, other) = (Bench::new(), Bench::new());
    one.build(&[]);
    other.build(&[]);
    let bytes = |b: &Bench| b.files().into_iter().map(|(name, (bytes, _))| (name, bytes)).collect::<Vec<_>>();
    assert_eq!(bytes(&one), bytes(&other));
}

#[test]
fn a_shorter_piston_stroke_rewrites_only_what_changes_and_says_which_sizes() {
    let bench = Bench::new();
    bench.build(&[]);
    let before = bench.files();
    let said = bench.build(&["--set", "piston.stroke=27 mm"]);
    let after = bench.files();
    let changed =
        |name: &str| before[&format!("allotment-pump/{name}")] != after[&format!("allotment-pump/{name}")];
    for name in
        ["step/piston-crank.step", "step/power-cylinder-block.step", "step/piston-rod.step", "build.json"]
    {
        assert!(changed(name), "{name} changes with the stroke");
    }
    for name in [
        "step/hot-cap.step",
        "step/cold-cylinder.step",
        "step/cooler-plate.step",
        "outlines/jacket-gasket.dxf",
        "drawings/con-rod.svg",
    ] {
        assert!(!changed(name), "{name} does not hang on the stroke and is not rewritten");
    }
    assert!(said.contains("piston.stroke 32 mm -> 27 mm"), "{said}");
    assert!(said.contains("drive.piston_throw 16 mm -> 13.5 mm"), "{said}");
    assert!(said.contains("power-cylinder-block: length 66 mm -> 61 mm"), "{said}");
    assert!(!said.contains("hot-cap:"), "{said}");
}

#[test]
fn a_longer_displacer_stroke_shortens_the_displacer_by_as_much_and_says_so() {
    let bench = Bench::new();
    bench.build(&[]);
    let said = bench.build(&["--set", "displacer.stroke=44 mm"]);
    assert!(said.contains("displacer.length 108 mm -> 104 mm"), "{said}");
    assert!(said.contains("displacer-shell: length 108 mm -> 104 mm"), "{said}");
}

#[test]
fn a_dry_run_lists_the_files_and_writes_none() {
    let bench = Bench::new();
    let said = bench.build(&["--dry-run"]);
    assert!(said.contains("new") && said.contains("step/assembly.step"), "{said}");
    assert!(!bench.out().exists());
}

#[test]
fn a_broken_design_writes_nothing_and_leaves_the_old_set_whole() {
    let bench = Bench::new();
    bench.build(&[]);
    let before = bench.files();
    let done = bench.swept(&["build", "sample-designs/allotment-pump.toml", "--set", "piston.stroke=long"]);
    assert_eq!(done.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&done.stderr).contains("hint"));
    assert_eq!(before, bench.files());
    let fresh = Bench::new();
    for design in designs("broken-engines") {
        let done = fresh.swept(&["build", design.to_str().unwrap()]);
        assert_eq!(done.status.code(), Some(1), "{}", design.display());
    }
    assert!(!fresh.out().exists(), "nothing was written");
}

#[test]
fn kerf_is_asked_for_and_told_in_the_file_name() {
    let bench = Bench::new();
    bench.build(&["--set", "workshop.kerf=0.15 mm"]);
    assert!(bench.files().contains_key("allotment-pump/outlines/jacket-gasket-kerf-0.15mm.dxf"));
}

#[test]
fn sizes_and_their_reasons_are_told_as_text_and_as_json() {
    let swept = |arguments: &[&str]| {
        Command::new(env!("CARGO_BIN_EXE_swept"))
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .args(arguments)
            .output()
            .unwrap()
    };
    let why = swept(&["size", "sample-designs/allotment-pump.toml", "--why", "displacer.length"]);
    let text = String::from_utf8(why.stdout).unwrap();
    assert!(text.contains("displacer.stroke = 40 mm: given (sample-designs/allotment-pump.toml:"), "{text}");
    assert!(text.contains("cylinder - stroke"), "{text}");
    let json = swept(&["size", "sample-designs/allotment-pump.toml", "--json"]);
    let value: serde_json::Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(value["engine"]["displacer.length"]["value"], 108.0);
    assert!(value["operating_point"]["indicated_power_W"].as_f64().unwrap() > 1.0);
    let broken =
        swept(&["size", "sample-designs/allotment-pump.toml", "--json", "--set", "piston.bore=wide"]);
    assert_eq!(broken.status.code(), Some(1));
    let value: serde_json::Value = serde_json::from_slice(&broken.stdout).unwrap();
    assert_eq!(value["diagnostics"][0]["severity"], "error");
    let unknown = swept(&["size", "sample-designs/allotment-pump.toml", "--why", "displacer.lenght"]);
    assert!(String::from_utf8_lossy(&unknown.stderr).contains("displacer.length"));
}

/// Revisions of a part's drawing in the set: index and what changed.
fn revisions(bench: &Bench, part: &str) -> Vec<(String, Vec<String>)> {
    let text = fs::read(bench.out().join("allotment-pump/build.json")).unwrap();
    let build: serde_json::Value = serde_json::from_slice(&text).unwrap();
    let words = |v: &serde_json::Value| v.as_str().unwrap().to_owned();
    let all = build["revisions"][part].as_array().unwrap();
    let changes = |r: &serde_json::Value| r["changes"].as_array().map(|c| c.iter().map(words).collect());
    all.iter().map(|r| (words(&r["index"]), changes(r).unwrap_or_default())).collect()
}

/// Names of the sheets that have a table of revisions.
fn revised(bench: &Bench) -> Vec<String> {
    let has = |(name, (bytes, _)): &(String, (Vec<u8>, std::time::SystemTime))| {
        name.ends_with(".svg") && String::from_utf8_lossy(bytes).contains("aria-label=\"Rev.\"")
    };
    bench.files().into_iter().filter(has).map(|(name, _)| name).collect()
}

#[test]
fn a_part_that_changes_gets_the_next_revision_with_what_changed_and_no_other_does() {
    let bench = Bench::new();
    let shorter = ["--set", "piston.stroke=27 mm"];
    bench.build(&[]);
    assert_eq!(revised(&bench), [""; 0], "a first issue has no table");
    assert_eq!(revisions(&bench, "piston-rod"), [("A".to_owned(), vec![])]);
    let said = bench.build(&shorter);
    let rod = bench.files()["allotment-pump/drawings/piston-rod.svg"].0.clone();
    let rod = String::from_utf8(rod).unwrap();
    assert!(rod.contains("aria-label=\"length 87.5 → 85\"") && rod.contains("aria-label=\"B\""));
    assert_eq!(revisions(&bench, "piston-rod")[1], ("B".to_owned(), vec!["length 87.5 → 85".to_owned()]));
    assert_eq!(revisions(&bench, "hot-cap").len(), 1);
    let told = revised(&bench);
    let made = |name: &String| said.contains(&format!("  {}: ", name.rsplit(['/', '.']).nth(1).unwrap()));
    assert!(told.len() > 1 && told.iter().all(made), "{told:?}: {said}");

    let before = bench.files();
    fs::remove_file(bench.out().join("allotment-pump").join(STAMP)).unwrap();
    assert!(bench.build(&shorter).contains("nothing changed: wrote no file"));
    let same = |(name, file): (&String, &_)| name.ends_with(STAMP) || before[name] == *file;
    assert!(bench.files().iter().all(|(name, file)| same((name, file))));

    bench.build(&[]);
    let back = ("C".to_owned(), vec!["length 85 → 87.5".to_owned()]);
    assert_eq!(revisions(&bench, "piston-rod")[2], back);
    bench.build(&[&shorter[..], &["--set", "drawings.revision=P7"]].concat());
    let indices: Vec<String> = revisions(&bench, "piston-rod").into_iter().map(|(index, _)| index).collect();
    assert_eq!(indices, ["A", "B", "C", "P7"]);
}
