//! Radiation inside a hollow displacer from its hot to its cold end.
//!
//! Q = σ A (T_h⁴ − T_k⁴) / [(n + 1)(2/ε − 1)] with n thin shields of the same emissivity between the ends
//! (grey parallel plates in a row, any text book of heat transfer). Upper bound for a long shell, whose side wall
//! takes part of it.

/// Stefan-Boltzmann constant \[W/(m² K⁴)\] (CODATA 2018).
pub const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;

/// A hollow displacer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hollow {
    /// Area of an end \[mm²\].
    pub area_mm2: f64,
    /// Emissivity of the metal, 0..1.
    pub emissivity: f64,
    /// Radiation shields between the ends.
    pub shields: usize,
}

impl Hollow {
    /// Heat from end to end \[W\].
    pub fn heat_w(&self, hot_k: f64, cold_k: f64) -> f64 {
        let resistance = (self.shields as f64 + 1.0) * (2.0 / self.emissivity - 1.0);
        STEFAN_BOLTZMANN * self.area_mm2 * 1e-6 * (hot_k.powi(4) - cold_k.powi(4)) / resistance
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// Black plates at 1000 K and at nothing: σ T⁴ = 56.70 kW/m². One shield of the same kind halves it, and
    /// emissivity 0.8 gives 1 / 1.5 (F. P. Incropera and D. P. DeWitt, table of plates, from memory).
    #[test]
    fn worked_values() {
        let h = |emissivity, shields| Hollow { area_mm2: 1e6, emissivity, shields }.heat_w(1000.0, 0.0);
        close(h(1.0, 0), 56_703.74, 1e-6);
        close(h(1.0, 1), 56_703.74 / 2.0, 1e-6);
        close(h(0.8, 0), 56_703.74 / 1.5, 1e-6);
    }
}
