//! Reads the sources and keeps the rules of the house: imports point one way, files and functions stay short.

use std::fs;
use std::path::{Path, PathBuf};

/// Rooms from the ground up; a room may use what stands before it, and itself.
const ROOMS: [&str; 13] = [
    "numerals",
    "diagnostic",
    "shape",
    "catalogue",
    "design",
    "sizing",
    "parts",
    "checks",
    "export",
    "drawing",
    "explore",
    "pipeline",
    "cli",
];

/// Longest source file, tests included \[lines\].
const LONGEST_FILE: usize = 600;
/// Longest function \[lines\].
const LONGEST_FUNCTION: usize = 120;

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn src() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// The room that a file belongs to.
fn room(path: &Path) -> Option<usize> {
    let first = path.strip_prefix(src()).unwrap().components().next().unwrap();
    let name = first.as_os_str().to_string_lossy();
    ROOMS.iter().position(|r| *r == name.trim_end_matches(".rs"))
}

#[test]
fn imports_point_one_way() {
    let mut wrong = Vec::new();
    let mut seen = 0;
    for path in sources(&src()) {
        let Some(own) = room(&path) else { continue };
        let text = fs::read_to_string(&path).unwrap();
        for (number, line) in text.lines().enumerate() {
            let code = line.split("//").next().unwrap();
            for root in ["crate::", "swept::"] {
                for piece in code.split(root).skip(1) {
                    let name: String =
                        piece.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                    let Some(used) = ROOMS.iter().position(|r| *r == name) else { continue };
                    seen += 1;
                    if used > own {
                        wrong.push(format!("{}:{}: {} uses {name}", path.display(), number + 1, ROOMS[own]));
                    }
                }
            }
        }
    }
    assert!(seen > 100, "the test reads the imports at all");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn files_are_short() {
    let long: Vec<String> = sources(&src())
        .iter()
        .map(|p| (fs::read_to_string(p).unwrap().lines().count(), p))
        .filter(|(n, _)| *n > LONGEST_FILE)
        .map(|(n, p)| format!("{}: {n} lines", p.display()))
        .collect();
    assert!(long.is_empty(), "{}", long.join("\n"));
}

/// Lines from a line that begins a function to the brace that closes it at the same indent (the sources are formatted).
fn functions(text: &str) -> Vec<(usize, usize)> {
    let lines: Vec<&str> = text.lines().collect();
    let begins = |line: &str| {
        let code = line.trim_start();
        ["fn ", "pub fn ", "pub(super) fn ", "pub(crate) fn ", "const fn ", "pub const fn "]
            .iter()
            .any(|b| code.starts_with(b))
    };
    let indent = |line: &str| line.len() - line.trim_start().len();
    let mut found = Vec::new();
    for (i, line) in lines.iter().enumerate().filter(|(_, l)| begins(l)) {
        let close = format!("{}}}", " ".repeat(indent(line)));
        let end = lines[i..].iter().position(|l| *l == close).unwrap_or(0);
        found.push((i + 1, end + 1));
    }
    found
}

#[test]
fn functions_are_short() {
    let mut long = Vec::new();
    let mut lengths = Vec::new();
    for path in sources(&src()) {
        for (line, length) in functions(&fs::read_to_string(&path).unwrap()) {
            lengths.push(length);
            if length > LONGEST_FUNCTION {
                long.push(format!("{}:{line}: {length} lines", path.display()));
            }
        }
    }
    lengths.sort_unstable();
    let median = lengths[lengths.len() / 2];
    let p95 = lengths[lengths.len() * 95 / 100];
    assert!(long.is_empty(), "{}", long.join("\n"));
    assert!(median <= 10 && p95 <= 50, "median {median}, 95 % {p95}");
}
