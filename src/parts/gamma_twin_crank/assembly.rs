//! The engine put together at one crank angle: every made part in its place.

use super::layout;
use crate::parts::assembly::{Axis, con_rod, cylinder, displacer, drop, piston, placed, upright};
use crate::parts::base;
use crate::parts::flywheel;
use crate::parts::part::Instance;
use crate::shape::{Point3, Vector3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;

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

/// Clevis, con rod, crank and pulley of one drive at its own `angle`. `first` is the displacer's.
fn drive(e: &Engine, own: &TwinCrank, axis: &Axis, angle: f64, first: bool) -> Vec<Instance> {
    let d = &e.drive;
    let (which, throw) =
        if first { ("displacer", d.displacer.throw_mm) } else { ("piston", d.piston.throw_mm) };
    let (sin, cos) = angle.sin_cos();
    let crank = format!("{which}-crank");
    let web_low = d.con_rod_thickness_mm / 2.0 + d.side_gap_mm + d.web_mm;
    let x = axis.origin.x;
    let mut all = con_rod(e, axis, which, d.crank_z_mm, throw, angle).to_vec();
    all.extend([
        placed(&crank, &crank, Point3::new(x, web_low, d.crank_z_mm), [0.0, -1.0, 0.0], [sin, 0.0, cos]),
        pulley(e, own, x, which, first),
    ]);
    all
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
    let axis = |x: f64| Axis {
        origin: Point3::new(x, 0.0, 0.0),
        along: Vector3::new(0.0, 0.0, 1.0),
        across: Vector3::new(1.0, 0.0, 0.0),
    };
    let (left, right) = (axis(0.0), axis(own.centres_mm));
    let crown = -own.cooler.thickness_mm - e.piston.top_clearance_mm - drop(e, &e.drive.piston, second);
    let mut all = still(e, own);
    all.extend(displacer(e, first));
    all.extend(piston(e, &right, crown));
    all.extend(drive(e, own, &left, first, true));
    all.extend(drive(e, own, &right, second, false));
    all.extend(flywheel::instances(e, own.centres_mm, e.drive.crank_z_mm, second));
    all.extend(base::instances(e));
    all
}
