//! Flange joints of hot cap and cold cylinder: one bolt circle serves both.

use crate::catalogue::threads::{Thread, thread, threads};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{BoltCircle, Joints};

/// Thickness of every gasket as built \[mm\].
pub fn gasket(d: &mut Decide) -> f64 {
    let design = d.design;
    d.mm("joints.gasket_thickness", &design.joints.gasket_thickness_mm)
}

/// Screw of the two flanges.
pub fn flange_screw(d: &mut Decide) -> &'static Thread {
    let design = d.design;
    screw(d, "joints.hot_screw", &design.joints.hot_screw)
}

/// A thread named in the design, with its diameter booked under the same path.
pub fn screw(d: &mut Decide, path: &str, setting: &crate::design::Setting<String>) -> &'static Thread {
    let found = d.look_up(path, thread(&setting.value)).unwrap_or(&threads()[4]);
    d.standard(path, found.major_mm, "ISO 261", &format!("nominal diameter of {}", found.designation));
    found
}

/// Diameter of the flange bolt circle \[mm\]: heads stand clear of the fins.
pub fn circle(d: &mut Decide, bore: f64, screw: &Thread) -> f64 {
    let design = d.design;
    let reach = bore + 2.0 * (design.cold_end.wall_mm.value + design.cold_end.fin_height_mm.value);
    d.rule(
        "joints.hot_circle",
        round_up(reach + screw.head_knurled_mm + 1.0, 1.0),
        ("fin diameter + head + 1 mm, to the next mm", "room for head and key, common practice, no source"),
        &["displacer.bore", "joints.hot_screw"],
    )
}

/// Number of screws on a circle: pitch of 12 diameters at the most, even, 6 at least.
fn count(d: &mut Decide, circle: f64, screw: &Thread) -> usize {
    let design = d.design;
    let needed = std::f64::consts::PI * circle / (12.0 * screw.major_mm);
    let even = (2.0 * (needed / 2.0).ceil()).max(6.0) as usize;
    d.open_count(
        "joints.hot_screws",
        &design.joints.hot_screws,
        ("pitch of 12 screw diameters at the most, even, 6 at least", "common practice, no source"),
        &["joints.hot_circle", "joints.hot_screw"],
        even,
    )
}

/// Smallest standard screw that reaches `through` and bites `bite` \[mm\].
fn length(d: &mut Decide, path: &str, screw: &Thread, [through, bite]: [f64; 2], inputs: &[&str]) -> f64 {
    let needed = through + bite;
    let found = d.design.catalogue.cap_screw_at_least(screw, needed);
    let length = found.unwrap_or_else(|| round_up(needed, 10.0));
    d.rule(path, length, ("next standard length (ISO 4762) over grip + engagement", "from memory"), inputs)
}

/// Both flange joints; `flange` \[mm\] is the cold cylinder's flange.
pub fn size(
    d: &mut Decide,
    circle: f64,
    screw: &'static Thread,
    cap_flange: f64,
    flange: f64,
    gasket: f64,
) -> Joints {
    let design = d.design;
    let count = count(d, circle, screw);
    let first = d.rule_in(
        "joints.hot_first_screw",
        180.0 / count as f64,
        crate::sizing::dimension::Unit::Degree,
        "half a pitch from the plane of both axes",
        &["joints.hot_screws"],
    );
    let inputs = ["hot_end.flange_thickness", "joints.gasket_thickness", "joints.hot_screw"];
    let hot =
        length(d, "joints.hot_screw_length", screw, [cap_flange + gasket, 1.5 * screw.major_mm], &inputs);
    let inputs = ["cold_end.flange_thickness", "joints.gasket_thickness", "joints.hot_screw"];
    let cold = length(d, "joints.cold_screw_length", screw, [flange + gasket, 2.0 * screw.major_mm], &inputs);
    let ring =
        |screw_mm| BoltCircle { thread: screw, diameter_mm: circle, count, first_deg: first, screw_mm };
    Joints {
        hot: ring(hot),
        cold: ring(cold),
        gasket_mm: gasket,
        hot_sheet: design.joints.hot_gasket.value.to_string(),
        cold_sheet: design.joints.cold_gasket.value.to_string(),
    }
}
