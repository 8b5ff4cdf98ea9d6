//! Volume laws against the published harmonic forms and against finite differences.

use super::super::mechanism::{Motion, SliderCrank};
use super::*;
use std::f64::consts::TAU;

const CM3: f64 = 1e-6;

fn harmonic(throw_mm: f64) -> Motion {
    Motion::Harmonic { throw_mm }
}

fn crank(throw_mm: f64, con_rod_mm: f64, offset_mm: f64) -> Motion {
    Motion::SliderCrank(SliderCrank::with_offset(throw_mm, con_rod_mm, offset_mm).unwrap())
}

/// Displacer of 50 cm³ with 48 cm³ on the rod side, clearances 2 and 4 cm³.
fn displacer(motion: impl Fn(f64) -> Motion) -> Displacer {
    Displacer {
        motion: motion(10.0),
        hot_area_mm2: 2500.0,
        cold_area_mm2: 2400.0,
        hot_clearance_m3: 2.0 * CM3,
        cold_clearance_m3: 4.0 * CM3,
    }
}

/// Piston of 25 cm³ with 1 cm³ of clearance.
fn piston(motion: impl Fn(f64) -> Motion) -> Piston {
    Piston { motion: motion(12.5), area_mm2: 1000.0, clearance_m3: CM3 }
}

fn laws(motion: impl Fn(f64) -> Motion + Copy) -> [VolumeLaw; 3] {
    let (d, p) = (displacer(motion), piston(motion));
    let dead = vec![DeadVolume { name: "port".into(), volume_m3: 3.0 * CM3, zone: Zone::Cold }];
    let hot = Piston { motion: motion(10.0), area_mm2: 2500.0, clearance_m3: 2.0 * CM3 };
    [
        Arrangement::Alpha { hot, cold: p },
        Arrangement::Beta { displacer: d, piston: p, overlap: Overlap::Touching },
        Arrangement::Gamma { displacer: d, piston: p },
    ]
    .map(|arrangement| VolumeLaw::new(arrangement, 80.0, dead.clone()))
}

#[test]
fn least_volumes_are_those_of_a_fine_grid() {
    for law in laws(harmonic).into_iter().chain(laws(|t| crank(t, 45.0, 6.0))) {
        let grid: Vec<_> = (0..7200).map(|i| law.at(f64::from(i) * TAU / 7200.0)).collect();
        let least = |f: fn(&Spaces) -> f64| grid.iter().map(f).fold(f64::MAX, f64::min);
        for f in [|s: &Spaces| s.hot_m3, |s: &Spaces| s.cold_m3, |s: &Spaces| s.power_m3] {
            let exact = f(&law.least());
            assert!(least(f) >= exact - 1e-18 && least(f) - exact < 1e-11);
        }
    }
}

/// Forms of I. Urieli, isothermal (Schmidt) analysis, and of K. Hirata, "Schmidt theory for Stirling
/// engines" (the overlap of the beta engine from memory).
#[test]
fn harmonic_volumes_are_the_published_ones() {
    let [alpha, beta, gamma] = laws(harmonic);
    let lead = 80.0_f64.to_radians();
    let overlap = 0.5 * (48.0 + 25.0)
        - (0.25 * (48.0_f64.powi(2) + 25.0_f64.powi(2)) - 0.5 * 48.0 * 25.0 * lead.cos()).sqrt();
    for i in 0..48 {
        let a = f64::from(i) * TAU / 48.0;
        let hot = 2.0 + 25.0 * (1.0 + a.cos());
        let cold = 4.0 + 24.0 * (1.0 - a.cos());
        let power = 1.0 + 12.5 * (1.0 + (a - lead).cos());
        for (law, expected) in [(&alpha, power), (&beta, cold + power - overlap), (&gamma, cold + power)] {
            assert!((law.at(a).hot_m3 / CM3 - hot).abs() < 1e-12);
            assert!((law.at(a).all_cold_m3() / CM3 - expected).abs() < 1e-12);
        }
        assert!((gamma.at(a).power_m3 / CM3 - power).abs() < 1e-12);
    }
    assert!((beta.overlap_m3() / CM3 - overlap).abs() < 1e-12);
}

#[test]
fn harmonic_parameters_describe_the_same_volumes() {
    for law in laws(harmonic) {
        let (hot, cold) = law.harmonic().unwrap();
        for i in 0..48 {
            let a = f64::from(i) * TAU / 48.0;
            let of = |h: Harmonic| h.mean_m3 + h.amplitude_m3 * (a - h.phase_rad).cos();
            assert!((of(hot) - law.at(a).hot_m3).abs() < 1e-18);
            assert!((of(cold) - law.at(a).all_cold_m3()).abs() < 1e-18);
        }
    }
    assert!(laws(|t| crank(t, 50.0, 0.0)).iter().all(|law| law.harmonic().is_none()));
}

#[test]
fn slopes_agree_with_finite_differences() {
    for law in laws(harmonic).into_iter().chain(laws(|t| crank(t, 45.0, 6.0))) {
        for i in 0..24 {
            let (a, h) = (f64::from(i) * TAU / 24.0 + 0.01, 1e-4);
            let (low, high, slope) = (law.at(a - h), law.at(a + h), law.slope(a));
            let pairs = [
                (low.hot_m3, high.hot_m3, slope.hot_m3),
                (low.cold_m3, high.cold_m3, slope.cold_m3),
                (low.power_m3, high.power_m3, slope.power_m3),
            ];
            for (l, g, s) in pairs {
                assert!(((g - l) / (2.0 * h) - s).abs() < 1e-12, "{l} {g} {s}");
            }
        }
    }
}

#[test]
fn in_a_beta_engine_displacer_and_piston_just_touch() {
    for law in [laws(harmonic)[1].clone(), laws(|t| crank(t, 45.0, 0.0))[1].clone()] {
        let least = turn::least(|a| law.at(a).cold_m3, |a| law.slope(a).cold_m3);
        assert!((least - 5.0 * CM3).abs() < 1e-17, "{least}");
    }
}

#[test]
fn the_displacer_leads() {
    let law = &laws(harmonic)[2];
    let hot_is_largest_at = 0.0;
    let power_is_largest_at = 80.0_f64.to_radians();
    assert!(law.slope(hot_is_largest_at).hot_m3.abs() < 1e-20 && law.at(0.0).hot_m3 > 51.9 * CM3);
    assert!(law.slope(power_is_largest_at).power_m3.abs() < 1e-20);
    assert!((law.at(power_is_largest_at).power_m3 - 26.0 * CM3).abs() < 1e-18);
}

#[test]
fn a_rod_takes_its_volume_from_the_cold_side() {
    let d = displacer(harmonic);
    assert!((d.hot_swept_m3() - d.cold_swept_m3() - 2.0 * CM3).abs() < 1e-18);
    assert!((circle_mm2(2.0) - PI).abs() < 1e-15);
    let (most, least) = laws(harmonic)[2].extremes_m3();
    let law = &laws(harmonic)[2];
    let grid = (0..7200).map(|i| law.at(f64::from(i) * TAU / 7200.0).moving_m3() + 3.0 * CM3);
    let (low, high) = grid.fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
    assert!(most >= high && least <= low && most - high < 1e-11 && low - least < 1e-11);
}
