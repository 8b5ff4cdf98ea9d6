//! Guide of the displacer's rod below the cooler plate.

use super::gland::{bush_length, rod_bush};
use crate::catalogue::bushes::Bush;
use crate::sizing::decide::{Decide, round_up};

/// Guide of the displacer's rod below the cooler plate; its flange holds the O-ring of the gland.
#[derive(Clone, Debug, PartialEq)]
pub struct Guide {
    /// Length below the cooler plate, flange included \[mm\].
    pub length_mm: f64,
    /// Outside diameter of the sleeve \[mm\].
    pub sleeve_mm: f64,
    /// Bush at its lower end.
    pub bush: Bush,
    /// Length of that bush \[mm\].
    pub bush_length_mm: f64,
}

/// The guide: five rods long, so that it holds the rod against the con rod's side force; or down to the level `low` \[mm\] of
/// the dimensions named with it.
pub fn size(d: &mut Decide, rod: f64, low: Option<(f64, &[&str])>) -> Guide {
    let bush = rod_bush(d, rod);
    let what = "length of the guide bush, up to 12 mm";
    let bush_length_mm =
        d.listed("guide.bush_length", bush_length(&bush, 12.0), &bush.from, "ISO 3547-1", what);
    let least = (5.0 * rod).max(bush_length_mm + 10.0);
    let length_mm = match low {
        None => d.rule(
            "guide.length",
            round_up(least, 1.0),
            ("5 rods, at least the bush + 10 mm, to the next mm", "common practice, no source"),
            &["displacer.rod_diameter", "guide.bush_length"],
        ),
        Some((low, inputs)) => d.rule(
            "guide.length",
            low.max(least),
            "as far down as the back plate, so that both clevises turn at one height",
            inputs,
        ),
    };
    let sleeve_mm = d.rule(
        "guide.sleeve_diameter",
        bush.housing_mm + 6.0,
        ("bush + 6 mm", "common practice, no source"),
        &["displacer.rod_diameter"],
    );
    Guide { length_mm, sleeve_mm, bush, bush_length_mm }
}
