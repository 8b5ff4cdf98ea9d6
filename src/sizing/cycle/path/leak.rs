//! Leakage to the buffer space: past piston rings, through clearance seals, along the rod.

use super::Place;

/// Below this share of the pressure an orifice is taken as linear: the root law has no slope there.
const LINEAR_SHARE: f64 = 1e-3;

/// Law of a leak.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LeakKind {
    /// In proportion to the pressure difference \[kg/(s Pa)\].
    Conductance(f64),
    /// Laminar flow through a long narrow clearance: ṁ = π D h³ (p₁² − p₂²)/(24 μ R T L) (1 + 1.5 e²),
    /// derived from flow between plates; sound for Re = 2 ṁ/(π D μ) < 1000 and L ≫ h.
    Clearance {
        /// Diameter D \[m\].
        diameter_m: f64,
        /// Radial clearance h \[m\].
        clearance_m: f64,
        /// Length L \[m\].
        length_m: f64,
        /// Eccentricity e, 0 (centred) to 1 (touching).
        eccentricity: f64,
    },
    /// Orifice: ṁ = C_d A p₁ √(2γ/((γ−1) R T) (r^(2/γ) − r^((γ+1)/γ))), r the pressure ratio, not below the
    /// critical one (textbook). For n alike in series divide the area by √n.
    Orifice {
        /// Area A \[m²\].
        area_m2: f64,
        /// Discharge coefficient C_d, 0.6 to 0.9.
        discharge: f64,
    },
}

/// A leak.
#[derive(Clone, Debug, PartialEq)]
pub struct Leak {
    /// Plain name, for example `piston rings`.
    pub name: String,
    /// Space it starts from.
    pub from: Place,
    /// Its law.
    pub kind: LeakKind,
}

/// Gas in a leak.
#[derive(Clone, Copy, Debug)]
pub struct LeakGas {
    /// Gas constant \[J/(kg K)\].
    pub r_j_kg_k: f64,
    /// Ratio of heat capacities.
    pub gamma: f64,
    /// Viscosity \[Pa s\].
    pub viscosity_pa_s: f64,
    /// Temperature \[K\].
    pub temperature_k: f64,
}

impl LeakKind {
    /// Flow over pressure difference \[kg/(s Pa)\] between an inside and an outside pressure \[Pa\].
    pub fn conductance_kg_s_pa(&self, inside_pa: f64, outside_pa: f64, gas: &LeakGas) -> f64 {
        let rt = gas.r_j_kg_k * gas.temperature_k;
        match *self {
            Self::Conductance(value) => value,
            Self::Clearance { diameter_m, clearance_m, length_m, eccentricity } => {
                let shape = std::f64::consts::PI * diameter_m * clearance_m.powi(3) / (24.0 * length_m);
                shape * (inside_pa + outside_pa) / (gas.viscosity_pa_s * rt)
                    * (1.0 + 1.5 * eccentricity.powi(2))
            }
            Self::Orifice { area_m2, discharge } => {
                let high = inside_pa.max(outside_pa);
                let drop = (inside_pa - outside_pa).abs().max(LINEAR_SHARE * high);
                discharge * area_m2 * orifice_flux(high, high - drop, gas.gamma, rt) / drop
            }
        }
    }
}

/// Flow through an orifice of unit area \[kg/(s m²)\].
fn orifice_flux(high_pa: f64, low_pa: f64, gamma: f64, rt: f64) -> f64 {
    let critical = (2.0 / (gamma + 1.0)).powf(gamma / (gamma - 1.0));
    let r = (low_pa / high_pa).max(critical);
    high_pa
        * (2.0 * gamma / ((gamma - 1.0) * rt) * (r.powf(2.0 / gamma) - r.powf((gamma + 1.0) / gamma))).sqrt()
}

impl Leak {
    /// Quantities that must be positive.
    pub(super) fn positive(&self) -> Vec<(&'static str, f64)> {
        match self.kind {
            LeakKind::Conductance(value) => vec![("leak conductance", value)],
            LeakKind::Clearance { diameter_m, clearance_m, length_m, eccentricity } => vec![
                ("diameter of a clearance seal", diameter_m),
                ("clearance of a seal", clearance_m),
                ("length of a clearance seal", length_m),
                ("eccentricity of a seal plus one", eccentricity + 1.0),
            ],
            LeakKind::Orifice { area_m2, discharge } => {
                vec![("area of a leak", area_m2), ("discharge coefficient", discharge)]
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const AIR: LeakGas =
        LeakGas { r_j_kg_k: 287.05, gamma: 1.4, viscosity_pa_s: 1.96e-5, temperature_k: 330.0 };

    fn flow(kind: LeakKind, inside: f64, outside: f64) -> f64 {
        kind.conductance_kg_s_pa(inside, outside, &AIR) * (inside - outside)
    }

    /// COMPUTED: D 30, h 0.020, L 30 mm, air at 330 K, 1.3 to 1.0 bar: 3.8918e-6 kg/s; fully eccentric 9.7295e-6.
    #[test]
    fn clearance_seal_is_the_worked_one() {
        let seal = |eccentricity| LeakKind::Clearance {
            diameter_m: 0.030,
            clearance_m: 20e-6,
            length_m: 0.030,
            eccentricity,
        };
        assert!((flow(seal(0.0), 1.3e5, 1e5) / 3.8918e-6 - 1.0).abs() < 3e-5);
        assert!((flow(seal(1.0), 1.3e5, 1e5) / 9.7295e-6 - 1.0).abs() < 3e-5);
    }

    /// COMPUTED: 0.05 mm², C_d 0.8, air at 330 K: 1.3 to 1.0 bar 9.9600e-6, 3 to 1 bar (choked) 2.6697e-5 kg/s.
    #[test]
    fn ring_gap_is_the_worked_one() {
        let gap = LeakKind::Orifice { area_m2: 0.05e-6, discharge: 0.8 };
        assert!((flow(gap, 1.3e5, 1e5) / 9.9600e-6 - 1.0).abs() < 3e-5);
        assert!((flow(gap, 3e5, 1e5) / 2.6697e-5 - 1.0).abs() < 3e-5);
        assert!((flow(gap, 1e5, 1.3e5) + flow(gap, 1.3e5, 1e5)).abs() < 1e-12, "backwards as forwards");
        assert_eq!(flow(gap, 1e5, 1e5), 0.0);
    }
}
