//! Where things lie across the engine (along Y), decided once for parts and assembly.

use crate::sizing::engine::Engine;
use crate::sizing::layouts::common::base::bottom_mm;
use crate::sizing::layouts::common::drive::COLLAR_MM;
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;
use crate::sizing::layouts::gamma_twin_crank::envelope::{behind_teeth_mm, bracket_front_y_mm, pulley_y_mm};

/// y of the bracket's face towards the webs \[mm\].
pub fn bracket_front_y(e: &Engine) -> f64 {
    bracket_front_y_mm(&e.drive)
}

/// y of the bracket's middle plane \[mm\].
pub fn bracket_middle_y(e: &Engine) -> f64 {
    bracket_front_y(e) + e.drive.bracket_mm / 2.0
}

/// y at which the pulleys begin \[mm\].
pub fn pulley_y(e: &Engine) -> f64 {
    pulley_y_mm(&e.drive)
}

/// Height of the bracket above the crank axes \[mm\].
pub fn bracket_top(e: &Engine, own: &TwinCrank) -> f64 {
    own.heights.back_low_mm - e.drive.crank_z_mm
}

/// y of the face at which the displacer's pulley meets the hub of the lead \[mm\].
pub fn lead_y(e: &Engine, own: &TwinCrank) -> f64 {
    behind_teeth_mm(&e.drive, &own.belt) + own.lead.pulley_flange_mm[1]
}

/// Journal length from the web, collar included, of the displacer's and the piston's crank \[mm\]: the first ends with the
/// hub of the lead, the second goes on to flywheel and load.
pub fn journal_mm(e: &Engine, own: &TwinCrank) -> [f64; 2] {
    let web = bracket_front_y(e) - COLLAR_MM;
    [behind_teeth_mm(&e.drive, &own.belt) + own.lead.long_mm() - web, e.shaft_end.end_mm - web]
}

/// Screw from the back plate into the bracket \[mm\].
pub fn bracket_screw_mm(e: &Engine, own: &TwinCrank) -> f64 {
    let t = e.drive.bracket_screw;
    let needed = own.back.thickness_mm - t.counterbore_depth_mm + 2.0 * t.major_mm;
    e.catalogue.cap_screw_at_least(t, needed).unwrap_or(needed)
}

/// Depth of full thread for those screws in the bracket \[mm\].
pub fn bracket_thread_mm(e: &Engine, own: &TwinCrank) -> f64 {
    let t = e.drive.bracket_screw;
    bracket_screw_mm(e, own) - (own.back.thickness_mm - t.counterbore_depth_mm) + 1.0
}

/// Height, width and depth over all \[mm\], from the largest standing parts and the reach of the cranks.
pub fn over_all_mm(e: &Engine, own: &TwinCrank) -> [f64; 3] {
    let bearing = e.drive.bracket_edge_mm;
    let web = e.drive.web_r_mm[1];
    let reach = |throw: f64| (throw + web).max(throw + e.drive.eye_r_mm[0]).max(bearing);
    let wheel = e.flywheel.diameter_mm / 2.0;
    let swing = reach(e.drive.displacer.throw_mm).max(reach(e.drive.piston.throw_mm));
    let stands = e.base.as_ref().map_or(0.0, bottom_mm);
    let low = (e.drive.crank_z_mm - swing.max(wheel)).min(stands);
    let [base_left, base_right] = e.base.as_ref().map_or([0.0; 2], |b| [-b.low_mm[0], b.high_mm[0]]);
    let high = e.stack.cap_low_mm + e.hot_cap.depth_mm + e.hot_cap.end_mm;
    let flange = e.cold.flange_diameter_mm / 2.0;
    let left =
        flange.max(-own.back_x_low_mm).max(reach(e.drive.displacer.throw_mm)).max(wheel - own.centres_mm);
    let right =
        (own.centres_mm + own.block.half_mm.max(reach(e.drive.piston.throw_mm)).max(wheel)).max(flange);
    let (left, right) = (left.max(base_left), right.max(base_right));
    let front = flange.max(own.block.half_mm);
    let back = e.shaft_end.end_mm;
    [high - low, left + right, front + front.max(back)]
}
