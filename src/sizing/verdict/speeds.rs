//! Mean torque over speed without load, on a grid that is finer where the curve bends.

use super::change::Change;
use super::net_work::{NetWork, VerdictError};
use super::search::root;

/// How the curve is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpeedRange {
    /// Least speed \[rpm\].
    pub low_rpm: f64,
    /// Greatest speed \[rpm\].
    pub high_rpm: f64,
    /// Speeds to begin with.
    pub first: usize,
    /// Bend, as part of the greatest torque and of that on the spot together, below which a stretch is straight
    /// enough.
    pub straight: f64,
    /// Speeds at most.
    pub most: usize,
}

impl Default for SpeedRange {
    fn default() -> Self {
        Self { low_rpm: 20.0, high_rpm: 4000.0, first: 9, straight: 0.01, most: 60 }
    }
}

/// One speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpeedPoint {
    /// Speed \[rpm\].
    pub speed_rpm: f64,
    /// Mean torque at the shaft \[N m\].
    pub torque_nm: f64,
    /// Work of the gas each turn \[J\].
    pub indicated_j: f64,
    /// Work at the shaft each turn \[J\].
    pub net_j: f64,
    /// Power at the shaft \[W\].
    pub power_w: f64,
}

/// The curve.
#[derive(Clone, Debug, PartialEq)]
pub struct SpeedCurve {
    /// Points by rising speed.
    pub points: Vec<SpeedPoint>,
    /// Speeds at which the model has no answer, and why.
    pub failed: Vec<(f64, VerdictError)>,
    /// Where the torque changes its sign: speed \[rpm\] and whether it rises there.
    pub crossings: Vec<(f64, bool)>,
}

fn point(net: &dyn NetWork, speed_rpm: f64, change: &Change) -> Result<SpeedPoint, VerdictError> {
    let w = net.at(speed_rpm, change)?;
    Ok(SpeedPoint {
        speed_rpm,
        torque_nm: w.mean_torque_nm(),
        indicated_j: w.indicated_j,
        net_j: w.net_j,
        power_w: w.power_w(),
    })
}

impl SpeedCurve {
    /// Draws the curve.
    ///
    /// # Errors
    /// The model's, where it has no answer at any speed.
    pub fn of(net: &dyn NetWork, change: &Change, range: &SpeedRange) -> Result<Self, VerdictError> {
        let mut curve = Self { points: Vec::new(), failed: Vec::new(), crossings: Vec::new() };
        let ratio = range.high_rpm / range.low_rpm;
        let last = range.first.max(2) - 1;
        for i in 0..=last {
            curve.add(net, range.low_rpm * ratio.powf(i as f64 / last as f64), change);
        }
        if curve.points.is_empty() {
            let first = curve.failed.into_iter().next().map(|(_, e)| e);
            return Err(first.unwrap_or_else(|| VerdictError::Model("no speeds in the range".into())));
        }
        curve.refine(net, change, range);
        curve.crossings = curve.find_crossings(net, change);
        Ok(curve)
    }

    /// Works out one more speed; whether the model had an answer.
    fn add(&mut self, net: &dyn NetWork, speed_rpm: f64, change: &Change) -> bool {
        match point(net, speed_rpm, change) {
            Ok(p) => {
                let at = self.points.partition_point(|q| q.speed_rpm < speed_rpm);
                self.points.insert(at, p);
                true
            }
            Err(e) => {
                self.failed.push((speed_rpm, e));
                false
            }
        }
    }

    /// Halves stretches until the new point lies on the straight line, widest bend first in.
    fn refine(&mut self, net: &dyn NetWork, change: &Change, range: &SpeedRange) {
        let mut open: Vec<(f64, f64)> =
            self.points.windows(2).map(|w| (w[0].speed_rpm, w[1].speed_rpm)).collect();
        while let Some((low, high)) = open.pop() {
            let most = self.points.iter().map(|p| p.torque_nm).fold(0.0, f64::max);
            let middle = (low * high).sqrt();
            let line = self.torque_nm(middle);
            if self.points.len() >= range.most || high / low < 1.02 || !self.add(net, middle, change) {
                continue;
            }
            let bend = line.map_or(0.0, |l| (self.torque_nm(middle).unwrap_or(l) - l).abs());
            let here = self.torque_nm(middle).map_or(0.0, f64::abs);
            if bend > range.straight * (most + here) {
                open.extend([(low, middle), (middle, high)]);
            }
        }
    }

    fn find_crossings(&self, net: &dyn NetWork, change: &Change) -> Vec<(f64, bool)> {
        let torque = |rpm: f64| net.at(rpm, change).ok().map(|w| w.mean_torque_nm());
        let sign_changes =
            self.points.windows(2).filter(|w| (w[0].torque_nm > 0.0) != (w[1].torque_nm > 0.0));
        sign_changes
            .filter_map(|w| {
                let ends = [(w[0].speed_rpm, w[0].torque_nm), (w[1].speed_rpm, w[1].torque_nm)];
                Some((root(ends, 1e-4, torque)?, w[1].torque_nm > 0.0))
            })
            .collect()
    }

    /// Mean torque at a speed by straight lines between the points; `None` outside.
    pub fn torque_nm(&self, speed_rpm: f64) -> Option<f64> {
        let after = self.points.partition_point(|p| p.speed_rpm < speed_rpm);
        let high = self.points.get(after)?;
        if high.speed_rpm == speed_rpm {
            return Some(high.torque_nm);
        }
        let low = self.points.get(after.checked_sub(1)?)?;
        let part = (speed_rpm - low.speed_rpm) / (high.speed_rpm - low.speed_rpm);
        Some(low.torque_nm + part * (high.torque_nm - low.torque_nm))
    }

    /// Stretches of positive torque \[rpm\]; an end is `None` where the curve ends before the torque does.
    pub fn driving(&self) -> Vec<(Option<f64>, Option<f64>)> {
        let mut stretches = Vec::new();
        let mut from = self.points.first().filter(|p| p.torque_nm > 0.0).map(|_| None);
        for (rpm, rising) in &self.crossings {
            if *rising {
                from = Some(Some(*rpm));
            } else if let Some(low) = from.take() {
                stretches.push((low, Some(*rpm)));
            }
        }
        stretches.extend(from.map(|low| (low, None)));
        stretches
    }

    /// Speed without load: the highest at which torque falls through nothing \[rpm\].
    pub fn no_load_rpm(&self) -> Option<f64> {
        self.crossings.iter().rev().find(|(_, rising)| !rising).map(|(rpm, _)| *rpm)
    }

    /// The point of greatest shaft power.
    pub fn best_power(&self) -> Option<&SpeedPoint> {
        self.points.iter().max_by(|a, b| a.power_w.total_cmp(&b.power_w))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::verdict::cases::Formula;

    /// Torque −1 + n/100 − (n/400)² by hand: roots of n² − 1600 n + 160000 at 800 ∓ 692.82.
    #[test]
    fn roots_of_a_parabola() {
        let formula = Formula::torque(|n| -1.0 + n / 100.0 - (n / 400.0_f64).powi(2));
        let curve = SpeedCurve::of(&formula, &Change::NONE, &SpeedRange::default()).unwrap();
        let roots: Vec<_> = curve.crossings.iter().map(|c| c.0).collect();
        assert!(
            (roots[0] / 107.18 - 1.0).abs() < 2e-4 && (roots[1] / 1492.82 - 1.0).abs() < 2e-4,
            "{roots:?}"
        );
        assert_eq!(curve.no_load_rpm(), Some(roots[1]));
        assert_eq!(curve.driving(), [(Some(roots[0]), Some(roots[1]))]);
        assert!((curve.torque_nm(700.0).unwrap() - (6.0 - 3.0625)).abs() < 0.05);
    }

    #[test]
    fn an_engine_that_drives_at_all_speeds_has_no_no_load_speed_in_the_range() {
        let curve = SpeedCurve::of(&Formula::torque(|_| 1.0), &Change::NONE, &SpeedRange::default()).unwrap();
        assert_eq!((curve.no_load_rpm(), curve.driving()), (None, vec![(None, None)]));
        assert_eq!(curve.torque_nm(5000.0), None);
    }

    #[test]
    fn speeds_without_an_answer_are_told() {
        let formula = Formula::torque(|n| if n > 1000.0 { f64::NAN } else { 1.0 - n / 500.0 });
        let curve = SpeedCurve::of(&formula, &Change::NONE, &SpeedRange::default()).unwrap();
        assert!(!curve.failed.is_empty() && (curve.no_load_rpm().unwrap() - 500.0).abs() < 0.1);
        assert!(
            SpeedCurve::of(&Formula::torque(|_| f64::NAN), &Change::NONE, &SpeedRange::default()).is_err()
        );
    }
}
