//! Predicted against published power of small engines: one set of coefficients, nothing fitted.
//!
//! `SWEPT_WRITE_TABLE=1 cargo test --release --test published_engines` writes `tests/data/published-table.md` anew.

mod published;

use published::data::{From, Output, file};
use published::table::{Row, markdown, rows, score};
use std::collections::BTreeSet;
use std::path::Path;

const WRITE: &str = "SWEPT_WRITE_TABLE";

/// Numbers of the table and of the score. The aim is four fifths inside the band and a median factor below 1.3. It is
/// **not met**; what is met is held here with a margin, so that a worse model fails. Reasons stand in the table.
#[test]
fn measured_power_against_the_band() {
    let rows = rows();
    let text = markdown(&rows);
    println!("{text}");
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/published-table.md");
    if std::env::var_os(WRITE).is_some() {
        std::fs::write(&path, &text).unwrap();
    }
    assert_eq!(std::fs::read_to_string(&path).unwrap(), text, "{WRITE}=1 writes the table anew");
    for row in &rows {
        assert!(row.band.failed <= 6, "{}: {:?}", row.engine.id, row.band);
    }
    let (inside, median) = score(&rows);
    assert!(inside >= 0.6, "{inside}");
    assert!(median < 4.0, "{median}");
    said_in_the_readme(inside, median);
    in_the_right_place(&rows);
}

/// README and command line say the same figures.
fn said_in_the_readme(inside: f64, median: f64) {
    let file = |name| std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).unwrap();
    let of_ten = format!("{:.0} of 10", 10.0 * inside);
    let readme = file("README.md");
    let summary = format!("{of_ten} judged points in the band, median factor {median:.1}");
    assert!(readme.contains(&summary), "README: {summary}");
    assert!(file("src/cli/size.rs").contains(&of_ten), "src/cli/size.rs: {of_ten}");
}

/// The GPU-3 is predicted within a factor of 1.4 (seen: 1.2 with both gases), and hydrogen over helium within a tenth of what
/// was measured.
fn in_the_right_place(rows: &[Row]) {
    let of = |id: &'static str| rows.iter().filter(move |r| r.engine.id == id);
    for row in of("gpu3").filter(|r| r.counts()) {
        let ratio = row.ratio().unwrap();
        assert!((0.7..1.4).contains(&ratio), "{} {ratio}", row.point.gas);
    }
    let [hydrogen, helium]: [&Row; 2] =
        of("gpu3").filter(|r| r.counts()).collect::<Vec<_>>().try_into().ok().unwrap();
    let predicted = hydrogen.power_w().p50 / helium.power_w().p50;
    assert!((predicted / (6820.0 / 4260.0) - 1.0).abs() < 0.1, "hydrogen over helium {predicted}");
}

/// The published collection has 23 engines; each is built or left out with a reason, and one was added.
#[test]
fn every_published_engine_is_built_or_left_out_with_a_reason() {
    let file = file();
    let built = file.engine.iter().map(|e| e.id.as_str());
    let left = file.left_out.iter().map(|l| l.id.as_str());
    let all: BTreeSet<&str> = built.chain(left).collect();
    assert_eq!(all.len(), 24);
    assert_eq!(all.len(), file.engine.len() + file.left_out.len(), "none twice");
    assert!(file.engine.iter().all(|e| !e.reason.is_empty() && !e.source.is_empty()));
    assert!(file.left_out.iter().all(|l| !l.why.is_empty()));
}

/// Every number has bounds or a value with its provenance; a spread is stated for all that is assumed and not a count or
/// a guess named as such; what is remembered or promised is never judged.
#[test]
fn numbers_carry_their_provenance() {
    for engine in &file().engine {
        let sizes = engine.size.iter().chain(engine.exchanger.iter().flat_map(|e| &e.sizes));
        let points = engine.point.iter().flat_map(|p| &p.at);
        for (name, q) in sizes.chain(points) {
            let spread = matches!((q.low, q.high), (Some(low), Some(high)) if low < high);
            assert!(spread != q.value.is_some(), "{}: {name}", engine.id);
            // A spread is for what the source leaves open: assumed, or seen without a word on gauge or absolute.
            assert!(!spread || matches!(q.from, From::Assumed | From::Seen), "{}: {name}", engine.id);
        }
        for point in &engine.point {
            assert_eq!(point.measured_w.is_some(), point.measured_from.is_some());
            let never = point.output == Output::Rating || point.measured_from == Some(From::Memory);
            assert!(!(never && point.counts()), "{}", engine.id);
        }
    }
}

/// The same seed gives the same band, whatever the number of cores.
#[test]
fn a_band_is_reproducible() {
    let engine = published::data::Engine::named("khanjanpour-2021");
    let band = || published::predict::predict(&engine, &engine.point[0]);
    assert_eq!(band(), band());
}
