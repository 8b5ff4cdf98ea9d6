//! The steady turn as a result.

use super::super::detail::{CellResult, Closure, Detail, FrictionResult, LeakResult};
use super::super::path::{GasPath, LeakKind};
use super::super::{CycleInput, CyclePoint, CycleResult, efficiency};
use super::friction;
use super::grid::{Grid, Wetted};
use super::steady::Steady;
use super::turn::Record;
use std::f64::consts::{PI, TAU};

/// All figures of a steady turn.
///
/// Heat that walls at given temperatures take up between the ends comes from both ends in proportion to the
/// distance, as conduction along an even wall brings it.
pub(super) fn result(input: &CycleInput<'_>, path: &GasPath, grid: &Grid, steady: &Steady) -> CycleResult {
    let record = &steady.record;
    let cells: Vec<CellResult> = (0..grid.len()).map(|i| cell(grid, record, i)).collect();
    let share = |hot: bool| -> f64 {
        let of = |(c, g): (&CellResult, &super::grid::Cell)| {
            if g.matrix_j_k.is_some() {
                0.0
            } else {
                c.heat_j * if hot { 1.0 - g.cold_share } else { g.cold_share }
            }
        };
        cells.iter().zip(&grid.cells).map(of).sum()
    };
    let (heat_in_j, heat_out_j) = (share(true), -share(false));
    let hot_work_j = cells[0].work_j;
    let cold_work_j: f64 = cells[1..].iter().map(|c| c.work_j).sum();
    let work_j = hot_work_j + cold_work_j;
    let leaks = leaks(grid, record);
    let leaked: f64 = leaks.iter().map(|l| l.enthalpy_out_j).sum();
    let matrix: f64 =
        cells.iter().zip(&grid.cells).filter(|(_, g)| g.matrix_j_k.is_some()).map(|(c, _)| c.heat_j).sum();
    let handled = heat_in_j.abs() + heat_out_j.abs() + hot_work_j.abs() + cold_work_j.abs();
    // What a matrix gives in net is heat that has not come back to itself yet: part of what does not close.
    let open = (heat_in_j - heat_out_j - work_j - leaked).abs().max(matrix.abs());
    let closure = Closure {
        energy: open / handled,
        mass: steady.drift,
        state: steady.change,
        turns: steady.turns,
        steps: grid.steps,
    };
    let friction: Vec<FrictionResult> =
        grid.elements.iter().map(|e| friction::of(grid, path, record, e)).collect();
    let mut warnings = seals(path, grid, &leaks);
    for (e, f) in grid.elements.iter().zip(&friction) {
        warnings.extend(friction::warnings(grid, path, record, e, f));
    }
    CycleResult {
        pressure_max_pa: crest(&record.p, 1.0),
        pressure_min_pa: crest(&record.p, -1.0),
        pressure_mean_pa: record.mean_pa(),
        work_j,
        hot_work_j,
        cold_work_j,
        heat_in_j,
        heat_out_j,
        mass_kg: steady.mass,
        efficiency: efficiency(work_j, heat_in_j),
        step_error: None,
        points: points(input, &record.p),
        detail: Detail { cells, friction, leaks, closure: Some(closure), warnings },
    }
}

/// One cell over the turn.
fn cell(grid: &Grid, record: &Record, i: usize) -> CellResult {
    let (n, source) = (grid.len(), &grid.cells[i]);
    let column = |all: &[f64]| -> Vec<f64> { (0..grid.steps).map(|k| all[k * n + i]).collect() };
    let (t, q, wall) = (column(&record.t), column(&record.q), column(&record.wall));
    let mean = |v: &[f64]| v.iter().sum::<f64>() / grid.steps as f64;
    let (mut heat_j, mut seen) = (0.0, [0.0_f64; 2]);
    for q in &q {
        heat_j += q;
        seen = [seen[0].min(heat_j), seen[1].max(heat_j)];
    }
    let has_wall = match source.wetted {
        Wetted::Space(column) => grid.ends[0][column] > 0.0,
        Wetted::Channel { heat, .. } => heat > 0.0,
    };
    CellResult {
        name: source.name.clone(),
        heat_j,
        heat_swing_j: seen[1] - seen[0],
        work_j: (0..grid.steps).map(|k| record.p[k] * grid.growths[k * n + i]).sum(),
        gas_min_k: t.iter().copied().fold(f64::INFINITY, f64::min),
        gas_max_k: t.iter().copied().fold(0.0, f64::max),
        gas_mean_k: mean(&t),
        wall_k: has_wall.then(|| mean(&wall)),
    }
}

/// Gas and enthalpy through each leak.
fn leaks(grid: &Grid, record: &Record) -> Vec<LeakResult> {
    let (n, m) = (grid.len(), grid.leaks.len());
    let one = |(j, at): (usize, &super::grid::LeakAt)| {
        let mut sum = LeakResult { name: at.leak.name.clone(), ..LeakResult::default() };
        for k in 0..grid.steps {
            let out = record.leak[k * m + j];
            sum.breathed_kg += out.max(0.0) / grid.r;
            let from_k = if out > 0.0 { record.t[k * n + at.cell] } else { grid.buffer_k };
            sum.enthalpy_out_j += grid.c * out * from_k;
        }
        sum
    };
    grid.leaks.iter().enumerate().map(one).collect()
}

/// Clearance seals whose flow is no longer laminar.
fn seals(path: &GasPath, grid: &Grid, leaks: &[LeakResult]) -> Vec<String> {
    let turn_s = grid.step_s * grid.steps as f64;
    let one = |(leak, sum): (&super::super::path::Leak, &LeakResult)| {
        let LeakKind::Clearance { diameter_m, .. } = leak.kind else { return None };
        // Outward flow lasts about half of the turn; its greatest value is about π/2 of its mean.
        let peak = sum.breathed_kg / (0.5 * turn_s) * PI / 2.0;
        let re = 2.0 * peak / (PI * diameter_m * path.gas.viscosity_pa_s(path.cold.wall_k));
        (re > 1000.0).then(|| {
            format!("{}: Re {re:.0} in the clearance; the law of the leak is for less than 1000", leak.name)
        })
    };
    path.leaks.iter().zip(leaks).filter_map(one).collect()
}

/// Greatest (sign 1) or least (sign −1) pressure, by the parabola through the step and its neighbours.
fn crest(p: &[f64], sign: f64) -> f64 {
    let n = p.len();
    let best = (0..n).max_by(|a, b| (sign * p[*a]).total_cmp(&(sign * p[*b]))).unwrap_or(0);
    let (low, at, high) = (p[(best + n - 1) % n], p[best], p[(best + 1) % n]);
    let bend = low - 2.0 * at + high;
    if bend == 0.0 { at } else { at - (high - low).powi(2) / (8.0 * bend) }
}

/// The loop, between the steps by the cubic through four of them.
fn points(input: &CycleInput<'_>, p: &[f64]) -> Vec<CyclePoint> {
    let n = p.len();
    input.loop_of(|angle| {
        let place = angle / TAU * n as f64;
        let (i, x) = (place as usize, place.fract());
        let at = |k: usize| p[(i + n + k - 1) % n];
        let [a, b, c, d] = [at(0), at(1), at(2), at(3)];
        b + 0.5 * x * (c - a + x * (2.0 * a - 5.0 * b + 4.0 * c - d + x * (3.0 * (b - c) + d - a)))
    })
}
