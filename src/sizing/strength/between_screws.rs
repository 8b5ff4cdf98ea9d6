//! How much of a gasket's pressing is left midway between two screws: the flange bends as a long beam on the springy
//! gasket, loaded at even distances by the screws.
//!
//! With λ = (k / 4 E I)^¼ and θ = λ l / 2, no slope at the loads nor midway, the deflection midway over that at the loads is
//! (sinh θ cos θ + cosh θ sin θ) / (sinh θ cosh θ + sin θ cos θ) (from the equation of the beam on an elastic bed, Hetényi,
//! Beams on Elastic Foundation, 1946; worked here). The code for pressure vessels spaces screws by a formula for high seating
//! loads; this is the mechanics behind it.

/// Flange and gasket between screws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seam {
    /// Thickness of the flange \[mm\].
    pub flange_mm: f64,
    /// Width of the flange beside the bore, which bends \[mm\].
    pub wide_mm: f64,
    /// Young's modulus of the flange \[MPa\].
    pub youngs_mpa: f64,
    /// Width of the gasket that is pressed \[mm\].
    pub gasket_wide_mm: f64,
    /// Thickness of the gasket \[mm\].
    pub gasket_mm: f64,
    /// Stiffness of the gasket's material: rise of pressing for a whole thickness of compression \[MPa\].
    pub gasket_mpa: f64,
}

impl Seam {
    /// Share of the pressing at the screws that is left midway between two of them, `pitch_mm` apart; never below 0, where
    /// the flange lifts.
    pub fn midway(&self, pitch_mm: f64) -> f64 {
        let bed = self.gasket_mpa * self.gasket_wide_mm / self.gasket_mm;
        let bends = self.youngs_mpa * self.wide_mm * self.flange_mm.powi(3) / 12.0;
        let lambda = (bed / (4.0 * bends)).powf(0.25);
        let half = lambda * pitch_mm / 2.0;
        let ((sin, cos), (sinh, cosh)) = (half.sin_cos(), (half.sinh(), half.cosh()));
        let share = (sinh * cos + cosh * sin) / (sinh * cosh + sin * cos);
        if share.is_finite() { share.max(0.0) } else { 0.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seam(flange_mm: f64) -> Seam {
        Seam {
            flange_mm,
            wide_mm: 20.0,
            youngs_mpa: 200e3,
            gasket_wide_mm: 12.0,
            gasket_mm: 1.0,
            gasket_mpa: 300.0,
        }
    }

    /// Another way: deflection beside one load on an endless beam, P λ / 2k e^(−λx) (cos λx + sin λx) (Hetényi, 1946;
    /// Timoshenko, Strength of Materials, Part II), summed over all loads.
    #[test]
    fn it_is_the_sum_over_single_loads() {
        for pitch in [15.0, 30.0, 45.0] {
            let lambda = (3600.0f64 / (4.0 * 200e3 * 20.0 * 216.0 / 12.0)).powf(0.25);
            let beside = |mm: f64| {
                let x = lambda * mm.abs();
                (-x).exp() * (x.cos() + x.sin())
            };
            let all = |at: f64| (-60..=60).map(|i| beside(at - f64::from(i) * pitch)).sum::<f64>();
            let sum = all(0.5 * pitch) / all(0.0);
            assert!((seam(6.0).midway(pitch) - sum).abs() < 1e-6, "{pitch}: {sum}");
        }
    }

    #[test]
    fn a_stout_flange_presses_evenly_and_a_thin_one_lifts() {
        assert!(seam(20.0).midway(30.0) > 0.99);
        assert_eq!(seam(1.0).midway(30.0), 0.0);
        assert_eq!(seam(1.0).midway(1e5), 0.0);
    }
}
