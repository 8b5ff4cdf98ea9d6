//! `swept build` as a user runs it: the folder, a second run, a changed stroke, a broken design.

mod broken_support;

use broken_support::designs;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

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
