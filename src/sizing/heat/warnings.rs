//! Where fins, water or flame cannot hold the temperatures that the design gives.

use super::told::HeatAnswer;
use crate::design::{ColdSeal, Design};
use crate::diagnostic::Diagnostic;

/// Warmer than asked by less is not worth a word \[K\].
const SLIGHT_K: f64 = 2.0;
/// Water at a wall hotter than this boils in spots \[K\].
const BOILING_K: f64 = 363.15;

/// What cannot be held, and by how much.
pub fn warnings(design: &Design, heat: &HeatAnswer) -> Vec<Diagnostic> {
    let mut all = Vec::new();
    let warmest = heat.cold_side.iter().max_by(|a, b| a.over_k.total_cmp(&b.over_k));
    if let Some(body) = warmest.filter(|b| b.over_k > SLIGHT_K) {
        let text = format!(
            "cold_end.temperature cannot be held: the {} would settle at {:.0} °C, {:.0} K over it",
            body.name,
            body.temperature_k - 273.15,
            body.over_k
        );
        let air = if design.cold_end.air_speed_m_s.value > 0.0 {
            "higher fins, more air or water"
        } else {
            "blow air at the fins (cold_end.air_speed), more or cooler water"
        };
        let joint = if design.joints.cold_seal.value == ColdSeal::ORing {
            "water through the cooler plate (cooler.plate_channels)"
        } else {
            "a thinner or metal-filled gasket below the cold cylinder, an O-ring there (joints.cold_seal) where the layout has room for it"
        };
        let hint = format!("{air}, {joint}; or give that temperature");
        all.push(design.at("cold_end.temperature", Diagnostic::warning("swept::cooling", text).hint(&hint)));
    }
    if heat.heater.efficiency.is_none() {
        let text = format!("{} burns no hotter than hot_end.temperature", heat.heater.fuel);
        all.push(
            Diagnostic::warning("swept::heater", text).hint("take another heater.fuel or a cooler hot end"),
        );
    }
    let wall_k =
        heat.cold_side.iter().filter(|b| b.to_water_w > 0.0).map(|b| b.temperature_k).fold(0.0, f64::max);
    if wall_k > BOILING_K {
        let text = format!("the wall of the jacket reaches {:.0} °C: the water boils at it", wall_k - 273.15);
        all.push(Diagnostic::warning("swept::cooling", text).hint("more water (cooler.water_flow)"));
    }
    let cap = &heat.hot_cap;
    if cap.outside_k > cap.limit_k {
        let text = format!(
            "the hot cap is {:.0} °C outside, {:.0} K over what its metal bears",
            cap.outside_k - 273.15,
            cap.outside_k - cap.limit_k
        );
        let hint = "lower hot_end.temperature, or a thinner wall and end";
        all.push(Diagnostic::warning("swept::material", text).hint(hint));
    }
    all
}
