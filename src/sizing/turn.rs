//! Extremes of a smooth function over one turn.

use std::f64::consts::TAU;

/// Enough to part the extremes of any crank motion; the place is then closed in by halving.
const GRID: usize = 720;

/// Least value over the turn, where `slope` is the derivative of `value` by the angle \[rad\].
pub(super) fn least(value: impl Fn(f64) -> f64, slope: impl Fn(f64) -> f64) -> f64 {
    let step = TAU / GRID as f64;
    let best = (0..GRID).map(|i| i as f64 * step).min_by(|a, b| value(*a).total_cmp(&value(*b)));
    let at = best.unwrap_or(0.0);
    let (mut low, mut high) = (at - step, at + step);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if slope(middle) < 0.0 { low = middle } else { high = middle }
    }
    value(0.5 * (low + high)).min(value(at))
}

/// Greatest value over the turn; see [`least`].
pub(super) fn greatest(value: impl Fn(f64) -> f64, slope: impl Fn(f64) -> f64) -> f64 {
    -least(|a| -value(a), |a| -slope(a))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn extremes_of_a_cosine_are_its_amplitude() {
        let value = |a: f64| 5.0 + 2.0 * (a - 0.1234).cos();
        let slope = |a: f64| -2.0 * (a - 0.1234).sin();
        assert!((least(value, slope) - 3.0).abs() < 1e-14);
        assert!((greatest(value, slope) - 7.0).abs() < 1e-14);
    }
}
