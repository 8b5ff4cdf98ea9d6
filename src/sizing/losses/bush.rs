//! Friction of a plain bush: F = μ |R| (Coulomb).
//!
//! μ of wrapped PTFE-lined bushes (ISO 3547) 0.03 to 0.25: 0.15 to 0.25 at light load and high speed, 0.03 to 0.08
//! at high load and low speed (makers' lists). Oil-filled sintered bronze 0.05 to 0.15 (from memory). The guides
//! of a small engine are lightly loaded: 0.15 for sizing.

/// Friction at the first move over running friction (makers' lists, PTFE lining: little stick-slip; from memory).
pub const BREAKAWAY: f64 = 1.5;

/// A plain bush.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bush {
    /// Friction coefficient.
    pub friction: f64,
}

/// Reactions of two guides on a straight rod to a side force that hangs below them.
///
/// With the side force N a distance a below the lower guide and the guides b apart, moments about either give
/// N (1 + a/b) at the lower and N a/b at the upper one (statics).
pub fn reactions(side_n: f64, overhang_mm: f64, span_mm: f64) -> [f64; 2] {
    let lever = overhang_mm / span_mm;
    [side_n * (1.0 + lever), side_n * lever]
}

impl Bush {
    /// Friction \[N\] under a load across its axis \[N\].
    pub fn force_n(&self, load_n: f64) -> f64 {
        self.friction * load_n.abs()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 12 N hanging 20 mm below guides 40 mm apart presses 18 N and 6 N; the difference is the 12 N.
    #[test]
    fn worked_value() {
        let [lower, upper] = reactions(12.0, 20.0, 40.0);
        assert_eq!((lower, upper), (18.0, 6.0));
        assert_eq!(Bush { friction: 0.15 }.force_n(-lower), 0.15 * 18.0);
    }
}
