//! Free convection of air on outside surfaces: Nusselt numbers on the length named with each.

/// Horizontal cylinder, on its diameter; Ra ≤ 1e12 (S. W. Churchill and H. H. S. Chu 1975, from memory).
pub fn horizontal_cylinder(rayleigh: f64, prandtl: f64) -> f64 {
    let base =
        0.60 + 0.387 * rayleigh.powf(1.0 / 6.0) / (1.0 + (0.559 / prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    base * base
}

/// Vertical plate, on its height; a vertical cylinder too where D/L ≥ 35/Gr^¼ (Churchill and Chu 1975, from memory).
pub fn vertical_plate(rayleigh: f64, prandtl: f64) -> f64 {
    let base = 0.825
        + 0.387 * rayleigh.powf(1.0 / 6.0) / (1.0 + (0.492 / prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    base * base
}

/// Between vertical parallel plates, on the gap s; Ra' = g β ΔT s⁴/(ν a L) with L the height (W. Elenbaas 1942, from
/// memory). Discs on a lying cylinder count as such plates of their diameter's height.
pub fn vertical_gap(rayleigh_s4: f64) -> f64 {
    if rayleigh_s4 <= 0.0 {
        return 0.0;
    }
    rayleigh_s4 / 24.0 * (1.0 - (-35.0 / rayleigh_s4).exp()).powf(0.75)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// Computed with the open `ht` library 1.2.0 (same authors), Pr 0.7.
    #[test]
    fn values_of_an_independent_library() {
        for (ra, cylinder, plate) in [(1e3, 2.6077, 3.4218), (1e5, 7.7641, 9.1985), (1e7, 28.201, 31.156)] {
            close(horizontal_cylinder(ra, 0.7), cylinder, 3e-5);
            close(vertical_plate(ra, 0.7), plate, 3e-5);
        }
        for (ra, gap) in [(10.0, 0.40719), (100.0, 1.6692), (1000.0, 3.3278)] {
            close(vertical_gap(ra), gap, 3e-5);
        }
        assert_eq!(vertical_gap(0.0), 0.0);
    }
}
