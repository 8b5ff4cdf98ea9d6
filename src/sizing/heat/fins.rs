//! How much of a disc fin works: its efficiency.

/// Efficiency of a disc on a tube: tanh(m r₁ φ)/(m r₁ φ), φ = (r₂/r₁ − 1)(1 + 0.35 ln(r₂/r₁)), m = √(2 h/(k t))
/// (Th. E. Schmidt 1949, from memory). Film \[W/(m² K)\], conductivity \[W/(m K)\], thickness, root and tip radius
/// \[mm\].
pub fn disc_efficiency(
    film_w_m2_k: f64,
    conductivity_w_m_k: f64,
    thickness_mm: f64,
    radii_mm: [f64; 2],
) -> f64 {
    let [root, tip] = radii_mm;
    let m = (2.0 * film_w_m2_k / (conductivity_w_m_k * thickness_mm * 1e-3)).sqrt();
    let phi = (tip / root - 1.0) * (1.0 + 0.35 * (tip / root).ln());
    let x = m * root * 1e-3 * phi;
    if x < 1e-9 { 1.0 } else { x.tanh() / x }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// k 167, t 1.5 mm, radii 25 and 45 mm: the formula computed independently, and the exact Bessel solution
    /// (scipy), from which it is off by 1.3 % at the most.
    #[test]
    fn values_of_an_independent_calculation() {
        for (h, schmidt, exact) in
            [(10.0, 0.98481, 0.98589), (50.0, 0.92919, 0.93373), (200.0, 0.77405, 0.78391)]
        {
            let own = disc_efficiency(h, 167.0, 1.5, [25.0, 45.0]);
            close(own, schmidt, 1e-5);
            close(own, exact, 0.013);
        }
        assert_eq!(disc_efficiency(10.0, 167.0, 1.5, [25.0, 25.0]), 1.0, "no height, no loss");
    }
}
