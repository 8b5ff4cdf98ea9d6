//! Losses of the GPU-3 line by line, and where the literature's orders of magnitude put them: W. R. Martini, NASA
//! CR-168088, 1983; G. Walker, Stirling Engines, 1980; I. Urieli and D. M. Berchowitz, Stirling Cycle Engine Analysis,
//! 1984 (all from memory).

use super::data::{Engine, Point};
use super::predict::{Solved, middle, solve};
use swept::sizing::losses::shuttle::Shuttle;
use swept::sizing::losses::wall_conduction::Tube;

/// A loss with the share of indicated power or of the heat taken in that the literature has for such engines.
pub struct Line {
    pub name: &'static str,
    pub watts: f64,
    pub share: f64,
    pub range: [f64; 2],
}

impl Line {
    pub fn in_place(&self) -> bool {
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

pub fn lines(s: &Solved, tight_w: f64, gas_w_m_k: f64) -> Vec<Line> {
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
        line("friction of the drive", s.indicated_w() - s.shaft_j() * f, indicated, [0.08, 0.30]),
        line("heat that the regenerators miss", heat - c.hot_work_j * f, heat, [0.02, 0.25]),
        line("conduction along walls and housings", walls, heat, [0.02, 0.15]),
        line("shuttle", shuttle, heat, [0.005, 0.08]),
    ]
}

/// The points of greatest power, hydrogen and helium: engine at its middle, and its losses.
pub fn points() -> Vec<(Point, Solved, Vec<Line>)> {
    let engine = Engine::named("gpu3");
    let of = |(point, gas_w_m_k): (&Point, f64)| {
        let solved = middle(&engine, point);
        let mut tight = solved.built.clone();
        tight.path.leaks.clear();
        let tight_w = solve(tight).unwrap().cycle.work_j * solved.per_second();
        let all = lines(&solved, tight_w, gas_w_m_k);
        (point.clone(), solved, all)
    };
    engine.point.iter().take(2).zip([0.30, 0.25]).map(of).collect()
}

/// Both points as Markdown.
pub fn markdown() -> String {
    let points = points();
    let head = |(point, s, _): &(Point, Solved, Vec<Line>)| {
        let f = s.per_second();
        format!(
            "{} at {:.0} rpm: indicated {:.0} W of {:.0} W heat, shaft {:.0} W (measured {:.0} W)",
            point.gas,
            s.built.path.speed_rpm,
            s.cycle.work_j * f,
            s.cycle.heat_in_j * f,
            s.output_w(),
            point.measured_w.unwrap_or(0.0)
        )
    };
    let heads: Vec<String> = points.iter().map(head).collect();
    let mut text = format!(
        "Losses of the GPU-3, all at the middle; {}. Shares are of the indicated power, of the heat in the last three lines:\n\n\
         | loss | hydrogen | helium | usual (from memory) | in place |\n|---|---|---|---|---|\n",
        heads.join("; ")
    );
    for (a, b) in points[0].2.iter().zip(&points[1].2) {
        let cell = |l: &Line| format!("{:.0} W, {:.1} %", l.watts, 100.0 * l.share);
        let [low, high] = a.range.map(|x| 100.0 * x);
        let place = if a.in_place() && b.in_place() { "yes" } else { "**no**" };
        text += &format!("| {} | {} | {} | {low} to {high} % | {place} |\n", a.name, cell(a), cell(b));
    }
    text
}
