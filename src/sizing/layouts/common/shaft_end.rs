//! What sits on the free end of the crankshaft: flywheel and pulley of the load, one behind the other along Y.

use super::hub::head_room_mm;
use super::output;
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{Drive, Flywheel, ShaftEnd};

/// Room between the wheel and what stands beside it \[mm\]; common practice, no source.
const ROOM_MM: f64 = 3.0;
/// Room between hub and pulley \[mm\]; common practice, no source.
const BETWEEN_MM: f64 = 1.0;

/// Something that stands still near the shaft.
#[derive(Clone, Copy, Debug)]
pub struct Standing {
    /// Its least distance from the shaft's axis \[mm\].
    pub far_mm: f64,
    /// How far it reaches along Y \[mm\].
    pub reach_mm: f64,
}

/// Places along the shaft, whose free end begins at `start` \[mm\]; `after` names the dimensions behind it.
pub fn size(
    d: &mut Decide,
    drive: &Drive,
    wheel: &Flywheel,
    start: f64,
    standing: &[Standing],
    after: &[&str],
) -> ShaftEnd {
    let shaft = drive.journal_bearing.bore_mm;
    let output = output::size(d, shaft, wheel.diameter_mm);
    let start_mm = d.rule("shaft.free_end", start, "behind what else sits on the shaft", after);
    let beside = |s: &&Standing| s.far_mm < 0.5 * wheel.diameter_mm + ROOM_MM;
    let clear = standing.iter().filter(beside).map(|s| s.reach_mm + ROOM_MM).fold(start_mm, f64::max);
    let heads = wheel
        .made
        .as_ref()
        .map_or(0.0, |made| if made.grip_mm < made.width_mm { 0.5 } else { head_room_mm(&made.hub) });
    let wheel_mm = d.rule(
        "shaft.wheel_place",
        round_up(clear.max(start_mm + heads), 0.5),
        (
            "free end + heads of the hub's screws, clear of plates and cylinders by 3 mm, to the next 0.5 mm",
            "common practice, no source",
        ),
        &["shaft.free_end", "flywheel.diameter", "drive.crank_height"],
    );
    let hub = match &wheel.made {
        Some(made) => made.width_mm + made.hub.flange_mm[1] + made.hub.boss_mm[1],
        None => round_up(3.0 * shaft, 1.0),
    };
    let output_mm = d.rule(
        "shaft.output_place",
        wheel_mm + hub + if output.is_some() { BETWEEN_MM } else { 0.0 },
        (
            "behind wheel and hub (3 shafts for a wheel that you have), 1 mm before a pulley",
            "common practice, no source",
        ),
        &["shaft.wheel_place", "flywheel.diameter"],
    );
    let long = output.as_ref().map_or(0.0, |o| o.pulley.face_mm + o.pulley.flange_mm[0] + o.pulley.hub_mm[1]);
    let end_mm =
        d.rule("shaft.end", output_mm + long, "behind the pulley of the load", &["shaft.output_place"]);
    ShaftEnd { start_mm, wheel_mm, output_mm, end_mm, output }
}
