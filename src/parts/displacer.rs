//! Displacer: shell (or bought can), base with hub and set screw, rod.

use super::geometry_rules as rules;
use super::kit::{along, at, fit, made, named, tapped_through};
use super::part::{Part, Supply};
use crate::shape::Point3;
use crate::shape::recipe::{Body, Place, ProfileNode, Recipe, Tag};
use crate::sizing::engine::Engine;

/// Outside edge radius of the shell \[mm\]; the inside one is smaller by the wall.
const EDGE_MM: f64 = 2.0;
/// Play between base and shell on diameter \[mm\], filled with retaining compound.
const BASE_PLAY_MM: f64 = 0.1;

/// Shell: a thin cup, open end at z = 0.
pub fn shell(e: &Engine) -> Part {
    let d = &e.displacer;
    let (ro, w, l) = (d.diameter_mm / 2.0, d.shell_wall_mm, d.length_mm);
    let ri = ro - w;
    let profile = vec![
        at(ri, 0.0),
        named(ro, 0.0, Tag::new("diameter").limits(0.0, -0.1).origin("displacer.diameter")),
        ProfileNode::arc(ro, l - EDGE_MM, ro - EDGE_MM, l - EDGE_MM, true).tag(Tag::new("edge-radius")),
        named(ro - EDGE_MM, l, Tag::new("length").limits(0.0, -0.2).origin("displacer.length")),
        at(0.0, l),
        named(0.0, l - w, Tag::new("end-thickness").from_z(l)),
        ProfileNode::arc(ri - EDGE_MM + w, l - w, ri - EDGE_MM + w, l - EDGE_MM, false)
            .tag(Tag::new("inside-edge-radius")),
        named(ri, l - EDGE_MM, Tag::new("inside-diameter").limits(0.05, 0.0).origin("displacer.shell_wall")),
    ];
    let recipe = Recipe { body: Body::Turned(profile), features: Vec::new() };
    let mut part = made("displacer-shell", "Displacer shell", &d.material, recipe)
        .note("Bond to the base with retaining compound rated for the cold end. The breather is in the base: keep it free of compound.")
        .caution("Air shut in swells the shell when it is hot and can burst it: never close the breather in the base.");
    if d.bought_can {
        part.name = "displacer-can".to_owned();
        part.title = "Displacer can (bought)".to_owned();
        part.supply = Supply::Buy {
            designation: format!("can {} x {} mm, wall {} mm, one end open", d.diameter_mm, l, w),
        };
    }
    part
}

/// Base: disc that closes the shell, with a hub inside it. Datum z = 0 is the cold face.
pub fn base(e: &Engine) -> Part {
    let d = &e.displacer;
    let r = d.diameter_mm / 2.0 - d.shell_wall_mm - BASE_PLAY_MM / 2.0;
    let (hub, b, h) = (d.hub_mm[0] / 2.0, d.base_mm, d.base_mm + d.hub_mm[1]);
    let rod = d.rod_mm / 2.0;
    let profile = vec![
        named(rod, 0.0, Tag::new("cold-face").ra(3.2)),
        named(r, 0.0, Tag::new("diameter").limits(0.0, -0.03).origin("displacer.shell_wall")),
        named(r, b, Tag::new("thickness").origin("displacer.base_thickness")),
        named(hub, b, Tag::new("hub-diameter").origin("displacer.hub_diameter")),
        named(hub, h, Tag::new("overall-length").origin("displacer.hub_height")),
        named(rod, h, fit("rod-bore", d.rod_mm, "H7").origin("displacer.rod_diameter").ra(1.6)),
    ];
    let z = b + d.hub_mm[1] / 2.0;
    let screw = d.set_screw;
    let hole = tapped_through(
        "set-screw",
        Point3::new(0.0, hub, z),
        along(0.0, -1.0, 0.0),
        &screw.designation,
        screw.tap_drill_mm,
        hub - rod,
    )
    .placed(Place::Radial { z, angle_deg: 90.0 });
    let recipe = Recipe { body: Body::Turned(profile), features: vec![hole] };
    made("displacer-base", "Displacer base", "aluminium-6082", recipe)
        .control(rules::runout("diameter", "rod-bore", rules::displacer_true(e)))
        .note("Set screw onto the flat of the rod, with thread-locking compound, before the shell goes on.")
        .note("Breather: drill 0.5 mm through the disc, halfway between hub and rim, before the shell is bonded on.")
}

/// Rod of the displacer: thread for the clevis at z = 0, plain end in the hub.
pub fn rod(e: &Engine) -> Part {
    let end = &e.drive.displacer.rod_end;
    let d = &e.displacer;
    let mut profile = super::rods::threaded_end(end.thread, end.length_mm, d.rod_mm, 0.0);
    profile.extend(super::rods::plain_end(d.rod_mm, d.rod_length_mm));
    let recipe = Recipe { body: Body::Turned(profile), features: Vec::new() };
    made("displacer-rod", "Displacer rod", "silver-steel", recipe)
        .control(rules::coaxial("lower-thread", "rod-diameter", rules::THREAD))
        .note("From ground bar: do not turn the running surface. Lock nut on the thread below the clevis.")
        .note("No flat yet: put the rod flush with the hub of the base, mark it by the set screw, grind a flat there; then the shell is bonded over both.")
}
