//! Gas spaces of the engine as built: what the strokes sweep and what stays dead.

use crate::sizing::engine::Engine;
use crate::sizing::mechanism::MechanismError;
use crate::sizing::mechanism::{Motion, SliderCrank};
use crate::sizing::regenerator::Annulus;
use crate::sizing::volumes::{Arrangement, DeadVolume, Displacer, Piston, VolumeLaw, Zone, circle_mm2};

/// One cubic millimetre \[m³\].
const M3_PER_MM3: f64 = 1e-9;

/// What a gasket \[mm\] leaves open around a bore \[mm\]: its opening stands back by 0.5 mm on the radius \[mm³\].
pub fn gasket_step_mm3(bore: f64, gasket: f64) -> f64 {
    (circle_mm2(bore + 1.0) - circle_mm2(bore)) * gasket
}

/// Dead volumes that no stroke reaches, by name; `port` \[mm³\] is the passage between the cylinders.
fn dead(e: &Engine, port: f64) -> Vec<DeadVolume> {
    let (d, p, j) = (&e.displacer, &e.piston, &e.joints);
    let one =
        |name: &str, mm3: f64, zone| DeadVolume { name: name.into(), volume_m3: mm3 * M3_PER_MM3, zone };
    let metal = d.regenerator.as_ref().map_or(0.0, Annulus::metal_mm3);
    let gap = (circle_mm2(d.bore_mm) - circle_mm2(d.diameter_mm)) * d.length_mm - metal;
    let ring_room = (circle_mm2(p.bore_mm) - circle_mm2(p.diameter_mm)) * p.top_land_mm;
    vec![
        one("displacer gap", gap, Zone::Between),
        one("hot gasket step", gasket_step_mm3(d.bore_mm, j.hot_gasket_mm), Zone::Between),
        one("cold gasket step", gasket_step_mm3(d.bore_mm, j.cold_gap_mm), Zone::Cold),
        one("transfer port", port, Zone::Cold),
        one("power gasket step", gasket_step_mm3(p.bore_mm, j.cold_gap_mm), Zone::Cold),
        one("land above the first ring", ring_room, Zone::Cold),
    ]
}

/// The volumes of a gamma engine over the turn, with the exact motion of both cranks; `port` \[mm³\] is the passage
/// between the cylinders.
///
/// # Errors
/// When a con rod is too short to turn.
pub fn gamma_law(e: &Engine, port: f64) -> Result<VolumeLaw, MechanismError> {
    let (d, p) = (&e.displacer, &e.piston);
    let motion = |throw: f64| SliderCrank::new(throw, e.drive.con_rod_mm).map(Motion::SliderCrank);
    let bore = circle_mm2(d.bore_mm);
    let cold = bore - circle_mm2(d.rod_mm);
    let displacer = Displacer {
        motion: motion(e.drive.displacer.throw_mm)?,
        hot_area_mm2: bore,
        cold_area_mm2: cold,
        hot_clearance_m3: bore * d.hot_clearance_mm * M3_PER_MM3,
        cold_clearance_m3: cold * d.cold_clearance_mm * M3_PER_MM3,
    };
    let area = circle_mm2(p.bore_mm);
    let piston = Piston {
        motion: motion(e.drive.piston.throw_mm)?,
        area_mm2: area,
        clearance_m3: area * p.top_clearance_mm * M3_PER_MM3,
    };
    Ok(VolumeLaw::new(Arrangement::Gamma { displacer, piston }, e.drive.lead_deg, dead(e, port)))
}
