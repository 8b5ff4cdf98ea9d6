//! Finds the turn that comes back to itself.
//!
//! The gas forgets in a few turns; the matrix and, with a tight seal, the mean pressure need hundreds. Both
//! are sped up: the matrix is moved to where the enthalpy carried through it would be the same at every face,
//! the gas mass as far as the leak would carry it in the end. Neither moves the answer, for in it nothing
//! changes over a turn. The sequence is mixed (see [`Anderson`]).

use super::super::anderson::Anderson;
use super::super::path::GasPath;
use super::super::{Charge, CycleError, CycleInput};
use super::Full;
use super::grid::Grid;
use super::step::{Level, Workspace};
use super::turn::{Record, State, run};

/// Differences kept for the mixing.
const DEPTH: usize = 12;
/// Turns before the mixing begins, and after which it begins anew, with half the memory each time: where the
/// answer lies on a kink of the limiter the old differences mislead.
const FREE_TURNS: usize = 2;
const ROUND: usize = 30;
/// Conductance of a matrix face as a share of the capacity that streams through one way; below about a half
/// neighbours overshoot (seen), well above it the profile as a whole follows slowly.
const FACE_SHARE: f64 = 0.75;
/// Attempts to go on from the last good turn when a mixed state has none.
const RESCUES: usize = 5;

/// A steady turn.
pub(super) struct Steady {
    pub record: Record,
    pub mass: f64,
    /// Relative change of the gas mass over the turn.
    pub drift: f64,
    pub change: f64,
    pub turns: usize,
}

/// Pressure at which the heat transfer of the spaces is taken \[Pa\]: the mean one of the charge, or the
/// buffer's where the path leaks.
pub(super) fn reference_pa(input: &CycleInput<'_>) -> f64 {
    let leaks = input.path.filter(|p| !p.leaks.is_empty() && p.factors.leak > 0.0);
    match (leaks, input.charge) {
        (Some(path), _) => path.buffer.pressure_pa,
        (None, Charge::MeanPressure(pa)) => pa,
        (None, Charge::Mass(kg)) => {
            let dead = input.dead_over_temperature_m3_k();
            let of = |i: u32| {
                let spaces = input.volumes.at(f64::from(i) * std::f64::consts::TAU / 36.0);
                let cold = spaces.all_cold_m3() / input.temperatures.cold_k;
                (dead + spaces.hot_m3 / input.temperatures.hot_k + cold).recip() / 36.0
            };
            kg * input.gas_constant_j_kg_k * (0..36).map(of).sum::<f64>()
        }
    }
}

/// The search for the steady turn.
struct Search<'a> {
    grid: &'a Grid,
    /// Mean pressure to keep, where the charge says so and nothing leaks.
    kept_pa: Option<f64>,
    /// R times mass \[J/K\].
    mass: f64,
    scale_k: f64,
    scale_pa: f64,
    scale_mass: f64,
}

/// Runs turns until one comes back to itself.
///
/// # Errors
/// [`CycleError::NotSteady`], [`CycleError::StepFailed`].
pub(super) fn find(model: &Full, grid: &Grid, path: &GasPath) -> Result<Steady, CycleError> {
    let (mut search, mut state) = Search::begin(grid, path);
    let (mut work, mut record, mut mixer) = (Workspace::new(grid), Record::new(grid), Anderson::new(DEPTH));
    let (mut rescues, mut change, mut good) = (0, f64::INFINITY, state.clone());
    for turns in 1..=model.most_turns {
        let x = search.vector(&state);
        let start = search.held(&state);
        if let Err((step, error)) = run(grid, &mut state, &mut work, &mut record) {
            rescues += 1;
            if rescues > RESCUES {
                return Err(CycleError::StepFailed {
                    angle_deg: 360.0 * step as f64 / grid.steps as f64,
                    error,
                });
            }
            mixer.forget();
            state = good.clone();
            continue;
        }
        let drift = search.held(&state) / start - 1.0;
        search.hasten(&mut state, &record, drift);
        search.keep_pressure(&record);
        let image = search.vector(&state);
        change = x.iter().zip(&image).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        if change <= model.tolerance {
            return Ok(Steady { mass: start / grid.r, drift, record, change, turns });
        }
        good = state.clone();
        if turns % ROUND == 0 {
            mixer = Anderson::new((DEPTH >> (turns / ROUND)).max(1));
        }
        if turns % ROUND > FREE_TURNS {
            let next = mixer.next(&x, &image);
            if !search.apply(&next, &mut state) {
                mixer.forget();
                search.apply(&image, &mut state);
            }
        } else {
            search.apply(&image, &mut state);
        }
    }
    Err(CycleError::NotSteady { turns: model.most_turns, change })
}

impl<'a> Search<'a> {
    /// Gas at the temperature of its walls.
    fn begin(grid: &'a Grid, path: &GasPath) -> (Self, State) {
        let n = grid.len();
        let over_t = |step: usize| -> f64 {
            let volumes = &grid.volumes[step * n..(step + 1) * n];
            volumes.iter().zip(&grid.cells).map(|(v, c)| v / c.wall_k).sum()
        };
        let mean: f64 = (0..grid.steps).map(|k| over_t(k).recip()).sum::<f64>() / grid.steps as f64;
        let (mass, kept) = match path.charge {
            Charge::Mass(kg) => (kg * grid.r, None),
            Charge::MeanPressure(pa) => (pa / mean, Some(pa)),
        };
        let level = |step: usize| {
            let mut level = Level::new(grid);
            level.p = mass / over_t(step);
            level.fill(grid, step);
            level
        };
        let state = State { now: level(0), before: level(grid.steps - 1) };
        let search = Self {
            grid,
            kept_pa: kept.filter(|_| !grid.breathes()),
            mass,
            scale_k: path.hot.wall_k,
            scale_pa: mass * mean,
            scale_mass: mass,
        };
        (search, state)
    }

    /// R times mass in the engine.
    fn held(&self, state: &State) -> f64 {
        state.now.mass.iter().sum()
    }

    /// The state as numbers of like size.
    fn vector(&self, state: &State) -> Vec<f64> {
        let mut x = Vec::with_capacity(4 * self.grid.len() + 2);
        for level in [&state.now, &state.before] {
            x.extend(level.t.iter().map(|t| t / self.scale_k));
            let walls = level.wall.iter().zip(&self.grid.cells).filter(|(_, c)| c.matrix_j_k.is_some());
            x.extend(walls.map(|(w, _)| w / self.scale_k));
            if self.grid.breathes() {
                x.push(level.p / self.scale_pa);
            }
        }
        if self.kept_pa.is_some() {
            x.push(self.mass / self.scale_mass);
        }
        x
    }

    /// The numbers as a state; false where they make none.
    fn apply(&mut self, x: &[f64], state: &mut State) -> bool {
        if !x.iter().all(|v| v.is_finite() && *v > 0.02 && *v < 50.0) {
            return false;
        }
        let grid = self.grid;
        if self.kept_pa.is_some() {
            self.mass = x[x.len() - 1] * self.scale_mass;
        }
        let mut numbers = x.iter();
        let mut next = |scale: f64| numbers.next().map_or(scale, |v| v * scale);
        for (level, step) in [(&mut state.now, 0), (&mut state.before, grid.steps - 1)] {
            level.t.iter_mut().for_each(|t| *t = next(self.scale_k));
            let walls = level.wall.iter_mut().zip(&grid.cells).filter(|(_, c)| c.matrix_j_k.is_some());
            walls.for_each(|(w, _)| *w = next(self.scale_k));
            if grid.breathes() {
                level.p = next(self.scale_pa);
            } else {
                let n = grid.len();
                let volumes = &grid.volumes[step * n..(step + 1) * n];
                level.p = self.mass / volumes.iter().zip(&level.t).map(|(v, t)| v / t).sum::<f64>();
            }
            level.fill(grid, step);
        }
        true
    }

    /// Moves matrix and gas mass to where the last turn points.
    fn hasten(&self, state: &mut State, record: &Record, drift: f64) {
        for (i, shift) in self.matrix_shift(record).into_iter().enumerate() {
            for level in [&mut state.now, &mut state.before] {
                level.wall[i] += shift;
                level.t[i] += shift;
            }
        }
        if self.grid.breathes() {
            let stretch = 1.0 + (drift * self.ahead(record)).clamp(-0.3, 0.3);
            state.now.p *= stretch;
            state.before.p *= stretch;
        }
    }

    /// Change of the matrix temperatures \[K\] after which each cell would take up next to nothing over a turn.
    ///
    /// Enthalpy carried through a face is taken as a conductance D times the difference of the temperatures on
    /// both sides; heat Q_i that the gas took from the cells then asks for
    /// D (δ_{i−1} − δ_i) + D (δ_{i+1} − δ_i) = Q_i with δ nought outside of the matrix. D is a share of the capacity
    /// that streams through, so great that neighbours do not overshoot; the mixing does the rest.
    fn matrix_shift(&self, record: &Record) -> Vec<f64> {
        let grid = self.grid;
        let n = grid.len();
        let mut shift = vec![0.0; n];
        if grid.cells.iter().all(|c| c.matrix_j_k.is_none()) {
            return shift;
        }
        let sum = |of: &dyn Fn(usize) -> f64| -> f64 { (0..grid.steps).map(of).sum() };
        let conductance = |i: usize| FACE_SHARE * 0.5 * grid.c * sum(&|k| record.g[k * (n + 1) + i].abs());
        // Sweep towards the cold end, δ_i = a_i + b_i δ_{i+1}, and back.
        let (mut a, mut b) = (vec![0.0; n + 1], vec![0.0; n + 1]);
        for i in 1..n {
            if grid.cells[i].matrix_j_k.is_none() {
                continue;
            }
            let (left, right) = (conductance(i), conductance(i + 1));
            let pivot = left * (1.0 - b[i - 1]) + right;
            a[i] = (left * a[i - 1] - sum(&|k| record.q[k * n + i])) / pivot;
            b[i] = right / pivot;
        }
        for i in (1..n).rev() {
            if grid.cells[i].matrix_j_k.is_some() {
                let next = if i + 1 < n { shift[i + 1] } else { 0.0 };
                shift[i] = a[i] + b[i] * next;
            }
        }
        let most = 0.05 * self.scale_k;
        shift.iter_mut().for_each(|s| *s = s.clamp(-most, most));
        shift
    }

    /// How many more turns' worth the leak would carry the mass in the end: 1/(1 − e^−r) − 1 with r what a
    /// turn lets pass of a difference.
    fn ahead(&self, record: &Record) -> f64 {
        let grid = self.grid;
        let passes = |p: f64| -> f64 {
            let of = |at: &super::grid::LeakAt| at.leak.kind.conductance_kg_s_pa(p, grid.buffer_pa, &at.gas);
            grid.leak_scale * grid.leaks.iter().map(of).sum::<f64>()
        };
        let rate: f64 = record.p.iter().map(|p| passes(*p)).sum::<f64>() * record.mean_pa() / self.scale_mass;
        (1.0 / -(-rate).exp_m1() - 1.0).min(1e9)
    }

    /// Brings the mass to where the mean pressure is the wanted one.
    fn keep_pressure(&mut self, record: &Record) {
        if let Some(kept) = self.kept_pa {
            self.mass *= kept / record.mean_pa();
        }
    }
}
