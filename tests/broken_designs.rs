//! Broken design files, each with what must be said about it: code, line and column, a part of the hint.
//!
//! `name.expect` has a line `code line:column part of the hint` for everything that is said about `name.toml`.

mod broken_support;

use broken_support::designs;
use std::fs;
use std::path::{Path, PathBuf};
use swept::design::read;
use swept::diagnostic::{Diagnostic, Severity};

fn files() -> Vec<PathBuf> {
    designs("broken-designs")
}

fn said(path: &Path) -> Vec<Diagnostic> {
    let name = path.file_name().unwrap().to_string_lossy();
    match read(&name, &fs::read(path).unwrap(), &[]) {
        Ok(_) => panic!("{name} was read without a complaint"),
        Err(said) => said,
    }
}

/// `code line:column`, and the hint.
fn summary(diagnostic: &Diagnostic) -> (String, &str) {
    let place = diagnostic
        .place
        .as_ref()
        .map_or("nowhere".into(), |place| format!("{}:{}", place.line, place.column));
    (format!("{} {place}", diagnostic.code), diagnostic.hint.as_deref().unwrap_or(""))
}

/// What differs between what was said and what is expected; `None` when nothing does.
fn difference(path: &Path) -> Option<String> {
    let said = said(path);
    let got: Vec<(String, &str)> = said.iter().map(summary).collect();
    let expected = fs::read_to_string(path.with_extension("expect")).unwrap();
    let wanted: Vec<(String, &str)> = expected.lines().map(split).collect();
    let same = got.len() == wanted.len()
        && got.iter().zip(&wanted).all(|(got, wanted)| got.0 == wanted.0 && got.1.contains(wanted.1));
    (!same).then(|| format!("{}\n  said   {got:?}\n  wanted {wanted:?}", path.file_stem().unwrap().display()))
}

fn split(line: &str) -> (String, &str) {
    let mut words = line.splitn(3, ' ');
    let (code, place) = (words.next().unwrap(), words.next().unwrap());
    (format!("{code} {place}"), words.next().unwrap_or(""))
}

#[test]
fn everything_that_is_wrong_is_said_with_place_and_hint() {
    let files = files();
    assert!(files.len() >= 40);
    let differences: Vec<String> = files.iter().filter_map(|path| difference(path)).collect();
    assert!(differences.is_empty(), "{}", differences.join("\n"));
}

#[test]
fn every_error_can_be_shown() {
    for path in files() {
        for diagnostic in said(&path) {
            let place = diagnostic.place.as_ref().expect("a mistake in a file has a place");
            assert!(diagnostic.hint.as_ref().is_some_and(|hint| !hint.is_empty()), "{}", path.display());
            assert!(place.excerpt.get(place.caret.clone()).is_some(), "{}: {place:?}", path.display());
            assert_eq!(diagnostic.severity, Severity::Error);
        }
    }
}
