//! Cooler: gas holes around the bore, water jacket open to the lower face. Datum z = 0 is the lower face.

use crate::parts::geometry_rules as rules;
use crate::parts::joints::Patterns;
use crate::parts::kit::{along, at, bore, feature, fit, lift, made, named, through};
use crate::parts::part::Part;
use crate::shape::loops::polar;
use crate::shape::recipe::{Body, End, Feature, InsideThread, Kind, Place, Recipe, Tag};
use crate::shape::{Point2, Point3, Vector3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;
use crate::sizing::layouts::beta_coaxial::cooler::thread_depths_mm;
use crate::sizing::layouts::beta_coaxial::path::hole_length_mm;

/// The body: recess and widened bore at the lower end, seat of the liner at the upper.
fn body(e: &Engine, own: &BetaCoaxial) -> Body {
    let (c, h) = (&own.cooler, &own.head);
    let (r, l, rf) = (e.displacer.bore_mm / 2.0, e.cold.length_mm, e.cold.flange_diameter_mm / 2.0);
    let ([rm, hm], [rb, hb]) = (c.manifold_mm, c.belt_mm);
    let (rm, rb, seat) = (rm / 2.0, rb / 2.0, h.liner_mm / 2.0);
    Body::Turned(vec![
        named(rm, 0.0, Tag::new("lower-gasket-face").ra(1.6)),
        named(rf, 0.0, Tag::new("outside-diameter").origin("cold_end.flange_diameter")),
        named(rf, l, Tag::new("length").limits(0.05, -0.05).origin("cold_end.cylinder_length").ra(1.6)),
        named(seat, l, fit("liner-seat", h.liner_mm, "H8").origin("liner.diameter").ra(1.6)),
        named(seat, l - h.seat_mm, Tag::new("liner-seat-depth").from_z(l)),
        named(r, l - h.seat_mm, fit("bore", 2.0 * r, "H8").origin("displacer.bore").ra(1.6)),
        named(r, hb, Tag::new("belt-height").origin("cooler.belt_height")),
        named(rb, hb, Tag::new("belt-diameter").origin("cooler.belt_diameter")),
        named(rb, hm, Tag::new("recess-depth").origin("cooler.manifold_depth")),
        named(rm, hm, Tag::new("recess-diameter").origin("cooler.manifold_diameter")),
    ])
}

/// Holes from the regenerator down into the recess.
fn gas_holes(e: &Engine, own: &BetaCoaxial) -> Vec<Feature> {
    let (count, diameter, circle) = own.cooler.holes;
    let centre = Point2::new(0.0, 0.0);
    let angles_deg: Vec<f64> = (0..count).map(|i| 360.0 * i as f64 / count as f64).collect();
    let place = Place::Circle { centre, diameter: circle, angles_deg: angles_deg.clone() };
    let one = |deg: f64| {
        let top = lift(polar(centre, circle / 2.0, deg.to_radians()), e.cold.length_mm);
        let tag = Tag::new("gas-hole").origin("cooler.hole_diameter");
        through(top, along(0.0, 0.0, -1.0), diameter, hole_length_mm(e, &own.cooler), tag)
            .placed(place.clone())
    };
    angles_deg.into_iter().map(one).collect()
}

/// Hose ports, where water comes in and goes out.
pub const PORTS: [&str; 2] = ["lower-hose-port", "upper-hose-port"];

/// Angles of both ports, each midway between two screws \[deg\].
pub fn port_angles_deg(e: &Engine) -> [f64; 2] {
    let count = e.joints.cold.count;
    [0.0, 360.0 / count as f64 * (count / 2) as f64]
}

/// Heights of both ports above the lower face \[mm\].
pub fn port_heights_mm(own: &BetaCoaxial) -> [f64; 2] {
    let edge = own.cooler.hose.major_mm / 2.0 + 4.0;
    [edge, own.cooler.jacket_depth_mm - edge]
}

/// Ring-shaped water space.
fn jacket(own: &BetaCoaxial) -> Feature {
    let ([inner, outer], depth) = (own.cooler.jacket_r_mm, own.cooler.jacket_depth_mm);
    let chain = vec![
        named(outer, 0.0, Tag::new("jacket-outer-diameter").origin("cooler.jacket_outer_radius")),
        named(outer, depth, Tag::new("jacket-depth").origin("cooler.jacket_depth")),
        named(inner, depth, Tag::new("jacket-inner-diameter").origin("cooler.jacket_inner_radius")),
        at(inner, 0.0),
    ];
    bore("jacket", Point3::new(0.0, 0.0, 0.0), along(0.0, 0.0, 1.0), chain, End::Island)
}

/// Hose port at height z, between two screws.
fn port(e: &Engine, own: &BetaCoaxial, name: &str, angle_deg: f64, z: f64) -> Feature {
    let (c, r) = (&own.cooler, e.cold.flange_diameter_mm / 2.0);
    let (sin, cos) = angle_deg.to_radians().sin_cos();
    let clean = |x: f64| if x.abs() < 1e-12 { 0.0 } else { x };
    let out = Vector3::new(clean(cos), clean(sin), 0.0);
    let drill = c.hose.tap_drill_mm / 2.0;
    let chain = vec![named(drill, 0.0, Tag::new(name)), at(drill, r - c.jacket_r_mm[1])];
    let thread =
        Some(InsideThread { designation: c.hose.designation.clone(), depth: None, both_ends: false });
    let kind = Kind::Bore { chain, end: End::Through, thread };
    let origin = Point3::new(0.0, 0.0, z) + out * r;
    Feature { x_axis: Vector3::new(0.0, 0.0, 1.0), ..feature(name, origin, -out, kind) }
        .placed(Place::Radial { z, angle_deg })
}

/// The part.
pub fn part(e: &Engine, own: &BetaCoaxial, common: &Patterns) -> Part {
    let l = e.cold.length_mm;
    let [upper, lower] = thread_depths_mm(&e.joints, &e.cold, e.hot_cap.flange_mm);
    let mut features = gas_holes(e, own);
    features.push(jacket(own));
    features.extend(common.hot.tapped("hot-flange-thread", 0.0, 0.0, l, -1.0, upper));
    features.extend(common.cold.tapped("cold-flange-thread", 0.0, 0.0, 0.0, 1.0, lower));
    for ((name, angle), z) in PORTS.into_iter().zip(port_angles_deg(e)).zip(port_heights_mm(own)) {
        features.push(port(e, own, name, angle, z));
    }
    let square = rules::cylinder_face(e, e.cold.flange_diameter_mm, l);
    made("cooler", "Cooler", &e.cold.material, Recipe { body: body(e, own), features })
        .control(rules::coaxial("liner-seat", "bore", rules::REGISTER))
        .control(rules::square("lower-gasket-face", "bore", square.clone()))
        .control(rules::square("length", "bore", square))
        .control(rules::position("hot-flange-thread", &["bore"], rules::screws(e.joints.hot.thread)))
        .control(rules::position("cold-flange-thread", &["bore"], rules::screws(e.joints.cold.thread)))
        .note("Bore, liner seat and both faces in one setting; drill the gas holes through before the recess is cleaned up.")
        .note("Water in at the lower port, out at the upper one; the outside is round: barbs with thread sealant, no washers.")
        .caution("Never heat the jacket with its ports shut: steam in a closed jacket bursts it.")
}
