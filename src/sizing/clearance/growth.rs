//! Growth by heat: Δl = α l ΔT, from 20 °C (ISO 1), along chains of lengths at their own temperatures.

use crate::catalogue::Catalogue;

/// Temperature at which drawings hold \[°C\] (ISO 1).
pub const DRAWN_C: f64 = 20.0;

/// Expansion of steel, for what the catalogue does not know \[1/K\].
const STEEL_PER_K: f64 = 12e-6;

/// A stretch of one metal at one mean temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Length \[mm\].
    pub length_mm: f64,
    /// Mean expansion \[1/K\].
    pub expansion_per_k: f64,
    /// Mean temperature \[°C\].
    pub temperature_c: f64,
}

impl Stretch {
    /// A stretch of a material of the catalogue; an unknown one counts as steel.
    pub fn of(book: &Catalogue, stuff: &str, length_mm: f64, temperature_c: f64) -> Self {
        let known = book.material(stuff).map(|m| m.expansion_to(temperature_c));
        Self { length_mm, expansion_per_k: known.unwrap_or(STEEL_PER_K), temperature_c }
    }

    /// By how much it grows from the drawing \[mm\].
    pub fn growth_mm(&self) -> f64 {
        self.length_mm * self.expansion_per_k * (self.temperature_c - DRAWN_C)
    }
}

/// By how much a chain grows \[mm\].
pub fn chain_mm(stretches: &[Stretch]) -> f64 {
    stretches.iter().map(Stretch::growth_mm).sum()
}

/// Gap between a hole and what sits in it \[mm on the diameter\] when hot: the cold gap and the growth of the hole less
/// that of what sits in it.
pub fn gap_hot_mm(cold_mm: f64, hole: Stretch, inside: Stretch) -> f64 {
    cold_mm + hole.growth_mm() - inside.growth_mm()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 m of steel grows by 1.2 mm from 20 to 120 °C (any handbook: 12e-6/K).
    #[test]
    fn a_metre_of_steel() {
        let bar = Stretch { length_mm: 1000.0, expansion_per_k: 12e-6, temperature_c: 120.0 };
        assert!((bar.growth_mm() - 1.2).abs() < 1e-12);
    }

    /// Closed gap of a ring of 25 % carbon PTFE (90e-6/K) at 100 °C in a steel bore (11.5e-6/K) of 60 mm at 80 °C: the
    /// ring grows by 1.227 mm more along its length (worked by hand: π 60 (90e-6 80 − 11.5e-6 60)).
    #[test]
    fn a_ptfe_ring_in_a_steel_bore() {
        let round = 60.0 * std::f64::consts::PI;
        let ring = Stretch { length_mm: round, expansion_per_k: 90e-6, temperature_c: 100.0 };
        let bore = Stretch { length_mm: round, expansion_per_k: 11.5e-6, temperature_c: 80.0 };
        assert!((gap_hot_mm(1.277, bore, ring) - 0.05).abs() < 1e-3);
        assert!((chain_mm(&[ring, bore]) - (ring.growth_mm() + bore.growth_mm())).abs() < 1e-15);
    }
}
