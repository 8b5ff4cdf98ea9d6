//! Isothermal cycle with any motion, by sums over an even grid of crank angles.
//!
//! p = m R / Σ(V/T) at every angle; mean pressure and works ∮ p V' dθ by the trapezoidal rule, which on
//! a periodic smooth function gains digits in proportion to the number of points (L. N. Trefethen and
//! J. A. C. Weideman, SIAM Review 56 (2014) 385, from memory). The steps are doubled until nothing
//! changes any more.

use super::detail::Detail;
use super::{Charge, CycleError, CycleInput, CycleModel, CycleResult, efficiency};
use crate::sizing::turn;
use std::f64::consts::TAU;

/// The numeric isothermal cycle as a model.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Numeric {
    /// Steps a turn to begin with.
    pub first_steps: usize,
    /// Steps a turn at which to give up.
    pub most_steps: usize,
    /// Relative change between two doublings that counts as settled.
    pub tolerance: f64,
}

impl Default for Numeric {
    fn default() -> Self {
        Self { first_steps: 64, most_steps: 1 << 16, tolerance: 1e-11 }
    }
}

/// Sums over one grid, for m R = 1.
#[derive(Clone, Copy, Debug)]
struct Sums {
    /// Mean of 1 / Σ(V/T) \[K/m³\].
    mean: f64,
    /// ∮ V_hot' / Σ(V/T) dθ \[K\].
    hot: f64,
    /// ∮ V_cold' / Σ(V/T) dθ \[K\].
    cold: f64,
    /// The same as `hot` without regard to sign: what the works are measured by.
    traffic: f64,
}

impl Sums {
    fn over(input: &CycleInput<'_>, steps: usize) -> Self {
        let step = TAU / steps as f64;
        let dead = input.dead_over_temperature_m3_k();
        let mut sums = Self { mean: 0.0, hot: 0.0, cold: 0.0, traffic: 0.0 };
        for i in 0..steps {
            let angle = i as f64 * step;
            let pressure = 1.0 / (moving_m3_k(input, angle) + dead);
            let slope = input.volumes.slope(angle);
            sums.mean += pressure / steps as f64;
            sums.hot += pressure * slope.hot_m3 * step;
            sums.cold += pressure * slope.all_cold_m3() * step;
            sums.traffic += (pressure * slope.hot_m3 * step).abs();
        }
        sums
    }

    /// Greatest relative change against a coarser grid.
    fn change(&self, coarse: &Self) -> f64 {
        let works = (self.hot - coarse.hot).abs().max((self.cold - coarse.cold).abs());
        (self.mean / coarse.mean - 1.0).abs().max(works / self.traffic)
    }
}

/// Σ V/T of the moving volumes \[m³/K\].
fn moving_m3_k(input: &CycleInput<'_>, angle_rad: f64) -> f64 {
    let spaces = input.volumes.at(angle_rad);
    spaces.hot_m3 / input.temperatures.hot_k + spaces.all_cold_m3() / input.temperatures.cold_k
}

fn moving_slope_m3_k(input: &CycleInput<'_>, angle_rad: f64) -> f64 {
    let slope = input.volumes.slope(angle_rad);
    slope.hot_m3 / input.temperatures.hot_k + slope.all_cold_m3() / input.temperatures.cold_k
}

impl Numeric {
    /// Doubles the steps until the sums settle; gives the sums and the last change.
    fn settle(&self, input: &CycleInput<'_>) -> Result<(Sums, f64), CycleError> {
        let (mut steps, mut error) = (self.first_steps.max(4), f64::INFINITY);
        let mut coarse = Sums::over(input, steps);
        while steps < self.most_steps {
            steps *= 2;
            let fine = Sums::over(input, steps);
            error = fine.change(&coarse);
            if error <= self.tolerance {
                return Ok((fine, error));
            }
            coarse = fine;
        }
        Err(CycleError::NotSettled { steps, error })
    }
}

impl CycleModel for Numeric {
    fn name(&self) -> &'static str {
        "isothermal"
    }

    fn solve(&self, input: &CycleInput<'_>) -> Result<CycleResult, CycleError> {
        input.check()?;
        let (sums, error) = self.settle(input)?;
        let (mass_kg, scale_j_k) = match input.charge {
            Charge::Mass(mass_kg) => (mass_kg, mass_kg * input.gas_constant_j_kg_k),
            Charge::MeanPressure(pa) => (pa / sums.mean / input.gas_constant_j_kg_k, pa / sums.mean),
        };
        let dead = input.dead_over_temperature_m3_k();
        let (value, slope) = (|a| moving_m3_k(input, a), |a| moving_slope_m3_k(input, a));
        let (hot_work_j, cold_work_j) = (scale_j_k * sums.hot, scale_j_k * sums.cold);
        let work_j = hot_work_j + cold_work_j;
        Ok(CycleResult {
            pressure_max_pa: scale_j_k / (dead + turn::least(value, slope)),
            pressure_min_pa: scale_j_k / (dead + turn::greatest(value, slope)),
            pressure_mean_pa: scale_j_k * sums.mean,
            work_j,
            hot_work_j,
            cold_work_j,
            heat_in_j: hot_work_j,
            heat_out_j: -cold_work_j,
            mass_kg,
            efficiency: efficiency(work_j, hot_work_j),
            step_error: Some(error),
            points: input.loop_of(|a| scale_j_k / (dead + value(a))),
            detail: Detail::default(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{gamma, input};
    use super::super::isothermal::ClosedForm;
    use super::super::{CycleModel, Isothermal};
    use super::*;

    #[test]
    fn with_harmonic_motion_it_is_the_closed_form() {
        let law = gamma(None);
        let (closed, numeric) = (ClosedForm.solve(&input(&law)), Numeric::default().solve(&input(&law)));
        let (closed, numeric) = (closed.unwrap(), numeric.unwrap());
        assert!((numeric.work_j / closed.work_j - 1.0).abs() < 1e-11);
        assert!((numeric.pressure_max_pa / closed.pressure_max_pa - 1.0).abs() < 1e-12);
        assert!(numeric.step_error.unwrap() <= 1e-11);
        assert_eq!(numeric.points.len(), 360);
    }

    /// A longer con rod comes nearer to harmonic motion, with the first power of throw over con rod.
    #[test]
    fn a_con_rod_shifts_the_work_a_little_and_less_as_it_grows() {
        let work = |rod: Option<f64>| Isothermal.solve(&input(&gamma(rod))).unwrap().work_j;
        let off = |rod: f64| (work(Some(rod)) / work(None) - 1.0).abs();
        assert!(off(50.0) > 1e-4 && off(50.0) < 0.1, "{}", off(50.0));
        assert!(off(5e3) < off(500.0) && off(500.0) < off(50.0));
        assert!(off(5e7) < 1e-6);
    }

    /// The isothermal efficiency is Carnot's whatever the motion: ∮ p d(Σ V/T) = m R ∮ dD/D = 0.
    #[test]
    fn efficiency_is_that_of_carnot_with_a_con_rod_too() {
        let r = Isothermal.solve(&input(&gamma(Some(40.0)))).unwrap();
        assert!((r.efficiency.unwrap() - (1.0 - 330.0 / 650.0)).abs() < 1e-11);
    }

    #[test]
    fn too_few_steps_are_said() {
        let law = gamma(Some(18.5));
        let few = Numeric { first_steps: 8, most_steps: 16, tolerance: 1e-11 };
        assert!(matches!(few.solve(&input(&law)), Err(CycleError::NotSettled { steps: 16, .. })));
    }
}
