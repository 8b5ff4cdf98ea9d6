//! The sized gamma engine as the isothermal model sees it.

use super::exchange::Exchange;
use super::heat_paths::HeatPaths;
use super::isothermal::{GAP, IsothermalEngine};
use super::net_work::VerdictError;
use crate::catalogue::gases::Gas;
use crate::catalogue::gaskets::gasket_sheet;
use crate::catalogue::materials::material;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::{mechanism, volume_law};
use crate::sizing::losses::gas_spring::GasSpring;
use crate::sizing::losses::joint_conduction::{Joint, in_a_row_w_k};
use crate::sizing::losses::radiation::Hollow;
use crate::sizing::losses::shuttle::Shuttle;
use crate::sizing::losses::wall_conduction::Tube;
use crate::sizing::mechanism::Choices;
use crate::sizing::volumes::{Arrangement, circle_mm2};
use std::f64::consts::PI;

/// What the engine works in, beyond its dimensions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surroundings {
    /// Working gas.
    pub gas: &'static Gas,
    /// Mean pressure where nothing leaks \[Pa\].
    pub charge_pa: f64,
    /// Pressure behind the piston \[Pa\].
    pub buffer_pa: f64,
    /// Leak for each millimetre of piston bore \[kg/(s Pa mm)\].
    pub leak_kg_s_pa_mm: f64,
    /// Film of the gas in the end spaces \[W/(m² K)\].
    pub film_w_m2_k: f64,
    /// Emissivity inside the displacer.
    pub emissivity: f64,
    /// Power of the heater \[W\], where it is known.
    pub heater_w: Option<f64>,
    /// Highest that the hot wall may have \[K\].
    pub hot_limit_k: Option<f64>,
    /// Highest pressure allowed \[Pa\].
    pub pressure_limit_pa: Option<f64>,
    /// Friction and what else the builder chooses.
    pub choices: Choices,
}

impl Surroundings {
    /// Open to the air: charge and buffer at `charge_pa`. Leak 1e-8 kg/(s Pa) on a bore of 64 mm and a film of
    /// 60 W/(m² K) are orders of magnitude without a source; emissivity 0.4 of oxidised stainless steel is from
    /// memory.
    pub fn new(gas: &'static Gas, charge_pa: f64) -> Self {
        Self {
            gas,
            charge_pa,
            buffer_pa: charge_pa,
            leak_kg_s_pa_mm: 1e-8 / 64.0,
            film_w_m2_k: 60.0,
            emissivity: 0.4,
            heater_w: None,
            hot_limit_k: None,
            pressure_limit_pa: None,
            choices: Choices::default(),
        }
    }
}

/// Mean conductivity of a material between two temperatures \[W/(m K)\]; that of stainless steel where it is unknown.
fn conducts(name: &str, from_k: f64, to_k: f64) -> f64 {
    material(name).map_or(18.0, |m| m.conductivity_w_m_k(0.5 * (from_k + to_k) - 273.15))
}

/// Hot cap, from where the stroke no longer bathes it, and joint behind it.
fn cylinder_w_k(e: &Engine, hot_k: f64, cold_k: f64) -> f64 {
    let cap = &e.hot_cap;
    let bathed = e.displacer.stroke_mm + e.displacer.hot_clearance_mm;
    let wall = Tube {
        conductivity_w_m_k: conducts(&cap.material, hot_k, cold_k),
        diameter_mm: e.displacer.bore_mm + cap.wall_mm,
        wall_mm: cap.wall_mm,
        length_mm: (cap.depth_mm - bathed).max(0.1 * cap.depth_mm),
    };
    let sheet = gasket_sheet(&e.joints.hot_sheet).map_or("paper-oiled", |s| s.material.as_str());
    let joint = Joint {
        gasket_w_m_k: conducts(sheet, cold_k, cold_k),
        diameters_mm: [e.displacer.bore_mm, e.cold.flange_diameter_mm],
        thickness_mm: e.joints.gasket_mm,
        screws: e.joints.hot.count,
        screw_w_m_k: conducts("mild-steel", cold_k, cold_k),
        screw_mm: e.joints.hot.thread.major_mm,
        screw_length_mm: cap.flange_mm + e.joints.gasket_mm,
    };
    in_a_row_w_k(wall.conductance_w_k(), joint.conductance_w_k())
}

pub(super) fn paths(e: &Engine, s: &Surroundings) -> HeatPaths {
    let (hot_k, cold_k, d) = (e.hot_cap.temperature_k, e.cold.temperature_k, &e.displacer);
    let shell = Tube {
        conductivity_w_m_k: conducts(&d.material, hot_k, cold_k),
        diameter_mm: d.diameter_mm - d.shell_wall_mm,
        wall_mm: d.shell_wall_mm,
        length_mm: d.length_mm,
    };
    HeatPaths {
        shuttle: Shuttle {
            gas_w_m_k: s.gas.conductivity_w_m_k(0.5 * (hot_k + cold_k)),
            diameter_mm: d.bore_mm,
            stroke_mm: d.stroke_mm,
            gap_mm: d.gap_mm,
            length_mm: d.length_mm,
        },
        cylinder_w_k: cylinder_w_k(e, hot_k, cold_k),
        shell_w_k: shell.conductance_w_k()
            + d.regenerator.as_ref().map_or(0.0, |r| r.along_w_k(conducts(&r.material, hot_k, cold_k))),
        inside: Hollow { area_mm2: circle_mm2(d.diameter_mm), emissivity: s.emissivity, shields: 0 },
        closed_gap: None,
    }
}

/// Mean bathed area of an end space with a face on either side \[mm²\].
fn end_mm2(bore_mm: f64, stroke_mm: f64) -> f64 {
    2.0 * circle_mm2(bore_mm) + PI * bore_mm * 0.5 * stroke_mm
}

fn exchange(e: &Engine, s: &Surroundings) -> Exchange {
    let (d, p) = (&e.displacer, &e.piston);
    let hot = end_mm2(d.bore_mm, d.stroke_mm);
    let cold = hot + end_mm2(p.bore_mm, p.stroke_mm);
    Exchange {
        hot_w_k: s.film_w_m2_k * hot * 1e-6,
        cold_w_k: s.film_w_m2_k * cold * 1e-6,
        gap_mm: d.gap_mm,
        gap_mm2: 2.0 * PI * d.diameter_mm * d.length_mm,
    }
}

fn spring(bore_mm: f64, height_mm: f64, t_k: f64, gas: &Gas) -> GasSpring {
    GasSpring {
        volume_cm3: circle_mm2(bore_mm) * height_mm * 1e-3,
        area_cm2: 1e-2 * (2.0 * circle_mm2(bore_mm) + PI * bore_mm * height_mm),
        gamma: gas.gamma(t_k),
        gas_w_m_k: gas.conductivity_w_m_k(t_k),
        temperature_k: t_k,
    }
}

fn springs(e: &Engine, gas: &Gas) -> Vec<GasSpring> {
    let (d, p) = (&e.displacer, &e.piston);
    let half = 0.5 * d.stroke_mm;
    vec![
        spring(d.bore_mm, half + d.hot_clearance_mm, e.hot_cap.temperature_k, gas),
        spring(d.bore_mm, half + d.cold_clearance_mm, e.cold.temperature_k, gas),
        spring(p.bore_mm, 0.5 * p.stroke_mm + p.top_clearance_mm, e.cold.temperature_k, gas),
    ]
}

/// The engine for the verdict's isothermal model.
///
/// # Errors
/// [`VerdictError::Mechanism`] where a con rod is too short to turn.
pub fn isothermal_engine(e: &Engine, s: &Surroundings) -> Result<IsothermalEngine, VerdictError> {
    let law = volume_law(e)?;
    let Arrangement::Gamma { displacer, piston } = *law.arrangement() else {
        return Err(VerdictError::Model("this model is for gamma engines".into()));
    };
    debug_assert!(law.dead().iter().any(|d| d.name == GAP));
    Ok(IsothermalEngine {
        displacer,
        piston,
        dead: law.dead().to_vec(),
        mechanism: mechanism(e, &s.choices)?,
        gas: s.gas,
        hot_k: e.hot_cap.temperature_k,
        cold_k: e.cold.temperature_k,
        charge_pa: s.charge_pa,
        buffer_pa: s.buffer_pa,
        leak_kg_s_pa: s.leak_kg_s_pa_mm * e.piston.bore_mm,
        exchange: Some(exchange(e, s)),
        paths: Some(paths(e, s)),
        springs: springs(e, s.gas),
        heater_w: s.heater_w,
        hot_limit_k: s.hot_limit_k,
        pressure_limit_pa: s.pressure_limit_pa,
        gap_mm: e.displacer.gap_mm,
        points: 180,
    })
}
