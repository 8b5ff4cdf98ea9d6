//! Piston, piston rod, rings and expanders. Datum of the piston: z = 0 at the skirt's end.

use super::kit::{along, at, fit, made, named, split_ring, tapped};
use super::part::Part;
use crate::shape::Point3;
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, ProfileNode, Recipe, Tag};
use crate::sizing::engine::Engine;

/// Chamfer at crown and skirt \[mm\].
const CHAMFER_MM: f64 = 0.5;
/// Radius inside, under the crown \[mm\].
const INSIDE_MM: f64 = 2.0;

/// Depth of the upper side of groove `i` (0 is next to the crown) below the crown \[mm\].
pub fn groove_top(e: &Engine, i: usize) -> f64 {
    let p = &e.piston;
    p.top_land_mm + i as f64 * (p.groove_mm + p.land_mm)
}

/// Outside with ring grooves, from the skirt's end up to the crown.
fn outside(e: &Engine) -> Vec<ProfileNode> {
    let p = &e.piston;
    let (r, l, g) = (p.diameter_mm / 2.0, p.length_mm, p.groove_diameter_mm / 2.0);
    let body = || Tag::new("diameter").limits(0.0, -0.03).origin("piston.diameter").ra(1.6);
    let mut nodes = vec![named(r - CHAMFER_MM, 0.0, Tag::new("skirt-chamfer")), named(r, CHAMFER_MM, body())];
    for i in (0..p.rings).rev() {
        let top = l - groove_top(e, i);
        let tag = |what: &str| Tag::new(&format!("groove-{}-{what}", i + 1));
        nodes.extend([
            named(
                r,
                top - p.groove_mm,
                tag("width").limits(0.03, 0.0).from_z(top).origin("piston.groove_width").ra(0.8),
            ),
            named(
                g,
                top - p.groove_mm,
                tag("diameter").limits(0.0, -0.1).origin("piston.groove_diameter").ra(1.6),
            ),
            named(g, top, tag("place").from_z(l).origin("piston.top_land")),
            named(r, top, tag("land-diameter").limits(0.0, -0.03).origin("piston.diameter")),
        ]);
    }
    nodes.extend([
        named(r, l - CHAMFER_MM, Tag::new("crown-chamfer")),
        named(r - CHAMFER_MM, l, Tag::new("length").origin("piston.length")),
        at(0.0, l),
    ]);
    nodes
}

/// The piston.
pub fn part(e: &Engine) -> Part {
    let p = &e.piston;
    let under = p.length_mm - p.crown_mm;
    let [boss, height] = p.boss_mm;
    let inside = p.groove_diameter_mm / 2.0 - p.skirt_wall_mm;
    let boss_z = under - height;
    let mut profile = outside(e);
    profile.extend([
        named(0.0, boss_z, Tag::new("boss-height").from_z(p.length_mm).origin("piston.boss_height")),
        named(boss / 2.0, boss_z, Tag::new("boss-diameter")),
        named(boss / 2.0, under, Tag::new("crown-thickness").from_z(p.length_mm).origin("piston.crown")),
        ProfileNode::arc(inside - INSIDE_MM, under, inside - INSIDE_MM, under - INSIDE_MM, false)
            .tag(Tag::new("inside-radius")),
        named(inside, under - INSIDE_MM, Tag::new("inside-diameter").origin("piston.skirt_wall")),
        at(inside, 0.0),
    ]);
    let thread = e.drive.piston.rod_end.thread;
    let hole = tapped(
        "rod-thread",
        Point3::new(0.0, 0.0, boss_z),
        along(0.0, 0.0, 1.0),
        thread,
        1.5 * thread.major_mm + 1.0,
    );
    let recipe = Recipe { body: Body::Turned(profile), features: vec![hole] };
    made("piston", "Piston", &p.material, recipe)
        .note("Outside, grooves and rod thread in one setting.")
        .note("Ring grooves: sides square, no burrs, corners sharp inside.")
}

/// Piston rod: thread for the clevis at z = 0, thread for the piston at the top.
pub fn rod(e: &Engine) -> Part {
    let p = &e.piston;
    let end = &e.drive.piston.rod_end;
    let mut profile = super::rods::threaded_end(end.thread, end.length_mm, p.rod_mm, 0.0);
    profile.extend(super::rods::upper_thread(
        end.thread,
        1.5 * end.thread.major_mm,
        p.rod_mm,
        p.rod_length_mm,
    ));
    let recipe = Recipe { body: Body::Turned(profile), features: Vec::new() };
    made("piston-rod", "Piston rod", "silver-steel", recipe)
        .note("From ground bar: do not turn the running surface. Lock nut on the lower thread; thread lock in the piston.")
}

/// A split ring as a flat part: outside and inside diameter, gap, height.
fn ring(name: &str, title: &str, stuff: &str, diameters: [f64; 2], gap: f64, height: f64) -> Part {
    let boundary = split_ring(diameters[0] / 2.0, diameters[1] / 2.0, gap);
    let sizes = vec![
        (Tag::new("outside-diameter").origin("piston.bore"), diameters[0]),
        (Tag::new("inside-diameter").origin("piston.ring_width"), diameters[1]),
        (Tag::new("gap").limits(0.1, 0.0).origin("piston.ring_gap"), gap),
    ];
    let tag = fit("height", height, "h9").origin("piston.ring_height");
    let body = Body::Plate { outline: Outline::Free { boundary, sizes }, thickness: height, tag };
    made(name, title, stuff, Recipe { body, features: Vec::new() })
}

/// Piston rings.
pub fn rings(e: &Engine) -> Part {
    let p = &e.piston;
    ring("piston-ring", "Piston ring", "ptfe-carbon", [p.bore_mm, p.bore_mm - 2.0 * p.ring_width_mm], p.ring_gap_mm, p.ring_height_mm)
        .flat()
        .times(p.rings)
        .note("Sizes as fitted in the bore, cold. Turn a tube to these diameters, part off, cut the gap.")
        .note("Fit with the gaps half a turn apart.")
        .caution("PTFE gives off harmful fumes above 260 °C: keep it away from the hot end, do not burn scrap, do not smoke near the dust.")
}

/// Expanders behind the rings.
pub fn expanders(e: &Engine) -> Part {
    let p = &e.piston;
    let outer = p.bore_mm - 2.0 * p.ring_width_mm;
    let gap = 2.0;
    let strip = std::f64::consts::PI * (outer - p.expander_mm) - gap;
    let height = p.ring_height_mm - 0.2;
    ring("ring-expander", "Ring expander", "spring-steel", [outer, outer - 2.0 * p.expander_mm], gap, height)
        .times(p.rings)
        .note(&format!("Sizes as fitted. From spring strip {} x {height:.2} mm, cut {strip:.1} mm long, ends rounded.", p.expander_mm))
        .note("Free shape: bend to about 1.1 times the fitted diameter, so that it presses the ring out all round.")
}
