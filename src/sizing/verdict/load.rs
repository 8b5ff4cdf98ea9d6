//! What a load asks for over its speed.

use super::operate::Gearing;
use crate::design::{Load, LoadKind, Setting};
use serde::{Deserialize, Serialize};
use std::f64::consts::TAU;

/// Standard gravity \[m/s²\].
const GRAVITY: f64 = 9.806_65;

/// Torque of a load over the speed of its own shaft.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum LoadCurve {
    /// The same at every speed: a winch, a piston pump against a fixed head.
    Constant {
        /// Torque \[N m\].
        torque_nm: f64,
    },
    /// As the square of the speed (affinity laws of pumps): a centrifugal pump.
    Pump {
        /// Torque \[N m\] at `at_rpm`.
        torque_nm: f64,
        /// Speed \[rpm\].
        at_rpm: f64,
    },
    /// As the square of the speed (affinity laws of fans).
    Fan {
        /// Torque \[N m\] at `at_rpm`.
        torque_nm: f64,
        /// Speed \[rpm\].
        at_rpm: f64,
    },
    /// A permanent-magnet generator on a resistance: torque in proportion to speed, after its cogging.
    Generator {
        /// Torque for each rpm \[N m\].
        torque_nm_rpm: f64,
        /// Cogging and bearing torque \[N m\].
        idle_nm: f64,
    },
    /// A vehicle on its wheels: rolling, air and slope.
    Vehicle {
        /// Mass \[kg\].
        mass_kg: f64,
        /// Rolling resistance over weight.
        rolling: f64,
        /// Drag coefficient times frontal area \[m²\].
        drag_m2: f64,
        /// Slope, rise over way.
        slope: f64,
        /// Radius of the driven wheel \[mm\].
        wheel_mm: f64,
    },
}

/// Density of the air that a vehicle drives through \[kg/m³\].
const AIR_KG_M3: f64 = 1.2;
/// Density of water \[kg/m³\].
const WATER_KG_M3: f64 = 1000.0;

/// Angular speed \[rad/s\].
fn omega(speed_rpm: f64) -> f64 {
    TAU * speed_rpm / 60.0
}

/// The load of a design and its drive; `None` where the design has none.
pub fn load_of(design: &Load) -> Option<(LoadCurve, Gearing)> {
    let kind = design.kind.as_ref()?.value;
    // reading has made sure that the keys of the kind are there
    let of = |setting: &Option<Setting<f64>>| setting.as_ref().map(|s| s.value);
    let speed_rpm = of(&design.speed_rpm);
    let torque_nm = of(&design.torque_nm).or_else(|| Some(of(&design.power_w)? / omega(speed_rpm?)));
    let load = match kind {
        LoadKind::ConstantTorque => LoadCurve::Constant { torque_nm: torque_nm? },
        LoadKind::LiftPump => LoadCurve::Constant { torque_nm: lift_nm(design)? },
        LoadKind::Pump => LoadCurve::Pump { torque_nm: torque_nm?, at_rpm: speed_rpm? },
        LoadKind::Fan => LoadCurve::Fan { torque_nm: torque_nm?, at_rpm: speed_rpm? },
        LoadKind::Generator => {
            let idle_nm = of(&design.idle_nm).unwrap_or(0.0);
            LoadCurve::Generator { torque_nm_rpm: (torque_nm? - idle_nm) / speed_rpm?, idle_nm }
        }
        LoadKind::Vehicle => LoadCurve::Vehicle {
            mass_kg: of(&design.mass_kg)?,
            rolling: of(&design.rolling)?,
            drag_m2: of(&design.drag_m2)?,
            slope: of(&design.slope).unwrap_or(0.0),
            wheel_mm: 0.5 * of(&design.wheel_mm)?,
        },
    };
    Some((load, Gearing { ratio: of(&design.speed_ratio), efficiency: design.drive_efficiency.value }))
}

/// Torque of a pump that lifts a volume each turn \[N m\]: ρ g H Q/(η ω), the same at every speed.
fn lift_nm(design: &Load) -> Option<f64> {
    let of = |setting: &Option<Setting<f64>>| setting.as_ref().map(|s| s.value);
    let flow_m3_s = of(&design.flow_l_min)? * 1e-3 / 60.0;
    let water_w = WATER_KG_M3 * GRAVITY * of(&design.head_mm)? * 1e-3 * flow_m3_s;
    Some(water_w / (of(&design.pump_efficiency)? * omega(of(&design.speed_rpm)?)))
}

impl LoadCurve {
    /// Inertia at the load's shaft where it is known \[kg m²\]: that of a vehicle's mass on its wheels.
    pub fn inertia_kg_m2(&self) -> f64 {
        match *self {
            Self::Vehicle { mass_kg, wheel_mm, .. } => mass_kg * (wheel_mm * 1e-3).powi(2),
            _ => 0.0,
        }
    }

    /// Torque at the load's shaft \[N m\] at its speed \[rpm\].
    pub fn torque_nm(&self, speed_rpm: f64) -> f64 {
        match *self {
            Self::Constant { torque_nm } => torque_nm,
            Self::Pump { torque_nm, at_rpm } | Self::Fan { torque_nm, at_rpm } => {
                torque_nm * (speed_rpm / at_rpm).powi(2)
            }
            Self::Generator { torque_nm_rpm, idle_nm } => idle_nm + torque_nm_rpm * speed_rpm,
            Self::Vehicle { mass_kg, rolling, drag_m2, slope, wheel_mm } => {
                let speed_m_s = TAU * speed_rpm / 60.0 * wheel_mm * 1e-3;
                let along = (1.0 + slope * slope).sqrt();
                let weight_n = mass_kg * GRAVITY * (rolling + slope) / along;
                (weight_n + 0.5 * AIR_KG_M3 * drag_m2 * speed_m_s * speed_m_s) * wheel_mm * 1e-3
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 30 kg with 0.01 on the flat is 2.942 N; 0.05 m² at 2 m/s (wheel 100 mm, 190.99 rpm) adds 0.12 N:
    /// 3.062 N × 0.1 m.
    #[test]
    fn a_vehicle_of_a_hand_calculation() {
        let v =
            LoadCurve::Vehicle { mass_kg: 30.0, rolling: 0.01, drag_m2: 0.05, slope: 0.0, wheel_mm: 100.0 };
        assert!((v.torque_nm(190.986) - 0.306_200).abs() < 1e-5);
    }

    #[test]
    fn a_pump_asks_for_four_times_the_torque_at_twice_the_speed() {
        let p = LoadCurve::Pump { torque_nm: 0.1, at_rpm: 500.0 };
        assert!((p.torque_nm(1000.0) - 0.4).abs() < 1e-12);
        let g = LoadCurve::Generator { torque_nm_rpm: 1e-3, idle_nm: 0.02 };
        assert!((g.torque_nm(100.0) - 0.12).abs() < 1e-12);
    }
}
