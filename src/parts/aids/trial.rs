//! Parts of the engine that are worth a print before metal is cut.

use super::{Aid, AidKind, printed};
use crate::design::{Design, PistonSeal};
use crate::parts::part::{Part, Supply};

/// What carries and turns the mechanism and touches no gas: with these printed it can be put together and turned by hand.
/// Names and beginnings of names.
const MECHANISM: [&str; 10] = [
    "crank-bracket",
    "crankcase",
    "crank-web",
    "con-rod",
    "clevis",
    "piston-yoke",
    "timing-pulley",
    "lead-",
    "tensioner-plate",
    "output-pulley",
];

/// Whether a part is printed.
pub(super) fn is_printed(part: &Part, design: &Design) -> bool {
    let mechanism = MECHANISM.iter().any(|name| part.name.starts_with(name));
    part.supply == Supply::Make && part.recipe.is_some() && (mechanism || is_lip_ring(part, design))
}

/// A ring with lips is printed for good and keeps its material, notes and cautions.
fn is_lip_ring(part: &Part, design: &Design) -> bool {
    part.name == "piston-ring" && design.piston.seal.value == PistonSeal::LipRing
}

/// The part as a print, under its own name.
pub(super) fn print(part: &Part, design: &Design) -> Aid {
    let mut own = Part { blank: None, ..part.clone() };
    if !is_lip_ring(part, design) {
        own.material = printed();
        own.title = format!("Trial print: {}", part.title.to_lowercase());
        own.notes = vec![
            "Stands on the bed on that end which has more face, z = 0 there.".to_owned(),
            "For a trial: turn the mechanism by hand, look at clearances and at how screws and tools come in.".to_owned(),
            "Holes print small: ream or drill them to size; threads by tap into the printed core hole.".to_owned(),
        ];
        own.cautions = vec![
            "A print is for trials by hand, cold and without pressure: never light the burner on it."
                .to_owned(),
        ];
    }
    Aid { kind: AidKind::TrialPrint, of: vec![part.name.clone()], part: own, lies: None }
}
