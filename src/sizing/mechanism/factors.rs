//! Factors on the friction of each element: 1 leaves the formulas as they are.

use serde::{Deserialize, Serialize};

/// Factors on friction, for sampling and for trying what less friction would gain.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct FrictionFactors {
    /// Piston rings.
    pub rings: f64,
    /// Rod gland.
    pub gland: f64,
    /// Bushes and linear bearings of the rods.
    pub guides: f64,
    /// Ball bearings.
    pub bearings: f64,
    /// Belt.
    pub belt: f64,
    /// Air on flywheel and webs.
    pub windage: f64,
}

impl FrictionFactors {
    /// The same factor on everything.
    pub fn all(factor: f64) -> Self {
        Self { rings: factor, gland: factor, guides: factor, bearings: factor, belt: factor, windage: factor }
    }

    /// Both factors one after the other.
    pub fn times(&self, other: &Self) -> Self {
        Self {
            rings: self.rings * other.rings,
            gland: self.gland * other.gland,
            guides: self.guides * other.guides,
            bearings: self.bearings * other.bearings,
            belt: self.belt * other.belt,
            windage: self.windage * other.windage,
        }
    }

    /// Friction at the first move after a rest, by the figures beside each formula.
    pub fn breakaway() -> Self {
        use crate::sizing::losses::{ball_bearing, bush, gland, ring};
        Self {
            rings: ring::BREAKAWAY,
            gland: gland::BREAKAWAY,
            guides: bush::BREAKAWAY,
            bearings: ball_bearing::BREAKAWAY,
            belt: 1.0,
            windage: 0.0,
        }
    }
}

impl Default for FrictionFactors {
    fn default() -> Self {
        Self::all(1.0)
    }
}
