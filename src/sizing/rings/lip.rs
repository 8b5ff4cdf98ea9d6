//! A lip that the gas presses on the bore: a thin cone of soft plastic, printed, its open side to the pressure.
//!
//! The lip is a cantilever all round: bent in by δ it presses with E t³ δ/(4 l³) on each length of its edge (beam, fixed
//! at its root; hoop stiffness left out). Gas behind it presses with its own pressure on top (from memory, common in
//! seal practice), so the open side must face the higher pressure: two lips, back to back, for a piston that is pushed
//! from both sides.

/// Young's modulus of printed TPU of 95 Shore A \[MPa\]: 20 to 100 (from memory).
pub const YOUNGS_MPA: f64 = 50.0;
/// Friction of TPU on metal with a trace of grease (from memory; dry 0.4 to 0.8).
pub const FRICTION: f64 = 0.3;

/// A lip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lip {
    /// Thickness \[mm\].
    pub thickness_mm: f64,
    /// Free length \[mm\].
    pub length_mm: f64,
    /// How far it is bent in, on the radius \[mm\].
    pub bent_mm: f64,
}

impl Lip {
    /// Sizes for a bore \[mm\]: thickness of two lines of a printer, length four times that, bent in by 0.15 mm and 0.2 % of
    /// the bore (0.2 to 0.5 mm on the diameter for 10 to 30 mm: from memory).
    pub fn of_bore(bore_mm: f64) -> Self {
        Self { thickness_mm: 0.8, length_mm: 3.2, bent_mm: (0.1 + 0.002 * bore_mm).min(0.3) }
    }

    /// Force on each length of the edge \[N/mm\].
    pub fn line_n_mm(&self) -> f64 {
        YOUNGS_MPA * self.thickness_mm.powi(3) * self.bent_mm / (4.0 * self.length_mm.powi(3))
    }

    /// Length of the lip that lies on the bore when the gas presses \[mm\]: half of it (assumed).
    pub fn contact_mm(&self) -> f64 {
        0.5 * self.length_mm
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand: 50 × 0.512 × 0.2/(4 × 32.768) = 0.03906 N/mm.
    #[test]
    fn cantilever_of_a_hand_calculation() {
        let lip = Lip { thickness_mm: 0.8, length_mm: 3.2, bent_mm: 0.2 };
        close(lip.line_n_mm(), 0.039_06, 1e-3);
        close(Lip::of_bore(50.0).bent_mm, 0.2, 1e-12);
    }
}
