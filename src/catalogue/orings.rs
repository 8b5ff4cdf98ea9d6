//! O-rings and the grooves they sit in.

use super::table::{Listed, UnknownEntry, find_size, rows};
use serde::Deserialize;
use std::sync::OnceLock;

/// An O-ring.
#[derive(Clone, Debug, PartialEq)]
pub struct ORing {
    /// Designation, for example `AS568-010` or `20x2`.
    pub designation: String,
    /// Inside diameter \[mm\].
    pub inner_mm: f64,
    /// Section \[mm\].
    pub section_mm: f64,
    /// Tolerance of inside diameter and section, plus and minus \[mm\] (ISO 3601-1, class A); those of trade sections are
    /// from memory.
    pub tolerance_mm: [f64; 2],
    /// Where it stands.
    pub from: Listed,
}

/// What the ring does in its groove.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Application {
    /// Sliding rod or piston at low gas pressure: least friction (a maker's pneumatic row, code W17).
    ReciprocatingPneumatic,
    /// Sliding rod or piston, tighter and with more friction (a maker's general row, code W16).
    ReciprocatingGeneral,
    /// Static, squeezed on the radius.
    StaticRadial,
    /// Static, squeezed between faces.
    StaticFace,
    /// Static between faces, for gas (1.78 and 2.62 mm only).
    StaticFaceGas,
}

impl Application {
    fn row_name(self) -> &'static str {
        match self {
            Self::ReciprocatingPneumatic => "reciprocating_pneumatic",
            Self::ReciprocatingGeneral => "reciprocating_general_W16",
            Self::StaticRadial => "static_radial",
            Self::StaticFace => "static_axial_face",
            Self::StaticFaceGas => "static_axial_face_gas",
        }
    }
}

/// A groove for an O-ring. The depth includes the clearance gap: the groove of a rod has the diameter of the rod plus
/// twice the depth, that of a piston the bore less twice the depth.
#[derive(Clone, Debug, PartialEq)]
pub struct Gland {
    /// Section of the ring \[mm\].
    pub section_mm: f64,
    /// Smallest depth \[mm\].
    pub depth_min_mm: f64,
    /// Largest depth \[mm\].
    pub depth_max_mm: f64,
    /// Width \[mm\].
    pub width_mm: f64,
    /// Least squeeze at nominal size, part of the section.
    pub squeeze_min: f64,
    /// Greatest squeeze at nominal size, part of the section.
    pub squeeze_max: f64,
    /// Part of the groove that the ring fills, at nominal size.
    pub fill: f64,
    /// Largest radius at the bottom corners of the groove \[mm\] (codes P3 and W16 of `data/sources.csv`).
    pub corner_radius_max_mm: f64,
}

impl Gland {
    /// Middle of the depths \[mm\].
    pub fn depth_mm(&self) -> f64 {
        (self.depth_min_mm + self.depth_max_mm) / 2.0
    }

    /// Least and greatest squeeze of a ring, part of its section, over the tolerances of ring and depth.
    pub fn squeeze_of(&self, ring: &ORing) -> [f64; 2] {
        let at = |section: f64, depth: f64| 1.0 - depth / section;
        let play = ring.tolerance_mm[1];
        [at(ring.section_mm - play, self.depth_max_mm), at(ring.section_mm + play, self.depth_min_mm)]
    }
}

/// Sections that have grooves here \[mm\]; 1.78 and 2.62 are of ISO 3601-1, the others trade sections.
pub const SECTIONS_MM: [f64; 6] = [1.5, 1.78, 2.0, 2.5, 2.62, 3.0];

/// Rubbers of O-rings and the highest temperature each bears for long \[°C\]. From memory.
pub const RUBBERS: [(&str, f64); 5] =
    [("NBR", 100.0), ("EPDM", 130.0), ("FKM", 200.0), ("VMQ", 200.0), ("FFKM", 300.0)];

/// Inside diameters that most dealers keep in the trade sections \[mm\]. From memory: ask the dealer.
const STOCK_15: &[f64] = &[3., 4., 5., 6., 7., 8., 9., 10., 12., 14., 15., 16., 18., 20., 22., 25., 28., 30.];
const STOCK_20: &[f64] = &[
    4., 5., 6., 8., 10., 12., 14., 15., 16., 18., 20., 22., 24., 25., 28., 30., 32., 35., 38., 40., 45., 50.,
    55., 60., 65., 70.,
];
const STOCK_25: &[f64] = &[
    6., 8., 10., 12., 14., 15., 16., 18., 20., 22., 25., 28., 30., 32., 35., 38., 40., 42., 45., 48., 50.,
    55., 60., 65., 70., 75., 80., 90., 100.,
];
const STOCK_30: &[f64] = &[
    10., 12., 14., 15., 16., 18., 20., 22., 25., 28., 30., 32., 35., 38., 40., 42., 45., 48., 50., 52., 55.,
    58., 60., 65., 70., 75., 80., 85., 90., 95., 100.,
];

/// The groove for a section \[mm\] and an application.
///
/// # Errors
/// When the table holds no such groove; names the nearest section.
pub fn gland(section_mm: f64, application: Application) -> Result<Gland, UnknownEntry> {
    let fitting: Vec<Gland> = gland_rows()
        .iter()
        .filter(|row| row.application == application.row_name())
        .map(GlandRow::gland)
        .collect();
    find_size("O-ring section", section_mm, &fitting, |gland| gland.section_mm).cloned()
}

/// All rings of a section \[mm\], small to large; empty when the section is unknown.
pub fn rings(section_mm: f64) -> Vec<&'static ORing> {
    all_rings().iter().filter(|ring| (ring.section_mm - section_mm).abs() < 0.01).collect()
}

/// All grooves with what they are for and where they stand.
pub fn all_glands() -> Vec<(&'static str, Gland, Listed)> {
    let from = |row: &GlandRow| Listed::table("gland tables", &row.status, &row.src);
    gland_rows().iter().map(|row| (row.application.as_str(), row.gland(), from(row))).collect()
}

/// All rings, small to large in each section.
pub fn all_rings() -> &'static [ORing] {
    static RINGS: OnceLock<Vec<ORing>> = OnceLock::new();
    RINGS.get_or_init(|| {
        let dash = rows::<RingRow>(include_str!("data/orings.csv")).into_iter().map(RingRow::ring);
        let trade = [(1.5, STOCK_15), (2.0, STOCK_20), (2.5, STOCK_25), (3.0, STOCK_30)];
        dash.chain(trade.into_iter().flat_map(|(section, inner)| stock(section, inner))).collect()
    })
}

fn stock(section_mm: f64, inner: &'static [f64]) -> impl Iterator<Item = ORing> {
    inner.iter().map(move |&inner_mm| ORing {
        designation: format!("{inner_mm}x{section_mm}"),
        inner_mm,
        section_mm,
        tolerance_mm: [(0.01 * inner_mm).max(0.13), if section_mm < 2.7 { 0.08 } else { 0.09 }],
        from: Listed::table("trade section", "MEMORY", ""),
    })
}

#[derive(Deserialize)]
struct RingRow {
    dash: String,
    id_mm: f64,
    section_mm: f64,
    id_tol_mm: f64,
    section_tol_mm: f64,
    status: String,
    src: String,
}

impl RingRow {
    fn ring(self) -> ORing {
        ORing {
            from: Listed::table("AS568, ISO 3601-1", &self.status, &self.src),
            tolerance_mm: [self.id_tol_mm, self.section_tol_mm],
            designation: format!("AS568-{}", self.dash),
            inner_mm: self.id_mm,
            section_mm: self.section_mm,
        }
    }
}

#[derive(Deserialize)]
struct GlandRow {
    section_mm: f64,
    application: String,
    depth_min_mm: f64,
    depth_max_mm: f64,
    width_mm: f64,
    squeeze_min_pct_nominal: f64,
    squeeze_max_pct_nominal: f64,
    gland_fill_pct: f64,
    status: String,
    src: String,
}

impl GlandRow {
    fn gland(&self) -> Gland {
        Gland {
            section_mm: self.section_mm,
            depth_min_mm: self.depth_min_mm,
            depth_max_mm: self.depth_max_mm,
            width_mm: self.width_mm,
            squeeze_min: self.squeeze_min_pct_nominal / 100.0,
            squeeze_max: self.squeeze_max_pct_nominal / 100.0,
            fill: self.gland_fill_pct / 100.0,
            corner_radius_max_mm: corner_radius_max_mm(self.section_mm),
        }
    }
}

fn corner_radius_max_mm(section_mm: f64) -> f64 {
    match section_mm {
        1.78 => 0.38,
        2.62 => 0.51,
        s if s < 3.0 => 0.3,
        _ => 0.6,
    }
}

fn gland_rows() -> &'static [GlandRow] {
    static ROWS: OnceLock<Vec<GlandRow>> = OnceLock::new();
    ROWS.get_or_init(|| rows(include_str!("data/glands.csv")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn squeeze_and_fill_of_every_row_follow_from_its_sizes() {
        for row in gland_rows() {
            let gland = row.gland();
            let squeeze = |depth: f64| (gland.section_mm - depth) / gland.section_mm;
            assert!((squeeze(gland.depth_max_mm) - gland.squeeze_min).abs() < 0.001, "{}", row.application);
            assert!((squeeze(gland.depth_min_mm) - gland.squeeze_max).abs() < 0.001, "{}", row.application);
            let area = std::f64::consts::FRAC_PI_4 * gland.section_mm.powi(2);
            let fill = area / (gland.depth_mm() * gland.width_mm);
            assert!((fill - gland.fill).abs() < 0.04, "{} {}: {fill}", row.application, gland.section_mm);
        }
    }

    #[test]
    fn every_section_has_a_groove_for_sliding_and_for_standing_still() {
        use Application::*;
        for section in SECTIONS_MM {
            for application in [ReciprocatingPneumatic, ReciprocatingGeneral, StaticRadial, StaticFace] {
                assert!(gland(section, application).is_ok(), "{section} {application:?}");
            }
        }
        assert_eq!(gland(1.78, ReciprocatingPneumatic).unwrap().depth_max_mm, 1.55);
        assert_eq!(gland(1.8, StaticRadial).unwrap_err().nearest.as_deref(), Some("1.78 mm"));
    }

    #[test]
    fn every_ring_of_a_run_is_there() {
        // AS568: 005..045 in 1.78 mm, 104..155 in 2.62 mm.
        assert_eq!(rings(1.78).len(), 41);
        assert_eq!(rings(2.62).len(), 52);
    }
}
