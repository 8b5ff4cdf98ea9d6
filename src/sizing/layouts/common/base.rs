//! Base plate under the crank bracket, on feet where the flywheel reaches below it.

use crate::catalogue::threads::thread;
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{Base, Foot};

const PLAIN: &str = "common practice, no source";
/// How far the plate reaches beyond the bracket on either side \[mm\].
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

/// How the bracket stands on the base.
#[derive(Clone, Copy, Debug)]
pub struct Stand {
    /// Ends of the bracket's lower edge along X \[mm\].
    pub edge_x_mm: [f64; 2],
    /// Faces of the bracket along Y \[mm\].
    pub edge_y_mm: [f64; 2],
    /// Height of that edge \[mm\].
    pub edge_z_mm: f64,
    /// Where the screws stand along X \[mm\].
    pub screw_x_mm: [f64; 2],
    /// How far the plate reaches to the front, that is the least y \[mm\].
    pub front_mm: f64,
    /// Face of the flywheel towards the engine along Y \[mm\].
    pub wheel_y_mm: f64,
    /// Lowest point of the flywheel \[mm\].
    pub wheel_low_mm: f64,
}

/// The base; `after` names the dimensions behind the bracket's lower edge.
pub fn size(d: &mut Decide, stand: &Stand, stuff: &str, after: &[&str]) -> Base {
    let known = |name| thread(name).unwrap_or_else(|_| unreachable!("in the catalogue"));
    let (screw, foot_screw) = (known("M5"), known("M6"));
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
    d.rule("base.length", high[0] - low[0], ("25 mm beyond the bracket on either side", PLAIN), after);
    d.rule(
        "base.width",
        high[1] - low[1],
        ("from below the cold flange to 2.5 mm before the flywheel", PLAIN),
        &["cold_end.flange_diameter", "shaft.wheel_place"],
    );
    let under = stand.edge_z_mm - thickness;
    let needed = under - stand.wheel_low_mm + ROOM_MM;
    let grip = thickness - screw.counterbore_depth_mm;
    let screw_mm = d.design.catalogue.cap_screw_at_least(screw, grip + 2.0 * screw.major_mm).unwrap_or(16.0);
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
    let row = (stand.edge_y_mm[1] - stand.edge_y_mm[0]) / 4.0;
    let middle = 0.5 * (stand.edge_y_mm[0] + stand.edge_y_mm[1]);
    let [a, b] = stand.screw_x_mm;
    let shift = STAGGER_MM.min(0.5 * (b - a - STAGGER_MM)).max(0.0);
    let corners = |x: [f64; 2], y: [f64; 2]| [[x[0], y[0]], [x[1], y[0]], [x[1], y[1]], [x[0], y[1]]];
    Base {
        low_mm: low,
        high_mm: high,
        top_mm: stand.edge_z_mm,
        thickness_mm: thickness,
        screw,
        screw_mm,
        // the rows stand side by side, so that metal is left between the counterbores
        screws_mm: [
            [a, middle - row],
            [b, middle - row],
            [b - shift, middle + row],
            [a + shift, middle + row],
        ],
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
