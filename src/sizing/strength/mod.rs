//! Strength: formulas of the textbooks, a file each, with units, source and a worked value in its test.
//!
//! Stresses in pascals, lengths in millimetres, forces in newtons. Nothing here knows an engine.

pub mod bearing_life;
pub mod belt_pull;
pub mod between_screws;
pub mod bolt;
pub mod buckling;
pub mod cylinder;
pub mod engagement;
pub mod flat_end;
pub mod gasket_load;
pub mod pin;
pub mod web;

/// One newton on a square millimetre \[Pa\].
pub const MPA: f64 = 1e6;

#[cfg(test)]
pub(crate) fn close(value: f64, expected: f64, relative: f64) {
    assert!((value - expected).abs() <= relative * expected.abs(), "{value} is not {expected}");
}
