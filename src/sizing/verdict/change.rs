//! One thing changed, all else the same: what sampling and what-if runs ask of a model.

use crate::sizing::mechanism::FrictionFactors;

/// Factors (1 changes nothing) and additions (0 changes nothing).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// Factors on the friction of the mechanism.
    pub friction: FrictionFactors,
    /// Factor on the leak past rings and gland.
    pub leak: f64,
    /// Factor on heat transfer between walls and gas.
    pub heat_transfer: f64,
    /// Another one on that in the cylinder spaces alone.
    pub end_heat_transfer: f64,
    /// Factor on the friction of the flow.
    pub flow_friction: f64,
    /// Factor on dead volumes and clearances, the displacer's gap left out.
    pub dead_volume: f64,
    /// Factor on the displacer's gap.
    pub gap: f64,
    /// Factor on conduction from hot to cold along walls and through the joint.
    pub conduction: f64,
    /// Factor on the heat of the heater, where it is known.
    pub heater: f64,
    /// Factor on the piston's stroke.
    pub piston_stroke: f64,
    /// Factor on the displacer's stroke.
    pub displacer_stroke: f64,
    /// Factor on the pressure of charge and buffer.
    pub charge: f64,
    /// Factor on the belt's tension.
    pub belt_tension: f64,
    /// Added to the temperature of the hot wall \[K\].
    pub hot_k: f64,
    /// Added to the temperature of the cold wall \[K\].
    pub cold_k: f64,
    /// Added to the temperature of the hot wall as a share of hot less cold.
    pub hot_share: f64,
    /// Added to the temperature of the cold wall as a share of hot less cold.
    pub cold_share: f64,
    /// Added to the displacer's lead \[deg\].
    pub lead_deg: f64,
}

impl Change {
    /// Nothing changed.
    pub const NONE: Self = Self {
        friction: FrictionFactors {
            rings: 1.0,
            gland: 1.0,
            guides: 1.0,
            bearings: 1.0,
            belt: 1.0,
            windage: 1.0,
        },
        leak: 1.0,
        heat_transfer: 1.0,
        end_heat_transfer: 1.0,
        flow_friction: 1.0,
        dead_volume: 1.0,
        gap: 1.0,
        conduction: 1.0,
        heater: 1.0,
        piston_stroke: 1.0,
        displacer_stroke: 1.0,
        charge: 1.0,
        belt_tension: 1.0,
        hot_k: 0.0,
        cold_k: 0.0,
        hot_share: 0.0,
        cold_share: 0.0,
        lead_deg: 0.0,
    };

    /// Walls \[K\] after the change, from those before it.
    pub fn walls_k(&self, [hot_k, cold_k]: [f64; 2]) -> [f64; 2] {
        let fall_k = hot_k - cold_k;
        [hot_k + self.hot_k + self.hot_share * fall_k, cold_k + self.cold_k + self.cold_share * fall_k]
    }

    /// Both changes together.
    pub fn and(&self, other: &Self) -> Self {
        Self {
            friction: self.friction.times(&other.friction),
            leak: self.leak * other.leak,
            heat_transfer: self.heat_transfer * other.heat_transfer,
            end_heat_transfer: self.end_heat_transfer * other.end_heat_transfer,
            flow_friction: self.flow_friction * other.flow_friction,
            dead_volume: self.dead_volume * other.dead_volume,
            gap: self.gap * other.gap,
            conduction: self.conduction * other.conduction,
            heater: self.heater * other.heater,
            piston_stroke: self.piston_stroke * other.piston_stroke,
            displacer_stroke: self.displacer_stroke * other.displacer_stroke,
            charge: self.charge * other.charge,
            belt_tension: self.belt_tension * other.belt_tension,
            hot_k: self.hot_k + other.hot_k,
            cold_k: self.cold_k + other.cold_k,
            hot_share: self.hot_share + other.hot_share,
            cold_share: self.cold_share + other.cold_share,
            lead_deg: self.lead_deg + other.lead_deg,
        }
    }
}

impl Default for Change {
    fn default() -> Self {
        Self::NONE
    }
}
