//! What moves in this layout, by the exact motion of both con rods' lines on one crankshaft, and what it passes.

use super::BetaCoaxial;
use crate::sizing::clearance::hull::Hull;
use crate::sizing::clearance::piece::{Pair, Piece};
use crate::sizing::engine::{Arranged, Engine};
use crate::sizing::layouts::common::moving::{
    ENDS, Line, SKIRT, SLIDES, SWINGS, WALLS, base_plate, disc, displacer_line, hot_end, on_shaft_end, pair,
    shell_name, wheel_pairs,
};
use crate::sizing::layouts::common::warm::Warm;

/// Con rods of the piston, front and rear.
const RODS: [&str; 2] = ["front-piston-con-rod", "rear-piston-con-rod"];
/// Inner and outer webs, front and rear.
const WEBS: [[&str; 2]; 2] =
    [["crank-web-inner-front", "crank-web-outer-front"], ["crank-web-inner-rear", "crank-web-outer-rear"]];

/// Yoke with its lower end at a height \[mm\]: bar and four legs.
fn yoke(own: &BetaCoaxial, low: f64) -> Vec<Piece> {
    let y = &own.yoke;
    let box_of = |z: [f64; 2]| Hull::rectangle([-y.width_mm / 2.0, z[0]], [y.width_mm / 2.0, z[1]]);
    let (inner, outer) = (y.rod_y_mm - y.slot_mm / 2.0, y.rod_y_mm + y.slot_mm / 2.0);
    let under = low + y.slot_depth_mm;
    let mut all =
        vec![Piece::new("piston-yoke", [-y.half_mm, y.half_mm], box_of([under, low + y.height_mm()]))];
    all.extend(
        [[-y.half_mm, -outer], [-inner, y.leg_mm - inner], [inner - y.leg_mm, inner], [outer, y.half_mm]]
            .map(|across| Piece::new("piston-yoke", across, box_of([low, under]))),
    );
    all
}

/// Everything that moves and what it passes.
pub fn pieces(e: &Engine, own: &BetaCoaxial, angle_deg: f64) -> Vec<Piece> {
    let (d, p) = (&e.drive, &e.piston);
    let first = displacer_line(e, angle_deg);
    let line = |y_mm: f64| Line {
        y_mm,
        throw_mm: d.piston.throw_mm,
        angle_rad: (angle_deg - d.lead_deg).to_radians(),
        ..first
    };
    let middle = line(0.0);
    let crown = own.heights.crown_mm - middle.drop_mm(e) - d.crank_z_mm;
    let mut all = vec![hot_end(e), middle.round("piston", [crown - p.crown_mm, crown], 0.5 * p.diameter_mm)];
    let (seal, rear) = (own.case.seal.cap_mm, own.case.rear_mm(e.joints.gasket_mm));
    all.push(disc("seal-cap", first.crank, [rear, rear + seal[1]], seal[0]));
    all.extend(on_shaft_end(e, first.crank));
    all.extend(base_plate(e));
    all.extend(first.rods(e));
    all.extend(first.displacer(e, -d.crank_z_mm));
    all.extend(yoke(own, crown + d.crank_z_mm - p.crown_mm - own.yoke.height_mm()));
    let half = 0.5 * d.con_rod_thickness_mm + d.side_gap_mm;
    for (i, sign) in [-1.0, 1.0].into_iter().enumerate() {
        let beside = line(sign * own.yoke.rod_y_mm);
        all.push(beside.con_rod(e, RODS[i]));
        let web = |near: f64, thick: f64| {
            let ends = [sign * near, sign * (near + thick)];
            [ends[0].min(ends[1]), ends[0].max(ends[1])]
        };
        let [inner, outer] = own.shaft.webs_mm;
        let pins =
            Hull::band((first.crankpin(), own.shaft.web_r_mm), (middle.crankpin(), own.shaft.web_r_mm));
        let arm = Hull::band((first.crank, d.web_r_mm[0]), (middle.crankpin(), d.web_r_mm[1]));
        all.push(Piece::new(WEBS[i][0], web(half, inner), pins));
        all.push(Piece::new(WEBS[i][1], web(own.shaft.reach_mm - outer, outer), arm));
    }
    all
}

/// The engine grown to its running temperature: displacer and piston both hang on the crank.
pub fn warm(e: &Engine, own: &BetaCoaxial) -> Engine {
    let grows = Warm { engine: e, frame: &own.case.material };
    let mut w = grows.grown(-e.drive.crank_z_mm);
    let by = grows.factor(&e.drive.material);
    let mut own = own.clone();
    own.heights.crown_mm += grows.lift_mm(-e.drive.crank_z_mm);
    let (y, s) = (&mut own.yoke, &mut own.shaft);
    let [inner, outer] = &mut s.webs_mm;
    [&mut y.bar_mm, &mut y.slot_mm, &mut y.leg_mm, &mut y.rod_y_mm, &mut y.half_mm, &mut y.width_mm]
        .into_iter()
        .chain([&mut y.slot_depth_mm, &mut y.pin_z_mm, inner, outer, &mut s.reach_mm, &mut s.web_r_mm])
        .for_each(|length| *length *= by);
    w.arranged = Arranged::BetaCoaxial(Box::new(own));
    w
}

/// Pairs that pass each other.
pub fn pairs(e: &Engine) -> Vec<Pair> {
    let beside = |gap_mm: f64, of: Pair| Pair { beside_mm: Some(gap_mm), ..of };
    let skirt = 0.5 * (e.piston.bore_mm - e.piston.diameter_mm);
    let shell = shell_name(e);
    let (clevis, rod) = ("displacer-clevis", "displacer-con-rod");
    let long = "drive.con_rod_length";
    let mut all = vec![
        beside(e.displacer.gap_mm, pair(shell, "liner", WALLS, "displacer.gap")),
        pair(shell, "hot-cap", ENDS, "displacer.hot_clearance"),
        beside(skirt, pair("piston", "power-cylinder", SKIRT, "piston.side_clearance")),
        pair("displacer-base", "piston", ENDS, "piston.top_clearance"),
        pair(clevis, rod, SLIDES, "clevis.slot"),
        pair(clevis, "piston-yoke", SWINGS, "yoke.slot_depth"),
        pair(rod, "piston-yoke", SWINGS, long),
    ];
    all.extend(wheel_pairs(e, &["seal-cap"]));
    for (i, [inner, outer]) in WEBS.into_iter().enumerate() {
        all.extend([
            pair(rod, inner, SLIDES, "drive.con_rod_thickness"),
            pair(RODS[i], inner, SLIDES, "drive.con_rod_thickness"),
            pair(RODS[i], outer, SLIDES, "drive.con_rod_thickness"),
            pair(RODS[i], "piston-yoke", SLIDES, "yoke.slot"),
            pair(RODS[i], clevis, SWINGS, "yoke.leg"),
            pair("piston-yoke", inner, SWINGS, long),
            pair("piston-yoke", outer, SWINGS, long),
            pair(clevis, inner, SWINGS, long),
        ]);
    }
    all
}
