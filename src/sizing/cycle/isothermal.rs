//! Isothermal cycle with harmonic motion, in closed form.
//!
//! After G. Schmidt (1871), in phasor form. With hot and cold volume V̄ + A cos(θ − φ) and gas at the
//! temperature of its space, Σ V/T = D₀ + |D₁| cos(θ − δ) with D₀ the mean and D₁ = Σ A e^{iφ} / T, so
//! p = m R / (D₀ (1 + b cos(θ − δ))) with b = |D₁| / D₀. The first Fourier coefficient of
//! 1 / (1 + b cos) is −2b/(1 + s) of its mean, s = √(1 − b²), and only that one works on a harmonic
//! volume: W = 2π p_m b/(1 + s) A sin(δ − φ).

use super::detail::Detail;
use super::{Charge, CycleError, CycleInput, CycleModel, CycleResult, efficiency};
use crate::sizing::volumes::Harmonic;
use std::f64::consts::TAU;

/// The closed form as a model of the cycle.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ClosedForm;

/// Parameters of the pressure: p = p_m s / (1 + b cos(θ − δ)).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// b, between 0 (no swing) and 1.
    pub ratio: f64,
    /// δ \[rad\].
    pub phase_rad: f64,
    /// D₀, mean of Σ V/T \[m³/K\].
    pub mean_m3_k: f64,
}

impl Swing {
    /// Swing of an engine with harmonic motion.
    ///
    /// # Errors
    /// [`CycleError::NotHarmonic`], and those of [`CycleInput::check`].
    pub fn of(input: &CycleInput<'_>) -> Result<Self, CycleError> {
        input.check()?;
        let (hot, cold) = input.volumes.harmonic().ok_or(CycleError::NotHarmonic)?;
        let parts = [(hot, input.temperatures.hot_k), (cold, input.temperatures.cold_k)];
        let sum = |f: fn(&Harmonic) -> f64| parts.iter().map(|(h, t_k)| f(h) / t_k).sum::<f64>();
        let x = sum(|h| h.amplitude_m3 * h.phase_rad.cos());
        let y = sum(|h| h.amplitude_m3 * h.phase_rad.sin());
        let mean_m3_k = sum(|h| h.mean_m3) + input.dead_over_temperature_m3_k();
        Ok(Self { ratio: x.hypot(y) / mean_m3_k, phase_rad: y.atan2(x), mean_m3_k })
    }

    /// s = √(1 − b²).
    fn root(&self) -> f64 {
        ((1.0 - self.ratio) * (1.0 + self.ratio)).sqrt()
    }

    /// Work in a harmonic volume at a mean pressure \[J\].
    fn work_j(&self, mean_pa: f64, volume: &Harmonic) -> f64 {
        let first = self.ratio / (1.0 + self.root());
        TAU * mean_pa * first * volume.amplitude_m3 * (self.phase_rad - volume.phase_rad).sin()
    }
}

impl CycleModel for ClosedForm {
    fn name(&self) -> &'static str {
        "isothermal"
    }

    fn solve(&self, input: &CycleInput<'_>) -> Result<CycleResult, CycleError> {
        let swing = Swing::of(input)?;
        let (hot, cold) = input.volumes.harmonic().ok_or(CycleError::NotHarmonic)?;
        let (b, s) = (swing.ratio, swing.root());
        let capacity_kg_pa = swing.mean_m3_k * s / input.gas_constant_j_kg_k;
        let (mean_pa, mass_kg) = match input.charge {
            Charge::MeanPressure(mean_pa) => (mean_pa, mean_pa * capacity_kg_pa),
            Charge::Mass(mass_kg) => (mass_kg / capacity_kg_pa, mass_kg),
        };
        let (hot_work_j, cold_work_j) = (swing.work_j(mean_pa, &hot), swing.work_j(mean_pa, &cold));
        let work_j = hot_work_j + cold_work_j;
        Ok(CycleResult {
            pressure_max_pa: mean_pa * s / (1.0 - b),
            pressure_min_pa: mean_pa * s / (1.0 + b),
            pressure_mean_pa: mean_pa,
            work_j,
            hot_work_j,
            cold_work_j,
            heat_in_j: hot_work_j,
            heat_out_j: -cold_work_j,
            mass_kg,
            efficiency: efficiency(work_j, hot_work_j),
            step_error: None,
            points: input.loop_of(|a| mean_pa * s / (1.0 + b * (a - swing.phase_rad).cos())),
            detail: Detail::default(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{gamma, input};
    use super::*;
    use crate::sizing::volumes::{Arrangement, Overlap, VolumeLaw};

    #[test]
    fn a_given_mass_and_a_given_pressure_are_the_same_engine() {
        let law = gamma(None);
        let by_pressure = ClosedForm.solve(&input(&law)).unwrap();
        let charge = Charge::Mass(by_pressure.mass_kg);
        let by_mass = ClosedForm.solve(&CycleInput { charge, ..input(&law) }).unwrap();
        assert!((by_mass.pressure_mean_pa / 101_325.0 - 1.0).abs() < 1e-14);
        assert!((by_mass.work_j / by_pressure.work_j - 1.0).abs() < 1e-13);
    }

    /// Carnot's bound, which the isothermal cycle reaches; and the first law over a turn.
    #[test]
    fn efficiency_is_that_of_carnot_and_energy_closes() {
        let law = gamma(None);
        let r = ClosedForm.solve(&input(&law)).unwrap();
        assert!((r.efficiency.unwrap() - (1.0 - 330.0 / 650.0)).abs() < 1e-13);
        assert!((r.heat_in_j - r.heat_out_j - r.work_j).abs() < 1e-15);
    }

    #[test]
    fn without_a_temperature_difference_there_is_no_work_and_swapped_ends_make_a_heat_pump() {
        let law = gamma(None);
        let with = |hot_k| {
            let mut i = input(&law);
            i.temperatures.hot_k = hot_k;
            ClosedForm.solve(&i).unwrap()
        };
        assert!(with(330.0).work_j.abs() < 1e-15);
        let pump = with(250.0);
        assert!(pump.work_j < 0.0 && pump.heat_in_j > 0.0, "takes heat from the colder end for work");
    }

    #[test]
    fn what_is_no_engine_is_refused() {
        let law = gamma(None);
        let mut i = input(&law);
        i.temperatures.cold_k = 0.0;
        assert!(matches!(
            ClosedForm.solve(&i),
            Err(CycleError::NotPositive { what: "cold temperature", .. })
        ));
        i = CycleInput { charge: Charge::MeanPressure(f64::NAN), ..input(&law) };
        assert!(matches!(ClosedForm.solve(&i), Err(CycleError::NotPositive { what: "charge", .. })));
        let cranked = gamma(Some(60.0));
        assert_eq!(ClosedForm.solve(&input(&cranked)), Err(CycleError::NotHarmonic));
    }

    #[test]
    fn spaces_below_nothing_are_refused_by_name() {
        let law = gamma(None);
        let mut dead = law.dead().to_vec();
        dead[0].volume_m3 = -1e-6;
        let bad = VolumeLaw::new(*law.arrangement(), f64::NAN, vec![]);
        assert_eq!(ClosedForm.solve(&input(&bad)), Err(CycleError::NoLead));
        let Arrangement::Gamma { displacer, mut piston } = *law.arrangement() else { unreachable!() };
        piston.area_mm2 = -1.0;
        let bad = VolumeLaw::new(Arrangement::Gamma { displacer, piston }, 90.0, vec![]);
        let error = ClosedForm.solve(&input(&bad)).unwrap_err();
        assert!(matches!(error, CycleError::NotPositive { what: "swept volume of the piston", .. }));
        let overlap = Overlap::Volume(1e-3);
        piston.area_mm2 = 1000.0;
        let bad = VolumeLaw::new(Arrangement::Beta { displacer, piston, overlap }, 90.0, vec![]);
        let error = ClosedForm.solve(&input(&bad)).unwrap_err();
        assert!(error.to_string().starts_with("cold space would shrink to -9"), "{error}");
        let bad = VolumeLaw::new(*law.arrangement(), 90.0, dead);
        let error = ClosedForm.solve(&input(&bad)).unwrap_err();
        assert_eq!(error.to_string(), "cooler would shrink to -1.0000 cm3");
    }
}
