//! What rods slide in, where several layouts have it so.

use super::guide::Guide as RodGuide;
use super::hanging::Heights;
use crate::sizing::engine::Engine;
use crate::sizing::losses::bush::Bush;
use crate::sizing::mechanism::{Choices, Guide, Guides, Riding};

/// Height of the small end at top dead centre \[mm\].
pub fn small_end_mm(e: &Engine, throw_mm: f64) -> f64 {
    e.drive.crank_z_mm + e.drive.con_rod_mm + throw_mm
}

/// Piston rod in the back plate's bush, the piston in its bore, below a cooler plate of `plate_mm`.
pub fn hanging_piston(e: &Engine, heights: &Heights, plate_mm: f64, choices: &Choices) -> Guides {
    let (bush, crown) = (heights.back_middle_mm(), -plate_mm - e.piston.top_clearance_mm);
    Guides {
        lower: Guide::Bush(Bush { friction: choices.bush_friction }),
        upper: Guide::Bush(Bush { friction: choices.skirt_friction }),
        overhang_mm: bush - small_end_mm(e, e.drive.piston.throw_mm),
        span_mm: crown - 0.5 * e.piston.length_mm - bush,
        riding: Riding::UpperMoves,
    }
}

/// Displacer rod in the bushes of rod guide and cooler plate.
pub fn guided_displacer(e: &Engine, guide: &RodGuide, plate_mm: f64, choices: &Choices) -> Guides {
    let slides = Guide::Bush(Bush { friction: choices.bush_friction });
    let bush = -plate_mm - guide.length_mm + 0.5 * guide.bush_length_mm;
    Guides {
        lower: slides,
        upper: slides,
        overhang_mm: bush - small_end_mm(e, e.drive.displacer.throw_mm),
        span_mm: -0.5 * e.gland.bush_length_mm - bush,
        riding: Riding::Still,
    }
}
