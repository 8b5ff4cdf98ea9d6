//! Liner, heater gap and regenerator canister inside the hot cap.

use super::Head;
use crate::sizing::decide::{Decide, round_near, round_up};
use crate::sizing::engine::{Displacer, HotCap};
use crate::sizing::regenerator::size::{Drum, thickness, wound};

const COMMON: &str = "common practice, no source";
/// Sheet of the canister, and its clearance in the hot cap \[mm\]; common practice, no source.
const SHELL_MM: f64 = 0.5;
const CLEARANCE_MM: f64 = 0.1;
/// Free height above and below the matrix, kept by a coarse mesh \[mm\]; common practice, no source.
const PLENUM_MM: f64 = 1.5;
/// Shortest heater \[mm\].
const LEAST_HEATER_MM: f64 = 10.0;

/// Sizes inside the hot cap, and the cap's own bores; `None` without a regenerator.
pub fn size(d: &mut Decide, cap: &mut HotCap, displacer: &Displacer, gasket: f64) -> Option<Head> {
    let design = d.design;
    let matrix = thickness(d);
    if matrix <= 0.0 {
        d.refuse(
            "swept::contradiction",
            "engine.layout",
            "beta-coaxial has a regenerator around its cylinder, and regenerator.kind is none".into(),
            "mesh, wool or foil".into(),
            "set regenerator.kind = \"mesh\"".into(),
        );
        return None;
    }
    let wall = d.rule(
        "liner.wall",
        round_up((displacer.bore_mm / 60.0).max(1.0), 0.25),
        ("bore / 60, at least 1 mm, to the next 0.25 mm: thin, and still stays round", COMMON),
        &["displacer.bore"],
    );
    let liner = d.rule(
        "liner.diameter",
        displacer.bore_mm + 2.0 * wall,
        "bore + 2 walls",
        &["displacer.bore", "liner.wall"],
    );
    let gap = d.open_mm(
        "hot_end.heater_gap",
        &design.hot_end.heater_gap_mm,
        ("2 % of the bore, at least 1 mm, to the next 0.1 mm", COMMON),
        &["displacer.bore"],
        round_up((0.02 * displacer.bore_mm).max(1.0), 0.1),
    );
    cap.bore_mm = d.rule(
        "hot_end.bore",
        liner + 2.0 * gap,
        "liner + 2 heater gaps",
        &["liner.diameter", "hot_end.heater_gap"],
    );
    let low = d.rule(
        "hot_end.lower_bore",
        liner + 2.0 * (matrix + SHELL_MM + CLEARANCE_MM),
        ("liner + 2 (matrix + canister of 0.5 mm + clearance of 0.1 mm)", COMMON),
        &["liner.diameter", "regenerator.thickness"],
    );
    if low < cap.bore_mm {
        d.refuse(
            "swept::range",
            "hot_end.heater_gap",
            format!("a heater gap of {gap} mm is wider than the regenerator below it"),
            format!("up to {:.1} mm", matrix + SHELL_MM + CLEARANCE_MM),
            "leave hot_end.heater_gap out, or make regenerator.thickness larger".into(),
        );
    }
    let room = cap.depth_mm - 2.0 * PLENUM_MM - LEAST_HEATER_MM;
    let drum = Drum {
        drum_mm: liner,
        thickness_mm: matrix,
        room_mm: room,
        length: (round_near(0.45 * cap.depth_mm, 1.0), "45 % of the hot cap's depth", "hot_end.depth"),
        clearance: (CLEARANCE_MM, "hot_end.lower_bore"),
    };
    let regenerator = wound(d, &drum)?;
    let step = d.rule(
        "hot_end.lower_bore_depth",
        regenerator.length_mm + 2.0 * PLENUM_MM,
        ("regenerator + 1.5 mm above and below it", COMMON),
        &["regenerator.length"],
    );
    let heater = d.rule(
        "hot_end.heater_length",
        cap.depth_mm - step,
        "depth - lower bore",
        &["hot_end.depth", "hot_end.lower_bore_depth"],
    );
    let turn = d.rule(
        "liner.turn",
        round_up((1.5 * gap).max(2.0), 0.5),
        ("1.5 heater gaps, at least 2 mm, to the next 0.5 mm", COMMON),
        &["hot_end.heater_gap"],
    );
    let seat = 5.0;
    let length = d.rule(
        "liner.length",
        seat + gasket + cap.depth_mm - turn,
        "5 mm in the cooler, gasket, hot cap's depth, less the turn",
        &["hot_end.depth", "joints.hot_gasket_thickness", "liner.turn"],
    );
    Some(Head {
        liner_wall_mm: wall,
        liner_mm: liner,
        liner_length_mm: length,
        seat_mm: seat,
        turn_mm: turn,
        heater_gap_mm: gap,
        heater_mm: heater,
        low_bore_mm: [low, step],
        regenerator,
        shell_mm: SHELL_MM,
        plenum_mm: PLENUM_MM,
    })
}
