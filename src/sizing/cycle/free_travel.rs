//! Free travel: how far a free piston moves when the displacer is shifted slowly from end to end.
//!
//! A builder's test before the first run: crank taken off, displacer pushed slowly by hand, the piston
//! follows so that the pressure stays that of the buffer. DERIVED here. Gas mass m stays, every space is
//! at the temperature of its zone, and the piston is at rest where
//!   m R / p_b = V_hot/T_h + V_cold/T_k + A x/T_k + Σ V_dead/T,
//! with x the displacement of the piston. With the displacer at its hot end V_hot is least and V_cold the
//! greatest; at its cold end V_hot has grown by V_d and V_cold shrunk by V_dc (smaller by the rod). The
//! left side is the same for both, so
//!   A (x_out − x_in) = V_dc − V_d T_k/T_h,
//! which is V_d (1 − T_k/T_h) without a rod: free of dead volume, charge and buffer. The mass only says
//! where on its way the piston stands. Friction of seals is what a measurement falls short by.

use super::{CycleError, CycleInput};
use crate::sizing::volumes::{Arrangement, Displacer, Piston};
use serde::{Deserialize, Serialize};

/// Where a free piston comes to rest, from its top dead centre outwards; places may lie beyond the stroke.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct FreeTravel {
    /// With the displacer at its hot end, all gas cold \[mm\].
    pub inner_mm: f64,
    /// With the displacer at its cold end, most gas hot \[mm\].
    pub outer_mm: f64,
    /// Way between the two \[mm\].
    pub travel_mm: f64,
    /// Way as a fraction of the piston's stroke.
    pub of_stroke: f64,
}

impl FreeTravel {
    /// Free travel of a displacer engine that holds `mass_kg` of gas, at a buffer pressure \[Pa\].
    ///
    /// # Errors
    /// [`CycleError::NoDisplacer`] for alpha; [`CycleError::NotPositive`] for mass or pressure; those of
    /// [`CycleInput::check`].
    pub fn of(input: &CycleInput<'_>, mass_kg: f64, buffer_pa: f64) -> Result<Self, CycleError> {
        input.check()?;
        for (what, value) in [("gas mass", mass_kg), ("buffer pressure", buffer_pa)] {
            if !(value > 0.0 && value.is_finite()) {
                return Err(CycleError::NotPositive { what, value });
            }
        }
        let (displacer, piston) = displacer_of(input)?;
        let wanted_m3_k = mass_kg * input.gas_constant_j_kg_k / buffer_pa;
        let rest_mm = |hot_m3: f64, cold_m3: f64| {
            let cold = cold_m3 + piston.clearance_m3 - input.volumes.overlap_m3();
            let held = hot_m3 / input.temperatures.hot_k + cold / input.temperatures.cold_k;
            let missing = wanted_m3_k - held - input.dead_over_temperature_m3_k();
            missing * input.temperatures.cold_k / (piston.area_mm2 * 1e-9)
        };
        let (hot, cold) = (displacer.hot_clearance_m3, displacer.cold_clearance_m3);
        let inner_mm = rest_mm(hot, cold + displacer.cold_swept_m3());
        let outer_mm = rest_mm(hot + displacer.hot_swept_m3(), cold);
        let travel_mm = outer_mm - inner_mm;
        Ok(Self { inner_mm, outer_mm, travel_mm, of_stroke: travel_mm / piston.motion.stroke_mm() })
    }
}

fn displacer_of(input: &CycleInput<'_>) -> Result<(Displacer, Piston), CycleError> {
    match *input.volumes.arrangement() {
        Arrangement::Alpha { .. } => Err(CycleError::NoDisplacer),
        Arrangement::Beta { displacer, piston, .. } | Arrangement::Gamma { displacer, piston } => {
            Ok((displacer, piston))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{gamma, input};
    use super::*;
    use crate::sizing::volumes::VolumeLaw;

    /// By hand: 50 cm³ of displacer, 650 and 330 K, piston of 10 cm²:
    /// 50 (1 − 330/650) / 10 = 2.4615 cm.
    #[test]
    fn travel_is_that_of_the_hand_calculation() {
        let law = gamma(Some(60.0));
        let t = FreeTravel::of(&input(&law), 7e-5, 101_325.0).unwrap();
        assert!((t.travel_mm - 24.615_384_615).abs() < 1e-8, "{t:?}");
        assert!((t.of_stroke - 24.615_384_615 / 25.0).abs() < 1e-9);
    }

    /// By hand, the gas counted at both rests: n = p V / (R T) of every space must sum to the same mass.
    #[test]
    fn at_both_rests_the_gas_weighs_the_same() {
        let law = gamma(None);
        let (p, r, mass) = (101_325.0, 287.05, 7.2e-5);
        let t = FreeTravel::of(&input(&law), mass, p).unwrap();
        let between = (650.0 - 330.0) / (650.0_f64 / 330.0).ln();
        let weigh = |hot_cm3: f64, cold_cm3: f64| {
            1e-6 * p / r * ((hot_cm3 + 6.0) / 650.0 + (cold_cm3 + 5.0) / 330.0 + 10.0 / between)
        };
        assert!((weigh(2.0, 3.0 + 50.0 + 1.0 + t.inner_mm) / mass - 1.0).abs() < 1e-12);
        assert!((weigh(52.0, 3.0 + 1.0 + t.outer_mm) / mass - 1.0).abs() < 1e-12);
    }

    /// By hand: a rod of 2 cm² over 2.5 cm of stroke takes 5 cm³: (45 − 50 × 330/650) / 10 = 1.9615 cm.
    #[test]
    fn a_rod_shortens_the_travel() {
        let Arrangement::Gamma { mut displacer, piston } = *gamma(None).arrangement() else { unreachable!() };
        displacer.cold_area_mm2 -= 200.0;
        let law = VolumeLaw::new(Arrangement::Gamma { displacer, piston }, 90.0, vec![]);
        let t = FreeTravel::of(&input(&law), 7e-5, 101_325.0).unwrap();
        assert!((t.travel_mm - 19.615_384_615).abs() < 1e-8, "{t:?}");
    }

    #[test]
    fn an_engine_without_displacer_or_gas_is_refused() {
        let law = gamma(None);
        assert!(FreeTravel::of(&input(&law), 0.0, 101_325.0).is_err());
        assert!(FreeTravel::of(&input(&law), 7e-5, f64::NAN).is_err());
        let Arrangement::Gamma { piston, .. } = *law.arrangement() else { unreachable!() };
        let alpha = VolumeLaw::new(Arrangement::Alpha { hot: piston, cold: piston }, 90.0, vec![]);
        assert_eq!(FreeTravel::of(&input(&alpha), 7e-5, 1e5), Err(CycleError::NoDisplacer));
    }
}
