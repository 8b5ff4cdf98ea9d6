//! How good a candidate is. Stages come first; within a stage a smaller number is better.

/// Stages from the best to the worst, each with how far the candidate is from the next better one.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub enum Score {
    /// Everything is met with its reserve: how bulky it is, see [`bulk`].
    Met(f64),
    /// The target is met, but not in the bad case: missing part of the target.
    Reserve(f64),
    /// The target is met, but a hand does not start it: work that is missing each turn \[J\].
    Start(f64),
    /// Power is missing: part of the target.
    Short(f64),
    /// A limit of the design is exceeded: by these parts of the limits.
    Over(f64),
    /// The model has no answer.
    Silent,
    /// A rule of sizing is broken: how many, and how far where that is known.
    Refused(f64),
}

impl Score {
    /// Whether the target is met.
    pub fn meets(self) -> bool {
        matches!(self, Self::Met(_) | Self::Reserve(_) | Self::Start(_))
    }

    /// Whether there is an engine at all whose power is known and that stays inside its limits.
    pub fn is_engine(self) -> bool {
        self < Self::Over(f64::NEG_INFINITY)
    }
}

/// Bulk of an engine, by which those that meet everything are told apart: the logarithm of the box around it \[cm³\] and
/// twice that of the charge over the air's pressure. A smaller box wins; doubling the pressure must quarter the box to be
/// worth it, because a vessel under pressure asks more of its builder than a larger one.
pub fn bulk(sides_mm: [f64; 3], charge_over_air: f64) -> f64 {
    (sides_mm.iter().product::<f64>() * 1e-3).ln() + 2.0 * charge_over_air.max(1e-3).ln()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stages_come_before_numbers() {
        let order = [
            Score::Met(-3.0),
            Score::Met(9.0),
            Score::Reserve(0.1),
            Score::Start(1e-3),
            Score::Short(0.01),
            Score::Over(1e-6),
            Score::Silent,
            Score::Refused(0.1),
            Score::Refused(2.0),
        ];
        assert!(order.windows(2).all(|w| w[0] < w[1]));
        assert_eq!(order.map(Score::meets).iter().filter(|m| **m).count(), 4);
        assert_eq!(order.map(Score::is_engine).iter().filter(|m| **m).count(), 5);
    }

    /// Half the box is worth as much as 1/√2 of the pressure.
    #[test]
    fn pressure_weighs_twice() {
        let whole = bulk([200.0, 200.0, 400.0], 1.0);
        let pressed = bulk([200.0, 200.0, 200.0], std::f64::consts::SQRT_2);
        assert!((whole - pressed).abs() < 1e-12);
    }
}
