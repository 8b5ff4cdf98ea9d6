//! Back plate: closes the jacket, guides both rods.

use super::BackPlate;
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::Drive;
use crate::sizing::layouts::common::gland::{bush_length, rod_bush};

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
    BackPlate {
        thickness_mm: thickness,
        x_low_mm: 0.0,
        bush,
        bush_length_mm: length,
        vents: (4, vent, circle),
    }
}

/// Where the bracket's screws stand beside each crank axis \[mm\], and how far the plate reaches beyond the bracket.
pub fn over_bracket(d: &mut Decide, drive: &Drive, back: &mut BackPlate) -> f64 {
    back.x_low_mm = d.rule(
        "back.x_low",
        -(drive.bracket_edge_mm + 4.0),
        ("4 mm beyond the bracket's edge", "common practice, no source"),
        &["drive.bracket_edge"],
    );
    d.rule(
        "drive.bracket_screw_place",
        1.8 * drive.bracket_screw.major_mm,
        (
            "1.8 screw diameters on either side of each crank axis: both heads and a key pass",
            "common practice, no source",
        ),
        &[],
    )
}
