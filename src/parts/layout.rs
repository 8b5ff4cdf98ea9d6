//! Where things lie across the engine (along Y), decided once for parts and assembly.

use crate::catalogue::threads::cap_screw_length_at_least;
use crate::sizing::engine::Engine;

/// Height of the collar between web and journal bearing \[mm\].
pub const COLLAR_MM: f64 = 1.0;
/// Free way between bracket and pulley \[mm\].
pub const PULLEY_GAP_MM: f64 = 1.0;

/// y of the bracket's face towards the webs \[mm\].
pub fn bracket_front_y(e: &Engine) -> f64 {
    let d = &e.drive;
    d.con_rod_thickness_mm / 2.0 + d.side_gap_mm + d.web_mm + COLLAR_MM
}

/// y of the bracket's middle plane \[mm\].
pub fn bracket_middle_y(e: &Engine) -> f64 {
    bracket_front_y(e) + e.drive.bracket_mm / 2.0
}

/// y at which the pulleys begin \[mm\].
pub fn pulley_y(e: &Engine) -> f64 {
    bracket_front_y(e) + e.drive.bracket_mm + PULLEY_GAP_MM
}

/// Metal of the bracket beside and below a crank axis: the bearing and 7 mm around it \[mm\]; common practice, no source.
pub fn bracket_edge_mm(e: &Engine) -> f64 {
    e.drive.journal_bearing.outer_mm / 2.0 + 7.0
}

/// Height of the bracket above the crank axes \[mm\].
pub fn bracket_top(e: &Engine) -> f64 {
    e.stack.back_low_mm - e.drive.crank_z_mm
}

/// Journal length from the web, collar included, of the displacer's and the piston's crank \[mm\].
/// The piston's pulley sits the other way round, so that the two pulley flanges hold the belt on both sides.
pub fn journal_mm(e: &Engine) -> [f64; 2] {
    let b = &e.drive.belt;
    let common = COLLAR_MM + e.drive.bracket_mm + PULLEY_GAP_MM + b.hub_mm[1] + b.flange_mm[0] + b.face_mm;
    [common, common + b.flange_mm[0] + b.hub_mm[1]]
}

/// Screw from the back plate into the bracket \[mm\].
pub fn bracket_screw_mm(e: &Engine) -> f64 {
    let t = e.drive.bracket_screw;
    let needed = e.back.thickness_mm - t.counterbore_depth_mm + 2.0 * t.major_mm;
    cap_screw_length_at_least(needed).unwrap_or(needed)
}

/// Depth of full thread for those screws in the bracket \[mm\].
pub fn bracket_thread_mm(e: &Engine) -> f64 {
    let t = e.drive.bracket_screw;
    bracket_screw_mm(e) - (e.back.thickness_mm - t.counterbore_depth_mm) + 1.0
}
