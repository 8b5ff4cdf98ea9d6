//! Checks that this layout asks for beyond those of every layout: what holds the pressure, and its seats.

use super::BetaCoaxial;
use super::strength::{SCREW_MPA, plate_pa, pull_n};
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit;
use crate::sizing::engine::BoltCircle;
use crate::sizing::inspect::case::Case;
use crate::sizing::inspect::metal::{LASTING, lasting_pa};
use crate::sizing::layouts::common::checks::seats;
use crate::sizing::strength::cylinder;

/// Stress in a part of the case against what its metal bears for long.
fn stress(case: &Case<'_>, own: &BetaCoaxial, [name, what]: [&str; 2], value: f64, part: &str) -> Check {
    let allowed = lasting_pa(case.book(), &own.case.material, case.cold_c);
    Check::at_most(name, what, value, Unit::Pascal, allowed, allowed)
        .at("limits.peak_pressure")
        .of(&[part])
        .hint("a lower limits.peak_pressure, or a stronger block.material")
}

/// Pull of the gas on a ring of screws against what they bear.
fn screws(own: &BetaCoaxial, [name, what]: [&str; 2], bolts: &BoltCircle, part: &str) -> Check {
    let holds = SCREW_MPA * bolts.thread.stress_area_mm2 * bolts.count as f64;
    let pull = pull_n(bolts.diameter_mm, own.case.design_pa);
    Check::at_least(name, what, holds, Unit::Newton, pull, pull)
        .source("stress area ISO 898-1, 160 MPa of class 8.8; common practice, no source")
        .at("joints.power_screw")
        .of(&[part])
        .hint("a larger joints.power_screw")
}

/// All of them, at the pressure that the design allows.
pub fn checks(case: &Case<'_>, own: &BetaCoaxial) -> Vec<Check> {
    let (c, pa) = (&own.case, own.case.design_pa);
    let lame = format!("Lamé, 1833; {LASTING}");
    let hoop = |bore: f64, outer: f64| cylinder::hoop_pa(pa, bore, (outer - bore) / 2.0);
    let bore = case.engine.piston.bore_mm;
    let mut all = vec![
        stress(
            case,
            own,
            ["crankcase-hoop-stress", "hoop stress in the crankcase at limits.peak_pressure"],
            hoop(c.bore_mm, 2.0 * c.half_mm),
            "crankcase",
        )
        .source(&lame),
        stress(
            case,
            own,
            ["cylinder-hoop-stress", "hoop stress in the power cylinder at limits.peak_pressure"],
            hoop(bore, own.cylinder.outer_mm),
            "power-cylinder",
        )
        .source(&lame),
        stress(
            case,
            own,
            ["end-plate-bending", "bending of an end plate of the crankcase at limits.peak_pressure"],
            plate_pa(pa, c.plate_screws.diameter_mm, c.plate_mm[1]),
            "rear-plate",
        )
        .source(&format!("round plate, twice the stress beside a hole, Timoshenko; {LASTING}")),
        screws(
            own,
            ["end-plate-screws", "what the screws of an end plate hold"],
            &c.plate_screws,
            "rear-plate",
        ),
        screws(
            own,
            ["cylinder-screws", "what the screws of the power cylinder on the crankcase hold"],
            &own.cylinder.screws,
            "power-cylinder",
        ),
    ];
    all.extend(seats(case, &own.case.material, &own.yoke.bush, "rear-plate", &["piston", "piston-yoke"]));
    all
}
