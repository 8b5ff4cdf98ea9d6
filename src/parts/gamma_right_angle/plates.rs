//! Head plate and back plate at both ends of the power cylinder block.
//! Both: datum the power cylinder's axis and the face towards the crank; X is the engine's Y, Y its Z.

use super::joints::Patterns;
use crate::parts::geometry_rules as rules;
use crate::parts::kit::{along, at, bore, fit, made, named, through};
use crate::parts::part::Part;
use crate::parts::pattern::Pattern;
use crate::parts::vents::vents;
use crate::shape::control::{LOWER_FACE, UPPER_FACE};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, End, Feature, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_right_angle::RightAngle;
use crate::sizing::layouts::gamma_right_angle::frame::BACK_PLATE_BEYOND_MM;

/// Corner radius \[mm\].
const CORNER_MM: f64 = 4.0;
/// Vents let the piston's back breathe; they lie on the side away from the bracket.
const VENT_DEG: [f64; 4] = [90.0, 150.0, 210.0, 270.0];

/// Drilling down from the upper edge, with the seat of the tube.
fn down(own: &RightAngle) -> Feature {
    let (p, h) = (&own.passage, &own.head);
    let (seat, r) = (p.tube_mm[1] / 2.0, p.head_drilling_mm[0] / 2.0);
    let depth = h.top_mm + p.head_drilling_mm[1];
    let chain = vec![
        named(seat, 0.0, fit("tube-seat", p.tube_mm[1], "H8").origin("passage.tube_diameter").ra(1.6)),
        named(seat, p.spigot_mm, Tag::new("tube-seat-depth").origin("passage.spigot")),
        named(r, p.spigot_mm, Tag::new("transfer-drilling")),
        named(r, depth, Tag::new("transfer-drilling-depth")),
        at(0.0, depth),
    ];
    let origin = Point3::new(0.0, h.top_mm, h.thickness_mm / 2.0);
    bore("transfer-drilling", origin, along(0.0, -1.0, 0.0), chain, End::Blind).placed(Place::Coordinates)
}

/// Hole from the power cylinder into that drilling.
fn inlet(own: &RightAngle) -> Feature {
    let (p, h) = (&own.passage, &own.head);
    let long = h.thickness_mm / 2.0 - p.head_drilling_mm[0] / 2.0;
    let r = p.tube_mm[0] / 2.0;
    let chain = vec![named(r, 0.0, Tag::new("transfer-inlet").origin("cooler.port_width")), at(r, long)];
    bore("transfer-inlet", Point3::new(0.0, 0.0, 0.0), along(0.0, 0.0, 1.0), chain, End::Through)
        .placed(Place::Coordinates)
}

/// Head plate.
pub fn head(e: &Engine, own: &RightAngle, studs: &Pattern) -> Part {
    let (half, t) = (own.block.half_mm, own.head.thickness_mm);
    let outline = Outline::Rectangle {
        low: Point2::new(-half, -half),
        high: Point2::new(half, own.head.top_mm),
        corner: CORNER_MM,
        tags: [Tag::new("width").origin("block.half_side"), Tag::new("height").origin("block.half_side")],
    };
    let mut features = vec![down(own), inlet(own)];
    features.extend(studs.clearance("stud-hole", 0.0, 0.0, t, t));
    let tag = Tag::new("thickness").origin("head.thickness").ra(1.6);
    let recipe = Recipe { body: Body::Plate { outline, thickness: t, tag }, features };
    made("head-plate", "Head plate", &own.block.material, recipe)
        .control(rules::flat(LOWER_FACE, rules::gasket_face(e)))
        .note("Drill down from the edge first, then the inlet into it.")
        .caution("No oil on the gas side: oil mist in hot compressed air can burn or explode.")
}

/// Back plate.
pub fn back(e: &Engine, own: &RightAngle, p: &Patterns) -> Part {
    let (b, t, half, z) = (&own.back, own.back.thickness_mm, own.block.half_mm, own.bracket.low_mm);
    let rear = own.bracket.front_y_mm + e.drive.bracket_mm - own.places.piston_y_mm + BACK_PLATE_BEYOND_MM;
    let outline = Outline::Rectangle {
        low: Point2::new(-half, -z),
        high: Point2::new(half.max(rear), z),
        corner: CORNER_MM,
        tags: [Tag::new("width"), Tag::new("height").origin("bracket.low")],
    };
    let seat = fit("guide-bush-seat", b.bush.housing_mm, &b.bush.housing_fit).ra(1.6);
    let middle = Point3::new(0.0, 0.0, t);
    let mut features = vec![through(middle, along(0.0, 0.0, -1.0), b.bush.housing_mm, t, seat)];
    features.extend(p.studs.tapped_through("stud-thread", t, t));
    features.extend(p.back.clearance("bracket-screw", 0.0, 0.0, t, t));
    features.extend(vents(&own.back, Point2::new(0.0, 0.0), VENT_DEG));
    let tag = Tag::new("thickness").origin("back.thickness");
    let recipe = Recipe { body: Body::Plate { outline, thickness: t, tag }, features };
    made("back-plate", "Back plate", &own.block.material, recipe)
        .control(rules::square_axis("guide-bush-seat", UPPER_FACE, rules::GUIDE))
        .control(rules::position(
            "stud-thread",
            &[UPPER_FACE, "guide-bush-seat"],
            rules::screws(p.studs.thread),
        ))
        .note("Studs with thread-locking compound, not beyond the face towards the crank.")
        .note("Vents stay open: the space behind the piston works at the air's pressure.")
}
