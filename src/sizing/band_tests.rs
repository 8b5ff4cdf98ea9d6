use super::*;
use crate::sizing::verdict::test_cases::engine;

/// Quantiles by the definition used by default in numpy and R (type 7): of 1..=11 the tenth part lies at 2.
#[test]
fn percentiles_are_those_of_the_common_definition() {
    let p = Percentiles::of((1..=11).rev().map(f64::from).collect()).unwrap();
    assert_eq!((p.p10, p.p50, p.p90), (2.0, 6.0, 10.0));
    let p = Percentiles::of(vec![4.0, 1.0, 2.0, 3.0]).unwrap();
    assert!((p.p10 - 1.3).abs() < 1e-12 && p.p50 == 2.5 && (p.p90 - 3.7).abs() < 1e-12);
    assert_eq!(Percentiles::of(vec![]), None);
}

/// The percentiles of the draws are those of the distributions.
#[test]
fn draws_spread_as_asked() {
    let draw = |spread: Spread| {
        let inputs = [Uncertain { input: Input::Leak, spread }];
        Percentiles::of((0..20_000).map(|i| sample(&inputs, 7, i).leak).collect()).unwrap()
    };
    let p = draw(Spread::Lognormal { within: 2.0 });
    assert!((p.p10 - 0.5).abs() < 0.02 && (p.p50 - 1.0).abs() < 0.02 && (p.p90 - 2.0).abs() < 0.06, "{p:?}");
    let p = draw(Spread::Uniform { low: -10.0, high: 10.0 });
    assert!((p.p10 + 8.0).abs() < 0.2 && p.p50.abs() < 0.25 && (p.p90 - 8.0).abs() < 0.2, "{p:?}");
    assert_eq!(draw(Spread::Fixed { value: 1.2 }), Percentiles { p10: 1.2, p50: 1.2, p90: 1.2 });
}

/// Neighbouring samples, and the inputs of a sample, have nothing to do with each other.
#[test]
fn draws_are_not_correlated() {
    let inputs = default_spreads();
    let logs = |pick: fn(&Change) -> f64, from: u64| -> Vec<f64> {
        (from..from + 5000).map(|i| pick(&sample(&inputs, 3, i)).ln()).collect()
    };
    let correlation = |a: &[f64], b: &[f64]| {
        let mean = |v: &[f64]| v.iter().sum::<f64>() / v.len() as f64;
        let (ma, mb) = (mean(a), mean(b));
        let sum = |x: &[f64], mx: f64, y: &[f64], my: f64| -> f64 {
            x.iter().zip(y).map(|(p, q)| (p - mx) * (q - my)).sum()
        };
        sum(a, ma, b, mb) / (sum(a, ma, a, ma) * sum(b, mb, b, mb)).sqrt()
    };
    let leak = logs(|c| c.leak, 0);
    assert!(correlation(&leak, &logs(|c| c.leak, 1)).abs() < 0.05);
    assert!(correlation(&leak, &logs(|c| c.heat_transfer, 0)).abs() < 0.05);
}

#[test]
fn an_input_that_becomes_known_leaves_the_others_as_they_were() {
    let mut inputs = default_spreads();
    let before = sample(&inputs, 5, 11);
    inputs[0].spread = Spread::Fixed { value: 1.0 };
    let after = sample(&inputs, 5, 11);
    assert_eq!((before.leak, before.cold_share), (after.leak, after.cold_share));
    assert_eq!(after.friction.rings, 1.0);
}

/// The same seed gives the same answer on one core and on several; another seed another one.
#[test]
fn the_answer_hangs_on_the_seed_alone() {
    let engine = engine();
    let sampling = Sampling { count: 12, ..Sampling::at(250.0) };
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| of_engine(&engine, &sampling))
    };
    let one = on(1);
    assert_eq!(one, on(3));
    assert_ne!(one, of_engine(&engine, &Sampling { seed: 2, ..sampling.clone() }));
    let p = one.power_w.unwrap();
    assert!(p.p10 < p.p50 && p.p50 < p.p90 && one.failed == 0, "{one:?}");
}

#[test]
fn samples_without_an_answer_are_counted_not_hidden() {
    let b = band(10, |i| {
        if i % 2 == 0 { Ok(Outcome { power_w: i as f64, turns_over: i > 3 }) } else { Err(format!("no {i}")) }
    });
    assert_eq!((b.answered, b.failed, b.failure.as_deref()), (5, 5, Some("no 1")));
    assert_eq!(b.turns_over, Some(0.6));
    let none = band(3, |_| Err::<Outcome, _>("no".to_owned()));
    assert_eq!((none.power_w, none.turns_over, none.failed), (None, None, 3));
}
