//! The verdict's full model: gas path in cells, named heat losses and the drive, all from the sized engine.
//!
//! A change is made to the engine's own numbers and everything is worked out anew from them, as sizing would: a
//! longer displacer stroke shortens the displacer, a wider gap makes it thinner. Flow friction is taken off the work
//! evenly over the turn. Heat losses are named and added to the heat to supply. The walls keep their temperatures; where
//! the heater's power is known, the hot wall is as hot as that power can keep it.

use super::build::{Surroundings, paths};
use super::change::Change;
use super::cycle_turn::CycleTurn;
use super::heat_paths::Ends;
use super::net_work::{Facts, HeatBalance, NetWork, VerdictError, WorkBreakdown};
use super::search::root;
use crate::sizing::cycle::free_travel::FreeTravel;
use crate::sizing::cycle::full::Full;
use crate::sizing::cycle::path::{Buffer, Factors, GasPath};
use crate::sizing::cycle::{Charge, CycleModel, CycleResult};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::{Conditions, gas_path, mechanism, one_crankpin, volume_law};
use crate::sizing::mechanism::Mechanism;
use crate::sizing::volumes::Arrangement;

/// Name of the dead volume that is the displacer's gap.
const GAP: &str = "displacer gap";
/// Points of the loop that the drive sees.
const POINTS: usize = 180;

/// A sized engine before the full model.
#[derive(Clone, Debug)]
pub struct FullEngine {
    /// The engine as sized.
    pub engine: Engine,
    /// What it works in.
    pub surroundings: Surroundings,
    /// How finely and how long the model works.
    pub model: Full,
}

impl FullEngine {
    /// The engine with its changes made.
    fn changed(&self, change: &Change) -> Engine {
        let mut e = self.engine.clone();
        e.drive.lead_deg += change.lead_deg;
        [e.hot_cap.temperature_k, e.cold.temperature_k] =
            change.walls_k([e.hot_cap.temperature_k, e.cold.temperature_k]);
        let longer = e.displacer.stroke_mm * (change.displacer_stroke - 1.0);
        e.displacer.stroke_mm += longer;
        e.displacer.length_mm -= longer;
        e.drive.displacer.throw_mm *= change.displacer_stroke;
        if one_crankpin(&e) {
            // the stroke is the displacer's: as much more or less is swept by another bore
            let wider = e.piston.bore_mm * (change.piston_stroke.sqrt() - 1.0);
            e.piston.bore_mm += wider;
            e.piston.diameter_mm += wider;
        } else {
            e.piston.stroke_mm *= change.piston_stroke;
            e.drive.piston.throw_mm *= change.piston_stroke;
        }
        e.displacer.gap_mm *= change.gap;
        let d = &mut e.displacer;
        let sleeve = d.regenerator.as_ref().map_or(0.0, |r| r.thickness_mm);
        d.diameter_mm = d.bore_mm - 2.0 * (d.gap_mm + sleeve);
        if let Some(r) = &mut d.regenerator {
            r.refit(d.diameter_mm, d.gap_mm, longer);
        }
        e.displacer.hot_clearance_mm *= change.dead_volume;
        e.displacer.cold_clearance_mm *= change.dead_volume;
        e.piston.top_clearance_mm *= change.dead_volume;
        e
    }

    /// The gas path at a speed, nothing changed.
    ///
    /// # Errors
    /// [`VerdictError::Mechanism`].
    pub fn gas_path(&self, speed_rpm: f64) -> Result<GasPath, VerdictError> {
        self.gas_path_with(speed_rpm, &Change::NONE)
    }

    /// The gas path at a speed of the changed engine.
    ///
    /// # Errors
    /// [`VerdictError::Mechanism`].
    pub fn gas_path_with(&self, speed_rpm: f64, change: &Change) -> Result<GasPath, VerdictError> {
        self.path(&self.changed(change), speed_rpm, change)
    }

    fn path(&self, e: &Engine, speed_rpm: f64, change: &Change) -> Result<GasPath, VerdictError> {
        let s = &self.surroundings;
        let factors = Factors {
            heat_transfer: change.heat_transfer,
            end_heat_transfer: change.heat_transfer * change.end_heat_transfer,
            friction: change.flow_friction,
            leak: change.leak,
        };
        let run = Conditions {
            gas: s.gas,
            speed_rpm,
            charge: Charge::MeanPressure(s.charge_pa * change.charge),
            buffer: Buffer { pressure_pa: s.buffer_pa * change.charge, temperature_k: e.cold.temperature_k },
            factors,
        };
        Ok(gas_path(e, run)?)
    }

    fn mechanism(&self, e: &Engine, change: &Change) -> Result<Mechanism, VerdictError> {
        let mut m = mechanism(e, &self.surroundings.choices)?;
        if let Some(belt) = &mut m.belt {
            belt.strand_n *= change.belt_tension;
        }
        Ok(m)
    }

    /// Heat past the cycle and heat to supply in all \[W\].
    fn heat(&self, e: &Engine, cycle: &CycleResult, speed_rpm: f64, change: &Change) -> HeatBalance {
        let (hot_k, cold_k) = (e.hot_cap.temperature_k, e.cold.temperature_k);
        let swing = 0.5 * (cycle.pressure_max_pa - cycle.pressure_min_pa) / cycle.pressure_mean_pa;
        let ends = Ends { hot_k, cold_k, speed_rpm, swing };
        let losses = paths(e, &self.surroundings).losses(&ends, change);
        let gas_k = |cell: &str, wall: f64| cycle.detail.cell(cell).map_or(wall, |c| c.gas_mean_k);
        let cycle_w = cycle.heat_in_j * speed_rpm / 60.0;
        HeatBalance {
            hot_wall_k: hot_k,
            hot_gas_k: gas_k("hot space", hot_k),
            cold_gas_k: gas_k("cold space", cold_k),
            cycle_w,
            supply_w: cycle_w + losses.iter().map(|l| l.power_w).sum::<f64>(),
            losses,
        }
    }
}

impl FullEngine {
    /// One turn with the hot wall at its temperature, whatever heat that takes.
    fn unlimited(&self, speed_rpm: f64, change: &Change) -> Result<WorkBreakdown, VerdictError> {
        if !(speed_rpm > 0.0 && speed_rpm.is_finite()) {
            return Err(VerdictError::NotPositive { what: "speed", value: speed_rpm });
        }
        let e = self.changed(change);
        if e.displacer.length_mm <= 0.0 {
            return Err(VerdictError::NotPositive { what: "displacer length", value: e.displacer.length_mm });
        }
        let path = self.path(&e, speed_rpm, change)?;
        let law = path.law();
        let cycle = self.model.solve(&path.input(&law, POINTS))?;
        // flow friction is no part of the loop: it is taken off evenly, as hysteresis is, and told by its own name
        let flow_j = cycle.detail.friction_j();
        let mut turn = CycleTurn::of_result(&cycle, path.buffer.pressure_pa, speed_rpm);
        turn.hysteresis_j = flow_j;
        turn.heat = self.heat(&e, &cycle, speed_rpm, change);
        let work = turn.breakdown(&self.mechanism(&e, change)?, speed_rpm, &change.friction)?;
        Ok(WorkBreakdown { flow_j, hysteresis_j: 0.0, ..work })
    }
}

impl NetWork for FullEngine {
    fn at(&self, speed_rpm: f64, change: &Change) -> Result<WorkBreakdown, VerdictError> {
        let full = self.unlimited(speed_rpm, change)?;
        let heater_w = self.surroundings.heater_w.map(|w| w * change.heater);
        let Some(heater_w) = heater_w.filter(|w| full.heat.supply_w > *w) else { return Ok(full) };
        let cooler = |less_k: f64| Change { hot_k: change.hot_k - less_k, ..*change };
        let over_w =
            |less_k: f64| Some(self.unlimited(speed_rpm, &cooler(less_k)).ok()?.heat.supply_w - heater_w);
        // with no fall of temperature nothing is taken in
        let fall_k = full.heat.hot_wall_k - self.engine.cold.temperature_k - change.cold_k;
        let ends = [(0.0, full.heat.supply_w - heater_w), (fall_k, -heater_w)];
        let less_k = root(ends, 1e-3, over_w)
            .ok_or_else(|| VerdictError::Model("the heater is too weak for any answer".into()))?;
        self.unlimited(speed_rpm, &cooler(less_k))
    }

    fn facts(&self, change: &Change) -> Facts {
        let e = self.changed(change);
        let s = &self.surroundings;
        let law = volume_law(&e).ok();
        let travel = self.path(&e, 60.0, change).ok().and_then(|path| {
            let law = path.law();
            FreeTravel::of(&path.input(&law, 16), 1e-4, path.buffer.pressure_pa).ok()
        });
        let still = law
            .as_ref()
            .map_or(0.0, |l| l.dead().iter().filter(|d| d.name != GAP).map(|d| d.volume_m3).sum());
        let (clear, swept) = match law.as_ref().map(|l| *l.arrangement()) {
            Some(Arrangement::Gamma { displacer: d, piston: p }) => {
                (d.hot_clearance_m3 + d.cold_clearance_m3 + p.clearance_m3, d.hot_swept_m3())
            }
            Some(Arrangement::Beta { displacer: d, .. }) => {
                (law.as_ref().map_or(0.0, |l| l.least().moving_m3()), d.hot_swept_m3())
            }
            _ => (0.0, 0.0),
        };
        Facts {
            piston_stroke_mm: e.piston.stroke_mm,
            displacer_stroke_mm: e.displacer.stroke_mm,
            tied_bore_mm: one_crankpin(&e).then_some(e.piston.bore_mm),
            free_travel_mm: travel.map(|t| t.travel_mm),
            gap_mm: Some(e.displacer.gap_mm),
            dead_cm3: 1e6 * (still + clear),
            displacer_cm3: 1e6 * swept,
            hot_k: e.hot_cap.temperature_k,
            hot_limit_k: s.hot_limit_k,
            heater_w: s.heater_w,
            cold_k: e.cold.temperature_k,
            pressure_limit_pa: s.pressure_limit_pa,
            has_belt: self.mechanism(&e, change).is_ok_and(|m| m.belt.is_some()),
        }
    }
}

#[cfg(test)]
#[path = "full_tests.rs"]
mod tests;
