//! One implicit step of the whole line of cells.
//!
//! Unknown are the temperatures, the flows through the faces and the pressure. Backward differences of
//! second order, D X = (3 X − 4 X⁻ + X⁻⁻)/2, turn mass and energy of cell i into
//!   M: D(pV/T)_i − G_i + G_{i+1} + L_i = 0,
//!   E: −3/2 pV + p ΔV + (c−1) hist(pV) − c T hist(pV/T) − c (G_i (T_i^f − T) − G_{i+1} (T_{i+1}^f − T)) − Q = 0,
//! where E is energy less c T times mass, so that only gas that comes in counts. Newton's method; the
//! linear system is solved by one sweep towards the cold end and one back, for each cell is tied to its
//! neighbours, the flow between them and the pressure alone. Which face temperature is upstream follows the
//! sign of the flow in every iteration; at zero flow both agree, so there is nothing to chatter.

use super::grid::{Grid, Wetted};

/// Weight of the new value in the backward difference.
const NEW: f64 = 1.5;
/// Relative change after which the next one would be of the size of its square: small enough.
const SETTLED: f64 = 2e-4;
/// Newton iterations after which to give up.
const MOST: usize = 25;

/// The gas at one step.
#[derive(Clone, Debug)]
pub(super) struct Level {
    pub p: f64,
    /// Temperatures \[K\].
    pub t: Vec<f64>,
    /// R times mass \[J/K\].
    pub mass: Vec<f64>,
    /// p V \[J\].
    pub pv: Vec<f64>,
    /// Walls \[K\].
    pub wall: Vec<f64>,
    /// Flow through the face before each cell, towards the cold end \[J/K a step\]; closed at both ends.
    pub g: Vec<f64>,
    /// Heat into the gas \[J\].
    pub q: Vec<f64>,
    /// Out through each leak \[J/K\].
    pub leak: Vec<f64>,
}

impl Level {
    pub fn new(grid: &Grid) -> Self {
        let n = grid.len();
        let zero = vec![0.0; n];
        let wall: Vec<f64> = grid.cells.iter().map(|c| c.wall_k).collect();
        Self {
            p: 1.0,
            t: wall.clone(),
            mass: zero.clone(),
            pv: zero.clone(),
            wall,
            g: vec![0.0; n + 1],
            q: zero,
            leak: vec![0.0; grid.leaks.len()],
        }
    }

    /// Masses and p V that belong to pressure and temperatures at a step.
    pub fn fill(&mut self, grid: &Grid, step: usize) {
        let n = grid.len();
        for (i, volume) in grid.volumes[step * n..(step + 1) * n].iter().enumerate() {
            self.pv[i] = self.p * volume;
            self.mass[i] = self.pv[i] / self.t[i];
        }
    }
}

/// Coefficients of one cell, kept between the sweeps.
#[derive(Clone, Copy, Debug, Default)]
struct Row {
    /// δT_i = a + b δT_{i+1} + s δp.
    a: f64,
    b: f64,
    s: f64,
}

/// Room for one step.
#[derive(Clone, Debug)]
pub(super) struct Workspace {
    rows: Vec<Row>,
    /// Heat for each kelvin between wall and gas, a matrix's own answer included \[J/K\].
    exchange: Vec<f64>,
    /// Wall temperature that goes with it \[K\].
    seen_wall: Vec<f64>,
    /// Half the rise of temperature across each cell \[K\].
    tilt: Vec<f64>,
    /// History of R m \[J/K\] and of p V \[J\].
    old_mass: Vec<f64>,
    old_pv: Vec<f64>,
    /// Leak for each pascal \[J/(K Pa)\], by leak and summed by cell.
    leak: Vec<f64>,
    leak_cell: Vec<f64>,
}

impl Workspace {
    pub fn new(grid: &Grid) -> Self {
        let zero = vec![0.0; grid.len()];
        Self {
            rows: vec![Row::default(); grid.len()],
            exchange: zero.clone(),
            seen_wall: zero.clone(),
            tilt: zero.clone(),
            old_mass: zero.clone(),
            old_pv: zero.clone(),
            leak: vec![0.0; grid.leaks.len()],
            leak_cell: zero,
        }
    }
}

/// Takes one step to `target`; the new level replaces the oldest one. Gives the relative change of the last
/// iteration where it does not settle.
pub(super) fn advance(
    grid: &Grid,
    target: usize,
    old: &mut Level,
    now: &Level,
    work: &mut Workspace,
) -> Result<(), f64> {
    remember(old, now, work);
    extrapolate(old, now);
    exchange(grid, target, old, now, work);
    tilt(grid, old, work);
    leaks(grid, old, work);
    let n = grid.len();
    let (volumes, growths) =
        (&grid.volumes[target * n..(target + 1) * n], &grid.growths[target * n..(target + 1) * n]);
    let mut change = f64::INFINITY;
    for _ in 0..MOST {
        change = newton(grid, volumes, growths, old, work);
        if change < SETTLED {
            finish(grid, volumes, old, work);
            return Ok(());
        }
        if !change.is_finite() {
            break;
        }
    }
    Err(change)
}

/// Old parts of the backward differences, from the oldest level (`old`) and the present one.
fn remember(old: &Level, now: &Level, work: &mut Workspace) {
    for i in 0..now.t.len() {
        work.old_mass[i] = 0.5 * old.mass[i] - 2.0 * now.mass[i];
        work.old_pv[i] = 0.5 * old.pv[i] - 2.0 * now.pv[i];
    }
}

/// Guess of the new level, written over the oldest one; its walls stay as they are needed once more.
fn extrapolate(old: &mut Level, now: &Level) {
    old.p = (2.0 * now.p - old.p).max(0.5 * now.p);
    for (o, n) in old.t.iter_mut().zip(&now.t) {
        *o = (2.0 * n - *o).clamp(0.7 * n, 1.4 * n);
    }
    for (o, n) in old.g.iter_mut().zip(&now.g) {
        *o = 2.0 * n - *o;
    }
}

/// Heat exchange at the flow of the guess; a matrix wall is eliminated: C (3/2 T_w + old) = −h A (T_w − T).
fn exchange(grid: &Grid, target: usize, guess: &Level, now: &Level, work: &mut Workspace) {
    for (i, cell) in grid.cells.iter().enumerate() {
        let heat = match cell.wetted {
            Wetted::Space(column) => grid.ends[target][column],
            Wetted::Channel { surface, re, heat, d_over_l } => {
                let re = 0.5 * (guess.g[i] + guess.g[i + 1]).abs() * re;
                heat * surface.nusselt(re, cell.prandtl, d_over_l)
            }
        };
        (work.exchange[i], work.seen_wall[i]) = match cell.matrix_j_k {
            None => (heat, cell.wall_k),
            Some(capacity) => {
                let own = NEW * capacity;
                (heat * own / (own + heat), (2.0 * now.wall[i] - 0.5 * guess.wall[i]) / NEW)
            }
        };
    }
}

/// Half the rise of the gas temperature across each cell, limited.
fn tilt(grid: &Grid, guess: &Level, work: &mut Workspace) {
    let t = &guess.t;
    for (i, cell) in grid.cells.iter().enumerate() {
        work.tilt[i] = match (cell.wetted, cell.edge) {
            (Wetted::Space(_), _) | (_, [true, true]) => 0.0,
            (_, [false, false]) => van_leer(t[i] - t[i - 1], t[i + 1] - t[i]),
            (_, [true, false]) => -towards(t[i] - t[i + 1], cell.wall_faces_k[0] - t[i]),
            (_, [false, true]) => towards(t[i] - t[i - 1], cell.wall_faces_k[1] - t[i]),
        };
    }
}

/// Half the harmonic mean of two rises of like sign.
fn van_leer(a: f64, b: f64) -> f64 {
    if a * b > 0.0 { a * b / (a + b) } else { 0.0 }
}

/// Half a rise, not beyond what is left to the wall's end.
fn towards(rise: f64, left: f64) -> f64 {
    if rise * left <= 0.0 {
        0.0
    } else if rise > 0.0 {
        (0.5 * rise).min(left)
    } else {
        (0.5 * rise).max(left)
    }
}

/// Leak conductances at the pressure of the guess.
fn leaks(grid: &Grid, guess: &Level, work: &mut Workspace) {
    if grid.leaks.is_empty() {
        return;
    }
    work.leak_cell.fill(0.0);
    for (k, at) in grid.leaks.iter().enumerate() {
        let kind = &at.leak.kind;
        work.leak[k] = grid.leak_scale * kind.conductance_kg_s_pa(guess.p, grid.buffer_pa, &at.gas);
        work.leak_cell[at.cell] += work.leak[k];
    }
}

/// One Newton iteration; gives the greatest relative change.
fn newton(grid: &Grid, volumes: &[f64], growths: &[f64], x: &mut Level, work: &mut Workspace) -> f64 {
    let (n, c) = (grid.len(), grid.c);
    let (p, over) = (x.p, x.p - grid.buffer_pa);
    // Flow in front of the cell: residual already nought, δG_i = flow_a + flow_b δT_i + flow_s δp.
    let (mut before, mut flow) = (Row::default(), Row::default());
    let mut g = 0.0;
    for i in 0..n {
        let (t, v) = (x.t[i], volumes[i]);
        let leak = work.leak_cell[i];
        let mass = NEW * p * v / t;
        let after = g - mass - work.old_mass[i] - leak * over;
        // The far end is closed: what is left over there is for the pressure to mend.
        let (after, left_over) = if i + 1 == n { (0.0, after) } else { (after, 0.0) };
        let (left, right) = (face(x, work, i, g), face(x, work, i + 1, after));
        let coming = (leak * -over).max(0.0);
        let heat = work.exchange[i] * (work.seen_wall[i] - t);
        let residual = -NEW * p * v + p * growths[i] + (c - 1.0) * work.old_pv[i]
            - c * t * work.old_mass[i]
            - c * (g * (left - t) - after * (right - t))
            - c * coming * (grid.buffer_k - t)
            - heat;
        let diagonal = c * (g.max(0.0) + (-after).max(0.0) + coming - work.old_mass[i]) + work.exchange[i];
        let (from_left, from_right) = (-c * g.max(0.0), -c * (-after).max(0.0));
        let (by_left, by_right) = (-c * (left - t), c * (right - t));
        let (rise, fall) = (mass / t, NEW * v / t + leak);
        // What δp and what the leak that comes in does to the energy.
        let by_p = -NEW * v + growths[i] + if coming > 0.0 { c * leak * (grid.buffer_k - t) } else { 0.0 };
        let by_flow = by_left + by_right;
        let pivot = from_left * before.b + by_flow * flow.b + diagonal + by_right * rise;
        let constant = -residual - from_left * before.a - by_flow * flow.a;
        let slope_p = from_left * before.s + by_flow * flow.s - by_right * fall + by_p;
        before = Row { a: constant / pivot, b: -from_right / pivot, s: -slope_p / pivot };
        work.rows[i] = before;
        let carried = flow.b + rise;
        flow = Row {
            a: flow.a + carried * before.a + left_over,
            b: carried * before.b,
            s: flow.s - fall + carried * before.s,
        };
        if i + 1 < n {
            x.g[i + 1] = after;
            g = after;
        }
    }
    let dp = -flow.a / flow.s;
    update(x, work, dp)
}

/// Temperature of the gas that crosses the face before cell i (after the last cell: none does).
fn face(x: &Level, work: &Workspace, i: usize, g: f64) -> f64 {
    if i == 0 || i == x.t.len() {
        x.t[i.min(x.t.len() - 1)]
    } else if g >= 0.0 {
        x.t[i - 1] + work.tilt[i - 1]
    } else {
        x.t[i] - work.tilt[i]
    }
}

/// Back sweep; steps are cut so that nothing runs below nothing.
fn update(x: &mut Level, work: &Workspace, dp: f64) -> f64 {
    let mut change = (dp / x.p).abs();
    let dp = dp.clamp(-0.3 * x.p, 0.5 * x.p);
    let mut next = 0.0;
    for i in (0..x.t.len()).rev() {
        let row = work.rows[i];
        next = row.a + row.b * next + row.s * dp;
        let share = next / x.t[i];
        change = change.max(share.abs());
        x.t[i] *= 1.0 + share.clamp(-0.3, 0.5);
    }
    x.p += dp;
    if change.is_nan() { f64::NAN } else { change }
}

/// Makes mass close to the last digit, and writes down flows, heats, walls and leaks of the new level.
fn finish(grid: &Grid, volumes: &[f64], x: &mut Level, work: &Workspace) {
    let n = grid.len();
    let (mut known, mut by_p) = (0.0, 0.0);
    for (i, volume) in volumes.iter().enumerate() {
        known += work.leak_cell[i] * grid.buffer_pa - work.old_mass[i];
        by_p += NEW * volume / x.t[i] + work.leak_cell[i];
    }
    x.p = known / by_p;
    let over = x.p - grid.buffer_pa;
    for (i, volume) in volumes.iter().enumerate() {
        x.pv[i] = x.p * volume;
        x.mass[i] = x.pv[i] / x.t[i];
        x.g[i + 1] = x.g[i] - NEW * x.mass[i] - work.old_mass[i] - work.leak_cell[i] * over;
        x.q[i] = work.exchange[i] * (work.seen_wall[i] - x.t[i]);
        x.wall[i] = match grid.cells[i].matrix_j_k {
            None => grid.cells[i].wall_k,
            Some(capacity) => work.seen_wall[i] - x.q[i] / (NEW * capacity),
        };
    }
    x.g[n] = 0.0;
    for (out, conductance) in x.leak.iter_mut().zip(&work.leak) {
        *out = conductance * over;
    }
}
