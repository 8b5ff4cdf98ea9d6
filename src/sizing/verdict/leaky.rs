//! Isothermal gas that leaks past rings and gland.
//!
//! With the gas in every space at the temperature of that space, p = m R / D, D = Σ V/T. Gas leaks to the
//! buffer with dm/dt = −k (p − p_b), k from a leak-down test or the sizes of the gaps. In terms of the crank angle that is
//! m' = −(k R / (ω D)) m + k p_b / ω, linear in m, so the periodic state is found in one pass without iteration.
//! The leak settles the mean pressure: over a turn ∮ (p − p_b) dθ = 0. DERIVED from mass balance; checked
//! against the isothermal closed form where k goes to nothing.

use crate::sizing::cycle::Temperatures;
use crate::sizing::volumes::VolumeLaw;
use std::f64::consts::TAU;

/// Volumes and their slopes on an even grid.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    hot_m3: Vec<f64>,
    cold_m3: Vec<f64>,
    hot_slope_m3: Vec<f64>,
    cold_slope_m3: Vec<f64>,
}

/// Gas and what holds it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gas {
    /// Specific gas constant \[J/(kg K)\].
    pub r_j_kg_k: f64,
    /// Mean pressure where nothing leaks \[Pa\].
    pub charge_pa: f64,
    /// Pressure of the buffer \[Pa\].
    pub buffer_pa: f64,
    /// Leak to the buffer for each pascal, 0 for a tight engine \[kg/(s Pa)\].
    pub leak_kg_s_pa: f64,
}

/// One turn of the gas.
#[derive(Clone, Debug, PartialEq)]
pub struct Turn {
    /// Pressure on the grid \[Pa\].
    pub pressure_pa: Vec<f64>,
    /// Work in the hot space \[J\].
    pub hot_j: f64,
    /// Work in the cold space and the power cylinder \[J\].
    pub cold_j: f64,
}

impl Turn {
    /// Work of the gas \[J\].
    pub fn work_j(&self) -> f64 {
        self.hot_j + self.cold_j
    }

    /// Mean, least and greatest pressure \[Pa\].
    pub fn pressures_pa(&self) -> [f64; 3] {
        let p = &self.pressure_pa;
        let mean = p.iter().sum::<f64>() / p.len() as f64;
        [mean, p.iter().copied().fold(f64::INFINITY, f64::min), p.iter().copied().fold(0.0, f64::max)]
    }
}

impl Grid {
    /// Volumes of a law at `points` angles.
    pub fn of(law: &VolumeLaw, points: usize) -> Self {
        let angles = (0..points).map(|i| TAU * i as f64 / points as f64);
        let both: Vec<_> = angles.map(|a| (law.at(a), law.slope(a))).collect();
        Self {
            hot_m3: both.iter().map(|(v, _)| v.hot_m3).collect(),
            cold_m3: both.iter().map(|(v, _)| v.all_cold_m3()).collect(),
            hot_slope_m3: both.iter().map(|(_, s)| s.hot_m3).collect(),
            cold_slope_m3: both.iter().map(|(_, s)| s.all_cold_m3()).collect(),
        }
    }

    /// All moving volume on the grid \[m³\].
    pub fn volumes_m3(&self) -> Vec<f64> {
        self.hot_m3.iter().zip(&self.cold_m3).map(|(hot, cold)| hot + cold).collect()
    }

    /// Solves one turn; `dead_m3_k` is Σ V/T of what does not move.
    pub fn solve(&self, gas: &Gas, t: &Temperatures, dead_m3_k: f64, speed_rpm: f64) -> Turn {
        let spaces = self.hot_m3.iter().zip(&self.cold_m3);
        let held: Vec<f64> = spaces.map(|(h, c)| h / t.hot_k + c / t.cold_k + dead_m3_k).collect();
        let rate = gas.leak_kg_s_pa * 60.0 / (TAU * speed_rpm);
        let pressure_pa = if rate > 0.0 { leaking(&held, gas, rate) } else { tight(&held, gas.charge_pa) };
        let step = TAU / held.len() as f64;
        let work = |slopes: &[f64]| step * slopes.iter().zip(&pressure_pa).map(|(s, p)| s * p).sum::<f64>();
        let (hot_j, cold_j) = (work(&self.hot_slope_m3), work(&self.cold_slope_m3));
        Turn { pressure_pa, hot_j, cold_j }
    }
}

/// Pressures of a fixed mass with this mean \[Pa\].
fn tight(held_m3_k: &[f64], mean_pa: f64) -> Vec<f64> {
    let mean = held_m3_k.iter().map(|d| 1.0 / d).sum::<f64>() / held_m3_k.len() as f64;
    held_m3_k.iter().map(|d| mean_pa / (mean * d)).collect()
}

/// Pressures of a mass that leaks `rate` \[kg/(rad Pa)\].
///
/// With y = m R and y_b = p_b D, what it would be at the buffer's pressure, y' = −a (y − y_b). From point to point a is
/// taken as its mean and y_b as a straight line, for which the solution is exact, so that no leak is too great.
fn leaking(held_m3_k: &[f64], gas: &Gas, rate: f64) -> Vec<f64> {
    let (count, step) = (held_m3_k.len(), TAU / held_m3_k.len() as f64);
    // y at the next point is y × (1 − lost) + add
    let link = |i: usize| {
        let (here, next) = (held_m3_k[i], held_m3_k[(i + 1) % count]);
        let x = 0.5 * rate * gas.r_j_kg_k * (1.0 / here + 1.0 / next) * step;
        let lost = -(-x).exp_m1();
        // 1 − lost/x, by its series where it would cancel
        let late = if x < 1e-4 { x / 2.0 - x * x / 6.0 } else { 1.0 - lost / x };
        (x, lost, gas.buffer_pa * (here * lost + (next - here) * late))
    };
    let links: Vec<_> = (0..count).map(link).collect();
    let gathered = links.iter().fold(0.0, |sum, (_, lost, add)| sum * (1.0 - lost) + add);
    let whole: f64 = links.iter().map(|l| l.0).sum();
    let mut held = gathered / -(-whole).exp_m1();
    let mut pressures = Vec::with_capacity(count);
    for ((_, lost, add), here) in links.iter().zip(held_m3_k) {
        pressures.push(held / here);
        held += add - held * lost;
    }
    pressures
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::cycle::{Charge, CycleInput, CycleModel, Isothermal, MeanTemperature};
    use crate::sizing::verdict::cases;

    const AIR: Gas = Gas { r_j_kg_k: 287.05, charge_pa: 101_325.0, buffer_pa: 101_325.0, leak_kg_s_pa: 0.0 };
    const T: Temperatures = Temperatures { hot_k: 600.0, cold_k: 330.0, mean: MeanTemperature::Logarithmic };

    fn solve(gas: Gas, rpm: f64) -> Turn {
        let law = cases::law();
        let dead = law.dead().iter().map(|d| d.volume_m3 / T.of_k(d.zone)).sum();
        Grid::of(&law, 360).solve(&gas, &T, dead, rpm)
    }

    /// Against the other solution of the isothermal cycle in this crate, itself checked from outside.
    #[test]
    fn a_tight_engine_is_the_isothermal_cycle() {
        let law = cases::law();
        let input = CycleInput {
            volumes: &law,
            temperatures: T,
            gas_constant_j_kg_k: 287.05,
            heat_capacity_ratio: 1.4,
            path: None,
            charge: Charge::MeanPressure(101_325.0),
            points: 8,
        };
        let (ours, theirs) = (solve(AIR, 300.0), Isothermal.solve(&input).unwrap());
        assert!((ours.work_j() / theirs.work_j - 1.0).abs() < 1e-9);
        assert!((ours.hot_j / theirs.hot_work_j - 1.0).abs() < 1e-9);
        let barely = solve(Gas { leak_kg_s_pa: 1e-16, ..AIR }, 300.0);
        assert!(
            (barely.work_j() / theirs.work_j - 1.0).abs() < 1e-5,
            "{} {}",
            barely.work_j(),
            theirs.work_j
        );
    }

    /// As much gas comes in as goes out, so the mean pressure is that of the buffer.
    #[test]
    fn a_leak_settles_the_mean_pressure_at_the_buffers() {
        for leak in [1e-10, 1e-8, 1e-6] {
            let turn = solve(Gas { leak_kg_s_pa: leak, charge_pa: 3e5, ..AIR }, 300.0);
            assert!((turn.pressures_pa()[0] / 101_325.0 - 1.0).abs() < 1e-4, "{:?}", turn.pressures_pa());
        }
    }

    /// More leak leaves less work for as long as the gas works at all; a sieve at last keeps no pressure and does
    /// none. In between the engine is an air brake.
    #[test]
    fn more_leak_and_less_speed_leave_less_work() {
        let work = |leak: f64, rpm: f64| solve(Gas { leak_kg_s_pa: leak, ..AIR }, rpm).work_j();
        let mut last = f64::INFINITY;
        for leak in [0.0, 1e-10, 1e-9, 1e-8, 3e-8, 1e-7, 2e-7] {
            assert!(work(leak, 200.0) < last, "{leak}");
            last = work(leak, 200.0);
        }
        assert!(last < 0.0, "{last}");
        assert!(work(1e-3, 200.0).abs() < 1e-3, "{}", work(1e-3, 200.0));
        assert!(work(1e-8, 50.0) < work(1e-8, 500.0));
    }
}
