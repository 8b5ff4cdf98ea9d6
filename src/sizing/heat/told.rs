//! What `swept size` tells of heat: numbers for `--json`, short lines for people.

use crate::numerals::short;
use serde::{Deserialize, Serialize};

/// Low, likely, high.
pub type Spread = [f64; 3];

/// Heat into the engine, out of it, and stored in it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HeatAnswer {
    /// Heater and fuel.
    pub heater: HeaterAnswer,
    /// Bodies of the cold side with the temperatures that fins and water give them.
    pub cold_side: Vec<BodyAnswer>,
    /// Water.
    pub water: WaterAnswer,
    /// Wall of the hot cap.
    pub hot_cap: HotCapAnswer,
    /// Stored heat.
    pub stored: StoredAnswer,
    /// The same in plain words.
    pub words: Vec<String>,
    /// Cautions.
    pub cautions: Vec<String>,
}

/// Heater and fuel.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HeaterAnswer {
    /// Heat that the hot end needs \[W\].
    #[serde(rename = "duty_W")]
    pub duty_w: f64,
    /// Fuel of the design.
    pub fuel: String,
    /// Share of the fuel's heat that arrives; absent where the flame is no hotter than the wall.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub efficiency: Option<Spread>,
    /// Heat in the fuel, or electric power, for that duty \[W\].
    #[serde(rename = "fuel_W", default, skip_serializing_if = "Option::is_none")]
    pub fuel_w: Option<Spread>,
    /// Fuel \[g/h\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fuel_g_per_h: Option<Spread>,
    /// Fuel as gas at 15 °C and 1.01325 bar \[L/h\].
    #[serde(rename = "gas_L_per_h", default, skip_serializing_if = "Option::is_none")]
    pub gas_l_per_h: Option<Spread>,
}

/// A body of the cold side.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BodyAnswer {
    /// Plain name.
    pub name: String,
    /// Heat that comes to it from gas and friction \[W\].
    #[serde(rename = "heat_W")]
    pub heat_w: f64,
    /// Temperature that results \[K\].
    #[serde(rename = "temperature_K")]
    pub temperature_k: f64,
    /// How much warmer than the design's cold temperature \[K\].
    #[serde(rename = "over_K")]
    pub over_k: f64,
    /// Heat to the air \[W\].
    #[serde(rename = "to_air_W")]
    pub to_air_w: f64,
    /// Heat to the water \[W\].
    #[serde(rename = "to_water_W")]
    pub to_water_w: f64,
    /// Film of the air on it \[W/(m² K)\].
    #[serde(rename = "air_film_W_m2_K", default, skip_serializing_if = "Option::is_none")]
    pub air_film_w_m2_k: Option<f64>,
    /// Efficiency of its fins.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fin_efficiency: Option<f64>,
}

/// Water of the jacket.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct WaterAnswer {
    /// Flow, given or needed \[L/min\].
    #[serde(rename = "flow_L_per_min")]
    pub flow_l_min: f64,
    /// Whether the design gives the flow.
    pub given: bool,
    /// On entry \[K\].
    #[serde(rename = "inlet_K")]
    pub inlet_k: f64,
    /// Rise on the way \[K\].
    #[serde(rename = "rise_K")]
    pub rise_k: f64,
    /// Film on the wall \[W/(m² K)\].
    #[serde(rename = "film_W_m2_K")]
    pub film_w_m2_k: f64,
    /// Warmest mean water with which the block still keeps the design's cold temperature \[K\].
    #[serde(rename = "warmest_mean_K")]
    pub warmest_mean_k: f64,
    /// Surface of a painted panel in still air for water in a circle, both sides \[m²\]; absent where none will do.
    #[serde(rename = "panel_m2", default, skip_serializing_if = "Option::is_none")]
    pub panel_m2: Option<f64>,
    /// Surface of fins with a fan for the same \[m²\].
    #[serde(rename = "finned_m2", default, skip_serializing_if = "Option::is_none")]
    pub finned_m2: Option<f64>,
}

/// Wall of the hot cap.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct HotCapAnswer {
    /// Heat through each square metre of the heated inside \[W/m²\].
    #[serde(rename = "flux_W_m2")]
    pub flux_w_m2: f64,
    /// Hottest place outside, where the heat comes in \[K\].
    #[serde(rename = "outside_K")]
    pub outside_k: f64,
    /// Limit of the material in service \[K\].
    #[serde(rename = "limit_K")]
    pub limit_k: f64,
    /// Its flange, at the hot gasket \[K\].
    #[serde(rename = "flange_K")]
    pub flange_k: f64,
    /// Thickness of that gasket as built \[mm\].
    pub gasket_mm: f64,
    /// Heat from the flange down through the gasket \[W\].
    #[serde(rename = "through_gasket_W")]
    pub through_gasket_w: f64,
    /// Heat from the flange down through its screws \[W\].
    #[serde(rename = "through_screws_W")]
    pub through_screws_w: f64,
    /// Greatest stress of the gas in the wall \[MPa\].
    #[serde(rename = "stress_MPa")]
    pub stress_mpa: f64,
    /// Hours until it may rupture by creep, 100 000 at the most; absent for a material without data.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub creep_life_h: Option<f64>,
}

/// Stored heat.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct StoredAnswer {
    /// Heat capacity of the hot end \[J/K\].
    #[serde(rename = "capacity_J_K")]
    pub capacity_j_k: f64,
    /// Heater for the warm-up \[W\].
    #[serde(rename = "heater_W")]
    pub heater_w: f64,
    /// Warm-up from the room's temperature \[s\]; absent where that heater never gets there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub warm_up_s: Option<f64>,
    /// Hot wall at which the engine stops at its speed \[K\]; absent where it does not run.
    #[serde(rename = "stall_K", default, skip_serializing_if = "Option::is_none")]
    pub stall_k: Option<f64>,
    /// Run-on without heater \[s\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub run_on_s: Option<f64>,
    /// Turns of the run-on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub run_on_turns: Option<f64>,
    /// Heat taken from the wall on the way \[J\].
    #[serde(rename = "run_on_J", default, skip_serializing_if = "Option::is_none")]
    pub run_on_j: Option<f64>,
    /// Time until the hot end is below 60 °C, standing still, no wind \[s\]; absent where the room is warmer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub above_60_s: Option<f64>,
}

/// A time in words: seconds, minutes or hours.
pub fn time(seconds: f64) -> String {
    match seconds {
        s if s < 120.0 => format!("{s:.0} s"),
        s if s < 7200.0 => format!("{:.0} min", s / 60.0),
        s => format!("{:.1} h", s / 3600.0),
    }
}

fn celsius(k: f64) -> f64 {
    k - 273.15
}

impl HeatAnswer {
    /// Fills the plain words from the numbers.
    pub(super) fn told(mut self) -> Self {
        self.words = vec![
            self.heater_words(),
            self.cold_words(),
            self.water_words(),
            self.cap_words(),
            self.stored_words(),
        ];
        self
    }

    fn heater_words(&self) -> String {
        let h = &self.heater;
        let Some(([low, likely, high], [worst, middle, best])) = h.fuel_w.zip(h.efficiency) else {
            return format!(
                "heater: {:.0} W, which {} cannot give: its flame is no hotter",
                h.duty_w, h.fuel
            );
        };
        let share =
            format!("{:.0} % of it arrive, {:.0} to {:.0} %", 100.0 * middle, 100.0 * worst, 100.0 * best);
        let amount = h.fuel_g_per_h.map_or_else(
            || format!("{likely:.0} W of power ({low:.0} to {high:.0} W)"),
            |[low, likely, high]| format!("{likely:.0} g/h ({low:.0} to {high:.0} g/h)"),
        );
        format!("heater: {:.0} W into the hot end; {}: {amount}, {share}", h.duty_w, h.fuel)
    }

    fn cold_words(&self) -> String {
        let (air, water) =
            self.cold_side.iter().fold((0.0, 0.0), |s, b| (s.0 + b.to_air_w, s.1 + b.to_water_w));
        let bodies: Vec<String> =
            self.cold_side.iter().map(|b| format!("{} {:.0} °C", b.name, celsius(b.temperature_k))).collect();
        format!("cold side: {air:.0} W to the air, {water:.0} W to the water; {}", bodies.join(", "))
    }

    fn water_words(&self) -> String {
        let w = &self.water;
        let what = if w.given { "given" } else { "needed" };
        let radiator = match w.panel_m2.zip(w.finned_m2) {
            Some((panel, finned)) => format!(
                "in a circle it may be {:.0} °C on the mean: a panel of {panel:.2} m2, or {finned:.2} m2 of fins with a fan",
                celsius(w.warmest_mean_k)
            ),
            None => "no radiator in this room would do: take fresh water".into(),
        };
        format!(
            "water: {:.2} L/min ({what}) from {:.0} °C rise by {:.0} K; {radiator}",
            w.flow_l_min,
            celsius(w.inlet_k),
            w.rise_k
        )
    }

    fn cap_words(&self) -> String {
        let c = &self.hot_cap;
        let life = c.creep_life_h.map_or_else(String::new, |h| {
            let over = if h >= super::creep::LONGEST_H { "over " } else { "" };
            format!(", creep life {over}{h:.0} h at {:.1} MPa", c.stress_mpa)
        });
        format!(
            "hot cap: {:.0} °C outside where the heat comes in; its metal bears {:.0} °C{life}; down its wall to a flange of {:.0} °C, then {:.1} W through {} mm of gasket and {:.1} W through the screws",
            celsius(c.outside_k),
            celsius(c.limit_k),
            celsius(c.flange_k),
            c.through_gasket_w,
            short(c.gasket_mm, 2),
            c.through_screws_w
        )
    }

    fn stored_words(&self) -> String {
        let s = &self.stored;
        let warm = s.warm_up_s.map_or_else(
            || format!("{:.0} W never warm it up", s.heater_w),
            |t| format!("warm-up {} with {:.0} W", time(t), s.heater_w),
        );
        let on = match (s.run_on_s, s.run_on_turns) {
            (Some(t), Some(n)) => format!("; runs on for {} without heater, {n:.0} turns", time(t)),
            _ => String::new(),
        };
        let hot = s.above_60_s.map_or_else(String::new, |t| format!("; hot enough to burn for {}", time(t)));
        format!("stored heat: {warm}{on}{hot}")
    }
}

#[cfg(test)]
mod tests {
    use super::time;

    #[test]
    fn times_are_told_as_people_tell_them() {
        assert_eq!([time(90.0), time(1800.0), time(9000.0)], ["90 s", "30 min", "2.5 h"]);
    }
}
