//! The drive: one shaft with a crank at either end, rods in bushes.

use super::Flat;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::common::guides::{guided_displacer, hanging_piston};
use crate::sizing::losses::windage::Disc;
use crate::sizing::mechanism::build::{displacer_line, journals, piston_line};
use crate::sizing::mechanism::masses::hung;
use crate::sizing::mechanism::{Choices, Line, Mechanism, MechanismError, masses};

/// The drive of an engine, which stands on its hot end. Both lines load the same two bearings: their loads are added as
/// they are, to the safe side.
///
/// # Errors
/// [`MechanismError`] where a con rod is too short to turn.
pub fn mechanism(e: &Engine, own: &Flat, choices: &Choices) -> Result<Mechanism, MechanismError> {
    let (m, d, plate_mm) = (masses(e), &e.drive, own.cooler.thickness_mm);
    let (front, half) = (own.bracket.front_y_mm, 0.5 * d.journal_bearing.width_mm);
    let mut near = journals(e, hung(e).kg + 2.0 * m.web_kg);
    near.overhang_mm = own.centres_mm - (front + d.bracket_mm - half);
    let mut far = journals(e, 0.0);
    far.overhang_mm = front + half;
    far.drag_counted = true;
    let upside_down = |line: Line| Line { gravity: -1.0, ..line };
    let longest = d.piston.throw_mm.max(d.displacer.throw_mm);
    let piston = hanging_piston(e, &own.heights, plate_mm, choices);
    let displacer = guided_displacer(e, &own.guide, plate_mm, choices);
    Ok(Mechanism {
        piston: upside_down(piston_line(e, &m, piston, near, choices)?),
        displacer: upside_down(displacer_line(e, &m, displacer, far, choices)?),
        lead_deg: d.lead_deg,
        belt: None,
        shaft_seal: None,
        turning_kg_m2: hung(e).kg_m2 + 2.0 * m.web_kg_m2,
        discs: [Disc::in_room(0.5 * e.flywheel.diameter_mm), Disc::in_room(longest + own.shaft.crank_r_mm)],
    })
}
