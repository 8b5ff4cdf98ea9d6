//! Where engine and load agree, through a given or the best drive ratio.

use super::load::LoadCurve;
use super::search::{best, root};
use super::speeds::SpeedCurve;
use std::f64::consts::TAU;

/// Drive between engine and load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gearing {
    /// Speed of the load over that of the engine; `None` for the best.
    pub ratio: Option<f64>,
    /// Efficiency of the drive, 0..1.
    pub efficiency: f64,
}

/// Steady running against the load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Running {
    /// Speed of the load over that of the engine.
    pub ratio: f64,
    /// Speed of the engine \[rpm\].
    pub engine_rpm: f64,
    /// Speed of the load \[rpm\].
    pub load_rpm: f64,
    /// Torque of the engine \[N m\].
    pub engine_nm: f64,
    /// Power at the engine's shaft \[W\].
    pub shaft_w: f64,
    /// Power that reaches the load \[W\].
    pub load_w: f64,
}

/// Torque that the load asks of the engine \[N m\].
pub(super) fn asked_nm(load: &LoadCurve, ratio: f64, efficiency: f64, engine_rpm: f64) -> f64 {
    load.torque_nm(engine_rpm * ratio) * ratio / efficiency
}

/// Fastest stable running at a ratio: the engine has torque to spare just below and too little just above.
fn at_ratio(curve: &SpeedCurve, load: &LoadCurve, ratio: f64, efficiency: f64) -> Option<Running> {
    let spare = |rpm: f64| Some(curve.torque_nm(rpm)? - asked_nm(load, ratio, efficiency, rpm));
    let stretch = curve.points.windows(2).rev().find_map(|w| {
        let ends = [w[0].speed_rpm, w[1].speed_rpm].map(|n| (n, spare(n).unwrap_or(f64::NAN)));
        (ends[0].1 > 0.0 && ends[1].1 <= 0.0).then_some(ends)
    })?;
    let engine_rpm = root(stretch, 1e-6, spare)?;
    let engine_nm = curve.torque_nm(engine_rpm)?;
    let shaft_w = engine_nm * TAU * engine_rpm / 60.0;
    Some(Running {
        ratio,
        engine_rpm,
        load_rpm: engine_rpm * ratio,
        engine_nm,
        shaft_w,
        load_w: shaft_w * efficiency,
    })
}

/// Steady running against a load; `None` where the engine cannot turn it at the given, or any, ratio.
///
/// The best ratio is the one at which most power reaches the load, from 1:200 to 200:1. For a vehicle and for a pump
/// that is also its greatest speed.
pub fn running(curve: &SpeedCurve, load: &LoadCurve, gearing: &Gearing) -> Option<Running> {
    let at = |ratio: f64| at_ratio(curve, load, ratio, gearing.efficiency);
    if let Some(ratio) = gearing.ratio {
        return at(ratio);
    }
    let most = 200.0_f64.ln();
    let (log, _) = best(-most, most, 81, 1e-4, |log| at(log.exp()).map(|r| r.load_w))?;
    at(log.exp())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::verdict::cases::Formula;
    use crate::sizing::verdict::change::Change;
    use crate::sizing::verdict::speeds::SpeedRange;

    /// Engine torque 0.2 (1 − n/1000): most power at half speed, 0.1 N m × 52.36 rad/s = 5.236 W.
    fn curve() -> SpeedCurve {
        let line = Formula::torque(|n| 0.2 * (1.0 - n / 1000.0));
        SpeedCurve::of(&line, &Change::NONE, &SpeedRange::default()).unwrap()
    }

    #[test]
    fn a_constant_load_meets_the_line_where_it_does_by_hand() {
        let gearing = Gearing { ratio: Some(0.5), efficiency: 0.8 };
        let r = running(&curve(), &LoadCurve::Constant { torque_nm: 0.2 }, &gearing).unwrap();
        // asked: 0.2 × 0.5 / 0.8 = 0.125 N m, at 375 rpm
        assert!((r.engine_rpm - 375.0).abs() < 0.5 && (r.engine_nm - 0.125).abs() < 1e-4, "{r:?}");
        assert!((r.load_w - 0.8 * r.shaft_w).abs() < 1e-12);
        let much = LoadCurve::Constant { torque_nm: 2.0 };
        assert_eq!(running(&curve(), &much, &gearing), None);
    }

    /// Whatever the load, the best ratio lets the engine run at its greatest power.
    #[test]
    fn the_best_ratio_is_that_of_greatest_power() {
        let gearing = Gearing { ratio: None, efficiency: 1.0 };
        for load in [
            LoadCurve::Constant { torque_nm: 2.0 },
            LoadCurve::Fan { torque_nm: 0.05, at_rpm: 900.0 },
            LoadCurve::Generator { torque_nm_rpm: 1e-4, idle_nm: 0.0 },
            LoadCurve::Vehicle { mass_kg: 20.0, rolling: 0.02, drag_m2: 0.1, slope: 0.0, wheel_mm: 100.0 },
        ] {
            let r = running(&curve(), &load, &gearing).unwrap();
            assert!((r.load_w / 5.236 - 1.0).abs() < 0.01, "{load:?}: {r:?}");
            assert!((r.engine_rpm - 500.0).abs() < 30.0, "{r:?}");
        }
    }
}
