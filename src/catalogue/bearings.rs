//! Ball bearings (ISO 15), wrapped bushes (ISO 3547-1) and linear ball bushings.

use super::table::{UnknownEntry, find, find_size, rows};
use serde::Deserialize;
use std::sync::OnceLock;

/// A single-row deep groove ball bearing.
#[derive(Clone, Debug, PartialEq)]
pub struct BallBearing {
    /// Designation, for example `608`.
    pub designation: String,
    /// Kinds that share these sizes, for example `open/ZZ/2RS`.
    pub kind: String,
    /// Bore d \[mm\].
    pub bore_mm: f64,
    /// Outside diameter D \[mm\].
    pub outer_mm: f64,
    /// Width B \[mm\].
    pub width_mm: f64,
    /// Smallest corner radius r \[mm\]; the fillet of the shaft must be smaller.
    pub corner_mm: f64,
    /// Dynamic load rating \[N\], the lower one of the makers that were read.
    pub dynamic_n: f64,
    /// Static load rating \[N\], the lower one of the makers that were read.
    pub static_n: f64,
}

/// Seats of ball bearings by the practice of bearing makers (codes W86, W87 of `data/sources.csv`; hand assembly
/// from memory).
pub mod seats {
    /// Shaft for a turning inner ring, bore up to 18 mm, light to normal load.
    pub const SHAFT_TURNING: &str = "js5";
    /// Shaft for slip fit by hand with retaining compound (common practice, from memory).
    pub const SHAFT_BY_HAND: &str = "h6";
    /// Pin or axle that stands still in a turning outer ring, easy to push.
    pub const PIN_STANDING: &str = "g6";
    /// Housing of an outer ring that stands still.
    pub const HOUSING_STANDING: &str = "H7";
    /// Housing of a turning outer ring, light load.
    pub const HOUSING_TURNING_LIGHT: &str = "M7";
    /// Housing of a turning outer ring, normal load.
    pub const HOUSING_TURNING: &str = "N7";
}

/// A wrapped bush with PTFE lining (ISO 3547-1).
#[derive(Clone, Debug, PartialEq)]
pub struct Bush {
    /// Shaft diameter \[mm\].
    pub shaft_mm: f64,
    /// Diameter of the housing bore \[mm\].
    pub housing_mm: f64,
    /// Largest wall \[mm\].
    pub wall_max_mm: f64,
    /// Smallest wall \[mm\].
    pub wall_min_mm: f64,
    /// Tolerance class of the shaft.
    pub shaft_fit: String,
    /// Tolerance class of the housing bore.
    pub housing_fit: String,
    /// Lengths seen in a maker's list \[mm\]; may be empty.
    pub lengths_mm: Vec<f64>,
}

/// A linear ball bushing.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct LinearBushing {
    /// Code, for example `LM8`.
    #[serde(rename = "code")]
    pub designation: String,
    /// Size run it belongs to; `LM` and `LME` do not swap.
    pub family: String,
    /// Shaft diameter \[mm\].
    pub shaft_mm: f64,
    /// Outside diameter \[mm\].
    pub outer_mm: f64,
    /// Length \[mm\].
    pub length_mm: f64,
    /// Dynamic load rating \[N\].
    #[serde(rename = "C_N")]
    pub dynamic_n: f64,
    /// Static load rating \[N\].
    #[serde(rename = "C0_N")]
    pub static_n: f64,
}

/// A ball bearing by its designation. `608ZZ` and `608-2RS` are found under `608`, since they share its sizes.
///
/// # Errors
/// When the table holds no such bearing; names the nearest one.
pub fn bearing(designation: &str) -> Result<&'static BallBearing, UnknownEntry> {
    let plain = designation.trim().to_uppercase().replace(['-', ' '], "");
    let exact = bearings().iter().find(|bearing| bearing.designation == plain);
    let shared = || {
        let bare = ["2RS1", "2RS", "2RZ", "ZZ", "2Z"].iter().find_map(|end| plain.strip_suffix(end))?;
        bearings().iter().find(|bearing| bearing.designation == bare && bearing.kind.contains('/'))
    };
    match exact.or_else(|| shared().filter(|bearing| !bearing.kind.contains("618"))) {
        Some(bearing) => Ok(bearing),
        None => find("ball bearing", designation, bearings(), |bearing| &bearing.designation),
    }
}

/// All ball bearings of the table.
pub fn bearings() -> &'static [BallBearing] {
    static BEARINGS: OnceLock<Vec<BallBearing>> = OnceLock::new();
    BEARINGS.get_or_init(|| {
        rows::<BallRow>(include_str!("data/ball_bearings.csv")).into_iter().map(Into::into).collect()
    })
}

/// A wrapped bush by its shaft diameter \[mm\].
///
/// # Errors
/// When the table holds no such bush; names the nearest one.
pub fn bush(shaft_mm: f64) -> Result<&'static Bush, UnknownEntry> {
    find_size("wrapped bush", shaft_mm, bushes(), |bush| bush.shaft_mm)
}

/// All wrapped bushes of the table, small to large.
pub fn bushes() -> &'static [Bush] {
    static BUSHES: OnceLock<Vec<Bush>> = OnceLock::new();
    BUSHES.get_or_init(|| {
        rows::<BushRow>(include_str!("data/wrapped_bushes.csv")).into_iter().map(Into::into).collect()
    })
}

/// A linear ball bushing by its code.
///
/// # Errors
/// When the table holds no such bushing; names the nearest one.
pub fn linear_bushing(code: &str) -> Result<&'static LinearBushing, UnknownEntry> {
    static BUSHINGS: OnceLock<Vec<LinearBushing>> = OnceLock::new();
    let bushings = BUSHINGS.get_or_init(|| rows(include_str!("data/linear_bushings.csv")));
    let bare = code.trim().to_uppercase();
    find("linear bushing", bare.strip_suffix("UU").unwrap_or(&bare), bushings, |b| &b.designation)
}

#[derive(Deserialize)]
struct BallRow {
    designation: String,
    #[serde(rename = "type")]
    kind: String,
    #[serde(rename = "bore_d_mm")]
    bore: f64,
    #[serde(rename = "outer_D_mm")]
    outer: f64,
    #[serde(rename = "width_B_mm")]
    width: f64,
    #[serde(rename = "r_min_mm")]
    corner: f64,
    #[serde(rename = "C_kN_maker1")]
    dynamic_1: Option<f64>,
    #[serde(rename = "C0_kN_maker1")]
    static_1: Option<f64>,
    #[serde(rename = "C_kN_maker2")]
    dynamic_2: Option<f64>,
    #[serde(rename = "C0_kN_maker2")]
    static_2: Option<f64>,
}

/// The lower of two ratings in kilonewtons, in newtons.
fn lower_n(first: Option<f64>, second: Option<f64>) -> f64 {
    let low = [first, second].into_iter().flatten().fold(f64::INFINITY, f64::min);
    (low * 1000.0).round()
}

impl From<BallRow> for BallBearing {
    fn from(row: BallRow) -> Self {
        Self {
            dynamic_n: lower_n(row.dynamic_1, row.dynamic_2),
            static_n: lower_n(row.static_1, row.static_2),
            designation: row.designation,
            kind: row.kind,
            bore_mm: row.bore,
            outer_mm: row.outer,
            width_mm: row.width,
            corner_mm: row.corner,
        }
    }
}

#[derive(Deserialize)]
struct BushRow {
    shaft_d_mm: f64,
    #[serde(rename = "housing_D_mm")]
    housing: f64,
    wall_max_mm: f64,
    wall_min_mm: f64,
    shaft_fit: String,
    housing_fit: String,
    lengths_seen_mm: String,
}

impl From<BushRow> for Bush {
    fn from(row: BushRow) -> Self {
        Self {
            shaft_mm: row.shaft_d_mm,
            housing_mm: row.housing,
            wall_max_mm: row.wall_max_mm,
            wall_min_mm: row.wall_min_mm,
            shaft_fit: row.shaft_fit,
            housing_fit: row.housing_fit,
            lengths_mm: row
                .lengths_seen_mm
                .split(',')
                .filter_map(|length| length.trim().parse().ok())
                .collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_lower_rating_of_the_makers_is_used() {
        let bearing = bearing("624").unwrap();
        assert_eq!((bearing.dynamic_n, bearing.static_n), (936.0, 290.0));
    }

    #[test]
    fn suffixes_find_the_bearing_unless_the_shielded_one_is_wider() {
        assert_eq!(bearing("608-2RS").unwrap().width_mm, 7.0);
        assert_eq!(bearing("608zz").unwrap().designation, "608");
        assert_eq!(bearing("688ZZ").unwrap().width_mm, 5.0);
        assert_eq!(bearing("688").unwrap().width_mm, 4.0);
        assert!(bearing("689ZZ").is_err(), "no rating was seen for it");
        assert_eq!(bearing("6088").unwrap_err().nearest.as_deref(), Some("608"));
    }

    #[test]
    fn every_bearing_is_rated_and_has_room_for_its_balls() {
        for bearing in bearings() {
            assert!(bearing.dynamic_n.is_finite() && bearing.static_n.is_finite(), "{}", bearing.designation);
            assert!(bearing.dynamic_n > bearing.static_n && bearing.outer_mm > bearing.bore_mm + 3.0);
        }
    }

    #[test]
    fn a_bush_fills_the_gap_between_shaft_and_housing() {
        for bush in bushes() {
            let gap = (bush.housing_mm - bush.shaft_mm) / 2.0;
            assert!((bush.wall_max_mm - gap).abs() < 0.01, "{}", bush.shaft_mm);
        }
        assert_eq!(bush(8.0).unwrap().lengths_mm, [6.0, 8.0, 10.0, 12.0]);
        assert_eq!(bush(9.0).unwrap_err().nearest.as_deref(), Some("8 mm"));
    }

    #[test]
    fn the_two_runs_of_linear_bushings_do_not_swap() {
        assert_eq!(linear_bushing("LM8UU").unwrap().outer_mm, 15.0);
        assert_eq!(linear_bushing("LME8").unwrap().outer_mm, 16.0);
    }
}
