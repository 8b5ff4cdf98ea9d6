//! Checks that this layout asks for beyond those of every layout.

use super::Flat;
use crate::sizing::check::Check;
use crate::sizing::inspect::case::Case;
use crate::sizing::inspect::warm::piston_ends;
use crate::sizing::layouts::common::checks::{block_wall, seats, studs};

/// All of them.
pub fn checks(case: &Case<'_>, own: &Flat) -> Vec<Check> {
    let head = -case.engine.drive.crank_z_mm - own.cooler.thickness_mm;
    let frame = &own.block.material;
    let mut all = vec![block_wall(case, &own.block)];
    all.extend(studs(case, &own.block, ["power-cylinder-block", "cooler-plate"]));
    all.extend(piston_ends(case, head, "cooler-plate", "back-plate"));
    all.extend(seats(
        case,
        frame,
        &own.back.bush,
        "crank-bracket",
        &["back-plate", "rod-guide", "cooler-plate"],
    ));
    all
}
