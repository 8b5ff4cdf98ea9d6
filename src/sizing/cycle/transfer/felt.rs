//! Wool or felt of random fibres in oscillating flow.
//!
//! f = 192/Re + 4.53 Re^−0.067, Nu = (1 + 1.16 Pe^0.66) β^2.61 with porosity β, Pe = Re Pr; measured for β
//! 0.69 to 0.84, 0.45 < Re < 6100 (D. Gedeon and J. G. Wood, NASA CR-198442, 1996; from memory).
//! d_h = β d/(1 − β) with fibre diameter d, wetted area per volume 4 (1 − β)/d.

/// Porosities of the measurements.
pub const POROSITY: [f64; 2] = [0.69, 0.84];
/// Greatest Re of the measurements.
pub const REYNOLDS_MAX: f64 = 6100.0;

/// Darcy friction factor times Re.
pub fn friction_re(re: f64) -> f64 {
    192.0 + 4.53 * re.powf(0.933)
}

/// Nusselt number.
pub fn nusselt(re: f64, pr: f64, porosity: f64) -> f64 {
    (1.0 + 1.16 * (re * pr).powf(0.66)) * porosity.powf(2.61)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// COMPUTED from the formulas in an independent program, β = 0.70, Pr = 0.7.
    #[test]
    fn check_values() {
        let table = [
            (1.0, 196.53, 0.75554),
            (10.0, 23.082, 2.0459),
            (100.0, 5.2474, 7.9439),
            (1000.0, 3.0437, 34.903),
        ];
        for (re, f, nu) in table {
            assert!((friction_re(re) / re / f - 1.0).abs() < 4e-5, "{re}");
            assert!((nusselt(re, 0.7, 0.70) / nu - 1.0).abs() < 4e-5, "{re}");
        }
    }
}
