//! Crank bracket: hangs below the cooler plate, carries the crank and the back plate.
//! Datum: crank axis and rear face; X as the engine's, Y up, Z towards the web.

use super::joints::Patterns;
use crate::parts::base;
use crate::parts::drive::{bearing_bore, seats_in_line};
use crate::parts::geometry_rules as rules;
use crate::parts::kit::{along, made, tapped};
use crate::parts::part::Part;
use crate::shape::control::{RIGHT_EDGE, TOP_EDGE};
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::{Measure, Outline};
use crate::shape::recipe::{Body, Feature, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_right_angle::RightAngle;

/// Radius in the corner below the arm \[mm\]: a common cutter's.
const CORNER_MM: f64 = 6.0;

/// An upright plate with an arm to the left along the cooler plate.
fn outline(e: &Engine, own: &RightAngle) -> Outline {
    let b = &own.bracket;
    let top = -e.drive.crank_z_mm - own.plate_mm;
    let (left, edge, right) = (b.left_x_mm, e.drive.bracket_edge_mm, own.places.back_x_mm);
    let arm = top - b.arm_mm;
    let boundary = Loop::Path(vec![
        Node::line(-edge, -b.bottom_mm),
        Node::line(right, -b.bottom_mm),
        Node::line(right, top),
        Node::line(left, top),
        Node::line(left, arm),
        Node::arc(-edge - CORNER_MM, arm, -edge - CORNER_MM, arm - CORNER_MM, false),
        Node::line(-edge, arm - CORNER_MM),
    ]);
    let (p, axis, low) = (Point2::new, Point2::new(0.0, 0.0), -b.bottom_mm);
    let sizes = vec![
        (Tag::new("length").origin("bracket.left"), Measure::Level(p(left, top), p(right, top))),
        (Tag::new("height").origin("drive.crank_height"), Measure::Upright(p(right, low), p(right, top))),
        (Tag::new("arm").origin("bracket.arm"), Measure::Upright(p(left, arm), p(left, top))),
        (Tag::new("upright").origin("stack.back_plate_x"), Measure::Level(p(-edge, low), p(right, low))),
        (Tag::new("corner-radius"), Measure::Radius(CORNER_MM)),
        (
            Tag::new("crank-axis-from-top").limits(0.05, -0.05).origin("drive.crank_height"),
            Measure::Upright(axis, p(left, top)),
        ),
        (
            Tag::new("crank-axis-from-right").limits(0.05, -0.05).origin("stack.back_plate_x"),
            Measure::Level(axis, p(right, low)),
        ),
    ];
    Outline::Free { boundary, sizes }
}

/// Threads for the cooler plate's and the back plate's screws.
fn threads(e: &Engine, own: &RightAngle, p: &Patterns) -> Vec<Feature> {
    let (b, t) = (&own.bracket, e.drive.bracket_mm);
    let screw = e.drive.bracket_screw;
    let rear = b.front_y_mm + t;
    let top = -e.drive.crank_z_mm - own.plate_mm;
    // the bracket's Z runs against the engine's Y
    let deep = |i: usize, plate: f64| b.screw_mm[i] - plate + 1.0;
    // a row each, so that the drawing tells how deep behind the face it stands
    let named = |what: &str, z: f64| format!("{}-{what}-thread", if z > t / 2.0 { "front" } else { "rear" });
    let (plate_deep, back_deep) = (deep(0, own.plate_mm), deep(1, own.back.thickness_mm));
    let plate = p.plate.centres.iter().map(|c| {
        let origin = Point3::new(c.x, top, rear - c.y);
        tapped(&named("cooler-plate", origin.z), origin, along(0.0, -1.0, 0.0), screw, plate_deep)
    });
    let back = p.back.centres.iter().map(|c| {
        let origin = Point3::new(own.places.back_x_mm, c.y, rear - own.places.piston_y_mm - c.x);
        tapped(&named("back-plate", origin.z), origin, along(-1.0, 0.0, 0.0), screw, back_deep)
    });
    plate.chain(back).map(|f| f.placed(Place::Coordinates)).collect()
}

/// The part.
pub fn part(e: &Engine, own: &RightAngle, p: &Patterns) -> Part {
    let mut features = vec![bearing_bore(e, 0.0, "")];
    features.extend(threads(e, own, p));
    let rear = own.bracket.front_y_mm + e.drive.bracket_mm;
    features.extend(
        e.base
            .iter()
            .flat_map(|b| base::bracket_threads(b, -own.bracket.bottom_mm, rear, e.drive.bracket_mm)),
    );
    let tag = Tag::new("thickness").origin("drive.bracket_thickness");
    let body = Body::Plate { outline: outline(e, own), thickness: e.drive.bracket_mm, tag };
    made("crank-bracket", "Crank bracket", &own.block.material, Recipe { body, features })
        .control(seats_in_line(e, ""))
        .control(rules::parallel(TOP_EDGE, "front-bearing-seat", rules::BRACKET_EDGE))
        .note("Bore through, turn over on a mandrel for the second seat.")
        .control(rules::square(RIGHT_EDGE, TOP_EDGE, rules::BRACKET_EDGE))
        .control(rules::parallel(RIGHT_EDGE, "front-bearing-seat", rules::BRACKET_EDGE))
        .note("Upper and right edge set the cylinders at a right angle.")
}
