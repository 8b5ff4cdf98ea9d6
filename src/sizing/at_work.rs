//! The engine at work: its load, its flywheel, and what its band comes from. Figures with units in their names, and words.

use super::band::{Percentiles, Sampling};
use super::engine::Engine;
use super::uncertain::{SpreadAnswer, ranked};
use super::verdict::{
    Against, Change, Judgement, LoadBand, LoadCurve, NetWork, Running, VerdictError, against, flywheel_for,
    load_band, load_of, unsteadiness,
};
use super::verdict::{Gearing, WorkBreakdown};
use crate::design::{Design, LoadKind, Setting};
use serde::{Deserialize, Serialize};
use std::f64::consts::{PI, TAU};

/// Running against the load. What is absent is not known or cannot be.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct LoadAnswer {
    /// Kind, as in the design.
    pub kind: String,
    /// Whether the engine keeps the load turning.
    pub turns_it: bool,
    /// Speed of the load over that of the engine: the given or the best.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub speed_ratio: Option<f64>,
    /// Whether the design gives that ratio.
    pub speed_ratio_given: bool,
    /// Efficiency of the drive.
    pub drive_efficiency: f64,
    /// Speed of the engine \[rpm\].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub engine_speed_rpm: Option<f64>,
    /// Speed of the load \[rpm\].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub load_speed_rpm: Option<f64>,
    /// Torque at the load's shaft \[N m\].
    #[serde(rename = "load_torque_N_m", skip_serializing_if = "Option::is_none")]
    pub load_torque_nm: Option<f64>,
    /// Power at the engine's shaft \[W\].
    #[serde(rename = "shaft_power_W", skip_serializing_if = "Option::is_none")]
    pub shaft_power_w: Option<f64>,
    /// Power that reaches the load \[W\].
    #[serde(rename = "load_power_W", skip_serializing_if = "Option::is_none")]
    pub load_power_w: Option<f64>,
    /// Band of the power at the shaft \[W\]; a sample that stalls counts as nothing.
    #[serde(rename = "shaft_power_band_W", skip_serializing_if = "Option::is_none")]
    pub shaft_power_band_w: Option<Percentiles>,
    /// Band of the power at the load \[W\].
    #[serde(rename = "load_power_band_W", skip_serializing_if = "Option::is_none")]
    pub load_power_band_w: Option<Percentiles>,
    /// Band of the engine's speed \[rpm\].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub engine_speed_band_rpm: Option<Percentiles>,
    /// Part of the samples that turn the load, 0..1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub probability: Option<f64>,
    /// Spin by hand that starts it with the load on, wherever it is let go \[rpm\].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub start_spin_rpm: Option<f64>,
    /// Water that a lift pump raises \[L/min\].
    #[serde(rename = "water_L_per_min", skip_serializing_if = "Option::is_none")]
    pub water_l_min: Option<f64>,
    /// Speed of a vehicle \[km/h\].
    #[serde(rename = "road_speed_km_per_h", skip_serializing_if = "Option::is_none")]
    pub road_km_h: Option<f64>,
    /// All of it in words.
    pub words: Vec<String>,
}

/// The flywheel and how steadily the engine turns with it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FlywheelAnswer {
    /// Inertia of the wheel \[kg m²\].
    pub inertia_kg_m2: f64,
    /// Mass \[kg\].
    pub mass_kg: f64,
    /// Speed at which steadiness is told \[rpm\].
    pub at_speed_rpm: f64,
    /// Greatest less least speed in a turn, over the mean.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unsteadiness: Option<f64>,
    /// What the design asks for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wanted_unsteadiness: Option<f64>,
    /// Inertia of a wheel that does it \[kg m²\].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub needed_inertia_kg_m2: Option<f64>,
    /// In words.
    pub words: Vec<String>,
}

/// All of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AtWork {
    /// Load, where the design has one.
    pub load: Option<LoadAnswer>,
    /// Flywheel.
    pub flywheel: Option<FlywheelAnswer>,
    /// Uncertain inputs, the one that moves the power most first; empty without samples.
    pub spread: Vec<SpreadAnswer>,
}

/// Works it out for a judged engine; `base` is what the builder knows better than the model.
///
/// # Errors
/// The model's.
pub fn at_work(
    design: &Design,
    engine: &Engine,
    net: &dyn NetWork,
    base: &Change,
    judged: &Judgement,
    sampling: &Sampling,
) -> Result<AtWork, VerdictError> {
    let with = load_of(&design.load);
    let tried =
        with.map(|(load, gearing)| against(net, base, &judged.curve, (&load, &gearing), sampling.hand_rpm));
    let tried = tried.transpose()?;
    let running = tried.and_then(|t| t.running);
    let load = with.zip(tried).map(|((load, gearing), tried)| {
        let at = tried.running.map(|r| Gearing { ratio: Some(r.ratio), ..gearing });
        let band = at.filter(|_| sampling.count > 0).and_then(|at| load_band(net, sampling, &load, &at));
        load_answer(design, &load, &gearing, &tried, band)
    });
    let speed_rpm = running.map_or(judged.judged_rpm, |r| r.engine_rpm);
    let work = net.at(speed_rpm, base)?;
    let spread =
        if sampling.count > 0 { ranked(net, &design.spread, sampling.speed_rpm) } else { Vec::new() };
    Ok(AtWork { load, flywheel: Some(flywheel_answer(design, engine, &work)), spread })
}

fn load_answer(
    design: &Design,
    load: &LoadCurve,
    gearing: &Gearing,
    tried: &Against,
    band: Option<LoadBand>,
) -> LoadAnswer {
    let kind = design.load.kind.as_ref().map_or("", |k| k.value.name()).to_owned();
    let r = tried.running;
    let mut answer = LoadAnswer {
        turns_it: r.is_some(),
        speed_ratio: r.map(|r| r.ratio).or(gearing.ratio),
        speed_ratio_given: design.load.speed_ratio.as_ref().is_some_and(Setting::is_given),
        drive_efficiency: gearing.efficiency,
        engine_speed_rpm: r.map(|r| r.engine_rpm),
        load_speed_rpm: r.map(|r| r.load_rpm),
        load_torque_nm: r.map(|r| load.torque_nm(r.load_rpm)),
        shaft_power_w: r.map(|r| r.shaft_w),
        load_power_w: r.map(|r| r.load_w),
        shaft_power_band_w: band.map(|b| b.shaft_w),
        load_power_band_w: band.map(|b| b.load_w),
        engine_speed_band_rpm: band.map(|b| b.engine_rpm),
        probability: band.map(|b| b.turns),
        start_spin_rpm: tried.start.and_then(|s| s.spin_rpm),
        water_l_min: r.and_then(|r| water_l_min(design, r.load_rpm)),
        road_km_h: r.and_then(|r| road_km_h(load, r.load_rpm)),
        kind,
        words: Vec::new(),
    };
    answer.words = match tried.running {
        Some(running) => running_words(&answer, &running, tried),
        None => vec![stalled_words(&answer, gearing, tried)],
    };
    answer
}

/// Water that a lift pump raises: in proportion to its speed.
fn water_l_min(design: &Design, load_rpm: f64) -> Option<f64> {
    let l = &design.load;
    let lifts = l.kind.as_ref().is_some_and(|k| k.value == LoadKind::LiftPump);
    let at = l.flow_l_min.as_ref().zip(l.speed_rpm.as_ref()).filter(|_| lifts)?;
    Some(at.0.value * load_rpm / at.1.value)
}

/// Speed of a vehicle on its wheels.
fn road_km_h(load: &LoadCurve, load_rpm: f64) -> Option<f64> {
    match load {
        LoadCurve::Vehicle { wheel_mm, .. } => Some(load_rpm * TAU * wheel_mm * 1e-6 * 60.0),
        _ => None,
    }
}

fn running_words(answer: &LoadAnswer, r: &Running, tried: &Against) -> Vec<String> {
    let what = if answer.speed_ratio_given { "given" } else { "the best" };
    let mut first = format!(
        "turns its load ({}): engine {:.0} rpm, load {:.0} rpm (ratio {:.3}, {what}), {:.2} W at the shaft, {:.2} W at the load",
        answer.kind, r.engine_rpm, r.load_rpm, r.ratio, r.shaft_w, r.load_w
    );
    if let Some((band, turns)) = answer.load_power_band_w.zip(answer.probability) {
        first += &format!(
            ", eight in ten between {:.2} and {:.2} W; {:.0} of 100 such engines turn it",
            band.p10,
            band.p90,
            100.0 * turns
        );
    }
    let mut words = vec![first];
    words.extend(
        answer.water_l_min.map(|l| format!("it lifts {l:.2} L of water a minute, {:.0} L an hour", 60.0 * l)),
    );
    words.extend(answer.road_km_h.map(|v| format!("it drives at {v:.1} km/h")));
    words.extend(tried.start.as_ref().map(|start| {
        let Some(spin) = start.spin_rpm else {
            return "no spin by hand starts it with the load on: start it free and let the load in, by a clutch, an idler or an open valve".to_owned();
        };
        format!("a spin of {spin:.0} rpm starts it with the load on, wherever it is let go")
    }));
    words
}

fn stalled_words(answer: &LoadAnswer, gearing: &Gearing, tried: &Against) -> String {
    let Some(ratio) = gearing.ratio else {
        return format!("cannot turn its load ({}) through any ratio from 1:200 to 200:1", answer.kind);
    };
    let instead = tried.instead.map_or_else(
        || "nor would it through any other from 1:200 to 200:1".to_owned(),
        |r| format!("through a ratio of {:.3} it would, with {:.2} W at the load", r.ratio, r.load_w),
    );
    format!("cannot turn its load ({}) through a ratio of {ratio}: it stalls; {instead}", answer.kind)
}

fn flywheel_answer(design: &Design, engine: &Engine, work: &WorkBreakdown) -> FlywheelAnswer {
    let wheel = &engine.flywheel;
    let wanted = design.flywheel.steadiness.as_ref().map(|s| s.value);
    let found = unsteadiness(work, 0.0);
    let needed = wanted.and_then(|wanted| flywheel_for(work, wheel.inertia_kg_m2, wanted));
    let mut words = vec![format!(
        "flywheel {:.4} kg m2, {:.2} kg, {:.0} mm across{}: speed swings by {} within a turn at {:.0} rpm",
        wheel.inertia_kg_m2,
        wheel.mass_kg,
        wheel.diameter_mm,
        if given(design) { "" } else { " (default: a steel disc, nobody gave one)" },
        found.map_or_else(|| "an unknown part".into(), |u| format!("{:.1} %", 100.0 * u)),
        work.speed_rpm
    )];
    words.extend(wanted.map(|wanted| wanted_words(engine, wanted, found, needed)));
    words.extend(wheel.made.as_ref().map(|made| {
        format!(
            "the flywheel's material carries its own pull up to {:.0} rpm ({:.0} m/s at the rim)",
            made.fastest_rpm,
            rim_m_s(engine, made.fastest_rpm)
        )
    }));
    FlywheelAnswer {
        inertia_kg_m2: wheel.inertia_kg_m2,
        mass_kg: wheel.mass_kg,
        at_speed_rpm: work.speed_rpm,
        unsteadiness: found,
        wanted_unsteadiness: wanted,
        needed_inertia_kg_m2: needed,
        words,
    }
}

/// Whether the design says anything about the wheel itself.
fn given(design: &Design) -> bool {
    let f = &design.flywheel;
    let sizes = [f.inertia_kg_m2.is_some(), f.diameter_mm.is_some(), f.rim_mm.is_some()];
    sizes.contains(&true) || f.width_mm.is_given() || f.material.is_given()
}

fn wanted_words(engine: &Engine, wanted: f64, found: Option<f64>, needed: Option<f64>) -> String {
    let wheel = &engine.flywheel;
    let asked = format!("{:.1} % is asked for", 100.0 * wanted);
    let Some(needed) = needed else { return format!("{asked}: no wheel in reach keeps it") };
    if found.is_some_and(|u| u <= wanted) {
        return format!("{asked} and kept; {needed:.4} kg m2 would do");
    }
    let wider = wheel.made.as_ref().map_or_else(String::new, |made| {
        let width = made.width_mm;
        let much = needed / wheel.inertia_kg_m2;
        format!(
            ": this wheel {:.0} mm wide, or {:.0} mm across",
            width * much,
            wheel.diameter_mm * much.powf(0.25)
        )
    });
    format!("{asked}: it takes a wheel of {needed:.4} kg m2{wider}")
}

/// Speed of the rim beyond which a wheel needs a look at its strength \[m/s\]: cast iron, common practice, no source.
const RIM_M_S: f64 = 30.0;

/// Speed of the flywheel's rim \[m/s\].
fn rim_m_s(engine: &Engine, speed_rpm: f64) -> f64 {
    PI * engine.flywheel.diameter_mm * 1e-3 * speed_rpm / 60.0
}

/// A caution where the rim runs fast, or faster than its material allows.
pub fn rim_caution(engine: &Engine, speed_rpm: f64) -> Option<String> {
    let rim = rim_m_s(engine, speed_rpm);
    let fastest = engine.flywheel.made.as_ref().map(|made| made.fastest_rpm).filter(|most| *most < speed_rpm);
    let over = fastest.map_or_else(String::new, |most| format!(", and its material allows {most:.0} rpm"));
    (rim > RIM_M_S || fastest.is_some())
        .then(|| format!("the flywheel's rim runs at {rim:.0} m/s at {speed_rpm:.0} rpm: it can burst{over}"))
}
