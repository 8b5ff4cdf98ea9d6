//! Toothed pulleys on a shaft.

use crate::catalogue::belts::{BeltSection, Groove};
use crate::catalogue::threads::thread;
use crate::sizing::decide::round_up;
use crate::sizing::engine::Belt;
use std::f64::consts::PI;

/// Root diameter of the smallest pulley over its shaft \[mm\]; common practice, no source.
const ROOT_OVER_SHAFT_MM: f64 = 9.0;

/// Most that a hub is thicker than its shaft \[mm\]; common practice, no source.
const MOST_HUB_MM: f64 = 16.0;

/// Depth of a pulley's groove \[mm\].
pub fn groove_depth(section: &BeltSection) -> f64 {
    match section.groove {
        Groove::Curvilinear { depth_mm, .. } | Groove::Straight { depth_mm, .. } => depth_mm,
    }
}

/// Fewest teeth that leave metal around a shaft of `shaft` \[mm\].
pub fn least_teeth(section: &BeltSection, shaft: f64) -> usize {
    let outside = shaft + ROOT_OVER_SHAFT_MM + 2.0 * groove_depth(section) + section.two_a_mm;
    (outside * PI / section.pitch_mm).ceil() as usize
}

/// A pulley of `teeth` for a belt of `width` on a shaft of `shaft` \[mm\]; its belt has no length yet. Hub, flange and
/// face are common practice without a source.
pub fn sizes(section: &BeltSection, teeth: usize, width: f64, shaft: f64) -> Belt {
    let outside = teeth as f64 * section.pitch_mm / PI - section.two_a_mm;
    let root = outside - 2.0 * groove_depth(section);
    let set_screw =
        thread(if shaft >= 8.0 { "M4" } else { "M3" }).unwrap_or_else(|_| unreachable!("in the catalogue"));
    let hub = (root - 1.0).floor().max(shaft + 7.0);
    Belt {
        section: section.name.clone(),
        pulley_teeth: teeth,
        length_mm: 0.0,
        width_mm: width,
        face_mm: width + 1.0,
        hub_mm: [hub.min(shaft + MOST_HUB_MM), 2.0 * set_screw.major_mm],
        flange_mm: [1.5, round_up(outside + 3.0, 0.5)],
        set_screw,
    }
}
