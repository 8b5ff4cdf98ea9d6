//! Back plate at the crank end of the block: closes the jacket, guides the piston's rod.

use super::gland::{bush_length, rod_bush};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::BackPlate;

/// Back plate: as thick as its guide bush is long.
pub fn size(d: &mut Decide, bore: f64, rod: f64) -> BackPlate {
    let bush = rod_bush(d, rod);
    let length = bush_length(&bush, 12.0);
    let what = "length of the guide bush, up to 12 mm";
    let thickness = d.listed("back.thickness", length, &bush.from, "ISO 3547-1", what);
    let vent = d.rule(
        "back.vent_diameter",
        round_up(0.14 * bore, 0.5),
        (
            "0.14 piston bore, to the next 0.5 mm: four vents pass the piston's air freely",
            "common practice, no source",
        ),
        &["piston.bore"],
    );
    let circle = d.rule("back.vent_circle", round_up(0.6 * bore, 1.0), "0.6 piston bore", &["piston.bore"]);
    BackPlate { thickness_mm: thickness, bush, bush_length_mm: length, vents: (4, vent, circle) }
}
