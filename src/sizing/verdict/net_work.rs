//! What the verdict asks of a model of the whole engine, cycle and mechanism together.

use super::change::Change;
use crate::sizing::cycle::CycleError;
use crate::sizing::mechanism::{DriveError, FrictionWork, MechanismError};
use crate::sizing::result::Loss;

/// A model that knows the work left at the shaft. The full model plugs in here.
pub trait NetWork: Sync {
    /// One turn at a steady speed, with one thing or more changed.
    ///
    /// # Errors
    /// [`VerdictError`] where the changed engine cannot be, or the model has no answer that it stands by.
    fn at(&self, speed_rpm: f64, change: &Change) -> Result<WorkBreakdown, VerdictError>;

    /// Sizes and temperatures of the changed engine that reasons quote.
    fn facts(&self, change: &Change) -> Facts;
}

/// Why there is no verdict.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum VerdictError {
    /// The cycle has no answer.
    #[error(transparent)]
    Cycle(#[from] CycleError),
    /// The crank cannot turn.
    #[error(transparent)]
    Mechanism(#[from] MechanismError),
    /// The drive has no answer.
    #[error(transparent)]
    Drive(#[from] DriveError),
    /// A number that must be positive and finite is not.
    #[error("{what} must be more than zero, not {value}")]
    NotPositive {
        /// Which.
        what: &'static str,
        /// Its value.
        value: f64,
    },
    /// A model of its own kind has no answer.
    #[error("{0}")]
    Model(String),
}

/// Where the work of one turn goes, and the heat with it.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkBreakdown {
    /// Speed \[rpm\].
    pub speed_rpm: f64,
    /// Work of the gas, after leakage and hysteresis \[J\].
    pub indicated_j: f64,
    /// Work that leakage has cost already \[J\].
    pub leak_j: f64,
    /// Work that the hysteresis of gas springs has cost already \[J\].
    pub hysteresis_j: f64,
    /// Work that the friction of the flow has cost already \[J\].
    pub flow_j: f64,
    /// Work that the mechanism must put into the gas in parts of the turn \[J\].
    pub forced_j: f64,
    /// Friction of the mechanism by name.
    pub friction: Vec<FrictionWork>,
    /// Work left at the shaft \[J\].
    pub net_j: f64,
    /// Torque over the turn on an even grid, without that of inertia \[N m\].
    pub torque_nm: Vec<f64>,
    /// Inertia over the turn on the same grid \[kg m²\].
    pub inertia_kg_m2: Vec<f64>,
    /// Greatest pressure \[Pa\].
    pub pressure_max_pa: f64,
    /// Least pressure \[Pa\].
    pub pressure_min_pa: f64,
    /// Mean pressure \[Pa\].
    pub pressure_mean_pa: f64,
    /// Heat.
    pub heat: HeatBalance,
}

/// Heat at one speed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HeatBalance {
    /// Temperature of the hot wall \[K\].
    pub hot_wall_k: f64,
    /// Mean temperature of the hot gas \[K\].
    pub hot_gas_k: f64,
    /// Mean temperature of the cold gas \[K\].
    pub cold_gas_k: f64,
    /// Heat that the cycle takes in \[W\].
    pub cycle_w: f64,
    /// Heat that goes from hot to cold without working, by name \[W\].
    pub losses: Vec<Loss>,
    /// Heat to supply in all \[W\].
    pub supply_w: f64,
}

impl WorkBreakdown {
    /// Mean torque at the shaft \[N m\].
    pub fn mean_torque_nm(&self) -> f64 {
        self.net_j / std::f64::consts::TAU
    }

    /// Power at the shaft \[W\].
    pub fn power_w(&self) -> f64 {
        self.net_j * self.speed_rpm / 60.0
    }

    /// All friction of the mechanism \[J\].
    pub fn friction_j(&self) -> f64 {
        self.friction.iter().map(|f| f.work_j).sum()
    }
}

/// Figures that reasons quote.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Facts {
    /// Piston stroke \[mm\].
    pub piston_stroke_mm: f64,
    /// Displacer stroke \[mm\].
    pub displacer_stroke_mm: f64,
    /// Bore of the piston where one crankpin ties lead and both strokes, so that only the bore can change what the
    /// piston sweeps \[mm\].
    pub tied_bore_mm: Option<f64>,
    /// Way of a free piston when the displacer is shifted slowly from end to end, at wall temperatures \[mm\].
    pub free_travel_mm: Option<f64>,
    /// Displacer gap, where there is one \[mm\].
    pub gap_mm: Option<f64>,
    /// Dead volumes and clearances without the gap \[cm³\].
    pub dead_cm3: f64,
    /// Volume swept by the displacer \[cm³\].
    pub displacer_cm3: f64,
    /// Hot wall \[K\].
    pub hot_k: f64,
    /// Highest that the hot wall may have \[K\].
    pub hot_limit_k: Option<f64>,
    /// Most heat that the heater gives, where it is known \[W\].
    pub heater_w: Option<f64>,
    /// Cold wall \[K\].
    pub cold_k: f64,
    /// Highest pressure allowed \[Pa\].
    pub pressure_limit_pa: Option<f64>,
    /// Whether a belt joins the cranks.
    pub has_belt: bool,
}
