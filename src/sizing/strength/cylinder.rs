//! Walls of round vessels under pressure from inside and from outside.
//!
//! Lamé, 1833 (thick cylinder): greatest hoop stress at the inside p (Rₒ² + Rᵢ²) / (Rₒ² − Rᵢ²); it tends to p R / t for
//! thin walls. Windenburg and Trilling, 1934 (collapse of a short tube between stiff ends, elastic):
//! p = 2.42 E (t/D)^2.5 / ((1 − ν²)^0.75 (L/D − 0.45 √(t/D))). Both from memory; printed in Roark's Formulas for Stress
//! and Strain and in most texts on pressure vessels.

/// Poisson's ratio of metals.
const POISSON: f64 = 0.3;

/// Greatest hoop stress in a wall under pressure from inside \[Pa\]; thick or thin.
pub fn hoop_pa(pressure_pa: f64, inner_mm: f64, wall_mm: f64) -> f64 {
    let (ri, ro) = (inner_mm / 2.0, inner_mm / 2.0 + wall_mm);
    pressure_pa * (ro * ro + ri * ri) / (ro * ro - ri * ri)
}

/// Pressure from outside at which a tube of `length_mm` between stiff ends buckles \[Pa\]; `outer_mm` is its
/// diameter. A very long tube buckles at 2 E (t/D)³ / (1 − ν²) (Bresse, 1866), whichever is more.
pub fn collapse_pa(youngs_pa: f64, outer_mm: f64, wall_mm: f64, length_mm: f64) -> f64 {
    let (slim, long) = (wall_mm / outer_mm, length_mm / outer_mm);
    let endless = 2.0 * youngs_pa * slim.powi(3) / (1.0 - POISSON * POISSON);
    let reach = long - 0.45 * slim.sqrt();
    if reach <= 0.0 {
        return f64::INFINITY;
    }
    endless.max(2.42 * youngs_pa * slim.powf(2.5) / ((1.0 - POISSON * POISSON).powf(0.75) * reach))
}

#[cfg(test)]
mod tests {
    use super::super::close;
    use super::*;

    /// Lamé with Rₒ = 2 Rᵢ: 5/3 of the pressure (Timoshenko, Strength of Materials, thick cylinders; from memory).
    #[test]
    fn a_wall_of_half_the_outer_radius_bears_five_thirds() {
        close(hoop_pa(60e6, 100.0, 50.0), 100e6, 1e-12);
    }

    /// p D / 2 t for a thin wall (any text).
    #[test]
    fn a_thin_wall_tends_to_the_boiler_formula() {
        close(hoop_pa(1e5, 100.0, 0.1), 1e5 * 100.1 / 0.2, 1e-5);
    }

    /// With ν = 0.3 the formula is printed as 2.60 E (t/D)^2.5 / (L/D − 0.45 √(t/D)) (from memory).
    #[test]
    fn the_constant_is_the_printed_one() {
        let (slim, long): (f64, f64) = (0.01, 1.5);
        let printed = 2.60 * 200e9 * slim.powf(2.5) / (long - 0.45 * slim.sqrt());
        close(collapse_pa(200e9, 100.0, 1.0, 150.0), printed, 2e-3);
        close(collapse_pa(200e9, 100.0, 1.0, 1e6), 2.0 * 200e9 * 1e-6 / 0.91, 1e-12);
    }
}
