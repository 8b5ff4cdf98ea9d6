//! The middle case and the bad case: two runs of the model in place of a sampled band.
//!
//! In the middle case every uncertain input stands at its median. In the bad case each of n inputs stands on its bad side by
//! 1.2816/√n standard deviations: where power falls by equal shares and in a straight line with each of them, one engine in
//! ten is worse (the point of greatest likelihood at a reliability index of 1.2816; A. M. Hasofer and N. C. Lind, Journal of
//! the Engineering Mechanics Division ASCE 100 (1974) 111, from memory). The sampled band tells afterwards how near that is.

use crate::sizing::band::{Input, NORMAL_P90, Spread, Uncertain, applied};
use crate::sizing::verdict::Change;

/// Every input at its median.
pub fn middle(inputs: &[Uncertain]) -> Change {
    at(inputs, 0.0)
}

/// Every input on its bad side, such that about one engine in ten is worse.
pub fn bad(inputs: &[Uncertain]) -> Change {
    let free = inputs.iter().filter(|u| !matches!(u.spread, Spread::Fixed { .. })).count();
    at(inputs, NORMAL_P90 / (free.max(1) as f64).sqrt())
}

/// Every input so many standard deviations on its bad side.
fn at(inputs: &[Uncertain], deviations: f64) -> Change {
    let side = |input| match input {
        Input::HeatTransfer | Input::HotWall => -1.0,
        _ => 1.0,
    };
    applied(inputs.iter().map(|u| (u.input, quantile(&u.spread, side(u.input) * deviations))))
}

/// Value of a spread where the standard normal distribution has this deviation.
fn quantile(spread: &Spread, deviation: f64) -> f64 {
    match *spread {
        Spread::Lognormal { within } => (within.ln() / NORMAL_P90 * deviation).exp(),
        Spread::Uniform { low, high } => low + (high - low) * below(deviation),
        Spread::Fixed { value } => value,
    }
}

/// Part of a standard normal distribution below a deviation: M. Abramowitz and I. A. Stegun, Handbook of Mathematical
/// Functions (1964), 26.2.17, within 7.5e-8; from memory, checked against their table 26.1.
fn below(deviation: f64) -> f64 {
    let t = 1.0 / (1.0 + 0.231_641_9 * deviation.abs());
    let series = [1.330_274_429, -1.821_255_978, 1.781_477_937, -0.356_563_782, 0.319_381_530];
    let sum = series.iter().fold(0.0, |sum, b| (sum + b) * t);
    let tail = (-0.5 * deviation * deviation).exp() / std::f64::consts::TAU.sqrt() * sum;
    if deviation < 0.0 { tail } else { 1.0 - tail }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::band::default_spreads;

    /// Abramowitz and Stegun, table 26.1: P(0.5) = 0.69146 24613, P(1) = 0.84134 47461, P(2) = 0.97724 98681.
    #[test]
    fn part_below_is_that_of_the_table() {
        for (x, p) in [(0.0, 0.5), (0.5, 0.691_462_461_3), (1.0, 0.841_344_746_1), (2.0, 0.977_249_868_1)] {
            assert!((below(x) - p).abs() < 1e-7 && (below(-x) - 1.0 + p).abs() < 1e-7, "{x}");
        }
    }

    #[test]
    fn the_bad_case_is_worse_in_every_input() {
        let (m, b) = (middle(&default_spreads()), bad(&default_spreads()));
        assert_eq!((m.leak, m.heat_transfer, m.friction.rings, m.hot_k), (1.0, 1.0, 1.0, -25.0));
        assert!(b.leak > 1.0 && b.heat_transfer < 1.0 && b.hot_k < m.hot_k && b.cold_k > m.cold_k);
        assert!(b.friction.rings > 1.0 && b.friction.belt > 1.0 && b.flow_friction > 1.0);
        // ln 3 / √10 = 0.3474
        assert!((b.leak.ln() - 0.347_4).abs() < 1e-4);
    }

    /// The square root of the sum of ten equal squares is the ninetieth percentile itself.
    #[test]
    fn with_one_input_the_bad_case_is_its_tenth_percentile() {
        let one = [Uncertain { input: Input::Leak, spread: Spread::Lognormal { within: 3.0 } }];
        assert!((bad(&one).leak - 3.0).abs() < 1e-12);
    }
}
