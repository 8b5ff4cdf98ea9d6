//! Ball bearings: sizes (ISO 15), ring tolerances (ISO 492), load ratings of makers, seats.

use super::table::{Listed, UnknownEntry, find, rows};
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
    /// Where it stands.
    pub from: Listed,
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

/// Deviations of a ring of Normal class \[mm\] (ISO 492); the upper ones are zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RingDeviations {
    /// Lower deviation of the mean bore.
    pub bore_mm: f64,
    /// Lower deviation of the mean outside diameter.
    pub outer_mm: f64,
    /// Lower deviation of the width of a ring.
    pub width_mm: f64,
}

impl BallBearing {
    /// Deviations of its rings; `None` beyond the table (bores to 30 mm, outside diameters over 6 up to 50 mm).
    pub fn deviations(&self) -> Option<RingDeviations> {
        let lower = |what: &str, size: f64| {
            let row =
                ring_rows().iter().find(|row| row.what == what && row.over < size && size <= row.incl)?;
            Some(row.lower_um / 1000.0)
        };
        Some(RingDeviations {
            bore_mm: lower("bore", self.bore_mm)?,
            outer_mm: lower("outer", self.outer_mm)?,
            width_mm: lower("width", self.bore_mm)?,
        })
    }
}

#[derive(Deserialize)]
struct RingRow {
    what: String,
    #[serde(rename = "over_mm")]
    over: f64,
    #[serde(rename = "incl_mm")]
    incl: f64,
    lower_um: f64,
}

fn ring_rows() -> &'static [RingRow] {
    static ROWS: OnceLock<Vec<RingRow>> = OnceLock::new();
    ROWS.get_or_init(|| rows(include_str!("data/bearing_rings.csv")))
}

/// A ball bearing among `bearings` by its designation. `608ZZ` and `608-2RS` are found under `608`, since they share its
/// sizes.
pub(super) fn find_bearing<'a>(
    bearings: &'a [BallBearing],
    designation: &str,
) -> Result<&'a BallBearing, UnknownEntry> {
    let bare = |name: &str| name.trim().to_uppercase().replace(['-', ' '], "");
    let plain = bare(designation);
    let exact = bearings.iter().find(|bearing| bare(&bearing.designation) == plain);
    let shared = || {
        let open = ["2RS1", "2RS", "2RZ", "ZZ", "2Z"].iter().find_map(|end| plain.strip_suffix(end))?;
        bearings.iter().find(|bearing| bearing.designation == open && bearing.kind.contains('/'))
    };
    match exact.or_else(|| shared().filter(|bearing| !bearing.kind.contains("618"))) {
        Some(bearing) => Ok(bearing),
        None => find("ball bearing", designation, bearings, |bearing| &bearing.designation),
    }
}

/// All ball bearings of the table.
pub fn bearings() -> &'static [BallBearing] {
    static BEARINGS: OnceLock<Vec<BallBearing>> = OnceLock::new();
    BEARINGS.get_or_init(|| {
        rows::<BallRow>(include_str!("data/ball_bearings.csv")).into_iter().map(Into::into).collect()
    })
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
    status: String,
    src: String,
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
            from: Listed::table("ISO 15", &row.status, &row.src),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bearing(designation: &str) -> Result<&'static BallBearing, UnknownEntry> {
        find_bearing(bearings(), designation)
    }

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
    fn rings_of_normal_class_lie_below_nominal() {
        let of = |name| bearing(name).unwrap().deviations().unwrap();
        // Codes W94 and W95: bores to 18 mm 0/-8 um, outside over 18 up to 30 mm 0/-9 um, rings 0/-120 um wide.
        assert_eq!(of("608"), RingDeviations { bore_mm: -0.008, outer_mm: -0.009, width_mm: -0.12 });
        assert_eq!(of("6001").outer_mm, -0.009);
        assert!(bearings().iter().all(|bearing| bearing.deviations().is_some()));
    }
}
