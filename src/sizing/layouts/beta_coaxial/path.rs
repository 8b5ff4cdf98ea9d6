//! Gas spaces of the engine as built, and the way of the gas: hot space, heater gap, regenerator, cooler, cold space.
//!
//! Displacer and piston share one cylinder line: the cold space is what lies between them. Where the crown rises above
//! the power cylinder's upper end by h, the strokes overlap by h times the piston's area without the rod. Land and
//! widened bore around the crown are told apart from it, so that the sum of all spaces is that of the parts.

use super::meet::crown_mm;
use super::{BetaCoaxial, Cooler};
use crate::sizing::cycle::path::{EndSpace, Exchanger, GasPath, Place, Walls};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::Conditions;
use crate::sizing::layouts::common::path::leaks;
use crate::sizing::layouts::common::spaces::gasket_step_mm3;
use crate::sizing::mechanism::{MechanismError, Motion, SliderCrank};
use crate::sizing::volumes::{
    Arrangement, DeadVolume, Displacer, Overlap, Piston, VolumeLaw, Zone, circle_mm2,
};
use std::f64::consts::PI;

/// One cubic millimetre \[m³\].
const M3_PER_MM3: f64 = 1e-9;

fn ring_mm2(outer: f64, inner: f64) -> f64 {
    circle_mm2(outer) - circle_mm2(inner)
}

/// Length of a gas hole in the cooler \[mm\].
pub fn hole_length_mm(e: &Engine, c: &Cooler) -> f64 {
    e.cold.length_mm - c.manifold_mm[1]
}

/// Gas holes, recess and widened bore of the cooler, without its bore \[mm³\].
pub fn cooler_mm3(e: &Engine, c: &Cooler) -> f64 {
    holes_mm3(e, c) + manifold_mm3(e, c)
}

fn holes_mm3(e: &Engine, c: &Cooler) -> f64 {
    c.holes.0 as f64 * circle_mm2(c.holes.1) * hole_length_mm(e, c)
}

fn manifold_mm3(e: &Engine, c: &Cooler) -> f64 {
    let bore = e.displacer.bore_mm;
    ring_mm2(c.manifold_mm[0], bore) * c.manifold_mm[1]
        + ring_mm2(c.belt_mm[0], bore) * (c.belt_mm[1] - c.manifold_mm[1])
}

/// Way from the hot space over the liner's end, and what is wider than the heater gap at its lower end \[mm³\].
fn turn_mm3(e: &Engine, own: &BetaCoaxial) -> f64 {
    ring_mm2(e.hot_cap.bore_mm, e.displacer.bore_mm) * own.head.turn_mm
}

/// The heater: annulus between hot cap and liner, warmed by the cap alone.
fn heater(e: &Engine, own: &BetaCoaxial) -> Exchanger {
    let (head, hot_k) = (&own.head, e.hot_cap.temperature_k);
    let [bore, gap, length] =
        [e.hot_cap.bore_mm, head.heater_gap_mm, head.heater_mm - head.turn_mm].map(|mm| mm / 1000.0);
    let walls = Walls::Fixed { hot_k, cold_k: hot_k };
    Exchanger {
        wetted_m2: PI * bore * length,
        ..Exchanger::annular_gap("heater", Zone::Hot, bore, gap, length, walls)
    }
}

/// Share of the gas that goes past all exchangers through the displacer's gap in slow flow, against the regenerator
/// alone, which holds most of the resistance: pressure gradients of a slot (f Re = 96) as in [`Annulus::bypass`].
///
/// [`Annulus::bypass`]: crate::sizing::regenerator::Annulus::bypass
pub fn past_displacer(e: &Engine, own: &BetaCoaxial) -> f64 {
    let (d, r) = (&e.displacer, &own.head.regenerator);
    let gap = ring_mm2(d.bore_mm, d.diameter_mm) * (2.0 * d.gap_mm).powi(2) / 96.0 / d.length_mm;
    let through = r.conductance_mm4() / r.length_mm;
    gap / (gap + through)
}

/// Heater, regenerator with the displacer's gap beside it, cooler.
fn exchangers(e: &Engine, own: &BetaCoaxial) -> [Exchanger; 3] {
    let (d, head, c) = (&e.displacer, &own.head, &own.cooler);
    let (hot_k, cold_k) = (e.hot_cap.temperature_k, e.cold.temperature_k);
    let matrix = head.regenerator.exchanger([hot_k, cold_k]);
    let plenums = ring_mm2(head.low_bore_mm[0], head.liner_mm) * 2.0 * head.plenum_mm;
    let gap = ring_mm2(d.bore_mm, d.diameter_mm) * d.length_mm;
    let gasket = ring_mm2(head.low_bore_mm[0] + 1.0, head.liner_mm) * e.joints.hot_gasket_mm;
    let [hole, length] = [c.holes.1, hole_length_mm(e, c)].map(|mm| mm / 1000.0);
    let walls = Walls::Fixed { hot_k: cold_k, cold_k };
    let all = [
        heater(e, own),
        Exchanger { volume_m3: matrix.volume_m3 + (plenums + gap + gasket) * M3_PER_MM3, ..matrix },
        Exchanger::tubes("cooler", Zone::Cold, c.holes.0 as f64, hole, length, walls),
    ];
    let share = 1.0 - past_displacer(e, own);
    all.map(|x| Exchanger { flow_area_m2: x.flow_area_m2 / share, ..x })
}

/// Volume of the cold space that stays: recess and widened bore, gasket's step, land above the first ring \[m³\].
fn cold_dead_m3(e: &Engine, own: &BetaCoaxial) -> f64 {
    let p = &e.piston;
    let step = gasket_step_mm3(own.cooler.manifold_mm[0], e.joints.gasket_mm)
        + ring_mm2(own.cooler.manifold_mm[0], e.displacer.bore_mm) * e.joints.gasket_mm;
    let land = ring_mm2(p.bore_mm, p.diameter_mm) * p.top_land_mm;
    (manifold_mm3(e, &own.cooler) + step + land) * M3_PER_MM3
}

/// Displacer and piston over each other.
fn arrangement(e: &Engine) -> Result<Arrangement, MechanismError> {
    let (d, p) = (&e.displacer, &e.piston);
    let motion = |throw: f64| SliderCrank::new(throw, e.drive.con_rod_mm).map(Motion::SliderCrank);
    let rod = circle_mm2(d.rod_mm);
    let (bore, crown) = (circle_mm2(d.bore_mm), circle_mm2(p.bore_mm) - rod);
    Ok(Arrangement::Beta {
        displacer: Displacer {
            motion: motion(e.drive.displacer.throw_mm)?,
            hot_area_mm2: bore,
            cold_area_mm2: bore - rod,
            hot_clearance_m3: bore * d.hot_clearance_mm * M3_PER_MM3,
            cold_clearance_m3: (bore - rod) * d.cold_clearance_mm * M3_PER_MM3,
        },
        piston: Piston { motion: motion(e.drive.piston.throw_mm)?, area_mm2: crown, clearance_m3: 0.0 },
        overlap: Overlap::Volume(crown * crown_mm(e)? * M3_PER_MM3),
    })
}

/// The volumes over the turn.
///
/// # Errors
/// When a con rod is too short to turn.
pub fn law(e: &Engine, own: &BetaCoaxial) -> Result<VolumeLaw, MechanismError> {
    let one = |name: &str, volume_m3: f64, zone| DeadVolume { name: name.into(), volume_m3, zone };
    let mut dead = vec![one("turn over the liner", turn_mm3(e, own) * M3_PER_MM3, Zone::Hot)];
    dead.extend(exchangers(e, own).map(|x| one(&x.name, x.volume_m3, x.zone)));
    dead.push(one("cold recess and land", cold_dead_m3(e, own), Zone::Cold));
    Ok(VolumeLaw::new(arrangement(e)?, e.drive.lead_deg, dead))
}

/// The gas path, for the full model of the cycle.
///
/// # Errors
/// When a con rod is too short to turn.
pub fn gas_path(e: &Engine, own: &BetaCoaxial, run: Conditions) -> Result<GasPath, MechanismError> {
    let bore_m = e.displacer.bore_mm / 1000.0;
    let space = |name: &str, wall, dead_m3| EndSpace { dead_m3, ..EndSpace::plain(name, bore_m, wall) };
    Ok(GasPath {
        arrangement: arrangement(e)?,
        lead_deg: e.drive.lead_deg,
        hot: space("hot space", e.hot_cap.temperature_k, turn_mm3(e, own) * M3_PER_MM3),
        exchangers: exchangers(e, own).to_vec(),
        cold: space("cold space", e.cold.temperature_k, cold_dead_m3(e, own)),
        port: Vec::new(),
        power: None,
        leaks: leaks(e, Place::Cold),
        buffer: run.buffer,
        gas: run.gas,
        speed_rpm: run.speed_rpm,
        charge: run.charge,
        factors: run.factors,
    })
}
