//! Gauss-Legendre rules.

/// Nodes and weights of an `N`-point rule on 0..1.
///
/// Newton's method on the Legendre polynomial from Chebyshev-like starting points (Abramowitz and
/// Stegun 1964, 25.4.29 and 22.16.6; from memory).
pub(super) fn rule<const N: usize>() -> [(f64, f64); N] {
    std::array::from_fn(|i| {
        let mut x = (std::f64::consts::PI * (i as f64 + 0.75) / (N as f64 + 0.5)).cos();
        for _ in 0..8 {
            let (p, slope) = legendre(N, x);
            x -= p / slope;
        }
        let (_, slope) = legendre(N, x);
        (0.5 * (1.0 - x), 1.0 / ((1.0 - x * x) * slope * slope))
    })
}

/// Legendre polynomial and its slope.
fn legendre(n: usize, x: f64) -> (f64, f64) {
    let (mut before, mut p) = (1.0, x);
    for k in 2..=n {
        let k = k as f64;
        (before, p) = (p, ((2.0 * k - 1.0) * x * p - (k - 1.0) * before) / k);
    }
    (p, n as f64 * (x * p - before) / (x * x - 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rule_is_exact_for_powers_below_twice_its_points() {
        let sum: f64 = rule::<5>().iter().map(|(x, w)| w * x.powi(9)).sum();
        assert!((sum - 0.1).abs() < 1e-15);
        let circle: f64 = rule::<24>().iter().map(|(x, w)| w * (std::f64::consts::PI * x).sin()).sum();
        assert!((circle - 2.0 / std::f64::consts::PI).abs() < 1e-15);
    }
}
