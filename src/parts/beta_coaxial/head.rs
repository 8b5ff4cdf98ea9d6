//! Hot cap with heater bore and wide lower bore, liner, canister of the regenerator.

use crate::parts::geometry_rules as rules;
use crate::parts::joints::Patterns;
use crate::parts::kit::{at, fit, made, named};
use crate::parts::part::Part;
use crate::shape::recipe::{Body, ProfileNode, Recipe, Tag};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;

/// Fillet between flange and wall, and edge radius of the closed end \[mm\].
const FILLET_MM: f64 = 3.0;
/// Inside corner radius at the closed end \[mm\].
const INSIDE_MM: f64 = 1.0;

/// Hot cap. Datum z = 0 is its gasket face.
pub fn hot_cap(e: &Engine, own: &BetaCoaxial, common: &Patterns) -> Part {
    let (c, [low, step]) = (&e.hot_cap, own.head.low_bore_mm);
    let (ri, rl, rf) = (c.bore_mm / 2.0, low / 2.0, e.cold.flange_diameter_mm / 2.0);
    let (ro, rw) = (ri + c.wall_mm, rl + c.wall_mm);
    let (tf, h) = (c.flange_mm, c.depth_mm + c.end_mm);
    let fr = FILLET_MM.min((rf - rw) / 2.0).min((step - tf) / 4.0);
    let cr = FILLET_MM.min(c.wall_mm + INSIDE_MM);
    let profile = vec![
        named(rl, 0.0, Tag::new("gasket-face").ra(1.6)),
        named(rf, 0.0, Tag::new("flange-diameter").origin("cold_end.flange_diameter")),
        named(rf, tf, Tag::new("flange-thickness").origin("hot_end.flange_thickness")),
        ProfileNode::arc(rw + fr, tf, rw + fr, tf + fr, false).tag(Tag::new("flange-fillet")),
        named(rw, tf + fr, Tag::new("lower-outside-diameter").origin("hot_end.wall")),
        named(rw, step + c.wall_mm, Tag::new("shoulder")),
        named(ro, step + c.wall_mm + (rw - ro), Tag::new("outside-diameter").origin("hot_end.wall")),
        ProfileNode::arc(ro, h - cr, ro - cr, h - cr, true).tag(Tag::new("end-radius")),
        named(ro - cr, h, Tag::new("overall-length")),
        at(0.0, h),
        named(0.0, c.depth_mm, Tag::new("inside-depth").origin("hot_end.depth")),
        ProfileNode::arc(ri - INSIDE_MM, c.depth_mm, ri - INSIDE_MM, c.depth_mm - INSIDE_MM, false)
            .tag(Tag::new("inside-radius")),
        named(
            ri,
            c.depth_mm - INSIDE_MM,
            Tag::new("heater-bore").limits(0.1, 0.0).origin("hot_end.bore").ra(3.2),
        ),
        named(ri, step, Tag::new("lower-bore-depth").origin("hot_end.lower_bore_depth")),
        named(rl, step, fit("lower-bore", low, "H9").origin("hot_end.lower_bore").ra(3.2)),
    ];
    let features = common.hot.clearance("flange-hole", 0.0, 0.0, tf, tf);
    let recipe = Recipe { body: Body::Turned(profile), features };
    let square = rules::cylinder_face(e, e.cold.flange_diameter_mm, c.depth_mm);
    made("hot-cap", "Hot cap", &c.material, recipe)
        .control(rules::square("gasket-face", "lower-bore", square))
        .control(rules::coaxial("heater-bore", "lower-bore", rules::displacer_true(e)))
        .control(rules::position("flange-hole", &["lower-bore"], rules::screws(e.joints.hot.thread)))
        .note("From the solid, or flange and end welded by a qualified welder: then machine gasket face and bores after welding.")
        .note("Gasket face free of scratches across the seal.")
        .caution("Hot in use: burns. Guard it, keep it 0.5 m from anything that burns, let it cool before work.")
        .caution("Flame in a room: carbon monoxide. Ventilate; follow local codes and leave gas fittings to licensed practice.")
}

/// A plain tube standing on z = 0.
fn tube(bore: (f64, Tag), outside: (f64, Tag), length: (f64, Tag)) -> Recipe {
    let (ri, ro, l) = (bore.0 / 2.0, outside.0 / 2.0, length.0);
    let profile = vec![at(ri, 0.0), named(ro, 0.0, outside.1), named(ro, l, length.1), named(ri, l, bore.1)];
    Recipe { body: Body::Turned(profile), features: Vec::new() }
}

/// Liner in which the displacer moves. Datum z = 0 is its lower end.
pub fn liner(e: &Engine, own: &BetaCoaxial) -> Part {
    let h = &own.head;
    let recipe = tube(
        (e.displacer.bore_mm, fit("bore", e.displacer.bore_mm, "H9").origin("displacer.bore").ra(1.6)),
        (h.liner_mm, fit("outside-diameter", h.liner_mm, "h8").origin("liner.diameter").ra(3.2)),
        (h.liner_length_mm, Tag::new("length").limits(0.0, -0.2).origin("liner.length")),
    );
    made("liner", "Cylinder liner", &e.hot_cap.material, recipe)
        .control(rules::coaxial("outside-diameter", "bore", rules::displacer_true(e)))
        .note("Bond its lower end into the cooler with retaining compound rated for the cold end; bore in line with the cooler's.")
        .note("The upper end stands free and grows when hot. Edges broken 0.2 mm at the most; this goes before the title block.")
}

/// Canister around the matrix. Datum z = 0 is its lower end.
pub fn canister(own: &BetaCoaxial) -> Part {
    let (h, r) = (&own.head, &own.head.regenerator);
    let inside = h.liner_mm + 2.0 * r.thickness_mm;
    let recipe = tube(
        (inside, Tag::new("bore").limits(0.1, 0.0).origin("regenerator.thickness")),
        (
            inside + 2.0 * h.shell_mm,
            Tag::new("outside-diameter").limits(0.0, -0.05).origin("hot_end.lower_bore"),
        ),
        (r.length_mm + 2.0 * h.plenum_mm, Tag::new("length").limits(0.0, -0.2).origin("regenerator.length")),
    );
    made("regenerator-canister", "Regenerator canister", &r.material, recipe)
        .note("Turned from tube, or rolled of sheet and butt-welded without a lap, which would take up the clearance; a sliding fit in the hot cap.")
        .caution("Thin edges cut: gloves.")
}
