//! The drive: one crankshaft between two bearings, the piston guided by its skirt, the displacer's rod in the piston.

use super::line::pin_below_crown_mm;
use super::{BetaCoaxial, Yoke};
use crate::design::ROOM_PA;
use crate::sizing::engine::Engine;
use crate::sizing::losses::bush::Bush;
use crate::sizing::losses::shaft_seal::ShaftSeal;
use crate::sizing::losses::windage::Disc;
use crate::sizing::mechanism::build::{displacer_line, journals, piston_line, ring_around, with_wheel};
use crate::sizing::mechanism::masses::{density, hung, kg};
use crate::sizing::mechanism::{
    Choices, Guide, Guides, Journals, Line, Mechanism, MechanismError, Riding, masses,
};
use crate::sizing::volumes::circle_mm2;

/// Yoke with its two pins \[kg\].
pub fn yoke_kg(e: &Engine, y: &Yoke) -> f64 {
    let legs = 2.0 * (y.half_mm - y.rod_y_mm + y.slot_mm / 2.0 + y.leg_mm - y.slot_mm);
    let block = y.width_mm * (2.0 * y.half_mm * y.bar_mm + legs * y.slot_depth_mm);
    let bore = circle_mm2(y.bush.housing_mm) * y.bar_mm;
    let pins = 2.0 * circle_mm2(e.clevis.pin_mm) * (y.slot_mm + 2.0 * y.leg_mm);
    kg(block - bore, density(e, &e.drive.material)) + kg(pins, density(e, "silver-steel"))
}

/// Webs and pins of the crankshaft \[kg\], and their inertia about its axis \[kg m²\].
fn crankshaft(e: &Engine, own: &BetaCoaxial) -> (f64, f64) {
    let (s, d) = (&own.shaft, &e.drive);
    let stuff = density(e, &d.material);
    let throw = 0.5 * (d.piston.throw_mm + d.displacer.throw_mm);
    let inner = (circle_mm2(2.0 * s.web_r_mm) + 2.0 * s.web_r_mm * s.pins_apart_mm) * s.webs_mm[0];
    let wide = d.web_r_mm[0] + d.web_r_mm[1];
    let outer = (0.5 * (circle_mm2(2.0 * d.web_r_mm[0]) + circle_mm2(2.0 * d.web_r_mm[1]))
        + wide * d.piston.throw_mm)
        * s.webs_mm[1];
    let pins = circle_mm2(d.crankpin_bearing.bore_mm) * 3.0 * (d.con_rod_thickness_mm + 2.0 * d.side_gap_mm);
    let out = 2.0 * inner + pins;
    let mass = kg(out + 2.0 * outer, stuff);
    // what stands out goes round at the throw; an outer web is a bar from its end
    let inertia = kg(out, stuff) * throw * throw + kg(2.0 * outer, stuff) * d.piston.throw_mm.powi(2) / 3.0;
    (mass, 1e-6 * inertia)
}

/// The skirt in its bore: from the last ring to its end, the pins below it.
fn piston_guides(e: &Engine, own: &BetaCoaxial, choices: &Choices) -> Guides {
    let p = &e.piston;
    let guide = Guide::Bush(Bush { friction: choices.skirt_friction });
    Guides {
        lower: guide,
        upper: guide,
        overhang_mm: pin_below_crown_mm(p, &own.yoke) - p.length_mm,
        span_mm: p.length_mm - p.top_land_mm,
        riding: Riding::OnSlider,
    }
}

/// The rod in the bushes of crown and yoke.
fn displacer_guides(e: &Engine, own: &BetaCoaxial, choices: &Choices) -> Guides {
    let (p, y) = (&e.piston, &own.yoke);
    let guide = Guide::Bush(Bush { friction: choices.bush_friction });
    let lower = own.heights.crown_mm - p.crown_mm - y.bar_mm + 0.5 * y.bush_length_mm;
    let upper = own.heights.crown_mm - 0.5 * e.gland.bush_length_mm;
    let small_end = e.drive.crank_z_mm + e.drive.con_rod_mm + e.drive.displacer.throw_mm;
    let skirt_end = own.heights.crown_mm - p.length_mm;
    Guides {
        lower: guide,
        upper: guide,
        overhang_mm: lower - small_end,
        span_mm: upper - lower,
        riding: Riding::OnOther { below_mm: skirt_end - small_end },
    }
}

/// The drive of an engine. The two con rods of the piston share its force; the displacer's load is added to that of the
/// piston's on both main bearings as it is, to the safe side.
///
/// # Errors
/// [`MechanismError`] where a con rod is too short to turn.
pub fn mechanism(e: &Engine, own: &BetaCoaxial, choices: &Choices) -> Result<Mechanism, MechanismError> {
    let (m, d) = (masses(e), &e.drive);
    let (crank_kg, crank_kg_m2) = crankshaft(e, own);
    let hub = own.shaft.reach_mm + own.shaft.shim_mm;
    let span_mm = 2.0 * hub + d.journal_bearing.width_mm;
    // the load lies between the bearings: no overhang
    let between = |steady_kg: f64| Journals { overhang_mm: 0.0, span_mm, ..journals(e, steady_kg) };
    let near = with_wheel(e, between(crank_kg), hub + d.journal_bearing.width_mm);
    let far = Journals { drag_counted: true, ..between(0.0) };
    let piston = piston_line(e, &m, piston_guides(e, own, choices), near, choices)?;
    let displacer = displacer_line(e, &m, displacer_guides(e, own, choices), far, choices)?;
    let rod = circle_mm2(e.displacer.rod_mm);
    let shaft = d.journal_bearing.bore_mm;
    Ok(Mechanism {
        piston: Line {
            pressed_mm2: piston.pressed_mm2 - rod,
            abreast: 2.0,
            con_rod_kg: 2.0 * m.con_rod_kg,
            ..piston
        },
        displacer,
        lead_deg: d.lead_deg,
        belt: None,
        shaft_seal: Some(ShaftSeal {
            ring: ring_around(shaft, own.case.seal.groove_mm[0], &own.case.seal.oring, choices),
            room_pa: ROOM_PA,
        }),
        turning_kg_m2: hung(e).kg_m2 + crank_kg_m2,
        discs: [
            Disc::in_room(0.5 * e.flywheel.diameter_mm),
            Disc::in_room(d.piston.throw_mm + d.web_r_mm[1]),
        ],
    })
}
