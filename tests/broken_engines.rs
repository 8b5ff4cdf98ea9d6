//! Designs whose file is sound but whose engine cannot be: what must be said, with place, bound and hint.
//!
//! `name.expect` has a line `code line:column part of the hint` for everything that is said about `name.toml`.

mod broken_support;

use broken_support::designs;
use std::fs;
use std::path::{Path, PathBuf};
use swept::design::read;
use swept::diagnostic::Diagnostic;
use swept::pipeline::build;

fn files() -> Vec<PathBuf> {
    designs("broken-engines")
}

fn said(path: &Path) -> Vec<Diagnostic> {
    let name = path.file_name().unwrap().to_string_lossy();
    let (design, _) = read(&name, &fs::read(path).unwrap(), &[]).expect("the file itself is sound");
    match build(&design, None) {
        Ok(_) => panic!("{name} was built without a complaint"),
        Err(said) => said,
    }
}

#[test]
fn every_impossible_engine_is_refused_with_place_bound_and_hint() {
    let files = files();
    assert!(files.len() >= 20);
    for path in files {
        let said = said(&path);
        let expected = fs::read_to_string(path.with_extension("expect")).unwrap();
        assert_eq!(said.len(), expected.lines().count(), "{}: {said:?}", path.display());
        for (diagnostic, line) in said.iter().zip(expected.lines()) {
            let place = diagnostic.place.as_ref().expect("a place in the file");
            let hint = diagnostic.hint.as_deref().expect("a hint");
            assert!(diagnostic.allowed.is_some(), "{}: {diagnostic:?}", path.display());
            let got = format!("{} {}:{} {hint}", diagnostic.code, place.line, place.column);
            let mut words = line.splitn(3, ' ');
            let head = format!("{} {} ", words.next().unwrap(), words.next().unwrap());
            assert!(
                got.starts_with(&head) && got.contains(words.next().unwrap()),
                "{}: {got}",
                path.display()
            );
        }
    }
}
