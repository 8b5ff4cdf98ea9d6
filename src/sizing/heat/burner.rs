//! Heat that the heater must give, and the fuel that takes.

use crate::catalogue::fuels::Fuel;

/// Room from which fuel and air come \[°C\].
const ROOM_C: f64 = 20.0;

/// Fuel for a duty: each figure low, likely, high in the order of a good, a likely and a poor burner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FuelRate {
    /// Heat in the fuel, or electric power \[W\].
    pub heat_w: [f64; 3],
    /// Fuel \[g/h\]; `None` for electricity.
    pub fuel_g_h: Option<[f64; 3]>,
    /// Fuel as gas at 15 °C and 1.01325 bar \[L/h\].
    pub gas_l_h: Option<[f64; 3]>,
}

/// Most that a flame can give to a wall: flue gas leaves no cooler than the wall, so 1 − (T_wall − T_0)/(T_flame − T_0)
/// with even heat capacity and just enough air; an upper bound.
pub fn flame_limit(flame_c: f64, wall_c: f64) -> f64 {
    (1.0 - (wall_c - ROOM_C) / (flame_c - ROOM_C)).clamp(0.0, 1.0)
}

/// Efficiencies at a wall temperature \[°C\]: those of the fuel, or the design's own for all three, never above what the
/// flame can give. `None` where the flame is not hotter than the wall.
pub fn efficiencies(fuel: &Fuel, own: Option<f64>, wall_c: f64) -> Option<[f64; 3]> {
    let limit = fuel.flame_c.map_or(1.0, |flame| flame_limit(flame, wall_c));
    let all = own.map_or(fuel.efficiency, |one| [one; 3]);
    (limit > 0.0).then(|| all.map(|one| one.min(limit)))
}

/// Fuel for a duty \[W\] at low, likely and high efficiency.
pub fn fuel_rate(fuel: &Fuel, duty_w: f64, efficiency: [f64; 3]) -> FuelRate {
    let [low, likely, high] = efficiency;
    let heat_w = [high, likely, low].map(|one| duty_w / one);
    let hourly = |mj: f64, scale: f64| heat_w.map(|w| w * 3600.0 / (mj * 1e6) * scale);
    FuelRate {
        heat_w,
        fuel_g_h: fuel.lower_heating_mj_kg.map(|mj| hourly(mj, 1e3)),
        gas_l_h: fuel.lower_heating_mj_m3.map(|mj| hourly(mj, 1e3)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::fuels::fuel;
    use crate::sizing::losses::close::close;

    /// By hand: 350 W at 35 % are 1000 W of propane, 3.6 MJ/h over 46.3 MJ/kg: 77.75 g/h; over 87 MJ/m³: 41.4 L/h.
    #[test]
    fn propane_of_a_hand_calculation() {
        let propane = fuel("propane").unwrap();
        let rate = fuel_rate(propane, 350.0, propane.efficiency);
        close(rate.heat_w[1], 1000.0, 1e-12);
        close(rate.fuel_g_h.unwrap()[1], 77.75, 1e-3);
        close(rate.gas_l_h.unwrap()[1], 41.38, 1e-3);
        assert!(rate.heat_w[0] < rate.heat_w[1] && rate.heat_w[1] < rate.heat_w[2]);
        assert!(fuel_rate(fuel("electric").unwrap(), 350.0, [0.7, 0.8, 0.9]).fuel_g_h.is_none());
    }

    /// By hand: propane at 1980 °C on a wall of 500 °C: 1 − 480/1960 = 0.755.
    #[test]
    fn a_flame_gives_no_more_than_its_flue_gas_leaves() {
        close(flame_limit(1980.0, 500.0), 0.7551, 1e-4);
        let wood = fuel("wood").unwrap();
        let hot = efficiencies(wood, Some(0.9), 800.0).unwrap();
        close(hot[0], 1.0 - 780.0 / 1080.0, 1e-12);
        assert!(efficiencies(wood, None, 1150.0).is_none(), "cooler than the wall");
    }
}
