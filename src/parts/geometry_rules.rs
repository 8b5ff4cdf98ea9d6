//! How far form, direction and place of a feature may deviate, each by a rule with its origin. The one home of the values in
//! the frames of the drawings; which part has which tolerance is said by the part.
//!
//! Where a rule follows from play, gasket or screw, its value is rounded down to the series below. Constants are common
//! practice without a source; all are within reach of a good lathe with the part in one clamping.

use crate::catalogue::threads::Thread;
use crate::shape::control::{Characteristic, Control, Limit};
use crate::sizing::engine::Engine;

/// Values that a frame may bear \[mm\] (the steps in which such tolerances are usually given; common practice, no source).
const SERIES: [f64; 15] =
    [0.005, 0.01, 0.015, 0.02, 0.025, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.15, 0.2, 0.25, 0.3];
/// Share of the piston's play that the shape of its bore may take (common practice, no source).
const OF_PLAY: f64 = 0.25;
/// Share of the displacer's gap that one part's error may take (common practice, no source).
const OF_GAP: f64 = 0.2;
/// Share of a gasket's thickness that a face may be out of flat (common practice, no source).
const OF_GASKET: f64 = 0.1;
/// Misalignment that a deep groove ball bearing is allowed \[rad\]: 2 minutes of arc, the least of makers' tables (from memory).
const BEARING_TILT: f64 = 2.0 / 60.0 * std::f64::consts::PI / 180.0;
/// Least and greatest value of an end face square to the bore \[mm\].
const END_FACE: [f64; 2] = [0.02, 0.05];
/// Least and greatest coaxiality of two bearing seats \[mm\].
const SEATS: [f64; 2] = [0.01, 0.03];

/// The greatest value of the series that is not above `mm`, between `low` and `high`.
fn graded(mm: f64, [low, high]: [f64; 2]) -> f64 {
    let fits = SERIES.into_iter().rev().find(|s| *s <= mm + 1e-9);
    fits.unwrap_or(SERIES[0]).clamp(low, high)
}

/// Guide of a rod: seat of its bush to the face that holds it.
pub const GUIDE: Limit =
    Limit { mm: 0.02, why: "guide of a rod square to its seat: common practice, no source" };
/// Spigot, register or bearing seat to the bore that goes with it.
pub const REGISTER: Limit =
    Limit { mm: 0.02, why: "register to bore within the play of a close fit: common practice, no source" };
/// Crankpin to journal, bore to bore of a con rod.
pub const PARALLEL: Limit =
    Limit { mm: 0.02, why: "pin to journal and eye to eye over their length: common practice, no source" };
/// Bores of a web of the built-up crankshaft.
pub const WEB: Limit =
    Limit { mm: 0.01, why: "a built-up shaft is as straight as its webs: common practice, no source" };
/// Mounting edge of a bracket to its bore.
pub const BRACKET_EDGE: Limit = Limit {
    mm: 0.05,
    why: "shaft square to the cylinders over the length of a con rod: common practice, no source",
};
/// Rim of a flywheel to its bore.
pub const RIM: Limit = Limit { mm: 0.1, why: "rim of a slow flywheel: common practice, no source" };
/// Hub of a wheel or pulley: what the wheel sits on, to the bore.
pub const HUB: Limit = Limit { mm: 0.02, why: "seat of a wheel on its hub: common practice, no source" };
/// Rim of a belt pulley or roller, face of a wheel.
pub const BELT: Limit =
    Limit { mm: 0.05, why: "tension of a short belt stays even over a turn: common practice, no source" };
/// Thread of a rod to the rod, of a piston to its outside.
pub const THREAD: Limit = Limit {
    mm: 0.05,
    why: "rod and thread in line within the play of the thread: common practice, no source",
};
/// Hole of a gudgeon pin to the rod that it carries.
pub const PIN_HOLE: Limit =
    Limit { mm: 0.05, why: "pin square to its rod over the fork: common practice, no source" };
/// Faces of a spacer and sides of a ring's groove.
pub const SIDE: Limit =
    Limit { mm: 0.02, why: "side that a ring or a bearing bears on: common practice, no source" };
/// Recess of an O-ring to the bush beside it.
pub const RECESS: Limit =
    Limit { mm: 0.05, why: "even squeeze of an O-ring around its rod: common practice, no source" };

/// Bore of a lapped piston: its cylinder's share of the play.
pub fn lapped_bore(e: &Engine) -> Limit {
    let mm = graded(OF_PLAY * (e.piston.bore_mm - e.piston.diameter_mm), [SERIES[0], END_FACE[0]]);
    Limit { mm, why: "a quarter of the play of the lapped piston (common practice, no source)" }
}

/// End face of a power cylinder `wide` \[mm\] over its bore: the piston, guided over its length, may lose a quarter of its play.
pub fn end_face(e: &Engine, wide: f64) -> Limit {
    let play = e.piston.bore_mm - e.piston.diameter_mm;
    let mm = graded(OF_PLAY * play * wide / e.piston.length_mm, END_FACE);
    Limit {
        mm,
        why: "tilts the piston by a quarter of its play over its length, 0.02 mm at the least (common practice)",
    }
}

/// Gasket face: flat or parallel.
pub fn gasket_face(e: &Engine) -> Limit {
    let mm = graded(OF_GASKET * e.joints.gasket_mm, END_FACE);
    Limit { mm, why: "a tenth of the gasket's thickness (common practice, no source)" }
}

/// What runs true with the displacer, or lies in line with its cylinder.
pub fn displacer_true(e: &Engine) -> Limit {
    let mm = graded(OF_GAP * e.displacer.gap_mm, [SERIES[3], 0.2]);
    Limit { mm, why: "a fifth of the gap between displacer and cylinder (common practice, no source)" }
}

/// Face, `wide` \[mm\] across, on which a part of the displacer's cylinder stands that is `long` \[mm\].
pub fn cylinder_face(e: &Engine, wide: f64, long: f64) -> Limit {
    let mm = graded(OF_GAP * e.displacer.gap_mm * wide / long, [END_FACE[0], 0.1])
        .min(gasket_face(e).mm.max(END_FACE[1]));
    Limit {
        mm,
        why: "leans the cylinder by a fifth of the displacer's gap at its far end, flat enough for the gasket (common practice)",
    }
}

/// Two seats of one shaft whose middles lie `apart` \[mm\].
pub fn seats(apart: f64) -> Limit {
    let mm = graded(2.0 * apart * BEARING_TILT, SEATS);
    Limit { mm, why: "tilts neither bearing by more than 2 minutes of arc (makers' tables, from memory)" }
}

/// Holes of a joint, tapped in one part and plain in the other: half of the screw's play in the plain hole for each.
pub fn screws(thread: &Thread) -> Limit {
    let mm = graded((thread.clearance_medium_mm - thread.major_mm) / 2.0, [0.05, 0.3]);
    Limit {
        mm,
        why: "half of the play of the screw in its hole, the other half for the other part (fixed fastener)",
    }
}

/// Face square to an axis.
pub fn square(of: &str, to: &str, limit: Limit) -> Control {
    Control::new(Characteristic::Perpendicularity, of, limit).to(&[to])
}

/// Axis square to a face or another axis, within a round zone.
pub fn square_axis(of: &str, to: &str, limit: Limit) -> Control {
    square(of, to, limit).round()
}

/// Face parallel to a face or an axis.
pub fn parallel(of: &str, to: &str, limit: Limit) -> Control {
    Control::new(Characteristic::Parallelism, of, limit).to(&[to])
}

/// Axis parallel to an axis, within a round zone.
pub fn parallel_axis(of: &str, to: &str, limit: Limit) -> Control {
    parallel(of, to, limit).round()
}

/// Axis on an axis.
pub fn coaxial(of: &str, to: &str, limit: Limit) -> Control {
    Control::new(Characteristic::Coaxiality, of, limit).to(&[to])
}

/// Surface running true about an axis.
pub fn runout(of: &str, to: &str, limit: Limit) -> Control {
    Control::new(Characteristic::CircularRunout, of, limit).to(&[to])
}

/// Flat face.
pub fn flat(of: &str, limit: Limit) -> Control {
    Control::new(Characteristic::Flatness, of, limit)
}

/// Round and straight cylinder.
pub fn cylindrical(of: &str, limit: Limit) -> Control {
    Control::new(Characteristic::Cylindricity, of, limit)
}

/// Holes in their exact places from the datums.
pub fn position(of: &str, to: &[&str], limit: Limit) -> Control {
    Control::new(Characteristic::Position, of, limit).to(to)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::threads::thread;

    #[test]
    fn values_are_rounded_down_to_the_series_and_kept_in_their_range() {
        assert_eq!(graded(0.0375, [0.01, 0.05]), 0.03);
        assert_eq!(graded(0.001, [0.01, 0.05]), 0.01);
        assert_eq!(graded(3.0, [0.01, 0.05]), 0.05);
    }

    /// M5 in a hole of 5.5 mm (ISO 273, medium): 0.5 mm of play, half of it for each part.
    #[test]
    fn screws_share_their_play_and_seats_follow_their_distance() {
        assert_eq!(screws(thread("M5").unwrap()).mm, 0.25);
        // 20 mm × 2 × tan 2' = 0.0233 mm
        assert_eq!(seats(20.0).mm, 0.02);
        assert_eq!(seats(9.0).mm, 0.01);
    }
}
