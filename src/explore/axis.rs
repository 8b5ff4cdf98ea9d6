//! An axis of a chart: from values to millimetres of paper, with round ticks.

use crate::numerals::fixed;

/// An axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// Values at both ends.
    pub ends: [f64; 2],
    /// Places of both ends on the paper \[mm\].
    pub paper: [f64; 2],
    /// Values with a tick.
    pub ticks: Vec<f64>,
    decimals: usize,
}

/// The step of 1, 2 or 5 times a power of ten with which `span` has about `wanted` steps, never more.
pub fn round_step(span: f64, wanted: usize) -> f64 {
    let least = span / wanted.max(1) as f64;
    let ten = 10_f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .map(|m| m * ten)
        .into_iter()
        .find(|step| *step >= least * (1.0 - 1e-9))
        .unwrap_or(least)
}

/// Multiples of a step within a range, both ends counted.
pub fn multiples(low: f64, high: f64, step: f64) -> Vec<f64> {
    let (first, last) = ((low / step - 1e-6).ceil() as i64, (high / step + 1e-6).floor() as i64);
    (first..=last).map(|k| k as f64 * step).collect()
}

/// Decimals that tell multiples of a step apart.
pub fn decimals(step: f64) -> usize {
    (-(step.log10() + 1e-9).floor()).clamp(0.0, 12.0) as usize
}

impl Axis {
    /// An axis that ends where the values end.
    pub fn exact(values: [f64; 2], paper: [f64; 2], wanted: usize) -> Self {
        let ends = apart(values);
        let step = round_step(ends[1] - ends[0], wanted);
        Self { ends, paper, ticks: multiples(ends[0], ends[1], step), decimals: decimals(step) }
    }

    /// An axis that ends at a tick on both sides, and at zero if that is near.
    pub fn round(values: [f64; 2], paper: [f64; 2], wanted: usize) -> Self {
        let [low, high] = apart(values);
        let low = if low > 0.0 && low < 0.4 * high { 0.0 } else { low };
        let step = round_step(high - low, wanted);
        let ends = [(low / step + 1e-6).floor() * step, (high / step - 1e-6).ceil() * step];
        Self { ends, paper, ticks: multiples(ends[0], ends[1], step), decimals: decimals(step) }
    }

    /// Place of a value on the paper \[mm\].
    pub fn at(&self, value: f64) -> f64 {
        let share = (value - self.ends[0]) / (self.ends[1] - self.ends[0]);
        self.paper[0] + (self.paper[1] - self.paper[0]) * share
    }

    /// What stands at a tick.
    pub fn text(&self, tick: f64) -> String {
        fixed(tick, self.decimals)
    }
}

/// Both ends, moved apart when they are the same.
fn apart([low, high]: [f64; 2]) -> [f64; 2] {
    let least = 1e-6 * low.abs().max(high.abs()).max(1e-6);
    if high - low > least {
        [low, high]
    } else {
        [low - 0.05 * low.abs() - least, high + 0.05 * high.abs() + least]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_told_with_the_decimals_they_need() {
        let texts = |axis: &Axis| axis.ticks.iter().map(|t| axis.text(*t)).collect::<Vec<_>>().join(" ");
        assert_eq!(texts(&Axis::exact([20.0, 36.0], [0.0, 1.0], 8)), "20 22 24 26 28 30 32 34 36");
        assert_eq!(texts(&Axis::exact([19.3, 36.0], [0.0, 1.0], 4)), "20 25 30 35");
        assert_eq!(texts(&Axis::exact([0.31, 0.62], [0.0, 1.0], 4)), "0.4 0.5 0.6");
        assert_eq!(texts(&Axis::round([13.2, 24.9], [0.0, 1.0], 6)), "12 14 16 18 20 22 24 26");
        assert_eq!(texts(&Axis::round([-3.0, 7.0], [0.0, 1.0], 5)), "-4 -2 0 2 4 6 8");
    }

    #[test]
    fn values_go_to_their_place_on_the_paper() {
        let axis = Axis::exact([20.0, 36.0], [10.0, 90.0], 8);
        assert_eq!((axis.at(20.0), axis.at(28.0), axis.at(36.0)), (10.0, 50.0, 90.0));
    }

    #[test]
    fn a_flat_curve_has_an_axis_all_the_same() {
        for flat in [0.0, 5.0, -5.0, 1e9] {
            let axis = Axis::round([flat, flat], [0.0, 10.0], 5);
            assert!(axis.at(flat) > 0.0 && axis.at(flat) < 10.0, "{axis:?}");
            assert!(axis.ticks.len() < 12);
        }
    }
}
