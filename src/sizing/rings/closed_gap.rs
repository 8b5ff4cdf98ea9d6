//! Gap of a split ring in its bore, cold and hot.
//!
//! Ring and bore grow from 20 °C on; the gap closes by π d (α_ring ΔT_ring − α_bore ΔT_bore) (thermal expansion).

use std::f64::consts::PI;

/// Left of the gap when everything is hot \[mm\]; common practice, no source.
pub const MARGIN_MM: f64 = 0.05;

/// Expansion of ring and bore, and how far both are above 20 °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Growth {
    /// Bore \[mm\].
    pub bore_mm: f64,
    /// Expansion of the ring \[1/K\].
    pub ring_per_k: f64,
    /// Expansion of the bore \[1/K\].
    pub bore_per_k: f64,
    /// Ring above 20 °C \[K\].
    pub ring_rise_k: f64,
    /// Bore above 20 °C \[K\].
    pub bore_rise_k: f64,
    /// Gaps round the ring, which share what closes.
    pub gaps: usize,
}

impl Growth {
    /// By how much ring or piston grows more than the bore on the diameter \[mm\].
    pub fn diameter_mm(&self) -> f64 {
        self.bore_mm * (self.ring_per_k * self.ring_rise_k - self.bore_per_k * self.bore_rise_k)
    }

    /// By how much each gap closes when hot \[mm\]; negative where the bore grows more.
    pub fn closes_mm(&self) -> f64 {
        PI * self.diameter_mm() / self.gaps.max(1) as f64
    }

    /// Least gap, cold \[mm\]: what closes and the margin, never below `least_mm`.
    pub fn cold_mm(&self, least_mm: f64) -> f64 {
        (self.closes_mm().max(0.0) + MARGIN_MM).max(least_mm)
    }

    /// Gap left when hot of a gap when cold \[mm\]; below nothing the ring jams.
    pub fn hot_mm(&self, cold_mm: f64) -> f64 {
        cold_mm - self.closes_mm()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand: PTFE with carbon (90e-6/K) of 60 mm at 100 °C in steel (11.5e-6/K) at 80 °C:
    /// π 60 (90e-6 × 80 − 11.5e-6 × 60) = 1.227 mm.
    #[test]
    fn ptfe_in_steel_of_a_hand_calculation() {
        let g = Growth {
            bore_mm: 60.0,
            ring_per_k: 90e-6,
            bore_per_k: 11.5e-6,
            ring_rise_k: 80.0,
            bore_rise_k: 60.0,
            gaps: 1,
        };
        close(Growth { gaps: 3, ..g }.closes_mm(), 1.2271 / 3.0, 1e-4);
        close(g.closes_mm(), 1.2271, 1e-4);
        close(g.cold_mm(0.0), 1.2771, 1e-4);
        close(g.hot_mm(1.3), 0.0729, 1e-2);
        let iron = Growth { ring_per_k: 10.5e-6, ring_rise_k: 60.0, ..g };
        assert!(iron.closes_mm() < 0.0 && iron.hot_mm(0.12) > 0.12, "the bore grows more");
        close(iron.cold_mm(0.12), 0.12, 1e-12);
    }
}
