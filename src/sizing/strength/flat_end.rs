//! Flat round plate under even pressure.
//!
//! Greatest bending stress p (a/t)² times 3 (3 + ν) / 8 with the edge free to turn, 3/4 with the edge held fast
//! (Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, articles 16 and 17; from memory).
//! An end that is one with a thinner wall lies between both; the free edge is taken, to the safe side.

/// Poisson's ratio of metals.
const POISSON: f64 = 0.3;

/// Greatest stress in a flat end \[Pa\] of the free diameter `inner_mm`, its edge free to turn.
pub fn bending_pa(pressure_pa: f64, inner_mm: f64, thickness_mm: f64) -> f64 {
    let slim = inner_mm / 2.0 / thickness_mm;
    3.0 * (3.0 + POISSON) / 8.0 * pressure_pa.abs() * slim * slim
}

/// The same with the edge held fast \[Pa\].
pub fn clamped_pa(pressure_pa: f64, inner_mm: f64, thickness_mm: f64) -> f64 {
    let slim = inner_mm / 2.0 / thickness_mm;
    0.75 * pressure_pa.abs() * slim * slim
}

#[cfg(test)]
mod tests {
    use super::super::close;
    use super::*;

    /// Handbooks print 1.24 p (a/t)² for ν = 0.3 (Roark, circular plates, simply supported; from memory).
    #[test]
    fn the_factor_is_the_handbook_one() {
        close(bending_pa(1e5, 100.0, 5.0), 1.24 * 1e5 * 100.0, 3e-3);
        assert!(clamped_pa(1e5, 100.0, 5.0) < bending_pa(1e5, 100.0, 5.0));
        close(clamped_pa(-1e5, 100.0, 5.0), 7.5e6, 1e-12);
    }
}
