//! Every number of the catalogue says where it comes from.

use std::collections::{BTreeSet, HashMap};
use std::fs;
use std::path::PathBuf;

fn tables() -> Vec<PathBuf> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/catalogue/data");
    fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect()
}

fn rows(path: &PathBuf) -> Vec<HashMap<String, String>> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path).unwrap();
    reader
        .deserialize()
        .collect::<Result<_, _>>()
        .unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Codes such as `W27b` in a text.
fn codes(text: &str) -> BTreeSet<String> {
    let words = text.split(|c: char| !c.is_ascii_alphanumeric());
    let is_code = |word: &&str| {
        let digits = word.get(1..).unwrap_or("").trim_end_matches('b');
        word.starts_with(['C', 'P', 'T', 'W'])
            && !digits.is_empty()
            && digits.bytes().all(|b| b.is_ascii_digit())
    };
    words.filter(is_code).map(Into::into).collect()
}

#[test]
fn every_row_has_a_status_and_every_source_is_explained() {
    let sources = tables().into_iter().find(|path| path.ends_with("sources.csv")).unwrap();
    let known: BTreeSet<String> = rows(&sources).into_iter().map(|row| row["code"].clone()).collect();
    let mut checked = 0;
    for path in tables().iter().filter(|path| path.extension().is_some_and(|ending| ending == "csv")) {
        if *path == sources {
            continue;
        }
        for row in rows(path) {
            let status = &row["status"];
            let said = ["SEEN", "MEMORY", "COMPUTED"].iter().any(|word| status.starts_with(word));
            assert!(said, "{}: {status:?}", path.display());
            let unknown: Vec<String> = row
                .get("src")
                .map(|src| codes(src).difference(&known).cloned().collect())
                .unwrap_or_default();
            assert!(unknown.is_empty(), "{}: {unknown:?}", path.display());
            checked += 1;
        }
    }
    assert!(checked > 400);
}

#[test]
fn every_entry_of_the_other_tables_has_a_status() {
    for path in tables().iter().filter(|path| path.extension().is_some_and(|ending| ending == "toml")) {
        let text = fs::read_to_string(path).unwrap();
        let entries = text.matches("\n[[").count() + usize::from(text.starts_with("[["));
        assert_eq!(text.matches("\nstatus = ").count(), entries, "{}", path.display());
        assert!(entries > 3);
    }
}
