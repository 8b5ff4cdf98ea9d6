//! What `swept size --json` prints.
//!
//! The names are the contract with readers. What a model cannot know is absent, never guessed: the
//! isothermal cycle fills indicated power, ideal heats and pressures; shaft power, losses and the verdict
//! stay absent until a model that knows friction, leakage and heat transfer fills them, without any
//! change to a reader.

use super::at_work::{FlywheelAnswer, LoadAnswer};
use super::band::Percentiles;
use super::check::Check;
use super::cycle::CycleResult;
use super::dimension::Unit;
use super::heat::HeatAnswer;
use super::ledger::Ledger;
use super::search::report::Report;
use super::uncertain::SpreadAnswer;
use super::verdict::{Cause, WorkBreakdown};
use serde::{Deserialize, Serialize};

/// Version of the layout; raised when a name changes its meaning or goes away.
pub const SCHEMA_VERSION: u32 = 1;

/// The whole answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SizeResult {
    /// [`SCHEMA_VERSION`] of the writer.
    pub schema_version: u32,
    /// Every decided number by its path.
    pub engine: Ledger,
    /// The engine at its target speed.
    pub operating_point: OperatingPoint,
    /// Powers over speed; empty until a model knows how they change with speed.
    #[serde(default)]
    pub map: Vec<MapPoint>,
    /// Where the work goes; empty until a model counts losses.
    #[serde(default)]
    pub losses: Vec<Loss>,
    /// Whether it runs.
    pub verdict: Verdict,
    /// Running against the load; absent without one, or without a model that knows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load: Option<LoadAnswer>,
    /// The flywheel; absent without a model that knows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flywheel: Option<FlywheelAnswer>,
    /// Uncertain inputs, the one that moves the power most first; absent without samples.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub spread: Vec<SpreadAnswer>,
    /// Heater, cooling, stored heat; absent without a model that knows where heat goes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat: Option<HeatAnswer>,
    /// Checks of a builder; absent where they were not asked for.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub checks: Vec<Check>,
    /// Limits that bind.
    #[serde(default)]
    pub limits: Vec<Limit>,
    /// What was searched for and found; absent where nothing was open.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub search: Option<Report>,
}

/// The engine at one speed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OperatingPoint {
    /// Model of the cycle that gave the numbers, for example `isothermal`.
    pub model: String,
    /// Speed \[rpm\].
    pub speed_rpm: f64,
    /// Power at the shaft \[W\]; absent until the mechanism's friction is known.
    #[serde(rename = "shaft_power_W", default, skip_serializing_if = "Option::is_none")]
    pub shaft_power_w: Option<f64>,
    /// Band of that power over what is uncertain \[W\]; absent where it was not sampled.
    #[serde(rename = "shaft_power_band_W", default, skip_serializing_if = "Option::is_none")]
    pub shaft_power_band_w: Option<Percentiles>,
    /// Power of the gas on the pistons \[W\].
    #[serde(rename = "indicated_power_W")]
    pub indicated_power_w: f64,
    /// Heat to supply \[W\]; from an ideal cycle the least that can do.
    #[serde(rename = "heat_in_W")]
    pub heat_in_w: f64,
    /// Heat to reject \[W\].
    #[serde(rename = "heat_out_W")]
    pub heat_out_w: f64,
    /// Power for each unit of heat: of the shaft where known, else indicated; absent without heat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub efficiency: Option<f64>,
    /// Greatest pressure \[Pa\].
    #[serde(rename = "pressure_max_Pa")]
    pub pressure_max_pa: f64,
    /// Least pressure \[Pa\].
    #[serde(rename = "pressure_min_Pa")]
    pub pressure_min_pa: f64,
    /// Mean pressure over the crank angle \[Pa\].
    #[serde(rename = "pressure_mean_Pa")]
    pub pressure_mean_pa: f64,
}

impl OperatingPoint {
    /// The point of a model that knows the work left at the shaft.
    pub fn of_work(model: &str, work: &WorkBreakdown) -> Self {
        let per_second = work.speed_rpm / 60.0;
        let shaft = work.power_w();
        let supply = work.heat.supply_w;
        Self {
            model: model.into(),
            speed_rpm: work.speed_rpm,
            shaft_power_w: Some(shaft),
            shaft_power_band_w: None,
            indicated_power_w: work.indicated_j * per_second,
            heat_in_w: supply,
            heat_out_w: supply - shaft,
            efficiency: (supply > 0.0).then(|| shaft / supply),
            pressure_max_pa: work.pressure_max_pa,
            pressure_min_pa: work.pressure_min_pa,
            pressure_mean_pa: work.pressure_mean_pa,
        }
    }

    /// The point of a cycle run at a speed, without friction of the mechanism.
    pub fn indicated(model: &str, cycle: &CycleResult, speed_rpm: f64) -> Self {
        let per_second = speed_rpm / 60.0;
        Self {
            model: model.into(),
            speed_rpm,
            shaft_power_w: None,
            shaft_power_band_w: None,
            indicated_power_w: cycle.work_j * per_second,
            heat_in_w: cycle.heat_in_j * per_second,
            heat_out_w: cycle.heat_out_j * per_second,
            efficiency: cycle.efficiency,
            pressure_max_pa: cycle.pressure_max_pa,
            pressure_min_pa: cycle.pressure_min_pa,
            pressure_mean_pa: cycle.pressure_mean_pa,
        }
    }
}

/// Powers at one speed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MapPoint {
    /// Speed \[rpm\].
    pub speed_rpm: f64,
    /// Power at the shaft \[W\].
    #[serde(rename = "shaft_power_W", default, skip_serializing_if = "Option::is_none")]
    pub shaft_power_w: Option<f64>,
    /// Power of the gas on the pistons \[W\].
    #[serde(rename = "indicated_power_W")]
    pub indicated_power_w: f64,
}

/// One loss.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Loss {
    /// Plain name.
    pub name: String,
    /// Power lost \[W\].
    #[serde(rename = "power_W")]
    pub power_w: f64,
}

/// Whether the engine runs. All numbers but the free travel need a model of losses and friction.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Verdict {
    /// Whether it turns itself over.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub turns_itself_over: Option<bool>,
    /// Probability of that over the spread of the inputs, 0..1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub probability: Option<f64>,
    /// Work left in each turn \[J\].
    #[serde(rename = "margin_J_per_turn", default, skip_serializing_if = "Option::is_none")]
    pub margin_j_per_turn: Option<f64>,
    /// Speed at which margin, reasons and losses were worked out \[rpm\]: the target's, or that of a spin by hand where the
    /// engine does not run there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub judged_speed_rpm: Option<f64>,
    /// Speed without load \[rpm\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub no_load_speed_rpm: Option<f64>,
    /// Way of a free piston when the displacer is shifted from end to end \[mm\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub free_travel_mm: Option<f64>,
    /// Piston stroke that leaves the most work each turn \[mm\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub best_piston_stroke_mm: Option<f64>,
    /// Spin by hand that starts it wherever it is let go \[rpm\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start_spin_rpm: Option<f64>,
    /// Torque to turn it over slowly from rest, at the hardest angle \[N m\].
    #[serde(rename = "hand_torque_N_m", default, skip_serializing_if = "Option::is_none")]
    pub hand_torque_nm: Option<f64>,
    /// What holds it back, the greatest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub causes: Vec<CauseAnswer>,
    /// The best single changes.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<ChangeAnswer>,
    /// Reasons in plain words, and what is not known yet.
    #[serde(default)]
    pub reasons: Vec<String>,
}

/// One cause of lost work.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CauseAnswer {
    /// Which.
    pub cause: Cause,
    /// Work each turn that halving it would bring \[J\].
    #[serde(rename = "gain_J_per_turn")]
    pub gain_j: f64,
    /// In words.
    pub words: String,
}

/// One change that would help.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ChangeAnswer {
    /// What to do.
    pub words: String,
    /// Work each turn that it brings \[J\].
    #[serde(rename = "gain_J_per_turn")]
    pub gain_j: f64,
    /// Shaft power that it brings at the same speed \[W\].
    #[serde(rename = "gain_W")]
    pub gain_w: f64,
}

/// A limit that binds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Limit {
    /// Path of the limit in the design, for example `limits.peak_pressure`.
    pub path: String,
    /// What the engine would need.
    pub value: f64,
    /// What the limit allows.
    pub bound: f64,
    /// Unit of both.
    pub unit: Unit,
    /// What would lift it, in plain words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub remedy: Option<String>,
}

#[cfg(test)]
mod tests {
    use super::super::cycle::CyclePoint;
    use super::*;

    fn cycle() -> CycleResult {
        let at = CyclePoint { angle_deg: 0.0, hot_m3: 1e-6, cold_m3: 1e-6, total_m3: 2e-6, pressure_pa: 1e5 };
        CycleResult {
            pressure_max_pa: 1.3e5,
            pressure_min_pa: 0.8e5,
            pressure_mean_pa: 1e5,
            work_j: 0.7,
            hot_work_j: 1.4,
            cold_work_j: -0.7,
            heat_in_j: 1.4,
            heat_out_j: 0.7,
            mass_kg: 7e-5,
            efficiency: Some(0.5),
            step_error: None,
            points: vec![at],
            detail: super::super::cycle::detail::Detail::default(),
        }
    }

    fn result() -> SizeResult {
        let mut engine = Ledger::new();
        engine.given("piston.bore", 64.0, Unit::Millimetre, "pump.toml:14").unwrap();
        SizeResult {
            schema_version: SCHEMA_VERSION,
            engine,
            operating_point: OperatingPoint::indicated("isothermal", &cycle(), 300.0),
            map: vec![],
            losses: vec![],
            verdict: Verdict { free_travel_mm: Some(24.6), ..Verdict::default() },
            load: None,
            flywheel: None,
            spread: vec![],
            heat: None,
            checks: vec![],
            limits: vec![],
            search: None,
        }
    }

    #[test]
    fn names_are_those_of_the_contract() {
        let json = serde_json::to_value(result()).unwrap();
        let keys = |v: &serde_json::Value| v.as_object().unwrap().keys().cloned().collect::<Vec<_>>();
        let top = ["schema_version", "engine", "operating_point", "map", "losses", "verdict", "limits"];
        assert_eq!(keys(&json), top);
        assert_eq!(keys(&json["engine"]["piston.bore"]), ["value", "unit", "origin"]);
        let point = [
            "model",
            "speed_rpm",
            "indicated_power_W",
            "heat_in_W",
            "heat_out_W",
            "efficiency",
            "pressure_max_Pa",
            "pressure_min_Pa",
            "pressure_mean_Pa",
        ];
        assert_eq!(keys(&json["operating_point"]), point);
        assert_eq!(keys(&json["verdict"]), ["free_travel_mm", "reasons"]);
    }

    /// 0.7 J a turn at 300 turns a minute is 3.5 W.
    #[test]
    fn powers_are_work_by_turns_a_second() {
        let point = result().operating_point;
        assert!((point.indicated_power_w - 3.5).abs() < 1e-12 && (point.heat_in_w - 7.0).abs() < 1e-12);
    }

    #[test]
    fn a_later_model_fills_it_and_this_reader_still_reads_it() {
        let mut full = serde_json::to_value(result()).unwrap();
        full["operating_point"]["shaft_power_W"] = 2.0.into();
        full["verdict"]["turns_itself_over"] = true.into();
        full["verdict"]["margin_J_per_turn"] = 0.1.into();
        full["losses"] = serde_json::json!([{"name": "shuttle", "power_W": 4.4, "band_W": 1.0}]);
        full["map"] =
            serde_json::json!([{"speed_rpm": 300.0, "indicated_power_W": 3.5, "shaft_power_W": 2.0}]);
        let read: SizeResult = serde_json::from_value(full).unwrap();
        assert_eq!(read.operating_point.shaft_power_w, Some(2.0));
        assert_eq!(read.verdict.margin_j_per_turn, Some(0.1));
        assert_eq!(read.losses[0].power_w, 4.4);
        assert_eq!(
            serde_json::from_str::<SizeResult>(&serde_json::to_string(&result()).unwrap()).unwrap(),
            result()
        );
    }
}
