//! What leaks past the piston's seal, and what it rubs, for the models of gas and drive.

use super::PistonRing;
use super::lip;
use crate::design::PistonSeal;
use crate::sizing::cycle::path::LeakKind;
use crate::sizing::losses::ring::Rings;

/// Discharge coefficient of a ring's gap; 0.6 to 0.9 (textbook).
const DISCHARGE: f64 = 0.75;
/// Eccentricity of a close-fitting piston that its rod guides: between centred and leaning on the wall (assumed).
const ECCENTRICITY: f64 = 0.5;

/// Clearance along the faces of one ring over the given default for a fitted PTFE ring; the leak goes with its cube.
/// Assumed by kind, no measurement behind it: soft rubber and lips close up, metal beds to the bore.
fn face_share(kind: PistonSeal) -> f64 {
    match kind {
        PistonSeal::PtfeRing | PistonSeal::GraphiteRing => 1.0,
        PistonSeal::MetalRing => 0.9,
        PistonSeal::LipRing => 0.4,
        PistonSeal::ORing => 0.2,
        PistonSeal::Fitted => 0.0,
    }
}

/// Piston in its bore \[mm\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InBore {
    /// Bore.
    pub bore_mm: f64,
    /// Piston, outside.
    pub piston_mm: f64,
    /// Length of the piston.
    pub length_mm: f64,
    /// Play on the diameter when hot.
    pub hot_play_mm: f64,
}

impl PistonRing {
    /// Leaks by name; `face_mm` is the even clearance that leaks as much as one fitted ring along its faces \[mm\].
    ///
    /// Through the gaps: an orifice as wide as the hot gap and as high as the play between piston and bore; n rings in a
    /// row count as 1/√n of one (small drops). A close fit leaks along all of the piston.
    pub fn leaks(&self, at: &InBore, face_mm: f64) -> Vec<(&'static str, LeakKind)> {
        if self.kind == PistonSeal::Fitted {
            let kind = clearance(at.bore_mm, 0.5 * at.hot_play_mm, at.length_mm, ECCENTRICITY);
            return vec![("fitted piston", kind)];
        }
        let n = self.count.max(1) as f64;
        let face = face_share(self.kind) * face_mm;
        let mut all = vec![("piston rings", clearance(at.bore_mm, face, n * self.height_mm, 0.0))];
        let high = 0.5 * (at.bore_mm - at.piston_mm);
        let area_mm2 = self.gaps as f64 * self.gap_hot_mm.max(0.0) * high / n.sqrt();
        if area_mm2 > 0.0 {
            all.push(("ring gaps", LeakKind::Orifice { area_m2: 1e-6 * area_mm2, discharge: DISCHARGE }));
        }
        all
    }

    /// Friction; `None` for a close fit, whose skirt is counted with the guides. `friction` is the coefficient of PTFE that
    /// the builder chooses; the others have their own.
    ///
    /// Metal 0.15 to 0.23 on metal dry (cast iron, handbooks), 0.10 with a trace of oil or graphite (from memory); graphite
    /// 0.1, dry, in air that is not bone dry; rubber and lips as told with each.
    pub fn friction(&self, bore_mm: f64, friction: f64, rubber_friction: f64) -> Option<Rings> {
        let spring = |height_mm: f64, wall_mpa: f64, gas_share: f64, friction: f64| Rings {
            count: self.count,
            bore_mm,
            height_mm,
            wall_mpa,
            gas_share,
            friction,
        };
        Some(match self.kind {
            PistonSeal::Fitted => return None,
            PistonSeal::PtfeRing => spring(self.height_mm, self.wall_mpa, 0.5, friction),
            PistonSeal::MetalRing => spring(self.height_mm, self.wall_mpa, 0.5, 0.15),
            PistonSeal::GraphiteRing => spring(self.height_mm, self.wall_mpa, 0.5, 0.10),
            PistonSeal::ORing => self.rubber(bore_mm, rubber_friction),
            PistonSeal::LipRing => {
                let contact = self.lip.map_or(self.height_mm, |l| l.contact_mm());
                let wall = self.lip.map_or(0.0, |l| 2.0 * l.line_n_mm() / l.contact_mm());
                spring(contact, wall, 1.0, lip::FRICTION)
            }
        })
    }

    /// An O-ring on the bore as a ring of its contact's width: squeeze and gas as in a rod gland.
    fn rubber(&self, bore_mm: f64, friction: f64) -> Rings {
        use crate::sizing::losses::gland::RodRing;
        let [section_mm, squeeze] = self.section_mm;
        let one = RodRing { rod_mm: bore_mm, section_mm, squeeze, youngs_mpa: 5.5, friction: 1.0 };
        let height_mm = section_mm * (2.0 * squeeze + 0.13);
        let wall_mpa = one.force_n(0.0) / (std::f64::consts::PI * bore_mm * height_mm);
        Rings { count: self.count, bore_mm, height_mm, wall_mpa, gas_share: 1.0, friction }
    }
}

fn clearance(diameter_mm: f64, clearance_mm: f64, length_mm: f64, eccentricity: f64) -> LeakKind {
    LeakKind::Clearance {
        diameter_m: diameter_mm * 1e-3,
        clearance_m: clearance_mm * 1e-3,
        length_m: length_mm * 1e-3,
        eccentricity,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::cycle::path::leak::LeakGas;
    use crate::sizing::losses::close::close;
    use crate::sizing::losses::gland::RodRing;

    const AIR: LeakGas =
        LeakGas { r_j_kg_k: 287.05, gamma: 1.4, viscosity_pa_s: 1.96e-5, temperature_k: 330.0 };

    fn ring(kind: PistonSeal) -> PistonRing {
        PistonRing {
            kind,
            count: 1,
            height_mm: 3.0,
            width_mm: 1.5,
            groove_mm: 3.05,
            groove_diameter_mm: 26.0,
            gap_mm: 0.4,
            gap_hot_mm: 0.25,
            gaps: 1,
            expander_mm: 0.0,
            expander_free_gap_mm: 0.0,
            free_gap_mm: 0.0,
            stress_mpa: 0.0,
            wall_mpa: 0.02,
            lip: None,
            oring: None,
            section_mm: [2.62, 0.103],
            material: "ptfe-carbon",
        }
    }

    fn flow(kind: &LeakKind, inside: f64) -> f64 {
        kind.conductance_kg_s_pa(inside, 1e5, &AIR) * (inside - 1e5)
    }

    /// Worked independently: an orifice of 0.05 mm² at C_d 0.8 passes 9.9600e-6 kg/s from 1.3 to 1.0 bar; this gap is
    /// 0.25 × 0.2 = 0.05 mm² at 0.75. Two rings pass 1/√2 of it.
    #[test]
    fn the_gap_leaks_as_an_orifice() {
        let at = InBore { bore_mm: 30.0, piston_mm: 29.6, length_mm: 30.0, hot_play_mm: 0.04 };
        let gap = |count| {
            let all = PistonRing { count, ..ring(PistonSeal::PtfeRing) }.leaks(&at, 0.035);
            flow(&all.iter().find(|l| l.0 == "ring gaps").unwrap().1, 1.3e5)
        };
        close(gap(1), 9.96e-6 * 0.75 / 0.8, 1e-4);
        close(gap(2), gap(1) / 2f64.sqrt(), 1e-12);
    }

    /// Worked independently: D 30, h 0.020, L 30 mm passes 3.8918e-6 kg/s when centred; × (1 + 1.5 × 0.5²).
    #[test]
    fn a_close_fit_leaks_along_its_length() {
        let at = InBore { bore_mm: 30.0, piston_mm: 29.95, length_mm: 30.0, hot_play_mm: 0.04 };
        let all = ring(PistonSeal::Fitted).leaks(&at, 0.035);
        assert_eq!(all.len(), 1);
        close(flow(&all[0].1, 1.3e5), 3.8918e-6 * 1.375, 1e-4);
        assert!(ring(PistonSeal::Fitted).friction(30.0, 0.1, 0.2).is_none());
    }

    /// An O-ring rubs on the bore as the same ring on a rod of that diameter.
    #[test]
    fn rubber_rubs_as_in_a_gland() {
        let own = ring(PistonSeal::ORing).friction(30.0, 0.1, 0.2).unwrap();
        let rod = RodRing { rod_mm: 30.0, section_mm: 2.62, squeeze: 0.103, youngs_mpa: 5.5, friction: 0.2 };
        for across in [0.0, 30_000.0, -80_000.0] {
            close(own.force_n(across), rod.force_n(across), 1e-12);
        }
    }

    /// By hand: lip 0.03906 N/mm, two of them on π 30: 7.363 N; gas of 0.3 bar on 1.6 mm of one: 4.524 N; × 0.3.
    #[test]
    fn lips_of_a_hand_calculation() {
        let lip = lip::Lip { thickness_mm: 0.8, length_mm: 3.2, bent_mm: 0.2 };
        let own = PistonRing { lip: Some(lip), ..ring(PistonSeal::LipRing) };
        close(own.friction(30.0, 0.1, 0.2).unwrap().force_n(30_000.0), 0.3 * (7.363 + 4.524), 1e-3);
    }
}
