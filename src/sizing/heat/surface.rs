//! A cylinder in the air of the room, plain or with discs as fins: heat for each kelvin of its root.
//!
//! Still air rises between the fins only where the cylinder lies ([`vertical_gap`]); on an upright
//! cylinder the fins lie flat, the air between them hardly moves, and only the hull around them counts: on the safe
//! side. A stream of air goes between the fins either way ([`finned_cylinder`]). The hull radiates.

use super::air::Air;
use super::cross_flow::{Discs, finned_cylinder, plain_cylinder};
use super::fins::disc_efficiency;
use super::free_convection::{horizontal_cylinder, vertical_gap, vertical_plate};
use std::f64::consts::PI;

/// Stefan and Boltzmann's constant \[W/(m² K⁴)\] (CODATA).
const STEFAN_BOLTZMANN: f64 = 5.670_374e-8;

/// Air around the engine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Its temperature \[K\].
    pub temperature_k: f64,
    /// Speed of a stream across the cylinder, 0 for still air \[m/s\].
    pub speed_m_s: f64,
}

/// A cylinder from outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FinnedCylinder {
    /// Diameter under the fins \[mm\].
    pub root_mm: f64,
    /// Diameter over the fins \[mm\].
    pub tip_mm: f64,
    /// Length \[mm\].
    pub length_mm: f64,
    /// Number of fins.
    pub fins: usize,
    /// Thickness of a fin \[mm\].
    pub fin_mm: f64,
    /// Free gap between fins \[mm\].
    pub gap_mm: f64,
    /// Conductivity of the metal \[W/(m K)\].
    pub conductivity_w_m_k: f64,
    /// Emissivity of its surface.
    pub emissivity: f64,
    /// Whether the axis lies.
    pub lies: bool,
}

/// What the air takes away.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirSide {
    /// Heat for each kelvin between root and room \[W/K\].
    pub conductance_w_k: f64,
    /// Film on the fins \[W/(m² K)\].
    pub film_w_m2_k: f64,
    /// Efficiency of a fin.
    pub fin_efficiency: f64,
}

impl FinnedCylinder {
    /// Area of fins with their rims, and of the wall between them \[m²\].
    fn areas_m2(&self) -> [f64; 2] {
        let n = self.fins as f64;
        let rings = n * PI / 2.0 * (self.tip_mm.powi(2) - self.root_mm.powi(2));
        let rims = n * PI * self.tip_mm * self.fin_mm;
        let bare = PI * self.root_mm * (self.length_mm - n * self.fin_mm).max(0.0);
        [1e-6 * (rings + rims), 1e-6 * bare]
    }

    fn hull_mm(&self) -> f64 {
        if self.fins > 0 { self.tip_mm } else { self.root_mm }
    }

    /// With a film on all of fins and wall \[W/(m² K)\].
    fn wetted(&self, film_w_m2_k: f64) -> AirSide {
        let efficiency = if self.fins == 0 {
            1.0
        } else {
            let radii = [0.5 * self.root_mm, 0.5 * self.tip_mm];
            disc_efficiency(film_w_m2_k, self.conductivity_w_m_k, self.fin_mm, radii)
        };
        let [fins, bare] = self.areas_m2();
        AirSide {
            conductance_w_k: film_w_m2_k * (efficiency * fins + bare),
            film_w_m2_k,
            fin_efficiency: efficiency,
        }
    }

    /// Still air on the hull alone.
    fn hull(&self, air: &Air, rise_k: f64) -> AirSide {
        let hull = self.hull_mm() * 1e-3;
        let (length, nusselt) = if self.lies {
            (hull, horizontal_cylinder(air.rayleigh(rise_k, hull), air.prandtl))
        } else {
            let length = self.length_mm * 1e-3;
            (length, vertical_plate(air.rayleigh(rise_k, length), air.prandtl))
        };
        let film = nusselt * air.conductivity_w_m_k / length;
        let area = PI * hull * self.length_mm * 1e-3;
        AirSide { conductance_w_k: film * area, film_w_m2_k: film, fin_efficiency: 1.0 }
    }

    /// Still air between fins that stand upright.
    fn between(&self, air: &Air, rise_k: f64) -> Option<AirSide> {
        if !self.lies || self.fins < 2 {
            return None;
        }
        let (gap, height) = (self.gap_mm * 1e-3, self.tip_mm * 1e-3);
        let nusselt = vertical_gap(air.rayleigh(rise_k, gap) * gap / height);
        Some(self.wetted(nusselt * air.conductivity_w_m_k / gap))
    }

    /// A stream across.
    fn blown(&self, air: &Air, speed_m_s: f64) -> Option<AirSide> {
        let root = self.root_mm * 1e-3;
        let reynolds = air.reynolds(speed_m_s, root);
        let height = 0.5 * (self.tip_mm - self.root_mm);
        (speed_m_s > 0.0).then(|| {
            let nusselt = if self.fins == 0 || height <= 0.0 {
                plain_cylinder(reynolds, air.prandtl)
            } else {
                let discs = Discs { gap_mm: self.gap_mm, height_mm: height, thickness_mm: self.fin_mm };
                finned_cylinder(reynolds, air.prandtl, &discs)
            };
            self.wetted(nusselt * air.conductivity_w_m_k / root)
        })
    }

    /// What the room takes away from a root at a temperature \[K\]: the best of stream, gaps and hull, and radiation.
    pub fn air_side(&self, root_k: f64, room: &Room) -> AirSide {
        let rise = root_k - room.temperature_k;
        let air = Air::between(root_k, room.temperature_k);
        let ways = [Some(self.hull(&air, rise)), self.between(&air, rise), self.blown(&air, room.speed_m_s)];
        let best = ways.into_iter().flatten().max_by(|a, b| a.conductance_w_k.total_cmp(&b.conductance_w_k));
        let best = best.unwrap_or_else(|| self.hull(&air, rise));
        let hull_m2 = PI * self.hull_mm() * self.length_mm * 1e-6;
        let radiated = radiation_w_m2_k(self.emissivity, root_k, room.temperature_k) * hull_m2;
        AirSide { conductance_w_k: best.conductance_w_k + radiated, ..best }
    }
}

/// Film of radiation to the room: ε σ (T² + T₀²)(T + T₀) \[W/(m² K)\], exact for a small body in a room.
pub fn radiation_w_m2_k(emissivity: f64, wall_k: f64, room_k: f64) -> f64 {
    emissivity * STEFAN_BOLTZMANN * (wall_k * wall_k + room_k * room_k) * (wall_k + room_k)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    const CYLINDER: FinnedCylinder = FinnedCylinder {
        root_mm: 50.0,
        tip_mm: 90.0,
        length_mm: 45.0,
        fins: 10,
        fin_mm: 1.5,
        gap_mm: 3.0,
        conductivity_w_m_k: 167.0,
        emissivity: 0.0,
        lies: true,
    };

    fn room(speed_m_s: f64) -> Room {
        Room { temperature_k: 300.0, speed_m_s }
    }

    /// By hand: ten rings π/2 (90² − 50²) = 8796.5 mm² each, rims π 90 1.5 = 424.1 mm² each, wall π 50 30 = 4712 mm²;
    /// film 50: efficiency 0.92919 (as in the fins' own test); 50 × (0.92919 × 0.092206 + 0.004712) = 4.5195 W/K.
    #[test]
    fn a_film_on_all_of_it() {
        let side = CYLINDER.wetted(50.0);
        close(side.conductance_w_k, 4.5195, 1e-4);
        close(side.fin_efficiency, 0.92919, 1e-5);
    }

    /// A fan of 2 m/s across it: Re 2 × 0.05/ν, ν of air at 310 K 16.9e-6: 5917; Nu 0.134 × 5917^0.681 ×
    /// 0.705^⅓ × 0.15^0.2 × 2^0.1134 = 32.7 (Briggs and Young by hand); film 32.7 × 0.0270/0.05 = 17.7.
    #[test]
    fn a_fan_reaches_between_the_fins() {
        let side = CYLINDER.air_side(320.0, &room(2.0));
        close(side.film_w_m2_k, 17.7, 0.02);
        assert!(side.conductance_w_k > 4.0 * CYLINDER.air_side(320.0, &room(0.0)).conductance_w_k);
    }

    /// Fins that lie flat in still air count as their hull.
    #[test]
    fn fins_need_to_stand_in_still_air() {
        let wide = FinnedCylinder { gap_mm: 7.0, length_mm: 85.0, ..CYLINDER };
        let lying = wide.air_side(340.0, &room(0.0));
        let upright = FinnedCylinder { lies: false, ..wide };
        let upright = upright.air_side(340.0, &room(0.0));
        assert!(lying.conductance_w_k > 1.5 * upright.conductance_w_k);
        assert_eq!(upright.fin_efficiency, 1.0);
        let plain = FinnedCylinder { fins: 0, tip_mm: 50.0, ..wide };
        assert!(plain.air_side(340.0, &room(0.0)).conductance_w_k < upright.conductance_w_k);
    }

    /// Black body at 400 K in a room of 300 K: σ (400⁴ − 300⁴) = 992.3 W/m², over 100 K.
    #[test]
    fn radiation_of_a_black_body() {
        close(radiation_w_m2_k(1.0, 400.0, 300.0), 9.923, 1e-4);
    }
}
