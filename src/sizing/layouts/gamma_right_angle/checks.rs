//! Checks that this layout asks for beyond those of every layout.

use super::RightAngle;
use crate::sizing::check::Check;
use crate::sizing::inspect::case::Case;
use crate::sizing::inspect::warm::piston_ends;
use crate::sizing::layouts::common::checks::{block_wall, seats, studs};

/// All of them.
pub fn checks(case: &Case<'_>, own: &RightAngle) -> Vec<Check> {
    let frame = &own.block.material;
    let mut all = vec![block_wall(case, &own.block)];
    all.extend(studs(case, &own.block, ["power-cylinder-block", "back-plate"]));
    all.extend(piston_ends(case, own.places.head_x_mm, "head-plate", "back-plate"));
    all.extend(seats(
        case,
        frame,
        &own.back.bush,
        "crank-bracket",
        &["back-plate", "rod-guide", "cooler-plate"],
    ));
    all
}
