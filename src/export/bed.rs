//! How a trial print stands on the bed: on z = 0, on that of its two ends which has more face to stand on.

use super::aids::LiesEntry;
use super::holes::rounded;
use crate::parts::aids::AidKind;
use crate::shape::mesh::Mesh;
use crate::shape::{InnerSpace, Point3};

/// Faces that lie this near to an end stand on it \[mm\].
const ON_END: f64 = 1e-6;
/// How much more face the other end must have for the part to be turned over.
const CLEARLY: f64 = 1.01;

/// Turned over about X or not, and then lifted \[mm\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standing {
    trial: bool,
    over: bool,
    lift: f64,
}

impl Standing {
    /// Of a print: jigs and templates lie as they are drawn.
    pub fn of(kind: AidKind, mesh: &Mesh) -> Self {
        if kind != AidKind::TrialPrint {
            return Self { trial: false, over: false, lift: 0.0 };
        }
        let ends = mesh
            .points
            .iter()
            .fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], p| [low.min(p.z), high.max(p.z)]);
        let [low, high] = ends.map(|z| face_mm2(mesh, z));
        let over = high > CLEARLY * low;
        Self { trial: true, over, lift: if over { ends[1] } else { -ends[0] } }
    }

    /// The mesh as it stands.
    pub fn put(&self, mesh: &Mesh) -> Mesh {
        let sign = if self.over { -1.0 } else { 1.0 };
        let points =
            mesh.points.iter().map(|p| Point3::new(p.x, sign * p.y, sign * p.z + self.lift)).collect();
        Mesh { points, triangles: mesh.triangles.clone() }
    }

    /// Entry of the manifest; none for what lies as it is drawn.
    pub fn entry(&self) -> Option<LiesEntry> {
        let up = if self.over { -1.0 } else { 1.0 };
        self.trial.then(|| LiesEntry {
            origin_mm: [0.0, 0.0, rounded(self.lift)],
            z_axis: [0.0, 0.0, up],
            x_axis: [1.0, 0.0, 0.0],
        })
    }
}

/// Area of the triangles that lie at a height \[mm²\].
fn face_mm2(mesh: &Mesh, z: f64) -> f64 {
    let area = |t: &[u32; 3]| {
        let [a, b, c] = mesh.corners(*t);
        let on = [a, b, c].iter().all(|p| (p.z - z).abs() < ON_END);
        if on { 0.5 * (b - a).cross(c - a).magnitude() } else { 0.0 }
    };
    mesh.triangles.iter().map(area).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A pyramid on its point is turned over, one on its base is only lifted.
    #[test]
    fn a_print_stands_on_its_larger_face() {
        let points = [(0.0, 0.0, -3.0), (4.0, 0.0, 2.0), (0.0, 4.0, 2.0), (0.0, 0.0, 2.0)];
        let on_point = Mesh {
            points: points.map(|(x, y, z)| Point3::new(x, y, z)).to_vec(),
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
        };
        let stands = Standing::of(AidKind::TrialPrint, &on_point);
        let put = stands.put(&on_point);
        assert!((put.points[0].z - 5.0).abs() < 1e-12 && put.points[1..].iter().all(|p| p.z.abs() < 1e-12));
        assert!((put.volume_mm3() - on_point.volume_mm3()).abs() < 1e-9);
        let again = Standing::of(AidKind::TrialPrint, &put);
        assert!(!again.over && again.lift.abs() < 1e-12);
        assert_eq!(Standing::of(AidKind::DrillingJig, &on_point).put(&on_point), on_point);
    }
}
