//! One turn, step by step, written down.

use super::grid::Grid;
use super::step::{Level, Workspace, advance};
use std::mem::swap;

/// The last two levels, at angle 0 and one step before.
#[derive(Clone, Debug)]
pub(super) struct State {
    pub now: Level,
    pub before: Level,
}

/// Everything that happened in a turn, by step; the last step is angle 0 again and stands first.
#[derive(Clone, Debug, Default)]
pub(super) struct Record {
    pub p: Vec<f64>,
    pub t: Vec<f64>,
    pub g: Vec<f64>,
    pub q: Vec<f64>,
    pub wall: Vec<f64>,
    pub leak: Vec<f64>,
}

impl Record {
    pub fn new(grid: &Grid) -> Self {
        let (k, n) = (grid.steps, grid.len());
        let room = |m: usize| vec![0.0; k * m];
        Self {
            p: room(1),
            t: room(n),
            g: room(n + 1),
            q: room(n),
            wall: room(n),
            leak: room(grid.leaks.len()),
        }
    }

    fn write(&mut self, step: usize, x: &Level) {
        self.p[step] = x.p;
        let put = |to: &mut [f64], from: &[f64]| to[step * from.len()..][..from.len()].copy_from_slice(from);
        put(&mut self.t, &x.t);
        put(&mut self.g, &x.g);
        put(&mut self.q, &x.q);
        put(&mut self.wall, &x.wall);
        put(&mut self.leak, &x.leak);
    }

    /// Mean pressure \[Pa\].
    pub fn mean_pa(&self) -> f64 {
        self.p.iter().sum::<f64>() / self.p.len() as f64
    }
}

/// Runs one turn; gives step and change where a step does not settle.
pub(super) fn run(
    grid: &Grid,
    state: &mut State,
    work: &mut Workspace,
    record: &mut Record,
) -> Result<(), (usize, f64)> {
    for k in 0..grid.steps {
        let target = (k + 1) % grid.steps;
        advance(grid, target, &mut state.before, &state.now, work).map_err(|change| (target, change))?;
        swap(&mut state.now, &mut state.before);
        record.write(target, &state.now);
    }
    Ok(())
}
