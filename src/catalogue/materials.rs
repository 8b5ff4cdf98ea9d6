//! Materials of the parts: density, heat, expansion, allowable stress and temperature, colour in the solid file.

use serde::Deserialize;
use std::sync::OnceLock;

/// A material. Values are typical ones for screening; a pressure part needs the code or the mill certificate.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Material {
    /// Name in design files, for example `aluminium-6082`.
    pub name: String,
    /// Name on drawings, for example `Aluminium EN AW-6082 T6`.
    pub title: String,
    /// Density \[kg/m³\].
    pub density_kg_m3: f64,
    /// Conductivity \[W/(m K)\] over temperature \[°C\], rising in temperature.
    pub conductivity: Vec<[f64; 2]>,
    /// Mean linear expansion from 20 °C \[1/K\], a round value for the range in which it is used.
    pub expansion_per_k: f64,
    /// The same up to a temperature \[°C\], where it is known, rising in temperature.
    #[serde(default)]
    pub expansion: Vec<[f64; 2]>,
    /// Specific heat \[J/(kg K)\] near 20 °C.
    pub heat_capacity_j_kg_k: f64,
    /// Young's modulus at 20 °C \[GPa\].
    pub youngs_modulus_gpa: f64,
    /// Young's modulus \[GPa\] over temperature \[°C\], where it is known.
    #[serde(default)]
    pub modulus: Vec<[f64; 2]>,
    /// Allowable stress for lasting load \[MPa\] over temperature \[°C\], rising in temperature.
    pub allowable: Vec<[f64; 2]>,
    /// Yield or proof strength in a short test \[MPa\] over temperature \[°C\]; empty where it is not known or brittle.
    #[serde(default)]
    pub yield_strength: Vec<[f64; 2]>,
    /// Stress that ruins it within [`Material::creep_hours`] \[MPa\] over temperature \[°C\]; `status` says in what way.
    #[serde(default)]
    pub creep: Vec<[f64; 2]>,
    /// Time to which `creep` belongs \[h\].
    pub creep_hours: Option<f64>,
    /// Family of bars and tubes of which dealers keep sizes ([`super::stock`]).
    pub stock: Option<String>,
    /// Highest temperature in service under load, in air \[°C\].
    pub service_limit_c: f64,
    /// Colour in the solid file: red, green, blue, 0..1 (our own choice).
    pub colour: [f64; 3],
    /// Which values were seen, which are from memory, and where.
    pub status: String,
    /// Place in the user's own file, for example `shelf.toml:12`; `None` for an entry of the program.
    #[serde(skip)]
    pub own: Option<String>,
}

impl Material {
    /// Conductivity \[W/(m K)\] at a temperature \[°C\]: straight lines between the tabled points, held at the ends.
    pub fn conductivity_w_m_k(&self, temperature_c: f64) -> f64 {
        between(&self.conductivity, temperature_c)
    }

    /// Mean linear expansion from 20 °C to a temperature \[°C\], in 1/K.
    pub fn expansion_to(&self, temperature_c: f64) -> f64 {
        if self.expansion.is_empty() { self.expansion_per_k } else { between(&self.expansion, temperature_c) }
    }

    /// What a length of 1 grows by between 20 °C and a temperature \[°C\].
    pub fn growth(&self, temperature_c: f64) -> f64 {
        self.expansion_to(temperature_c) * (temperature_c - 20.0)
    }

    /// Young's modulus \[GPa\] at a temperature \[°C\].
    pub fn modulus_gpa(&self, temperature_c: f64) -> f64 {
        if self.modulus.is_empty() { self.youngs_modulus_gpa } else { between(&self.modulus, temperature_c) }
    }

    /// Yield or proof strength in a short test \[MPa\] at a temperature \[°C\]; `None` where it is not known.
    pub fn yield_mpa(&self, temperature_c: f64) -> Option<f64> {
        within(&self.yield_strength, temperature_c)
    }

    /// Stress that ruins it in a long time \[MPa\] at a temperature \[°C\]; `None` where it is not known, and below the
    /// temperature at which this begins to matter.
    pub fn creep_mpa(&self, temperature_c: f64) -> Option<f64> {
        let first = self.creep.first()?[0];
        if temperature_c < first { None } else { within(&self.creep, temperature_c) }
    }

    /// Allowable stress for lasting load \[MPa\] at a temperature \[°C\]; `None` above the last tabled temperature,
    /// where the material must not carry a load.
    pub fn allowable_mpa(&self, temperature_c: f64) -> Option<f64> {
        within(&self.allowable, temperature_c)
    }
}

/// As [`between`], but nothing above the last point.
fn within(points: &[[f64; 2]], x: f64) -> Option<f64> {
    let last = points.last()?[0];
    (x <= last).then(|| between(points, x))
}

/// Value of a table of points at `x`: straight lines between the points, held beyond the ends.
fn between(points: &[[f64; 2]], x: f64) -> f64 {
    let after = points.iter().position(|point| point[0] >= x);
    match (after, points) {
        (_, []) => f64::NAN,
        (Some(0), [first, ..]) => first[1],
        (Some(i), _) => {
            let ([x0, y0], [x1, y1]) = (points[i - 1], points[i]);
            y0 + (y1 - y0) * (x - x0) / (x1 - x0)
        }
        (None, [.., last]) => last[1],
    }
}

/// All materials of the table.
pub fn materials() -> &'static [Material] {
    #[derive(Deserialize)]
    struct File {
        material: Vec<Material>,
    }
    static MATERIALS: OnceLock<Vec<Material>> = OnceLock::new();
    MATERIALS.get_or_init(|| {
        let file: File =
            toml::from_str(include_str!("data/materials.toml")).expect("an embedded table is well formed");
        file.material
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Catalogue, UnknownEntry};

    fn material(name: &str) -> Result<&'static Material, UnknownEntry> {
        Catalogue::standard().material(name)
    }

    #[test]
    fn tables_rise_in_temperature_and_loads_fall() {
        for material in materials() {
            let m = material;
            for points in
                [&m.conductivity, &m.allowable, &m.expansion, &m.modulus, &m.yield_strength, &m.creep]
            {
                assert!(points.is_sorted_by(|a, b| a[0] < b[0]), "{}", m.name);
            }
            for points in [&m.allowable, &m.modulus, &m.yield_strength, &m.creep] {
                assert!(points.is_sorted_by(|a, b| a[1] >= b[1]), "{}", m.name);
            }
            assert_eq!(m.creep.is_empty(), m.creep_hours.is_none(), "{}", m.name);
            assert!(material.colour.iter().all(|part| (0.0..=1.0).contains(part)));
            assert!(material.allowable.last().is_some_and(|last| last[0] >= material.service_limit_c));
        }
    }

    #[test]
    fn values_lie_on_the_lines_between_the_points() {
        let steel = material("mild-steel").unwrap();
        // EN 1993-1-2:2005, 3.4.1.3: k = 54 - 0.0333 T.
        for temperature in [20.0, 150.0, 333.0, 600.0] {
            assert!((steel.conductivity_w_m_k(temperature) - (54.0 - 0.0333 * temperature)).abs() < 0.06);
        }
        let stainless = material("stainless-304").unwrap();
        assert_eq!(stainless.allowable_mpa(649.0), Some(42.0));
        assert!(stainless.allowable_mpa(620.0).unwrap() > 42.0);
        assert_eq!(stainless.allowable_mpa(900.0), None);
    }

    #[test]
    fn a_misspelt_material_names_the_nearest() {
        assert_eq!(material("stainles-316").unwrap_err().nearest.as_deref(), Some("stainless-316"));
    }
}
