//! Friction torque of a deep-groove ball bearing.
//!
//! M = ½ μ F d + M₀ + M_s: load-dependent part with μ = 0.0015 on the bore d (makers' catalogues, from memory),
//! the drag of the grease M₀ = 10⁻⁷ f₀ (ν n)^⅔ d_m³, or 160·10⁻⁷ f₀ d_m³ where ν n < 2000 (A. Palmgren 1959, in
//! N mm with ν in mm²/s, n in rpm and d_m in mm; from memory), and the drag of rubbing seals M_s, 0 with
//! metal shields.
//!
//! Valid for loads up to a tenth of the rating. The load term of the catalogues already holds some lubricant drag,
//! so the sum errs to the safe side.

/// Torque at the first move over running torque of the load term (makers' catalogues: 1.5 to 2; from memory).
pub const BREAKAWAY: f64 = 1.8;

/// A ball bearing as a source of friction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RollingBearing {
    /// Bore \[mm\].
    pub bore_mm: f64,
    /// Mean of bore and outside diameter \[mm\].
    pub mean_mm: f64,
    /// Friction coefficient on the bore; 0.0015 for deep-groove ball bearings.
    pub friction: f64,
    /// Factor f₀ of the lubricant: 1.5 to 2 for a grease filling, less for a few drops of oil.
    pub grease: f64,
    /// Viscosity of the oil in the grease at running temperature \[mm²/s\].
    pub viscosity_mm2_s: f64,
    /// Drag of rubbing seals \[N mm\].
    pub seal_nmm: f64,
}

impl RollingBearing {
    /// A shielded bearing with a light grease filling: f₀ = 1.5, 60 mm²/s.
    pub fn shielded(bore_mm: f64, outer_mm: f64) -> Self {
        Self {
            bore_mm,
            mean_mm: 0.5 * (bore_mm + outer_mm),
            friction: 0.0015,
            grease: 1.5,
            viscosity_mm2_s: 60.0,
            seal_nmm: 0.0,
        }
    }

    /// Friction torque \[N mm\] under a radial load \[N\] at a speed \[rpm\]; of either sign.
    pub fn torque_nmm(&self, load_n: f64, speed_rpm: f64) -> f64 {
        let flow = (self.viscosity_mm2_s * speed_rpm.abs()).max(2000.0);
        let drag = if flow > 2000.0 { flow.powf(2.0 / 3.0) } else { 160.0 };
        let grease = 1e-7 * self.grease * drag * self.mean_mm.powi(3);
        self.load_nmm(load_n) + grease + self.seal_nmm
    }

    /// The part of the torque that grows with the load \[N mm\].
    pub fn load_nmm(&self, load_n: f64) -> f64 {
        0.5 * self.friction * load_n.abs() * self.bore_mm
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// A 6205 (25 × 52 mm) under 1000 N: ½ × 0.0015 × 1000 × 25 = 18.75 N mm; grease with f₀ = 2, 30 mm²/s at
    /// 1500 rpm: 10⁻⁷ × 2 × 45000^⅔ × 38.5³ = 14.44 N mm. Worked by hand after makers' handbooks (from memory).
    #[test]
    fn worked_value() {
        let dry = RollingBearing { grease: 0.0, ..RollingBearing::shielded(25.0, 52.0) };
        close(dry.torque_nmm(-1000.0, 1500.0), 18.75, 1e-12);
        let greased = RollingBearing { grease: 2.0, viscosity_mm2_s: 30.0, ..dry };
        close(greased.torque_nmm(0.0, 1500.0), 14.44, 1e-3);
        close(greased.torque_nmm(0.0, 1.0), 160e-7 * 2.0 * 38.5_f64.powi(3), 1e-12);
    }
}
