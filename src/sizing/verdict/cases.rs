//! Engines for the tests of this module: a small gamma, and formulas in the place of a model.

use super::change::Change;
use super::exchange::Exchange;
use super::heat_paths::HeatPaths;
use super::isothermal::{GAP, IsothermalEngine};
use super::net_work::{Facts, HeatBalance, NetWork, VerdictError, WorkBreakdown};
use crate::catalogue::gases::gas;
use crate::sizing::losses::gas_spring::GasSpring;
use crate::sizing::losses::radiation::Hollow;
use crate::sizing::losses::shuttle::Shuttle;
use crate::sizing::mechanism::{Motion, test_cases};
use crate::sizing::volumes::{Arrangement, DeadVolume, Displacer, Piston, VolumeLaw, Zone, circle_mm2};
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

/// Volumes of the drive of the mechanism's tests: displacer 96 × 40 mm, piston 64 × 32 mm.
pub fn law() -> VolumeLaw {
    let e = engine();
    VolumeLaw::new(Arrangement::Gamma { displacer: e.displacer, piston: e.piston }, 90.0, e.dead)
}

/// A gamma engine at the pressure of the air; heat transfer good, leak that of a first build.
pub fn engine() -> IsothermalEngine {
    let mechanism = test_cases::mechanism();
    let (bore, area_mm2) = (circle_mm2(96.0), circle_mm2(64.0));
    let displacer = Displacer {
        motion: Motion::SliderCrank(mechanism.displacer.crank),
        hot_area_mm2: bore,
        cold_area_mm2: bore - circle_mm2(6.0),
        hot_clearance_m3: 10e-6,
        cold_clearance_m3: 12e-6,
    };
    let piston = Piston { motion: Motion::SliderCrank(mechanism.piston.crank), area_mm2, clearance_m3: 4e-6 };
    let one = |name: &str, cm3: f64, zone| DeadVolume { name: name.into(), volume_m3: cm3 * 1e-6, zone };
    let air = gas("air").unwrap();
    IsothermalEngine {
        displacer,
        piston,
        dead: vec![one(GAP, 18.0, Zone::Between), one("port", 8.0, Zone::Cold)],
        mechanism,
        gas: air,
        hot_k: 773.0,
        cold_k: 323.0,
        charge_pa: 101_325.0,
        buffer_pa: 101_325.0,
        leak_kg_s_pa: 1e-9,
        exchange: Some(Exchange { hot_w_k: 1.2, cold_w_k: 1.8, gap_mm: 0.6, gap_mm2: 55_000.0 }),
        paths: Some(HeatPaths {
            shuttle: Shuttle {
                gas_w_m_k: 0.042,
                diameter_mm: 96.0,
                stroke_mm: 40.0,
                gap_mm: 0.6,
                length_mm: 100.0,
            },
            cylinder_w_k: 0.15,
            shell_w_k: 0.03,
            inside: Hollow { area_mm2: bore, emissivity: 0.4, shields: 0 },
            closed_gap: None,
        }),
        springs: vec![GasSpring {
            volume_cm3: 60.0,
            area_cm2: 100.0,
            gamma: 1.4,
            gas_w_m_k: 0.028,
            temperature_k: 323.0,
        }],
        heater_w: None,
        hot_limit_k: Some(873.0),
        pressure_limit_pa: Some(1e6),
        gap_mm: 0.6,
        points: 180,
    }
}
