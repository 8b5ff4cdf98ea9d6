//! The best documented engine, line by line: where does the power go, and is it where the literature puts it?
//!
//! Dimensions and orders of magnitude are from memory; they are not judged line by line but printed, and the number of
//! lines in their place is held. The orders of magnitude: W. R. Martini, NASA CR-168088, 1983; G. Walker, Stirling
//! Engines, 1980; I. Urieli and D. M. Berchowitz, Stirling Cycle Engine Analysis, 1984 (all from memory).

mod published;

use published::data::Engine;
use published::path::build;
use published::predict::{Solved, middle, solve};
use swept::sizing::cycle::{Adiabatic, CycleInput, CycleModel, MeanTemperature, Temperatures};
use swept::sizing::losses::shuttle::Shuttle;
use swept::sizing::losses::wall_conduction::Tube;
use swept::sizing::mechanism::FrictionFactors;

/// A loss with the share of indicated power or of the heat taken in that the literature has for such engines.
struct Line {
    name: &'static str,
    watts: f64,
    share: f64,
    range: [f64; 2],
}

impl Line {
    fn in_place(&self) -> bool {
        (self.range[0]..=self.range[1]).contains(&self.share)
    }
}

/// Sizes of walls, all assumed: displacer 100 mm long with a gap of 0.2 mm, cylinder wall 4 mm, regenerator housings with
/// walls of 2 mm, displacer shell 1.5 mm; stainless steel 20 W/(m K), helium 0.25 and hydrogen 0.3 W/(m K) at the mean.
fn conduction_w(s: &Solved, gas_w_m_k: f64) -> [f64; 2] {
    let fall_k = s.built.path.hot.wall_k - s.built.path.cold.wall_k;
    let tube = |diameter_mm: f64, wall_mm: f64, length_mm: f64| {
        Tube { conductivity_w_m_k: 20.0, diameter_mm, wall_mm, length_mm }.conductance_w_k() * fall_k
    };
    let walls = tube(73.9, 4.0, 100.0) + tube(68.0, 1.5, 100.0) + 8.0 * tube(24.6, 2.0, 22.6);
    let shuttle = Shuttle {
        gas_w_m_k,
        diameter_mm: 69.9,
        stroke_mm: s.built.cylinders.displacer_stroke_mm,
        gap_mm: 0.2,
        length_mm: 100.0,
    };
    [walls, shuttle.conductance_w_k() * fall_k]
}

fn lines(s: &Solved, tight_w: f64, gas_w_m_k: f64) -> Vec<Line> {
    let (f, c) = (s.per_second(), &s.cycle);
    let (indicated, heat) = (c.work_j * f, c.heat_in_j * f);
    let friction = |name: &str| {
        c.detail.friction.iter().filter(|x| x.name.contains(name)).map(|x| x.work_j).sum::<f64>() * f
    };
    let [walls, shuttle] = conduction_w(s, gas_w_m_k);
    let line = |name, watts: f64, of: f64, range| Line { name, watts, share: watts / of, range };
    vec![
        line("flow friction in the heater", friction("heater"), indicated, [0.01, 0.08]),
        line("flow friction in the regenerators", friction("regenerator"), indicated, [0.04, 0.20]),
        line("flow friction in the cooler", friction("cooler"), indicated, [0.005, 0.06]),
        line("leakage past the piston", tight_w - indicated, indicated, [0.0, 0.06]),
        line("friction of the drive", s.drive.friction_j() * f, indicated, [0.08, 0.30]),
        line("heat that the regenerators miss", heat - c.hot_work_j * f, heat, [0.02, 0.25]),
        line("conduction along walls and housings", walls, heat, [0.02, 0.15]),
        line("shuttle", shuttle, heat, [0.005, 0.08]),
    ]
}

/// Helium and hydrogen, greatest power of the tests.
#[test]
fn losses_lie_where_the_literature_puts_them() {
    let engine = Engine::named("gpu3");
    for (point, gas_w_m_k) in engine.point.iter().take(2).zip([0.30, 0.25]) {
        let solved = middle(&engine, point);
        let mut tight = build(&engine, point, None, [0.0, 0.0]);
        tight.path.leaks.clear();
        let tight_w = solve(tight, &FrictionFactors::default()).unwrap().cycle.work_j * solved.per_second();
        let all = lines(&solved, tight_w, gas_w_m_k);
        println!(
            "GPU-3, {} at {} rpm: indicated {:.0} W, heat {:.0} W, shaft {:.0} W (measured {:?} W)",
            point.gas,
            solved.built.path.speed_rpm,
            solved.cycle.work_j * solved.per_second(),
            solved.cycle.heat_in_j * solved.per_second(),
            solved.output_w(),
            point.measured_w
        );
        for l in &all {
            let [low, high] = l.range.map(|x| 100.0 * x);
            let place = if l.in_place() { "in place" } else { "OUT of place" };
            println!(
                "  {:38} {:6.0} W {:5.1} % ({low} to {high} %) {place}",
                l.name,
                l.watts,
                100.0 * l.share
            );
        }
        let outside: Vec<_> = all.iter().filter(|l| !l.in_place()).map(|l| l.name).collect();
        assert!(outside.len() <= 1, "{outside:?}");
        assert!(all.iter().all(|l| l.watts >= 0.0 && l.share < 0.3));
    }
}

/// Ideal adiabatic GPU-3 with its rhombic motion, 4.13 MPa helium, 41.72 Hz, 977 and 288 K: 7.60 kW at 0.6275, worked out
/// by an independent program in Python (scipy) with exchanger volumes that differ from those of the tubes by under 1 %.
#[test]
fn the_rhombic_drive_gives_the_adiabatic_power_of_an_independent_program() {
    let engine = Engine::named("gpu3");
    let mut path = build(&engine, &engine.point[2], None, [0.0, 0.0]).path;
    path.hot.wall_k = 977.0;
    path.cold.wall_k = 288.0;
    let law = path.law();
    let swept = law.swept_m3()[0].1 * 1e6;
    assert!((swept / 120.82 - 1.0).abs() < 1e-3, "expansion space {swept} cm³");
    let temperatures = Temperatures { hot_k: 977.0, cold_k: 288.0, mean: MeanTemperature::Logarithmic };
    let input = CycleInput { temperatures, heat_capacity_ratio: 5.0 / 3.0, ..path.input(&law, 90) };
    let r = Adiabatic::default().solve(&input).unwrap();
    let (power_w, efficiency) = (r.work_j * 41.72, r.efficiency.unwrap());
    println!("{power_w:.0} W at {efficiency:.4}");
    assert!((power_w / 7600.0 - 1.0).abs() < 0.015 && (efficiency / 0.6275 - 1.0).abs() < 0.005);
}
