//! Elements that the gas flows through: heater, regenerator or displacer gap, cooler, port.

use super::super::transfer::{Surface, tubes};
use crate::sizing::volumes::Zone;
use std::f64::consts::PI;

/// Cells of a regenerator or displacer gap when nothing else is said.
pub const BETWEEN_CELLS: usize = 12;
/// Cells of a heater or cooler when nothing else is said.
pub const END_CELLS: usize = 5;

/// Walls of an element.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Walls {
    /// At given temperatures, linear from the hot to the cold end.
    Fixed {
        /// At the end towards the hot space \[K\].
        hot_k: f64,
        /// At the end towards the cold space \[K\].
        cold_k: f64,
    },
    /// A matrix that takes up and gives back heat and finds its own temperature.
    Matrix {
        /// Heat capacity of all of it \[J/K\].
        capacity_j_k: f64,
        /// Where the search begins, end towards the hot space \[K\].
        hot_k: f64,
        /// Where the search begins, end towards the cold space \[K\].
        cold_k: f64,
    },
}

impl Walls {
    /// Temperatures at both ends \[K\].
    pub fn ends_k(&self) -> [f64; 2] {
        match *self {
            Self::Fixed { hot_k, cold_k } | Self::Matrix { hot_k, cold_k, .. } => [hot_k, cold_k],
        }
    }
}

/// An element of the gas path.
#[derive(Clone, Debug, PartialEq)]
pub struct Exchanger {
    /// Plain name.
    pub name: String,
    /// Which temperature the ideal models give it.
    pub zone: Zone,
    /// Kind of surface.
    pub surface: Surface,
    /// Gas volume \[m³\].
    pub volume_m3: f64,
    /// Free cross-section \[m²\].
    pub flow_area_m2: f64,
    /// Hydraulic diameter, 4 volume / wetted area \[m\].
    pub hydraulic_m: f64,
    /// Wetted area \[m²\].
    pub wetted_m2: f64,
    /// Length in flow direction \[m\].
    pub length_m: f64,
    /// Walls.
    pub walls: Walls,
    /// Velocity heads lost at entry, exit and bends.
    pub velocity_heads: f64,
    /// Cells it is cut into.
    pub cells: usize,
}

impl Exchanger {
    fn channel(
        name: &str,
        zone: Zone,
        surface: Surface,
        area_m2: f64,
        perimeter_m: f64,
        length_m: f64,
        walls: Walls,
    ) -> Self {
        Self {
            name: name.into(),
            zone,
            surface,
            volume_m3: area_m2 * length_m,
            flow_area_m2: area_m2,
            hydraulic_m: 4.0 * area_m2 / perimeter_m,
            wetted_m2: perimeter_m * length_m,
            length_m,
            walls,
            velocity_heads: tubes::ENTRY_AND_EXIT,
            cells: if zone == Zone::Between { BETWEEN_CELLS } else { END_CELLS },
        }
    }

    /// Annular gap between a bore \[m\] and what is in it, radial gap and length \[m\].
    pub fn annular_gap(name: &str, zone: Zone, bore_m: f64, gap_m: f64, length_m: f64, walls: Walls) -> Self {
        let inner = bore_m - 2.0 * gap_m;
        let area = PI / 4.0 * (bore_m * bore_m - inner * inner);
        Self::channel(name, zone, Surface::AnnularGap, area, PI * (bore_m + inner), length_m, walls)
    }

    /// Round tubes: count, inside diameter and length \[m\].
    pub fn tubes(name: &str, zone: Zone, count: f64, diameter_m: f64, length_m: f64, walls: Walls) -> Self {
        let (area, perimeter) = (PI / 4.0 * diameter_m * diameter_m, PI * diameter_m);
        Self::channel(name, zone, Surface::Tubes, count * area, count * perimeter, length_m, walls)
    }

    /// Rectangular slots or gaps between fins: count, both sides and length in flow direction \[m\].
    pub fn slots(name: &str, zone: Zone, count: f64, sides_m: [f64; 2], length_m: f64, walls: Walls) -> Self {
        let [a, b] = sides_m;
        let surface = Surface::Slots { aspect: a.min(b) / a.max(b) };
        Self::channel(name, zone, surface, count * a * b, count * 2.0 * (a + b), length_m, walls)
    }

    /// Matrix of screens or fibres that fills a cross-section \[m²\] over a length \[m\], of wire or fibre
    /// diameter \[m\] and solid heat capacity by volume \[J/(m³ K)\] (steel: about 3.9e6).
    pub fn matrix(
        name: &str,
        surface: Surface,
        section_m2: f64,
        length_m: f64,
        wire_m: f64,
        capacity_j_m3_k: f64,
        ends_k: [f64; 2],
    ) -> Self {
        let porosity = match surface {
            Surface::WovenMesh { porosity } | Surface::RandomFibre { porosity } => porosity,
            _ => 1.0,
        };
        let (all, solid) = (section_m2 * length_m, 1.0 - porosity);
        Self {
            name: name.into(),
            zone: Zone::Between,
            surface,
            volume_m3: all * porosity,
            flow_area_m2: section_m2 * porosity,
            hydraulic_m: porosity * wire_m / solid,
            wetted_m2: all * 4.0 * solid / wire_m,
            length_m,
            walls: Walls::Matrix {
                capacity_j_k: all * solid * capacity_j_m3_k,
                hot_k: ends_k[0],
                cold_k: ends_k[1],
            },
            velocity_heads: 0.0,
            cells: BETWEEN_CELLS,
        }
    }

    /// Quantities that must be positive.
    pub(super) fn positive(&self) -> Vec<(&'static str, f64)> {
        let [hot, cold] = self.walls.ends_k();
        let mut all = vec![
            ("volume of an exchanger", self.volume_m3),
            ("flow area of an exchanger", self.flow_area_m2),
            ("hydraulic diameter of an exchanger", self.hydraulic_m),
            ("wetted area of an exchanger", self.wetted_m2),
            ("length of an exchanger", self.length_m),
            ("wall temperature of an exchanger", hot),
            ("wall temperature of an exchanger", cold),
            ("number of cells", self.cells as f64),
        ];
        if let Walls::Matrix { capacity_j_k, .. } = self.walls {
            all.push(("heat capacity of a matrix", capacity_j_k));
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: bore 60, gap 0.5, length 100 mm: volume π/4 (60² − 59²) 100 = 9346 mm³, d_h = 2 gap.
    #[test]
    fn a_gap_has_twice_its_width_as_hydraulic_diameter() {
        let walls = Walls::Fixed { hot_k: 600.0, cold_k: 300.0 };
        let gap = Exchanger::annular_gap("gap", Zone::Between, 0.060, 0.0005, 0.100, walls);
        assert!((gap.volume_m3 * 1e9 - 9346.2).abs() < 0.1, "{}", gap.volume_m3);
        assert!((gap.hydraulic_m - 0.001).abs() < 1e-15);
        assert!((4.0 * gap.volume_m3 / gap.wetted_m2 / gap.hydraulic_m - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_matrix_keeps_the_relation_of_volume_and_area() {
        let surface = Surface::WovenMesh { porosity: 0.7 };
        let m = Exchanger::matrix("matrix", surface, 4e-4, 0.0226, 4e-5, 3.9e6, [900.0, 300.0]);
        assert!((4.0 * m.volume_m3 / m.wetted_m2 / m.hydraulic_m - 1.0).abs() < 1e-12);
        assert!(
            matches!(m.walls, Walls::Matrix { capacity_j_k, .. } if (capacity_j_k - 10.577).abs() < 1e-3)
        );
    }
}
