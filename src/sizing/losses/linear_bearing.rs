//! Friction of a linear ball bushing: F = μ |R| + S.
//!
//! μ 0.001 to 0.0025 without seals, 0.003 to 0.005 of the drawn-cup kind, at about a fifth of the load rating; S of two
//! wipers 2 to 5 N, whatever the load (both read in makers' technical pages). μ rises at very light load.

/// Friction at the first move over running friction: nearly the same (makers' technical pages).
pub const BREAKAWAY: f64 = 1.1;

/// A linear ball bushing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LinearBearing {
    /// Friction coefficient.
    pub friction: f64,
    /// Drag of the wipers, 0 without any \[N\].
    pub seal_n: f64,
}

impl LinearBearing {
    /// Friction \[N\] under a load across its axis \[N\].
    pub fn force_n(&self, load_n: f64) -> f64 {
        self.friction * load_n.abs() + self.seal_n
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 0.003 × 50 N + 3 N = 3.15 N: at light loads it is the wipers that brake.
    #[test]
    fn worked_value() {
        assert!((LinearBearing { friction: 0.003, seal_n: 3.0 }.force_n(-50.0) - 3.15).abs() < 1e-12);
    }
}
