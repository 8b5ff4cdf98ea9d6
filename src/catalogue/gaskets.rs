//! Sheets for flat gaskets.

use serde::Deserialize;
use std::sync::OnceLock;

/// A gasket sheet.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct GasketSheet {
    /// Name in design files, for example `graphite`.
    pub name: String,
    /// Name of the entry in the materials that it is made of.
    pub material: String,
    /// Highest temperature in service, in air, lasting \[°C\].
    pub service_limit_c: f64,
    /// Thicknesses on the market \[mm\].
    pub thicknesses_mm: Vec<f64>,
    /// By how much of its thickness it is compressed in a tightened joint, least and most.
    pub compression: [f64; 2],
    /// Gasket factor m (ASME VIII-1 Appendix 2, table 2-5.1, or a maker's).
    pub factor_m: f64,
    /// Seating stress y \[MPa\] (same source).
    pub seating_mpa: f64,
    /// Stress to tighten to, least \[MPa\]: a better guide than y.
    pub assembly_min_mpa: f64,
    /// Stress to tighten to, most \[MPa\].
    pub assembly_max_mpa: f64,
    /// What to know about it.
    pub note: String,
    /// Which values were seen and which are from memory.
    pub status: String,
    /// Place in the user's own file, for example `shelf.toml:12`; `None` for an entry of the program.
    #[serde(skip)]
    pub own: Option<String>,
}

impl GasketSheet {
    /// Sheet thickness to buy \[mm\] so that the joint is about `compressed_mm` thick when tightened: the one whose
    /// thickness at mean compression comes nearest.
    pub fn sheet_for_mm(&self, compressed_mm: f64) -> f64 {
        let away = |sheet: &f64| (self.compressed_mm(*sheet) - compressed_mm).abs();
        self.thicknesses_mm
            .iter()
            .copied()
            .min_by(|a, b| away(a).total_cmp(&away(b)))
            .unwrap_or(compressed_mm)
    }

    /// Rise of pressing for a whole thickness of compression, between the least and the most that it is tightened to \[MPa\].
    pub fn spring_mpa(&self) -> f64 {
        let [least, most] = self.compression;
        (self.assembly_max_mpa - self.assembly_min_mpa) / (most - least).max(0.01)
    }

    /// Thickness of a sheet in the tightened joint, at mean compression \[mm\].
    pub fn compressed_mm(&self, sheet_mm: f64) -> f64 {
        sheet_mm * (1.0 - (self.compression[0] + self.compression[1]) / 2.0)
    }
}

/// All gasket sheets.
pub fn gasket_sheets() -> &'static [GasketSheet] {
    #[derive(Deserialize)]
    struct File {
        sheet: Vec<GasketSheet>,
    }
    static SHEETS: OnceLock<Vec<GasketSheet>> = OnceLock::new();
    SHEETS.get_or_init(|| {
        let file: File =
            toml::from_str(include_str!("data/gaskets.toml")).expect("an embedded table is well formed");
        file.sheet
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Catalogue, UnknownEntry};

    fn gasket_sheet(name: &str) -> Result<&'static GasketSheet, UnknownEntry> {
        Catalogue::standard().gasket_sheet(name)
    }

    #[test]
    fn every_sheet_has_its_material_and_is_not_asked_beyond_it() {
        for sheet in gasket_sheets() {
            let material = Catalogue::standard().material(&sheet.material).unwrap();
            assert!(sheet.service_limit_c <= material.service_limit_c, "{}", sheet.name);
            assert!(sheet.thicknesses_mm.is_sorted() && !sheet.thicknesses_mm.is_empty());
            assert!(sheet.compression[0] <= sheet.compression[1] && sheet.compression[1] < 1.0);
            assert!(sheet.assembly_min_mpa <= sheet.assembly_max_mpa);
        }
    }

    #[test]
    fn the_sheet_to_buy_is_thicker_than_the_tightened_joint() {
        let graphite = gasket_sheet("graphite").unwrap();
        assert_eq!(graphite.sheet_for_mm(1.0), 1.5);
        assert!((graphite.compressed_mm(1.5) - 0.9375).abs() < 1e-12);
    }

    #[test]
    fn seating_stress_is_the_asme_one() {
        // ASME VIII-1 Appendix 2: elastomer below 75A m 0.5, y 0; vegetable fibre m 1.75, y 1100 psi.
        assert_eq!(gasket_sheet("silicone").unwrap().factor_m, 0.5);
        let paper = gasket_sheet("paper-oiled").unwrap();
        assert!((paper.seating_mpa - 1100.0 * 0.006_894_8).abs() < 0.05 && paper.factor_m == 1.75);
    }
}
