//! What moves in this layout, by the exact motion of both cranks on one shaft, and what it passes.

use super::Flat;
use crate::sizing::clearance::hull::Hull;
use crate::sizing::clearance::piece::{Pair, Piece};
use crate::sizing::engine::{Arranged, Engine};
use crate::sizing::layouts::common::moving::{
    Line, SLIDES, SWINGS, around_displacer, common_pairs, displacer_line, in_bracket, line_pairs,
    on_shaft_end, pair, piston_line, rod_guide, wheel_pairs,
};
use crate::sizing::layouts::common::warm::Warm;

/// Displacer's line and piston's, one behind the other along the shaft.
fn lines(e: &Engine, own: &Flat, angle_deg: f64) -> [Line; 2] {
    let second = Line { y_mm: own.centres_mm, ..piston_line(e, angle_deg) };
    [displacer_line(e, angle_deg), second]
}

/// Crank of the piston: a bar with a round end about the pin and a flat one, on the side of the flywheel.
fn clamped(e: &Engine, own: &Flat, line: &Line) -> Piece {
    let (s, pin) = (&own.shaft, line.crankpin());
    let rear = line.y_mm - 0.5 * e.drive.con_rod_thickness_mm - e.drive.side_gap_mm;
    let out = [0, 1].map(|i| (pin[i] - line.crank[i]) / line.throw_mm);
    let corner = |side: f64| {
        let far = [-out[0] - side * out[1], -out[1] + side * out[0]];
        ([0, 1].map(|i| line.crank[i] + s.crank_r_mm * far[i]), 0.0)
    };
    let outline = Hull { discs: vec![(pin, s.crank_r_mm), corner(1.0), corner(-1.0)] };
    Piece::new("piston-crank", [rear - s.crank_mm, rear], outline)
}

/// What stands still: plates, rod guide, bracket, hot end.
fn still(e: &Engine, own: &Flat) -> Vec<Piece> {
    let (d, h, b, c) = (&e.drive, &own.heights, &own.bracket, own.centres_mm);
    let (half, t, edge) = (own.block.half_mm, own.cooler.thickness_mm, d.bracket_edge_mm);
    let flange = 0.5 * e.cold.flange_diameter_mm;
    let across = [b.front_y_mm, b.front_y_mm + d.bracket_mm];
    let upright = Hull::rectangle([-edge, d.crank_z_mm - edge], [edge, -t]);
    let feet = Hull::rectangle([-b.foot_x_mm, -t - b.foot_mm], [b.foot_x_mm, -t]);
    let back = Hull::rectangle([-half, h.back_low_mm], [half, h.back_top_mm]);
    let mut all = around_displacer(e, t, [-flange, flange], [-flange, flange.max(c + half)]).to_vec();
    all.extend([
        Piece::new("crank-bracket", across, upright),
        Piece::new("crank-bracket", across, feet),
        Piece::new("back-plate", [c - half, c + half], back),
        rod_guide(&own.guide, t),
    ]);
    all
}

/// Everything that moves and what it passes.
pub fn pieces(e: &Engine, own: &Flat, angle_deg: f64) -> Vec<Piece> {
    let [first, second] = lines(e, own, angle_deg);
    let mut all = still(e, own);
    all.extend(first.rods(e));
    all.extend(second.rods(e));
    all.extend([first.web(e, "displacer-crank"), clamped(e, own, &second)]);
    all.extend(on_shaft_end(e, first.crank));
    all.extend(first.displacer(e, -e.drive.crank_z_mm));
    all.push(second.piston(e, -own.cooler.thickness_mm - e.drive.crank_z_mm));
    all
}

/// The engine grown to its running temperature.
pub fn warm(e: &Engine, own: &Flat) -> Engine {
    let grows = Warm { engine: e, frame: &own.block.material };
    let (by, crank) = (grows.factor(grows.frame), grows.factor(&e.drive.material));
    let mut w = grows.grown(-e.drive.crank_z_mm - own.cooler.thickness_mm);
    let mut own = own.clone();
    let (h, b) = (&mut own.heights, &mut own.bracket);
    let heights = [&mut h.block_top_mm, &mut h.block_low_mm, &mut h.back_top_mm, &mut h.back_low_mm];
    let bracket = [&mut b.front_y_mm, &mut b.foot_x_mm, &mut b.foot_mm, &mut own.guide.length_mm];
    let lengths = [&mut own.cooler.thickness_mm, &mut own.centres_mm, &mut own.block.half_mm];
    heights.into_iter().chain(bracket).chain(lengths).for_each(|length| *length *= by);
    own.shaft.crank_mm *= crank;
    own.shaft.crank_r_mm *= crank;
    w.arranged = Arranged::GammaFlat(Box::new(own));
    w
}

/// Pairs that pass each other.
pub fn pairs(e: &Engine) -> Vec<Pair> {
    let mut all = common_pairs(e, "cooler-plate");
    all.extend(line_pairs("displacer-clevis", "displacer-con-rod", "displacer-crank"));
    all.extend([
        pair("displacer-clevis", "rod-guide", SWINGS, "drive.con_rod_length"),
        pair("displacer-crank", "rod-guide", SWINGS, "drive.con_rod_length"),
        in_bracket(e, "displacer-crank"),
        pair("piston-clevis", "piston-con-rod", SLIDES, "clevis.slot"),
        pair("piston-clevis", "piston-crank", SWINGS, "drive.con_rod_length"),
        pair("piston-con-rod", "piston-crank", SLIDES, "drive.con_rod_thickness"),
        pair("piston-clevis", "back-plate", SWINGS, "drive.con_rod_length"),
        pair("piston-crank", "back-plate", SWINGS, "drive.con_rod_length"),
        pair("piston-crank", "crank-bracket", SWINGS, "drive.crank_centres"),
    ]);
    all.extend(wheel_pairs(e, &["crank-bracket", "back-plate", "piston-con-rod"]));
    all
}
