//! Stacked plain woven screens in oscillating flow.
//!
//! f = 129/Re + 2.91 Re^−0.103, Nu = (1 + 0.99 Pe^0.66) β^1.79 with porosity β, Pe = Re Pr; measured for β
//! 0.62 to 0.78, 0.45 < Re < 6100 (D. Gedeon and J. G. Wood, Oscillating-Flow Regenerator Test Rig, NASA
//! CR-198442, 1996; from memory). Other published correlations differ by 30 to 40 %: take that as the
//! uncertainty. One layer of mesh n (wires per metre) of wire d is 2 d thick, so β ≈ 1 − π n d/4 without
//! crimp (derived); d_h = β d/(1 − β), wetted area per volume 4 (1 − β)/d.

/// Porosities of the measurements.
pub const POROSITY: [f64; 2] = [0.62, 0.78];
/// Greatest Re of the measurements.
pub const REYNOLDS_MAX: f64 = 6100.0;

/// Darcy friction factor times Re.
pub fn friction_re(re: f64) -> f64 {
    129.0 + 2.91 * re.powf(0.897)
}

/// Nusselt number.
pub fn nusselt(re: f64, pr: f64, porosity: f64) -> f64 {
    (1.0 + 0.99 * (re * pr).powf(0.66)) * porosity.powf(1.79)
}

/// Porosity from wires per metre \[1/m\] and wire diameter \[m\].
pub fn porosity(wires_per_m: f64, wire_m: f64) -> f64 {
    1.0 - std::f64::consts::FRAC_PI_4 * wires_per_m * wire_m
}

#[cfg(test)]
mod tests {
    use super::*;

    /// COMPUTED from the formulas in an independent program, β = 0.70, Pr = 0.7.
    #[test]
    fn check_values() {
        let table = [
            (1.0, 131.91, 0.94128),
            (10.0, 15.196, 2.4167),
            (100.0, 3.1009, 9.1604),
            (1000.0, 1.5575, 39.985),
        ];
        for (re, f, nu) in table {
            assert!((friction_re(re) / re / f - 1.0).abs() < 4e-5, "{re}");
            assert!((nusselt(re, 0.7, 0.70) / nu - 1.0).abs() < 4e-5, "{re}");
        }
        assert!((porosity(200.0 / 0.0254, 4e-5) - 0.7526).abs() < 1e-4);
    }
}
