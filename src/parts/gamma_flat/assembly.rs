//! The engine put together at one crank angle: every made part in its place.

use super::{clamped_y, end_ring_mm};
use crate::parts::assembly::{Axis, con_rod, cylinder, displacer, drop, piston, placed, upright};
use crate::parts::flywheel;
use crate::parts::part::Instance;
use crate::shape::{Point3, Vector3};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::common::drive::{COLLAR_MM, web_back_mm};
use crate::sizing::layouts::gamma_flat::Flat;

/// What stands still.
fn still(e: &Engine, own: &Flat) -> Vec<Instance> {
    let (s, g, c, t) = (&own.heights, e.joints.gasket_mm, own.centres_mm, own.cooler.thickness_mm);
    let crank_z = e.drive.crank_z_mm;
    let rear = own.bracket.front_y_mm + e.drive.bracket_mm;
    let spacer = web_back_mm(&e.drive) + COLLAR_MM;
    // the block is turned so that its hoses come out along X, beside bracket and plate
    let block = Point3::new(0.0, c, s.block_low_mm);
    let mut all = cylinder(e);
    all.extend([
        upright("cooler-plate", "cooler-plate", 0.0, 0.0, -t),
        upright("rod-guide", "rod-guide", 0.0, 0.0, -t - own.guide.length_mm),
        upright("power-cylinder-gasket", "power-cylinder-gasket", 0.0, c, -t - g),
        placed("power-cylinder-block", "power-cylinder-block", block, [0.0, 0.0, 1.0], [0.0, 1.0, 0.0]),
        upright("jacket-gasket", "jacket-gasket", 0.0, c, s.back_top_mm),
        upright("back-plate", "back-plate", 0.0, c, s.back_low_mm),
        placed(
            "crank-bracket",
            "crank-bracket",
            Point3::new(0.0, rear, crank_z),
            [0.0, -1.0, 0.0],
            [1.0, 0.0, 0.0],
        ),
        placed(
            "shaft-spacer",
            "shaft-spacer",
            Point3::new(0.0, spacer, crank_z),
            [0.0, 1.0, 0.0],
            [1.0, 0.0, 0.0],
        ),
    ]);
    let ring = Point3::new(0.0, rear, crank_z);
    all.extend(
        end_ring_mm(e, own)
            .map(|_| placed("shaft-end-ring", "shaft-end-ring", ring, [0.0, 1.0, 0.0], [1.0, 0.0, 0.0])),
    );
    all
}

/// Both cranks; their pins point away from each other.
fn cranks(e: &Engine, own: &Flat, first: f64, second: f64) -> [Instance; 2] {
    let (web, z) = (web_back_mm(&e.drive), e.drive.crank_z_mm);
    let one = |name: &str, y: f64, out: f64, angle: f64| {
        let (sin, cos) = angle.sin_cos();
        placed(name, name, Point3::new(0.0, y, z), [0.0, out, 0.0], [sin, 0.0, cos])
    };
    [one("displacer-crank", web, -1.0, first), one("piston-crank", clamped_y(e, own), 1.0, second)]
}

/// All instances at `crank_angle_deg`, counted from the displacer's top dead centre; the displacer leads.
pub fn instances(e: &Engine, own: &Flat, crank_angle_deg: f64) -> Vec<Instance> {
    let d = &e.drive;
    let (first, second) = (crank_angle_deg.to_radians(), (crank_angle_deg - d.lead_deg).to_radians());
    let (x, z) = (Vector3::new(1.0, 0.0, 0.0), Vector3::new(0.0, 0.0, 1.0));
    let front = Axis { origin: Point3::new(0.0, 0.0, 0.0), along: z, across: x };
    // seen from the other end of the shaft, so that the con rod's open side looks away from its crank: it turns backwards
    let behind = Axis { origin: Point3::new(0.0, own.centres_mm, 0.0), along: z, across: -x };
    let crown = -own.cooler.thickness_mm - e.piston.top_clearance_mm - drop(e, &d.piston, second);
    let mut all = still(e, own);
    all.extend(displacer(e, first));
    all.extend(piston(e, &behind, crown));
    all.extend(con_rod(e, &front, "displacer", d.crank_z_mm, d.displacer.throw_mm, first));
    all.extend(con_rod(e, &behind, "piston", d.crank_z_mm, d.piston.throw_mm, -second));
    all.extend(cranks(e, own, first, second));
    all.extend(flywheel::instances(e, 0.0, d.crank_z_mm, first));
    all
}
