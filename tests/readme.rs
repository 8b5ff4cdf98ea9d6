//! Everything that README.md shows is real: its commands are run, its table of keys and its pictures are current.
//!
//! `SWEPT_BLESS=1 cargo test --release --test readme` writes keys and pictures anew.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use swept::design::{keys_markdown, read};
use swept::explore::{Input, Output, Shard, Sweep, chart};
use swept::pipeline::build;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn readme() -> String {
    fs::read_to_string(root().join("README.md")).unwrap()
}

fn bless() -> bool {
    std::env::var_os("SWEPT_BLESS").is_some()
}

/// Splits a command line at blanks outside quotation marks.
fn words(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            c => words.last_mut().unwrap().push(c),
        }
    }
    words
}

#[test]
fn every_command_says_what_is_shown() {
    let text = readme();
    let out = tempfile::tempdir().unwrap();
    let mut run = 0;
    for block in text.split("```console\n").skip(1) {
        let block = block.split("```").next().unwrap();
        let mut lines = block.lines();
        let line = lines.next().unwrap().strip_prefix("$ swept ").expect("a command of ours");
        let mut arguments = words(line);
        if arguments[0] == "build" {
            arguments.extend(["--out".to_owned(), out.path().display().to_string()]);
        }
        let done =
            Command::new(env!("CARGO_BIN_EXE_swept")).current_dir(root()).args(&arguments).output().unwrap();
        let said = String::from_utf8(done.stdout).unwrap();
        assert!(done.status.success(), "{line}: {}", String::from_utf8_lossy(&done.stderr));
        for shown in lines {
            assert!(said.contains(shown), "{line}: {shown:?} is not in\n{said}");
        }
        run += 1;
    }
    assert!(run >= 3);
}

/// The part of README.md between two marks is this text; or it is written, when blessing.
fn between(mark: &str, wanted: &str) {
    let text = readme();
    let (begin, end) = (format!("<!-- {mark}: begin -->\n"), format!("<!-- {mark}: end -->"));
    let (begin, end) = (begin.as_str(), end.as_str());
    let (head, rest) = text.split_once(begin).unwrap();
    let (shown, tail) = rest.split_once(end).unwrap();
    if bless() {
        fs::write(root().join("README.md"), format!("{head}{begin}{wanted}{end}{tail}")).unwrap();
    } else {
        assert_eq!(shown, wanted);
    }
}

/// One test for both tables: when blessing, each writes the whole file.
#[test]
fn the_tables_are_current() {
    between("keys", &format!("{}\n", keys_markdown()));
    let engines = fs::read_to_string(root().join("tests/data/published-table.md")).unwrap();
    between("engines", &format!("\n{engines}\n"));
}

#[test]
fn the_pictures_are_files_of_a_build() {
    let sample = "sample-designs/allotment-pump.toml";
    let (design, _) = read(sample, &fs::read(root().join(sample)).unwrap(), &[]).unwrap();
    let built = build(&design, None).unwrap();
    let pictures: [(&str, PathBuf); 2] = [
        ("drawings/power-cylinder-block.svg", "sample-designs/pictures/power-cylinder-block.svg".into()),
        ("outlines/jacket-gasket.svg", "sample-designs/pictures/jacket-gasket.svg".into()),
    ];
    for (file, picture) in pictures {
        assert!(readme().contains(picture.to_str().unwrap()), "{}", picture.display());
        if bless() {
            fs::write(root().join(&picture), &built.files[file]).unwrap();
        } else {
            assert!(
                fs::read(root().join(&picture)).unwrap() == built.files[file],
                "{} is old",
                picture.display()
            );
        }
    }
}

#[test]
fn the_chart_is_current() {
    let (sample, picture) =
        ("sample-designs/allotment-pump.toml", "sample-designs/pictures/power-over-lead.svg");
    let lead = Input::read("drive.lead", "30°..150°", Some(25)).unwrap();
    let bytes = fs::read(root().join(sample)).unwrap();
    let table = Sweep::new(sample, bytes, vec![], vec![lead]).unwrap().run(Shard::WHOLE, &|| ());
    let drawn = chart(&table, &[Output::find("indicated-power").unwrap()]).unwrap();
    assert!(readme().contains(picture));
    if bless() {
        fs::write(root().join(picture), &drawn).unwrap();
    } else {
        assert!(fs::read_to_string(root().join(picture)).unwrap() == drawn, "{picture} is old");
    }
}
