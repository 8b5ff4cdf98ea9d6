//! When steady-flow correlations are sound in flow that turns round.
//!
//! Va = ω d_h²/(4 ν), the Valensi number: below about 10 the velocity profile is that of steady flow; above,
//! laminar friction and its phase lead rise with √Va (from memory). Turbulence sets in at about
//! Re_max = 882 √Va for Va ≫ 1 (M. Ohmi and M. Iguchi, Bulletin JSME 25 (1982) 365; from memory,
//! medium-low confidence).

/// Greatest Valensi number at which steady-flow correlations are taken as sound.
pub const QUASI_STEADY_MAX: f64 = 10.0;

/// Valensi number from angular speed \[rad/s\], hydraulic diameter \[m\] and kinematic viscosity \[m²/s\].
pub fn valensi(omega_rad_s: f64, hydraulic_m: f64, kinematic_m2_s: f64) -> f64 {
    omega_rad_s * hydraulic_m * hydraulic_m / (4.0 * kinematic_m2_s)
}

/// Re at which reciprocating flow turns turbulent.
pub fn transition_reynolds(valensi: f64) -> f64 {
    882.0 * valensi.sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: air gap of 1 mm (d_h 2 mm), 10 Hz, ν = 1.6e-5 m²/s: 62.83 × 4e-6/6.4e-5 = 3.93.
    #[test]
    fn a_small_gap_is_quasi_steady() {
        let va = valensi(std::f64::consts::TAU * 10.0, 2e-3, 1.6e-5);
        assert!((va - 3.927).abs() < 1e-3);
        assert!((transition_reynolds(4.0) - 1764.0).abs() < 1e-9);
    }
}
