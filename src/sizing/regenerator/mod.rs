//! A regenerator in an annulus: sheets of woven mesh, wool, or foil, wound round a drum.
//!
//! The same annulus serves a sleeve on the displacer and a canister that stands around its cylinder; a layout says where
//! it lies. [`Annulus`] gives volume, area, friction and matrix capacity to the gas path, and the blank to cut.

pub mod size;

use crate::design::RegeneratorKind;
use crate::sizing::cycle::path::{Exchanger, Walls};
use crate::sizing::cycle::transfer::Surface;
use crate::sizing::volumes::{Zone, circle_mm2};
use std::f64::consts::PI;

/// Matrix in an annulus.
#[derive(Clone, Debug, PartialEq)]
pub struct Annulus {
    /// What it is wound of; never `None` here.
    pub kind: RegeneratorKind,
    /// Diameter of the drum it is wound on \[mm\].
    pub inner_mm: f64,
    /// Thickness on the radius \[mm\].
    pub thickness_mm: f64,
    /// Length in the direction of the flow \[mm\].
    pub length_mm: f64,
    /// Wire, fibre or foil \[mm\].
    pub wire_mm: f64,
    /// Distance of the wires of a mesh, of the layers of a foil; 0 for wool \[mm\].
    pub pitch_mm: f64,
    /// Free share of the volume.
    pub porosity: f64,
    /// Layers that are wound; 1 for wool.
    pub layers: usize,
    /// Clearance between it and the wall, through which gas goes past it \[mm\].
    pub clearance_mm: f64,
    /// Heat capacity of its metal \[J/(m³ K)\].
    pub capacity_j_m3_k: f64,
    /// Name of the material.
    pub material: String,
}

/// Thickness of one layer of mesh: two wires (plain weave).
pub const MESH_WIRES: f64 = 2.0;

/// Free share of stacked plain mesh, wires straight: 1 − π d/(4 pitch) (geometry; crimp adds 1 to 3 % of metal).
pub fn mesh_porosity(wire_mm: f64, pitch_mm: f64) -> f64 {
    1.0 - PI * wire_mm / (4.0 * pitch_mm)
}

impl Annulus {
    /// Cross-section of the annulus \[mm²\].
    pub fn section_mm2(&self) -> f64 {
        circle_mm2(self.inner_mm + 2.0 * self.thickness_mm) - circle_mm2(self.inner_mm)
    }

    /// Metal in it \[mm³\].
    pub fn metal_mm3(&self) -> f64 {
        self.section_mm2() * self.length_mm * (1.0 - self.porosity)
    }

    /// Clearance around it \[mm²\].
    fn gap_mm2(&self) -> f64 {
        let outer = self.inner_mm + 2.0 * self.thickness_mm;
        circle_mm2(outer + 2.0 * self.clearance_mm) - circle_mm2(outer)
    }

    /// Heat led along its metal for each kelvin, at a conductivity \[W/(m K)\] \[W/K\]: half of a mesh's wires and of wool's
    /// fibres run along it (geometry; contacts left out), all of a foil.
    pub fn along_w_k(&self, conductivity_w_m_k: f64) -> f64 {
        let share = if self.kind == RegeneratorKind::Foil { 1.0 } else { 0.5 };
        1e-3 * share * conductivity_w_m_k * self.metal_mm3() / self.length_mm.powi(2)
    }

    /// Wound on another drum, with another clearance \[mm\], on a displacer shorter by `shorter_mm`.
    pub fn refit(&mut self, drum_mm: f64, clearance_mm: f64, shorter_mm: f64) {
        self.inner_mm = drum_mm;
        self.clearance_mm = clearance_mm;
        self.length_mm = (self.length_mm - shorter_mm).max(1.0);
    }

    /// Strip to wind it of: length and width \[mm\]; layers at their middle diameters.
    pub fn blank_mm(&self) -> [f64; 2] {
        let middle = self.inner_mm + self.thickness_mm;
        [PI * middle * self.layers as f64, self.length_mm]
    }

    /// As an element of the gas path, between these temperatures \[K\], its share of the flow alone going through it. What
    /// goes past it is taken to mix with it all the way, for the sleeve is open to the clearance; the clearance's volume
    /// counts as its own.
    pub fn exchanger(&self, ends_k: [f64; 2]) -> Exchanger {
        let (section, length) = (1e-6 * self.section_mm2(), 1e-3 * self.length_mm);
        let clearance_m3 = 1e-6 * self.gap_mm2() * length;
        let porosity = self.porosity;
        let matrix = |surface| {
            let wire = 1e-3 * self.wire_mm;
            Exchanger::matrix("regenerator", surface, section, length, wire, self.capacity_j_m3_k, ends_k)
        };
        let own = match self.kind {
            RegeneratorKind::Wool => matrix(Surface::RandomFibre { porosity }),
            RegeneratorKind::Foil => self.foil(section, length, ends_k),
            RegeneratorKind::Mesh | RegeneratorKind::None => matrix(Surface::WovenMesh { porosity }),
        };
        let flow_area_m2 = own.flow_area_m2 / (1.0 - self.bypass());
        Exchanger { volume_m3: own.volume_m3 + clearance_m3, flow_area_m2, ..own }
    }

    /// Gaps between smooth layers.
    fn foil(&self, section_m2: f64, length_m: f64, [hot_k, cold_k]: [f64; 2]) -> Exchanger {
        let gap = 1e-3 * (self.pitch_mm - self.wire_mm);
        let across = 1e-3 * PI * (self.inner_mm + self.thickness_mm) * self.layers as f64;
        let capacity_j_k = section_m2 * length_m * (1.0 - self.porosity) * self.capacity_j_m3_k;
        let walls = Walls::Matrix { capacity_j_k, hot_k, cold_k };
        Exchanger::slots("regenerator", Zone::Between, 1.0, [gap, across], length_m, walls)
    }

    /// Share of the gas that goes past it through the clearance, in slow flow: the same pressure drop along both, the
    /// clearance as between plates, f Re = 96.
    pub fn bypass(&self) -> f64 {
        let past = self.gap_mm2() * (2.0 * self.clearance_mm).powi(2) / 96.0;
        past / (past + self.conductance_mm4())
    }

    /// Flow area times the square of the hydraulic diameter over f Re, which a slow flow goes with \[mm⁴\]: f Re = 129
    /// (mesh), 192 (wool), 96 (foil), the laminar part of each.
    pub fn conductance_mm4(&self) -> f64 {
        let (friction, hydraulic_mm) = match self.kind {
            RegeneratorKind::Foil => (96.0, 2.0 * (self.pitch_mm - self.wire_mm)),
            RegeneratorKind::Wool => (192.0, self.porosity * self.wire_mm / (1.0 - self.porosity)),
            _ => (129.0, self.porosity * self.wire_mm / (1.0 - self.porosity)),
        };
        self.section_mm2() * self.porosity * hydraulic_mm.powi(2) / friction
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    fn annulus(kind: RegeneratorKind) -> Annulus {
        Annulus {
            kind,
            inner_mm: 90.0,
            thickness_mm: 2.0,
            length_mm: 80.0,
            wire_mm: 0.2,
            pitch_mm: 0.6,
            porosity: mesh_porosity(0.2, 0.6),
            layers: 5,
            clearance_mm: 0.3,
            capacity_j_m3_k: 3.9e6,
            material: "stainless-304".into(),
        }
    }

    /// By hand: porosity 1 − π 0.2/2.4 = 0.7382; section π/4 (94² − 90²) = 578.05 mm²; metal 578.05 × 80 × 0.2618 =
    /// 12 107 mm³; five layers of π 92 = 1445.1 mm; hydraulic diameter 0.7382 × 0.2/0.2618 = 0.5639 mm.
    #[test]
    fn mesh_of_a_hand_calculation() {
        let mesh = annulus(RegeneratorKind::Mesh);
        close(mesh.porosity, 0.738_20, 1e-4);
        close(mesh.metal_mm3(), 12_107.0, 1e-3);
        close(mesh.blank_mm()[0], 1445.1, 1e-4);
        let e = mesh.exchanger([800.0, 320.0]);
        close(e.hydraulic_m, 0.5639e-3, 1e-3);
        // free volume 578.05 × 80 × 0.7382 and the clearance π/4 (94.6² − 94²) × 80
        close(e.volume_m3 * 1e9, 34_138.0 + 7110.0, 2e-3);
        assert!(matches!(e.walls, Walls::Matrix { capacity_j_k, .. } if (capacity_j_k - 47.2).abs() < 0.1));
    }

    /// By hand: half of 18 × 12 107 mm³/(80 mm)² is 17.03 W mm/(m K), 0.01703 W/K.
    #[test]
    fn metal_leads_heat_along() {
        close(annulus(RegeneratorKind::Mesh).along_w_k(18.0), 0.017_03, 1e-3);
    }

    /// By hand: past 88.9 mm² × 0.36/96 = 0.3334; through 578.05 × 0.7382 × 0.318/129 = 1.0519: 24 %. Half the clearance
    /// lets an eighth past.
    #[test]
    fn gas_goes_past_through_the_clearance() {
        let mesh = annulus(RegeneratorKind::Mesh);
        close(mesh.bypass(), 0.2407, 1e-2);
        let close_fit = Annulus { clearance_mm: 0.15, ..mesh };
        close(close_fit.bypass(), 0.3334 / 8.0 / (0.3334 / 8.0 + 1.0519), 2e-2);
    }

    /// Foil is a slot: hydraulic diameter twice the gap between layers.
    #[test]
    fn foil_is_a_slot() {
        let foil = Annulus { pitch_mm: 0.4, wire_mm: 0.1, porosity: 0.75, ..annulus(RegeneratorKind::Foil) };
        close(foil.exchanger([800.0, 320.0]).hydraulic_m, 0.6e-3, 2e-3);
    }
}
