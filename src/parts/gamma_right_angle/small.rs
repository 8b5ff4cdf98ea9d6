//! Tube of the passage, and the ring between both bearings on the crankpin.

use crate::parts::drive::{pin_collar_diameter_mm, pin_collar_mm};
use crate::parts::kit::{at, fit, made, named};
use crate::parts::part::Part;
use crate::shape::recipe::{Body, Recipe, Tag};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_right_angle::RightAngle;

/// Chamfer at the ends of the tube \[mm\].
const CHAMFER_MM: f64 = 0.3;

/// Tube between cooler plate and head plate. Datum: lower end.
pub fn tube(own: &RightAngle) -> Part {
    let p = &own.passage;
    let [bore, outer] = [p.tube_mm[0] / 2.0, p.tube_mm[1] / 2.0];
    let l = p.tube_length_mm;
    let profile = vec![
        named(bore, 0.0, Tag::new("lower-face")),
        named(outer - CHAMFER_MM, 0.0, Tag::new("lower-chamfer")),
        named(outer, CHAMFER_MM, fit("outside-diameter", 2.0 * outer, "h9").origin("passage.tube_diameter")),
        named(outer, l - CHAMFER_MM, Tag::new("upper-chamfer")),
        named(outer - CHAMFER_MM, l, Tag::new("length").limits(0.0, -0.2).origin("passage.tube_length")),
        named(bore, l, Tag::new("bore").origin("cooler.port_width")),
    ];
    made("transfer-tube", "Transfer tube", "brass", Recipe { body: Body::Turned(profile), features: Vec::new() })
        .note("Bond both ends with a gas-tight retaining compound when the cylinders have been lined up; bore free of burrs and compound.")
}

/// Ring between the two bearings on the crankpin.
pub fn pin_spacer(e: &Engine) -> Part {
    let bore = e.drive.crankpin_bearing.bore_mm;
    let [inner, outer] = [bore / 2.0 + 0.05, pin_collar_diameter_mm(e) / 2.0];
    let l = pin_collar_mm(e);
    let profile = vec![
        at(inner, 0.0),
        named(outer, 0.0, Tag::new("outside-diameter")),
        named(outer, l, Tag::new("length").limits(0.0, -0.05).origin("drive.rod_offset")),
        named(inner, l, Tag::new("bore").limits(0.1, 0.0)),
    ];
    made(
        "pin-spacer",
        "Pin spacer",
        "mild-steel",
        Recipe { body: Body::Turned(profile), features: Vec::new() },
    )
    .note("Touches the inner rings only. Faces parallel within 0.02 mm.")
}
