//! Engines for the tests of this module: a sample engine, and formulas in the place of a model.

use super::change::Change;
use super::full::FullEngine;
use super::net_work::{Facts, HeatBalance, NetWork, VerdictError, WorkBreakdown};
use crate::design::read;
use crate::sizing::answer::full_engine;
use crate::sizing::layouts;
use std::f64::consts::TAU;

/// Torque by a formula of angle \[rad\] and speed \[rpm\].
pub struct Formula {
    torque_nm: Box<dyn Fn(f64, f64) -> f64 + Sync>,
    inertia_kg_m2: f64,
}

impl Formula {
    /// The same torque over the turn.
    pub fn torque(f: impl Fn(f64) -> f64 + Sync + 'static) -> Self {
        Self::over_turn(move |_, rpm| f(rpm), 0.01)
    }

    /// A torque that changes over the turn.
    pub fn over_turn(f: impl Fn(f64, f64) -> f64 + Sync + 'static, inertia_kg_m2: f64) -> Self {
        Self { torque_nm: Box::new(f), inertia_kg_m2 }
    }
}

impl NetWork for Formula {
    fn at(&self, speed_rpm: f64, _: &Change) -> Result<WorkBreakdown, VerdictError> {
        let angle = |i: u32| f64::from(i) * TAU / 720.0;
        let torque_nm: Vec<f64> = (0..720).map(|i| (self.torque_nm)(angle(i), speed_rpm)).collect();
        let net_j = torque_nm.iter().sum::<f64>() * TAU / 720.0;
        if !net_j.is_finite() {
            return Err(VerdictError::Model("no number".into()));
        }
        Ok(WorkBreakdown {
            speed_rpm,
            indicated_j: net_j,
            leak_j: 0.0,
            hysteresis_j: 0.0,
            flow_j: 0.0,
            forced_j: 0.0,
            friction: vec![],
            net_j,
            inertia_kg_m2: vec![self.inertia_kg_m2; torque_nm.len()],
            torque_nm,
            pressure_max_pa: 1e5,
            pressure_min_pa: 1e5,
            pressure_mean_pa: 1e5,
            heat: HeatBalance::default(),
        })
    }

    fn facts(&self, _: &Change) -> Facts {
        Facts::default()
    }
}

/// The pump engine of the sample designs.
pub fn engine() -> FullEngine {
    let sample = include_bytes!("../../../sample-designs/allotment-pump.toml");
    let (design, _) = read("allotment-pump.toml", sample, &[]).unwrap();
    full_engine(&design, &layouts::size(&design).unwrap())
}
