//! Power cylinder block: square, with bore and an annular water jacket open to the crank end.
//! Datum: lower (crank end) face, axis of the bore.

use super::geometry_rules as rules;
use super::kit::{along, at, bore, fit, made, named, tapped_through};
use super::part::Part;
use super::pattern::Pattern;
use super::ring_seals::note;
use crate::shape::control::{LOWER_FACE, UPPER_FACE};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, End, Feature, Place, Recipe, Tag};
use crate::shape::{Point2, Point3};
use crate::sizing::engine::{Block, Engine, FaceRing};

/// Corner radius of the square \[mm\].
const CORNER_MM: f64 = 4.0;
/// Lead-in for the rings at the crank end: length and widening on radius \[mm\] (about 27°).
const LEAD_IN_MM: [f64; 2] = [3.0, 1.5];

/// Square of the block, shared by its gaskets.
pub fn outline(b: &Block) -> Outline {
    let h = b.half_mm;
    let tag = |name: &str| Tag::new(name).origin("block.half_side");
    Outline::Rectangle {
        low: Point2::new(-h, -h),
        high: Point2::new(h, h),
        corner: CORNER_MM,
        tags: [tag("width"), tag("height")],
    }
}

/// Ring-shaped water space.
fn jacket(b: &Block) -> Feature {
    let [inner, outer] = b.jacket_r_mm;
    let chain = vec![
        named(outer, 0.0, Tag::new("jacket-outer-diameter").origin("block.jacket_outer_radius")),
        named(outer, b.jacket_depth_mm, Tag::new("jacket-depth").origin("block.jacket_depth")),
        named(
            inner,
            b.jacket_depth_mm,
            Tag::new("jacket-inner-diameter").origin("block.jacket_inner_radius"),
        ),
        at(inner, 0.0),
    ];
    bore("jacket", Point3::new(0.0, 0.0, 0.0), along(0.0, 0.0, 1.0), chain, End::Island)
}

/// Cylinder bore with lead-in for the rings.
fn cylinder(b: &Block, bore_mm: f64) -> Feature {
    let (r, l) = (bore_mm / 2.0, b.length_mm);
    let [long, wide] = [LEAD_IN_MM[0], LEAD_IN_MM[1].min((b.jacket_r_mm[0] - r) / 2.0)];
    let chain = vec![
        named(r, 0.0, fit("bore", 2.0 * r, "H7").origin("piston.bore").ra(0.4)),
        named(r, l - long, Tag::new("lead-in")),
        at(r + wide, l),
    ];
    bore("cylinder", Point3::new(0.0, 0.0, l), along(0.0, 0.0, -1.0), chain, End::Through)
}

/// Groove for the O-ring in the face towards the gas, at height `l` \[mm\].
fn groove(ring: &FaceRing, l: f64) -> Feature {
    let [inner, outer] = ring.groove_mm.map(|d| d / 2.0);
    let tag = |what: &str| Tag::new(&format!("ring-groove-{what}"));
    let path = "joints.power_ring_groove";
    let chain = vec![
        named(outer, 0.0, tag("outside").limits(0.1, 0.0).origin(path)),
        named(outer, ring.depth_mm, tag("depth").limits(0.05, -0.05).origin("joints.power_ring_depth")),
        named(inner, ring.depth_mm, tag("inside").limits(0.0, -0.1).origin(path)),
        at(inner, 0.0),
    ];
    bore("ring-groove", Point3::new(0.0, 0.0, l), along(0.0, 0.0, -1.0), chain, End::Island)
}

/// Side (sign of Y) and height \[mm\] of the lower and of the upper hose port.
pub fn ports(b: &Block) -> [[f64; 2]; 2] {
    let edge = b.hose.major_mm / 2.0 + 3.0;
    [[1.0, edge], [-1.0, b.jacket_depth_mm - edge]]
}

/// Hose port into the jacket, from the side at `sign` Y, at height z.
fn port(b: &Block, name: &str, sign: f64, z: f64) -> Feature {
    let origin = Point3::new(0.0, sign * b.half_mm, z);
    let long = b.half_mm - b.jacket_r_mm[1];
    tapped_through(name, origin, along(0.0, -sign, 0.0), &b.hose.designation, b.hose.tap_drill_mm, long)
        .placed(Place::Coordinates)
}

/// The part.
pub fn part(e: &Engine, b: &Block, studs: &Pattern) -> Part {
    let l = b.length_mm;
    let [lower, upper] = ports(b);
    let mut features = vec![jacket(b), cylinder(b, e.piston.bore_mm)];
    features.extend(studs.clearance("stud-hole", 0.0, 0.0, l, l));
    features.push(port(b, "lower-hose-port", lower[0], lower[1]));
    features.push(port(b, "upper-hose-port", upper[0], upper[1]));
    features.extend(b.ring.as_ref().map(|ring| groove(ring, l)));
    let tag = Tag::new("length").limits(0.05, -0.05).origin("block.length").ra(1.6);
    let recipe = Recipe { body: Body::Plate { outline: outline(b), thickness: l, tag }, features };
    let square = rules::end_face(e, 2.0 * b.half_mm);
    let part = made("power-cylinder-block", "Power cylinder block", &b.material, recipe)
        .control(rules::square(UPPER_FACE, "bore", square.clone()))
        .control(rules::square(LOWER_FACE, "bore", square))
        .control(rules::position("stud-hole", &["bore"], rules::screws(studs.thread)));
    let lapped = (e.piston.seal.count == 0).then(|| rules::cylindrical("bore", rules::lapped_bore(e)));
    let part = lapped.into_iter().fold(part, Part::control);
    b.ring
        .iter()
        .fold(part, |part, ring| part.note(&note(ring)))
        .note("Hone the bore after all drilling.")
        .note(&format!(
            "Water in at the lower port ({:.1} mm above Z = 0, on the +Y side), out at the upper one ({:.1} mm, on the -Y side).",
            lower[1], upper[1]
        ))
        .caution("Never heat the jacket with its ports shut: steam in a closed jacket bursts it.")
}
