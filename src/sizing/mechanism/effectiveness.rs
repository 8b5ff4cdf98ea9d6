//! Figures derived from a turn of the drive: effectiveness of the mechanism, flywheel for a wanted steadiness.

use super::drive_forces::DriveResult;
use crate::sizing::cycle::forced_work::ForcedWork;
use std::f64::consts::TAU;

/// The constant effectiveness E that would leave this work at the shaft.
///
/// From W_s = E W₊ − W₋/E (J. R. Senft, Mechanical Efficiency of Stirling Engines, 2007, from memory) solved for
/// E: E = (W_s + √(W_s² + 4 W₊ W₋)) / (2 W₊). A derived figure: real friction is no constant share of the work.
/// `None` where the gas never drives.
pub fn effectiveness(split: &ForcedWork, shaft_j: f64) -> Option<f64> {
    let root = (shaft_j * shaft_j + 4.0 * split.efficacious_j * split.forced_j).sqrt();
    (split.efficacious_j > 0.0).then(|| (shaft_j + root) / (2.0 * split.efficacious_j))
}

/// Inertia that keeps the speed within an unsteadiness (greatest less least speed over the mean) at a mean speed
/// \[kg m²\].
///
/// J = ΔE / (δ ω²), ΔE the greatest swing of the work stored above the mean torque (any text book of machine
/// dynamics; for small δ).
pub fn flywheel_kg_m2(turn: &DriveResult, speed_rpm: f64, unsteadiness: f64) -> f64 {
    let (mean, step) = (turn.mean_torque_nm(), TAU / turn.points.len() as f64);
    let (mut stored, mut most, mut least) = (0.0_f64, 0.0_f64, 0.0_f64);
    for point in &turn.points {
        stored += (point.shaft_nm - mean) * step;
        most = most.max(stored);
        least = least.min(stored);
    }
    (most - least) / (unsteadiness * (TAU * speed_rpm / 60.0).powi(2))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Back from the shaft work of the formula to its effectiveness.
    #[test]
    fn effectiveness_is_the_inverse_of_the_shaft_work() {
        for (plus, minus) in [(4.0, 1.0), (2.0, 0.0), (1.0, 1.5)] {
            let split = ForcedWork { efficacious_j: plus, forced_j: minus };
            for e in [0.3, 0.7, 1.0] {
                let back = effectiveness(&split, split.shaft_j(e)).unwrap();
                assert!((back - e).abs() < 1e-12, "{back} is not {e}");
            }
        }
        assert_eq!(effectiveness(&ForcedWork { efficacious_j: 0.0, forced_j: 1.0 }, -1.0), None);
    }
}
