//! How long the search for open numbers takes: two strokes, and the six openings of the cabin's generator.

use swept::design::read_draft;
use swept::sizing::search::settle;

const CABIN: &str = include_str!("../sample-designs/cabin-generator.toml");

fn main() {
    divan::main();
}

fn found(sets: &[(String, String)]) -> usize {
    let (draft, _) = read_draft("cabin.toml", CABIN.as_bytes(), sets).expect("the sample is sound");
    settle(&draft, &()).expect("an engine").report.map_or(0, |report| report.found.len())
}

#[divan::bench(sample_count = 3, sample_size = 1)]
fn six_openings() -> usize {
    found(&[])
}

#[divan::bench(sample_count = 3, sample_size = 1)]
fn two_strokes() -> usize {
    let given = [
        ("displacer.bore", "96 mm"),
        ("piston.bore", "64 mm"),
        ("displacer.gap", "0.8 mm"),
        ("drive.lead", "90°"),
    ];
    found(&given.map(|(key, value)| (key.to_owned(), value.to_owned())))
}
