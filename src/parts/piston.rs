//! Piston and piston rod. Datum of the piston: z = 0 at the skirt's end.

use super::geometry_rules as rules;
use super::kit::{along, at, made, named, tapped};
use super::part::Part;
use crate::design::PistonSeal;
use crate::shape::Point3;
use crate::shape::recipe::{Body, ProfileNode, Recipe, Tag};
use crate::sizing::engine::Engine;

/// Chamfer at crown and skirt \[mm\].
const CHAMFER_MM: f64 = 0.5;
/// Radius inside, under the crown \[mm\].
const INSIDE_MM: f64 = 2.0;

/// Depth of the upper side of groove `i` (0 is next to the crown) below the crown \[mm\].
pub fn groove_top(e: &Engine, i: usize) -> f64 {
    let p = &e.piston;
    p.top_land_mm + i as f64 * (p.seal.groove_mm + p.land_mm)
}

/// Outside with ring grooves, from the skirt's end up to the crown.
pub fn outside(e: &Engine) -> Vec<ProfileNode> {
    let p = &e.piston;
    let (r, l, g) = (p.diameter_mm / 2.0, p.length_mm, p.seal.groove_diameter_mm / 2.0);
    // a close fit is lapped
    let (low, ra) = if p.seal.count == 0 { (-0.005, 0.4) } else { (-0.03, 1.6) };
    let body = || Tag::new("diameter").limits(0.0, low).origin("piston.diameter").ra(ra);
    let mut nodes = vec![named(r - CHAMFER_MM, 0.0, Tag::new("skirt-chamfer")), named(r, CHAMFER_MM, body())];
    for i in (0..p.seal.count).rev() {
        let top = l - groove_top(e, i);
        let tag = |what: &str| Tag::new(&format!("groove-{}-{what}", i + 1));
        nodes.extend([
            named(
                r,
                top - p.seal.groove_mm,
                tag("width").limits(0.03, 0.0).from_z(top).origin("piston.groove_width").ra(0.8),
            ),
            named(
                g,
                top - p.seal.groove_mm,
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

/// Inside, from under the crown at a radius \[mm\] out to the skirt's end, with a radius in the corner \[mm\].
pub fn inside(e: &Engine, from: f64, corner: f64) -> [ProfileNode; 4] {
    let p = &e.piston;
    let (under, r) = (p.length_mm - p.crown_mm, p.inside_mm / 2.0);
    [
        named(from, under, Tag::new("crown-thickness").from_z(p.length_mm).origin("piston.crown")),
        ProfileNode::arc(r - corner, under, r - corner, under - corner, false).tag(Tag::new("inside-radius")),
        named(r, under - corner, Tag::new("inside-diameter").origin("piston.skirt_wall")),
        at(r, 0.0),
    ]
}

/// The piston.
pub fn part(e: &Engine) -> Part {
    let p = &e.piston;
    let under = p.length_mm - p.crown_mm;
    let [boss, height] = p.boss_mm;
    let boss_z = under - height;
    let mut profile = outside(e);
    profile.extend([
        named(0.0, boss_z, Tag::new("boss-height").from_z(p.length_mm).origin("piston.boss_height")),
        named(boss / 2.0, boss_z, Tag::new("boss-diameter")),
    ]);
    profile.extend(inside(e, boss / 2.0, INSIDE_MM));
    let thread = e.drive.piston.rod_end.thread;
    let hole = tapped(
        "rod-thread",
        Point3::new(0.0, 0.0, boss_z),
        along(0.0, 0.0, 1.0),
        thread,
        1.5 * thread.major_mm + 1.0,
    );
    let recipe = Recipe { body: Body::Turned(profile), features: vec![hole] };
    noted(
        e,
        made("piston", "Piston", &p.material, recipe).control(rules::coaxial(
            "rod-thread",
            "diameter",
            rules::THREAD,
        )),
    )
}

/// With the notes of every piston.
pub fn noted(e: &Engine, part: Part) -> Part {
    let p = &e.piston;
    if p.seal.count == 0 {
        return part.note("Outside and what holds the rod in one setting; lap to the bore.").note(&format!(
            "Play {:.3} mm on the diameter at 20 °C, {:.3} mm hot.",
            p.bore_mm - p.diameter_mm,
            p.hot_play_mm
        ));
    }
    let grooves = match p.seal.kind {
        PistonSeal::ORing => {
            "Ring groove: no burrs, bottom corners 0.2 mm at the most, edges broken 0.1 mm; this goes before the title block."
        }
        _ if p.seal.count == 1 => "Ring groove: no burrs, corners sharp inside.",
        _ => "Ring grooves: no burrs, corners sharp inside.",
    };
    let rod = if p.boss_mm[1] > 0.0 { "rod thread" } else { "rod bore" };
    let sides = (1..=if p.seal.kind == PistonSeal::ORing { 0 } else { p.seal.count })
        .map(|i| rules::square(&format!("groove-{i}-width"), "diameter", rules::SIDE));
    let part = sides.fold(part, Part::control);
    let cut = if p.seal.count == 1 { "groove" } else { "grooves" };
    part.note(&format!("Outside, {cut} and {rod} in one setting.")).note(grooves)
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
        .control(rules::coaxial("lower-thread", "rod-diameter", rules::THREAD))
        .note("From ground bar: do not turn the running surface. Lock nut on the lower thread; thread lock in the piston.")
}
