//! How steadily the engine turns: the speed over one turn, from the work that wheel and sliding masses store.
//!
//! The energy E(θ) = E₀ + ∫(T − T̄) dθ sits in the inertia J(θ) at the shaft, so ω = √(2 E/J); E₀ is that at which the mean
//! speed over time is the one asked for. The load takes the mean torque. For a great wheel and an even J this becomes
//! δ = ΔE/(J ω²) of the text books (R. S. Khurmi and J. K. Gupta, Theory of Machines, chapter on flywheels, where it
//! reads ΔE = m k² ω² C_s).

use super::net_work::WorkBreakdown;
use super::search::root;
use std::f64::consts::TAU;

/// Greatest less least speed over the mean, with `more_kg_m2` added to the inertia of the turn; `None` where there is no
/// inertia left.
pub fn unsteadiness(work: &WorkBreakdown, more_kg_m2: f64) -> Option<f64> {
    let omega = TAU * work.speed_rpm / 60.0;
    let inertia: Vec<f64> = work.inertia_kg_m2.iter().map(|j| j + more_kg_m2).collect();
    let least = inertia.iter().copied().fold(f64::INFINITY, f64::min);
    if inertia.is_empty() || least <= 0.0 {
        return None;
    }
    let stored = stored_j(&work.torque_nm);
    let speeds =
        |start_j: f64| stored.iter().zip(&inertia).map(move |(e, j)| (2.0 * (start_j + e) / j).sqrt());
    // time of a turn falls with the energy at its start
    let turn_s = |start_j: f64| speeds(start_j).map(|w| TAU / stored.len() as f64 / w).sum::<f64>();
    let deepest = stored.iter().copied().fold(0.0, f64::min);
    let most = inertia.iter().copied().fold(0.0, f64::max);
    let (mut low, mut high) = (-deepest, 0.5 * most * omega * omega - deepest);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if turn_s(middle) > TAU / omega { low = middle } else { high = middle }
    }
    let (slow, fast) =
        speeds(high).fold((f64::INFINITY, 0.0_f64), |(slow, fast), w| (slow.min(w), fast.max(w)));
    Some((fast - slow) / omega)
}

/// Work stored over the turn above that of the mean torque \[J\].
fn stored_j(torque_nm: &[f64]) -> Vec<f64> {
    let count = torque_nm.len() as f64;
    let mean = torque_nm.iter().sum::<f64>() / count;
    let mut sum = 0.0;
    let add = |t: &f64| {
        let before = sum;
        sum += (t - mean) * TAU / count;
        before
    };
    torque_nm.iter().map(add).collect()
}

/// Inertia of the flywheel \[kg m²\] that keeps the unsteadiness at `wanted`, where it has `now_kg_m2`; 0 where none is
/// needed, `None` where none in reach does.
pub fn flywheel_for(work: &WorkBreakdown, now_kg_m2: f64, wanted: f64) -> Option<f64> {
    let off = |inertia: f64| Some(unsteadiness(work, inertia - now_kg_m2)? - wanted);
    let mut high = now_kg_m2.max(1e-6);
    while off(high)? > 0.0 {
        high *= 2.0;
        if high > 1e6 * now_kg_m2.max(1e-3) {
            return None;
        }
    }
    let mut low = high;
    loop {
        low *= 0.5;
        if low < 1e-9 {
            return Some(0.0);
        }
        match off(low) {
            Some(value) if value > 0.0 => break root([(low, value), (high, off(high)?)], 1e-4, off),
            Some(_) => high = low,
            // lighter than the sliding masses allow: the turn could not be done
            None => return Some(high),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::verdict::cases::Formula;
    use crate::sizing::verdict::{Change, NetWork};

    /// R. S. Khurmi and J. K. Gupta, Theory of Machines, example 16.1: a wheel of 6.5 t with a radius of gyration of 1.8 m,
    /// mean speed 120 rpm, fluctuation of energy 56 kN m, runs between 121 and 119 rpm. A torque T₁ cos θ stores
    /// 2 T₁ between its zeros.
    #[test]
    fn a_wheel_of_a_text_book() {
        let inertia = 6500.0 * 1.8_f64.powi(2);
        let wave = Formula::over_turn(|theta, _| 28_000.0 * theta.cos(), inertia);
        let work = wave.at(120.0, &Change::NONE).unwrap();
        let swing_rpm = 120.0 * unsteadiness(&work, 0.0).unwrap();
        assert!((swing_rpm - 2.0).abs() < 0.5, "121 and 119 rpm to whole turns, not {swing_rpm}");
        // to more digits by hand: 56000 / (21060 × 12.566²) = 0.016838
        assert!((swing_rpm / 120.0 / 0.016_838 - 1.0).abs() < 2e-3, "{swing_rpm}");
        // and back: the inertia for that unsteadiness is that of the wheel
        let back = flywheel_for(&work, inertia, 0.016_838).unwrap();
        assert!((back / inertia - 1.0).abs() < 3e-3, "{back}");
        let half = flywheel_for(&work, inertia, 2.0 * 0.016_838).unwrap();
        assert!((half / inertia - 0.5).abs() < 3e-3, "{half}");
    }

    #[test]
    fn an_even_torque_needs_no_wheel() {
        let even = Formula::over_turn(|_, _| 1.0, 0.01).at(300.0, &Change::NONE).unwrap();
        assert!(unsteadiness(&even, 0.0).unwrap() < 1e-9);
        assert!(flywheel_for(&even, 0.01, 0.05).unwrap() < 1e-3);
        assert_eq!(unsteadiness(&even, -0.02), None);
    }
}
