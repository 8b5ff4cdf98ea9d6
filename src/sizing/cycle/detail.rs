//! What a cycle model knows beyond the loop: heat by zone, leakage, flow friction, how well the sums close.
//! Whatever a model does not know stays empty; nothing is guessed.

use serde::{Deserialize, Serialize};

/// One cell or zone of the gas path over the turn.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CellResult {
    /// Plain name, for example `displacer gap 3`.
    pub name: String,
    /// Heat that the gas takes in from the wall over the turn \[J\].
    pub heat_j: f64,
    /// Greatest less least of the heat taken in up to an instant \[J\]: what a regenerator shifts.
    pub heat_swing_j: f64,
    /// Work of the gas in the cell \[J\].
    pub work_j: f64,
    /// Least gas temperature \[K\].
    pub gas_min_k: f64,
    /// Greatest gas temperature \[K\].
    pub gas_max_k: f64,
    /// Gas temperature, mean over the crank angle \[K\].
    pub gas_mean_k: f64,
    /// Wall temperature, mean over the crank angle \[K\]; absent where no wall gives heat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wall_k: Option<f64>,
}

/// Flow friction of one element of the gas path.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct FrictionResult {
    /// Plain name.
    pub name: String,
    /// Work lost over the turn \[J\].
    pub work_j: f64,
    /// Greatest pressure drop \[Pa\].
    pub drop_max_pa: f64,
    /// Greatest Reynolds number on the hydraulic diameter.
    pub reynolds_max: f64,
}

/// Leakage through one path.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct LeakResult {
    /// Plain name.
    pub name: String,
    /// Gas that goes out over the turn, which in steady state comes in again \[kg\].
    pub breathed_kg: f64,
    /// Enthalpy that leaves with it less what comes in \[J\].
    pub enthalpy_out_j: f64,
}

/// How well the sums close over the turn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Closure {
    /// Heat taken in less work, less enthalpy leaked, less what is stored, over the heat handled: first law.
    pub energy: f64,
    /// Change of the gas mass over the turn, relative.
    pub mass: f64,
    /// Greatest relative change of state between two turns.
    pub state: f64,
    /// Turns that were run through.
    pub turns: usize,
    /// Steps a turn.
    pub steps: usize,
}

/// All of it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Detail {
    /// Cells from the hot to the cold end.
    #[serde(default)]
    pub cells: Vec<CellResult>,
    /// Work lost to flow friction by element; not taken off the work of the cycle.
    #[serde(default)]
    pub friction: Vec<FrictionResult>,
    /// Leaks.
    #[serde(default)]
    pub leaks: Vec<LeakResult>,
    /// How well the sums close.
    #[serde(default)]
    pub closure: Option<Closure>,
    /// What to know, for example a correlation used outside of its range.
    #[serde(default)]
    pub warnings: Vec<String>,
}

impl Detail {
    /// A cell by its name.
    pub fn cell(&self, name: &str) -> Option<&CellResult> {
        self.cells.iter().find(|c| c.name == name)
    }

    /// Work lost to flow friction in all elements \[J\].
    pub fn friction_j(&self) -> f64 {
        self.friction.iter().map(|f| f.work_j).sum()
    }
}
