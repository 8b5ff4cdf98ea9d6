//! Working gases: ideal gas with heat capacity and transport properties that change with temperature.
//!
//! Fits over 250 to 1100 K at 1 bar to the reference equations of the open CoolProp library 8.0.0; the pressure effect
//! to 10 bar is at most 1.0 % (viscosity), 1.8 % (conductivity) and 2.3 % (heat capacity, at 250 K only).

use super::table::{UnknownEntry, find, rows};
use serde::Deserialize;
use std::sync::OnceLock;

/// A working gas.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Gas {
    /// Name, for example `air`.
    pub name: String,
    /// Molar mass \[g/mol\].
    pub molar_mass_g_mol: f64,
    /// Gas constant R \[J/(kg K)\].
    pub r_j_kg_k: f64,
    /// Heat capacity cp = a0 + a1 t + a2 t² + a3 t³ with t = T / 1000 K \[J/(kg K)\]: a0.
    pub cp_a0: f64,
    /// a1 of the heat capacity.
    pub cp_a1: f64,
    /// a2 of the heat capacity.
    pub cp_a2: f64,
    /// a3 of the heat capacity.
    pub cp_a3: f64,
    /// Viscosity at 300 K in the power law \[Pa s\].
    pub viscosity_300_pa_s: f64,
    /// Exponent of the viscosity.
    pub viscosity_exponent: f64,
    /// Conductivity at 300 K in the power law \[W/(m K)\].
    pub conductivity_300_w_m_k: f64,
    /// Exponent of the conductivity.
    pub conductivity_exponent: f64,
}

impl Gas {
    /// Heat capacity at constant pressure \[J/(kg K)\] at a temperature \[K\]; error at most 0.45 %.
    pub fn cp_j_kg_k(&self, temperature_k: f64) -> f64 {
        let t = temperature_k / 1000.0;
        self.cp_a0 + t * (self.cp_a1 + t * (self.cp_a2 + t * self.cp_a3))
    }

    /// Heat capacity at constant volume \[J/(kg K)\] at a temperature \[K\].
    pub fn cv_j_kg_k(&self, temperature_k: f64) -> f64 {
        self.cp_j_kg_k(temperature_k) - self.r_j_kg_k
    }

    /// Ratio of the heat capacities at a temperature \[K\].
    pub fn gamma(&self, temperature_k: f64) -> f64 {
        self.cp_j_kg_k(temperature_k) / self.cv_j_kg_k(temperature_k)
    }

    /// Viscosity \[Pa s\] at a temperature \[K\]; error at most 1.6 %.
    pub fn viscosity_pa_s(&self, temperature_k: f64) -> f64 {
        self.viscosity_300_pa_s * (temperature_k / 300.0).powf(self.viscosity_exponent)
    }

    /// Thermal conductivity \[W/(m K)\] at a temperature \[K\]; error at most 1.4 %.
    pub fn conductivity_w_m_k(&self, temperature_k: f64) -> f64 {
        self.conductivity_300_w_m_k * (temperature_k / 300.0).powf(self.conductivity_exponent)
    }

    /// Prandtl number at a temperature \[K\].
    pub fn prandtl(&self, temperature_k: f64) -> f64 {
        self.cp_j_kg_k(temperature_k) * self.viscosity_pa_s(temperature_k)
            / self.conductivity_w_m_k(temperature_k)
    }

    /// Density \[kg/m³\] as an ideal gas at a pressure \[Pa\] and a temperature \[K\].
    pub fn density_kg_m3(&self, pressure_pa: f64, temperature_k: f64) -> f64 {
        pressure_pa / (self.r_j_kg_k * temperature_k)
    }
}

/// A gas by its name: `air`, `nitrogen`, `helium`, `hydrogen`.
///
/// # Errors
/// When there is no such gas; names the nearest one.
pub fn gas(name: &str) -> Result<&'static Gas, UnknownEntry> {
    find("gas", name, gases(), |gas| &gas.name)
}

/// All gases of the table.
pub fn gases() -> &'static [Gas] {
    static GASES: OnceLock<Vec<Gas>> = OnceLock::new();
    GASES.get_or_init(|| rows(include_str!("data/gases.csv")))
}
