//! Air blown across a cylinder, plain or with discs as fins.

/// Plain cylinder, on its diameter; Re Pr > 0.2 (S. W. Churchill and M. Bernstein 1977, from memory).
pub fn plain_cylinder(reynolds: f64, prandtl: f64) -> f64 {
    let front = 0.62 * reynolds.sqrt() * prandtl.cbrt() / (1.0 + (0.4 / prandtl).powf(2.0 / 3.0)).powf(0.25);
    0.3 + front * (1.0 + (reynolds / 282_000.0).powf(0.625)).powf(0.8)
}

/// Sizes of a row of disc fins \[mm\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Discs {
    /// Free gap between two fins.
    pub gap_mm: f64,
    /// Height above the wall.
    pub height_mm: f64,
    /// Thickness.
    pub thickness_mm: f64,
}

/// Finned cylinder, on the root diameter; 1e3 < Re < 1.8e4 (D. E. Briggs and E. H. Young 1963, from memory). Measured
/// on banks of tubes: a single cylinder has up to a third less.
pub fn finned_cylinder(reynolds: f64, prandtl: f64, discs: &Discs) -> f64 {
    0.134
        * reynolds.powf(0.681)
        * prandtl.cbrt()
        * (discs.gap_mm / discs.height_mm).powf(0.2)
        * (discs.gap_mm / discs.thickness_mm).powf(0.1134)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// Computed with the open `ht` library 1.2.0, Pr 0.7.
    #[test]
    fn values_of_an_independent_library() {
        for (re, nu) in [(10.0, 1.8291), (1e3, 15.930), (1e4, 53.328)] {
            close(plain_cylinder(re, 0.7), nu, 3e-5);
        }
        let discs = Discs { gap_mm: 3.0, height_mm: 20.0, thickness_mm: 1.5 };
        close(finned_cylinder(5000.0, 0.7, &discs), 29.095, 3e-5);
    }
}
