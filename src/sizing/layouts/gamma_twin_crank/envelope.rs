//! Height, width and depth of the sized engine, before its parts are drawn.

use super::TwinCrank;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::common::drive::COLLAR_MM;

/// Free way between bracket and pulley \[mm\]; common practice, no source.
pub const PULLEY_GAP_MM: f64 = 1.0;

/// Estimated height, width and depth over all \[mm\]: hot cap to the lower reach of the cranks; flanges, back plate,
/// cranks and block side by side; flange or pulleys behind, flange or block in front.
pub fn sides_mm(e: &Engine, own: &TwinCrank) -> [f64; 3] {
    let d = &e.drive;
    let reach = |throw: f64| {
        let crank = throw + d.web_r_mm[1].max(d.eye_r_mm[0]);
        crank.max(d.bracket_edge_mm)
    };
    let reaches = [reach(d.displacer.throw_mm), reach(d.piston.throw_mm)];
    let top = e.stack.cap_low_mm + e.hot_cap.depth_mm + e.hot_cap.end_mm;
    let height = top - d.crank_z_mm + reaches[0].max(reaches[1]);
    let flange = e.cold.flange_diameter_mm / 2.0;
    let left = flange.max(-own.back_x_low_mm).max(reaches[0]);
    let right = flange.max(own.centres_mm + own.block.half_mm.max(reaches[1]));
    let front = flange.max(own.block.half_mm);
    let shaft = d.con_rod_thickness_mm / 2.0 + d.side_gap_mm + d.web_mm + d.bracket_mm;
    let pulleys = 2.0 * (own.belt.hub_mm[1] + own.belt.flange_mm[0]) + own.belt.face_mm;
    let behind = shaft + COLLAR_MM + PULLEY_GAP_MM + pulleys;
    [height, left + right, front + front.max(behind)]
}
