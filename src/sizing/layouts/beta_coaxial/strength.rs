//! What the pressure asks of plates, screws and the hot cap.
//!
//! A proposal and not a proof: in many places an engine like this is pressure equipment in law, and the code that holds
//! there decides.

use super::{Case, Head};
use crate::catalogue::threads::Thread;
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::{HotCap, Joints};
use crate::sizing::volumes::circle_mm2;

/// Stress that the gas may add in a screw of class 8.8 \[MPa\]: a quarter of its yield, the rest is for the gasket; common
/// practice, no source.
pub const SCREW_MPA: f64 = 160.0;
/// Poisson's ratio of metals.
const POISSON: f64 = 0.33;

/// Pull of the gas on a joint \[N\] inside a circle \[mm\].
pub fn pull_n(circle: f64, pa: f64) -> f64 {
    1e-6 * pa * circle_mm2(circle)
}

/// Number of screws on a circle \[mm\]: for the pull of the gas, and with a pitch of 12 diameters at the most.
pub fn bolts(d: &mut Decide, path: &str, t: &Thread, circle: f64, pa: f64) -> usize {
    let by_pull = pull_n(circle, pa) / (SCREW_MPA * t.stress_area_mm2);
    let by_pitch = std::f64::consts::PI * circle / (12.0 * t.major_mm);
    let count = (2.0 * (by_pull.max(by_pitch) / 2.0).ceil()).max(6.0);
    let room = (std::f64::consts::PI * circle / (t.head_knurled_mm + 2.0)).floor();
    d.rule_in(
        path,
        count,
        Unit::Count,
        (
            "pull of the gas / (160 MPa x stress area of class 8.8), pitch of 12 diameters at the most, even, 6 at least",
            "common practice, no source; stress area ISO 898-1",
        ),
        &["case.design_pressure", "joints.power_screw"],
    );
    if count > room {
        d.refuse(
            "swept::range",
            "joints.power_screw",
            format!("{count} screws {} do not find room on a circle of {circle} mm", t.designation),
            format!("{room} at the most"),
            "take larger screws in joints.power_screw, or lower limits.peak_pressure".into(),
        );
    }
    count as usize
}

/// Bending of an end plate \[Pa\], as in [`plate_mm`].
pub fn plate_pa(pa: f64, circle: f64, thick: f64) -> f64 {
    2.0 * 3.0 * (3.0 + POISSON) / 8.0 * pa * (circle / 2.0 / thick).powi(2)
}

/// Thickness of an end plate \[mm\]: the simply supported round plate under even pressure, sigma = 3 (3 + nu)/8 p r²/t²
/// (S. Timoshenko, Strength of Materials, part II), doubled for the hole of the shaft.
pub fn plate_mm(d: &mut Decide, pa: f64, circle: f64, least: f64) -> f64 {
    let stuff = &d.design.block.material.value;
    let allowed = d.design.catalogue.material(stuff).ok().and_then(|m| m.allowable_mpa(60.0)).unwrap_or(50.0);
    let needed = circle / 2.0 * (2.0 * 3.0 * (3.0 + POISSON) / 8.0 * 1e-6 * pa / allowed).sqrt();
    d.rule(
        "case.plate_thickness",
        round_up(needed.max(least), 0.5),
        (
            "r sqrt(3 (3 + nu)/4 p / allowable), and room for the seal, to the next 0.5 mm",
            "S. Timoshenko, Strength of Materials, round plate, twice the stress beside a hole; from memory",
        ),
        &["case.plate_circle", "case.design_pressure"],
    )
}

/// What the gas asks of the hot cap, at its temperature, and of the screws that hold it.
pub fn check(d: &mut Decide, case: &Case, cap: &HotCap, head: &Head, joints: &Joints) {
    let mpa = 1e-6 * case.design_pa;
    let stuff = d.design.catalogue.material(&cap.material).ok();
    let allowed = stuff.and_then(|m| m.allowable_mpa(cap.temperature_k - 273.15)).unwrap_or(0.0);
    let wall = mpa * (cap.bore_mm + cap.wall_mm) / (2.0 * cap.wall_mm);
    let end = 0.75 * mpa * (cap.bore_mm / 2.0 / cap.end_mm).powi(2);
    let needs = [
        ("hot_end.wall", "wall", wall, mpa * cap.bore_mm / (2.0 * allowed - mpa).max(1e-3)),
        (
            "hot_end.end_thickness",
            "closed end",
            end,
            cap.bore_mm / 2.0 * (0.75 * mpa / allowed.max(1e-3)).sqrt(),
        ),
    ];
    for (path, what, stress, thick) in needs {
        if stress <= allowed {
            continue;
        }
        let (text, hint) = match allowed > 0.0 {
            true => (
                format!("{} mm or more", round_up(thick, 0.5)),
                format!("set {path} to \"{} mm\"", round_up(thick, 0.5)),
            ),
            false => (
                "a material that carries a load at this temperature".into(),
                "lower hot_end.temperature".into(),
            ),
        };
        d.refuse(
            "swept::pressure",
            path,
            format!(
                "at limits.peak_pressure the {what} of the hot cap has {stress:.0} MPa, and {} may have {allowed:.0} MPa at {:.0} °C",
                cap.material,
                cap.temperature_k - 273.15
            ),
            text,
            format!("{hint}, or lower limits.peak_pressure"),
        );
    }
    let pull = pull_n(head.low_bore_mm[0], case.design_pa);
    let holds = SCREW_MPA * joints.hot.thread.stress_area_mm2 * joints.hot.count as f64;
    if pull > holds {
        d.refuse(
            "swept::pressure",
            "joints.hot_screws",
            format!(
                "the gas pulls at the hot cap with {pull:.0} N, and {} screws {} hold {holds:.0} N",
                joints.hot.count, joints.hot.thread.designation
            ),
            format!("{} screws or more", (pull / holds * joints.hot.count as f64).ceil()),
            "take more or larger screws in joints.hot_screws and joints.hot_screw".into(),
        );
    }
}
