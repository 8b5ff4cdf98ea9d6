//! Losses by name, a file each: formula, units, range, source, worked value.
//!
//! Thermal ones are heat that flows from hot to cold without working \[W\], and the hysteresis of gas springs,
//! which is work. Mechanical ones are forces and torques at an instant; `mechanism::drive_forces` adds them up
//! over the turn on the instantaneous loads. Flow friction and leakage belong to the model of the cycle.

pub mod ball_bearing;
pub mod belt;
pub mod bush;
pub mod gap_pumping;
pub mod gas_spring;
pub mod gland;
pub mod joint_conduction;
pub mod linear_bearing;
pub mod radiation;
pub mod ring;
pub mod shaft_seal;
pub mod shuttle;
pub mod wall_conduction;
pub mod windage;

#[cfg(test)]
pub(crate) mod close {
    /// Asserts a relative difference.
    pub fn close(value: f64, expected: f64, relative: f64) {
        assert!((value / expected - 1.0).abs() <= relative, "{value} is not {expected}");
    }
}
