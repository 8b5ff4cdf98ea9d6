//! Air drag of flywheel and webs as discs that turn in free air.
//!
//! Both sides together M = ½ ρ ω² R⁵ C, with C = 3.87 Re^−½ where the flow is laminar and 0.146 Re^−⅕ beyond about
//! Re = 3·10⁵, Re = ω R²/ν (H. Schlichting, Boundary-Layer Theory, rotating disc, from memory). Rims and
//! spokes drag more; in small engines it is milliwatts all the same.

use std::f64::consts::TAU;

/// Reynolds number at which the flow on a disc turns turbulent.
const TURBULENT: f64 = 3e5;

/// A disc in air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    /// Radius \[mm\].
    pub radius_mm: f64,
    /// Density of the air around it \[kg/m³\].
    pub density_kg_m3: f64,
    /// Kinematic viscosity of the air \[m²/s\].
    pub viscosity_m2_s: f64,
}

impl Disc {
    /// A disc in the air of a room: 1.2 kg/m³, 1.5·10⁻⁵ m²/s.
    pub fn in_room(radius_mm: f64) -> Self {
        Self { radius_mm, density_kg_m3: 1.2, viscosity_m2_s: 1.5e-5 }
    }

    /// Torque of both sides \[N m\].
    pub fn torque_nm(&self, speed_rpm: f64) -> f64 {
        let (omega, r) = (TAU * speed_rpm.abs() / 60.0, self.radius_mm * 1e-3);
        let reynolds = omega * r * r / self.viscosity_m2_s;
        if reynolds <= 0.0 {
            return 0.0;
        }
        let c = if reynolds < TURBULENT { 3.87 / reynolds.sqrt() } else { 0.146 / reynolds.powf(0.2) };
        0.5 * self.density_kg_m3 * omega * omega * r.powi(5) * c
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand: R 0.1 m at 31.416 rad/s: Re = 20944, C = 0.026741, M = ½ × 1.2 × 986.96 × 10⁻⁵ × C = 1.5835·10⁻⁴ N m:
    /// 5 mW at 300 rpm.
    #[test]
    fn worked_value() {
        close(Disc::in_room(100.0).torque_nm(300.0), 1.5835e-4, 1e-3);
        assert_eq!(Disc::in_room(100.0).torque_nm(0.0), 0.0);
    }
}
