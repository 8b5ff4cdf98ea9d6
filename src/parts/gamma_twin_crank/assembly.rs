//! The engine put together at one crank angle: every made part in its place.

use super::{layout, lead, tensioner};
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
    // the cap holds the ring, where there is one
    all.extend(e.gland.oring.as_ref().map(|_| gland));
    all.extend([
        upright("cooler-plate", "cooler-plate", 0.0, 0.0, -t),
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

/// Clevis, con rod and crank of one drive at its own `angle`. `first` is the displacer's.
fn drive(e: &Engine, axis: &Axis, angle: f64, first: bool) -> Vec<Instance> {
    let d = &e.drive;
    let (which, throw) =
        if first { ("displacer", d.displacer.throw_mm) } else { ("piston", d.piston.throw_mm) };
    let (sin, cos) = angle.sin_cos();
    let crank = format!("{which}-crank");
    let web_low = d.con_rod_thickness_mm / 2.0 + d.side_gap_mm + d.web_mm;
    let x = axis.origin.x;
    let mut all = con_rod(e, axis, which, d.crank_z_mm, throw, angle).to_vec();
    all.push(placed(
        &crank,
        &crank,
        Point3::new(x, web_low, d.crank_z_mm),
        [0.0, -1.0, 0.0],
        [sin, 0.0, cos],
    ));
    all
}

/// The piston's pulley, hub towards the bracket.
fn pulley(e: &Engine, own: &TwinCrank, angle: f64) -> Instance {
    let at = Point3::new(own.centres_mm, layout::pulley_y(e) + own.belt.hub_mm[1], e.drive.crank_z_mm);
    let (sin, cos) = angle.sin_cos();
    placed("piston-pulley", "timing-pulley", at, [0.0, 1.0, 0.0], [sin, 0.0, cos])
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
    all.extend(drive(e, &left, first, true));
    all.extend(drive(e, &right, second, false));
    all.push(pulley(e, own, second));
    all.extend(lead::instances(layout::lead_y(e, own), e.drive.crank_z_mm, first));
    let rear = layout::bracket_front_y(e) + e.drive.bracket_mm;
    all.extend(tensioner::instances(&own.tensioner, rear, e.drive.crank_z_mm));
    all.extend(flywheel::instances(e, own.centres_mm, e.drive.crank_z_mm, second));
    all.extend(base::instances(e));
    all
}
