//! Friction of piston rings: their spring presses them on the bore, and so does the gas behind them.
//!
//! F = μ π D h (n p_e + c |Δp|), with n rings of height h on a bore D, p_e the pressure on the wall from ring or
//! expander and Δp the pressure across all rings together, which they share between them. c is the part of the
//! drop across a ring that presses it on: the full drop stands behind the ring and falls along its face, so ½ of it
//! is left for a plain butt ring (from memory, common in seal practice).
//!
//! μ of PTFE compounds on metal, dry: 0.04 to 0.18 are reported; 0.10 for sizing, 0.20 for the worst case. Wall
//! pressure from an expander 0.01 to 0.05 MPa (from memory).

use std::f64::consts::PI;

/// Friction at the first move over running friction, PTFE on metal: handbooks give hardly any difference for
/// PTFE (0.04/0.04 to 0.18/0.16 static/sliding); the margin is for rings that have bedded down (from memory).
pub const BREAKAWAY: f64 = 1.3;

/// The rings of a piston.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rings {
    /// Number of rings.
    pub count: usize,
    /// Bore \[mm\].
    pub bore_mm: f64,
    /// Height of a ring \[mm\].
    pub height_mm: f64,
    /// Pressure on the wall without gas \[MPa\].
    pub wall_mpa: f64,
    /// Part of the pressure drop that presses a ring on the wall, 0..1.
    pub gas_share: f64,
    /// Friction coefficient.
    pub friction: f64,
}

impl Rings {
    /// Friction \[N\] with this pressure across the rings \[Pa\]; of either sign.
    pub fn force_n(&self, across_pa: f64) -> f64 {
        let pressed_mpa = self.count as f64 * self.wall_mpa + self.gas_share * across_pa.abs() * 1e-6;
        self.friction * PI * self.bore_mm * self.height_mm * pressed_mpa
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand: π × 30 × 3 = 282.743 mm². Springs: 2 × 0.02 MPa = 11.310 N, gas at 0.3 bar: 0.5 × 0.03 MPa =
    /// 4.241 N; a tenth of 15.551 N.
    #[test]
    fn worked_value() {
        let r =
            Rings { count: 2, bore_mm: 30.0, height_mm: 3.0, wall_mpa: 0.02, gas_share: 0.5, friction: 0.1 };
        close(r.force_n(30_000.0), 1.5551, 1e-4);
        close(r.force_n(-30_000.0), 1.5551, 1e-4);
        close(r.force_n(0.0), 1.1310, 1e-4);
    }
}
