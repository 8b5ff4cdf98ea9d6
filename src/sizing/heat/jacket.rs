//! Water jacket around a bore: needed flow, film, and the wall between water and gas.

use super::free_convection::vertical_plate;
use super::water::Water;
use crate::sizing::cycle::transfer::tubes;
use std::f64::consts::PI;

/// Nusselt number of laminar flow between plates, one wall giving heat evenly, the other none, on twice the gap
/// (R. K. Shah and A. L. London 1978, from memory).
const LAMINAR: f64 = 5.385;
/// Reynolds number up to which the flow is surely laminar (common, from memory).
const LAMINAR_TO: f64 = 2300.0;
/// Reynolds number from which on the turbulent law holds (Gnielinski's own lower bound for a sure value).
const TURBULENT_FROM: f64 = 4000.0;

/// A ring of water around a bore.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jacket {
    /// Radius of the bore \[mm\].
    pub bore_r_mm: f64,
    /// Inner and outer radius of the water \[mm\].
    pub radii_mm: [f64; 2],
    /// Length along the bore \[mm\].
    pub length_mm: f64,
    /// Conductivity of the wall \[W/(m K)\].
    pub wall_w_m_k: f64,
}

/// The jacket at work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flowing {
    /// Reynolds number on twice the gap.
    pub reynolds: f64,
    /// Film on the inner wall \[W/(m² K)\].
    pub film_w_m2_k: f64,
    /// Heat for each kelvin between bore and water \[W/K\].
    pub conductance_w_k: f64,
}

/// Flow of water that takes up a heat with a rise: Q = ṁ c ΔT \[L/min\]; water at its temperature \[K\].
pub fn needed_l_min(heat_w: f64, rise_k: f64, water_k: f64) -> f64 {
    let water = Water::at(water_k);
    heat_w / (water.cp_j_kg_k * rise_k) / water.density_kg_m3 * 60_000.0
}

/// Rise of a flow of water that takes up a heat \[K\].
pub fn rise_k(heat_w: f64, flow_l_min: f64, water_k: f64) -> f64 {
    let water = Water::at(water_k);
    heat_w / (water.cp_j_kg_k * water.density_kg_m3 * flow_l_min / 60_000.0)
}

/// Nusselt number of the ring; a straight line between laminar and turbulent.
fn nusselt(reynolds: f64, prandtl: f64) -> f64 {
    let share = (reynolds - LAMINAR_TO) / (TURBULENT_FROM - LAMINAR_TO);
    match share {
        s if s <= 0.0 => LAMINAR,
        s if s >= 1.0 => tubes::nusselt(reynolds, prandtl, 0.0),
        s => LAMINAR + s * (tubes::nusselt(TURBULENT_FROM, prandtl, 0.0) - LAMINAR),
    }
}

impl Jacket {
    /// With a flow through it along the bore, water and wall at these temperatures \[K\]. What rises at the warm wall
    /// (vertical plate, Churchill and Chu) comes on top: cube root of the sum of cubes (S. W. Churchill 1977, for flows
    /// that help each other; from memory).
    pub fn flowing(&self, flow_l_min: f64, water_k: f64, wall_k: f64) -> Flowing {
        let water = Water::at(0.5 * (water_k + wall_k));
        let [inner, outer] = self.radii_mm.map(|r| r * 1e-3);
        let length = self.length_mm * 1e-3;
        let (twice_gap, section) = (2.0 * (outer - inner), PI * (outer * outer - inner * inner));
        let speed = flow_l_min / 60_000.0 / section;
        let reynolds = water.density_kg_m3 * speed * twice_gap / water.viscosity_pa_s;
        let driven = nusselt(reynolds, water.prandtl()) * water.conductivity_w_m_k / twice_gap;
        let rayleigh = water.rayleigh(wall_k - water_k, length);
        let rising = vertical_plate(rayleigh, water.prandtl()) * water.conductivity_w_m_k / length;
        let film = if rayleigh > 0.0 { (driven.powi(3) + rising.powi(3)).cbrt() } else { driven };
        let through_wall = (self.radii_mm[0] / self.bore_r_mm).ln() / (2.0 * PI * self.wall_w_m_k * length);
        let through_film = 1.0 / (film * 2.0 * PI * inner * length);
        Flowing { reynolds, film_w_m2_k: film, conductance_w_k: 1.0 / (through_wall + through_film) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand: 100 W into 4182 J/(kg K) at a rise of 10 K is 2.391 g/s, 0.1437 L/min.
    #[test]
    fn flow_and_rise_are_one_balance() {
        close(needed_l_min(100.0, 10.0, 293.15), 0.1436, 1e-3);
        close(rise_k(100.0, 0.1436, 293.15), 10.0, 1e-3);
    }

    /// By hand, water of 20 °C: gap 6 mm, film 5.385 × 0.598/0.012 = 268.4; inner wall 2π 0.037 × 0.05 = 0.011624 m²;
    /// film alone 3.1194 W/K; wall ln(37/32)/(2π 172 0.05) = 0.0026868 K/W: together 3.0935 W/K.
    #[test]
    fn slow_water_of_a_hand_calculation() {
        let jacket = Jacket { bore_r_mm: 32.0, radii_mm: [37.0, 43.0], length_mm: 50.0, wall_w_m_k: 172.0 };
        let slow = jacket.flowing(0.2, 293.15, 293.15);
        assert!(slow.reynolds < 100.0, "{}", slow.reynolds);
        close(slow.film_w_m2_k, 268.4, 1e-3);
        close(slow.conductance_w_k, 3.0935, 1e-3);
        assert!(jacket.flowing(100.0, 293.15, 293.15).film_w_m2_k > 3.0 * slow.film_w_m2_k);
        // a wall of 35 °C, film at 27.5 °C: Ra 4.165e7, Pr 5.763, Nu 57.28, 699.4 W/(m² K) on 50 mm (iapws and ht libraries)
        close(
            jacket.flowing(0.2, 293.15, 308.15).film_w_m2_k,
            (699.4f64.powi(3) + 272f64.powi(3)).cbrt(),
            0.03,
        );
    }

    /// Re 10 000, Pr 0.7: 29.817 by an independent library; without a jump at the borders of the straight line.
    #[test]
    fn turbulent_value_of_an_independent_library() {
        close(nusselt(1e4, 0.7), 29.817, 3e-5);
        assert_eq!(nusselt(2000.0, 7.0), LAMINAR);
        for border in [LAMINAR_TO, TURBULENT_FROM] {
            close(nusselt(border + 1e-6, 7.0), nusselt(border - 1e-6, 7.0), 1e-6);
        }
    }
}
