//! The hot gasket as a thermal break: its own thickness stands in the stack, in the part, under the screws and in the heat.

use swept::design::{Design, read};
use swept::parts::part::PartSet;
use swept::parts::part_set;
use swept::shape::recipe::Body;
use swept::sizing::answer::size;
use swept::sizing::engine::Engine;
use swept::sizing::verdict::{hot_flange_k, through_hot_joint_w};

fn design(sample: &str, sets: &[(&str, &str)]) -> Design {
    let path = format!("{}/sample-designs/{sample}.toml", env!("CARGO_MANIFEST_DIR"));
    let sets: Vec<(String, String)> = sets.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
    read(sample, &std::fs::read(path).unwrap(), &sets).expect("a sound design").0
}

fn made(sample: &str, sets: &[(&str, &str)]) -> (Engine, PartSet) {
    let design = design(sample, sets);
    let engine = size(&design).unwrap_or_else(|said| panic!("{sample}: {said:?}")).engine;
    let set = part_set(&engine, &design.workshop, 0.0);
    (engine, set)
}

fn thickness_mm(set: &PartSet, name: &str) -> f64 {
    let part = set.parts.iter().find(|p| p.name == name).expect(name);
    match &part.recipe.as_ref().expect("made").body {
        Body::Plate { thickness, .. } => *thickness,
        Body::Turned(_) => panic!("{name} is turned"),
    }
}

const BREAK: [(&str, &str); 2] =
    [("joints.hot_gasket", "vermiculite"), ("joints.hot_gasket_thickness", "1.9 mm")];

/// Every part that stands on it moves up by what it is thicker, in layouts of one line and of two.
#[test]
fn a_thick_one_lifts_the_hot_cap_and_lengthens_the_displacer() {
    for sample in ["allotment-pump", "cabin-fan", "classroom-engine", "cabin-charger"] {
        let (thin, _) = made(sample, &[("hot_end.depth", "120 mm")]);
        let (thick, set) = made(sample, &[&BREAK[..], &[("hot_end.depth", "120 mm")]].concat());
        let more = 1.9 - thin.joints.hot_gasket_mm;
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{sample}: {a} {b}");
        near(thick.stack.cap_low_mm - thick.stack.cold_top_mm, 1.9);
        near(thick.stack.cap_low_mm - thin.stack.cap_low_mm, more);
        near(thick.displacer.length_mm - thin.displacer.length_mm, more);
        near(thickness_mm(&set, "hot-cap-gasket"), 1.9);
        near(thick.joints.gasket_mm, thin.joints.gasket_mm);
        let cap = |set: &PartSet| set.instances.iter().find(|i| i.name == "hot-cap").unwrap().origin.z;
        near(cap(&set), thick.stack.cap_low_mm);
        let screws = set.screws.iter().find(|f| f.joint == "hot-joint").expect("hot joint");
        near(screws.grip_mm, thick.hot_cap.flange_mm + 1.9);
    }
}

/// Left open it is as thick as the others, but never thicker than its sheet is sold: graphite of 2 mm, the thickest of the
/// table, is 1.25 mm when compressed by (30 + 45)/2 %.
#[test]
fn left_open_it_is_what_its_sheet_is_sold_in() {
    let (same, _) = made("allotment-pump", &[]);
    assert_eq!(same.joints.hot_gasket_mm, same.joints.gasket_mm);
    let (thick, _) = made("allotment-pump", &[("joints.gasket_thickness", "3 mm")]);
    assert!((thick.joints.hot_gasket_mm - 1.25).abs() < 1e-9, "{}", thick.joints.hot_gasket_mm);
}

/// By hand (Fourier's law): bore 96 mm, flange 137 mm, ten M4: gasket π/4 (137² − 96² − 10 × 16) = 7377 mm², of 0.25 W/(m K)
/// and 1.9 mm 0.9707 W/K; screws 10 × 12.566 mm² of steel over 7.9 mm. Gasket to screws is as their conductances, and what
/// comes down the wall of the hot cap goes through both.
#[test]
fn heat_goes_through_gasket_and_screws_side_by_side() {
    let (e, _) = made("allotment-pump", &BREAK);
    assert_eq!((e.joints.hot.count, e.joints.hot.thread.major_mm), (10, 4.0));
    assert_eq!((e.displacer.bore_mm, e.cold.flange_diameter_mm), (96.0, 137.0));
    let (hot_k, cold_k) = (e.hot_cap.temperature_k, e.cold.temperature_k);
    let steel = e.metal("mild-steel").conductivity_w_m_k(cold_k - 273.15);
    let fall_k = hot_flange_k(&e, hot_k, cold_k) - cold_k;
    let [gasket, screws] = through_hot_joint_w(&e, hot_k, cold_k);
    assert!((gasket / fall_k / 0.9707 - 1.0).abs() < 1e-3, "{gasket} W over {fall_k} K");
    assert!((screws / fall_k / (steel * 1e-3 * 125.66 / 7.9) - 1.0).abs() < 1e-3, "{screws} W");
    let (thin, _) = made("allotment-pump", &[]);
    let all = through_hot_joint_w(&thin, hot_k, cold_k).iter().sum::<f64>();
    assert!(gasket + screws < 0.95 * all, "{gasket} + {screws} against {all}");
    assert!(fall_k > 5.0 * (hot_flange_k(&thin, hot_k, cold_k) - cold_k));
}
