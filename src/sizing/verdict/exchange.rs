//! Gas temperatures that the walls can keep up, from lumped heat transfer.
//!
//! First-order model, for engines whose displacer gap is heater, regenerator and cooler at once. The gap stores and
//! gives back heat with ε = NTU/(NTU + 2) (balanced regenerator of large capacity; W. M. Kays and A. L. London, from
//! memory), NTU = h A/(ṁ c_p) of one blow, h = Nu k/(2 s), Nu = 7.541 (laminar, both walls at even temperature: Shah
//! and London 1978, from memory). What it does not give back, S (T_e − T_c) with S = (1 − ε) m c_p f, and the heat
//! of the cycle itself must pass the films in the end spaces:
//!   G_h (T_h − T_e) = Q_e + S (T_e − T_c),   G_k (T_c − T_k) = Q_c + S (T_e − T_c).
//! Order of magnitude only; a model with cells along the gap replaces it.

/// Nusselt number on twice the gap.
const NUSSELT: f64 = 7.541;

/// Heat transfer of the engine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exchange {
    /// Film of the hot space, heat for each kelvin \[W/K\].
    pub hot_w_k: f64,
    /// Film of the cold space and the power cylinder \[W/K\].
    pub cold_w_k: f64,
    /// Gap, on the radius \[mm\].
    pub gap_mm: f64,
    /// Area of both walls of the gap \[mm²\].
    pub gap_mm2: f64,
}

/// Flow through the gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flow {
    /// Gas moved in one blow \[kg\].
    pub blow_kg: f64,
    /// Turns for each second.
    pub per_second: f64,
    /// Heat capacity at constant pressure \[J/(kg K)\].
    pub cp_j_kg_k: f64,
    /// Conductivity \[W/(m K)\].
    pub gas_w_m_k: f64,
}

impl Exchange {
    /// Share of the heat that the gap gives back.
    pub fn effectiveness(&self, flow: &Flow) -> f64 {
        let film = NUSSELT * flow.gas_w_m_k / (2e-3 * self.gap_mm);
        let ntu = film * self.gap_mm2 * 1e-6 / (2.0 * flow.per_second * flow.blow_kg * flow.cp_j_kg_k);
        ntu / (ntu + 2.0)
    }

    /// Heat that goes past the gap for each kelvin between hot and cold gas, S \[W/K\].
    pub fn past_w_k(&self, flow: &Flow) -> f64 {
        (1.0 - self.effectiveness(flow)) * flow.blow_kg * flow.cp_j_kg_k * flow.per_second
    }

    /// Gas temperatures (hot, cold) \[K\] between these walls \[K\] with the cycle's heats in and out \[W\], that of the
    /// hot side in proportion to its temperature `last_k`.
    pub fn gas_k(&self, walls_k: [f64; 2], heats_w: [f64; 2], past_w_k: f64, last_k: f64) -> [f64; 2] {
        let hot = self.hot_w_k + past_w_k + heats_w[0] / last_k;
        let cold = self.cold_w_k + past_w_k;
        let (to_hot, to_cold) = (self.hot_w_k * walls_k[0], self.cold_w_k * walls_k[1] + heats_w[1]);
        let determinant = hot * cold - past_w_k * past_w_k;
        [
            (to_hot * cold + to_cold * past_w_k) / determinant,
            (to_cold * hot + to_hot * past_w_k) / determinant,
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const E: Exchange = Exchange { hot_w_k: 2.0, cold_w_k: 3.0, gap_mm: 0.5, gap_mm2: 50_000.0 };

    /// By hand: h = 7.541 × 0.04 / 0.001 = 301.64; × 0.05 m² = 15.082 W/K; flow 2 × 5 × 2e-4 × 1020 = 2.04 W/K;
    /// NTU 7.393, ε 0.7871.
    #[test]
    fn gap_of_a_hand_calculation() {
        let flow = Flow { blow_kg: 2e-4, per_second: 5.0, cp_j_kg_k: 1020.0, gas_w_m_k: 0.04 };
        assert!((E.effectiveness(&flow) - 0.7871).abs() < 1e-4);
        assert!((E.past_w_k(&flow) - (1.0 - 0.7871) * 1.02).abs() < 1e-4);
    }

    /// Both balances put in again.
    #[test]
    fn temperatures_satisfy_both_balances() {
        let (walls, heats, past, last) = ([800.0, 300.0], [40.0, 25.0], 0.3, 700.0);
        let [a, b] = E.gas_k(walls, heats, past, last);
        assert!((2.0 * (800.0 - a) - 40.0 * a / last - past * (a - b)).abs() < 1e-9);
        assert!((3.0 * (b - 300.0) - 25.0 - past * (a - b)).abs() < 1e-9);
        assert!(a < 800.0 && b > 300.0);
    }
}
