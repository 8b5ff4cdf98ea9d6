//! The engine with its load on: running, and starting by hand.

use super::change::Change;
use super::load::LoadCurve;
use super::net_work::{Facts, NetWork, VerdictError, WorkBreakdown};
use super::operate::{Gearing, Running, asked_nm, running};
use super::speeds::{SpeedCurve, SpeedRange};
use super::start::{Start, start};
use crate::sizing::band::{Percentiles, Sampling, sample};
use rayon::prelude::*;
use std::f64::consts::TAU;

/// An engine with a load on its shaft through a drive of a fixed ratio.
pub struct Loaded<'a> {
    /// The engine.
    pub net: &'a dyn NetWork,
    /// The load.
    pub load: LoadCurve,
    /// Speed of the load over that of the engine.
    pub ratio: f64,
    /// Efficiency of the drive.
    pub efficiency: f64,
}

impl NetWork for Loaded<'_> {
    fn at(&self, speed_rpm: f64, change: &Change) -> Result<WorkBreakdown, VerdictError> {
        let mut work = self.net.at(speed_rpm, change)?;
        let asked = asked_nm(&self.load, self.ratio, self.efficiency, speed_rpm);
        work.net_j -= asked * TAU;
        work.torque_nm.iter_mut().for_each(|t| *t -= asked);
        let more = self.load.inertia_kg_m2() * self.ratio * self.ratio;
        work.inertia_kg_m2.iter_mut().for_each(|j| *j += more);
        Ok(work)
    }

    fn facts(&self, change: &Change) -> Facts {
        self.net.facts(change)
    }
}

/// How an engine fares with its load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Against {
    /// Steady running; `None` where it stalls.
    pub running: Option<Running>,
    /// Running through the best ratio, where it stalls at the given one.
    pub instead: Option<Running>,
    /// Start by hand with the load on; `None` where it stalls.
    pub start: Option<Start>,
}

/// Tries a load.
///
/// # Errors
/// The model's.
pub fn against(
    net: &dyn NetWork,
    base: &Change,
    curve: &SpeedCurve,
    (load, gearing): (&LoadCurve, &Gearing),
    hand_rpm: f64,
) -> Result<Against, VerdictError> {
    let found = running(curve, load, gearing);
    let instead = match (found, gearing.ratio) {
        (None, Some(_)) => running(curve, load, &Gearing { ratio: None, ..*gearing }),
        _ => None,
    };
    let on = |r: Running| {
        let loaded = Loaded { net, load: *load, ratio: r.ratio, efficiency: gearing.efficiency };
        start(&loaded, base, hand_rpm)
    };
    Ok(Against { running: found, instead, start: found.map(on).transpose()? })
}

/// The band of running against a load; a sample that stalls counts as standing still.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoadBand {
    /// Power at the engine's shaft \[W\].
    pub shaft_w: Percentiles,
    /// Power that reaches the load \[W\].
    pub load_w: Percentiles,
    /// Speed of the engine \[rpm\].
    pub engine_rpm: Percentiles,
    /// Part of the samples that turn the load, 0..1.
    pub turns: f64,
}

/// Runs the samples of [`crate::sizing::band`] against a load at one ratio; `None` where no sample has an answer.
pub fn load_band(net: &dyn NetWork, sampling: &Sampling, load: &LoadCurve, at: &Gearing) -> Option<LoadBand> {
    // coarser than the curve that is shown: the band is wider than what this misses
    let range = SpeedRange { straight: 0.03, most: 24, ..SpeedRange::default() };
    let one = |index: u64| {
        let change = sample(&sampling.inputs, sampling.seed, index);
        let curve = SpeedCurve::of(net, &change, &range).ok()?;
        Some(running(&curve, load, at))
    };
    let all: Vec<Option<Running>> = (0..sampling.count).into_par_iter().filter_map(one).collect();
    let of = |pick: fn(&Running) -> f64| {
        Percentiles::of(all.iter().map(|r| r.as_ref().map_or(0.0, pick)).collect())
    };
    Some(LoadBand {
        shaft_w: of(|r| r.shaft_w)?,
        load_w: of(|r| r.load_w)?,
        engine_rpm: of(|r| r.engine_rpm)?,
        turns: all.iter().flatten().count() as f64 / all.len() as f64,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::verdict::cases::Formula;

    /// Torque 0.2 (1 − n/1000) against 0.1 N m: 500 rpm. Under it the valley of the torque's wave of 0.15 N m is deeper, so
    /// the start asks for more spin than without.
    #[test]
    fn a_load_makes_the_start_harder() {
        let engine = Formula::over_turn(|theta, n| 0.2 * (1.0 - n / 1000.0) + 0.15 * theta.cos(), 0.004);
        let curve = SpeedCurve::of(&engine, &Change::NONE, &SpeedRange::default()).unwrap();
        let load = LoadCurve::Constant { torque_nm: 0.1 };
        let gearing = Gearing { ratio: Some(1.0), efficiency: 1.0 };
        let a = against(&engine, &Change::NONE, &curve, (&load, &gearing), 200.0).unwrap();
        assert!((a.running.unwrap().engine_rpm - 500.0).abs() < 1.0, "{a:?}");
        let free = start(&engine, &Change::NONE, 200.0).unwrap();
        assert!(a.start.unwrap().valley_j > free.valley_j);
        assert!(a.start.unwrap().spin_rpm.unwrap() > free.spin_rpm.unwrap_or(0.0), "{a:?} {free:?}");
    }

    #[test]
    fn what_stalls_at_its_ratio_is_told_another() {
        let engine = Formula::torque(|n| 0.2 * (1.0 - n / 1000.0));
        let curve = SpeedCurve::of(&engine, &Change::NONE, &SpeedRange::default()).unwrap();
        let load = LoadCurve::Constant { torque_nm: 1.0 };
        let gearing = Gearing { ratio: Some(1.0), efficiency: 1.0 };
        let a = against(&engine, &Change::NONE, &curve, (&load, &gearing), 200.0).unwrap();
        assert!(a.running.is_none() && a.start.is_none());
        assert!((a.instead.unwrap().ratio - 0.1).abs() < 0.02, "{a:?}");
    }
}
