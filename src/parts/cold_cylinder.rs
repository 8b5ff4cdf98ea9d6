//! Cold cylinder: finned tube with two flanges. Datum z = 0 is the face on the cooler plate.

use super::geometry_rules as rules;
use super::joints::Patterns;
use super::kit::{fit, made, named};
use super::part::Part;
use super::ring_seals::{note, turned_groove};
use crate::shape::recipe::{Body, ProfileNode, Recipe, Tag};
use crate::sizing::engine::Engine;

/// One fin between `z` and `z + thickness`, out from `root` to `tip` \[mm\]; number `i` from the datum.
fn fin(i: usize, z: f64, thickness: f64, root: f64, tip: f64) -> [ProfileNode; 4] {
    let tag = |what: &str| Tag::new(&format!("fin-{}-{what}", i + 1));
    [
        named(root, z, tag("place").origin("cold_end.fin_gap")),
        named(tip, z, tag("diameter").origin("cold_end.fin_diameter")),
        named(tip, z + thickness, tag("thickness").from_z(z).origin("cold_end.fin_thickness")),
        named(root, z + thickness, tag("root").origin("cold_end.wall")),
    ]
}

/// The part.
pub fn part(e: &Engine, joints: &Patterns) -> Part {
    let c = &e.cold;
    let ri = e.displacer.bore_mm / 2.0;
    let (ro, rf, rt) = (ri + c.wall_mm, c.flange_diameter_mm / 2.0, c.fin_diameter_mm / 2.0);
    let (tf, l) = (c.flange_mm, c.length_mm);
    let mut profile = vec![named(ri, 0.0, Tag::new("lower-face").ra(1.6))];
    profile.extend(e.joints.cold_ring.iter().flat_map(turned_groove));
    profile.extend([
        named(rf, 0.0, Tag::new("flange-diameter").origin("cold_end.flange_diameter")),
        named(rf, tf, Tag::new("lower-flange-thickness").origin("cold_end.flange_thickness")),
        named(ro, tf, Tag::new("root-diameter").origin("cold_end.wall")),
    ]);
    for i in 0..c.fins {
        let z = tf + c.fin_gap_mm + i as f64 * (c.fin_mm + c.fin_gap_mm);
        profile.extend(fin(i, z, c.fin_mm, ro, rt));
    }
    profile.extend([
        named(ro, l - tf, Tag::new("upper-flange-thickness").from_z(l).origin("cold_end.flange_thickness")),
        named(rf, l - tf, Tag::new("upper-flange-diameter").origin("cold_end.flange_diameter")),
        named(rf, l, Tag::new("length").limits(0.05, -0.05).origin("cold_end.cylinder_length").ra(1.6)),
        named(ri, l, fit("bore", 2.0 * ri, "H8").origin("displacer.bore").ra(1.6)),
    ]);
    let mut features = joints.cold.clearance("lower-flange-hole", 0.0, 0.0, tf, tf);
    features.extend(joints.hot.tapped_through("upper-flange-thread", l, tf));
    if let Some(access) = e.joints.access_mm {
        features.extend(joints.cold.holes("access-hole", access, l, tf));
    }
    let recipe = Recipe { body: Body::Turned(profile), features };
    let square = rules::cylinder_face(e, c.flange_diameter_mm, l);
    let part = made("cold-cylinder", "Cold cylinder", &c.material, recipe)
        .control(rules::square("lower-face", "bore", square.clone()))
        .control(rules::square("length", "bore", square))
        .control(rules::position("lower-flange-hole", &["bore"], rules::screws(e.joints.cold.thread)))
        .control(rules::position("upper-flange-thread", &["bore"], rules::screws(e.joints.hot.thread)));
    let ring = e.joints.cold_ring.iter();
    ring.fold(part, |part, ring| part.note(&note(ring)))
        .note("Bore and both end faces in one setting.")
        .caution("The hot flange gets hot enough to burn.")
}
