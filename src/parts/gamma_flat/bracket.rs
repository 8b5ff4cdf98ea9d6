//! Crank bracket: an upright with two feet on the cooler plate.
//! Datum: crank axis and rear face; X as the engine's, Y up to the plate, Z towards the web.

use crate::parts::drive::{bearing_bore, seats_in_line};
use crate::parts::geometry_rules as rules;
use crate::parts::kit::{along, made, through};
use crate::parts::part::Part;
use crate::parts::pattern::Pattern;
use crate::shape::control::TOP_EDGE;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::{Measure, Outline};
use crate::shape::recipe::{Body, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_flat::Flat;
use crate::sizing::layouts::gamma_flat::frame::CORNER_MM;

/// Height of the feet's faces above the crank axis \[mm\].
fn top(e: &Engine, own: &Flat) -> f64 {
    -e.drive.crank_z_mm - own.cooler.thickness_mm
}

fn outline(e: &Engine, own: &Flat) -> Outline {
    let (b, edge, r, top) = (&own.bracket, e.drive.bracket_edge_mm, CORNER_MM, top(e, own));
    let (foot, under) = (b.foot_x_mm, top - b.foot_mm);
    let boundary = Loop::Path(vec![
        Node::line(-edge, -edge),
        Node::line(edge, -edge),
        Node::arc(edge, under - r, edge + r, under - r, false),
        Node::line(edge + r, under),
        Node::line(foot, under),
        Node::line(foot, top),
        Node::line(-foot, top),
        Node::line(-foot, under),
        Node::arc(-edge - r, under, -edge - r, under - r, false),
        Node::line(-edge, under - r),
    ]);
    let p = Point2::new;
    let sizes = vec![
        (Tag::new("length").origin("bracket.foot"), Measure::Level(p(-foot, top), p(foot, top))),
        (Tag::new("height").origin("drive.crank_height"), Measure::Upright(p(edge, -edge), p(foot, top))),
        (
            Tag::new("foot-height").origin("bracket.foot_height"),
            Measure::Upright(p(foot, under), p(foot, top)),
        ),
        (Tag::new("upright").origin("drive.bracket_edge"), Measure::Level(p(-edge, -edge), p(edge, -edge))),
        (Tag::new("corner-radius"), Measure::Radius(r)),
        (
            Tag::new("crank-axis-from-top").limits(0.05, -0.05).origin("drive.crank_height"),
            Measure::Upright(p(0.0, 0.0), p(-foot, top)),
        ),
    ];
    Outline::Free { boundary, sizes }
}

/// The part.
pub fn part(e: &Engine, own: &Flat, screws: &Pattern) -> Part {
    let (b, t) = (&own.bracket, e.drive.bracket_mm);
    let (under, rear) = (top(e, own) - b.foot_mm, b.front_y_mm + t);
    let mut features = vec![bearing_bore(e, 0.0, "")];
    features.extend(screws.centres.iter().map(|c| {
        // the bracket's Z runs against the engine's Y; a row each, so that the drawing tells how deep it stands
        let z = rear - c.y;
        let tag = Tag::new(if z > t / 2.0 { "front-foot-hole" } else { "rear-foot-hole" });
        let hole = screws.thread.clearance_medium_mm;
        through(Point3::new(c.x, under, z), along(0.0, 1.0, 0.0), hole, b.foot_mm, tag)
            .placed(Place::Coordinates)
    }));
    let tag = Tag::new("thickness").origin("drive.bracket_thickness");
    let body = Body::Plate { outline: outline(e, own), thickness: t, tag };
    made("crank-bracket", "Crank bracket", &own.block.material, Recipe { body, features })
        .control(seats_in_line(e, ""))
        .control(rules::parallel(TOP_EDGE, "front-bearing-seat", rules::BRACKET_EDGE))
        .note("Bore through, turn over on a mandrel for the second seat.")
        .note("The feet hold the shaft square to both cylinders.")
}
