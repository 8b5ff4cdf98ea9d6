//! Working gases: ideal gas with heat capacity and transport properties that change with temperature.
//!
//! Fits over 250 to 1100 K at 1 bar to the reference equations of the open CoolProp library 8.0.0; the pressure effect
//! to 10 bar is at most 1.0 % (viscosity), 1.8 % (conductivity) and 2.3 % (heat capacity, at 250 K only).

use super::table::{Listed, UnknownEntry, find, rows};
use serde::Deserialize;
use std::sync::OnceLock;

/// A working gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gas {
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

/// A gas with its name.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedGas {
    /// Name in design files, for example `air`.
    pub name: String,
    /// The gas.
    pub gas: Gas,
    /// Where it stands.
    pub from: Listed,
}

/// A gas of the table by its name: `air`, `nitrogen`, `helium`, `hydrogen`. A design may know more: its
/// [`Catalogue`](super::Catalogue) finds those too.
///
/// # Errors
/// When there is no such gas; names the nearest one.
pub fn gas(name: &str) -> Result<Gas, UnknownEntry> {
    find("gas", name, gases(), |gas| &gas.name).map(|named| named.gas)
}

/// All gases of the table.
pub fn gases() -> &'static [NamedGas] {
    static GASES: OnceLock<Vec<NamedGas>> = OnceLock::new();
    GASES.get_or_init(|| rows::<GasRow>(include_str!("data/gases.csv")).into_iter().map(Into::into).collect())
}

#[derive(Deserialize)]
struct GasRow {
    name: String,
    molar_mass_g_mol: f64,
    r_j_kg_k: f64,
    cp_a0: f64,
    cp_a1: f64,
    cp_a2: f64,
    cp_a3: f64,
    viscosity_300_pa_s: f64,
    viscosity_exponent: f64,
    conductivity_300_w_m_k: f64,
    conductivity_exponent: f64,
    status: String,
}

impl From<GasRow> for NamedGas {
    fn from(row: GasRow) -> Self {
        let gas = Gas {
            molar_mass_g_mol: row.molar_mass_g_mol,
            r_j_kg_k: row.r_j_kg_k,
            cp_a0: row.cp_a0,
            cp_a1: row.cp_a1,
            cp_a2: row.cp_a2,
            cp_a3: row.cp_a3,
            viscosity_300_pa_s: row.viscosity_300_pa_s,
            viscosity_exponent: row.viscosity_exponent,
            conductivity_300_w_m_k: row.conductivity_300_w_m_k,
            conductivity_exponent: row.conductivity_exponent,
        };
        Self { name: row.name, gas, from: Listed::table("fit to CoolProp 8.0.0", &row.status, "") }
    }
}
