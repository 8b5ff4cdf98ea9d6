//! Binary STL: 80 bytes of header, the number of triangles, and for each its normal, its three corners and two bytes of
//! nothing. It holds no unit; ours is the millimetre.

use crate::shape::InnerSpace;
use crate::shape::mesh::Mesh;

/// Length of the header \[bytes\].
const HEADER: usize = 80;
/// Length of a triangle \[bytes\].
const TRIANGLE: usize = 50;

/// The bytes of a binary STL file. The header does not begin with `solid`, which would make it one of text.
pub fn stl(mesh: &Mesh, name: &str) -> Vec<u8> {
    let mut bytes = Vec::with_capacity(HEADER + 4 + TRIANGLE * mesh.triangles.len());
    let header = format!("binary STL in millimetres: {name}");
    bytes.extend(header.bytes().filter(u8::is_ascii).chain(std::iter::repeat(b' ')).take(HEADER));
    bytes.extend((mesh.triangles.len() as u32).to_le_bytes());
    for triangle in &mesh.triangles {
        let [a, b, c] = mesh.corners(*triangle);
        let across = (b - a).cross(c - a);
        let long = across.magnitude();
        let normal = if long > 0.0 { across / long } else { across };
        let rows = [[normal.x, normal.y, normal.z], [a.x, a.y, a.z], [b.x, b.y, b.z], [c.x, c.y, c.z]];
        for number in rows.into_iter().flatten() {
            bytes.extend((number as f32).to_le_bytes());
        }
        bytes.extend([0, 0]);
    }
    bytes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::Point3;

    #[test]
    fn a_triangle_is_fifty_bytes_and_its_normal_has_the_length_one() {
        let points = vec![Point3::new(0.0, 0.0, 1.0), Point3::new(2.0, 0.0, 1.0), Point3::new(0.0, 3.0, 1.0)];
        let bytes = stl(&Mesh { points, triangles: vec![[0, 1, 2]] }, "plate");
        assert_eq!(bytes.len(), 134);
        assert!(bytes.starts_with(b"binary STL in millimetres: plate "));
        let number = |at: usize| f32::from_le_bytes(bytes[at..at + 4].try_into().unwrap());
        assert_eq!(bytes[80..84], [1, 0, 0, 0]);
        assert_eq!([84, 88, 92].map(number), [0.0, 0.0, 1.0]);
        assert_eq!([108, 112, 116].map(number), [2.0, 0.0, 1.0]);
    }
}
