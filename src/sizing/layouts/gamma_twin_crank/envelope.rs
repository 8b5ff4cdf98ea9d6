//! Height, width and depth of the sized engine, before its parts are drawn.

use super::lead::LeadHub;
use super::{Heights, TwinCrank};
use crate::sizing::engine::{Belt, Drive, Engine, Flywheel, ShaftEnd};
use crate::sizing::layouts::common::base::{Stand, bottom_mm, into_edge};
use crate::sizing::layouts::common::drive::{COLLAR_MM, web_back_mm};
use crate::sizing::layouts::common::shaft_end::Standing;

/// Free way between bracket and pulley \[mm\]; common practice, no source.
pub const PULLEY_GAP_MM: f64 = 1.0;

/// y of the bracket's face towards the webs \[mm\].
pub fn bracket_front_y_mm(d: &Drive) -> f64 {
    web_back_mm(d) + COLLAR_MM
}

/// y at which the pulleys begin \[mm\].
pub fn pulley_y_mm(d: &Drive) -> f64 {
    bracket_front_y_mm(d) + d.bracket_mm + PULLEY_GAP_MM
}

/// y behind the teeth of both pulleys: the piston's pulley ends there, the displacer's goes on with its flange \[mm\].
pub fn behind_teeth_mm(d: &Drive, belt: &Belt) -> f64 {
    pulley_y_mm(d) + belt.hub_mm[1] + belt.flange_mm[0] + belt.face_mm
}

/// What stands beside the piston's crankshaft: plates and block above it, the cold flange higher up, the hub of the lead on
/// the other shaft, `centres` \[mm\] away.
pub fn standing(
    d: &Drive,
    heights: &Heights,
    block_half: f64,
    flange: f64,
    (belt, lead, centres): (&Belt, &LeadHub, f64),
) -> [Standing; 3] {
    let hub = Standing {
        far_mm: centres - 0.5 * lead.pulley_flange_mm[0],
        reach_mm: behind_teeth_mm(d, belt) + lead.long_mm(),
    };
    [
        hub,
        Standing { far_mm: heights.back_low_mm - d.crank_z_mm, reach_mm: block_half },
        Standing { far_mm: heights.block_top_mm - d.crank_z_mm, reach_mm: flange / 2.0 },
    ]
}

/// How the bracket stands on its base.
pub fn stand(
    d: &Drive,
    end: &ShaftEnd,
    wheel: &Flywheel,
    centres: f64,
    bracket_low: f64,
    flange: f64,
) -> Stand {
    let (front, edge) = (bracket_front_y_mm(d), d.bracket_edge_mm);
    let inset = 2.0 * d.bracket_screw.major_mm;
    let edge_y_mm = [front, front + d.bracket_mm];
    let (screw, screws_mm) = into_edge(edge_y_mm, [inset - edge, centres + edge - inset]);
    Stand {
        edge_x_mm: [-edge, centres + edge],
        edge_y_mm,
        edge_z_mm: d.crank_z_mm - bracket_low,
        deep_mm: bracket_low - d.journal_bearing.outer_mm / 2.0 - 1.0,
        screw,
        screws_mm,
        covers: ["cold flange", "cold_end.flange_diameter"],
        front_mm: -flange / 2.0,
        wheel_y_mm: end.wheel_mm,
        wheel_low_mm: d.crank_z_mm - wheel.diameter_mm / 2.0,
    }
}

/// Estimated height, width and depth over all \[mm\]: hot cap to the lower reach of the cranks; flanges, back plate,
/// cranks, block and flywheel side by side; the shaft's end behind, flange or block in front.
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
    let behind = e.shaft_end.end_mm;
    let wheel = e.flywheel.diameter_mm / 2.0;
    let stands = e.base.as_ref().map_or([0.0; 3], |b| [top - bottom_mm(b), -b.low_mm[0], b.high_mm[0]]);
    let height = height.max(top - d.crank_z_mm + wheel).max(stands[0]);
    let left = left.max(wheel - own.centres_mm).max(stands[1]);
    let right = right.max(own.centres_mm + wheel).max(stands[2]);
    [height, left + right, front + front.max(behind)]
}
