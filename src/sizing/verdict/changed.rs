//! One engine with its changes made: gas temperatures in steady state, heat, work.

use super::change::Change;
use super::cycle_turn::CycleTurn;
use super::exchange::{Exchange, Flow};
use super::heat_paths::{Ends, loss};
use super::isothermal::IsothermalEngine;
use super::leaky::{Gas, Grid, Turn};
use super::net_work::{HeatBalance, VerdictError, WorkBreakdown};
use crate::sizing::cycle::{Charge, CycleInput, MeanTemperature, Temperatures};
use crate::sizing::losses::gas_spring::GasSpring;
use crate::sizing::mechanism::{GasLoop, Mechanism};
use crate::sizing::volumes::VolumeLaw;

/// Change of the gas temperatures that counts as settled \[K\].
const SETTLED_K: f64 = 0.01;
/// Steps after which to give up.
const MOST_STEPS: usize = 400;

/// The engine with its changes made.
pub(super) struct Changed<'a> {
    /// The engine as it is.
    pub(super) engine: &'a IsothermalEngine,
    /// What is changed.
    pub(super) change: &'a Change,
    /// Volumes.
    pub(super) law: VolumeLaw,
    /// Volumes on the grid.
    pub(super) grid: Grid,
    /// The drive.
    pub(super) mechanism: Mechanism,
    /// Gas and leak.
    pub(super) gas: Gas,
    /// Heat transfer.
    pub(super) exchange: Option<Exchange>,
}

/// Gas in steady state at one speed and wall temperature.
struct Steady {
    turn: Turn,
    temperatures: Temperatures,
    dead_m3_k: f64,
    past_w: f64,
}

impl Changed<'_> {
    fn walls_k(&self) -> [f64; 2] {
        self.change.walls_k([self.engine.hot_k, self.engine.cold_k])
    }

    fn at_k(&self, hot_k: f64, cold_k: f64) -> Temperatures {
        Temperatures { hot_k, cold_k, mean: MeanTemperature::Logarithmic }
    }

    pub(super) fn input(&self) -> CycleInput<'_> {
        let [hot_k, cold_k] = self.walls_k();
        CycleInput {
            volumes: &self.law,
            temperatures: self.at_k(hot_k, cold_k),
            gas_constant_j_kg_k: self.gas.r_j_kg_k,
            heat_capacity_ratio: self.engine.gas.gamma(self.at_k(hot_k, cold_k).between_k()),
            path: None,
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

    pub(super) fn breakdown(&self, speed_rpm: f64) -> Result<WorkBreakdown, VerdictError> {
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
