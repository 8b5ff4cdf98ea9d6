//! Checks of a builder through a whole build: what is told, what stops it, what is accepted.

use std::fs;
use swept::design::{Design, read};
use swept::diagnostic::Diagnostic;
use swept::pipeline::{Built, build};
use swept::sizing::check::State;

fn design(text: &str) -> Design {
    read("pump.toml", text.as_bytes(), &[]).expect("the file is sound").0
}

fn sample(name: &str) -> Design {
    let path = format!("{}/sample-designs/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    read(name, &fs::read(path).unwrap(), &[]).expect("a sample").0
}

const THIN: &str = "[engine]\nname = \"bench-pump\"\nlayout = \"gamma-twin-crank\"\n\
    [displacer]\nbore = \"96 mm\"\nstroke = \"40 mm\"\nhot_clearance = \"0.15 mm\"\n\
    [piston]\nbore = \"64 mm\"\nstroke = \"32 mm\"\n";

fn built(text: &str) -> Result<Built, Vec<Diagnostic>> {
    build(&design(text), None)
}

/// A cap that has cooled while the shell has not takes 0.3 mm and more from a clearance of 0.15 mm: 18e-6/K of stainless steel
/// over 90 mm and some 230 K (growth by heat; expansion of the catalogue).
#[test]
fn a_check_that_fails_stops_the_build_until_it_is_accepted_by_name() {
    let said = built(THIN).expect_err("the displacer touches its end");
    assert!(said.iter().all(|d| d.code == "swept::check"), "{said:?}");
    let names: Vec<&str> = said.iter().map(|d| d.message.split(':').next().unwrap()).collect();
    assert!(names.contains(&"displacer-hot-end-cooling"), "{names:?}");
    let place = said[0].place.as_ref().expect("a place");
    assert_eq!((place.line, place.column), (7, 17));
    let accept = |name: &&str| format!("[[checks.accept]]\nname = \"{name}\"\nwhy = \"never let go cold\"\n");
    let accepted: String = names.iter().map(accept).collect();
    let built = built(&format!("{THIN}{accepted}")).expect("accepted");
    let told: Vec<_> = built.manifest.checks.iter().filter(|c| c.accepted.is_some()).collect();
    assert_eq!(told.len(), names.len());
    assert!(
        told.iter().all(|c| c.state == State::Fail && c.accepted.as_deref() == Some("never let go cold"))
    );
    let noted = |part: &str| {
        let part = built.set.parts.iter().find(|p| p.name == part).unwrap();
        part.notes
            .iter()
            .any(|note| note.contains("displacer-hot-end-cooling") && note.contains("never let go cold"))
    };
    assert!(noted("hot-cap") && noted("displacer-shell") && !noted("piston"));
}

#[test]
fn no_sample_fails_and_every_pair_is_of_the_assembly() {
    for name in ["allotment-pump", "stove-fan", "cabin-fan", "classroom-engine"] {
        let built = build(&sample(name), None).expect(name);
        let m = &built.manifest;
        assert!(m.checks.len() > 100 && m.clearances.len() > 15, "{name}");
        assert!(m.checks.iter().all(|c| c.state != State::Fail && !c.source.is_empty()), "{name}");
        let mut names: Vec<&str> = m.checks.iter().map(|c| c.name.as_str()).collect();
        names.sort_unstable();
        let count = names.len();
        names.dedup();
        assert_eq!(names.len(), count, "{name}: a name twice");
        for pair in &m.clearances {
            let known = |part: &String| m.instances.iter().any(|i| i.name == *part);
            assert!(pair.parts.iter().all(known), "{name}: {:?}", pair.parts);
            assert!(pair.least_mm > 0.0 && pair.least_mm < 500.0, "{name}: {pair:?}");
            assert!(pair.hot_mm > 0.0 && (pair.hot_mm - pair.least_mm).abs() < 1.5, "{name}: {pair:?}");
        }
        let paths: Vec<&str> = m.checks.iter().map(|c| c.path.as_str()).filter(|p| !p.is_empty()).collect();
        let known =
            |path: &&&str| m.decided.iter().any(|d| d.path == **path) || path.starts_with("workshop.");
        let unknown: Vec<_> = paths.iter().filter(|path| !known(path)).collect();
        assert!(unknown.is_empty(), "{name}: {unknown:?}");
    }
}
