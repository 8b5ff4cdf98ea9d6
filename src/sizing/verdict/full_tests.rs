use super::super::cases::engine;
use super::super::judge::{Question, judge};
use super::*;
use crate::sizing::mechanism::FrictionFactors;

fn net(e: &FullEngine, rpm: f64, change: &Change) -> f64 {
    e.at(rpm, change).unwrap().net_j
}

#[test]
fn without_friction_the_shaft_gets_the_work_of_the_gas() {
    let free = Change { friction: FrictionFactors::all(0.0), ..Change::NONE };
    for rpm in [60.0, 300.0, 900.0] {
        let w = engine().at(rpm, &free).unwrap();
        assert!((w.net_j - w.indicated_j).abs() < 1e-3 * w.indicated_j.abs().max(0.1), "{rpm}: {w:?}");
        assert!(w.forced_j >= 0.0 && w.flow_j > 0.0);
    }
}

/// What the shaft gets is what the gas gives less every named friction.
#[test]
fn work_adds_up() {
    let w = engine().at(300.0, &Change::NONE).unwrap();
    assert!((w.indicated_j - w.friction_j() - w.net_j).abs() < 1e-3 * w.indicated_j, "{w:?}");
    let lost: f64 = w.heat.losses.iter().map(|l| l.power_w).sum();
    assert!((w.heat.supply_w - w.heat.cycle_w - lost).abs() < 1e-9);
    let mean = w.torque_nm.iter().sum::<f64>() / w.torque_nm.len() as f64;
    assert!((mean - w.mean_torque_nm()).abs() < 1e-3 * w.mean_torque_nm().abs());
}

#[test]
fn more_friction_never_raises_net_work() {
    let e = engine();
    for rpm in [60.0, 300.0, 900.0] {
        let rubs = [0.0, 0.5, 1.0, 2.0]
            .map(|f| net(&e, rpm, &Change { friction: FrictionFactors::all(f), ..Change::NONE }));
        assert!(rubs.is_sorted_by(|a, b| a > b), "{rpm}: {rubs:?}");
    }
}

/// Trade rule (common practice, no source): a tight heavy belt can stop a small engine.
#[test]
fn a_tight_belt_stops_an_engine_that_has_little_to_spare() {
    let e = engine();
    let weak = Change { hot_k: 573.0 - e.engine.hot_cap.temperature_k, ..Change::NONE };
    let tight = Change { belt_tension: 40.0, ..weak };
    assert!(net(&e, 150.0, &weak) > 0.0 && net(&e, 150.0, &tight) < 0.0);
}

/// The hot wall is as hot as the heater can keep it; then, and only then, heat led down the walls costs work.
#[test]
fn a_weak_heater_cools_the_hot_end_and_conduction_then_costs_work() {
    let mut e = engine();
    let full = e.at(300.0, &Change::NONE).unwrap();
    let insulated = Change { conduction: 0.5, ..Change::NONE };
    assert_eq!(net(&e, 300.0, &insulated), full.net_j);
    e.surroundings.heater_w = Some(0.6 * full.heat.supply_w);
    let weak = e.at(300.0, &Change::NONE).unwrap();
    assert!((weak.heat.supply_w / (0.6 * full.heat.supply_w) - 1.0).abs() < 5e-3, "{weak:?}");
    assert!(weak.heat.hot_wall_k < full.heat.hot_wall_k && weak.net_j < full.net_j);
    assert!(net(&e, 300.0, &insulated) > weak.net_j);
    e.surroundings.heater_w = Some(2.0 * full.heat.supply_w);
    assert_eq!(net(&e, 300.0, &Change::NONE), full.net_j, "a strong heater is turned down");
}

#[test]
fn a_good_engine_gets_a_full_verdict() {
    let e = engine();
    let j = judge(&e, &Change::NONE, &Question::at(300.0)).unwrap();
    assert!(j.turns_itself_over, "{:?}", j.verdict(None));
    let free = j.no_load_rpm.unwrap();
    assert!(net(&e, 0.98 * free, &Change::NONE) > 0.0 && net(&e, 1.02 * free, &Change::NONE) < 0.0);
    assert_eq!(j.gains.len(), 3);
    for gain in &j.gains {
        let again = net(&e, j.judged_rpm, &gain.change) - j.work.net_j;
        assert!((again - gain.gain_j).abs() < 1e-12 && again > 0.0);
    }
    assert!(j.reasons.is_sorted_by(|a, b| a.gain_j >= b.gain_j) && !j.reasons.is_empty());
    let verdict = j.verdict(Some(0.9));
    assert_eq!((verdict.turns_itself_over, verdict.probability), (Some(true), Some(0.9)));
    assert!(verdict.reasons[0].starts_with("turns itself over"));
    assert!(verdict.reasons[1].contains("by hand from rest it takes"));
    assert!(j.stroke.unwrap().best_net_j >= j.stroke.unwrap().net_j);
}

#[test]
fn what_cannot_be_is_refused() {
    let e = engine();
    assert!(matches!(e.at(0.0, &Change::NONE), Err(VerdictError::NotPositive { .. })));
    assert!(e.at(300.0, &Change { piston_stroke: 9.0, ..Change::NONE }).is_err());
    assert!(e.at(300.0, &Change { hot_k: -2000.0, ..Change::NONE }).is_err());
}
