//! The gas cycle: pressure, work and heat over one turn. Every model answers through [`CycleModel`].

pub mod adiabatic;
mod anderson;
#[cfg(test)]
mod cases;
pub mod detail;
pub mod forced_work;
pub mod free_travel;
pub mod full;
pub mod isothermal;
pub mod numeric;
pub mod path;
pub mod transfer;

pub use adiabatic::Adiabatic;
pub use full::Full;

use super::volumes::{VolumeLaw, Zone};
use detail::Detail;
use path::GasPath;
use serde::{Deserialize, Serialize};
use std::f64::consts::TAU;

/// How the temperature between hot and cold is averaged.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MeanTemperature {
    /// (T_h − T_k) / ln(T_h / T_k): gas temperature falls evenly along the way (I. Urieli and
    /// D. M. Berchowitz, Stirling Cycle Engine Analysis, 1984).
    #[default]
    Logarithmic,
    /// ½ (T_h + T_k) (K. Hirata, "Schmidt theory for Stirling engines", assumption f).
    Arithmetic,
}

/// Gas temperatures of an engine.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Temperatures {
    /// Hot end \[K\].
    pub hot_k: f64,
    /// Cold end \[K\].
    pub cold_k: f64,
    /// Mean in between.
    pub mean: MeanTemperature,
}

impl Temperatures {
    /// Temperature between hot and cold \[K\].
    pub fn between_k(&self) -> f64 {
        let middle = 0.5 * (self.hot_k + self.cold_k);
        let z = (self.hot_k - self.cold_k) / (self.hot_k + self.cold_k);
        match self.mean {
            MeanTemperature::Arithmetic => middle,
            // ln(T_h/T_k) = 2 artanh z; the series stands in where both temperatures are nearly the same.
            MeanTemperature::Logarithmic if z.abs() < 1e-4 => middle * (1.0 - z * z / 3.0),
            MeanTemperature::Logarithmic => middle * z / z.atanh(),
        }
    }

    /// Temperature of a zone \[K\].
    pub fn of_k(&self, zone: Zone) -> f64 {
        match zone {
            Zone::Hot => self.hot_k,
            Zone::Between => self.between_k(),
            Zone::Cold => self.cold_k,
        }
    }
}

/// How much gas there is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Charge {
    /// So much that the mean pressure over the crank angle is this \[Pa\].
    MeanPressure(f64),
    /// This mass \[kg\].
    Mass(f64),
}

/// What every model of the cycle needs to know.
#[derive(Clone, Copy, Debug)]
pub struct CycleInput<'a> {
    /// Volumes over the turn.
    pub volumes: &'a VolumeLaw,
    /// Gas temperatures.
    pub temperatures: Temperatures,
    /// Specific gas constant \[J/(kg K)\].
    pub gas_constant_j_kg_k: f64,
    /// Ratio of the heat capacities γ, constant over the turn; the isothermal model does not ask for it.
    pub heat_capacity_ratio: f64,
    /// Amount of gas.
    pub charge: Charge,
    /// Gas path for the full model; the ideal ones do not ask for it. Its volumes, temperatures, gas and charge
    /// stand above the fields beside it: [`GasPath::input`] fills both from one source.
    pub path: Option<&'a GasPath>,
    /// Points of the loop to hand back, evenly spread over the turn; 360 is smooth to the eye.
    pub points: usize,
}

/// One point of the loop.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CyclePoint {
    /// Crank angle \[degree\].
    pub angle_deg: f64,
    /// Hot space \[m³\].
    pub hot_m3: f64,
    /// Cold space and power cylinder \[m³\].
    pub cold_m3: f64,
    /// All gas, dead volumes included \[m³\].
    pub total_m3: f64,
    /// Pressure \[Pa\].
    pub pressure_pa: f64,
}

/// What happens in one turn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CycleResult {
    /// Greatest pressure \[Pa\].
    pub pressure_max_pa: f64,
    /// Least pressure \[Pa\].
    pub pressure_min_pa: f64,
    /// Mean pressure over the crank angle \[Pa\].
    pub pressure_mean_pa: f64,
    /// Work of the gas on all moving faces \[J\].
    pub work_j: f64,
    /// Work in the hot space \[J\].
    pub hot_work_j: f64,
    /// Work in the cold space and the power cylinder, negative in an engine \[J\].
    pub cold_work_j: f64,
    /// Heat taken in at the hot end \[J\]; negative in a heat pump.
    pub heat_in_j: f64,
    /// Heat given off at the cold end \[J\]; negative in a refrigerator.
    pub heat_out_j: f64,
    /// Gas in the engine \[kg\].
    pub mass_kg: f64,
    /// Work for each unit of heat taken in; absent where no heat is taken in.
    pub efficiency: Option<f64>,
    /// Greatest change of mean pressure and works when the steps are doubled, relative; absent for a
    /// closed form.
    pub step_error: Option<f64>,
    /// The loop over one turn; the last point is not the first one again.
    #[serde(rename = "loop")]
    pub points: Vec<CyclePoint>,
    /// What else the model knows.
    #[serde(default)]
    pub detail: Detail,
}

/// A model of the gas cycle.
pub trait CycleModel {
    /// Plain name for reports, for example `isothermal`.
    fn name(&self) -> &'static str;

    /// Solves one turn in cyclic steady state.
    ///
    /// # Errors
    /// [`CycleError`] where the input is no engine or the model does not apply.
    fn solve(&self, input: &CycleInput<'_>) -> Result<CycleResult, CycleError>;
}

/// Why there is no cycle.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CycleError {
    /// A quantity that must be positive and finite is not.
    #[error("{what} must be more than zero, not {value}")]
    NotPositive {
        /// Which.
        what: &'static str,
        /// Its value.
        value: f64,
    },
    /// A space or a dead volume comes out below nothing: something would touch.
    #[error("{what} would shrink to {least_cm3:.4} cm3")]
    NegativeVolume {
        /// Which.
        what: String,
        /// Least volume \[cm³\].
        least_cm3: f64,
    },
    /// The lead angle is no finite number.
    #[error("the lead angle is no finite number")]
    NoLead,
    /// The full model needs the gas path.
    #[error("the full model needs a gas path: heat transfer surfaces, speed and leaks")]
    NoPath,
    /// Power cylinder and port belong to gamma engines and to no other.
    #[error("only a gamma engine has a power cylinder in its gas path, and only beside one there is a port")]
    PowerSpace,
    /// A step of the full model found no state, for example because a cell ran empty.
    #[error("no state of the gas at {angle_deg:.0} degrees: still off by {error:.1e}")]
    StepFailed {
        /// Crank angle \[degree\].
        angle_deg: f64,
        /// Relative change at the last try.
        error: f64,
    },
    /// The closed form holds for harmonic motion only.
    #[error("the closed form holds for harmonic motion only; the engine has a con rod")]
    NotHarmonic,
    /// The layout has no displacer that could be shifted.
    #[error("free travel is a test for displacer engines; an alpha engine has none")]
    NoDisplacer,
    /// The state does not come back to itself after this many turns.
    #[error("no steady state within {turns} turns: still off by {change:.1e}")]
    NotSteady {
        /// Turns run through.
        turns: usize,
        /// Greatest relative change of state over the last one.
        change: f64,
    },
    /// Doubling the steps up to the limit did not settle the result.
    #[error("not settled within {steps} steps a turn: still off by {error:.1e}")]
    NotSettled {
        /// Steps at the end.
        steps: usize,
        /// Relative change at the last doubling.
        error: f64,
    },
}

/// Isothermal model: the closed form where the motion is harmonic, numeric where it is not.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Isothermal;

impl CycleModel for Isothermal {
    fn name(&self) -> &'static str {
        "isothermal"
    }

    fn solve(&self, input: &CycleInput<'_>) -> Result<CycleResult, CycleError> {
        match isothermal::ClosedForm.solve(input) {
            Err(CycleError::NotHarmonic) => numeric::Numeric::default().solve(input),
            solved => solved,
        }
    }
}

impl CycleInput<'_> {
    /// Refuses what is no engine.
    ///
    /// # Errors
    /// [`CycleError::NotPositive`], [`CycleError::NegativeVolume`].
    pub fn check(&self) -> Result<(), CycleError> {
        let (Charge::MeanPressure(amount) | Charge::Mass(amount)) = self.charge;
        let fixed = [
            ("hot temperature", self.temperatures.hot_k),
            ("cold temperature", self.temperatures.cold_k),
            ("gas constant", self.gas_constant_j_kg_k),
            ("charge", amount),
        ];
        let mut positive = fixed.into_iter().chain(self.volumes.swept_m3());
        if let Some((what, value)) = positive.find(|(_, v)| !(*v > 0.0 && v.is_finite())) {
            return Err(CycleError::NotPositive { what, value });
        }
        if !self.volumes.lead_rad().is_finite() {
            return Err(CycleError::NoLead);
        }
        // A space may shrink to nothing, within rounding of its own size, but not below.
        let rounding_m3 = 1e-12 * self.volumes.at(0.0).moving_m3().abs();
        match self.least_volumes().find(|(_, least_m3)| !(*least_m3 >= -rounding_m3 && least_m3.is_finite()))
        {
            None => Ok(()),
            Some((what, least_m3)) => {
                Err(CycleError::NegativeVolume { what: what.into(), least_cm3: least_m3 * 1e6 })
            }
        }
    }

    /// Name and least value \[m³\] of every space and dead volume.
    fn least_volumes(&self) -> impl Iterator<Item = (&str, f64)> {
        let least = self.volumes.least();
        let moving =
            [("hot space", least.hot_m3), ("cold space", least.cold_m3), ("power cylinder", least.power_m3)];
        moving.into_iter().chain(self.volumes.dead().iter().map(|d| (d.name.as_str(), d.volume_m3)))
    }

    /// Σ V/T over the dead volumes \[m³/K\].
    pub fn dead_over_temperature_m3_k(&self) -> f64 {
        self.volumes.dead().iter().map(|d| d.volume_m3 / self.temperatures.of_k(d.zone)).sum()
    }

    /// The loop with the pressure as a function of the crank angle \[rad → Pa\].
    fn loop_of(&self, pressure_pa: impl Fn(f64) -> f64) -> Vec<CyclePoint> {
        let dead_m3 = self.volumes.dead_m3();
        let point = |i: usize| {
            let turn = i as f64 / self.points as f64;
            let spaces = self.volumes.at(TAU * turn);
            CyclePoint {
                angle_deg: 360.0 * turn,
                hot_m3: spaces.hot_m3,
                cold_m3: spaces.all_cold_m3(),
                total_m3: spaces.moving_m3() + dead_m3,
                pressure_pa: pressure_pa(TAU * turn),
            }
        };
        (0..self.points).map(point).collect()
    }
}

/// Work for each unit of heat, where heat is taken in.
fn efficiency(work_j: f64, heat_in_j: f64) -> Option<f64> {
    (heat_in_j > 0.0).then(|| work_j / heat_in_j)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Text-book logarithmic mean: (800 − 320) / ln 2.5 = 523.851 K.
    #[test]
    fn means_of_the_temperature() {
        let t = |hot_k, cold_k, mean| Temperatures { hot_k, cold_k, mean }.between_k();
        assert!((t(800.0, 320.0, MeanTemperature::Logarithmic) - 480.0 / 2.5_f64.ln()).abs() < 1e-10);
        assert_eq!(t(800.0, 320.0, MeanTemperature::Arithmetic), 560.0);
        assert_eq!(t(300.0, 300.0, MeanTemperature::Logarithmic), 300.0);
        let (just_below, just_above) = (
            t(300.0599, 300.0, MeanTemperature::Logarithmic),
            t(300.0601, 300.0, MeanTemperature::Logarithmic),
        );
        assert!((just_above - just_below - 1e-4).abs() < 1e-8, "no step where the series takes over");
    }
}
