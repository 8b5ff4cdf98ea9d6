//! Conduction along cylinder and displacer walls, Q = k A ΔT / L (Fourier's law, any text book).
//!
//! Valid for thin tubes with their mean conductivity and a temperature that falls evenly along the length.

use std::f64::consts::PI;

/// A tube that leads heat along its axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tube {
    /// Mean conductivity \[W/(m K)\].
    pub conductivity_w_m_k: f64,
    /// Diameter at the middle of the wall \[mm\].
    pub diameter_mm: f64,
    /// Wall \[mm\].
    pub wall_mm: f64,
    /// Length over which the temperature falls \[mm\].
    pub length_mm: f64,
}

impl Tube {
    /// Heat for each kelvin between its ends \[W/K\].
    pub fn conductance_w_k(&self) -> f64 {
        self.conductivity_w_m_k * PI * self.diameter_mm * self.wall_mm / self.length_mm * 1e-3
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand: 18 × π × 0.060 × 0.001 × 500 / 0.120 = 14.137 W.
    #[test]
    fn worked_value() {
        let t = Tube { conductivity_w_m_k: 18.0, diameter_mm: 60.0, wall_mm: 1.0, length_mm: 120.0 };
        close(t.conductance_w_k() * 500.0, 14.137, 1e-4);
    }
}
