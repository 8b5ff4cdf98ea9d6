//! Guide of the displacer's rod below the cooler plate.

use super::Guide;
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::layouts::common::gland::{bush_length, rod_bush};

/// The guide: five rods long, so that it holds the rod against the con rod's side force.
pub fn size(d: &mut Decide, rod: f64) -> Guide {
    let bush = rod_bush(d, rod);
    let what = "length of the guide bush, up to 12 mm";
    let bush_length_mm =
        d.listed("guide.bush_length", bush_length(&bush, 12.0), &bush.from, "ISO 3547-1", what);
    let length_mm = d.rule(
        "guide.length",
        round_up((5.0 * rod).max(bush_length_mm + 10.0), 1.0),
        ("5 rods, at least the bush + 10 mm, to the next mm", "common practice, no source"),
        &["displacer.rod_diameter", "guide.bush_length"],
    );
    let sleeve_mm = d.rule(
        "guide.sleeve_diameter",
        bush.housing_mm + 6.0,
        ("bush + 6 mm", "common practice, no source"),
        &["displacer.rod_diameter"],
    );
    Guide { length_mm, sleeve_mm, bush, bush_length_mm }
}
