//! Press-fit drill bushes (DIN 179 form A) for drilling jigs.

use super::table::{Listed, rows};
use serde::Deserialize;
use std::sync::OnceLock;

/// A run of headless press-fit drill bushes of one outside diameter.
#[derive(Clone, Debug, PartialEq)]
pub struct DrillBush {
    /// The run holds drills over this diameter \[mm\] …
    pub over_mm: f64,
    /// … up to this one \[mm\].
    pub to_mm: f64,
    /// Outside diameter, also that of its hole in the jig \[mm\].
    pub outer_mm: f64,
    /// Lengths, the shortest first \[mm\].
    pub lengths_mm: Vec<f64>,
    /// Where it stands.
    pub from: Listed,
}

impl DrillBush {
    /// Tolerance class of its hole in the jig (from memory).
    pub const HOUSING_FIT: &'static str = "H7";
}

#[derive(Deserialize)]
struct Row {
    drill_over_mm: f64,
    drill_to_mm: f64,
    outer_d2_mm: f64,
    lengths_l1_mm: String,
    status: String,
}

impl From<Row> for DrillBush {
    fn from(row: Row) -> Self {
        Self {
            over_mm: row.drill_over_mm,
            to_mm: row.drill_to_mm,
            outer_mm: row.outer_d2_mm,
            lengths_mm: row.lengths_l1_mm.split(',').filter_map(|n| n.trim().parse().ok()).collect(),
            from: Listed::table("DIN 179 form A", &row.status, ""),
        }
    }
}

/// All runs, the smallest first.
pub fn drill_bushes() -> &'static [DrillBush] {
    static BUSHES: OnceLock<Vec<DrillBush>> = OnceLock::new();
    BUSHES.get_or_init(|| {
        rows::<Row>(include_str!("data/drill_bushes.csv")).into_iter().map(Into::into).collect()
    })
}

/// The run that holds a drill \[mm\]; `None` for one too large.
pub fn drill_bush(drill_mm: f64) -> Option<&'static DrillBush> {
    drill_bushes().iter().find(|b| drill_mm > b.over_mm && drill_mm <= b.to_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn runs_follow_each_other_and_walls_stay_between_one_and_four_millimetres() {
        let all = drill_bushes();
        assert!(all.windows(2).all(|w| w[0].to_mm == w[1].over_mm && w[0].outer_mm < w[1].outer_mm));
        for bush in all {
            let wall = 0.5 * (bush.outer_mm - bush.to_mm);
            assert!((1.0..=4.0).contains(&wall), "{bush:?}");
            assert!(
                bush.lengths_mm.len() >= 2 && bush.lengths_mm.windows(2).all(|w| w[0] < w[1]),
                "{bush:?}"
            );
        }
    }

    #[test]
    fn a_drill_finds_its_bush() {
        // drill of M5, clearance hole of M5: 4.2 mm and 5.5 mm
        assert_eq!(drill_bush(4.2).map(|b| b.outer_mm), Some(8.0));
        assert_eq!(drill_bush(5.5).map(|b| b.outer_mm), Some(10.0));
        assert_eq!(drill_bush(40.0), None);
    }
}
