//! Decides a regenerator's sizes by its kind.

use super::{Annulus, MESH_WIRES, mesh_porosity};
use crate::design::RegeneratorKind;
use crate::sizing::decide::{Decide, round_near};
use crate::sizing::dimension::Unit;

/// Free share of packed wool; the correlations were measured from 0.69 to 0.84.
const WOOL_POROSITY: f64 = 0.84;
/// End left free of the matrix on the displacer, at either end \[mm\]; common practice, no source.
const END_MM: f64 = 5.0;

/// Thickness on the radius that the design wants \[mm\]; 0 without a regenerator.
pub fn thickness(d: &mut Decide) -> f64 {
    let design = d.design;
    if design.regenerator.kind.value == RegeneratorKind::None {
        return 0.0;
    }
    d.mm("regenerator.thickness", &design.regenerator.thickness_mm)
}

/// Where a matrix is wound.
#[derive(Clone, Copy, Debug)]
pub struct Drum {
    /// Diameter of the drum \[mm\].
    pub drum_mm: f64,
    /// Thickness on the radius \[mm\].
    pub thickness_mm: f64,
    /// Room for its length \[mm\].
    pub room_mm: f64,
    /// Its length where the design gives none \[mm\], and why.
    pub length: (f64, &'static str, &'static str),
    /// Clearance around it \[mm\], and the dimension that decides it.
    pub clearance: (f64, &'static str),
}

impl Drum {
    /// The displacer of this diameter and length in its gap \[mm\].
    pub fn displacer(diameter_mm: f64, thickness_mm: f64, length_mm: f64, gap_mm: f64) -> Self {
        Self {
            drum_mm: diameter_mm,
            thickness_mm,
            room_mm: length_mm,
            length: (
                round_near(length_mm - 2.0 * END_MM, 0.1),
                "displacer less 5 mm at either end",
                "displacer.length",
            ),
            clearance: (gap_mm, "displacer.gap"),
        }
    }
}

/// A matrix wound on a drum; `None` without a regenerator.
pub fn wound(d: &mut Decide, on: &Drum) -> Option<Annulus> {
    let &Drum { drum_mm, thickness_mm, room_mm, length: usual, clearance } = on;
    let design = d.design;
    let r = &design.regenerator;
    let kind = r.kind.value;
    let (wire, why) = match kind {
        RegeneratorKind::None => return None,
        RegeneratorKind::Mesh => (0.2, "mesh of 0.2 mm wire: fine, and still winds"),
        RegeneratorKind::Wool => (0.1, "coarse steel wool"),
        RegeneratorKind::Foil => (0.05, "shim that is sold"),
    };
    let common = "common practice, no source";
    let wire = d.open_mm("regenerator.wire", &r.wire_mm, (why, common), &[], wire);
    let pitch = match kind {
        RegeneratorKind::Mesh => {
            let formula = ("3 wires: about 74 % free", common);
            d.open_mm("regenerator.pitch", &r.pitch_mm, formula, &["regenerator.wire"], 3.0 * wire)
        }
        RegeneratorKind::Foil => {
            let formula = ("foil and a gap of 0.3 mm, kept by dimples", common);
            d.open_mm("regenerator.pitch", &r.pitch_mm, formula, &["regenerator.wire"], wire + 0.3)
        }
        _ => 0.0,
    };
    let layer = match kind {
        RegeneratorKind::Mesh => MESH_WIRES * wire,
        RegeneratorKind::Foil => pitch,
        _ => thickness_mm,
    };
    let layers = (thickness_mm / layer + 1e-9).floor() as usize;
    if layers == 0 || (kind != RegeneratorKind::Wool && pitch <= wire) {
        d.refuse(
            "swept::range",
            "regenerator.thickness",
            format!("{thickness_mm} mm hold no layer of {layer:.2} mm that lets gas through"),
            format!("{layer:.2} mm or more, with a pitch of more than {wire} mm"),
            "make regenerator.thickness larger, or regenerator.wire thinner".into(),
        );
        return None;
    }
    let inputs = ["regenerator.thickness", "regenerator.wire"];
    d.rule_in("regenerator.layers", layers as f64, Unit::Count, "as many as fit its thickness", &inputs);
    let porosity = match kind {
        RegeneratorKind::Mesh => mesh_porosity(wire, pitch),
        RegeneratorKind::Foil => 1.0 - layers as f64 * wire / thickness_mm,
        _ => WOOL_POROSITY,
    };
    let length = d.open_mm("regenerator.length", &r.length_mm, (usual.1, common), &[usual.2], usual.0);
    if length > room_mm || length <= 0.0 {
        d.refuse(
            "swept::range",
            "regenerator.length",
            format!("a regenerator of {length:.1} mm does not fit on {room_mm:.1} mm"),
            format!("up to {room_mm:.1} mm"),
            "leave regenerator.length out, or make room for it".into(),
        );
    }
    let stuff = d.design.catalogue.material(&r.material.value);
    let own = Annulus {
        kind,
        inner_mm: drum_mm,
        thickness_mm,
        length_mm: length,
        wire_mm: wire,
        pitch_mm: pitch,
        porosity,
        layers,
        clearance_mm: clearance.0,
        capacity_j_m3_k: stuff.map_or(3.9e6, |m| m.density_kg_m3 * m.heat_capacity_j_kg_k),
        material: r.material.value.clone(),
    };
    d.rule_in("regenerator.porosity", porosity, Unit::Ratio, "free share of its volume", &inputs);
    d.rule_in(
        "regenerator.bypass",
        own.bypass(),
        Unit::Ratio,
        ("share of the gas that goes past it, slow flow", "friction factors of slots, mesh and felt"),
        &[clearance.1, "regenerator.thickness", "regenerator.wire"],
    );
    Some(own)
}
