//! Volume, mass properties, area, bounding box and face counts of a solid, without a mesh.

mod bounds;
mod gauss;
mod integral;

use super::solid::Solid;
use super::{EuclideanSpace, Point3, Vector3};
use integral::{Rules, TERMS};

/// How many faces there are of each kind of surface.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub struct FaceCount {
    /// Flats.
    pub plane: usize,
    /// Cylinders.
    pub cylinder: usize,
    /// Cones.
    pub cone: usize,
    /// Tori.
    pub torus: usize,
    /// Balls.
    pub sphere: usize,
}

/// What is measured on a solid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measure {
    /// Volume \[mm³\].
    pub volume_mm3: f64,
    /// Surface \[mm²\].
    pub area_mm2: f64,
    /// Centre of mass \[mm\].
    pub centre: Point3,
    /// Inertia tensor about the centre of mass for unit density \[mm⁵\]; times the density in g/mm³ it is
    /// in g·mm². The off-diagonal terms are −∫xy dV and its kin.
    pub inertia_mm5: [[f64; 3]; 3],
    /// Least coordinates \[mm\].
    pub low: Point3,
    /// Greatest coordinates \[mm\].
    pub high: Point3,
    /// Faces by kind.
    pub faces: FaceCount,
}

/// Measures a solid.
///
/// Exact to rounding where edges are lines and arcs; where two cylinders meet, as close as the spline
/// that stands for their curve (10⁻⁷ mm).
pub fn measure(solid: &Solid) -> Measure {
    let (low, high) = bounds::bounds(solid);
    let base = low + (high - low) * 0.5;
    let rules = Rules::new();
    let mut s = [0.0; TERMS];
    solid.faces().for_each(|face| integral::add(&mut s, face, base, &rules));
    let volume = s[0];
    let c = Vector3::new(s[1], s[2], s[3]) / volume;
    let square = [0, 1, 2].map(|k| s[4 + k] - volume * c[k] * c[k]);
    let [xy, yz, zx] = [(0, 1), (1, 2), (2, 0)].map(|(i, j)| s[7 + i] - volume * c[i] * c[j]);
    Measure {
        volume_mm3: volume,
        area_mm2: s[10],
        centre: Point3::from_vec(base.to_vec() + c),
        inertia_mm5: [
            [square[1] + square[2], -xy, -zx],
            [-xy, square[0] + square[2], -yz],
            [-zx, -yz, square[0] + square[1]],
        ],
        low,
        high,
        faces: count(solid),
    }
}

fn count(solid: &Solid) -> FaceCount {
    let mut n = FaceCount::default();
    for face in solid.faces() {
        match face.surface().kind() {
            "plane" => n.plane += 1,
            "cylinder" => n.cylinder += 1,
            "cone" => n.cone += 1,
            "torus" => n.torus += 1,
            _ => n.sphere += 1,
        }
    }
    n
}
