//! The middle case and the bad case: two runs of the model in place of a sampled band.
//!
//! In the middle case every uncertain input stands at its median. In the bad case the inputs stand on their bad sides, each
//! by its share of 1.2816 standard deviations, the shares by what the input costs alone: where power falls in a straight line
//! with each of them, one engine in ten is worse (the likeliest point at a reliability index of 1.2816; A. M. Hasofer and
//! N. C. Lind, Journal of the Engineering Mechanics Division ASCE 100 (1974) 111, from memory). Power bends, so the
//! sampled band may lie a little beside it.

use crate::sizing::band::{Input, NORMAL_P90, Spread, Uncertain, applied};
use crate::sizing::verdict::{Change, NetWork};

/// Every input at its median.
pub fn middle(inputs: &[Uncertain]) -> Change {
    at(inputs, &[])
}

/// The inputs on their bad sides by these shares, whose squares come to one together.
pub fn bad(inputs: &[Uncertain], shares: &[f64]) -> Change {
    at(inputs, shares)
}

/// Equal shares, for an engine of which nothing is known.
pub fn equal(inputs: &[Uncertain]) -> Vec<f64> {
    let free = |u: &Uncertain| if matches!(u.spread, Spread::Fixed { .. }) { 0.0 } else { 1.0 };
    of_one(inputs.iter().map(free).collect())
}

/// Shares by what each input costs this engine alone \[W\]; `None` where the model has no answer or nothing costs anything.
pub fn shares(net: &dyn NetWork, speed_rpm: f64, inputs: &[Uncertain]) -> Option<Vec<f64>> {
    let power = |change: &Change| net.at(speed_rpm, change).ok().map(|work| work.power_w());
    let all = power(&middle(inputs))?;
    let alone = |i: usize| (0..inputs.len()).map(|k| if k == i { 1.0 } else { 0.0 }).collect::<Vec<f64>>();
    let costs = (0..inputs.len()).map(|i| Some((all - power(&at(inputs, &alone(i)))?).max(0.0)));
    let costs: Vec<f64> = costs.collect::<Option<_>>()?;
    costs.iter().any(|cost| *cost > 0.0).then(|| of_one(costs))
}

/// Scaled so that the squares come to one together.
fn of_one(shares: Vec<f64>) -> Vec<f64> {
    let length = shares.iter().map(|s| s * s).sum::<f64>().sqrt().max(1e-300);
    shares.into_iter().map(|s| s / length).collect()
}

/// Each input on its bad side by its share of 1.2816 standard deviations; at its median without one.
fn at(inputs: &[Uncertain], shares: &[f64]) -> Change {
    let side = |input| match input {
        Input::HeatTransfer | Input::EndHeatTransfer | Input::HotWall | Input::HotWallKelvin => -NORMAL_P90,
        _ => NORMAL_P90,
    };
    let share = |i: usize| shares.get(i).copied().unwrap_or(0.0);
    applied(inputs.iter().enumerate().map(|(i, u)| (u.input, quantile(&u.spread, side(u.input) * share(i)))))
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
        let inputs = default_spreads();
        let (m, b) = (middle(&inputs), bad(&inputs, &equal(&inputs)));
        assert_eq!((m.leak, m.heat_transfer, m.friction.rings), (1.0, 1.0, 1.0));
        assert!(
            b.leak > 1.0
                && b.heat_transfer < 1.0
                && b.hot_share < m.hot_share
                && b.cold_share > m.cold_share
                && b.end_heat_transfer < 1.0
        );
        assert!(b.friction.rings > 1.0 && b.friction.belt > 1.0 && b.flow_friction > 1.0);
        // ln 3 / √11 = 0.3312
        assert!((b.leak.ln() - 0.331_2).abs() < 1e-4);
    }

    /// The square root of the sum of equal squares is the ninetieth percentile itself.
    #[test]
    fn with_one_input_the_bad_case_is_its_tenth_percentile() {
        let one = [Uncertain { input: Input::Leak, spread: Spread::Lognormal { within: 3.0 } }];
        assert!((bad(&one, &equal(&one)).leak - 3.0).abs() < 1e-12);
    }
}
