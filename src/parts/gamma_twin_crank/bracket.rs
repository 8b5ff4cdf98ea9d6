//! Crank bracket: carries both cranks below the back plate.

use super::layout;
use crate::parts::drive::bearing_bore;
use crate::parts::kit::{along, made, tapped};
use crate::parts::part::Part;
use crate::parts::pattern::Pattern;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;

/// Crank bracket in its own frame: X along the crank centres, Y up from the crank axes, Z towards the webs.
pub fn part(e: &Engine, own: &TwinCrank, screws: &Pattern) -> Part {
    let d = &e.drive;
    let (t, top, edge) = (d.bracket_mm, layout::bracket_top(e, own), d.bracket_edge_mm);
    let outline = Outline::Rectangle {
        low: Point2::new(-edge, -edge),
        high: Point2::new(own.centres_mm + edge, top),
        corner: 0.0,
        tags: [
            Tag::new("width").origin("drive.crank_centres"),
            Tag::new("height").origin("drive.crank_height"),
        ],
    };
    let y = layout::bracket_middle_y(e);
    let mut features = vec![bearing_bore(e, 0.0), bearing_bore(e, own.centres_mm)];
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
    let tag = Tag::new("thickness").origin("drive.bracket_thickness");
    made("crank-bracket", "Crank bracket", &own.block.material, Recipe { body: Body::Plate { outline, thickness: t, tag }, features })
        .note("Each pair of seats coaxial within 0.02 mm: bore through, turn over on a mandrel for the second seat. Upper edge square to the bores.")
}
