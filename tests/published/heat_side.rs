//! Temperature of the hot wall on the gas side from what a source calls its hot temperature.
//!
//! Heat has to come in. Outside of a wall: conduction through it, Q = k A (T − T_w)/t. A furnace or another source of
//! heat: grey radiation and a film, Q = A (ε σ (T⁴ − T_o⁴) + h (T − T_o)), and the wall behind it (textbook). Gas in
//! the heater: the thermocouple reads between gas and wall. What is not known is drawn for all engines alike.

use super::data::{Drawn, HotIs};
use super::predict::Gas;

/// Stefan and Boltzmann's constant \[W/(m² K⁴)\].
const SIGMA: f64 = 5.670_374e-8;

/// Heat that comes to a wall at this temperature on the gas side \[W\], through an area \[m²\].
fn supply_w(meaning: HotIs, common: &Drawn, stated_k: f64, area_m2: f64, wall_k: f64) -> f64 {
    let through = common.get("wall_w_m_k") * area_m2 / (common.get("wall_mm") * 1e-3);
    match meaning {
        HotIs::Wall => through * (stated_k - wall_k),
        _ => {
            let outer = |outer_k: f64| {
                let radiant = common.get("emissivity") * SIGMA * (stated_k.powi(4) - outer_k.powi(4));
                area_m2 * (radiant + common.get("film_w_m2_k") * (stated_k - outer_k))
            };
            let outer_k =
                root(wall_k, stated_k.max(wall_k), |outer_k| outer(outer_k) - through * (outer_k - wall_k));
            through * (outer_k - wall_k)
        }
    }
}

/// Where a falling function crosses nothing.
fn root(mut low: f64, mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if f(middle) > 0.0 { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// A better guess of the wall \[K\] from what the gas took in with the last one. Heat taken in is in proportion to the
/// fall from hot to cold wall.
pub fn wall_k(meaning: HotIs, common: &Drawn, stated_k: f64, area_m2: f64, gas: &Gas) -> f64 {
    match meaning {
        HotIs::Gas => stated_k + common.get("thermocouple") * (gas.wall_k - gas.heater_k),
        HotIs::Wall | HotIs::Source => {
            let per_k = gas.heat_w.max(0.0) / (gas.wall_k - gas.cold_k);
            root(gas.cold_k + 1.0, stated_k, |k| {
                supply_w(meaning, common, stated_k, area_m2, k) - per_k * (k - gas.cold_k)
            })
        }
    }
}
