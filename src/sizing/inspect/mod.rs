//! The checks of a builder that need no drawing: strength under the forces of the turn, joints, running clearances hot and
//! cold. What only one layout has is checked in its folder.

pub mod bearings;
pub mod case;
pub mod crank;
pub mod joints;
pub mod metal;
pub mod moving;
pub mod rods;
pub mod vessel;
pub mod warm;

use super::check::Check;
use super::cycle::CycleResult;
use super::engine::Engine;
use super::layouts;
use crate::design::Design;
use case::Case;

/// All checks of a sized engine but those of its moving pairs ([`moving`]). `cycle` is the isothermal turn of its gas: its swing of pressure, made larger by the ratio
/// of specific heats, is an upper bound of what a real turn does.
pub fn checks(design: &Design, engine: &Engine, cycle: &CycleResult, gamma: f64) -> Vec<Check> {
    let case = Case::of(design, engine, cycle, gamma);
    let mut all = vessel::checks(&case);
    all.extend(joints::checks(&case));
    all.extend(warm::checks(&case));
    all.extend(case.turns());
    all.extend(crank::checks(&case));
    all.extend(rods::checks(&case));
    all.extend(bearings::checks(&case));
    all.extend(layouts::checks(&case));
    all
}
