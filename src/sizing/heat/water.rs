//! Water at the pressure of the room, between ice and steam.

/// Standard gravity \[m/s²\].
const GRAVITY: f64 = 9.806_65;

/// Temperature \[°C\], density \[kg/m³\], heat capacity \[J/(kg K)\], viscosity \[µPa s\], conductivity \[W/(m K)\],
/// expansion \[1/K\] (below 4 °C it shrinks, taken as none): IAPWS-97 with the transport equations of 2008 and 2011, computed with the open `iapws` library 1.5.5.
const TABLE: [[f64; 6]; 11] = [
    [0.01, 999.84, 4219.4, 1791.1, 0.5557, 0.0],
    [10.0, 999.70, 4195.4, 1305.9, 0.5788, 8.80e-05],
    [20.0, 998.21, 4184.8, 1001.6, 0.5980, 2.07e-04],
    [30.0, 995.65, 4180.0, 797.2, 0.6144, 3.03e-04],
    [40.0, 992.22, 4178.6, 652.7, 0.6285, 3.85e-04],
    [50.0, 988.05, 4179.6, 546.5, 0.6406, 4.57e-04],
    [60.0, 983.21, 4182.8, 466.0, 0.6510, 5.23e-04],
    [70.0, 977.78, 4188.1, 403.6, 0.6598, 5.84e-04],
    [80.0, 971.80, 4195.5, 354.1, 0.6670, 6.42e-04],
    [90.0, 965.32, 4205.0, 314.2, 0.6728, 6.97e-04],
    [99.0, 959.07, 4215.4, 284.6, 0.6768, 7.46e-04],
];

/// Water at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Water {
    /// Density \[kg/m³\].
    pub density_kg_m3: f64,
    /// Heat capacity \[J/(kg K)\].
    pub cp_j_kg_k: f64,
    /// Viscosity \[Pa s\].
    pub viscosity_pa_s: f64,
    /// Conductivity \[W/(m K)\].
    pub conductivity_w_m_k: f64,
    /// Expansion \[1/K\].
    pub expansion_per_k: f64,
}

impl Water {
    /// Water at a temperature \[K\]: straight lines between the rows, held at 0 and 99 °C.
    pub fn at(temperature_k: f64) -> Self {
        let t = (temperature_k - 273.15).clamp(TABLE[0][0], TABLE[10][0]);
        let i = TABLE.iter().rposition(|row| row[0] <= t).unwrap_or(0).min(TABLE.len() - 2);
        let (low, high) = (&TABLE[i], &TABLE[i + 1]);
        let share = (t - low[0]) / (high[0] - low[0]);
        let value = |column: usize| low[column] + share * (high[column] - low[column]);
        Self {
            density_kg_m3: value(1),
            cp_j_kg_k: value(2),
            viscosity_pa_s: 1e-6 * value(3),
            conductivity_w_m_k: value(4),
            expansion_per_k: value(5),
        }
    }

    /// Rayleigh number g β ΔT L³/(ν a) of a wall that is warmer or cooler by `rise_k` \[K\], on a height \[m\].
    pub fn rayleigh(&self, rise_k: f64, height_m: f64) -> f64 {
        let kinematic = self.viscosity_pa_s / self.density_kg_m3;
        let diffusivity = self.conductivity_w_m_k / (self.density_kg_m3 * self.cp_j_kg_k);
        GRAVITY * self.expansion_per_k * rise_k.abs() * height_m.powi(3) / (kinematic * diffusivity)
    }

    /// Prandtl number.
    pub fn prandtl(&self) -> f64 {
        self.cp_j_kg_k * self.viscosity_pa_s / self.conductivity_w_m_k
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// Computed with the `iapws` library between the rows: 25 °C 890.0 µPa s, 0.6065 W/(m K), 997.05 kg/m³.
    #[test]
    fn between_the_rows() {
        let w = Water::at(298.15);
        close(w.viscosity_pa_s, 890.0e-6, 0.012);
        close(w.conductivity_w_m_k, 0.6065, 1e-3);
        close(w.density_kg_m3, 997.05, 2e-4);
        close(w.prandtl(), 6.13, 0.015);
        close(w.expansion_per_k, 2.569e-4, 0.01);
        // by hand: 9.80665 × 2.569e-4 × 20 × 1.25e-4/(8.927e-7 × 1.4555e-7)
        close(w.rayleigh(20.0, 0.05), 4.847e7, 0.03);
        assert_eq!(Water::at(500.0), Water::at(372.15), "steam is not water");
    }
}
