//! Rectangular slots and the spaces between fins.
//!
//! Laminar, fully developed, short over long side a (R. K. Shah and A. L. London 1978, from memory):
//! f Re = 96 (1 − 1.3553 a + 1.9467 a² − 1.7012 a³ + 0.9564 a⁴ − 0.2537 a⁵),
//! Nu = 7.541 (1 − 2.610 a + 4.970 a² − 5.119 a³ + 2.702 a⁴ − 0.548 a⁵), walls at one temperature. Thermal
//! entry adds what it adds in tubes (an approximation). Turbulent: as tubes on d_h.

use super::{mixed, tubes};

/// Darcy friction factor times Re.
pub fn friction_re(re: f64, aspect: f64) -> f64 {
    let series = polynomial(aspect, [1.0, -1.3553, 1.9467, -1.7012, 0.9564, -0.2537]);
    mixed(re, 96.0 * series, tubes::turbulent_friction_re)
}

/// Nusselt number, walls at the same temperature.
pub fn nusselt(re: f64, pr: f64, d_over_l: f64, aspect: f64) -> f64 {
    let series = polynomial(aspect, [1.0, -2.610, 4.970, -5.119, 2.702, -0.548]);
    let graetz = re * pr * d_over_l;
    let root = graetz.cbrt();
    let entry = 0.0668 * graetz / (1.0 + 0.04 * root * root);
    mixed(re, 7.541 * series + entry, |re| tubes::gnielinski(re, pr))
}

fn polynomial(x: f64, coefficients: [f64; 6]) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Table values of Shah and London (from memory): square f Re 56.91, Nu 2.976; 1:2 62.19, 3.391;
    /// 1:4 72.93, 4.439; plates 96, 7.541.
    #[test]
    fn check_values() {
        let table = [(1.0, 56.91, 2.976), (0.5, 62.19, 3.391), (0.25, 72.93, 4.439), (0.0, 96.0, 7.541)];
        for (aspect, f_re, nu) in table {
            assert!((friction_re(100.0, aspect) / f_re - 1.0).abs() < 1e-3, "{aspect}");
            assert!((nusselt(0.0, 0.7, 0.1, aspect) / nu - 1.0).abs() < 5e-3, "{aspect}");
        }
    }
}
