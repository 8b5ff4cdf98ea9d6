//! Solids of the sample recipes, and their STEP files for the outside check.
//!
//! With `SWEPT_OUTSIDE_DIR` set the files are written there, for `tests/outside/test_step_kernel.py`.

mod common;

use serde_json::{Value, json};
use swept::export::step::{Schema, StepOptions, assembly_step, part_step};
use swept::parts::part::Instance;
use swept::shape::measure::measure;
use swept::shape::solid::build;
use swept::shape::{Point3, Vector3};

fn figures(name: &str, m: &swept::shape::measure::Measure) -> Value {
    json!({
        "name": name,
        "volume_mm3": m.volume_mm3,
        "area_mm2": m.area_mm2,
        "centre": [m.centre.x, m.centre.y, m.centre.z],
        "inertia_mm5": m.inertia_mm5,
        "low": [m.low.x, m.low.y, m.low.z],
        "high": [m.high.x, m.high.y, m.high.z],
        "faces": m.faces,
    })
}

fn instances() -> Vec<Instance> {
    let place = |name: &str, part: &str, origin: [f64; 3], z_axis: Vector3, x_axis: Vector3| Instance {
        name: name.into(),
        part: part.into(),
        origin: Point3::new(origin[0], origin[1], origin[2]),
        z_axis,
        x_axis,
    };
    vec![
        place("lower flange", "flange", [0.0, 0.0, 0.0], common::UP, common::X),
        place("upper flange", "flange", [0.0, 0.0, 80.0], common::DOWN, common::X),
        place("tube", "tube", [0.0, 0.0, 10.0], common::UP, common::Y),
        place("drive shaft", "shaft", [0.0, 100.0, 0.0], common::X, common::UP),
    ]
}

#[test]
fn every_sample_becomes_a_solid_and_a_file() {
    let kept = tempfile::tempdir().expect("a temporary folder");
    let folder = std::env::var_os("SWEPT_OUTSIDE_DIR").map_or_else(|| kept.path().to_owned(), Into::into);
    std::fs::create_dir_all(&folder).expect("the folder");
    let mut parts = Vec::new();
    for (name, recipe) in common::all() {
        let solid = build(&recipe).unwrap_or_else(|e| panic!("{name}: {e}"));
        parts.push((common::part(name, recipe), solid));
    }
    let mut list = Vec::new();
    for (part, solid) in &parts {
        list.push(figures(&part.name, &measure(solid)));
        for (schema, ending) in [(Schema::Ap214, "step"), (Schema::Ap242, "ap242.step")] {
            let options = StepOptions { schema, ..StepOptions::default() };
            let text = part_step(part, solid, &options);
            assert_eq!(text, part_step(part, solid, &options), "{} differs from run to run", part.name);
            assert!(text.is_ascii() && !text.contains("NaN") && !text.contains("-0.,"));
            std::fs::write(folder.join(format!("{}.{ending}", part.name)), text).expect("written");
        }
    }
    let measures: Vec<_> = parts.iter().map(|(_, s)| measure(s)).collect();
    let pairs: Vec<_> = parts.iter().zip(&measures).map(|((p, s), m)| (p, (s, m))).collect();
    let text = assembly_step("engine", &pairs, &instances(), &StepOptions::default());
    std::fs::write(folder.join("assembly.step"), text).expect("written");
    let trials: Vec<_> = common::trials(150, 11)
        .into_iter()
        .step_by(3)
        .enumerate()
        .map(|(i, (recipe, solid))| {
            let part = common::part(&format!("trial-{i}"), recipe);
            let text = part_step(&part, &solid, &StepOptions::default());
            std::fs::write(folder.join(format!("{}.step", part.name)), text).expect("written");
            figures(&part.name, &measure(&solid))
        })
        .collect();
    assert!(trials.len() > 30, "only {} trials", trials.len());
    let names: Vec<_> = instances().into_iter().map(|i| json!({ "name": i.name, "part": i.part })).collect();
    let all = json!({ "parts": list, "trials": trials, "instances": names });
    std::fs::write(folder.join("kernel.json"), format!("{all:#}")).expect("written");
}
