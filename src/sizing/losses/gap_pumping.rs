//! Enthalpy pumping in a closed gap (appendix gap) beside displacer or hot piston.
//!
//! Only where the gap is a dead end: in engines whose gas goes through the gap it is the gas path, and the model
//! of the cycle counts it.
//!
//! DERIVED. The pressure swing p₁ pushes gas along the gap with u(x) = ω (p₁/p₀)(L − x) from the open end x = 0.
//! Between two walls whose temperature falls by ΔT/L the gas lags behind the wall by ρ c_p u h² (ΔT/L)/(Nu k),
//! with Nu = 8.235 on twice the gap (laminar, walls of even flux: Shah and London 1978, from memory). The
//! enthalpy carried, averaged over turn and length, is
//!   Q = π D h (ρ c_p)² h² ω² (p₁/p₀)² L² /6 · (ΔT/L) / (Nu k).
//! It grows as h³ p₁² f²; the expression of Leo and Rios quoted by Martini (NASA CR-168088) grows about as
//! h^2.6 p₁^1.6 f^1.6 (from memory, coefficients not known). Valid for ω h²/a up to about 10, beyond which the
//! gas no longer follows the wall and the loss is overstated.

use std::f64::consts::{PI, TAU};

/// Nusselt number on twice the gap: laminar, even flux on both walls (Shah and London 1978, from memory).
const NUSSELT: f64 = 8.235;

/// A gap that is closed at one end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClosedGap {
    /// Mean diameter \[mm\].
    pub diameter_mm: f64,
    /// Radial gap \[mm\].
    pub gap_mm: f64,
    /// Length \[mm\].
    pub length_mm: f64,
    /// Conductivity of the gas \[W/(m K)\].
    pub gas_w_m_k: f64,
    /// Heat capacity of the gas for each volume, ρ c_p \[J/(m³ K)\].
    pub gas_j_m3_k: f64,
}

impl ClosedGap {
    /// Heat for each kelvin between hot and cold end \[W/K\]; `swing` is the pressure amplitude over the mean.
    pub fn conductance_w_k(&self, speed_rpm: f64, swing: f64) -> f64 {
        let (d, h, l) = (self.diameter_mm * 1e-3, self.gap_mm * 1e-3, self.length_mm * 1e-3);
        let rate = TAU * speed_rpm / 60.0 * swing;
        PI * d * h * (self.gas_j_m3_k * h * rate * l).powi(2) / (6.0 * NUSSELT * self.gas_w_m_k * l)
    }

    /// ω h²/a, to be below about 10.
    pub fn range_number(&self, speed_rpm: f64) -> f64 {
        TAU * speed_rpm / 60.0 * (self.gap_mm * 1e-3).powi(2) * self.gas_j_m3_k / self.gas_w_m_k
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    fn gap(gap_mm: f64) -> ClosedGap {
        ClosedGap { diameter_mm: 70.0, gap_mm, length_mm: 44.0, gas_w_m_k: 0.25, gas_j_m3_k: 18_000.0 }
    }

    /// Average over turn and length by brute force instead of the closed form.
    #[test]
    fn closed_form_is_the_average_of_the_local_flow() {
        let (g, rpm, swing) = (gap(0.3), 1500.0, 0.4);
        let (h, l, omega) = (0.3e-3, 44e-3, TAU * 25.0);
        let n = 400;
        let mut sum = 0.0;
        for i in 0..n {
            for j in 0..n {
                let x = (f64::from(i) + 0.5) / f64::from(n) * l;
                let u = omega * swing * (l - x) * (TAU * f64::from(j) / f64::from(n)).sin();
                let lag = g.gas_j_m3_k * u * h * h / l / (NUSSELT * g.gas_w_m_k);
                sum += g.gas_j_m3_k * u * lag * PI * 0.070 * h / f64::from(n * n);
            }
        }
        close(g.conductance_w_k(rpm, swing), sum, 1e-5);
        assert!(g.range_number(rpm) < 10.0);
    }

    #[test]
    fn it_grows_with_the_third_power_of_the_gap() {
        close(gap(0.4).conductance_w_k(600.0, 0.1) / gap(0.2).conductance_w_k(600.0, 0.1), 8.0, 1e-12);
    }
}
