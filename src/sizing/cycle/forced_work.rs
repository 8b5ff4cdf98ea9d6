//! What the mechanism makes of the work of the gas: efficacious and forced work, shaft work.
//!
//! J. R. Senft, Mechanical Efficiency of Stirling Engines, 2007, and "Optimum Stirling engine geometry",
//! Int. J. Energy Research 26 (2002) 1087 (both from memory). Against the buffer pressure p_b behind the
//! piston, an element (p − p_b) dV is efficacious where it is positive: the gas drives the mechanism and
//! the shaft gets E of it. Where it is negative the mechanism forces the gas and the shaft gives 1/E.
//! So W_s = E W₊ − W₋/E = E W − (1/E − E) W₋, with the effectiveness 0 < E ≤ 1.

use super::{CyclePoint, CycleResult};
use serde::{Deserialize, Serialize};

/// Work of one piston over a turn, split by who drives whom.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ForcedWork {
    /// W₊, done by the gas on the mechanism \[J\].
    pub efficacious_j: f64,
    /// W₋, done by the mechanism on the gas, counted positive \[J\].
    pub forced_j: f64,
}

impl ForcedWork {
    /// Splits a closed loop of (volume \[m³\], pressure \[Pa\]) against a buffer pressure \[Pa\].
    ///
    /// The loop is taken as a polygon and cut where it crosses the buffer pressure; the error falls with
    /// the square of the number of points (seen: under 2.1e-5 of the indicated work at 360 points, 5.2e-6 at
    /// 720).
    pub fn of_loop(points: &[[f64; 2]], buffer_pa: f64) -> Self {
        let next = points.iter().cycle().skip(1);
        let sides =
            points.iter().zip(next).map(|(a, b)| side(b[0] - a[0], a[1] - buffer_pa, b[1] - buffer_pa));
        sides.fold(Self::default(), Self::plus)
    }

    /// Split of beta and gamma engines with a thin displacer rod: all gas works on the one piston.
    pub fn of_total(result: &CycleResult, buffer_pa: f64) -> Self {
        Self::by(result, buffer_pa, |p| p.total_m3)
    }

    /// Split of alpha engines: each piston carries its own force, so hot and cold add up.
    pub fn of_two_pistons(result: &CycleResult, buffer_pa: f64) -> Self {
        Self::by(result, buffer_pa, |p| p.hot_m3).plus(Self::by(result, buffer_pa, |p| p.cold_m3))
    }

    fn by(result: &CycleResult, buffer_pa: f64, volume_m3: impl Fn(&CyclePoint) -> f64) -> Self {
        let points: Vec<_> = result.points.iter().map(|p| [volume_m3(p), p.pressure_pa]).collect();
        Self::of_loop(&points, buffer_pa)
    }

    fn plus(self, other: Self) -> Self {
        Self {
            efficacious_j: self.efficacious_j + other.efficacious_j,
            forced_j: self.forced_j + other.forced_j,
        }
    }

    /// Indicated work W₊ − W₋ \[J\].
    pub fn indicated_j(&self) -> f64 {
        self.efficacious_j - self.forced_j
    }

    /// Work left at the shaft with a mechanism of this effectiveness \[J\].
    pub fn shaft_j(&self, effectiveness: f64) -> f64 {
        effectiveness * self.efficacious_j - self.forced_j / effectiveness
    }
}

/// One side of the polygon: volume grows by `volume`, pressure over the buffer goes from `from` to `to`.
fn side(volume: f64, from: f64, to: f64) -> ForcedWork {
    let parts = if from * to < 0.0 {
        let crossing = from / (from - to);
        [0.5 * from * volume * crossing, 0.5 * to * volume * (1.0 - crossing)]
    } else {
        [0.5 * (from + to) * volume, 0.0]
    };
    let sum = |sign: f64| parts.iter().map(|w| (sign * w).max(0.0)).sum();
    ForcedWork { efficacious_j: sum(1.0), forced_j: sum(-1.0) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A rectangle in the pressure-volume plane between 1 and 3 Pa and 0 and 2 m³: work 4 J. With the
    /// buffer at 2 Pa all of it is efficacious; at 0 Pa the lower side, 2 J, is forced. By hand.
    #[test]
    fn a_rectangle_is_split_as_by_hand() {
        let loop_ = [[0.0, 3.0], [2.0, 3.0], [2.0, 1.0], [0.0, 1.0]];
        let split = |b| ForcedWork::of_loop(&loop_, b);
        assert_eq!(split(2.0), ForcedWork { efficacious_j: 4.0, forced_j: 0.0 });
        assert_eq!(split(0.0), ForcedWork { efficacious_j: 6.0, forced_j: 2.0 });
        assert_eq!(split(0.0).indicated_j(), 4.0);
        assert_eq!(split(0.0).shaft_j(0.5), 0.5 * 6.0 - 2.0 / 0.5);
    }

    /// A slanting side from 1 Pa under to 1 Pa over the buffer over 2 m³: half forced, half not. By hand.
    #[test]
    fn a_side_that_crosses_the_buffer_is_cut_there() {
        assert_eq!(side(2.0, -1.0, 1.0), ForcedWork { efficacious_j: 0.5, forced_j: 0.5 });
        assert_eq!(side(-2.0, -1.0, 3.0), ForcedWork { efficacious_j: 0.25, forced_j: 2.25 });
        assert_eq!(ForcedWork::of_loop(&[], 1.0), ForcedWork::default());
    }
}
