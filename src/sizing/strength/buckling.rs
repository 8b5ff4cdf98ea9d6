//! Rods under compression: Euler where slender, Johnson's parabola where stout.
//!
//! With slenderness λ = l/k (k the radius of inertia) and end fixity C: σ = C π² E / λ² above
//! λ₁ = √(2 π² C E / σ_y), σ_y − (σ_y λ / 2 π)² / (C E) below (Shigley, Mechanical Engineering Design, sections 4-12 and
//! 4-13).

use std::f64::consts::PI;

/// A straight rod of one section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// Free length \[mm\].
    pub length_mm: f64,
    /// Area of the section \[mm²\].
    pub area_mm2: f64,
    /// Radius of inertia about the axis that it bends around \[mm\].
    pub radius_mm: f64,
    /// Fixity of the ends: 1 with both on pins, 1/4 with one free.
    pub fixity: f64,
    /// Young's modulus \[Pa\].
    pub youngs_pa: f64,
    /// Yield strength \[Pa\].
    pub yield_pa: f64,
}

impl Column {
    /// A round rod.
    pub fn round(diameter_mm: f64, length_mm: f64, fixity: f64, youngs_pa: f64, yield_pa: f64) -> Self {
        let (area_mm2, radius_mm) = (PI / 4.0 * diameter_mm * diameter_mm, diameter_mm / 4.0);
        Self { length_mm, area_mm2, radius_mm, fixity, youngs_pa, yield_pa }
    }

    /// A bar that is `depth_mm` deep in the plane in which it bends.
    pub fn bar(width_mm: f64, depth_mm: f64, length_mm: f64, youngs_pa: f64, yield_pa: f64) -> Self {
        let radius_mm = depth_mm / 12f64.sqrt();
        Self { length_mm, area_mm2: width_mm * depth_mm, radius_mm, fixity: 1.0, youngs_pa, yield_pa }
    }

    /// Force at which it gives way \[N\].
    pub fn critical_n(&self) -> f64 {
        let slender = self.length_mm / self.radius_mm;
        let stiff = self.fixity * self.youngs_pa;
        let stress_pa = if slender * slender > 2.0 * PI * PI * stiff / self.yield_pa {
            PI * PI * stiff / (slender * slender)
        } else {
            self.yield_pa - (self.yield_pa * slender / (2.0 * PI)).powi(2) / stiff
        };
        stress_pa * self.area_mm2 * 1e-6
    }
}

#[cfg(test)]
mod tests {
    use super::super::close;
    use super::*;

    /// Shigley, worked example on round columns (from memory): 88 kN, E 207 GPa, yield 500 MPa, both ends on pins. A
    /// length of 1.5 m needs 37.48 mm by Euler, one of 375 mm needs 19.0 mm by Johnson.
    #[test]
    fn the_round_columns_of_the_textbook() {
        let rod = |d: f64, l: f64| Column::round(d, l, 1.0, 207e9, 500e6).critical_n();
        close(rod(37.48, 1500.0), 88e3, 2e-3);
        close(rod(19.02, 375.0), 88e3, 2e-3);
    }

    #[test]
    fn euler_and_johnson_meet_at_half_the_yield() {
        let slender = (2.0 * PI * PI * 207e9 / 500e6f64).sqrt();
        let at = |f: f64| Column::round(10.0, f * slender * 2.5, 1.0, 207e9, 500e6).critical_n();
        close(at(0.999_999), at(1.000_001), 1e-5);
        close(at(1.0), 250e6 * PI / 4.0 * 100.0 * 1e-6, 1e-9);
    }
}
