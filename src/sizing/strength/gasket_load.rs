//! What the screws of a flat gasket must carry, by the rules of ASME VIII-1 Appendix 2 (2-3, 2-5, table 2-5.2; formulas
//! from memory). With N the width that seals, b₀ = N/2, b = b₀ up to 6.35 mm and 2.52 √b₀ beyond; G the mean diameter,
//! beyond 6.35 mm the outside less 2 b:
//! seating W₂ = π b G y; running W₁ = π/4 G² p + 2 b π G m p.

use std::f64::consts::PI;

/// Where b leaves b₀ \[mm\]: 1/4 inch.
const WIDE_MM: f64 = 6.35;

/// A flat ring gasket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RingGasket {
    /// Inside of the ring that seals \[mm\].
    pub inner_mm: f64,
    /// Outside of the ring that seals: for a gasket under the screws the inner edge of their holes \[mm\].
    pub outer_mm: f64,
    /// Gasket factor.
    pub factor_m: f64,
    /// Seating stress \[MPa\].
    pub seating_mpa: f64,
}

impl RingGasket {
    /// Effective width and diameter of the seal \[mm\].
    fn seal_mm(&self) -> (f64, f64) {
        let half = 0.25 * (self.outer_mm - self.inner_mm);
        if half <= WIDE_MM {
            return (half, 0.5 * (self.outer_mm + self.inner_mm));
        }
        let b = 2.52 * half.sqrt();
        (b, self.outer_mm - 2.0 * b)
    }

    /// Load that seats the gasket \[N\].
    pub fn seating_n(&self) -> f64 {
        let (b, g) = self.seal_mm();
        PI * b * g * self.seating_mpa
    }

    /// Load that keeps it tight under pressure \[N\]: end force and what must stay on the gasket.
    pub fn running_n(&self, pressure_pa: f64) -> f64 {
        let (b, g) = self.seal_mm();
        let p = pressure_pa.max(0.0) * 1e-6;
        PI / 4.0 * g * g * p + 2.0 * b * PI * g * self.factor_m * p
    }
}

#[cfg(test)]
mod tests {
    use super::super::close;
    use super::*;

    /// A ring of 20 mm width in US units, worked by hand: N = 0.787 in, b₀ = 0.394 in, b = 0.5 √b₀ = 0.314 in, which is
    /// 7.97 mm; G = outside − 2 b.
    #[test]
    fn a_wide_gasket_counts_by_the_root_of_its_width() {
        let ring = RingGasket { inner_mm: 200.0, outer_mm: 240.0, factor_m: 2.0, seating_mpa: 17.2 };
        let (b, g) = ring.seal_mm();
        close(b, 25.4 * 0.5 * (10.0f64 / 25.4).sqrt(), 2e-3);
        close(g, 240.0 - 2.0 * b, 1e-12);
    }

    /// A narrow one: N = 10 mm, b = 5 mm, G = 110 mm; seating π 5 110 17.2, running π/4 110² p + 2 π 5 110 m p.
    #[test]
    fn a_narrow_gasket_counts_by_half_its_width() {
        let ring = RingGasket { inner_mm: 100.0, outer_mm: 120.0, factor_m: 2.0, seating_mpa: 17.2 };
        close(ring.seating_n(), 29_720.0, 1e-3);
        close(ring.running_n(1e6), 9503.3 + 6911.5, 1e-4);
        assert_eq!(ring.running_n(-1e5), 0.0);
    }
}
