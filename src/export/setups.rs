//! `tables/setups.csv`: how each made part that needs several set-ups is worked, side by side.

use super::beside::short;
use super::tables::{direction, table};
use crate::parts::part::Part;
use crate::parts::setups::{DATUM, SetUp, set_ups};
use crate::shape::measure::Measure;
use crate::shape::{EuclideanSpace, Vector3};

/// Folder of the solids of set-ups, below the output folder.
pub const SET_UPS: &str = "step/setups/";

/// Path of the solid of a set-up below the output folder.
pub fn path(part: &Part, set_up: &SetUp) -> String {
    format!("{SET_UPS}{}-{}.step", part.name, set_up.number)
}

/// The set-ups of a part that needs more than one; none for any other.
pub fn several(part: &Part) -> Vec<SetUp> {
    Some(set_ups(part)).filter(|all| all.len() > 1).unwrap_or_default()
}

/// The table, from parts with what is measured on them.
///
/// # Errors
/// When the table cannot be formed: a fault of the program.
pub fn csv<'a>(parts: impl Iterator<Item = (&'a Part, &'a Measure)>) -> Result<Vec<u8>, String> {
    let head = [
        "part",
        "set_up",
        "what",
        "datum",
        "tool_direction",
        "x_axis",
        "low_mm",
        "high_mm",
        "features",
        "file",
    ];
    let rows = parts.flat_map(|(part, measure)| {
        several(part).into_iter().map(move |s| {
            let [low, high] = corners(&s, measure);
            let axis = |v: Vector3| direction([v.x, v.y, v.z].map(super::holes::rounded));
            vec![
                part.name.clone(),
                s.number.to_string(),
                s.what.clone(),
                DATUM.to_owned(),
                axis(-s.z_axis),
                axis(s.x_axis),
                low,
                high,
                s.features.join(" "),
                path(part, &s),
            ]
        })
    });
    table(&head, rows)
}

/// Least and greatest corner in the coordinates of a set-up \[mm\]; empty where its axes are not those of the part.
fn corners(s: &SetUp, measure: &Measure) -> [String; 2] {
    let axes = [s.x_axis, s.y_axis(), s.z_axis];
    let is_axis = |v: &Vector3| [v.x, v.y, v.z].iter().any(|c| c.abs() > 1.0 - 1e-9);
    if !axes.iter().all(is_axis) {
        return [String::new(), String::new()];
    }
    let (a, b) = (s.turned(measure.low.to_vec()), s.turned(measure.high.to_vec()));
    let text =
        |pick: fn(f64, f64) -> f64| [pick(a.x, b.x), pick(a.y, b.y), pick(a.z, b.z)].map(short).join(" ");
    [text(f64::min), text(f64::max)]
}
