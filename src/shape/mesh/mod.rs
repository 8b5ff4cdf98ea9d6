//! Triangles of a solid, for printing: watertight because every edge is sampled once and both of its faces use those points.
//!
//! A face is triangulated in a plane of parameters (`chart.rs`) by a constrained Delaunay triangulation of the crate
//! `spade`; where a triangle of a curved face lies too far from its surface, points are added inside the face.

mod chart;
mod fill;
mod sample;
mod strip;

use super::solid::Solid;
use super::{EuclideanSpace, InnerSpace, Point3};
use sample::Samples;

/// Chord error at which edges are sampled \[mm\]. Faces stay within twice as much, below the 0.02 mm that printers and
/// their slicing programs resolve (common practice, no source).
pub const CHORD_MM: f64 = 0.008;
/// How often the chord error is halved when chords of one face run into each other: down to a micrometre.
const FINER: i32 = 3;

/// A closed surface of triangles.
#[derive(Clone, Debug, PartialEq)]
pub struct Mesh {
    /// Corners \[mm\].
    pub points: Vec<Point3>,
    /// Triangles by the numbers of their corners, counter-clockwise seen from outside.
    pub triangles: Vec<[u32; 3]>,
}

/// Why a solid cannot be meshed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum MeshError {
    /// Edges of a face are nearer to each other than their chords.
    #[error("the edges of the {0} lie closer together than chords of a thousandth of a millimetre can tell")]
    Crossing(String),
    /// The triangles leave a gap.
    #[error("the triangles leave {0} open edges")]
    Open(usize),
}

/// Meshes a solid within [`CHORD_MM`].
///
/// # Errors
/// See [`MeshError`].
pub fn mesh(solid: &Solid) -> Result<Mesh, MeshError> {
    let at = |halved: i32| mesh_within(solid, CHORD_MM * 0.5_f64.powi(halved));
    let first = at(0);
    (1..=FINER).fold(first, |found, halved| match found {
        Err(MeshError::Crossing(_)) => at(halved),
        other => other,
    })
}

/// Meshes a solid whose edges are sampled at a chord error \[mm\].
fn mesh_within(solid: &Solid, chord_mm: f64) -> Result<Mesh, MeshError> {
    let mut samples = Samples::new(chord_mm);
    let mut triangles = Vec::new();
    for face in solid.faces() {
        let wires: Vec<Vec<u32>> = face.boundaries().iter().map(|w| samples.ring(w)).collect();
        fill::fill(face, &wires, &mut samples.points, chord_mm, &mut triangles)?;
    }
    let mesh = Mesh { points: samples.points, triangles };
    match mesh.open_edges() {
        0 => Ok(mesh),
        open => Err(MeshError::Open(open)),
    }
}

impl Mesh {
    /// Corners of a triangle \[mm\].
    pub fn corners(&self, triangle: [u32; 3]) -> [Point3; 3] {
        triangle.map(|i| self.points[i as usize])
    }

    /// Enclosed volume \[mm³\]: the sum of the tetrahedra over the triangles, seen from the first point.
    pub fn volume_mm3(&self) -> f64 {
        let base = self.points.first().copied().unwrap_or_else(Point3::origin);
        let tetrahedron = |t: &[u32; 3]| {
            let [a, b, c] = self.corners(*t).map(|p| p - base);
            a.cross(b).dot(c) / 6.0
        };
        self.triangles.iter().map(tetrahedron).sum()
    }

    /// Edges of triangles that are not met by exactly one other triangle, run the other way; none in a closed surface.
    pub fn open_edges(&self) -> usize {
        let mut edges: Vec<[u32; 2]> =
            self.triangles.iter().flat_map(|[a, b, c]| [[*a, *b], [*b, *c], [*c, *a]]).collect();
        edges.sort_unstable();
        let twice = edges.windows(2).filter(|w| w[0] == w[1]).count();
        let alone = edges.iter().filter(|[a, b]| edges.binary_search(&[*b, *a]).is_err()).count();
        twice + alone
    }
}
