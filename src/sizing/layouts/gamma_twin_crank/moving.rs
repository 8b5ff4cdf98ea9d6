//! What moves in this layout, by the exact motion of both cranks, and what it passes.

use super::TwinCrank;
use super::envelope::{behind_teeth_mm, bracket_front_y_mm, pulley_y_mm};
use crate::sizing::clearance::hull::Hull;
use crate::sizing::clearance::piece::{Pair, Piece};
use crate::sizing::engine::{Arranged, Belt, Engine};
use crate::sizing::layouts::common::moving::{
    Line, SLIDES, SWINGS, around_displacer, base_plate, common_pairs, disc, displacer_line, in_bracket,
    line_pairs, on_shaft_end, pair, piston_line, pulley, wheel_pairs,
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
    let bracket = Hull::rectangle([-edge, d.crank_z_mm - own.bracket_low_mm], [c + edge, h.back_low_mm]);
    let block = Hull::rectangle([c - half, h.block_low_mm], [c + half, h.block_top_mm]);
    let mut all = around_displacer(e, t, [-flange, right.max(flange)], [-wide, wide]).to_vec();
    all.push(Piece::new("back-plate", [-half, half], back));
    all.push(Piece::new("crank-bracket", [front, front + d.bracket_mm], bracket));
    // its wall towards the flywheel: the piston runs inside
    all.push(Piece::new("power-cylinder-block", [0.5 * e.piston.bore_mm, half], block));
    all.extend(base_plate(e));
    all.extend(tensioner(e, own));
    all
}

/// Plate and roller of the tensioner.
fn tensioner(e: &Engine, own: &TwinCrank) -> [Piece; 2] {
    let (t, d) = (&own.tensioner, &e.drive);
    let (rear, [x, high]) = (bracket_front_y_mm(d) + d.bracket_mm, t.place_mm);
    let at = |aside: f64, far: f64| [x + aside, d.crank_z_mm + high + far];
    let corner = |side: f64| (at(side * t.screws_mm[0], t.far_mm()), t.end_r_mm[1]);
    let plate = Hull { discs: vec![(at(0.0, 0.0), t.end_r_mm[0]), corner(1.0), corner(-1.0)] };
    let low = rear + t.plate_mm + t.spacer_mm - 0.5 * (t.roller_mm[1] - t.bearing.width_mm);
    [
        Piece::new("tensioner-plate", [rear, rear + t.plate_mm], plate),
        disc("tensioner-roller", at(0.0, 0.0), [low, low + t.roller_mm[1]], t.roller_mm[0]),
    ]
}

/// Both pulleys.
fn pulleys(e: &Engine, own: &TwinCrank) -> Vec<Piece> {
    let (d, b, h) = (&e.drive, &own.belt, &own.lead);
    let [first, second] = [[0.0, d.crank_z_mm], [own.centres_mm, d.crank_z_mm]];
    let teeth = behind_teeth_mm(d, b);
    let flange = teeth + h.pulley_flange_mm[1];
    let rim = Belt { hub_mm: [0.0, 0.0], flange_mm: [0.0, 0.0], ..b.clone() };
    let mut all = vec![disc("lead-pulley", first, [teeth, flange], h.pulley_flange_mm[0])];
    all.extend(pulley("lead-pulley", first, &rim, teeth, -1.0).into_iter().take(1));
    all.extend(pulley("piston-pulley", second, b, pulley_y_mm(d) + b.hub_mm[1], 1.0));
    all
}

/// Everything that moves and what it passes.
pub fn pieces(e: &Engine, own: &TwinCrank, angle_deg: f64) -> Vec<Piece> {
    let [first, second] = lines(e, own, angle_deg);
    let mut all = still(e, own);
    all.extend(first.rods(e));
    all.extend(second.rods(e));
    all.extend([first.web(e, "displacer-crank"), second.web(e, "piston-crank")]);
    all.extend(pulleys(e, own));
    all.extend(on_shaft_end(e, [own.centres_mm, e.drive.crank_z_mm]));
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
    let lengths = [
        plate,
        &mut own.centres_mm,
        &mut own.block.half_mm,
        &mut own.back_x_low_mm,
        &mut own.bracket_low_mm,
        &mut own.tensioner.place_mm[0],
    ];
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
    all.extend(wheel_pairs(e, &["crank-bracket", "back-plate", "power-cylinder-block"]));
    all.extend([
        pair("lead-pulley", "tensioner-roller", SLIDES, "tensioner.roller_diameter"),
        pair("piston-pulley", "tensioner-roller", SWINGS, "tensioner.roller_diameter"),
        pair("piston-pulley", "tensioner-plate", SWINGS, "drive.crank_centres"),
    ]);
    if e.base.is_some() {
        all.push(pair("lead-pulley", "base-plate", SWINGS, "drive.bracket_low"));
    }
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
