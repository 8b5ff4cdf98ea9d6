//! Back plate: closes the jacket, guides the piston's rod. Datum: lower face, axis of the power cylinder.

use crate::parts::geometry_rules as rules;
use crate::parts::kit::{along, fit, made, through};
use crate::parts::part::Part;
use crate::parts::pattern::Pattern;
use crate::parts::vents::vents;
use crate::shape::control::UPPER_FACE;
use crate::shape::recipe::{Body, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::layouts::gamma_flat::Flat;

/// Vents let the piston's back breathe; they lie on the side away from the flywheel.
const VENT_DEG: [f64; 4] = [0.0, 60.0, 120.0, 180.0];

/// The part.
pub fn part(own: &Flat, studs: &Pattern) -> Part {
    let (b, t) = (&own.back, own.back.thickness_mm);
    let seat = fit("guide-bush-seat", b.bush.housing_mm, &b.bush.housing_fit).ra(1.6);
    let middle = Point3::new(0.0, 0.0, t);
    let mut features = vec![through(middle, along(0.0, 0.0, -1.0), b.bush.housing_mm, t, seat)];
    features.extend(studs.clearance("stud-hole", 0.0, 0.0, t, t));
    features.extend(vents(b, Point2::new(0.0, 0.0), VENT_DEG));
    let tag = Tag::new("thickness").origin("back.thickness");
    let body = Body::Plate { outline: crate::parts::block::outline(&own.block), thickness: t, tag };
    made("back-plate", "Back plate", &own.block.material, Recipe { body, features })
        .control(rules::square_axis("guide-bush-seat", UPPER_FACE, rules::GUIDE))
        .control(rules::position("stud-hole", &[UPPER_FACE, "guide-bush-seat"], rules::screws(studs.thread)))
        .note("Vents stay open: the space behind the piston works at the air's pressure.")
}
