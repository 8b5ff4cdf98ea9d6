//! Any model of the cycle, joined to the drive.
//!
//! A model hands over one turn of its gas; what the drive makes of it is the same for all of them.

use super::net_work::{HeatBalance, VerdictError, WorkBreakdown};
use crate::sizing::cycle::CycleResult;
use crate::sizing::cycle::forced_work::ForcedWork;
use crate::sizing::mechanism::{FrictionFactors, GasLoop, Mechanism, drive_forces};
use std::f64::consts::TAU;

/// One turn of the gas in steady state at one speed.
#[derive(Clone, Debug, PartialEq)]
pub struct CycleTurn {
    /// Pressures on an even grid.
    pub gas: GasLoop,
    /// All moving volume on the same grid, a constant more or less \[m³\].
    pub volume_m3: Vec<f64>,
    /// Work that leakage has cost already; for reading only \[J\].
    pub leak_j: f64,
    /// Work that the friction of the flow has cost already; for reading only \[J\].
    pub flow_j: f64,
    /// Work that is still to be taken off, evenly over the turn: hysteresis of gas springs where the loop does not hold
    /// it \[J\].
    pub hysteresis_j: f64,
    /// Heat.
    pub heat: HeatBalance,
}

impl CycleTurn {
    /// Turn of a solved cycle at a speed \[rpm\], with its heat alone.
    pub fn of_result(cycle: &CycleResult, buffer_pa: f64, speed_rpm: f64) -> Self {
        let cycle_w = cycle.heat_in_j * speed_rpm / 60.0;
        Self {
            gas: GasLoop {
                pressure_pa: cycle.points.iter().map(|p| p.pressure_pa).collect(),
                drop_pa: Vec::new(),
                buffer_pa,
            },
            volume_m3: cycle.points.iter().map(|p| p.total_m3).collect(),
            leak_j: 0.0,
            flow_j: 0.0,
            hysteresis_j: 0.0,
            heat: HeatBalance { cycle_w, supply_w: cycle_w, ..HeatBalance::default() },
        }
    }

    /// What the drive leaves of it.
    ///
    /// # Errors
    /// [`VerdictError::Drive`].
    pub fn breakdown(
        self,
        mechanism: &Mechanism,
        speed_rpm: f64,
        friction: &FrictionFactors,
    ) -> Result<WorkBreakdown, VerdictError> {
        let drive = drive_forces(mechanism, &self.gas, speed_rpm, friction)?;
        let pressures = &self.gas.pressure_pa;
        let loop_: Vec<_> = self.volume_m3.iter().zip(pressures).map(|(v, p)| [*v, *p]).collect();
        let even_nm = self.hysteresis_j / TAU;
        Ok(WorkBreakdown {
            speed_rpm,
            indicated_j: drive.gas_work_j - self.hysteresis_j,
            leak_j: self.leak_j,
            hysteresis_j: self.hysteresis_j,
            flow_j: self.flow_j,
            forced_j: ForcedWork::of_loop(&loop_, self.gas.buffer_pa).forced_j,
            net_j: drive.shaft_work_j - self.hysteresis_j,
            torque_nm: drive.points.iter().map(|p| p.quasi_static_nm - even_nm).collect(),
            inertia_kg_m2: drive.points.iter().map(|p| p.inertia_kg_m2).collect(),
            friction: drive.friction,
            pressure_max_pa: pressures.iter().copied().fold(0.0, f64::max),
            pressure_min_pa: pressures.iter().copied().fold(f64::INFINITY, f64::min),
            pressure_mean_pa: pressures.iter().sum::<f64>() / pressures.len() as f64,
            heat: self.heat,
        })
    }
}
