//! The engine put together at one crank angle: every made part in its place.

use super::layout;
use crate::parts::assembly::{cylinder, displacer, drop, placed, upright};
use crate::parts::part::Instance;
use crate::parts::rings;
use crate::shape::{Point3, Vector3};
use crate::sizing::engine::{Crank, Engine};
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;

/// Where one drive stands: pin of the crank and pin of the clevis.
struct Stand {
    x: f64,
    angle: f64,
    crankpin: Point3,
    clevis_pin_z: f64,
}

fn stand(e: &Engine, x: f64, crank: &Crank, angle: f64) -> Stand {
    let d = &e.drive;
    let (sin, cos) = angle.sin_cos();
    let crankpin = Point3::new(x + crank.throw_mm * sin, 0.0, d.crank_z_mm + crank.throw_mm * cos);
    let across = crank.throw_mm * sin;
    let clevis_pin_z = crankpin.z + (d.con_rod_mm.powi(2) - across * across).sqrt();
    Stand { x, angle, crankpin, clevis_pin_z }
}

/// What stands still.
fn still(e: &Engine, own: &TwinCrank) -> Vec<Instance> {
    let (s, g, c) = (&own.heights, e.joints.gasket_mm, own.centres_mm);
    let t = own.cooler.thickness_mm;
    let gland = Instance {
        x_axis: Vector3::new(1.0, 0.0, 0.0),
        ..upright("gland-cap", "gland-cap", 0.0, 0.0, -t - e.gland.cap_mm[1])
    };
    let bracket_rear = layout::bracket_front_y(e) + e.drive.bracket_mm;
    let mut all = cylinder(e);
    all.extend([
        upright("cooler-plate", "cooler-plate", 0.0, 0.0, -t),
        gland,
        upright("power-cylinder-gasket", "power-cylinder-gasket", c, 0.0, -t - g),
        upright("power-cylinder-block", "power-cylinder-block", c, 0.0, s.block_low_mm),
        upright("jacket-gasket", "jacket-gasket", c, 0.0, s.back_top_mm),
        upright("back-plate", "back-plate", 0.0, 0.0, s.back_low_mm),
        placed(
            "crank-bracket",
            "crank-bracket",
            Point3::new(0.0, bracket_rear, e.drive.crank_z_mm),
            [0.0, -1.0, 0.0],
            [1.0, 0.0, 0.0],
        ),
    ]);
    all
}

/// Piston with rings, expanders and rod.
fn piston(e: &Engine, own: &TwinCrank, angle: f64) -> Vec<Instance> {
    let p = &e.piston;
    let c = own.centres_mm;
    let crown = -own.cooler.thickness_mm - p.top_clearance_mm - drop(e, &e.drive.piston, angle);
    let boss = crown - p.crown_mm - p.boss_mm[1];
    let rod = boss + 1.5 * e.drive.piston.rod_end.thread.major_mm - p.rod_length_mm;
    let mut all = vec![
        upright("piston", "piston", c, 0.0, crown - p.length_mm),
        upright("piston-rod", "piston-rod", c, 0.0, rod),
    ];
    all.extend(rings::instances(e, [c, 0.0], crown));
    all
}

/// Clevis, con rod, crank and pulley of one drive. `first` is the displacer's.
fn drive(e: &Engine, own: &TwinCrank, stand: &Stand, first: bool) -> Vec<Instance> {
    let d = &e.drive;
    let which = if first { "displacer" } else { "piston" };
    let half = d.con_rod_thickness_mm / 2.0;
    let p = stand.crankpin;
    let rod_x = [(stand.x - p.x) / d.con_rod_mm, 0.0, (stand.clevis_pin_z - p.z) / d.con_rod_mm];
    let (sin, cos) = stand.angle.sin_cos();
    let crank = format!("{which}-crank");
    let web_low = half + d.side_gap_mm + d.web_mm;
    let clevis =
        Point3::new(stand.x - e.clevis.size_mm[0] / 2.0, 0.0, stand.clevis_pin_z - e.clevis.pin_z_mm);
    vec![
        placed(&format!("{which}-clevis"), "clevis", clevis, [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]),
        placed(&format!("{which}-con-rod"), "con-rod", Point3::new(p.x, half, p.z), [0.0, -1.0, 0.0], rod_x),
        placed(
            &crank,
            &crank,
            Point3::new(stand.x, web_low, d.crank_z_mm),
            [0.0, -1.0, 0.0],
            [sin, 0.0, cos],
        ),
        pulley(e, own, stand.x, which, first),
    ]
}

/// One pulley; the second sits the other way round with its teeth in the same plane.
fn pulley(e: &Engine, own: &TwinCrank, x: f64, which: &str, first: bool) -> Instance {
    let b = &own.belt;
    let y = layout::pulley_y(e) + b.hub_mm[1];
    let name = format!("{which}-pulley");
    let z = e.drive.crank_z_mm;
    if first {
        return placed(&name, "timing-pulley", Point3::new(x, y, z), [0.0, 1.0, 0.0], [1.0, 0.0, 0.0]);
    }
    let y = y + 2.0 * b.flange_mm[0] + b.face_mm;
    placed(&name, "timing-pulley", Point3::new(x, y, z), [0.0, -1.0, 0.0], [1.0, 0.0, 0.0])
}

/// All instances at `crank_angle_deg`, counted from the displacer's top dead centre; the displacer leads.
pub fn instances(e: &Engine, own: &TwinCrank, crank_angle_deg: f64) -> Vec<Instance> {
    let lead = e.drive.lead_deg;
    let (first, second) = (crank_angle_deg.to_radians(), (crank_angle_deg - lead).to_radians());
    let mut all = still(e, own);
    all.extend(displacer(e, first));
    all.extend(piston(e, own, second));
    all.extend(drive(e, own, &stand(e, 0.0, &e.drive.displacer, first), true));
    all.extend(drive(e, own, &stand(e, own.centres_mm, &e.drive.piston, second), false));
    all
}
