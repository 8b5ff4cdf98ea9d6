//! Exact solids: every bore a cylinder, every chamfer a cone, every fillet a torus, every flat a plane.
//!
//! Topology is that of `truck-topology`, geometry our own: [`Curve`] and [`Surface`] with exact frames.
//! A turned body or a plate is built directly; a feature is spliced into the face on which it lies, so
//! that no boolean operation is needed and nothing is approximated but the curve in which two cylinders
//! meet (a cubic spline within 10⁻⁷ mm of both).

mod bore;
mod chain;
mod clash;
mod curve;
mod draft;
mod error;
mod frame;
mod gate;
mod host;
mod meet;
mod prism;
mod skin;
mod space;
mod spline;
mod split;
mod surface;
mod turn;
mod wall;

pub use curve::{Arc, Curve};
pub use error::SolidError;
pub use frame::Frame;
pub use skin::{Edge, Face, Shell, Vertex, Wire, directed};
pub use spline::Spline;
pub use surface::Surface;

use super::recipe::Recipe;
use super::{Point3, Vector3};
use draft::Draft;

/// An exact solid.
#[derive(Clone)]
pub struct Solid {
    body: truck_topology::Solid<Point3, Curve, Surface>,
}

impl Solid {
    /// The faces. Their boundaries run counter-clockwise seen from outside, the outer one first; their
    /// orientation says whether the natural side of the surface (see [`Surface`]) is the outside.
    pub fn faces(&self) -> impl Iterator<Item = &Face> {
        self.body.face_iter()
    }

    /// The same solid moved \[mm\].
    pub fn moved(&self, by: Vector3) -> Self {
        let body = self.body.mapped(|p| *p + by, |c| c.moved(by), |s| s.moved(by));
        Self { body }
    }

    /// The topology underneath.
    pub fn body(&self) -> &truck_topology::Solid<Point3, Curve, Surface> {
        &self.body
    }
}

/// Makes the solid of a recipe.
///
/// # Errors
/// Everything that keeps the recipe from being one sound solid, see [`SolidError`].
pub fn build(recipe: &Recipe) -> Result<Solid, SolidError> {
    let mut draft = Draft::body(recipe)?;
    for i in 0..recipe.features.len() {
        draft.add(i)?;
    }
    let faces = draft.skins.into_iter().map(|s| s.face()).collect::<Result<Vec<_>, _>>()?;
    let body = truck_topology::Solid::try_new(vec![Shell::from(faces)])
        .map_err(|e| SolidError::Open(e.to_string()))?;
    Ok(Solid { body })
}
