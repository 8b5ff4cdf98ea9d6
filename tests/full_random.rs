//! The full cycle on random engines, with a fixed seed.

mod path_support;

use path_support::{gap_engine, mesh_engine, solve};
use swept::sizing::cycle::path::{GasPath, LeakKind, Walls};
use swept::sizing::cycle::transfer::Surface;
use swept::sizing::cycle::{Charge, CycleResult};
use swept::sizing::mechanism::Motion;
use swept::sizing::volumes::Arrangement;

/// Random numbers by a multiplicative step of 64 bits (splitmix64; S. Vigna, public domain).
struct Random(u64);

impl Random {
    fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Even in the logarithm.
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low * (high / low).powf(self.unit())
    }
}

fn scaled(motion: Motion, by: f64) -> Motion {
    match motion {
        Motion::Harmonic { throw_mm } => Motion::Harmonic { throw_mm: throw_mm * by },
        // con rods of 70 mm stay; throws of 14 mm change
        Motion::FromBelow(_) => unreachable!("no path of these tests has one"),
        Motion::SliderCrank(c) => {
            Motion::SliderCrank(swept::sizing::mechanism::SliderCrank::new(c.throw_mm * by, 70.0).unwrap())
        }
    }
}

/// Walls of a whole path between two temperatures.
fn heated(path: &GasPath, hot_k: f64, cold_k: f64) -> GasPath {
    let mut path = path.clone();
    let (was_hot, was_cold) = (path.hot.wall_k, path.cold.wall_k);
    let new = |t: f64| cold_k + (hot_k - cold_k) * (t - was_cold) / (was_hot - was_cold);
    for e in path.exchangers.iter_mut().chain(&mut path.port) {
        let [hot, cold] = e.walls.ends_k().map(new);
        e.walls = match e.walls {
            Walls::Fixed { .. } => Walls::Fixed { hot_k: hot, cold_k: cold },
            Walls::Matrix { capacity_j_k, .. } => Walls::Matrix { capacity_j_k, hot_k: hot, cold_k: cold },
        };
    }
    path.hot.wall_k = hot_k;
    path.cold.wall_k = cold_k;
    path.power.iter_mut().for_each(|p| p.wall_k = cold_k);
    path
}

fn random(r: &mut Random) -> GasPath {
    let gap = r.unit() < 0.75;
    let mut path =
        if gap { gap_engine(r.between(20.0, 3000.0)) } else { mesh_engine(r.between(100.0, 4000.0)) };
    path = heated(&path, r.between(400.0, 1050.0), r.between(285.0, 350.0));
    path.lead_deg = r.between(60.0, 120.0);
    match &mut path.arrangement {
        Arrangement::Gamma { displacer, piston } | Arrangement::Beta { displacer, piston, .. } => {
            displacer.motion = scaled(displacer.motion, r.between(0.4, 1.6));
            piston.motion = scaled(piston.motion, r.between(0.2, 1.6));
            displacer.hot_clearance_m3 *= r.between(0.3, 5.0);
            displacer.cold_clearance_m3 *= r.between(0.3, 5.0);
        }
        Arrangement::Alpha { .. } => {}
    }
    let size = r.between(0.3, 3.0);
    for e in &mut path.exchangers {
        e.volume_m3 *= size;
        e.flow_area_m2 *= size;
        e.hydraulic_m *= size;
    }
    if !gap && r.unit() < 0.5 {
        path.exchangers[1].surface = Surface::RandomFibre { porosity: r.between(0.70, 0.84) };
    }
    for leak in &mut path.leaks {
        leak.kind = LeakKind::Conductance(r.between(1e-11, 3e-7));
    }
    path.factors.heat_transfer = r.between(0.3, 3.0);
    path.factors.end_heat_transfer = r.between(0.3, 10.0);
    path
}

fn finite(r: &CycleResult) -> bool {
    let c = r.detail.closure.unwrap();
    let numbers = [
        r.work_j,
        r.hot_work_j,
        r.cold_work_j,
        r.heat_in_j,
        r.heat_out_j,
        r.mass_kg,
        r.detail.friction_j(),
        c.energy,
    ];
    numbers.iter().all(|v| v.is_finite())
        && r.pressure_min_pa > 0.0
        && r.points.iter().all(|p| p.pressure_pa > 0.0 && p.pressure_pa.is_finite())
        && r.detail.cells.iter().all(|c| c.gas_min_k > 50.0 && c.gas_max_k < 3000.0)
        && c.energy < 1e-3
        && r.detail.friction.iter().all(|f| f.work_j >= 0.0)
}

#[test]
fn random_engines_have_sound_answers() {
    let mut r = Random(2024);
    for i in 0..300 {
        let path = random(&mut r);
        let result = solve(&path);
        assert!(finite(&result), "engine {i}: {path:?}");
    }
}

/// Under the same mean pressure, without a leak.
#[test]
fn a_hotter_hot_end_never_lowers_the_work_at_the_same_mean_pressure() {
    let mut r = Random(7);
    for i in 0..100 {
        let mut path = random(&mut r);
        path.leaks.clear();
        let hotter = heated(&path, path.hot.wall_k + r.between(20.0, 200.0), path.cold.wall_k);
        let (a, b) = (solve(&path), solve(&hotter));
        assert!(b.work_j > a.work_j - 1e-4 * a.hot_work_j.abs(), "engine {i}: {} {}", a.work_j, b.work_j);
    }
}

/// Whether the pressure on the whole is high where the volume is small.
fn compresses(r: &CycleResult) -> bool {
    let mean = r.points.iter().map(|p| p.total_m3).sum::<f64>() / r.points.len() as f64;
    r.points.iter().map(|p| p.pressure_pa * (p.total_m3 - mean)).sum::<f64>() < 0.0
}

/// Of engines that breathe around the same mean pressure, give work, and whose pressure follows the volume: high
/// where it is small. A leak makes the pressure lead; while the pressure follows the temperature rather than
/// the volume (a piston too small for its displacer) that brings it nearer to the best phase and raises the work.
/// Derived: with pressure p₁ at phase φ to the volume and a leak angle δ the work goes with sin(φ + δ) cos δ.
#[test]
fn more_leak_never_raises_the_work_of_an_engine_that_compresses() {
    let mut r = Random(11);
    let (mut seen, mut exempt) = (0, 0);
    for i in 0..150 {
        let path = random(&mut r);
        if path.leaks.is_empty() {
            continue;
        }
        let mut leaky = path.clone();
        leaky.factors.leak = r.between(1.5, 10.0);
        let (a, b) = (solve(&path), solve(&leaky));
        assert!((a.pressure_mean_pa / b.pressure_mean_pa - 1.0).abs() < 1e-3);
        if a.work_j > 0.0 && compresses(&a) {
            seen += 1;
            assert!(b.work_j < a.work_j + 1e-4 * a.hot_work_j.abs(), "engine {i}: {} {}", a.work_j, b.work_j);
        } else {
            exempt += 1;
        }
    }
    assert!(seen > 20, "{seen} of {exempt}");
}

#[test]
fn without_a_temperature_difference_no_engine_gives_work() {
    let mut r = Random(13);
    for i in 0..100 {
        let path = random(&mut r);
        let even = heated(&path, path.cold.wall_k, path.cold.wall_k);
        let mut even = even;
        even.charge = Charge::MeanPressure(even.buffer.pressure_pa);
        even.buffer.temperature_k = even.cold.wall_k;
        let result = solve(&even);
        assert!(result.work_j <= 1e-6 * result.hot_work_j.abs(), "engine {i}: {}", result.work_j);
    }
}
