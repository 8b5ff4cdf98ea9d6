//! Wrapped bushes (ISO 3547-1), sintered bushes (ISO 2795) and linear ball bushings.

use super::table::{Listed, rows};
use serde::Deserialize;
use std::sync::OnceLock;

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
    /// Where it stands.
    pub from: Listed,
}

/// An oil-filled bush of sintered bronze (ISO 2795): not for a hot end, nor where its oil meets hot compressed air.
#[derive(Clone, Debug, PartialEq)]
pub struct SinteredBush {
    /// Shaft diameter \[mm\].
    pub shaft_mm: f64,
    /// Outside diameter, also that of the housing bore \[mm\].
    pub outer_mm: f64,
    /// Usual lengths \[mm\].
    pub lengths_mm: Vec<f64>,
    /// Where it stands.
    pub from: Listed,
}

impl SinteredBush {
    /// Tolerance class of the housing bore (from memory).
    pub const HOUSING_FIT: &'static str = "H7";
    /// Tolerance class of a shaft that turns or slides (from memory).
    pub const SHAFT_FIT: &'static str = "f7";
    /// Highest temperature that its oil bears for long \[°C\] (from memory).
    pub const SERVICE_LIMIT_C: f64 = 90.0;
}

/// A linear ball bushing.
#[derive(Clone, Debug, PartialEq)]
pub struct LinearBushing {
    /// Code, for example `LM8`.
    pub designation: String,
    /// Size run it belongs to; `LM` and `LME` do not swap.
    pub family: String,
    /// Shaft diameter \[mm\].
    pub shaft_mm: f64,
    /// Outside diameter \[mm\].
    pub outer_mm: f64,
    /// Length \[mm\].
    pub length_mm: f64,
    /// Grooves for retaining rings: span over both, width, diameter at the bottom \[mm\]; `None` where there are none.
    pub grooves_mm: Option<[f64; 3]>,
    /// Dynamic load rating \[N\].
    pub dynamic_n: f64,
    /// Static load rating \[N\].
    pub static_n: f64,
    /// Where it stands.
    pub from: Listed,
}

/// Seats of linear ball bushings (from memory of makers' catalogues). Use two on a shaft, far apart, so that none carries
/// a moment (code C2 of `data/sources.csv`).
pub mod linear_seats {
    /// Shaft, hardened to 58 HRC or more and ground.
    pub const SHAFT: &str = "h6";
    /// Housing in which the bushing slides in by hand.
    pub const HOUSING: &str = "H7";
    /// Housing that presses lightly.
    pub const HOUSING_TIGHT: &str = "J7";
}

/// All wrapped bushes of the table, small to large.
pub fn bushes() -> &'static [Bush] {
    static BUSHES: OnceLock<Vec<Bush>> = OnceLock::new();
    BUSHES.get_or_init(|| {
        rows::<BushRow>(include_str!("data/wrapped_bushes.csv")).into_iter().map(Into::into).collect()
    })
}

/// All sintered bushes of the table, small to large.
pub fn sintered_bushes() -> &'static [SinteredBush] {
    static BUSHES: OnceLock<Vec<SinteredBush>> = OnceLock::new();
    BUSHES.get_or_init(|| {
        rows::<SinteredRow>(include_str!("data/sintered_bushes.csv")).into_iter().map(Into::into).collect()
    })
}

/// All linear ball bushings of the table.
pub fn linear_bushings() -> &'static [LinearBushing] {
    static BUSHINGS: OnceLock<Vec<LinearBushing>> = OnceLock::new();
    BUSHINGS.get_or_init(|| {
        rows::<LinearRow>(include_str!("data/linear_bushings.csv")).into_iter().map(Into::into).collect()
    })
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
    status: String,
    src: String,
}

/// Numbers with commas between them.
fn numbers(text: &str) -> Vec<f64> {
    text.split(',').filter_map(|number| number.trim().parse().ok()).collect()
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
            lengths_mm: numbers(&row.lengths_seen_mm),
            from: Listed::table("ISO 3547-1", &row.status, &row.src),
        }
    }
}

#[derive(Deserialize)]
struct SinteredRow {
    shaft_d_mm: f64,
    #[serde(rename = "outer_D_mm")]
    outer: f64,
    lengths_mm: String,
    status: String,
}

impl From<SinteredRow> for SinteredBush {
    fn from(row: SinteredRow) -> Self {
        Self {
            shaft_mm: row.shaft_d_mm,
            outer_mm: row.outer,
            lengths_mm: numbers(&row.lengths_mm),
            from: Listed::table("ISO 2795", &row.status, ""),
        }
    }
}

#[derive(Deserialize)]
struct LinearRow {
    code: String,
    family: String,
    shaft_mm: f64,
    outer_mm: f64,
    length_mm: f64,
    #[serde(rename = "groove_span_L1_mm")]
    groove_span: f64,
    groove_width_mm: f64,
    groove_dia_mm: f64,
    #[serde(rename = "C_N")]
    dynamic: f64,
    #[serde(rename = "C0_N")]
    static_: f64,
    status: String,
    src: String,
}

impl From<LinearRow> for LinearBushing {
    fn from(row: LinearRow) -> Self {
        Self {
            designation: row.code,
            from: Listed::table(&row.family, &row.status, &row.src),
            family: row.family,
            shaft_mm: row.shaft_mm,
            outer_mm: row.outer_mm,
            length_mm: row.length_mm,
            grooves_mm: Some([row.groove_span, row.groove_width_mm, row.groove_dia_mm]),
            dynamic_n: row.dynamic,
            static_n: row.static_,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bush_fills_the_gap_between_shaft_and_housing() {
        for bush in bushes() {
            let gap = (bush.housing_mm - bush.shaft_mm) / 2.0;
            assert!((bush.wall_max_mm - gap).abs() < 0.01, "{}", bush.shaft_mm);
        }
        assert_eq!(bushes()[5].lengths_mm, [6.0, 8.0, 10.0, 12.0]);
    }

    #[test]
    fn a_sintered_bush_has_walls_that_press_in() {
        for bush in sintered_bushes() {
            // Walls of 1.5 to 3 mm in this range (common practice, no source).
            let wall = (bush.outer_mm - bush.shaft_mm) / 2.0;
            assert!((1.5..=3.0).contains(&wall) && bush.lengths_mm.is_sorted(), "{}", bush.shaft_mm);
        }
    }

    #[test]
    fn grooves_of_linear_bushings_lie_in_their_metal() {
        for bushing in linear_bushings() {
            let [span, width, bottom] = bushing.grooves_mm.unwrap();
            assert!(span < bushing.length_mm && width < 2.0, "{}", bushing.designation);
            assert!(bottom < bushing.outer_mm && bottom > bushing.shaft_mm, "{}", bushing.designation);
            assert!(bushing.static_n > bushing.dynamic_n, "{}", bushing.designation);
        }
    }
}
