//! O-ring in a groove of a flange's face, in the place of a gasket: metal lies on metal, and no sheet keeps heat back.

use crate::catalogue::orings::{Application, Gland, gland};
use crate::design::ColdSeal;
use crate::sizing::decide::Decide;
use crate::sizing::dimension::Unit;
use crate::sizing::engine::FaceRing;
use std::f64::consts::PI;

/// Metal beside a groove \[mm\]; common practice, no source.
pub const LAND_MM: f64 = 1.5;
/// Force that squeezes a ring of 70 Shore, for each mm of its length \[N/mm\] (makers' curves, from memory; to the safe side).
const SQUEEZE_N_MM: f64 = 5.0;

/// Whether the cold joints are sealed so.
pub fn wanted(d: &Decide) -> bool {
    d.design.joints.cold_seal.value == ColdSeal::ORing
}

/// The groove for gas where the tables have one, else the general one.
fn groove(d: &mut Decide, section: f64) -> Option<Gland> {
    let found =
        gland(section, Application::StaticFaceGas).or_else(|_| gland(section, Application::StaticFace));
    d.look_up("joints.ring_section", found)
}

/// Ring and groove of a joint around `bore` that may reach out to the diameter `to` \[mm\]; `None` with a gasket.
pub fn size(d: &mut Decide, joint: &str, bore: f64, to: f64, inputs: &[&str]) -> Option<FaceRing> {
    if !wanted(d) {
        return None;
    }
    let design = d.design;
    let section_mm = design.joints.ring_section_mm.value;
    let groove = groove(d, section_mm)?;
    let least = bore + 2.0 * LAND_MM;
    let rings = design.catalogue.rings.iter().filter(|r| (r.section_mm - section_mm).abs() < 0.01);
    let most = to - 2.0 * LAND_MM - 2.0 * groove.width_mm;
    let fits = rings.filter(|r| r.inner_mm >= least && r.inner_mm <= most);
    let Some(ring) = fits.min_by(|a, b| a.inner_mm.total_cmp(&b.inner_mm)) else {
        d.refuse(
            "swept::ring",
            "joints.cold_seal",
            format!("no O-ring of {section_mm} mm lies round a bore of {bore} mm in the {joint} joint"),
            format!("an inside diameter of {least:.1} to {most:.1} mm, in the catalogue or on your shelf"),
            "put such a ring on the shelf file, take another joints.ring_section, or joints.cold_seal = \"gasket\""
                .into(),
        );
        return None;
    };
    let path = |what: &str| format!("joints.{joint}_ring{what}");
    d.listed(&path(""), ring.inner_mm, &ring.from, "ISO 3601-1", &format!("inside of {}", ring.designation));
    let mut inputs = inputs.to_vec();
    inputs.push("joints.ring_section");
    let inner = d.rule(&path("_groove"), ring.inner_mm, "groove's inside: the ring lies on it", &inputs);
    let depth_mm = d.rule_in(
        &path("_depth"),
        groove.depth_mm(),
        Unit::Millimetre,
        ("groove of a still seal between faces", "ISO 3601-2, a maker's table"),
        &["joints.ring_section"],
    );
    Some(FaceRing {
        designation: ring.designation.clone(),
        section_mm,
        groove_mm: [inner, inner + 2.0 * groove.width_mm],
        depth_mm,
        squeeze: groove.squeeze_of(ring),
        fill: groove.fill,
    })
}

impl FaceRing {
    /// Load that the screws must give: end force of the gas inside the ring, and what squeezes the ring \[N\].
    pub fn needed_n(&self, over_pa: f64) -> f64 {
        let middle = 0.5 * (self.groove_mm[0] + self.groove_mm[1]);
        PI / 4.0 * middle * middle * over_pa.max(0.0) * 1e-6 + SQUEEZE_N_MM * PI * middle
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: middle 100 mm, 0.1 MPa: π/4 100² 0.1 + 5 π 100 = 785.4 + 1570.8 N.
    #[test]
    fn end_force_and_squeeze_add_up() {
        let ring = FaceRing {
            designation: "test".into(),
            section_mm: 2.62,
            groove_mm: [97.0, 103.0],
            depth_mm: 1.95,
            squeeze: [0.22, 0.28],
            fill: 0.89,
        };
        assert!((ring.needed_n(1e5) - 2356.2).abs() < 0.1);
        assert!((ring.needed_n(-1e5) - 1570.8).abs() < 0.1);
    }
}
