//! Round pins: an overhung pin, a journal that is bent and twisted, a pin between two legs.
//!
//! Plain beam theory: σ = 32 M / (π d³), τ = 16 T / (π d³), shear across 4/3 F / A; equivalent stress √(σ² + 3 τ²)
//! (Shigley, Mechanical Engineering Design, chapters 3 and 5).

use super::MPA;
use std::f64::consts::PI;

/// Bending stress of a round section \[Pa\] under `moment_nmm`.
pub fn bending_pa(moment_nmm: f64, diameter_mm: f64) -> f64 {
    32.0 * moment_nmm.abs() / (PI * diameter_mm.powi(3)) * MPA
}

/// Stress of twist in a round section \[Pa\].
pub fn twist_pa(torque_nmm: f64, diameter_mm: f64) -> f64 {
    16.0 * torque_nmm.abs() / (PI * diameter_mm.powi(3)) * MPA
}

/// Greatest shear across a round section \[Pa\].
pub fn shear_pa(force_n: f64, diameter_mm: f64) -> f64 {
    4.0 / 3.0 * force_n.abs() / (PI / 4.0 * diameter_mm * diameter_mm) * MPA
}

/// Equivalent stress of bending and twist at the surface, not less than that of the shear in the middle \[Pa\].
pub fn equivalent_pa(force_n: f64, moment_nmm: f64, torque_nmm: f64, diameter_mm: f64) -> f64 {
    let (bend, twist) = (bending_pa(moment_nmm, diameter_mm), twist_pa(torque_nmm, diameter_mm));
    let surface = (bend * bend + 3.0 * twist * twist).sqrt();
    surface.max(3f64.sqrt() * (shear_pa(force_n, diameter_mm) + twist))
}

/// Moment in the middle of a pin that rests in two legs of thickness `leg_mm` and carries its load over `width_mm` in
/// a slot of `slot_mm` \[N mm\]: F/2 times from the middle of the leg, less half of the load times a quarter of its
/// width.
pub fn between_legs_nmm(force_n: f64, slot_mm: f64, leg_mm: f64, width_mm: f64) -> f64 {
    0.5 * force_n.abs() * (0.5 * (slot_mm + leg_mm) - 0.25 * width_mm)
}

#[cfg(test)]
mod tests {
    use super::super::close;
    use super::*;

    /// A 1.5 in shaft under M = 4000 lbf in and T = 2500 lbf in: σ = 32 M/π d³ = 12 072 psi, τ = 3773 psi (worked with
    /// the formulas of Shigley, chapter 3).
    #[test]
    fn a_bent_and_twisted_shaft() {
        let psi = 6894.757;
        let nmm = 112.984_83;
        close(bending_pa(4000.0 * nmm, 38.1), 12_072.0 * psi, 1e-3);
        close(twist_pa(2500.0 * nmm, 38.1), 3773.0 * psi, 1e-3);
        let both = equivalent_pa(0.0, 4000.0 * nmm, 2500.0 * nmm, 38.1);
        close(both, (12_072f64.powi(2) + 3.0 * 3773f64.powi(2)).sqrt() * psi, 1e-3);
    }

    /// A pin with its load in one point in the middle of the slot: F l / 4 over the middles of the legs.
    #[test]
    fn a_point_load_between_legs_is_the_simple_beam() {
        close(between_legs_nmm(100.0, 16.0, 4.0, 0.0), 100.0 * 20.0 / 4.0, 1e-12);
        close(shear_pa(300.0, 10.0), 400.0 / 78.539_8 * 1e6, 1e-5);
    }
}
