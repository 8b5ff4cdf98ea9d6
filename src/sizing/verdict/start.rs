//! Starting by hand: the smallest spin that carries the engine over.
//!
//! Energy method. Let go at an angle with the energy ½ J ω² of wheel and sliding masses, the engine gains T dθ over each
//! step, T the torque at that angle and speed without that of inertia and J(θ) the inertia at the shaft. It stalls
//! where the energy is used up, and runs when it comes round faster each time. The gas takes the loop of steady running at
//! the speed of the moment; between the speeds that were solved, torque is taken on straight lines. Friction at
//! the first move (rest after rest) counts only in [`Start::hand_torque_nm`].

use super::change::Change;
use super::net_work::{NetWork, VerdictError};
use crate::sizing::mechanism::FrictionFactors;
use std::f64::consts::TAU;

/// Angles at which the hand lets go, evenly spread.
const ANGLES: usize = 12;
/// Turns after which an engine that still runs slower each time counts as stalled.
const TURNS: usize = 60;

/// Speeds that are solved, over the fastest spin of a hand.
const SPEEDS: [f64; 9] = [0.05, 0.1, 0.2, 0.35, 0.5, 0.75, 1.0, 1.5, 2.0];
/// Which of them is the fastest spin itself.
const HAND: usize = 6;

/// How a start by hand goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Start {
    /// Spin that carries it over wherever the hand lets go \[rpm\]; `None` where no spin in the range does.
    pub spin_rpm: Option<f64>,
    /// Spin that does where the hand lets go at the best angle \[rpm\]; never below the slowest speed that was
    /// solved, a twentieth of the fastest spin.
    pub best_spin_rpm: Option<f64>,
    /// Energy of the wheel at [`Self::spin_rpm`] \[J\].
    pub energy_j: Option<f64>,
    /// Deepest valley of the stored work at the fastest spin of a hand \[J\]: what the wheel must bring along at
    /// least.
    pub valley_j: f64,
    /// Torque to turn it over slowly by hand from rest, at the hardest angle \[N m\].
    pub hand_torque_nm: f64,
}

/// Torque and inertia over the turn at some speeds.
#[derive(Clone, Debug)]
struct Table {
    /// Speed \[rad/s\] and torque over the turn \[N m\].
    rows: Vec<(f64, Vec<f64>)>,
    inertia_kg_m2: Vec<f64>,
}

impl Table {
    fn of(net: &dyn NetWork, change: &Change, speeds_rpm: &[f64]) -> Result<Self, VerdictError> {
        let (mut rows, mut inertia_kg_m2) = (Vec::new(), Vec::new());
        for rpm in speeds_rpm {
            let w = net.at(*rpm, change)?;
            rows.push((TAU * rpm / 60.0, w.torque_nm));
            inertia_kg_m2 = w.inertia_kg_m2;
        }
        if rows.is_empty()
            || inertia_kg_m2.is_empty()
            || rows.iter().any(|r| r.1.len() != inertia_kg_m2.len())
        {
            return Err(VerdictError::Model("the model gives no torque over the turn".into()));
        }
        Ok(Self { rows, inertia_kg_m2 })
    }

    /// Torque at a point of the turn and a speed \[rad/s\]; held beyond the solved speeds.
    fn torque_nm(&self, i: usize, omega: f64) -> f64 {
        let after = self.rows.partition_point(|r| r.0 < omega);
        match (after.checked_sub(1).and_then(|b| self.rows.get(b)), self.rows.get(after)) {
            (Some(low), Some(high)) => {
                let part = (omega - low.0) / (high.0 - low.0);
                low.1[i] + part * (high.1[i] - low.1[i])
            }
            (Some(row), None) | (None, Some(row)) => row.1[i],
            (None, None) => 0.0,
        }
    }

    /// Whether a wheel let go at a point with a speed \[rad/s\] comes round faster twice running.
    fn carries(&self, from: usize, omega: f64) -> bool {
        let count = self.inertia_kg_m2.len();
        let step = TAU / count as f64;
        let mut energy = 0.5 * self.inertia_kg_m2[from] * omega * omega;
        let (mut before, mut faster) = (energy, 0);
        for _ in 0..TURNS {
            for k in 0..count {
                let i = (from + k) % count;
                let omega = (2.0 * energy / self.inertia_kg_m2[i]).sqrt();
                energy += self.torque_nm(i, omega) * step;
                if energy <= 0.0 || energy.is_nan() {
                    return false;
                }
            }
            faster = if energy > before { faster + 1 } else { 0 };
            if faster == 2 {
                return true;
            }
            before = energy;
        }
        false
    }

    /// Smallest spin \[rad/s\] that carries from a point, up to `most`.
    fn smallest(&self, from: usize, most: f64) -> Option<f64> {
        // a spin beyond the no-load speed slows down and would count as stalled, so go up in small steps first
        let least = self.rows.first().map_or(0.0, |r| r.0);
        let mut last = least;
        for omega in (0..=24).map(|k| least + (most - least) * f64::from(k) / 24.0) {
            if self.carries(from, omega) {
                let (mut low, mut high) = (last, omega);
                for _ in 0..10 {
                    let middle = 0.5 * (low + high);
                    if self.carries(from, middle) { high = middle } else { low = middle }
                }
                return Some(high);
            }
            last = omega;
        }
        None
    }
}

/// Deepest fall of the stored work from any place within the next turn \[J\].
fn valley_j(torque_nm: &[f64]) -> f64 {
    let step = TAU / torque_nm.len() as f64;
    let (mut deepest, mut below) = (0.0_f64, 0.0_f64);
    // Twice round, so that a valley across the end of the turn is whole; it ends where all is regained.
    for t in torque_nm.iter().chain(torque_nm) {
        below = (below + t * step).min(0.0);
        deepest = deepest.min(below);
    }
    -deepest
}

/// Works out a start by hand; `most_rpm` is the fastest spin that a hand gives.
///
/// # Errors
/// The model's.
pub fn start(net: &dyn NetWork, change: &Change, most_rpm: f64) -> Result<Start, VerdictError> {
    let speeds = SPEEDS.map(|f| f * most_rpm);
    let table = Table::of(net, change, &speeds)?;
    let (count, most) = (table.inertia_kg_m2.len(), TAU * most_rpm / 60.0);
    let angles: Vec<usize> = (0..ANGLES).map(|k| k * count / ANGLES).collect();
    let spins: Vec<Option<f64>> = angles.iter().map(|from| table.smallest(*from, most)).collect();
    let rpm = |omega: f64| 60.0 * omega / TAU;
    let worst = spins.iter().try_fold(0.0_f64, |w, s| Some(w.max((*s)?)));
    let best = spins.iter().flatten().copied().reduce(f64::min);
    let mean_inertia = table.inertia_kg_m2.iter().sum::<f64>() / count as f64;
    let stuck = change.and(&Change { friction: FrictionFactors::breakaway(), ..Change::NONE });
    let slow = net.at(speeds[0], &stuck)?;
    Ok(Start {
        spin_rpm: worst.map(rpm),
        best_spin_rpm: best.map(rpm),
        energy_j: worst.map(|w| 0.5 * mean_inertia * w * w),
        valley_j: valley_j(&table.rows[HAND].1),
        hand_torque_nm: slow.torque_nm.iter().map(|t| -t).fold(0.0, f64::max),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::verdict::cases::Formula;

    /// Torque 0.01 + 0.2 cos θ whatever the speed, J 0.004. By hand the valley lies where cos θ < −0.05, from 92.866°
    /// to 267.134°: 0.4 sin(87.134°) − 0.01 × 3.0416 = 0.36908 J, so ω = √(2 × 0.36908/0.004) = 13.584 rad/s from the
    /// worst angle, the valley's beginning, and next to nothing from the best, its end.
    #[test]
    fn spin_is_that_of_the_energy_of_the_valley() {
        let wavy = Formula::over_turn(|theta, _| 0.01 + 0.2 * theta.cos(), 0.004);
        let s = start(&wavy, &Change::NONE, 200.0).unwrap();
        assert!((s.valley_j / 0.36908 - 1.0).abs() < 1e-3, "{s:?}");
        // one of the twelve angles lies 2.9° before the valley
        let spin = s.spin_rpm.unwrap() * TAU / 60.0;
        assert!((spin / 13.584 - 1.0).abs() < 5e-3, "{spin}");
        assert!(s.best_spin_rpm.unwrap() < 0.3 * s.spin_rpm.unwrap());
        assert!((s.hand_torque_nm - 0.19).abs() < 1e-3);
    }

    /// An engine that brakes below 100 rpm and drives above must be spun past it.
    #[test]
    fn an_engine_that_only_drives_when_fast_needs_that_speed() {
        let late = Formula::over_turn(|_, rpm| 1e-4 * (rpm - 100.0), 0.01);
        let s = start(&late, &Change::NONE, 200.0).unwrap();
        assert!((s.spin_rpm.unwrap() - 100.0).abs() < 1.0, "{s:?}");
    }

    #[test]
    fn an_engine_that_always_brakes_never_starts() {
        let s = start(&Formula::over_turn(|_, _| -0.01, 0.01), &Change::NONE, 200.0).unwrap();
        assert_eq!((s.spin_rpm, s.best_spin_rpm, s.energy_j), (None, None, None));
        assert!((s.hand_torque_nm - 0.01).abs() < 1e-12);
    }
}
