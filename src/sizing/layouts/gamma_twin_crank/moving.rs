//! What moves in this layout, by the exact motion of both cranks, and what it passes.

use super::TwinCrank;
use super::envelope::bracket_front_y_mm;
use crate::sizing::clearance::hull::Hull;
use crate::sizing::clearance::piece::{Pair, Piece};
use crate::sizing::engine::{Arranged, Engine};
use crate::sizing::layouts::common::moving::{
    Line, SLIDES, SWINGS, around_displacer, common_pairs, displacer_line, in_bracket, line_pairs, pair,
    piston_line,
};
use crate::sizing::layouts::common::warm::Warm;

/// Displacer's line and piston's.
fn lines(e: &Engine, own: &TwinCrank, angle_deg: f64) -> [Line; 2] {
    let second = Line { crank: [own.centres_mm, e.drive.crank_z_mm], ..piston_line(e, angle_deg) };
    [displacer_line(e, angle_deg), second]
}

/// What stands still: plates, bracket, hot end.
fn still(e: &Engine, own: &TwinCrank) -> Vec<Piece> {
    let (d, h, half, c) = (&e.drive, &own.heights, own.block.half_mm, own.centres_mm);
    let front = bracket_front_y_mm(d);
    let (edge, right) = (d.bracket_edge_mm, c + half);
    let (flange, t) = (0.5 * e.cold.flange_diameter_mm, own.cooler.thickness_mm);
    let wide = half.max(flange);
    let back = Hull::rectangle([own.back_x_low_mm, h.back_low_mm], [right, h.back_top_mm]);
    let bracket = Hull::rectangle([-edge, d.crank_z_mm - edge], [c + edge, h.back_low_mm]);
    let mut all = around_displacer(e, t, [-flange, right.max(flange)], [-wide, wide]).to_vec();
    all.push(Piece::new("back-plate", [-half, half], back));
    all.push(Piece::new("crank-bracket", [front, front + d.bracket_mm], bracket));
    all
}

/// Everything that moves and what it passes.
pub fn pieces(e: &Engine, own: &TwinCrank, angle_deg: f64) -> Vec<Piece> {
    let [first, second] = lines(e, own, angle_deg);
    let mut all = still(e, own);
    all.extend(first.rods(e));
    all.extend(second.rods(e));
    all.extend([first.web(e, "displacer-crank"), second.web(e, "piston-crank")]);
    all.extend(first.displacer(e, -e.drive.crank_z_mm));
    all.push(second.piston(e, -own.cooler.thickness_mm - e.drive.crank_z_mm));
    all
}

/// The engine grown to its running temperature.
pub fn warm(e: &Engine, own: &TwinCrank) -> Engine {
    let grows = Warm { engine: e, frame: &own.block.material };
    let by = grows.factor(grows.frame);
    let mut w = grows.grown(-e.drive.crank_z_mm - own.cooler.thickness_mm);
    let mut own = own.clone();
    let h = &mut own.heights;
    let heights = [&mut h.block_top_mm, &mut h.block_low_mm, &mut h.back_top_mm, &mut h.back_low_mm];
    let plate = &mut own.cooler.thickness_mm;
    let lengths = [plate, &mut own.centres_mm, &mut own.block.half_mm, &mut own.back_x_low_mm];
    heights.into_iter().chain(lengths).for_each(|length| *length *= by);
    w.arranged = Arranged::GammaTwinCrank(Box::new(own));
    w
}

/// Pairs that pass each other.
pub fn pairs(e: &Engine) -> Vec<Pair> {
    let mut all = common_pairs(e, "cooler-plate");
    all.extend([
        pair("displacer-con-rod", "piston-con-rod", SWINGS, "drive.crank_centres"),
        pair("displacer-con-rod", "piston-crank", SLIDES, "drive.crank_centres"),
        pair("piston-con-rod", "displacer-crank", SLIDES, "drive.crank_centres"),
        pair("displacer-crank", "piston-crank", SWINGS, "drive.crank_centres"),
        pair("displacer-clevis", "piston-clevis", SWINGS, "drive.crank_centres"),
        pair("displacer-clevis", "piston-con-rod", SWINGS, "drive.crank_centres"),
        pair("piston-clevis", "displacer-con-rod", SWINGS, "drive.crank_centres"),
    ]);
    let each = [
        ["displacer-clevis", "displacer-con-rod", "displacer-crank"],
        ["piston-clevis", "piston-con-rod", "piston-crank"],
    ];
    for [clevis, con_rod, crank] in each {
        all.extend(line_pairs(clevis, con_rod, crank));
        all.extend([
            pair(clevis, "back-plate", SWINGS, "drive.con_rod_length"),
            pair(crank, "back-plate", SWINGS, "drive.con_rod_length"),
            in_bracket(e, crank),
        ]);
    }
    all
}
