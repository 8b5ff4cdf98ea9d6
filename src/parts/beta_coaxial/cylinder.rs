//! Power cylinder: a tube with a flange below the cooler and one on the crankcase. Datum z = 0 is its lower end.

use super::joints::Patterns;
use crate::parts::geometry_rules as rules;
use crate::parts::joints::Patterns as Common;
use crate::parts::kit::{fit, made, named};
use crate::parts::part::Part;
use crate::shape::recipe::{Body, Recipe, Tag};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;

/// Lead-in for the rings at the lower end: length and widening on radius \[mm\] (about 27°).
const LEAD_IN_MM: [f64; 2] = [3.0, 1.5];

/// The part.
pub fn part(e: &Engine, own: &BetaCoaxial, common: &Common, p: &Patterns) -> Part {
    let c = &own.cylinder;
    let (r, ro, l) = (e.piston.bore_mm / 2.0, c.outer_mm / 2.0, -c.low_z_mm);
    let (top, low, [_, thick]) = (e.cold.flange_diameter_mm / 2.0, c.flange_mm[0] / 2.0, c.flange_mm);
    let seat = own.heights.case_top_mm + e.joints.gasket_mm - c.low_z_mm;
    let [long, wide] = [LEAD_IN_MM[0], LEAD_IN_MM[1].min((ro - r) / 2.0)];
    let profile = vec![
        named(r + wide, 0.0, Tag::new("lower-end")),
        named(ro, 0.0, fit("outside-diameter", c.outer_mm, "f8").origin("cylinder.diameter").ra(3.2)),
        named(ro, seat, Tag::new("spigot").ra(1.6)),
        named(low, seat, Tag::new("lower-flange-diameter").origin("cylinder.flange_diameter")),
        named(
            low,
            seat + thick,
            Tag::new("lower-flange-thickness").from_z(seat).origin("cylinder.flange_thickness"),
        ),
        named(ro, seat + thick, Tag::new("tube-diameter").origin("cylinder.diameter")),
        named(
            ro,
            l - c.top_flange_mm,
            Tag::new("upper-flange-thickness").from_z(l).origin("cold_end.flange_thickness"),
        ),
        named(top, l - c.top_flange_mm, Tag::new("upper-flange-diameter").origin("cold_end.flange_diameter")),
        named(top, l, Tag::new("length").limits(0.05, -0.05).origin("cylinder.length").ra(1.6)),
        named(r, l, fit("bore", 2.0 * r, "H7").origin("piston.bore").ra(0.4)),
        named(r, long, Tag::new("lead-in")),
    ];
    let mut features = common.cold.clearance("upper-flange-hole", 0.0, 0.0, l, c.top_flange_mm);
    features.extend(p.cylinder.clearance("lower-flange-hole", 0.0, 0.0, seat + thick, thick));
    made(
        "power-cylinder",
        "Power cylinder",
        &own.case.material,
        Recipe { body: Body::Turned(profile), features },
    )
    .control(rules::coaxial("outside-diameter", "bore", rules::REGISTER))
    .control(rules::square("spigot", "bore", rules::end_face(e, c.flange_mm[0])))
    .control(rules::square("length", "bore", rules::end_face(e, e.cold.flange_diameter_mm)))
    .control(rules::position("upper-flange-hole", &["bore"], rules::screws(e.joints.cold.thread)))
    .note("Bore, upper face and spigot in one setting; hone the bore after the holes are drilled.")
    .caution("No oil on the gas side: oil mist in hot compressed air can burn or explode.")
}
