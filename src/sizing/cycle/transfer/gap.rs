//! Narrow annular gap: parallel plates with d_h = twice the gap.
//!
//! Laminar, fully developed: f Re = 96, Nu = 7.541 with both walls at one temperature (R. K. Shah and
//! A. L. London, Laminar Flow Forced Convection in Ducts, 1978; from memory, standard exact values). With
//! thermal entry Nu = 7.54 + 0.03 G/(1 + 0.016 G^(2/3)), G = Re Pr d_h/L, Re ≤ 2800 (D. K. Edwards and
//! others, in heat transfer texts; from memory). Turbulent: as tubes on d_h. The error from curvature is
//! below 2 % while the gap is under 5 % of the radius (from memory). A wall that moves, as a displacer does,
//! drags gas along; that part is not in these figures.

use super::{mixed, tubes};

/// f Re of laminar flow between plates.
pub const LAMINAR_FRICTION_RE: f64 = 96.0;

/// Darcy friction factor times Re.
pub fn friction_re(re: f64) -> f64 {
    mixed(re, LAMINAR_FRICTION_RE, tubes::turbulent_friction_re)
}

/// Nusselt number, both walls at the same temperature.
pub fn nusselt(re: f64, pr: f64, d_over_l: f64) -> f64 {
    mixed(re, laminar(re * pr * d_over_l), |re| tubes::gnielinski(re, pr))
}

fn laminar(graetz: f64) -> f64 {
    let root = graetz.cbrt();
    7.54 + 0.03 * graetz / (1.0 + 0.016 * root * root)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// COMPUTED from the formula in an independent program.
    #[test]
    fn check_values() {
        for (graetz, nu) in [(1.0, 7.5696), (10.0, 7.8193), (100.0, 9.7710), (1000.0, 19.078)] {
            assert!((laminar(graetz) / nu - 1.0).abs() < 3e-5, "{graetz}");
        }
        assert_eq!(friction_re(100.0), 96.0);
        assert_eq!(friction_re(0.0), 96.0);
        assert!((nusselt(0.0, 0.7, 0.1) - 7.54).abs() < 1e-12);
    }
}
