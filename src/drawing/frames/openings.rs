//! Where a face is open, so that an arrow would point at nothing: holes, pockets and what stands on it.

use crate::drawing::bore;
use crate::shape::control::Spot;
use crate::shape::recipe::{Body, End, Feature, Kind, Recipe};
use crate::shape::{EuclideanSpace, InnerSpace, Point3, Vector3};

/// Air kept around an opening \[mm\].
const AIR: f64 = 0.3;

/// A ring, or a circle, in which a face is not there.
#[derive(Clone, Copy, Debug)]
pub struct Opening {
    centre: Point3,
    along: Vector3,
    inner: f64,
    outer: f64,
}

/// Openings of a face, told generously: whatever runs square to it counts, wherever it starts.
pub fn openings(recipe: &Recipe, spot: &Spot) -> Vec<Opening> {
    let Spot::Face { normal, .. } = *spot else { return Vec::new() };
    let square = |f: &&Feature| f.axis.direction.cross(normal).magnitude() < 1e-9;
    let turned = matches!(recipe.body, Body::Turned(_));
    // a turned face knows its own ring, within which only a ring groove can lie on the axis
    let on_axis = |f: &Feature| f.axis.origin.x.hypot(f.axis.origin.y) < 1e-9;
    let island = |f: &Feature| matches!(f.kind, Kind::Bore { end: End::Island, .. });
    let counts = |f: &&Feature| !turned || !on_axis(f) || island(f);
    recipe.features.iter().filter(square).filter(counts).map(opening).collect()
}

fn opening(f: &Feature) -> Opening {
    let (inner, outer) = match &f.kind {
        Kind::Bore { chain, end: End::Island, .. } => {
            (chain.last().map_or(0.0, |n| n.r), bore::widest(chain))
        }
        Kind::Bore { chain, .. } | Kind::Boss { chain } => (0.0, bore::widest(chain)),
        Kind::Pocket { outline, .. } | Kind::Pad { outline, .. } => {
            let far = outline.pieces().into_iter().flat_map(|p| [p.at(0.0), p.at(0.5)]);
            (0.0, far.map(|p| p.to_vec().magnitude()).fold(0.0, f64::max))
        }
    };
    Opening { centre: f.axis.origin, along: f.axis.direction, inner, outer }
}

impl Opening {
    /// Whether a point of the face lies in it.
    pub fn holds(&self, p: Point3) -> bool {
        let d = p - self.centre;
        let r = (d - self.along * d.dot(self.along)).magnitude();
        self.inner - AIR < r && r < self.outer + AIR
    }
}
