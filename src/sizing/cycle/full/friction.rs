//! Flow friction, worked out from the flows of the steady turn.
//!
//! Δp = f Re μ u L/(2 d_h²) + K ρ u²/2 in each cell, and the work lost ∮ Δp u A dt with the volume flow
//! there. The pressure that drives the pistons is not changed by it: the drops are small beside the swing, or
//! the engine is none; where a drop exceeds a tenth of the mean pressure a warning says so. Quasi-steady: see
//! [`super::super::transfer::oscillation`].

use super::super::detail::FrictionResult;
use super::super::path::GasPath;
use super::super::transfer::oscillation;
use super::grid::{Element, Grid};
use super::turn::Record;

/// Friction of one element.
pub(super) fn of(grid: &Grid, path: &GasPath, record: &Record, element: &Element) -> FrictionResult {
    let mut sum = FrictionResult { name: element.exchanger.name.clone(), ..FrictionResult::default() };
    for k in 0..grid.steps {
        let mut drop = 0.0;
        for i in element.cells.clone() {
            let (pa, volume_m3, re) = cell(grid, record, element, k, i);
            drop += path.factors.friction * pa;
            sum.work_j += path.factors.friction * pa * volume_m3;
            sum.reynolds_max = sum.reynolds_max.max(re);
        }
        sum.drop_max_pa = sum.drop_max_pa.max(drop.abs());
    }
    sum
}

/// Pressure drop \[Pa\], gas volume that passes in the step \[m³\] and Re of a cell.
fn cell(grid: &Grid, record: &Record, element: &Element, k: usize, i: usize) -> (f64, f64, f64) {
    let (n, e) = (grid.len(), &element.exchanger);
    let flow = 0.5 * (record.g[k * (n + 1) + i] + record.g[k * (n + 1) + i + 1]);
    let (p, t) = (record.p[k], record.t[k * n + i]);
    let volume = flow * t / p;
    let speed = volume / grid.step_s / e.flow_area_m2;
    let density = p / (grid.r * t);
    let viscosity = grid.cells[i].viscosity_pa_s;
    let re = density * speed.abs() * e.hydraulic_m / viscosity;
    let share = 1.0 / element.cells.len() as f64;
    let viscous =
        e.surface.friction_re(re) * viscosity * speed * e.length_m * share / (2.0 * e.hydraulic_m.powi(2));
    let heads = e.velocity_heads * share * density * speed * speed.abs() / 2.0;
    (viscous + heads, volume, re)
}

/// What to say about an element: correlations out of range, flow not quasi-steady, drops too large.
pub(super) fn warnings(
    grid: &Grid,
    path: &GasPath,
    record: &Record,
    element: &Element,
    f: &FrictionResult,
) -> Vec<String> {
    let e = &element.exchanger;
    let mut all = Vec::new();
    all.extend(e.surface.out_of_range(f.reynolds_max).map(|text| format!("{}: {text}", f.name)));
    let mean = record.mean_pa();
    let middle = &grid.cells[element.cells.start + element.cells.len() / 2];
    let kinematic = middle.viscosity_pa_s * grid.r * middle.wall_k / mean;
    let va = oscillation::valensi(path.omega_rad_s(), e.hydraulic_m, kinematic);
    if !e.surface.is_matrix() && va > oscillation::QUASI_STEADY_MAX {
        all.push(format!("{}: Valensi number {va:.0}; steady-flow correlations are sound below about 10 and give too little friction above", f.name));
    }
    if f.drop_max_pa > 0.1 * mean {
        all.push(format!("{}: pressure drop up to {:.0} % of the mean pressure; one pressure for all cells is a poor picture", f.name, 100.0 * f.drop_max_pa / mean));
    }
    all
}
