//! Equations of the ideal adiabatic cycle, for m R = 1 J/K.
//!
//! Derived from mass and energy of five spaces in line (cold space, cooler, regenerator, heater, hot
//! space) at one pressure; agrees with Urieli and Berchowitz 1984 (from memory). With V' = dV/dθ and
//! κ = Σ V/T over the three exchangers:
//!   p' = −γ p (V_c'/T_ck + V_e'/T_he) / (V_c/T_ck + γ κ + V_e/T_he)
//!   m_c' = (p V_c' + V_c p'/γ)/T_ck,  m_e' = (p V_e' + V_e p'/γ)/T_he
//! Gas that leaves a space has its temperature, gas that enters comes from the exchanger beside it. Heat
//! into an exchanger is what its energy and the enthalpy of the flows leave over.

use super::super::{CycleError, CycleInput};
use crate::sizing::volumes::Zone;

/// Numbers that change over the turn: p, m_c, W_c, W_e, Q_k, Q_r, Q_h, ∫p, ∫T_c, ∫T_e.
pub(super) type State = [f64; 10];

/// Which way the gas flows at the ends of the exchangers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Flow {
    /// Out of the cold space.
    pub from_cold: bool,
    /// Into the hot space.
    pub to_hot: bool,
}

impl Flow {
    /// All four.
    pub const ALL: [Self; 4] = [
        Self { from_cold: true, to_hot: true },
        Self { from_cold: true, to_hot: false },
        Self { from_cold: false, to_hot: true },
        Self { from_cold: false, to_hot: false },
    ];
}

/// Engine as the equations see it.
#[derive(Clone, Copy, Debug)]
pub(super) struct System<'a> {
    input: &'a CycleInput<'a>,
    gamma: f64,
    /// Hot wall \[K\].
    pub hot_k: f64,
    /// Cold wall \[K\].
    pub cold_k: f64,
    between_k: f64,
    dead_m3: [f64; 3],
    dead_m3_k: f64,
}

/// Rates at one angle, and the flows at the ends that decide which way the gas goes.
pub(super) struct Rates {
    pub slope: State,
    pub out_of_cold: f64,
    pub into_hot: f64,
}

impl<'a> System<'a> {
    /// Checks the input.
    ///
    /// # Errors
    /// Those of [`CycleInput::check`]; [`CycleError::NotPositive`] for γ − 1 and for spaces without clearance.
    pub fn of(input: &'a CycleInput<'a>) -> Result<Self, CycleError> {
        input.check()?;
        let least = input.volumes.least();
        let fixed = [
            ("heat capacity ratio less one", input.heat_capacity_ratio - 1.0),
            ("clearance of the hot space", least.hot_m3),
            ("clearance of the cold space", least.cold_m3 + least.power_m3),
        ];
        if let Some((what, value)) = fixed.into_iter().find(|(_, v)| !(*v > 0.0 && v.is_finite())) {
            return Err(CycleError::NotPositive { what, value });
        }
        let of = |zone| input.volumes.dead().iter().filter(|d| d.zone == zone).map(|d| d.volume_m3).sum();
        Ok(Self {
            input,
            gamma: input.heat_capacity_ratio,
            hot_k: input.temperatures.hot_k,
            cold_k: input.temperatures.cold_k,
            between_k: input.temperatures.between_k(),
            dead_m3: [of(Zone::Cold), of(Zone::Between), of(Zone::Hot)],
            dead_m3_k: input.dead_over_temperature_m3_k(),
        })
    }

    /// Pressure and cold mass of the isothermal cycle at angle 0.
    pub fn start(&self) -> [f64; 2] {
        let spaces = self.input.volumes.at(0.0);
        let cold_m3_k = spaces.all_cold_m3() / self.cold_k;
        let pressure = (cold_m3_k + spaces.hot_m3 / self.hot_k + self.dead_m3_k).recip();
        [pressure, pressure * cold_m3_k]
    }

    /// Whether pressure (over a reference) and cold mass leave gas in both spaces.
    pub fn sound(&self, state: &[f64], reference: f64) -> bool {
        let hot = 1.0 - state[1] - state[0] * reference * self.dead_m3_k;
        state.iter().all(|s| s.is_finite() && *s > 0.0) && hot > 0.0
    }

    /// Temperatures of cold and hot space \[K\].
    pub fn temperatures_k(&self, angle_rad: f64, y: &State) -> [f64; 2] {
        let spaces = self.input.volumes.at(angle_rad);
        let hot_mass = 1.0 - y[1] - y[0] * self.dead_m3_k;
        [y[0] * spaces.all_cold_m3() / y[1], y[0] * spaces.hot_m3 / hot_mass]
    }

    /// Rates with the gas flowing as said.
    pub fn rates(&self, angle_rad: f64, y: &State, flow: Flow) -> Rates {
        let (spaces, change) = (self.input.volumes.at(angle_rad), self.input.volumes.slope(angle_rad));
        let (vc, ve) = (spaces.all_cold_m3(), spaces.hot_m3);
        let (dvc, dve) = (change.all_cold_m3(), change.hot_m3);
        let (p, gamma) = (y[0], self.gamma);
        let tc = p * vc / y[1];
        let te = p * ve / (1.0 - y[1] - p * self.dead_m3_k);
        let tck = if flow.from_cold { tc } else { self.cold_k };
        let the = if flow.to_hot { self.hot_k } else { te };
        let dp = -gamma * p * (dvc / tck + dve / the) / (vc / tck + gamma * self.dead_m3_k + ve / the);
        let dmc = (p * dvc + vc * dp / gamma) / tck;
        let dme = (p * dve + ve * dp / gamma) / the;
        let [vk, vr, vh] = self.dead_m3;
        let ck = -dmc;
        let kr = ck - vk * dp / self.cold_k;
        let rh = kr - vr * dp / self.between_k;
        let (cv, cp) = (1.0 / (gamma - 1.0), gamma / (gamma - 1.0));
        let heat = |v: f64, inflow: f64, outflow: f64| v * dp * cv - cp * (inflow - outflow);
        let slope = [
            dp,
            dmc,
            p * dvc,
            p * dve,
            heat(vk, tck * ck, self.cold_k * kr),
            heat(vr, self.cold_k * kr, self.hot_k * rh),
            heat(vh, self.hot_k * rh, the * dme),
            p,
            tc,
            te,
        ];
        Rates { slope, out_of_cold: ck, into_hot: dme }
    }
}
