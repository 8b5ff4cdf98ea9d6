//! Back plate: closes the jacket, guides both rods, carries the crank bracket.
//! Datum: lower face, displacer axis.

use super::joints::Patterns;
use crate::parts::geometry_rules as rules;
use crate::parts::kit::{along, fit, lift, made, through};
use crate::parts::part::Part;
use crate::parts::vents::vents;
use crate::shape::control::UPPER_FACE;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Place, Recipe, Tag};
use crate::shape::{Point2, Vector3};
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;

/// Vents let the piston's back breathe; they lie on the side away from the bracket.
const VENT_DEG: [f64; 4] = [180.0, 240.0, 300.0, 360.0];

/// Plain holes for the two guide bushes.
fn bushes(own: &TwinCrank) -> [Feature; 2] {
    let b = &own.back;
    let one = |x: f64| {
        let tag = fit("guide-bush-seat", b.bush.housing_mm, &b.bush.housing_fit).ra(1.6);
        let down: Vector3 = along(0.0, 0.0, -1.0);
        through(lift(Point2::new(x, 0.0), b.thickness_mm), down, b.bush.housing_mm, b.thickness_mm, tag)
            .placed(Place::Coordinates)
    };
    [one(0.0), one(own.centres_mm)]
}

/// The part.
pub fn part(own: &TwinCrank, p: &Patterns) -> Part {
    let (t, h, x) = (own.back.thickness_mm, own.block.half_mm, own.centres_mm);
    let mut features: Vec<Feature> = bushes(own).into();
    features.extend(p.studs.clearance("stud-hole", x, 0.0, t, t));
    features.extend(p.bracket.counterbored("bracket-screw", 0.0, 0.0, t, t));
    features.extend(vents(&own.back, Point2::new(own.centres_mm, 0.0), VENT_DEG));
    let outline = Outline::Rectangle {
        low: Point2::new(own.back_x_low_mm, -h),
        high: Point2::new(x + h, h),
        corner: 4.0,
        tags: [Tag::new("width"), Tag::new("height").origin("block.half_side")],
    };
    let tag = Tag::new("thickness").origin("back.thickness");
    let recipe = Recipe { body: Body::Plate { outline, thickness: t, tag }, features };
    made("back-plate", "Back plate", &own.block.material, recipe)
        .control(rules::square_axis("guide-bush-seat", UPPER_FACE, rules::GUIDE))
        .note("Bore both guide seats in one setting. In the engine the displacer's seat is in line with the rod bore of the cooler plate (its own sheet): run the rod through both before the nuts are tight.")
        .note("Vents stay open: the space below the piston works at the air's pressure.")
}
