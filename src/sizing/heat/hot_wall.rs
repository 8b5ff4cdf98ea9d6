//! Temperature across the hot wall: the outside must be hotter than the gas side for the heat to come in.

use std::f64::consts::PI;

/// The heated part of a cup.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HotWall {
    /// Inside diameter \[mm\].
    pub bore_mm: f64,
    /// Wall \[mm\].
    pub wall_mm: f64,
    /// Closed end \[mm\].
    pub end_mm: f64,
    /// Heated length of the side, from the closed end \[mm\].
    pub heated_mm: f64,
    /// Conductivity \[W/(m K)\].
    pub conductivity_w_m_k: f64,
}

/// Drops across the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drop {
    /// Heat through each square metre of the inside \[W/m²\].
    pub flux_w_m2: f64,
    /// Across the side: q r ln(r₂/r₁)/k \[K\].
    pub side_k: f64,
    /// Across the closed end: q t/k \[K\].
    pub end_k: f64,
}

impl HotWall {
    /// With a heat \[W\] spread evenly over the heated inside (Fourier's law).
    pub fn drop(&self, heat_w: f64) -> Drop {
        let r = 0.5e-3 * self.bore_mm;
        let area = PI * r * r + 2.0 * PI * r * 1e-3 * self.heated_mm;
        let flux = heat_w / area;
        let k = self.conductivity_w_m_k;
        Drop {
            flux_w_m2: flux,
            side_k: flux * r * (1.0 + 1e-3 * self.wall_mm / r).ln() / k,
            end_k: flux * 1e-3 * self.end_mm / k,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand: end π 0.04² = 5.0265e-3 m², side π 0.08 × 0.03 = 7.5398e-3 m²; 200 W make 15 915 W/m²; end 3 mm at
    /// k 20: 2.387 K; side 0.04 ln(41.5/40) = 1.4726e-3 m: 1.1718 K.
    #[test]
    fn worked_value() {
        let wall =
            HotWall { bore_mm: 80.0, wall_mm: 1.5, end_mm: 3.0, heated_mm: 30.0, conductivity_w_m_k: 20.0 };
        let drop = wall.drop(200.0);
        close(drop.flux_w_m2, 15_915.5, 1e-4);
        close(drop.end_k, 2.3873, 1e-4);
        close(drop.side_k, 1.1719, 1e-3);
    }
}
