//! Effectiveness of the mechanism, a figure derived from a turn of the drive.

use crate::sizing::cycle::forced_work::ForcedWork;

/// The constant effectiveness E that would leave this work at the shaft.
///
/// From W_s = E W₊ − W₋/E (J. R. Senft, Mechanical Efficiency of Stirling Engines, 2007, from memory) solved for
/// E: E = (W_s + √(W_s² + 4 W₊ W₋)) / (2 W₊). A derived figure: real friction is no constant share of the work.
/// `None` where the gas never drives.
pub fn effectiveness(split: &ForcedWork, shaft_j: f64) -> Option<f64> {
    let root = (shaft_j * shaft_j + 4.0 * split.efficacious_j * split.forced_j).sqrt();
    (split.efficacious_j > 0.0).then(|| (shaft_j + root) / (2.0 * split.efficacious_j))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Indicated work, forced work and shaft work at E = 0.7, 0.8, 0.9 of four isothermal engines (alpha, beta, gamma, gamma
    /// of low temperature), worked out by an independent program in Python (scipy) to the digits printed.
    #[test]
    fn effectiveness_of_four_reference_engines() {
        let table = [
            (4.94499, 1.87062, [2.09861, 3.11421, 4.05558]),
            (18.4666, 3.28275, [10.5349, 13.2960, 15.9269]),
            (0.708396, 0.0519905, [0.457999, 0.543321, 0.626581]),
            (0.112687, 1.18732e-4, [0.0787945, 0.0900963, 0.101393]),
        ];
        for (work, forced_j, shafts) in table {
            let split = ForcedWork { efficacious_j: work + forced_j, forced_j };
            for (e, shaft) in [0.7, 0.8, 0.9].into_iter().zip(shafts) {
                let got = effectiveness(&split, shaft).unwrap();
                assert!((got / e - 1.0).abs() < 1e-5, "{got} is not {e}");
            }
        }
    }

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
