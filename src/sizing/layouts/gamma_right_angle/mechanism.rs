//! The drive: one overhung crank that carries both con rods, rods in bushes.

use super::RightAngle;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::common::guides::guided_displacer;
use crate::sizing::losses::bush::Bush;
use crate::sizing::losses::windage::Disc;
use crate::sizing::mechanism::build::{displacer_line, journals, journals_with_wheel, piston_line};
use crate::sizing::mechanism::masses::hung;
use crate::sizing::mechanism::{Choices, Guide, Guides, Line, Mechanism, MechanismError, Riding, masses};

/// Piston rod in the back plate's bush, the piston in its bore; distances from the crank axis along X.
fn piston_guides(e: &Engine, own: &RightAngle, choices: &Choices) -> Guides {
    let bush = own.places.back_x_mm + 0.5 * own.back.thickness_mm;
    let crown = own.places.head_x_mm - e.piston.top_clearance_mm;
    Guides {
        lower: Guide::Bush(Bush { friction: choices.bush_friction }),
        upper: Guide::Bush(Bush { friction: choices.skirt_friction }),
        overhang_mm: bush - (e.drive.con_rod_mm + e.drive.piston.throw_mm),
        span_mm: crown - 0.5 * e.piston.length_mm - bush,
        riding: Riding::UpperMoves,
    }
}

/// The drive of an engine. Both lines load the same two bearings: their loads are added as they are, to the safe side.
///
/// # Errors
/// [`MechanismError`] where a con rod is too short to turn.
pub fn mechanism(e: &Engine, own: &RightAngle, choices: &Choices) -> Result<Mechanism, MechanismError> {
    let (m, d) = (masses(e), &e.drive);
    let near = journals_with_wheel(e, m.web_kg, own.bracket.front_y_mm + d.bracket_mm);
    let mut far = journals(e, 0.0);
    far.overhang_mm += own.places.piston_y_mm;
    far.drag_counted = true;
    let piston = piston_line(e, &m, piston_guides(e, own, choices), near, choices)?;
    Ok(Mechanism {
        piston: Line { gravity: 0.0, ..piston },
        displacer: displacer_line(
            e,
            &m,
            guided_displacer(e, &own.guide, own.plate_mm, choices),
            far,
            choices,
        )?,
        lead_deg: d.lead_deg,
        shaft_seal: None,
        belt: None,
        turning_kg_m2: hung(e).kg_m2 + m.web_kg_m2,
        discs: [
            Disc::in_room(0.5 * e.flywheel.diameter_mm),
            Disc::in_room(d.piston.throw_mm + d.web_r_mm[1]),
        ],
    })
}
