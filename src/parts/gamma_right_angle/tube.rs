//! Tube of the passage.

use crate::parts::kit::{fit, made, named};
use crate::parts::part::Part;
use crate::shape::recipe::{Body, Recipe, Tag};
use crate::sizing::layouts::gamma_right_angle::RightAngle;

/// Chamfer at the ends of the tube \[mm\].
const CHAMFER_MM: f64 = 0.3;

/// Tube between cooler plate and head plate. Datum: lower end.
pub fn part(own: &RightAngle) -> Part {
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
