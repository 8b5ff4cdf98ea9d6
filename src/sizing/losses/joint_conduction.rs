//! Conduction through the insulating joint between hot and cold flange: gasket and screws side by side.
//!
//! G = k_g A_g / t + n k_s A_s / l (Fourier's law; contact resistance left out, so the loss is an upper bound).
//! In a row with the wall that leads to the joint: 1/G = 1/G_wall + 1/G_joint.

use std::f64::consts::PI;

/// A flange joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Joint {
    /// Conductivity of the gasket \[W/(m K)\].
    pub gasket_w_m_k: f64,
    /// Inside and outside diameter of the gasket \[mm\].
    pub diameters_mm: [f64; 2],
    /// Thickness of the gasket \[mm\].
    pub thickness_mm: f64,
    /// Number of screws.
    pub screws: usize,
    /// Conductivity of the screws \[W/(m K)\].
    pub screw_w_m_k: f64,
    /// Diameter of a screw \[mm\].
    pub screw_mm: f64,
    /// Free length of a screw between the flanges \[mm\].
    pub screw_length_mm: f64,
}

impl Joint {
    /// Heat for each kelvin across the joint \[W/K\].
    pub fn conductance_w_k(&self) -> f64 {
        self.ways_w_k().iter().sum()
    }

    /// The same through the gasket, and through the screws \[W/K\].
    pub fn ways_w_k(&self) -> [f64; 2] {
        let [inner, outer] = self.diameters_mm;
        let holes = self.screws as f64 * self.screw_mm.powi(2);
        let gasket_mm2 = PI / 4.0 * (outer * outer - inner * inner - holes);
        let screws_mm2 = PI / 4.0 * holes;
        [
            1e-3 * self.gasket_w_m_k * gasket_mm2 / self.thickness_mm,
            1e-3 * self.screw_w_m_k * screws_mm2 / self.screw_length_mm,
        ]
    }
}

/// Two conductances one behind the other \[W/K\].
pub fn in_a_row_w_k(first: f64, second: f64) -> f64 {
    first * second / (first + second)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand: ring π/4 (80² − 60²) = 2199.1 mm² less 4 screws of 12.566 mm², 2148.8 mm²;
    /// 0.25 × 2148.8 / 1 = 537.2; screws 16 × 50.265 / 20 = 40.2; together 0.5774 W/K.
    #[test]
    fn worked_value() {
        let j = Joint {
            gasket_w_m_k: 0.25,
            diameters_mm: [60.0, 80.0],
            thickness_mm: 1.0,
            screws: 4,
            screw_w_m_k: 16.0,
            screw_mm: 4.0,
            screw_length_mm: 20.0,
        };
        close(j.conductance_w_k(), 0.57742, 1e-4);
        close(j.ways_w_k()[0], 0.5372, 1e-4);
        // three times the gasket, and screws longer by as much
        let thick = Joint { thickness_mm: 3.0, screw_length_mm: 22.0, ..j };
        close(thick.conductance_w_k(), 0.17907 + 0.03656, 1e-3);
        close(in_a_row_w_k(2.0, 2.0), 1.0, 1e-15);
    }
}
