//! Hysteresis of a gas spring: gas that is squeezed in a space gives off heat to the walls out of step, which
//! costs work.
//!
//! Each turn W = L p₀ V₀ (p₁/p₀)², with
//!   L = (π/2) ((γ−1)/γ) (1/y) (sinh y cosh y − sin y cos y) / (cosh² y − sin² y),
//! y = √(Pe/8), Pe = ω d_h²/(4 a), d_h = 4 V/A and a the thermal diffusivity (K. P. Lee 1983; A. A. Kornhauser
//! and J. L. Smith 1993; both from memory). For large y it is the loss of the acoustic boundary layer,
//! ¼ ((γ−1)/γ) ω δ A p₁²/p₀ with δ = √(2a/ω) (DERIVED check).
//!
//! Valid for small swings (p₁/p₀ up to some 0.3) and gas without strong inflow.

use std::f64::consts::{FRAC_PI_2, TAU};

/// A space in which gas is squeezed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GasSpring {
    /// Mean volume, V₀ \[cm³\].
    pub volume_cm3: f64,
    /// Wetted area, A \[cm²\].
    pub area_cm2: f64,
    /// Ratio of the heat capacities, γ.
    pub gamma: f64,
    /// Thermal conductivity of the gas \[W/(m K)\].
    pub gas_w_m_k: f64,
    /// Gas temperature \[K\].
    pub temperature_k: f64,
}

impl GasSpring {
    /// Péclet number of the squeeze at a mean pressure.
    pub fn peclet(&self, speed_rpm: f64, mean_pa: f64) -> f64 {
        let (v, a) = (self.volume_cm3 * 1e-6, self.area_cm2 * 1e-4);
        let hydraulic_m = 4.0 * v / a;
        TAU * speed_rpm / 60.0 * hydraulic_m.powi(2) / (4.0 * self.diffusivity_m2_s(mean_pa))
    }

    /// a = k T (γ−1) / (γ p) of an ideal gas \[m²/s\].
    fn diffusivity_m2_s(&self, mean_pa: f64) -> f64 {
        self.gas_w_m_k * self.temperature_k * (self.gamma - 1.0) / (self.gamma * mean_pa)
    }

    /// Dimensionless loss, L.
    pub fn loss_number(&self, peclet: f64) -> f64 {
        let y = (peclet / 8.0).sqrt();
        FRAC_PI_2 * (self.gamma - 1.0) / self.gamma * shape(y)
    }

    /// Work lost each turn \[J\] at a pressure of this mean and amplitude \[Pa\].
    pub fn work_j(&self, speed_rpm: f64, mean_pa: f64, amplitude_pa: f64) -> f64 {
        let swing = amplitude_pa / mean_pa;
        self.loss_number(self.peclet(speed_rpm, mean_pa)) * mean_pa * self.volume_cm3 * 1e-6 * swing * swing
    }
}

/// (sinh y cosh y − sin y cos y) / (cosh² y − sin² y) / y; near nothing its series 4/3 y², and 1/y where both
/// hyperbolic terms are alike and would overflow.
fn shape(y: f64) -> f64 {
    if y < 1e-2 {
        4.0 / 3.0 * y * y
    } else if y > 300.0 {
        1.0 / y
    } else {
        (y.sinh() * y.cosh() - y.sin() * y.cos()) / (y.cosh().powi(2) - y.sin().powi(2)) / y
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    fn space() -> GasSpring {
        GasSpring { volume_cm3: 200.0, area_cm2: 300.0, gamma: 1.4, gas_w_m_k: 0.0283, temperature_k: 330.0 }
    }

    /// Air at 330 K and 101325 Pa, 10 Hz, p₁/p₀ = 0.10: Pe 424.2, y 7.2816, L 0.061635 and 0.12490 W, worked out
    /// with an independent program; the boundary-layer formula gives the same power.
    #[test]
    fn worked_value() {
        let (s, p0) = (space(), 101_325.0);
        close(s.peclet(600.0, p0), 424.2, 1e-4);
        close(s.loss_number(s.peclet(600.0, p0)), 0.061_635, 2e-5);
        let power_w = s.work_j(600.0, p0, 0.1 * p0) * 10.0;
        close(power_w, 0.12490, 4e-5);
        let delta = (2.0 * s.diffusivity_m2_s(p0) / (TAU * 10.0)).sqrt();
        let layer = 0.25 * (0.4 / 1.4) * TAU * 10.0 * delta * 300e-4 * (0.1 * p0).powi(2) / p0;
        close(power_w, layer, 1e-4);
    }

    #[test]
    fn it_vanishes_both_ways_without_a_step() {
        let s = space();
        assert!(s.loss_number(1e-9) < 1e-9 && s.loss_number(1e9) < 1e-3 && s.loss_number(1e12).is_finite());
        for y in [1e-2, 300.0_f64] {
            close(shape(y * (1.0 + 1e-9)), shape(y * (1.0 - 1e-9)), 1e-6);
        }
    }
}
