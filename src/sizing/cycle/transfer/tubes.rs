//! Round tubes.
//!
//! Laminar f Re = 64; Nu = 3.66 + 0.0668 G/(1 + 0.04 G^(2/3)), G = Re Pr d/L (H. Hausen 1943, from memory).
//! Turbulent: f = (0.790 ln Re − 1.64)^−2 (B. S. Petukhov) and
//! Nu = (f/8)(Re − 1000) Pr/(1 + 12.7 √(f/8) (Pr^(2/3) − 1)) (V. Gnielinski 1976), 3000 < Re < 5e6 (both
//! from memory). Entry 0.5, exit 1.0 and a bend of 180° 1.5 velocity heads (from memory).

use super::mixed;

/// Greatest Re of the turbulent correlation.
pub const REYNOLDS_MAX: f64 = 5e6;

/// Velocity heads lost at a sharp entry and at an exit into a wide space.
pub const ENTRY_AND_EXIT: f64 = 1.5;

/// Darcy friction factor times Re.
pub fn friction_re(re: f64) -> f64 {
    mixed(re, 64.0, turbulent_friction_re)
}

/// Nusselt number, wall at one temperature.
pub fn nusselt(re: f64, pr: f64, d_over_l: f64) -> f64 {
    mixed(re, laminar(re * pr * d_over_l), |re| gnielinski(re, pr))
}

/// 3.66 with thermal entry.
fn laminar(graetz: f64) -> f64 {
    let root = graetz.cbrt();
    3.66 + 0.0668 * graetz / (1.0 + 0.04 * root * root)
}

fn petukhov(re: f64) -> f64 {
    (0.790 * re.ln() - 1.64).powi(-2)
}

pub(super) fn turbulent_friction_re(re: f64) -> f64 {
    petukhov(re) * re
}

pub(super) fn gnielinski(re: f64, pr: f64) -> f64 {
    let eighth = petukhov(re) / 8.0;
    eighth * (re - 1000.0) * pr / (1.0 + 12.7 * eighth.sqrt() * (pr.cbrt().powi(2) - 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// COMPUTED in an independent program; the turbulent ones equal an independent heat-transfer library too.
    #[test]
    fn check_values() {
        for (graetz, nu) in [(10.0, 4.2234), (100.0, 7.2480), (1000.0, 17.020)] {
            assert!((laminar(graetz) / nu - 1.0).abs() < 3e-5, "{graetz}");
        }
        assert!((nusselt(4000.0, 0.7, 0.0) / 13.487 - 1.0).abs() < 5e-5);
        assert!((nusselt(1e4, 0.7, 0.0) / 29.817 - 1.0).abs() < 5e-5);
        assert_eq!(friction_re(2000.0), 64.0);
    }

    #[test]
    fn there_is_no_step_between_laminar_and_turbulent() {
        for re in [2300.0, 4000.0] {
            let (below, above) = (nusselt(re - 1e-6, 0.7, 0.01), nusselt(re + 1e-6, 0.7, 0.01));
            assert!((above / below - 1.0).abs() < 1e-6, "{below} {above}");
        }
    }
}
