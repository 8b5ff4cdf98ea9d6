//! The engine put together at one crank angle: every made part in its place.

use super::crank::{displacer_pin_y, journals_mm, piston_pin_y};
use crate::parts::assembly::{Axis, con_rod, con_rod_alone, displacer, drop, fork, placed, upright};
use crate::parts::base;
use crate::parts::drive::pin_collar_mm;
use crate::parts::flywheel;
use crate::parts::part::Instance;
use crate::parts::rings;
use crate::shape::{Point3, Vector3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;

/// What stands still.
fn still(e: &Engine, own: &BetaCoaxial) -> Vec<Instance> {
    let (s, c, g) = (&e.stack, &own.case, e.joints.gasket_mm);
    let (top, crank) = (own.heights.case_top_mm, e.drive.crank_z_mm);
    let one = |name: &str, z: f64| upright(name, name, 0.0, 0.0, z);
    let half = c.length_mm / 2.0;
    let (front, rear) = ([0.0, -1.0, 0.0], [0.0, 1.0, 0.0]);
    let lying = |name: &str, part: &str, y: f64, z: [f64; 3]| {
        placed(name, part, Point3::new(0.0, y, crank), z, [1.0, 0.0, 0.0])
    };
    vec![
        one("hot-cap", s.cap_low_mm),
        one("hot-cap-gasket", s.cold_top_mm),
        one("liner", s.cold_top_mm - own.head.seat_mm),
        one("regenerator-canister", s.cap_low_mm),
        one("regenerator", s.cap_low_mm + own.head.plenum_mm),
        one("cooler", s.cold_low_mm),
        one("cooler-gasket", 0.0),
        one("power-cylinder", own.cylinder.low_z_mm),
        one("cylinder-gasket", top),
        lying("crankcase", "crankcase", half, front),
        lying("front-gasket", "end-plate-gasket", -half, front),
        lying("front-plate", "front-plate", -half - g, front),
        lying("rear-gasket", "end-plate-gasket", half, rear),
        lying("rear-plate", "rear-plate", half + g, rear),
        lying("seal-cap", "seal-cap", half + g + c.plate_mm[1], rear),
    ]
}

/// Crankshaft with the spacers of its bearings; crankpins stand at these angles from the top \[rad\].
fn crankshaft(e: &Engine, own: &BetaCoaxial, [displacer, piston]: [f64; 2]) -> Vec<Instance> {
    let (d, s) = (&e.drive, &own.shaft);
    let out = |angle: f64| Vector3::new(angle.sin(), 0.0, angle.cos());
    let (back, axis) = (Vector3::new(0.0, 1.0, 0.0), Point3::new(0.0, 0.0, d.crank_z_mm));
    let at = |throw: f64, angle: f64, y: f64| axis + out(angle) * throw + back * y;
    let on_piston = |y: f64| at(d.piston.throw_mm, piston, y);
    let on_displacer = |y: f64| at(d.displacer.throw_mm, displacer, y);
    let one = |name: &str, part: &str, origin: Point3, x: Vector3| Instance {
        name: name.to_owned(),
        part: part.to_owned(),
        origin,
        z_axis: back,
        x_axis: x,
    };
    let ([pin_low, pin_high], middle) = (piston_pin_y(e, own), displacer_pin_y(e, own));
    let outer = pin_high - s.webs_mm[1];
    let [short, _] = journals_mm(e, own);
    let (up, between) = (out(piston), (on_displacer(0.0) - on_piston(0.0)) / s.pins_apart_mm);
    let half = d.con_rod_thickness_mm / 2.0;
    // a rod's bearing lies at its front side; the spacer fills the way from it to the web behind
    let spacer = |y: f64| y + half + d.side_gap_mm - pin_collar_mm(e);
    let y = own.yoke.rod_y_mm;
    vec![
        one("displacer-crankpin", "displacer-crankpin", on_displacer(-middle), up),
        one("front-piston-crankpin", "piston-crankpin", on_piston(-pin_high), up),
        one("rear-piston-crankpin", "piston-crankpin", on_piston(pin_low), up),
        one("crank-web-inner-front", "crank-web-inner", on_piston(-middle), between),
        one("crank-web-inner-rear", "crank-web-inner", on_piston(pin_low), between),
        one("crank-web-outer-front", "crank-web-outer", axis - back * pin_high, up),
        one("crank-web-outer-rear", "crank-web-outer", axis + back * outer, up),
        one("crank-journal", "crank-journal", axis - back * (outer + short), up),
        one("crank-shaft", "crank-shaft", axis + back * outer, up),
        one("pin-spacer-displacer", "pin-spacer", on_displacer(spacer(0.0)), up),
        one("pin-spacer-front", "pin-spacer", on_piston(spacer(-y)), up),
        one("pin-spacer-rear", "pin-spacer", on_piston(spacer(y)), up),
    ]
}

/// Piston with rings and yoke; `crown` \[mm\] is the height of its crown.
fn piston(e: &Engine, own: &BetaCoaxial, axis: &Axis, crown: f64) -> Vec<Instance> {
    let y = &own.yoke;
    let low = crown - e.piston.crown_mm - y.height_mm();
    let yoke = Instance {
        name: "piston-yoke".to_owned(),
        part: "piston-yoke".to_owned(),
        ..fork(axis, low, 0.0, y.width_mm)
    };
    let mut all = vec![axis.stands("piston", "piston", crown - e.piston.length_mm, 0.0), yoke];
    all.extend(rings::instances(e, axis, crown));
    all
}

/// Height of the piston's crown \[mm\].
pub fn crown_mm(e: &Engine, own: &BetaCoaxial, crank_angle_deg: f64) -> f64 {
    let d = &e.drive;
    own.heights.crown_mm - drop(e, &d.piston, (crank_angle_deg - d.lead_deg).to_radians())
}

/// All instances at `crank_angle_deg`, counted from the displacer's top dead centre; the displacer leads.
pub fn instances(e: &Engine, own: &BetaCoaxial, crank_angle_deg: f64) -> Vec<Instance> {
    let d = &e.drive;
    let (first, second) = (crank_angle_deg.to_radians(), (crank_angle_deg - d.lead_deg).to_radians());
    let line = |y: f64| Axis {
        origin: Point3::new(0.0, y, 0.0),
        along: Vector3::new(0.0, 0.0, 1.0),
        across: Vector3::new(1.0, 0.0, 0.0),
    };
    let crown = crown_mm(e, own, crank_angle_deg);
    let rod =
        |which: &str, y: f64| con_rod_alone(e, &line(y), which, d.crank_z_mm, d.piston.throw_mm, second);
    let mut all = still(e, own);
    all.extend(displacer(e, first));
    all.extend(piston(e, own, &line(0.0), crown));
    all.extend(con_rod(e, &line(0.0), "displacer", d.crank_z_mm, d.displacer.throw_mm, first));
    all.extend([rod("front-piston", -own.yoke.rod_y_mm), rod("rear-piston", own.yoke.rod_y_mm)]);
    all.extend(crankshaft(e, own, [first, second]));
    all.extend(flywheel::instances(e, 0.0, d.crank_z_mm, second));
    all.extend(base::instances(e));
    all
}
