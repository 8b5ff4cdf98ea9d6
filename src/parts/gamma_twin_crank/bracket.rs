//! Crank bracket: carries both cranks below the back plate.

use super::{layout, tensioner};
use crate::parts::base;
use crate::parts::drive::{bearing_bore, seats_in_line};
use crate::parts::geometry_rules as rules;
use crate::parts::kit::{along, made, tapped};
use crate::parts::part::Part;
use crate::parts::pattern::Pattern;
use crate::shape::control::TOP_EDGE;
use crate::shape::loops::{Loop, Node};
use crate::shape::outline::{Measure, Outline};
use crate::shape::recipe::{Body, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;

/// How the names of the seats of either crank begin: two bores, so that each has its own datum.
const LEFT: &str = "left-";
const RIGHT: &str = "right-";
/// Radius in the corners of the notch \[mm\]: a common cutter's.
const CORNER_MM: f64 = 3.0;

/// A rectangle, with a notch in its upper edge where the nut of a stud stands.
fn outline(own: &TwinCrank, edge: f64, top: f64) -> Outline {
    let right = own.centres_mm + edge;
    let (width, height) =
        (Tag::new("width").origin("drive.crank_centres"), Tag::new("height").origin("drive.crank_height"));
    let Some([from, to, deep]) = own.bracket_notch_mm else {
        let (low, high) = (Point2::new(-edge, -own.bracket_low_mm), Point2::new(right, top));
        return Outline::Rectangle { low, high, corner: 0.0, tags: [width, height] };
    };
    let (bottom, r) = (top - deep, CORNER_MM);
    let boundary = Loop::Path(vec![
        Node::line(-edge, -own.bracket_low_mm),
        Node::line(right, -own.bracket_low_mm),
        Node::line(right, top),
        Node::line(to, top),
        Node::arc(to, bottom + r, to - r, bottom + r, false),
        Node::line(to - r, bottom),
        Node::arc(from + r, bottom, from + r, bottom + r, false),
        Node::line(from, bottom + r),
        Node::line(from, top),
        Node::line(-edge, top),
    ]);
    let (p, axis, low) = (Point2::new, Point2::new(0.0, 0.0), -own.bracket_low_mm);
    let sizes = vec![
        (width, Measure::Level(p(-edge, low), p(right, low))),
        (height, Measure::Upright(p(right, low), p(right, top))),
        (
            Tag::new("crank-axes-from-top").limits(0.05, -0.05).origin("drive.crank_height"),
            Measure::Upright(axis, p(-edge, top)),
        ),
        (Tag::new("left-crank-from-left").origin("drive.bracket_edge"), Measure::Level(p(-edge, low), axis)),
        (Tag::new("notch-width").origin("drive.bracket_notch"), Measure::Level(p(from, top), p(to, top))),
        (
            Tag::new("notch-depth").origin("drive.bracket_notch_depth"),
            Measure::Upright(p(to - r, bottom), p(to, top)),
        ),
        (Tag::new("notch-from-left-crank").origin("drive.bracket_notch"), Measure::Level(axis, p(from, top))),
        (Tag::new("notch-corner-radius"), Measure::Radius(r)),
    ];
    Outline::Free { boundary, sizes }
}

/// Crank bracket in its own frame: X along the crank centres, Y up from the crank axes, Z towards the webs.
pub fn part(e: &Engine, own: &TwinCrank, screws: &Pattern) -> Part {
    let d = &e.drive;
    let (t, top, edge) = (d.bracket_mm, layout::bracket_top(e, own), d.bracket_edge_mm);
    let outline = outline(own, edge, top);
    let y = layout::bracket_middle_y(e);
    let mut features = vec![bearing_bore(e, 0.0, LEFT), bearing_bore(e, own.centres_mm, RIGHT)];
    features.extend(screws.centres.iter().map(|c| {
        // the bracket's Z runs against the engine's Y
        let origin = Point3::new(c.x, top, t / 2.0 - (c.y - y));
        tapped(
            "back-plate-thread",
            origin,
            along(0.0, -1.0, 0.0),
            screws.thread,
            layout::bracket_thread_mm(e, own),
        )
        .placed(Place::Coordinates)
    }));
    features.extend(tensioner::threads(&own.tensioner));
    let rear = layout::bracket_front_y(e) + t;
    features.extend(e.base.iter().flat_map(|b| base::bracket_threads(b, -own.bracket_low_mm, rear, t)));
    let tag = Tag::new("thickness").origin("drive.bracket_thickness");
    made(
        "crank-bracket",
        "Crank bracket",
        &own.block.material,
        Recipe { body: Body::Plate { outline, thickness: t, tag }, features },
    )
    .control(seats_in_line(e, LEFT))
    .control(seats_in_line(e, RIGHT))
    .control(rules::parallel_axis("right-front-bearing-seat", "left-front-bearing-seat", rules::BELT))
    .control(rules::parallel(TOP_EDGE, "left-front-bearing-seat", rules::BRACKET_EDGE))
    .note("Bore through, turn over on a mandrel for the second seats.")
}
