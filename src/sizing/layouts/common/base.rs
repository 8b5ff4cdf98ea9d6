//! Base plate under the crank bracket or the crankcase, on feet where the flywheel reaches below it.

use super::joints::tapped_room;
use crate::catalogue::threads::{Thread, thread};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{Base, Foot};

const PLAIN: &str = "common practice, no source";
/// How far the plate reaches beyond what stands on it, on either side \[mm\].
const BEYOND_MM: f64 = 25.0;
/// Room below the flywheel, and beside it \[mm\].
const ROOM_MM: f64 = 5.0;
const BESIDE_MM: f64 = 2.5;
/// How far the two rows of screws are shifted along the bracket \[mm\].
const STAGGER_MM: f64 = 12.0;
/// Diameter of a foot \[mm\].
const FOOT_MM: f64 = 20.0;
/// Feet and hold-down holes from the plate's edges \[mm\].
const INSET_MM: f64 = 14.0;
/// Least foot: both its threads need room \[mm\].
const LEAST_FOOT_MM: f64 = 45.0;
/// Depth of thread in either end of a foot \[mm\].
const FOOT_THREAD_MM: f64 = 14.0;

/// How the engine stands on the base.
#[derive(Clone, Copy, Debug)]
pub struct Stand {
    /// Ends of what stands on it along X \[mm\].
    pub edge_x_mm: [f64; 2],
    /// Its faces along Y \[mm\].
    pub edge_y_mm: [f64; 2],
    /// Height of its lower edge \[mm\].
    pub edge_z_mm: f64,
    /// Room for the drill of a thread above that edge \[mm\].
    pub deep_mm: f64,
    /// Screws from below into it.
    pub screw: &'static Thread,
    /// Where they stand in X and Y \[mm\].
    pub screws_mm: [[f64; 2]; 4],
    /// How far the plate reaches to the front, that is the least y \[mm\].
    pub front_mm: f64,
    /// What it covers there, in words, and the dimension behind it.
    pub covers: [&'static str; 2],
    /// Face of the flywheel towards the engine along Y \[mm\].
    pub wheel_y_mm: f64,
    /// Lowest point of the flywheel \[mm\].
    pub wheel_low_mm: f64,
}

/// Screws into the lower edge of a bracket between two faces along Y, the outer ones at `x` \[mm\]: two rows side by side,
/// so that metal is left between the counterbores.
pub fn into_edge([front, rear]: [f64; 2], [a, b]: [f64; 2]) -> (&'static Thread, [[f64; 2]; 4]) {
    let screw = known("M5");
    let (row, middle) = ((rear - front) / 4.0, 0.5 * (front + rear));
    let shift = STAGGER_MM.min(0.5 * (b - a - STAGGER_MM)).max(0.0);
    let places = [[a, middle - row], [b, middle - row], [b - shift, middle + row], [a + shift, middle + row]];
    (screw, places)
}

fn known(name: &str) -> &'static Thread {
    thread(name).unwrap_or_else(|_| unreachable!("in the catalogue"))
}

/// The base; `after` names the dimensions behind the lower edge of what stands on it.
pub fn size(d: &mut Decide, stand: &Stand, stuff: &str, after: &[&str]) -> Base {
    let (screw, foot_screw) = (stand.screw, known("M6"));
    let thickness = d.rule(
        "base.thickness",
        round_up(2.0 * screw.major_mm, 1.0),
        ("two screws, so that their heads sink and stiffness is left", PLAIN),
        &[],
    );
    let beyond = stand.wheel_low_mm < stand.edge_z_mm;
    let rear = if beyond { stand.wheel_y_mm - BESIDE_MM } else { stand.wheel_y_mm + 2.0 * BEYOND_MM };
    let low = [stand.edge_x_mm[0] - BEYOND_MM, stand.front_mm];
    let high = [stand.edge_x_mm[1] + BEYOND_MM, rear.max(stand.edge_y_mm[1])];
    d.rule("base.length", high[0] - low[0], ("25 mm beyond what stands on it, on either side", PLAIN), after);
    d.rule(
        "base.width",
        high[1] - low[1],
        (format!("from below the {} to 2.5 mm before the flywheel", stand.covers[0]).as_str(), PLAIN),
        &[stand.covers[1], "shaft.wheel_place"],
    );
    let under = stand.edge_z_mm - thickness;
    let needed = under - stand.wheel_low_mm + ROOM_MM;
    let grip = thickness - screw.counterbore_depth_mm;
    let wanted = grip + 2.0 * screw.major_mm;
    let book = &d.design.catalogue;
    let fits = |long: &f64| tapped_room(screw, long - grip + 1.0) <= stand.deep_mm;
    let long = book.cap_screw_at_least(screw, wanted).filter(fits);
    let screw_mm = long.or_else(|| book.cap_screw_at_most(screw, wanted)).unwrap_or(16.0);
    let foot = (needed > 0.0).then(|| {
        let length = d.rule(
            "base.foot_length",
            round_up(needed.max(LEAST_FOOT_MM), 1.0),
            ("flywheel clear of the bench by 5 mm, at least 45 mm, to the next mm", PLAIN),
            &["flywheel.diameter", "base.thickness"],
        );
        let book = &d.design.catalogue;
        let long = book.cap_screw_at_most(foot_screw, thickness + FOOT_THREAD_MM - 1.0).unwrap_or(20.0);
        Foot { diameter_mm: FOOT_MM, length_mm: length, thread_mm: FOOT_THREAD_MM, screw_mm: long }
    });
    let corners = |x: [f64; 2], y: [f64; 2]| [[x[0], y[0]], [x[1], y[0]], [x[1], y[1]], [x[0], y[1]]];
    Base {
        low_mm: low,
        high_mm: high,
        top_mm: stand.edge_z_mm,
        thickness_mm: thickness,
        screw,
        screw_mm,
        screws_mm: stand.screws_mm,
        thread_mm: screw_mm - grip + 1.0,
        hold_down: foot_screw,
        hold_down_mm: corners(
            [low[0] + INSET_MM, high[0] - INSET_MM],
            [low[1] + INSET_MM, high[1] - INSET_MM],
        ),
        foot,
        material: stuff.to_owned(),
    }
}

/// Lowest point of a base \[mm\].
pub fn bottom_mm(base: &Base) -> f64 {
    base.top_mm - base.thickness_mm - base.foot.as_ref().map_or(0.0, |f| f.length_mm)
}
