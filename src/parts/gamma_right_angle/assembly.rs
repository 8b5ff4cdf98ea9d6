//! The engine put together at one crank angle: every made part in its place.

use crate::parts::assembly::{Axis, con_rod, cylinder, displacer, drop, piston, placed, upright};
use crate::parts::base;
use crate::parts::drive::pin_collar_mm;
use crate::parts::flywheel;
use crate::parts::part::Instance;
use crate::shape::{Point3, Vector3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_right_angle::RightAngle;

/// What stands still.
fn still(e: &Engine, own: &RightAngle) -> Vec<Instance> {
    let (p, t, g) = (&own.places, own.plate_mm, e.joints.gasket_mm);
    let crank_z = e.drive.crank_z_mm;
    // parts of the lying cylinder: the engine's X is their Z
    let lying = |name: &str, x: f64, side: [f64; 3]| {
        placed(name, name, Point3::new(x, p.piston_y_mm, crank_z), [1.0, 0.0, 0.0], side)
    };
    // the block is turned so that water enters below and leaves above
    let (up, down) = ([0.0, 1.0, 0.0], [0.0, -1.0, 0.0]);
    let tube_x = p.head_x_mm + own.head.thickness_mm / 2.0;
    let tube_z = crank_z + own.head.top_mm - own.passage.spigot_mm;
    let rear = own.bracket.front_y_mm + e.drive.bracket_mm;
    let mut all = cylinder(e);
    all.extend([
        upright("cooler-plate", "cooler-plate", 0.0, 0.0, -t),
        upright("rod-guide", "rod-guide", 0.0, 0.0, -t - own.guide.length_mm),
        upright("transfer-tube", "transfer-tube", tube_x, p.piston_y_mm, tube_z),
        lying("back-plate", p.back_x_mm, up),
        lying("jacket-gasket", p.block_x_mm - g, down),
        lying("power-cylinder-block", p.block_x_mm, down),
        lying("power-cylinder-gasket", p.head_x_mm - g, down),
        lying("head-plate", p.head_x_mm, up),
        placed(
            "crank-bracket",
            "crank-bracket",
            Point3::new(0.0, rear, crank_z),
            [0.0, -1.0, 0.0],
            [1.0, 0.0, 0.0],
        ),
    ]);
    all
}

/// Crank and the ring between both bearings on its pin.
fn crank(e: &Engine, own: &RightAngle, angle: f64) -> [Instance; 2] {
    let d = &e.drive;
    let (sin, cos) = angle.sin_cos();
    let half = d.con_rod_thickness_mm / 2.0;
    let web = own.places.piston_y_mm + half + d.side_gap_mm + d.web_mm;
    let (x, z) = (d.piston.throw_mm * sin, d.crank_z_mm + d.piston.throw_mm * cos);
    // behind the open side of the piston's con rod
    let spacer = own.places.piston_y_mm - half - pin_collar_mm(e);
    let turned = [sin, 0.0, cos];
    [
        placed("crank", "crank", Point3::new(0.0, web, d.crank_z_mm), [0.0, -1.0, 0.0], turned),
        placed("pin-spacer", "pin-spacer", Point3::new(x, spacer, z), [0.0, 1.0, 0.0], turned),
    ]
}

/// All instances at `crank_angle_deg`, counted from the displacer's top dead centre; the displacer leads.
pub fn instances(e: &Engine, own: &RightAngle, crank_angle_deg: f64) -> Vec<Instance> {
    let (d, p) = (&e.drive, &own.places);
    let (first, second) = (crank_angle_deg.to_radians(), (crank_angle_deg - d.lead_deg).to_radians());
    let (x, z) = (Vector3::new(1.0, 0.0, 0.0), Vector3::new(0.0, 0.0, 1.0));
    let standing = Axis { origin: Point3::new(0.0, 0.0, 0.0), along: z, across: x };
    let lying = Axis {
        origin: Point3::new(0.0, p.piston_y_mm, d.crank_z_mm),
        along: x,
        across: Vector3::new(0.0, 0.0, -1.0),
    };
    let crown = p.head_x_mm - e.piston.top_clearance_mm - drop(e, &d.piston, second);
    let mut all = still(e, own);
    all.extend(displacer(e, first));
    all.extend(piston(e, &lying, crown));
    all.extend(con_rod(e, &standing, "displacer", d.crank_z_mm, d.displacer.throw_mm, first));
    all.extend(con_rod(e, &lying, "piston", 0.0, d.piston.throw_mm, second));
    all.extend(crank(e, own, first));
    all.extend(flywheel::instances(e, 0.0, d.crank_z_mm, first));
    all.extend(base::instances(e));
    all
}
