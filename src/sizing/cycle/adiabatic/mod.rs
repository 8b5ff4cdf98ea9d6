//! Ideal adiabatic cycle: spaces without heat transfer, exchangers at the temperature of their walls.
//!
//! I. Urieli and D. M. Berchowitz, Stirling Cycle Engine Analysis, 1984 (from memory; the equations are
//! derived anew in `system`). Pressures, works and heats are in proportion to the gas mass while
//! temperatures and efficiency do not depend on it, so the turn is solved for m R = 1 J/K and scaled to the
//! charge afterwards.

mod system;
mod turn;

use super::anderson::Anderson;
use super::detail::{CellResult, Closure, Detail};
use super::{Charge, CycleError, CycleInput, CycleModel, CyclePoint, CycleResult, efficiency};
use system::System;
use turn::{Turn, run};

/// The ideal adiabatic cycle as a model.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Adiabatic {
    /// Steps a turn to begin with.
    pub first_steps: usize,
    /// Steps a turn at which to give up.
    pub most_steps: usize,
    /// Relative change between two doublings of the steps that counts as settled.
    pub tolerance: f64,
    /// Relative change of state over a turn that counts as steady.
    pub steady: f64,
    /// Turns after which to give up.
    pub most_turns: usize,
}

impl Default for Adiabatic {
    fn default() -> Self {
        Self { first_steps: 120, most_steps: 7680, tolerance: 1e-7, steady: 1e-11, most_turns: 80 }
    }
}

/// A steady turn for m R = 1, with how it was found.
struct Steady {
    turn: Turn,
    change: f64,
    turns: usize,
    steps: usize,
}

impl Adiabatic {
    /// Runs turn after turn until the state comes back to itself.
    fn steady(&self, system: &System<'_>, steps: usize, start: [f64; 2]) -> Result<Steady, CycleError> {
        let (mut state, mut mixer, mut change) = (start, Anderson::new(2), f64::INFINITY);
        for turns in 1..=self.most_turns {
            let turn = run(system, state, steps).ok_or(CycleError::NotSteady { turns, change })?;
            let scale = [start[0].recip(), 1.0];
            let scaled = |s: [f64; 2]| [s[0] * scale[0], s[1] * scale[1]];
            let (x, g) = (scaled(state), scaled(turn.end()));
            change = (g[0] - x[0]).abs().max((g[1] - x[1]).abs());
            if change <= self.steady {
                return Ok(Steady { turn, change, turns, steps });
            }
            let next = mixer.next(&x, &g);
            state = if system.sound(&next, start[0]) { [next[0] / scale[0], next[1]] } else { turn.end() };
        }
        Err(CycleError::NotSteady { turns: self.most_turns, change })
    }

    /// Doubles the steps until mean pressure and works settle; gives the last change too.
    fn settle(&self, system: &System<'_>) -> Result<(Steady, f64), CycleError> {
        let mut steps = self.first_steps.max(24);
        let mut coarse = self.steady(system, steps, system.start())?;
        let mut error = f64::INFINITY;
        while steps < self.most_steps {
            steps *= 2;
            let fine = self.steady(system, steps, coarse.turn.begin())?;
            error = fine.turn.change(&coarse.turn);
            if error <= self.tolerance {
                return Ok((fine, error));
            }
            coarse = fine;
        }
        Err(CycleError::NotSettled { steps, error })
    }
}

impl CycleModel for Adiabatic {
    fn name(&self) -> &'static str {
        "adiabatic"
    }

    fn solve(&self, input: &CycleInput<'_>) -> Result<CycleResult, CycleError> {
        let system = System::of(input)?;
        let (steady, error) = self.settle(&system)?;
        let mean = steady.turn.mean_pressure();
        let r = input.gas_constant_j_kg_k;
        let (mass_kg, scale) = match input.charge {
            Charge::Mass(mass_kg) => (mass_kg, mass_kg * r),
            Charge::MeanPressure(pa) => (pa / mean / r, pa / mean),
        };
        Ok(result(input, &system, &steady, error, mass_kg, scale))
    }
}

/// Scales a steady turn and names its parts.
fn result(
    input: &CycleInput<'_>,
    system: &System<'_>,
    steady: &Steady,
    error: f64,
    mass_kg: f64,
    scale: f64,
) -> CycleResult {
    let turn = &steady.turn;
    let (hot_work_j, cold_work_j) = (scale * turn.works()[1], scale * turn.works()[0]);
    let [cooler, regenerator, heater] = turn.heats().map(|q| scale * q);
    let work_j = hot_work_j + cold_work_j;
    let handled = heater.abs() + cooler.abs() + scale * turn.swing();
    let closure = Closure {
        energy: (heater + cooler + regenerator - work_j) / handled,
        mass: 0.0,
        state: steady.change,
        turns: steady.turns,
        steps: steady.steps,
    };
    let detail =
        Detail { cells: cells(input, system, turn, scale), closure: Some(closure), ..Detail::default() };
    CycleResult {
        pressure_max_pa: scale * turn.pressure_max,
        pressure_min_pa: scale * turn.pressure_min,
        pressure_mean_pa: scale * turn.mean_pressure(),
        work_j,
        hot_work_j,
        cold_work_j,
        heat_in_j: heater,
        heat_out_j: -cooler,
        mass_kg,
        efficiency: efficiency(work_j, heater),
        step_error: Some(error),
        points: points(input, turn, scale),
        detail,
    }
}

/// Hot space, heater, regenerator, cooler and cold space.
fn cells(input: &CycleInput<'_>, system: &System<'_>, turn: &Turn, scale: f64) -> Vec<CellResult> {
    let space = |name: &str, work: f64, t: [f64; 3]| CellResult {
        name: name.into(),
        work_j: scale * work,
        gas_min_k: t[0],
        gas_max_k: t[1],
        gas_mean_k: t[2],
        ..CellResult::default()
    };
    let [cooler, regenerator, heater] = turn.heats();
    let exchanger = |name: &str, heat: f64, swing: f64, t: f64| CellResult {
        name: name.into(),
        heat_j: scale * heat,
        heat_swing_j: scale * swing,
        gas_min_k: t,
        gas_max_k: t,
        gas_mean_k: t,
        wall_k: Some(t),
        ..CellResult::default()
    };
    vec![
        space("hot space", turn.works()[1], turn.hot_k),
        exchanger("heater", heater, turn.heater_swing, system.hot_k),
        exchanger("regenerator", regenerator, turn.swing(), input.temperatures.between_k()),
        exchanger("cooler", cooler, turn.cooler_swing, system.cold_k),
        space("cold space", turn.works()[0], turn.cold_k),
    ]
}

/// The loop at the wanted number of points, between the steps along the pressure's own slope.
fn points(input: &CycleInput<'_>, turn: &Turn, scale: f64) -> Vec<CyclePoint> {
    input.loop_of(|angle| scale * turn.pressure_at(angle))
}

#[cfg(test)]
mod tests {
    use super::super::cases::{gamma, input};
    use super::super::{Charge, Isothermal};
    use super::*;

    /// Derived: ∮Q_h = ∮W_e, ∮Q_k = ∮W_c and ∮Q_r = 0, for the gas in each exchanger comes back to itself.
    #[test]
    fn the_cyclic_identities_hold() {
        let law = gamma(Some(60.0));
        let r = Adiabatic::default().solve(&input(&law)).unwrap();
        let regenerator = r.detail.cell("regenerator").unwrap();
        assert!((r.heat_in_j / r.hot_work_j - 1.0).abs() < 1e-8, "{} {}", r.heat_in_j, r.hot_work_j);
        assert!((r.heat_out_j / -r.cold_work_j - 1.0).abs() < 1e-8);
        assert!(regenerator.heat_j.abs() < 1e-8 * regenerator.heat_swing_j);
        assert!(r.detail.closure.unwrap().energy.abs() < 1e-8);
        assert!((r.pressure_mean_pa / 101_325.0 - 1.0).abs() < 1e-14);
    }

    #[test]
    fn a_given_mass_and_a_given_pressure_are_the_same_engine() {
        let law = gamma(None);
        let by_pressure = Adiabatic::default().solve(&input(&law)).unwrap();
        let charge = Charge::Mass(by_pressure.mass_kg);
        let by_mass = Adiabatic::default().solve(&CycleInput { charge, ..input(&law) }).unwrap();
        assert!((by_mass.pressure_mean_pa / 101_325.0 - 1.0).abs() < 1e-14);
    }

    #[test]
    fn without_a_temperature_difference_the_gas_takes_work() {
        let law = gamma(None);
        let mut i = input(&law);
        i.temperatures.hot_k = i.temperatures.cold_k;
        let r = Adiabatic::default().solve(&i).unwrap();
        assert!(r.work_j < 0.0, "{}", r.work_j);
    }

    #[test]
    fn the_loop_encloses_the_work() {
        let law = gamma(Some(60.0));
        let r = Adiabatic::default().solve(&CycleInput { points: 2000, ..input(&law) }).unwrap();
        let next = r.points.iter().cycle().skip(1);
        let area: f64 = r
            .points
            .iter()
            .zip(next)
            .map(|(a, b)| 0.5 * (a.pressure_pa + b.pressure_pa) * (b.total_m3 - a.total_m3))
            .sum();
        assert!((area / r.work_j - 1.0).abs() < 1e-5, "{area} {}", r.work_j);
        let highest = r.points.iter().map(|p| p.pressure_pa).fold(0.0, f64::max);
        assert!(highest <= r.pressure_max_pa * (1.0 + 1e-7) && highest > r.pressure_max_pa * (1.0 - 1e-5));
    }

    #[test]
    fn gas_without_a_ratio_and_spaces_without_clearance_are_refused() {
        let law = gamma(None);
        let mut i = input(&law);
        i.heat_capacity_ratio = 1.0;
        assert!(matches!(
            Adiabatic::default().solve(&i),
            Err(CycleError::NotPositive { what: "heat capacity ratio less one", .. })
        ));
        assert!(Isothermal.solve(&i).is_ok(), "the isothermal cycle does not ask for it");
        let hurried = Adiabatic { most_turns: 1, ..Adiabatic::default() };
        assert!(matches!(hurried.solve(&input(&law)), Err(CycleError::NotSteady { turns: 1, .. })));
    }
}
