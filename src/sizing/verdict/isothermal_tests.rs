use super::super::cases::engine;
use super::super::judge::{Question, judge};
use super::*;
use crate::sizing::mechanism::FrictionFactors;

fn net(e: &IsothermalEngine, rpm: f64, change: &Change) -> f64 {
    e.at(rpm, change).unwrap().net_j
}

fn without_friction() -> Change {
    Change { friction: FrictionFactors::all(0.0), ..Change::NONE }
}

#[test]
fn without_friction_the_shaft_gets_the_work_of_the_gas() {
    for rpm in [30.0, 300.0, 1500.0] {
        let w = engine().at(rpm, &without_friction()).unwrap();
        assert!((w.net_j - w.indicated_j).abs() < 1e-4 * w.indicated_j.abs().max(0.1), "{rpm}: {w:?}");
        assert!(w.forced_j >= 0.0 && w.leak_j > 0.0 && w.hysteresis_j > 0.0);
    }
}

/// What the shaft gets is what the gas gives less every named friction.
#[test]
fn work_adds_up() {
    let w = engine().at(300.0, &Change::NONE).unwrap();
    assert!((w.indicated_j - w.friction_j() - w.net_j).abs() < 1e-4, "{w:?}");
    let lost: f64 = w.heat.losses.iter().map(|l| l.power_w).sum();
    assert!((w.heat.supply_w - w.heat.cycle_w - lost).abs() < 1e-9);
    let mean = w.torque_nm.iter().sum::<f64>() / w.torque_nm.len() as f64;
    assert!((mean - w.mean_torque_nm()).abs() < 1e-4 * w.mean_torque_nm().abs());
}

/// Walls at one temperature give no work, with or without heat transfer: the mean pressure being the buffer's.
#[test]
fn no_temperature_difference_gives_no_work() {
    let mut e = engine();
    e.hot_k = e.cold_k;
    for rpm in [30.0, 300.0, 1000.0] {
        let w = e.at(rpm, &without_friction()).unwrap();
        assert!(w.indicated_j <= 1e-9, "{rpm}: {}", w.indicated_j);
    }
}

/// Under the same mean pressure, that of the buffer.
#[test]
fn a_hotter_hot_end_never_lowers_the_work_of_the_gas() {
    let e = engine();
    let work = |k: f64| e.at(300.0, &Change { hot_k: k, ..Change::NONE }).unwrap().indicated_j;
    assert!([-100.0, -50.0, 0.0, 50.0, 100.0].map(work).is_sorted());
}

#[test]
fn more_leak_or_friction_or_dead_volume_never_raises_net_work() {
    let e = engine();
    for rpm in [60.0, 300.0, 900.0] {
        let leak = [0.0, 0.3, 1.0, 3.0, 10.0].map(|leak| net(&e, rpm, &Change { leak, ..Change::NONE }));
        let rubs = [0.0, 0.5, 1.0, 2.0]
            .map(|f| net(&e, rpm, &Change { friction: FrictionFactors::all(f), ..Change::NONE }));
        assert!(leak.is_sorted_by(|a, b| a >= b), "{rpm}: {leak:?}");
        assert!(rubs.is_sorted_by(|a, b| a > b), "{rpm}: {rubs:?}");
    }
}

/// Finer steps change little: 180 points against 720.
#[test]
fn points_of_the_turn_suffice() {
    let (coarse, fine) = (engine(), IsothermalEngine { points: 720, ..engine() });
    let (a, b) = (coarse.at(300.0, &Change::NONE).unwrap(), fine.at(300.0, &Change::NONE).unwrap());
    assert!((a.indicated_j / b.indicated_j - 1.0).abs() < 1e-3);
    assert!((a.net_j - b.net_j).abs() < 2e-3 * b.indicated_j, "{} {}", a.net_j, b.net_j);
}

/// An engine that spins ever faster without load heats its gas ever less: power has a top, torque falls.
#[test]
fn torque_falls_at_high_speed_for_want_of_heat() {
    let e = engine();
    let gas = |rpm| e.at(rpm, &Change::NONE).unwrap();
    let (slow, fast) = (gas(200.0), gas(1500.0));
    assert!(fast.indicated_j < slow.indicated_j);
    assert!(fast.heat.hot_gas_k < slow.heat.hot_gas_k && fast.heat.cold_gas_k > slow.heat.cold_gas_k);
}

#[test]
fn a_weak_heater_cools_the_hot_end_and_conduction_then_costs_work() {
    let mut e = engine();
    let full = e.at(300.0, &Change::NONE).unwrap();
    e.heater_w = Some(0.6 * full.heat.supply_w);
    let weak = e.at(300.0, &Change::NONE).unwrap();
    assert!((weak.heat.supply_w / (0.6 * full.heat.supply_w) - 1.0).abs() < 1e-3, "{weak:?}");
    assert!(weak.heat.hot_wall_k < full.heat.hot_wall_k && weak.net_j < full.net_j);
    let insulated = net(&e, 300.0, &Change { conduction: 0.5, ..Change::NONE });
    assert!(insulated > weak.net_j);
    let plain = engine();
    assert_eq!(net(&plain, 300.0, &Change { conduction: 0.5, ..Change::NONE }), full.net_j);
}

/// Trade rule (common practice, no source): an engine whose free travel is about half of its crank's stroke does not
/// keep turning; a shorter piston stroke with a longer displacer stroke mends it.
#[test]
fn a_stroke_of_twice_the_free_travel_does_not_run_and_a_shorter_one_mends_it() {
    let e = engine();
    let travel = e.facts(&Change::NONE).free_travel_mm.unwrap();
    let long = Change { piston_stroke: 2.0 * travel / 32.0, displacer_stroke: 1.0, ..Change::NONE };
    let mut e = engine();
    // con rods that reach over the long crank
    let rod = crate::sizing::mechanism::SliderCrank::new(16.0, 200.0).unwrap();
    e.mechanism.piston.crank = rod;
    e.piston.motion = Motion::SliderCrank(rod);
    e.leak_kg_s_pa = 1e-8;
    let facts = e.facts(&long);
    assert!((facts.free_travel_mm.unwrap() / facts.piston_stroke_mm - 0.5).abs() < 0.02, "{facts:?}");
    let bad = judge(&e, &long, &Question::at(200.0)).unwrap();
    assert!(!bad.turns_itself_over, "{bad:?}");
    assert!(
        bad.reasons.iter().any(|r| r.cause == super::super::reasons::Cause::OverCompression),
        "{:?}",
        bad.reasons
    );
    let mended = Change { piston_stroke: 0.7 * travel / 32.0, displacer_stroke: 1.25, ..Change::NONE };
    let good = judge(&e, &mended, &Question::at(200.0)).unwrap();
    assert!(good.turns_itself_over && good.margin_j() > 0.0, "{:?}", good.verdict(None));
}

/// Trade rules (common practice, no source): the best lead is near 90°, a tight heavy belt can stop a small engine.
#[test]
fn lead_and_belt_do_what_the_trade_says() {
    let e = engine();
    let lead = |deg: f64| net(&e, 300.0, &Change { lead_deg: deg - 90.0, ..Change::NONE });
    let best = (6..=13).map(|k| 10.0 * f64::from(k)).max_by(|a, b| lead(*a).total_cmp(&lead(*b))).unwrap();
    assert!((75.0..=115.0).contains(&best), "{best}");
    // over boiling water the engine has little to spare; 18 N in each strand it bears, 180 N not
    let weak = Change { hot_k: 373.0 - e.hot_k, ..Change::NONE };
    let tight = Change { belt_tension: 10.0, ..weak };
    let (slack, tight) = (net(&e, 60.0, &weak), net(&e, 60.0, &tight));
    assert!(slack > 0.0 && tight < 0.0, "{slack} {tight}");
}

/// Trade rule (common practice, no source): more charge pressure gives more work nearly in proportion, here of a tight
/// engine whose walls keep up.
#[test]
fn work_of_the_gas_grows_with_the_charge() {
    let e = IsothermalEngine { exchange: None, ..engine() };
    let work = |charge: f64| e.at(300.0, &Change { charge, leak: 0.0, ..Change::NONE }).unwrap().indicated_j;
    assert!((work(3.0) / work(1.0) / 3.0 - 1.0).abs() < 0.05, "{}", work(3.0) / work(1.0));
}

#[test]
fn a_good_engine_gets_a_full_verdict() {
    let j = judge(&engine(), &Change::NONE, &Question::at(300.0)).unwrap();
    assert!(j.turns_itself_over, "{:?}", j.verdict(None));
    let free = j.no_load_rpm.unwrap();
    assert!(free > 300.0);
    assert!(engine().at(0.98 * free, &Change::NONE).unwrap().net_j > 0.0);
    assert!(engine().at(1.02 * free, &Change::NONE).unwrap().net_j < 0.0);
    assert_eq!(j.gains.len(), 3);
    for gain in &j.gains {
        let again = net(&engine(), j.judged_rpm, &gain.change) - j.work.net_j;
        assert!((again - gain.gain_j).abs() < 1e-12 && again > 0.0);
    }
    assert!(j.reasons.is_sorted_by(|a, b| a.gain_j >= b.gain_j) && !j.reasons.is_empty());
    let verdict = j.verdict(Some(0.9));
    assert_eq!((verdict.turns_itself_over, verdict.probability), (Some(true), Some(0.9)));
    assert!(verdict.reasons[0].starts_with("turns itself over"));
    assert!(j.stroke.unwrap().best_net_j >= j.stroke.unwrap().net_j);
}

#[test]
fn what_cannot_be_is_refused() {
    let e = engine();
    assert!(matches!(e.at(0.0, &Change::NONE), Err(VerdictError::NotPositive { .. })));
    assert!(matches!(
        e.at(300.0, &Change { piston_stroke: 9.0, ..Change::NONE }),
        Err(VerdictError::Mechanism(_))
    ));
    assert!(matches!(e.at(300.0, &Change { hot_k: -2000.0, ..Change::NONE }), Err(VerdictError::Cycle(_))));
}

/// 300 engines drawn at random with a fixed seed, their con rods long enough: no answer without a number, forced work
/// and every loss at or over nothing, friction never more than the books allow, and without it the shaft gets the work of
/// the gas.
#[test]
fn random_engines_keep_the_laws() {
    use rand_pcg::rand_core::{Rng, SeedableRng};
    let mut rng = rand_pcg::Pcg64::seed_from_u64(42);
    let mut draw =
        |low: f64, high: f64| low + (high - low) * (rng.next_u64() >> 11) as f64 / (1u64 << 53) as f64;
    for _ in 0..300 {
        let mut e = engine();
        e.hot_k = draw(330.0, 1100.0);
        e.leak_kg_s_pa = 10.0_f64.powf(draw(-11.0, -7.0));
        let change = Change {
            piston_stroke: draw(0.3, 2.0),
            displacer_stroke: draw(0.4, 1.5),
            dead_volume: draw(0.3, 4.0),
            gap: draw(0.3, 3.0),
            heat_transfer: draw(0.2, 5.0),
            charge: draw(0.8, 5.0),
            lead_deg: draw(-50.0, 50.0),
            ..Change::NONE
        };
        let rpm = draw(20.0, 1500.0);
        let w = e.at(rpm, &change).unwrap_or_else(|e| panic!("{change:?} at {rpm}: {e}"));
        let free = e.at(rpm, &Change { friction: FrictionFactors::all(0.0), ..change }).unwrap();
        assert!(w.net_j.is_finite() && w.forced_j >= 0.0 && w.hysteresis_j >= 0.0, "{w:?}");
        assert!(w.friction.iter().all(|f| f.work_j >= 0.0) && w.net_j < free.net_j, "{w:?}");
        assert!((free.net_j - free.indicated_j).abs() < 1e-9 * free.indicated_j.abs().max(1.0));
        assert!((w.indicated_j - w.friction_j() - w.net_j).abs() < 1e-9 * w.friction_j().max(1.0));
        assert!(w.heat.hot_gas_k <= w.heat.hot_wall_k + 0.1 || w.heat.cycle_w < 0.0, "{w:?}");
    }
}
