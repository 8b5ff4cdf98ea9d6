//! Hot cap: a cup with a flange, closed at the hot end. Datum z = 0 is its gasket face.

use super::geometry_rules as rules;
use super::kit::{at, made, named};
use super::part::Part;
use super::pattern::Pattern;
use crate::shape::recipe::{Body, ProfileNode, Recipe, Tag};
use crate::sizing::engine::Engine;

/// Fillet between flange and wall, and edge radius of the closed end \[mm\].
const FILLET_MM: f64 = 3.0;
/// Inside corner radius \[mm\].
const INSIDE_MM: f64 = 2.0;

/// The part.
pub fn part(e: &Engine, screws: &Pattern) -> Part {
    let c = &e.hot_cap;
    let (ri, rf) = (c.bore_mm / 2.0, e.cold.flange_diameter_mm / 2.0);
    let ro = ri + c.wall_mm;
    let (tf, h) = (c.flange_mm, c.depth_mm + c.end_mm);
    let fr = FILLET_MM.min((rf - ro) / 2.0).min((h - tf) / 4.0);
    let cr = FILLET_MM.min(c.wall_mm + INSIDE_MM);
    let ir = INSIDE_MM.min(c.depth_mm / 4.0);
    let profile = vec![
        named(ri, 0.0, Tag::new("gasket-face").ra(1.6)),
        named(rf, 0.0, Tag::new("flange-diameter").origin("cold_end.flange_diameter")),
        named(rf, tf, Tag::new("flange-thickness").origin("hot_end.flange_thickness")),
        ProfileNode::arc(ro + fr, tf, ro + fr, tf + fr, false).tag(Tag::new("flange-fillet")),
        named(ro, tf + fr, Tag::new("outside-diameter").origin("hot_end.wall")),
        ProfileNode::arc(ro, h - cr, ro - cr, h - cr, true).tag(Tag::new("end-radius")),
        named(ro - cr, h, Tag::new("overall-length")),
        at(0.0, h),
        named(0.0, c.depth_mm, Tag::new("inside-depth").origin("hot_end.depth")),
        ProfileNode::arc(ri - ir, c.depth_mm, ri - ir, c.depth_mm - ir, false).tag(Tag::new("inside-radius")),
        named(ri, c.depth_mm - ir, Tag::new("bore").limits(0.1, 0.0).origin("displacer.bore").ra(3.2)),
    ];
    let features = screws.clearance("flange-hole", 0.0, 0.0, tf, tf);
    let recipe = Recipe { body: Body::Turned(profile), features };
    let part = made("hot-cap", "Hot cap", &c.material, recipe)
        .control(rules::square("gasket-face", "bore", rules::cylinder_face(e, e.cold.flange_diameter_mm, c.depth_mm)))
        .control(rules::position("flange-hole", &["bore"], rules::screws(e.joints.hot.thread)))
        .note("May be made of tube, flange and end welded by a qualified welder: then machine the gasket face after welding.")
        .note("Gasket faces free of scratches across the seal.")
        .caution(if c.flame {
            "Hot in use: burns. Guard it, keep it 0.5 m from anything that burns, let it cool before work."
        } else {
            "Hot in use: burns. Guard it, let it cool before work."
        });
    if !c.flame {
        return part;
    }
    part.caution("Flame in a room: carbon monoxide. Ventilate; follow local codes and leave gas fittings to licensed practice.")
}
