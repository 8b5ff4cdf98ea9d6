//! Water through drilled channels, one after the other: film and heat for each kelvin.

use super::water::Water;
use crate::sizing::cycle::transfer::tubes;
use std::f64::consts::PI;

/// Channels of one plate. The metal between them counts as one body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drilled {
    /// Number.
    pub count: usize,
    /// Diameter \[mm\].
    pub diameter_mm: f64,
    /// Length of each \[mm\].
    pub length_mm: f64,
}

impl Drilled {
    /// Heat for each kelvin between metal and mean water at a flow \[W/K\]; water at its temperature \[K\]. Laws of round tubes
    /// ([`tubes`]); a hose lies between two channels, so the flow enters each anew.
    pub fn conductance_w_k(&self, flow_l_min: f64, water_k: f64) -> f64 {
        let water = Water::at(water_k);
        let [d, long] = [self.diameter_mm, self.length_mm].map(|mm| mm * 1e-3);
        let speed = flow_l_min / 60_000.0 / (PI / 4.0 * d * d);
        let reynolds = water.density_kg_m3 * speed * d / water.viscosity_pa_s;
        let film = tubes::nusselt(reynolds, water.prandtl(), d / long) * water.conductivity_w_m_k / d;
        film * PI * d * long * self.count as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand, water of 20 °C, 0.5 L/min through 6.8 mm: 0.2295 m/s, Re 1555, Pr 7.009, Graetz 661.7 on 112 mm; Nu of
    /// Hausen 3.66 + 44.20/4.038 = 14.61; film 14.61 × 0.598/0.0068 = 1285; two channels of 2.3926e-3 m²: 6.15 W/K.
    #[test]
    fn two_channels_of_a_hand_calculation() {
        let two = Drilled { count: 2, diameter_mm: 6.8, length_mm: 112.0 };
        close(two.conductance_w_k(0.5, 293.15), 6.15, 2e-3);
    }

    /// Re 4000, Pr 7.009, by hand: f (0.79 ln 4000 − 1.64)^−2 = 0.04145, Gnielinski Nu 31.72: 1.286 L/min through 6.8 mm.
    #[test]
    fn fast_water_of_a_hand_calculation() {
        let one = Drilled { count: 1, diameter_mm: 6.8, length_mm: 112.0 };
        let film = one.conductance_w_k(1.286, 293.15) / (PI * 0.0068 * 0.112);
        close(film * 0.0068 / 0.598, 31.72, 5e-3);
    }
}
