//! Where the displacer's rod leaves the gas: bore in the plate below the cold cylinder, cap over the O-ring.

use super::geometry_rules as rules;
use super::joints::Patterns;
use super::kit::{along, at, bore, fit, lift, made, named, tapped_reach, through};
use super::part::Part;
use super::pattern::Pattern;
use crate::shape::control::{Control, LOWER_FACE, UPPER_FACE};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, End, Feature, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::check::WALL_MM;
use crate::sizing::engine::Engine;

/// Rod bore of a plate `t` \[mm\] thick whose lower face is at `z` \[mm\]: O-ring recess from the lower face, running
/// clearance, bush seat at the upper face.
pub fn rod_bore(e: &Engine, z: f64, t: f64) -> Feature {
    let c = &e.gland;
    let [gland, width] = c.groove_mm;
    let (free, seat) = (e.displacer.rod_mm / 2.0 + 0.15, c.bush.housing_mm / 2.0);
    let mut chain = if c.oring.is_some() {
        vec![
            named(
                gland / 2.0,
                0.0,
                fit("gland-diameter", gland, "H9").origin("cooler.gland_diameter").ra(1.6),
            ),
            named(gland / 2.0, width, Tag::new("gland-width").limits(0.2, 0.0).origin("cooler.gland_width")),
            named(free, width, Tag::new("rod-clearance")),
        ]
    } else {
        vec![named(free, 0.0, Tag::new("rod-clearance").origin("cooler.gland_diameter"))]
    };
    chain.extend([
        named(free, t - c.bush_length_mm, Tag::new("bush-seat-depth").from_z(t).origin("cooler.bush_length")),
        named(seat, t - c.bush_length_mm, fit("bush-seat", c.bush.housing_mm, &c.bush.housing_fit).ra(1.6)),
        at(seat, t),
    ]);
    bore("rod-bore", Point3::new(0.0, 0.0, z), along(0.0, 0.0, 1.0), chain, End::Through)
}

/// Depth of full thread for the screws of the cold flange in a plate `t` \[mm\] thick \[mm\].
pub fn cold_thread_mm(e: &Engine, t: f64) -> f64 {
    let s = &e.joints.cold;
    let engaged = s.screw_mm - e.cold.flange_mm - e.joints.cold_gap_mm;
    let room = t - WALL_MM[0] - tapped_reach(s.thread, 0.0);
    (engaged + 1.0).min(room)
}

/// Depth of full thread for the cap's screws \[mm\]: what they bite, and a little more.
pub fn cap_thread_mm(e: &Engine) -> f64 {
    e.gland.screws.screw_mm - e.gland.cap_mm[1] + 0.5
}

/// Cap that holds the rod's O-ring in its recess.
pub fn cap(e: &Engine, p: &Patterns, stuff: &str) -> Part {
    let origin = "cooler.gland_cap_diameter";
    ring_cap(["gland-cap", "Gland cap"], e.gland.cap_mm, e.displacer.rod_mm, &p.gland, [origin, stuff])
}

/// Cap over the O-ring of a rod or shaft \[mm\]: name and title; diameter and thickness \[mm\]; the dimension that decides
/// its diameter, and its material.
pub fn ring_cap(
    [name, title]: [&str; 2],
    [diameter, t]: [f64; 2],
    rod: f64,
    screws: &Pattern,
    [origin, stuff]: [&str; 2],
) -> Part {
    let outline = Outline::Disc {
        centre: Point2::new(0.0, 0.0),
        diameter,
        tag: Tag::new("outside-diameter").origin(origin),
    };
    let down = along(0.0, 0.0, -1.0);
    let hole = rod + 0.2;
    let centre = lift(Point2::new(0.0, 0.0), t);
    let mut features = vec![through(centre, down, hole, t, fit("rod-hole", hole, "H9"))];
    features.extend(screws.clearance("screw-hole", 0.0, 0.0, t, t));
    let recipe = Recipe { body: Body::Plate { outline, thickness: t, tag: Tag::new("thickness") }, features };
    made(name, title, stuff, recipe)
        .flat()
        .note("Edge of the hole broken 0.2 mm, no less, so that it does not cut the O-ring; the other edges as the title block says.")
}

/// Tolerances of the bore in a plate whose `face` takes the cylinder: seat of the bush, recess of the O-ring, screws of the
/// cylinder's flange.
pub fn controls(e: &Engine, face: &str) -> Vec<Control> {
    let seat = "bush-seat";
    let mut all = vec![
        rules::parallel(
            if face == UPPER_FACE { LOWER_FACE } else { UPPER_FACE },
            face,
            rules::gasket_face(e),
        ),
        rules::square_axis(seat, face, rules::GUIDE),
    ];
    all.extend(e.gland.oring.as_ref().map(|_| rules::coaxial("gland-diameter", seat, rules::RECESS)));
    all.push(rules::position("cold-flange-thread", &[face, seat], rules::screws(e.joints.cold.thread)));
    all
}

/// What the drawing of the plate says of the gland.
pub fn note(e: &Engine) -> String {
    match &e.gland.oring {
        Some(ring) => {
            format!("O-ring {ring} in the gland, dry or with a trace of silicone grease: no mineral oil.")
        }
        None => {
            "The bush alone keeps the gas in: press it in square, size it to the rod, leave it dry.".into()
        }
    }
}
