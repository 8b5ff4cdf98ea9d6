//! Shuttle loss: the displacer takes up heat at the hot end of its stroke and gives it off at the cold end.
//!
//! Q = (π/8) k D Z² ΔT / (h L). DERIVED: through the gap flows k/h on the area π D L times the temperature
//! difference between displacer and cylinder, which is the gradient ΔT/L times the displacement, and over the
//! turn ⟨x²⟩ = Z²/8. The same form stands in Zimmerman and Longsworth 1971 and Martini, NASA CR-168088 (both
//! from memory); Urieli and Berchowitz 1984 write 0.4 for π/8 (from memory).
//!
//! Valid for gaps much smaller than the diameter. An upper bound: it takes walls of large heat capacity.

use std::f64::consts::PI;

/// What the loss depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shuttle {
    /// Conductivity of the gas in the gap \[W/(m K)\].
    pub gas_w_m_k: f64,
    /// Diameter of the displacer \[mm\].
    pub diameter_mm: f64,
    /// Stroke from end to end \[mm\].
    pub stroke_mm: f64,
    /// Radial gap \[mm\].
    pub gap_mm: f64,
    /// Length of the displacer over which the temperature falls \[mm\].
    pub length_mm: f64,
}

impl Shuttle {
    /// Heat carried for each kelvin between hot and cold end \[W/K\].
    pub fn conductance_w_k(&self) -> f64 {
        let shape_m = self.diameter_mm * self.stroke_mm.powi(2) / (self.gap_mm * self.length_mm) * 1e-3;
        PI / 8.0 * self.gas_w_m_k * shape_m
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand: π/8 × 0.045 × 0.060 × 0.020² × 500 / (0.0004 × 0.120) = 4.4179 W.
    #[test]
    fn worked_value() {
        let s =
            Shuttle { gas_w_m_k: 0.045, diameter_mm: 60.0, stroke_mm: 20.0, gap_mm: 0.4, length_mm: 120.0 };
        close(s.conductance_w_k() * 500.0, 4.4179, 1e-5);
    }
}
