//! The verdict's first model: isothermal gas with leakage, lumped heat transfer, named losses and the drive.
//!
//! Everything but the flow's friction. Gas temperatures are those the walls can keep up (see `exchange`); without
//! `exchange` the gas has the temperature of the walls. Heat losses load the heater: where its power is given, the hot
//! wall is as hot as that power can keep it. Hysteresis of the gas springs is taken off the work evenly over the turn.

use super::change::Change;
use super::cycle_turn::CycleTurn;
use super::exchange::{Exchange, Flow};
use super::heat_paths::{Ends, HeatPaths, loss};
use super::leaky::{Gas, Grid, Turn};
use super::net_work::{Facts, HeatBalance, NetWork, VerdictError, WorkBreakdown};
use crate::catalogue::gases;
use crate::sizing::cycle::free_travel::FreeTravel;
use crate::sizing::cycle::{Charge, CycleInput, MeanTemperature, Temperatures};
use crate::sizing::losses::gas_spring::GasSpring;
use crate::sizing::mechanism::{GasLoop, Mechanism, MechanismError, Motion, SliderCrank};
use crate::sizing::volumes::{Arrangement, DeadVolume, Displacer, Piston, VolumeLaw};

/// Name of the dead volume that is the displacer's gap.
pub const GAP: &str = "displacer gap";
/// Change of the gas temperatures that counts as settled \[K\].
const SETTLED_K: f64 = 0.01;
/// Steps after which to give up.
const MOST_STEPS: usize = 400;

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
    pub gas: &'static gases::Gas,
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

/// The engine with its changes made.
struct Changed<'a> {
    engine: &'a IsothermalEngine,
    change: &'a Change,
    law: VolumeLaw,
    grid: Grid,
    mechanism: Mechanism,
    gas: Gas,
    exchange: Option<Exchange>,
}

/// Gas in steady state at one speed and wall temperature.
struct Steady {
    turn: Turn,
    temperatures: Temperatures,
    dead_m3_k: f64,
    past_w: f64,
}

fn cranked(motion: &Motion, factor: f64) -> Result<Motion, MechanismError> {
    Ok(match motion {
        Motion::Harmonic { throw_mm } => Motion::Harmonic { throw_mm: throw_mm * factor },
        Motion::SliderCrank(c) => Motion::SliderCrank(longer(c, factor)?),
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

impl Changed<'_> {
    fn walls_k(&self) -> [f64; 2] {
        [self.engine.hot_k + self.change.hot_k, self.engine.cold_k + self.change.cold_k]
    }

    fn at_k(&self, hot_k: f64, cold_k: f64) -> Temperatures {
        Temperatures { hot_k, cold_k, mean: MeanTemperature::Logarithmic }
    }

    fn input(&self) -> CycleInput<'_> {
        let [hot_k, cold_k] = self.walls_k();
        CycleInput {
            volumes: &self.law,
            temperatures: self.at_k(hot_k, cold_k),
            gas_constant_j_kg_k: self.gas.r_j_kg_k,
            charge: Charge::MeanPressure(self.gas.charge_pa),
            points: self.engine.points,
        }
    }

    fn solve(&self, t: &Temperatures, speed_rpm: f64) -> (Turn, f64) {
        let dead_m3_k = self.law.dead().iter().map(|d| d.volume_m3 / t.of_k(d.zone)).sum();
        (self.grid.solve(&self.gas, t, dead_m3_k, speed_rpm), dead_m3_k)
    }

    /// Gas between walls at these temperatures \[K\].
    fn steady(&self, walls_k: [f64; 2], speed_rpm: f64) -> Result<Steady, VerdictError> {
        let (mut t, per_second) = (self.at_k(walls_k[0], walls_k[1]), speed_rpm / 60.0);
        let (mut damping, mut last_off, mut past_w) = (1.0_f64, f64::INFINITY, 0.0);
        for _ in 0..MOST_STEPS {
            let (turn, dead_m3_k) = self.solve(&t, speed_rpm);
            let Some(exchange) = self.exchange else {
                return Ok(Steady { turn, temperatures: t, dead_m3_k, past_w });
            };
            let past = exchange.past_w_k(&self.flow(&t, &turn, per_second));
            past_w = past * (t.hot_k - t.cold_k);
            let heats = [turn.hot_j * per_second, -turn.cold_j * per_second];
            let [hot, cold] = exchange.gas_k(walls_k, heats, past, t.hot_k);
            let off = (hot - t.hot_k).abs().max((cold - t.cold_k).abs());
            if off < SETTLED_K {
                return Ok(Steady { turn, temperatures: t, dead_m3_k, past_w });
            }
            if off > 0.9 * last_off {
                damping = (0.5 * damping).max(0.02);
            }
            last_off = off;
            t.hot_k = (t.hot_k + damping * (hot - t.hot_k)).max(0.2 * walls_k[0]);
            t.cold_k = (t.cold_k + damping * (cold - t.cold_k)).max(0.2 * walls_k[1]);
        }
        Err(VerdictError::NotSettled { speed_rpm, off_k: last_off })
    }

    fn flow(&self, t: &Temperatures, turn: &Turn, per_second: f64) -> Flow {
        let between = t.between_k();
        let swept = self.law.swept_m3()[0].1;
        let gas = self.engine.gas;
        Flow {
            blow_kg: turn.pressures_pa()[0] * swept / (gas.r_j_kg_k * between),
            per_second,
            cp_j_kg_k: gas.cp_j_kg_k(between),
            gas_w_m_k: gas.conductivity_w_m_k(between),
        }
    }

    /// Heat past the cycle and heat to supply in all \[W\].
    fn heat(&self, steady: &Steady, walls_k: [f64; 2], speed_rpm: f64) -> HeatBalance {
        let [mean, least, most] = steady.turn.pressures_pa();
        let ends =
            Ends { hot_k: walls_k[0], cold_k: walls_k[1], speed_rpm, swing: 0.5 * (most - least) / mean };
        let mut losses = self.engine.paths.map_or_else(Vec::new, |p| p.losses(&ends, self.change));
        if self.exchange.is_some() {
            losses.push(loss("heat that the gap does not give back", steady.past_w));
        }
        let cycle_w = steady.turn.hot_j * speed_rpm / 60.0;
        HeatBalance {
            hot_wall_k: walls_k[0],
            hot_gas_k: steady.temperatures.hot_k,
            cold_gas_k: steady.temperatures.cold_k,
            cycle_w,
            supply_w: cycle_w + losses.iter().map(|l| l.power_w).sum::<f64>(),
            losses,
        }
    }

    /// Gas and heat with the hot wall as hot as the heater can keep it.
    fn heated(&self, speed_rpm: f64) -> Result<(Steady, HeatBalance), VerdictError> {
        let at = |hot_k: f64| {
            let walls = [hot_k, self.walls_k()[1]];
            let steady = self.steady(walls, speed_rpm)?;
            let heat = self.heat(&steady, walls, speed_rpm);
            Ok::<_, VerdictError>((steady, heat))
        };
        let [hot_k, cold_k] = self.walls_k();
        let full = at(hot_k)?;
        let Some(heater_w) = self.engine.heater_w.filter(|w| full.1.supply_w > *w) else { return Ok(full) };
        let (mut low, mut high) = (cold_k, hot_k);
        for _ in 0..24 {
            let middle = 0.5 * (low + high);
            if at(middle)?.1.supply_w > heater_w { high = middle } else { low = middle }
        }
        at(low)
    }

    /// Work that the gas springs keep \[J\].
    fn hysteresis_j(&self, turn: &Turn, speed_rpm: f64) -> f64 {
        let [mean, least, most] = turn.pressures_pa();
        let lost = |s: &GasSpring| s.work_j(speed_rpm, mean, 0.5 * (most - least));
        self.engine.springs.iter().map(lost).sum()
    }

    fn breakdown(&self, speed_rpm: f64) -> Result<WorkBreakdown, VerdictError> {
        let (steady, heat) = self.heated(speed_rpm)?;
        let turn = &steady.turn;
        let tight = Gas { leak_kg_s_pa: 0.0, charge_pa: turn.pressures_pa()[0], ..self.gas };
        let tight_j = self.grid.solve(&tight, &steady.temperatures, steady.dead_m3_k, speed_rpm).work_j();
        let turn = CycleTurn {
            volume_m3: self.grid.volumes_m3(),
            gas: GasLoop {
                pressure_pa: turn.pressure_pa.clone(),
                drop_pa: Vec::new(),
                buffer_pa: self.gas.buffer_pa,
            },
            leak_j: tight_j - turn.work_j(),
            flow_j: 0.0,
            hysteresis_j: self.hysteresis_j(turn, speed_rpm),
            heat,
        };
        turn.breakdown(&self.mechanism, speed_rpm, &self.change.friction)
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
