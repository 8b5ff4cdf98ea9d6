//! Checks that this layout asks for beyond those of every layout.

use super::TwinCrank;
use crate::catalogue::belts::belt_section;
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit;
use crate::sizing::inspect::case::Case;
use crate::sizing::inspect::warm::piston_ends;
use crate::sizing::layouts::common::checks::{block_wall, seats, studs};
use crate::sizing::strength::belt_pull::{allowed_n_mm, mesh_factor, strands_n};

/// Teeth that should mesh, and the least (makers' practice, from memory).
const MESH: [f64; 2] = [6.0, 4.0];

/// All of them.
pub fn checks(case: &Case<'_>, own: &TwinCrank) -> Vec<Check> {
    let frame = &own.block.material;
    let mut all = vec![block_wall(case, &own.block)];
    all.extend(studs(case, &own.block, ["power-cylinder-block", "cooler-plate"]));
    let head = -case.engine.drive.crank_z_mm - own.cooler.thickness_mm;
    all.extend(piston_ends(case, head, "cooler-plate", "back-plate"));
    all.extend(seats(case, frame, &own.back.bush, "crank-bracket", &["back-plate", "cooler-plate"]));
    all.extend(belt(case, own));
    all
}

fn belt(case: &Case<'_>, own: &TwinCrank) -> Vec<Check> {
    let (Ok(turn), Some(drive)) = (&case.turn, case.mechanism.as_ref().and_then(|m| m.belt)) else {
        return Vec::new();
    };
    let b = &own.belt;
    let torque = turn.points.iter().map(|p| 1e3 * p.belt_nm.abs()).fold(0.0, f64::max);
    let [tight, slack] = strands_n(drive.strand_n, torque / drive.radius_mm);
    // equal pulleys: half of the teeth mesh
    let mesh = 0.5 * b.pulley_teeth as f64;
    let allowed = allowed_n_mm(&b.section).unwrap_or(0.0) * b.width_mm * mesh_factor(mesh);
    let of = |check: Check, path: &str| check.at(path).of(&["timing-belt", "timing-pulley"]);
    let known = belt_section(&b.section).is_ok();
    let mut all = vec![
        of(
            Check::at_most("belt-tension", "tight strand of the belt", tight, Unit::Newton, allowed, allowed)
                .source("makers' working tension by section and width, from memory")
                .hint("a wider belt or the larger section"),
            "drive.belt_width",
        ),
        of(
            Check::at_least(
                "belt-slack",
                "slack strand of the belt, tightened to 2 N for each mm of width",
                slack,
                Unit::Newton,
                0.1 * drive.strand_n,
                0.0,
            )
            .source("it must stay tight or it jumps teeth; common practice, no source")
            .hint("a wider belt, or larger pulleys"),
            "drive.belt_width",
        ),
        of(
            Check::at_least(
                "belt-teeth-in-mesh",
                "teeth of the belt in mesh with a pulley",
                mesh,
                Unit::Count,
                MESH[0],
                MESH[1],
            )
            .source("makers' practice, from memory")
            .hint("pulleys with more teeth"),
            "drive.pulley_teeth",
        ),
    ];
    all.retain(|_| known);
    all
}
