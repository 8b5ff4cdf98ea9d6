//! Heat transfer and flow friction of the surfaces that small engines have, by published correlations.
//!
//! Re = ρ u d_h/μ, d_h = 4 (gas volume)/(wetted area), u the mean velocity in the free cross-section.
//! Friction is the Darcy factor f, Δp = f (L/d_h) ρ u²/2; it is handed out as f Re, which stays finite when
//! the gas stands still. All correlations are for steady flow; [`oscillation`] says when that is sound.

pub mod ends;
pub mod felt;
pub mod gap;
pub mod mesh;
pub mod oscillation;
pub mod slots;
pub mod tubes;

use serde::{Deserialize, Serialize};

/// Where laminar correlations end and turbulent ones begin (V. Gnielinski, Int. J. Heat Mass Transfer 63
/// (2013) 134, from memory): between the two both are mixed in proportion to Re.
const CHANGE_OVER: [f64; 2] = [2300.0, 4000.0];

/// Laminar and turbulent value, mixed between Re 2300 and 4000.
fn mixed(re: f64, laminar: f64, turbulent: impl Fn(f64) -> f64) -> f64 {
    let [low, high] = CHANGE_OVER;
    if re <= low {
        return laminar;
    }
    let share = ((re - low) / (high - low)).min(1.0);
    (1.0 - share) * laminar + share * turbulent(re.max(high))
}

/// Kind of surface between gas and wall.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Surface {
    /// Narrow annular gap, both walls at the same temperature.
    AnnularGap,
    /// Round tubes.
    Tubes,
    /// Rectangular slots, also between fins; height over width or the other way round, at most 1.
    Slots {
        /// Short side over long side.
        aspect: f64,
    },
    /// Stacked plain woven screens.
    WovenMesh {
        /// Free share of the volume.
        porosity: f64,
    },
    /// Wool or felt of random fibres.
    RandomFibre {
        /// Free share of the volume.
        porosity: f64,
    },
}

impl Surface {
    /// Nusselt number on the hydraulic diameter; `d_over_l` is d_h over the length in flow direction.
    pub fn nusselt(&self, re: f64, pr: f64, d_over_l: f64) -> f64 {
        match *self {
            Self::AnnularGap => gap::nusselt(re, pr, d_over_l),
            Self::Tubes => tubes::nusselt(re, pr, d_over_l),
            Self::Slots { aspect } => slots::nusselt(re, pr, d_over_l, aspect),
            Self::WovenMesh { porosity } => mesh::nusselt(re, pr, porosity),
            Self::RandomFibre { porosity } => felt::nusselt(re, pr, porosity),
        }
    }

    /// Darcy friction factor times Re.
    pub fn friction_re(&self, re: f64) -> f64 {
        match *self {
            Self::AnnularGap => gap::friction_re(re),
            Self::Tubes => tubes::friction_re(re),
            Self::Slots { aspect } => slots::friction_re(re, aspect),
            Self::WovenMesh { .. } => mesh::friction_re(re),
            Self::RandomFibre { .. } => felt::friction_re(re),
        }
    }

    /// What to say where the greatest Re or the porosity is outside of what was measured.
    pub fn out_of_range(&self, re_max: f64) -> Option<String> {
        let porous = |kind: &str, porosity: f64, range: [f64; 2], re: f64| {
            let bounds = format!("porosity {} to {}, Re up to {re}", range[0], range[1]);
            let inside = (range[0]..=range[1]).contains(&porosity) && re_max <= re;
            (!inside).then(|| {
                format!(
                    "{kind} correlation used at porosity {porosity:.2}, Re {re_max:.0}; measured for {bounds}"
                )
            })
        };
        match *self {
            Self::WovenMesh { porosity } => {
                porous("woven mesh", porosity, mesh::POROSITY, mesh::REYNOLDS_MAX)
            }
            Self::RandomFibre { porosity } => {
                porous("random fibre", porosity, felt::POROSITY, felt::REYNOLDS_MAX)
            }
            _ if re_max > tubes::REYNOLDS_MAX => {
                Some(format!("channel correlation used at Re {re_max:.0}; it ends at 5e6"))
            }
            _ => None,
        }
    }

    /// Whether the walls are a fine matrix rather than a channel.
    pub fn is_matrix(&self) -> bool {
        matches!(self, Self::WovenMesh { .. } | Self::RandomFibre { .. })
    }
}
