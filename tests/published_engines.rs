//! Predicted against published power of small engines: one set of coefficients, nothing fitted.

mod published;

use published::table::{markdown, rows, score};
use std::path::Path;

/// `SWEPT_WRITE_TABLE=1 cargo test --release --test published_engines` writes the table anew.
const WRITE: &str = "SWEPT_WRITE_TABLE";

#[test]
fn measured_power_against_the_band() {
    let rows = rows();
    let text = markdown(&rows);
    println!("{text}");
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/published-table.md");
    if std::env::var_os(WRITE).is_some() {
        std::fs::write(&file, &text).unwrap();
    }
    let (inside, median) = score(&rows);
    println!("{inside} {median}");
}
