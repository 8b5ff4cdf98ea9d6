//! The displacer's cylinder of an engine whose hot cap and cold cylinder stand one on the other between round flanges.

use super::displacer::{self, Shape};
use super::joints::{self, Between};
use crate::sizing::decide::Decide;
use crate::sizing::engine::{ColdCylinder, Displacer, HotCap, Joints};

/// Displacer with its cylinder and both flange joints.
#[derive(Clone, Debug)]
pub struct HotSide {
    /// What lies between the flanges.
    pub between: Between,
    /// Displacer; its rod is still to be given its length.
    pub displacer: Displacer,
    /// Hot cap.
    pub hot_cap: HotCap,
    /// Cold cylinder.
    pub cold: ColdCylinder,
    /// Joints.
    pub joints: Joints,
}

/// Sizes it.
pub fn size(d: &mut Decide, shape: Shape) -> HotSide {
    let between = joints::between(d);
    let (displacer, hot_cap, cold_length) = displacer::size(d, between, shape);
    let screw = joints::flange_screw(d, displacer.bore_mm, between);
    let circle = joints::circle(d, displacer.bore_mm, screw);
    let cold = displacer::cold_cylinder(d, displacer.bore_mm, cold_length, screw, circle);
    let faces = [hot_cap.flange_mm, cold.flange_mm, cold.length_mm];
    let joints = joints::size(d, displacer.bore_mm, circle, screw, faces, between);
    HotSide { between, displacer, hot_cap, cold, joints }
}
