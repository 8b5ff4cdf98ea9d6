//! A radiator that gives the jacket's heat to the room when the water goes round in a circle.

use super::air::Air;
use super::free_convection::vertical_plate;
use super::surface::radiation_w_m2_k;

/// Height of a plain panel \[m\]; it hardly matters.
const PANEL_M: f64 = 0.5;
/// Emissivity of paint (from memory).
const PAINT: f64 = 0.9;
/// Heat through finned tube with a fan, for each square metre of fins \[W/(m² K)\]: 30 to 50 at 2 to 3 m/s (from memory).
const FINNED_W_M2_K: f64 = 40.0;

/// Areas of a radiator; either will do \[m²\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Radiator {
    /// Surface of a plain painted panel in still air, both sides together.
    pub panel_m2: f64,
    /// Surface of the fins of a block with a fan.
    pub finned_m2: f64,
}

/// Areas for a heat \[W\] from water at its mean temperature to a room \[K\]; `None` where the water is not warmer.
pub fn radiator(heat_w: f64, water_k: f64, room_k: f64) -> Option<Radiator> {
    let rise = water_k - room_k;
    if rise <= 0.5 {
        return None;
    }
    let air = Air::between(water_k, room_k);
    let film = vertical_plate(air.rayleigh(rise, PANEL_M), air.prandtl) * air.conductivity_w_m_k / PANEL_M;
    let panel = film + radiation_w_m2_k(PAINT, water_k, room_k);
    Some(Radiator { panel_m2: heat_w / (panel * rise), finned_m2: heat_w / (FINNED_W_M2_K * rise) })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A plain steel panel 0.5 m high gives some 420 to 520 W for each square metre of its front (both sides work) at
    /// 50 K over the room (panel radiators after EN 442, type 10, makers' tables from memory: 0.5 m high about 450 W/m
    /// and 0.9 W/(m K) each way).
    #[test]
    fn a_panel_of_the_makers_tables() {
        let area = radiator(450.0, 343.15, 293.15).unwrap().panel_m2;
        assert!((0.7..1.1).contains(&area), "{area} m² of both sides for 450 W");
        assert!(radiator(50.0, 293.0, 293.15).is_none(), "water that is not warmer gives nothing");
        let little = radiator(100.0, 303.15, 293.15).unwrap();
        assert!((little.finned_m2 - 0.25).abs() < 1e-9 && little.panel_m2 > little.finned_m2);
    }
}
