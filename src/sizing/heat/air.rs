//! Air of the room around the engine, at the mean temperature of a film.

use crate::catalogue::gases::{Gas, gas, gases};
use crate::design::ROOM_PA;

/// Standard gravity \[m/s²\].
const GRAVITY: f64 = 9.806_65;

/// What a film of air is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Conductivity \[W/(m K)\].
    pub conductivity_w_m_k: f64,
    /// Kinematic viscosity \[m²/s\].
    pub viscosity_m2_s: f64,
    /// Thermal diffusivity \[m²/s\].
    pub diffusivity_m2_s: f64,
    /// Prandtl number.
    pub prandtl: f64,
    /// Expansion of an ideal gas, 1/T \[1/K\].
    pub expansion_per_k: f64,
}

impl Air {
    /// Air between a wall and the room, taken at the mean of both temperatures \[K\].
    pub fn between(wall_k: f64, room_k: f64) -> Self {
        let film_k = 0.5 * (wall_k + room_k);
        let air: Gas = gas("air").unwrap_or(gases()[0].gas);
        let density = air.density_kg_m3(ROOM_PA, film_k);
        let conductivity = air.conductivity_w_m_k(film_k);
        Self {
            conductivity_w_m_k: conductivity,
            viscosity_m2_s: air.viscosity_pa_s(film_k) / density,
            diffusivity_m2_s: conductivity / (density * air.cp_j_kg_k(film_k)),
            prandtl: air.prandtl(film_k),
            expansion_per_k: 1.0 / film_k,
        }
    }

    /// Rayleigh number g β ΔT L³/(ν a) of a wall that is warmer than the room by `rise_k` \[K\], on a length \[m\].
    pub fn rayleigh(&self, rise_k: f64, length_m: f64) -> f64 {
        GRAVITY * self.expansion_per_k * rise_k.abs() * length_m.powi(3)
            / (self.viscosity_m2_s * self.diffusivity_m2_s)
    }

    /// Reynolds number of a stream \[m/s\] on a length \[m\].
    pub fn reynolds(&self, speed_m_s: f64, length_m: f64) -> f64 {
        speed_m_s * length_m / self.viscosity_m2_s
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// Air at 300 K and 1 atm, table of Incropera (from memory): ν 15.89e-6, a 22.5e-6 m²/s, k 0.0263, Pr 0.707.
    #[test]
    fn air_of_the_tables() {
        let air = Air::between(310.0, 290.0);
        close(air.viscosity_m2_s, 15.89e-6, 0.015);
        close(air.diffusivity_m2_s, 22.5e-6, 0.015);
        close(air.conductivity_w_m_k, 0.0263, 0.015);
        close(air.prandtl, 0.707, 0.015);
        close(air.rayleigh(20.0, 0.1), 9.80665 / 300.0 * 20.0 * 1e-3 / (15.89e-6 * 22.5e-6), 0.03);
        close(air.reynolds(1.0, 0.1), 6293.0, 0.015);
    }
}
