//! Full cycle: the gas path cut into cells, with heat transfer, matrix, leakage.
//!
//! One pressure at an instant. Each cell keeps mass and energy (ideal gas, heat capacity constant over the
//! run): with c = c_p/R, G the flow through a face in J/K (R times mass), T the temperature upstream,
//!   (c − 1) d(pV) + p dV = c Σ(G T) + Q,   d(pV/T) = Σ G.
//! Steps are even in crank angle and implicit of second order (backward differences, C. F. Curtiss and J. O.
//! Hirschfelder 1952, in C. W. Gear 1971; from memory), so that perfect heat exchange needs no small steps and
//! the sums of energy and mass over a steady turn close by the scheme itself. Within a cell of an exchanger
//! the temperature is linear, limited so that no new extreme arises (B. van Leer 1974, from memory). Turn
//! follows turn, accelerated by mixing, until the state, the matrix and the leaked mass come back to
//! themselves. Flow friction is worked out afterwards and stands beside the work, not in it.

mod friction;
mod grid;
mod report;
mod steady;
mod step;
mod turn;

use super::{CycleError, CycleInput, CycleModel, CycleResult};
use grid::Grid;

/// The full cycle as a model.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Full {
    /// Steps a turn.
    pub steps: usize,
    /// Relative change of state over a turn that counts as steady.
    pub tolerance: f64,
    /// Turns after which to give up.
    pub most_turns: usize,
}

impl Default for Full {
    fn default() -> Self {
        Self { steps: 180, tolerance: 2e-6, most_turns: 200 }
    }
}

/// First law over the turn must close within this share of the heat handled.
const ENERGY_TOLERANCE: f64 = 5e-4;

impl CycleModel for Full {
    fn name(&self) -> &'static str {
        "full"
    }

    fn solve(&self, input: &CycleInput<'_>) -> Result<CycleResult, CycleError> {
        let path = input.path.ok_or(CycleError::NoPath)?;
        path.check()?;
        let law = path.law();
        let own = path.input(&law, input.points);
        own.check()?;
        let grid = Grid::of(path, &law, self.steps.max(24), steady::reference_pa(&own))?;
        let steady = steady::find(self, &grid, path)?;
        let result = report::result(&own, path, &grid, &steady);
        let energy = result.detail.closure.map_or(0.0, |c| c.energy.abs());
        if energy <= ENERGY_TOLERANCE {
            Ok(result)
        } else {
            Err(CycleError::NotSteady { turns: steady.turns, change: energy })
        }
    }
}
