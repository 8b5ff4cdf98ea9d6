//! Heat that goes from the hot to the cold end without working, by name.

use super::change::Change;
use crate::sizing::losses::gap_pumping::ClosedGap;
use crate::sizing::losses::radiation::Hollow;
use crate::sizing::losses::shuttle::Shuttle;
use crate::sizing::result::Loss;

/// The ways for heat past the cycle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatPaths {
    /// Displacer that shuttles heat.
    pub shuttle: Shuttle,
    /// Cylinder wall and insulating joint in a row \[W/K\].
    pub cylinder_w_k: f64,
    /// Shell of the displacer \[W/K\].
    pub shell_w_k: f64,
    /// Inside of the displacer.
    pub inside: Hollow,
    /// A gap that is a dead end; `None` where the gas goes through it.
    pub closed_gap: Option<ClosedGap>,
}

/// Conditions for the losses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ends {
    /// Hot end \[K\].
    pub hot_k: f64,
    /// Cold end \[K\].
    pub cold_k: f64,
    /// Speed \[rpm\].
    pub speed_rpm: f64,
    /// Pressure amplitude over the mean.
    pub swing: f64,
}

impl HeatPaths {
    /// Losses by name \[W\].
    pub fn losses(&self, ends: &Ends, change: &Change) -> Vec<Loss> {
        let fall_k = ends.hot_k - ends.cold_k;
        let shuttle = Shuttle {
            stroke_mm: self.shuttle.stroke_mm * change.displacer_stroke,
            gap_mm: self.shuttle.gap_mm * change.gap,
            ..self.shuttle
        };
        let mut all = vec![
            loss("shuttle", shuttle.conductance_w_k() * fall_k),
            loss(
                "conduction along the cylinder and through the joint",
                change.conduction * self.cylinder_w_k * fall_k,
            ),
            loss("conduction along the displacer", change.conduction * self.shell_w_k * fall_k),
            loss("radiation inside the displacer", self.inside.heat_w(ends.hot_k, ends.cold_k)),
        ];
        if let Some(gap) = self.closed_gap {
            let gap = ClosedGap { gap_mm: gap.gap_mm * change.gap, ..gap };
            all.push(loss(
                "pumping in the closed gap",
                gap.conductance_w_k(ends.speed_rpm, ends.swing) * fall_k,
            ));
        }
        all
    }
}

/// A named loss.
pub(super) fn loss(name: &str, power_w: f64) -> Loss {
    Loss { name: name.into(), power_w }
}
