//! What moves in this layout, by the exact motion of both con rods on one crankpin, and what it passes.

use super::RightAngle;
use super::frame::BACK_PLATE_BEYOND_MM;
use crate::sizing::clearance::hull::Hull;
use crate::sizing::clearance::piece::{Pair, Piece};
use crate::sizing::engine::{Arranged, Engine};
use crate::sizing::layouts::common::moving::{
    Line, SLIDES, SWINGS, around_displacer, base_plate, common_pairs, displacer_line, in_bracket, line_pairs,
    on_shaft_end, pair, piston_line, rod_guide, wheel_pairs,
};
use crate::sizing::layouts::common::warm::Warm;

/// Displacer's line and piston's.
fn lines(e: &Engine, own: &RightAngle, angle_deg: f64) -> [Line; 2] {
    let second = Line {
        along: [1.0, 0.0],
        across: [0.0, -1.0],
        y_mm: own.places.piston_y_mm,
        ..piston_line(e, angle_deg)
    };
    [displacer_line(e, angle_deg), second]
}

/// What stands still: plates, rod guide, bracket, hot end.
fn still(e: &Engine, own: &RightAngle) -> Vec<Piece> {
    let (d, p, b, z) = (&e.drive, &own.places, &own.bracket, e.drive.crank_z_mm);
    let [low, high] = own.plate_corners_mm;
    let (half, t, edge) = (own.block.half_mm, own.plate_mm, d.bracket_edge_mm);
    let across = [b.front_y_mm, b.front_y_mm + d.bracket_mm];
    let upright = Hull::rectangle([-edge, z - b.low_mm], [p.back_x_mm, -t]);
    let arm = Hull::rectangle([b.left_x_mm, -t - b.arm_mm], [p.back_x_mm, -t]);
    let plate = |x: f64, thick: f64, high: f64| Hull::rectangle([x, z - high], [x + thick, z + high]);
    let rear = (across[1] + BACK_PLATE_BEYOND_MM).max(p.piston_y_mm + half);
    let mut all = around_displacer(e, t, [low[0], high[0]], [low[1], high[1]]).to_vec();
    all.extend([
        Piece::new("crank-bracket", across, upright),
        Piece::new("crank-bracket", across, arm),
        Piece::new(
            "back-plate",
            [p.piston_y_mm - half, rear],
            plate(p.back_x_mm, own.back.thickness_mm, b.low_mm),
        ),
        Piece::new(
            "head-plate",
            [p.piston_y_mm - half, p.piston_y_mm + half],
            plate(p.head_x_mm, own.head.thickness_mm, half),
        ),
        rod_guide(&own.guide, t),
    ]);
    all
}

/// Everything that moves and what it passes.
pub fn pieces(e: &Engine, own: &RightAngle, angle_deg: f64) -> Vec<Piece> {
    let [first, second] = lines(e, own, angle_deg);
    // the web stands behind the piston's con rod
    let web = Line { y_mm: second.y_mm, ..first }.web(e, "crank");
    let mut all = still(e, own);
    all.extend(first.rods(e));
    all.extend(second.rods(e));
    all.push(web);
    all.extend(base_plate(e));
    all.extend(on_shaft_end(e, first.crank));
    all.extend(first.displacer(e, -e.drive.crank_z_mm));
    all.push(second.piston(e, own.places.head_x_mm));
    all
}

/// The engine grown to its running temperature.
pub fn warm(e: &Engine, own: &RightAngle) -> Engine {
    let grows = Warm { engine: e, frame: &own.block.material };
    let by = grows.factor(grows.frame);
    let mut w = grows.grown(own.places.head_x_mm);
    let mut own = own.clone();
    let (p, b) = (&mut own.places, &mut own.bracket);
    p.piston_y_mm *= grows.factor(&e.drive.material);
    let places = [&mut p.back_x_mm, &mut p.block_x_mm, &mut p.head_x_mm];
    let bracket = [&mut b.front_y_mm, &mut b.left_x_mm, &mut b.arm_mm, &mut b.low_mm];
    let rest = [&mut own.plate_mm, &mut own.guide.length_mm, &mut own.block.half_mm];
    places.into_iter().chain(bracket).chain(rest).for_each(|length| *length *= by);
    w.arranged = Arranged::GammaRightAngle(Box::new(own));
    w
}

/// Pairs that pass each other.
pub fn pairs(e: &Engine) -> Vec<Pair> {
    let mut all = common_pairs(e, "head-plate");
    // the crankpin goes right through the displacer's con rod to the piston's, which alone runs beside the web
    let displacer = line_pairs("displacer-clevis", "displacer-con-rod", "crank");
    all.extend(displacer.into_iter().filter(|pair| pair.parts != ["displacer-con-rod", "crank"]));
    all.extend(line_pairs("piston-clevis", "piston-con-rod", "crank"));
    all.extend([
        pair("displacer-con-rod", "piston-con-rod", SLIDES, "drive.con_rod_thickness"),
        pair("displacer-con-rod", "piston-clevis", SWINGS, "drive.con_rod_length"),
        pair("displacer-clevis", "piston-con-rod", SWINGS, "drive.con_rod_length"),
        pair("displacer-clevis", "piston-clevis", SWINGS, "drive.con_rod_length"),
        pair("displacer-clevis", "rod-guide", SWINGS, "drive.con_rod_length"),
        pair("crank", "rod-guide", SWINGS, "drive.con_rod_length"),
        pair("piston-clevis", "back-plate", SWINGS, "drive.con_rod_length"),
        pair("displacer-con-rod", "back-plate", SWINGS, "drive.con_rod_length"),
        pair("displacer-clevis", "back-plate", SWINGS, "drive.con_rod_length"),
        pair("crank", "back-plate", SWINGS, "drive.con_rod_length"),
        in_bracket(e, "crank"),
    ]);
    all.extend(wheel_pairs(e, &["crank-bracket", "back-plate"]));
    all
}
