//! The verdict's first model: isothermal gas with leakage, lumped heat transfer, named losses and the drive.
//!
//! Everything but the flow's friction. Gas temperatures are those the walls can keep up (see `exchange`); without
//! `exchange` the gas has the temperature of the walls. Heat losses load the heater: where its power is given, the hot
//! wall is as hot as that power can keep it. Hysteresis of the gas springs is taken off the work evenly over the turn.

use super::change::Change;
use super::changed::Changed;
use super::exchange::Exchange;
use super::heat_paths::HeatPaths;
use super::leaky::{Gas, Grid};
use super::net_work::{Facts, NetWork, VerdictError, WorkBreakdown};
use crate::catalogue::gases;
use crate::sizing::cycle::free_travel::FreeTravel;
use crate::sizing::losses::gas_spring::GasSpring;
use crate::sizing::mechanism::{Mechanism, MechanismError, Motion, SliderCrank};
use crate::sizing::volumes::{Arrangement, DeadVolume, Displacer, Piston, VolumeLaw};

/// Name of the dead volume that is the displacer's gap.
pub const GAP: &str = "displacer gap";

/// A gamma engine as this model sees it.
#[derive(Clone, Debug)]
pub struct IsothermalEngine {
    /// Displacer; its crank is also in `mechanism`.
    pub displacer: Displacer,
    /// Piston; its crank is also in `mechanism`.
    pub piston: Piston,
    /// Volumes that stay the same; that of the gap is called [`GAP`].
    pub dead: Vec<DeadVolume>,
    /// The drive.
    pub mechanism: Mechanism,
    /// Working gas.
    pub gas: gases::Gas,
    /// Hot wall \[K\].
    pub hot_k: f64,
    /// Cold wall \[K\].
    pub cold_k: f64,
    /// Mean pressure where nothing leaks \[Pa\].
    pub charge_pa: f64,
    /// Pressure behind the piston \[Pa\].
    pub buffer_pa: f64,
    /// Leak past rings and gland \[kg/(s Pa)\].
    pub leak_kg_s_pa: f64,
    /// Heat transfer; `None` for gas at the temperature of the walls.
    pub exchange: Option<Exchange>,
    /// Ways for heat past the cycle.
    pub paths: Option<HeatPaths>,
    /// Spaces in which gas is squeezed.
    pub springs: Vec<GasSpring>,
    /// Power of the heater \[W\]; `None` where it keeps the hot wall at its temperature.
    pub heater_w: Option<f64>,
    /// Highest that the hot wall may have \[K\].
    pub hot_limit_k: Option<f64>,
    /// Highest pressure allowed \[Pa\].
    pub pressure_limit_pa: Option<f64>,
    /// Displacer gap \[mm\].
    pub gap_mm: f64,
    /// Points of a turn; 180 is enough.
    pub points: usize,
}

fn cranked(motion: &Motion, factor: f64) -> Result<Motion, MechanismError> {
    Ok(match motion {
        Motion::Harmonic { throw_mm } => Motion::Harmonic { throw_mm: throw_mm * factor },
        Motion::SliderCrank(c) => Motion::SliderCrank(longer(c, factor)?),
        Motion::FromBelow(c) => Motion::FromBelow(longer(c, factor)?),
    })
}

fn longer(c: &SliderCrank, factor: f64) -> Result<SliderCrank, MechanismError> {
    SliderCrank::with_offset(c.throw_mm * factor, c.con_rod_mm, c.offset_mm)
}

impl IsothermalEngine {
    fn law(&self, change: &Change) -> Result<VolumeLaw, VerdictError> {
        let less = change.dead_volume;
        let displacer = Displacer {
            motion: cranked(&self.displacer.motion, change.displacer_stroke)?,
            hot_clearance_m3: self.displacer.hot_clearance_m3 * less,
            cold_clearance_m3: self.displacer.cold_clearance_m3 * less,
            ..self.displacer
        };
        let piston = Piston {
            motion: cranked(&self.piston.motion, change.piston_stroke)?,
            clearance_m3: self.piston.clearance_m3 * less,
            ..self.piston
        };
        let factor = |name: &str| if name == GAP { change.gap } else { less };
        let dead =
            self.dead.iter().map(|d| DeadVolume { volume_m3: d.volume_m3 * factor(&d.name), ..d.clone() });
        let lead = self.mechanism.lead_deg + change.lead_deg;
        Ok(VolumeLaw::new(Arrangement::Gamma { displacer, piston }, lead, dead.collect()))
    }

    fn mechanism(&self, change: &Change) -> Result<Mechanism, VerdictError> {
        let mut m = self.mechanism;
        m.lead_deg += change.lead_deg;
        m.piston.crank = longer(&m.piston.crank, change.piston_stroke)?;
        m.displacer.crank = longer(&m.displacer.crank, change.displacer_stroke)?;
        if let Some(belt) = &mut m.belt {
            belt.strand_n *= change.belt_tension;
        }
        Ok(m)
    }

    fn changed<'a>(&'a self, change: &'a Change) -> Result<Changed<'a>, VerdictError> {
        let law = self.law(change)?;
        let gas = Gas {
            r_j_kg_k: self.gas.r_j_kg_k,
            charge_pa: self.charge_pa * change.charge,
            buffer_pa: self.buffer_pa * change.charge,
            leak_kg_s_pa: self.leak_kg_s_pa * change.leak,
        };
        let exchange = self.exchange.map(|e| Exchange {
            hot_w_k: e.hot_w_k * change.heat_transfer,
            cold_w_k: e.cold_w_k * change.heat_transfer,
            gap_mm: e.gap_mm * change.gap / change.heat_transfer,
            ..e
        });
        let changed = Changed {
            engine: self,
            change,
            grid: Grid::of(&law, self.points),
            law,
            mechanism: self.mechanism(change)?,
            gas,
            exchange,
        };
        changed.input().check()?;
        Ok(changed)
    }
}

impl NetWork for IsothermalEngine {
    fn at(&self, speed_rpm: f64, change: &Change) -> Result<WorkBreakdown, VerdictError> {
        if !(speed_rpm > 0.0 && speed_rpm.is_finite()) {
            return Err(VerdictError::NotPositive { what: "speed", value: speed_rpm });
        }
        self.changed(change)?.breakdown(speed_rpm)
    }

    fn facts(&self, change: &Change) -> Facts {
        let changed = self.changed(change).ok();
        let travel = |c: &Changed<'_>| {
            // the mass does not matter for the way, only for where it lies
            FreeTravel::of(&c.input(), 1e-4, c.gas.buffer_pa).ok().map(|t| t.travel_mm)
        };
        let still = self.dead.iter().filter(|d| d.name != GAP).map(|d| d.volume_m3).sum::<f64>();
        let clear =
            self.displacer.hot_clearance_m3 + self.displacer.cold_clearance_m3 + self.piston.clearance_m3;
        Facts {
            piston_stroke_mm: self.piston.motion.stroke_mm() * change.piston_stroke,
            displacer_stroke_mm: self.displacer.motion.stroke_mm() * change.displacer_stroke,
            free_travel_mm: changed.as_ref().and_then(travel),
            gap_mm: Some(self.gap_mm * change.gap),
            dead_cm3: 1e6 * (still + clear) * change.dead_volume,
            displacer_cm3: 1e6 * self.displacer.hot_swept_m3() * change.displacer_stroke,
            hot_k: self.hot_k + change.hot_k,
            hot_limit_k: self.hot_limit_k,
            cold_k: self.cold_k + change.cold_k,
            pressure_limit_pa: self.pressure_limit_pa,
            has_belt: self.mechanism.belt.is_some(),
        }
    }
}

#[cfg(test)]
#[path = "isothermal_tests.rs"]
mod tests;
