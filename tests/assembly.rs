//! The order of assembly: every part of every sample comes in, and nothing that must be set is forgotten.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;
use std::sync::OnceLock;
use swept::design::read_draft;
use swept::parts::fastening::Hole;
use swept::parts::part::{PartSet, Supply};
use swept::parts::part_set;
use swept::sizing::answer::size;
use swept::sizing::search::settle;

/// The samples' part sets; one of them takes a search, so all are made once.
fn samples() -> &'static [(String, PartSet)] {
    static MADE: OnceLock<Vec<(String, PartSet)>> = OnceLock::new();
    MADE.get_or_init(made)
}

fn made() -> Vec<(String, PartSet)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("sample-designs");
    let mut files: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap()
        .map(|f| f.unwrap().path())
        .filter(|p| p.extension().is_some_and(|e| e == "toml"))
        .collect();
    files.sort();
    files
        .iter()
        .map(|path| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            let (draft, _) = read_draft(&name, &fs::read(path).unwrap(), &[]).unwrap();
            let design = settle(&draft, &()).unwrap().design;
            let engine = size(&design).unwrap().engine;
            (name, part_set(&engine, &design.workshop, 0.0))
        })
        .collect()
}

/// A builder who follows the steps has nothing left over on the bench: each part, gasket, ring and fastener is named.
#[test]
fn every_part_comes_in_at_some_step() {
    for (name, set) in samples() {
        let named: BTreeSet<&str> =
            set.steps.iter().flat_map(|s| s.parts.iter().map(String::as_str)).collect();
        let left: Vec<&str> =
            set.parts.iter().map(|p| p.name.as_str()).filter(|p| !named.contains(p)).collect();
        assert!(left.is_empty(), "{name}: left on the bench: {left:?}");
        assert!(set.parts.iter().any(|p| matches!(p.supply, Supply::Buy { .. })));
    }
}

/// Lead, ring gaps, end clearances and torque in rounds are what the trade sets while it puts an engine together (common
/// practice, no source).
#[test]
fn what_must_be_set_is_told() {
    for (name, set) in samples() {
        let told: Vec<&str> =
            set.steps.iter().flat_map(|s| s.settings.iter().map(|t| t.what.as_str())).collect();
        let all = told.join("; ");
        for wanted in
            ["displacer to plate", "piston to its inner end", "hot joint", "cold joint", "gap around"]
        {
            assert!(all.contains(wanted), "{name}: no {wanted} in {all}");
        }
        assert!(all.contains("lead") || all.contains("angle between the cylinders"), "{name}: {all}");
        if set.parts.iter().any(|p| p.name == "piston-ring") {
            assert!(all.contains("ring gap"), "{name}: {all}");
        }
    }
}

/// Hazards that this kind of engine always has: heat, moving parts, steam; of a flame only where one burns.
#[test]
fn hazards_are_on_the_sheet() {
    for (name, set) in samples() {
        let all: String =
            set.steps.iter().flat_map(|s| s.cautions.iter().cloned()).collect::<Vec<_>>().join(" ");
        for hazard in ["burns", "steam", "guard", "oil mist"] {
            assert!(all.contains(hazard), "{name}: no word of {hazard}");
        }
        let flame = *name != "classroom-engine";
        assert_eq!(
            all.contains("carbon monoxide"),
            flame,
            "{name}: stands on a mug of hot water or has a flame"
        );
        assert_eq!(all.contains("flame is out"), flame, "{name}");
    }
}

/// Where an O-ring seals a joint, its step names the ring and no gasket; a gasket is named where one lies.
#[test]
fn words_follow_the_seal() {
    let mut ringed = 0;
    for (name, set) in samples() {
        let has = |part: &str| set.parts.iter().any(|p| p.name == part);
        for (title, ring, gasket) in [
            ("Cold cylinder", "cold-cylinder-ring", "cold-cylinder-gasket"),
            ("Power cylinder", "power-cylinder-ring", "power-cylinder-gasket"),
        ] {
            let Some(step) = set.steps.iter().find(|s| s.title == title) else { continue };
            let said = step.lines.join(" ");
            let bare = said.replace("jacket gasket", "").to_lowercase();
            assert!(!(has(ring) && has(gasket)), "{name}: both seals");
            assert_eq!(bare.contains("gasket"), has(gasket), "{name}: {said}");
            assert_eq!(bare.contains("o-ring"), has(ring), "{name}: {said}");
            ringed += usize::from(has(ring));
        }
    }
    assert!(ringed >= 2, "no sample has O-rings in its cold joints");
}

/// Nothing is put on twice: a part of which the engine has one comes in at one step, and a step speaks of belts only where
/// there are any.
#[test]
fn nothing_comes_in_twice() {
    for (name, set) in samples() {
        for part in set.parts.iter().filter(|p| p.quantity == 1) {
            let steps: Vec<&str> =
                set.steps.iter().filter(|s| s.parts.contains(&part.name)).map(|s| s.title.as_str()).collect();
            let used_up =
                ["compound", "grease", "paste", "sealant", "lock"].iter().any(|w| part.name.contains(w));
            assert!(steps.len() == 1 || used_up, "{name}: {} comes in at {steps:?}", part.name);
        }
        let belted = set.parts.iter().any(|p| p.name.contains("belt"));
        let said = set.steps.iter().flat_map(|s| &s.lines).any(|l| l.contains("belt"));
        assert_eq!(said, belted, "{name}: belts");
        // a con rod goes on a crank that is there already
        let at = |part: &str| set.steps.iter().rposition(|s| s.parts.iter().any(|p| p == part));
        for crank in ["displacer-crank", "piston-crank", "crank"] {
            assert!(at(crank) <= at("con-rod"), "{name}: {crank} after the last con rod");
        }
    }
}

/// The screw in a crankpin ends before its thread does (the standard M3x8 did not: it bottomed before it clamped).
#[test]
fn crankpin_screws_clamp_before_they_bottom() {
    let mut looked_at = 0;
    for (name, set) in samples() {
        for screw in set.screws.iter().filter(|s| s.joint.ends_with("-pin")) {
            let Hole::Blind(depth) = screw.hole else { panic!("{name}: a blind hole") };
            let reach = screw.length_mm - screw.grip_mm;
            assert!(reach + 0.4 < depth && reach > screw.thread.major_mm, "{name}: {reach} in {depth}");
            let bought = set.parts.iter().find(|p| p.name == "pin-screw").unwrap();
            let Supply::Buy { designation } = &bought.supply else { panic!() };
            assert!(designation.ends_with(&format!("x{}", screw.length_mm)), "{name}: {designation}");
            looked_at += 1;
        }
    }
    assert!(looked_at >= 6, "{looked_at}");
}
