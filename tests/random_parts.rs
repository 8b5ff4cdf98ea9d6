//! Random variations of the samples, a layout each: every one is built whole or refused with a reason, a bound and a hint. On
//! no sheet of those that are built does a text lie on another or a line run through one, and every size is told once.

mod draw;

use draw::Draw;
use rayon::prelude::*;
use std::sync::Mutex;
use swept::design::read;
use swept::diagnostic::Diagnostic;
use swept::drawing::audit::unreadable;
use swept::pipeline::{Built, build};

/// Variations in all, unless SWEPT_VARIATIONS says otherwise.
const VARIATIONS: u64 = 120;
/// One of so many has inches on its sheets too.
const INCHES: u64 = 5;

/// Variations of each sample.
fn each() -> u64 {
    let asked = std::env::var("SWEPT_VARIATIONS").ok().and_then(|n| n.parse().ok());
    asked.unwrap_or(VARIATIONS).div_ceil(SAMPLES.len() as u64)
}

/// A sample and how wide it is drawn: bores and strokes of displacer and piston \[mm\].
struct Sample {
    name: &'static str,
    bores_mm: [[f64; 2]; 2],
    strokes_mm: [[f64; 2]; 2],
    /// Whether one crankpin gives both strokes and the lead.
    one_crankpin: bool,
    /// Whether displacer and piston run in one bore.
    one_bore: bool,
}

const SAMPLES: [Sample; 4] = [
    Sample {
        name: "allotment-pump",
        bores_mm: [[60.0, 140.0], [30.0, 90.0]],
        strokes_mm: [[15.0, 60.0], [15.0, 60.0]],
        one_crankpin: false,
        one_bore: false,
    },
    Sample {
        name: "cabin-fan",
        bores_mm: [[50.0, 130.0], [20.0, 70.0]],
        strokes_mm: [[10.0, 44.0], [10.0, 44.0]],
        one_crankpin: true,
        one_bore: false,
    },
    Sample {
        name: "classroom-engine",
        bores_mm: [[120.0, 260.0], [20.0, 60.0]],
        strokes_mm: [[6.0, 25.0], [8.0, 36.0]],
        one_crankpin: false,
        one_bore: false,
    },
    Sample {
        name: "cabin-charger",
        bores_mm: [[58.0, 74.0]; 2],
        strokes_mm: [[22.0, 30.0], [20.0, 26.0]],
        one_crankpin: false,
        one_bore: true,
    },
];

/// Changes of the layout with one bore.
fn keys_of_one_bore(sample: &Sample, d: &mut Draw) -> Vec<(String, String)> {
    let mm = |d: &mut Draw, [low, high]: [f64; 2]| format!("{:.1} mm", d.even(low, high));
    let bore = mm(d, sample.bores_mm[0]);
    let mut all = vec![
        ("displacer.bore", bore.clone()),
        ("piston.bore", bore),
        ("displacer.stroke", mm(d, sample.strokes_mm[0])),
        ("piston.stroke", mm(d, sample.strokes_mm[1])),
    ];
    let sometimes = [
        ("drive.con_rod_length", mm(d, [38.0, 70.0])),
        ("cold_end.cylinder_length", mm(d, [40.0, 70.0])),
        ("hot_end.depth", mm(d, [80.0, 130.0])),
        ("displacer.rod_diameter", d.one_of(&["8 mm", "10 mm"]).to_owned()),
        ("piston.seal", d.one_of(&["o-ring", "ptfe-ring", "metal-ring"]).to_owned()),
        ("regenerator.kind", d.one_of(&["mesh", "wool", "foil"]).to_owned()),
    ];
    all.extend(sometimes.into_iter().filter(|_| d.unit() < 0.3));
    all.into_iter().map(|(key, value)| (key.to_owned(), value)).collect()
}

fn keys(sample: &Sample, d: &mut Draw) -> Vec<(String, String)> {
    if sample.one_bore {
        return keys_of_one_bore(sample, d);
    }
    let mut all = Vec::new();
    let mut set = |key: &str, value: String| all.push((key.to_owned(), value));
    let mm = |d: &mut Draw, [low, high]: [f64; 2]| format!("{:.1} mm", d.even(low, high));
    let stroke = mm(d, sample.strokes_mm[0]);
    set("displacer.bore", mm(d, sample.bores_mm[0]));
    set("piston.bore", mm(d, sample.bores_mm[1]));
    if sample.one_crankpin {
        set("piston.stroke", stroke.clone());
    } else {
        set("piston.stroke", mm(d, sample.strokes_mm[1]));
        set("drive.lead", format!("{:.0}°", d.even(30.0, 150.0)));
    }
    set("displacer.stroke", stroke);
    let mut sometimes = |d: &mut Draw, key: &str, value: String| {
        if d.unit() < 0.3 {
            set(key, value);
        }
    };
    let (plate, wall, rod) = (mm(d, [12.0, 40.0]), mm(d, [3.0, 9.0]), mm(d, [25.0, 130.0]));
    let (own_rod, bearing) =
        (d.one_of(&["4 mm", "5 mm", "6 mm", "8 mm"]), d.one_of(&["625", "626", "608", "6000"]));
    let (seal, gland) = (d.one_of(&["metal-ring", "o-ring", "graphite-ring"]), "close-bush");
    sometimes(d, "cooler.plate_thickness", plate);
    sometimes(d, "block.wall", wall);
    sometimes(d, "drive.con_rod_length", rod);
    sometimes(d, "displacer.rod_diameter", own_rod.into());
    sometimes(d, "drive.journal_bearing", bearing.into());
    sometimes(d, "piston.seal", seal.into());
    sometimes(d, "seals.gland", gland.into());
    // the tables end at O-rings round 100 mm, and a small plate has no room for a channel
    if sample.name == "allotment-pump" {
        set(
            "joints.cold_seal",
            d.one_of(&["gasket", "gasket", "gasket", "gasket", "gasket", "gasket", "gasket", "o-ring"])
                .into(),
        );
    }
    set("cooler.plate_channels", if d.unit() < 0.1 { "1" } else { "0" }.into());
    all
}

/// What a refusal must have.
fn sound(said: &[Diagnostic], sets: &[(String, String)]) {
    assert!(!said.is_empty(), "{sets:?}");
    for s in said {
        let whole = !s.message.is_empty() && s.allowed.is_some() && s.hint.is_some();
        assert!(whole && !s.message.contains("not a number"), "{s:?}: {sets:?}");
    }
}

/// What is wrong with the sheets of a variation.
fn wrong(built: &Built, seed: u64) -> Vec<String> {
    let unread =
        built.sheets.iter().flat_map(|s| unreadable(s).into_iter().map(|f| format!("{}: {f}", s.name)));
    let untold = built.warnings.iter().filter(|w| w.code == "swept::drawing").map(|w| w.message.clone());
    unread.chain(untold).map(|fault| format!("seed {seed}, {fault}")).collect()
}

/// How many of the variations of a sample can be built, and what is wrong with their sheets.
fn built(sample: &Sample) -> (usize, Vec<String>) {
    let path = format!("{}/sample-designs/{}.toml", env!("CARGO_MANIFEST_DIR"), sample.name);
    let text = std::fs::read(path).unwrap();
    let faults = Mutex::new(Vec::new());
    let one = |seed: u64| {
        let mut sets = keys(sample, &mut Draw::of(seed));
        if seed.is_multiple_of(INCHES) {
            sets.push(("drawings.units".into(), "mm-and-inch".into()));
        }
        let (design, _) = read(sample.name, &text, &sets).expect("every value is within its range");
        match build(&design, None) {
            Ok(built) => {
                assert!(built.set.parts.len() > 30 && built.files.len() > 40, "{sets:?}");
                faults.lock().unwrap().extend(wrong(&built, seed));
                // aids that find no place say so; one whose shape or mesh cannot be is a fault
                let faulty = |why: &String| why.starts_with("shape:");
                let found = built.manifest.aids.iter().find(|a| a.left_out.as_ref().is_some_and(faulty));
                assert!(found.is_none(), "{found:?} with {sets:?}");
                true
            }
            Err(said) => {
                sound(&said, &sets);
                false
            }
        }
    };
    let count = (0..each()).into_par_iter().filter(|seed| one(*seed)).count();
    let mut faults = faults.into_inner().unwrap();
    faults.sort();
    (count, faults)
}

#[test]
fn every_variation_is_built_or_refused_with_a_reason() {
    for sample in &SAMPLES {
        let (built, faults) = built(sample);
        assert!(faults.is_empty(), "{}: {} faults:\n{}", sample.name, faults.len(), faults.join("\n"));
        println!("{}: {built} of {} built", sample.name, each());
        assert!(built as u64 > each() / 6, "{}: {built}", sample.name);
    }
}
