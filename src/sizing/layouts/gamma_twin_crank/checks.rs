//! Checks that this layout asks for beyond those of every layout.

use super::TwinCrank;
use crate::catalogue::belts::belt_section;
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit;
use crate::sizing::inspect::case::Case;
use crate::sizing::inspect::metal::{TO_AND_FRO, alternating_pa};
use crate::sizing::inspect::warm::piston_ends;
use crate::sizing::layouts::common::checks::{block_wall, seats, studs};
use crate::sizing::strength::belt_pull::{allowed_n_mm, mesh_factor, strands_n};
use crate::sizing::strength::bolt::on_metal_n;
use crate::sizing::strength::pin;

/// Teeth that should mesh, and the least (makers' practice, from memory).
const MESH: [f64; 2] = [6.0, 4.0];

/// Friction of clamped steel, to the safe side: 0.15 dry, less with a trace of oil (Shigley table 16-3, from memory).
const CLAMPED: f64 = 0.1;
/// Times the greatest torque that a clamp should hold, and the least (common practice, no source).
const HOLDS: [f64; 2] = [3.0, 1.5];

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
    // equal pulleys: half of the teeth mesh, and what the tensioner bends the belt further about each
    let roller = &own.tensioner;
    let mesh = b.pulley_teeth as f64 * (0.5 + roller.bent_deg / 360.0);
    let allowed = allowed_n_mm(&b.section).unwrap_or(0.0) * b.width_mm * mesh_factor(mesh);
    let of = |check: Check, path: &str| check.at(path).of(&["timing-belt", "timing-pulley", "lead-pulley"]);
    let known = belt_section(&b.section).is_ok();
    let pin_allowed = alternating_pa(case.book(), "silver-steel", case.cold_c);
    let held = own.lead.holds_nm(on_metal_n(own.lead.screw), CLAMPED);
    let mut all = vec![
        Check::at_least(
            "lead-clamp",
            "how often the clamp of the lead holds the greatest torque of the belt",
            held / (1e-3 * torque).max(1e-6),
            Unit::Ratio,
            HOLDS[0],
            HOLDS[1],
        )
        .source("friction of clamped steel 0.1, from memory; 3 times is common practice, no source")
        .at("lead.screw_circle")
        .of(&["lead-hub", "lead-pulley"])
        .hint("larger pulleys"),
        Check::at_most(
            "tensioner-pin-bending",
            "bending of the tensioner's pin",
            pin::bending_pa(roller.force_n(tight) * roller.arm_mm(), roller.bearing.bore_mm),
            Unit::Pascal,
            pin_allowed,
            pin_allowed,
        )
        .source(TO_AND_FRO)
        .at("drive.small_end_bearing")
        .of(&["tensioner-plate", "tensioner-pin"])
        .hint("a drive.small_end_bearing with a larger bore"),
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
