//! Where the features that controls name lie on the part: read off the recipe.

use super::{LOWER_FACE, RIGHT_EDGE, TOP_EDGE, UPPER_FACE};
use crate::shape::loops::{Leave, Loop, Piece};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, Feature, Kind, ProfileNode, Recipe};
use crate::shape::{EuclideanSpace, InnerSpace, Point2, Point3, Vector3};

/// A surface that a control names.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spot {
    /// A cylinder, told by its axis.
    Axis {
        /// A point of the axis, at one end of the surface \[mm\].
        origin: Point3,
        /// Along the axis, to the other end.
        direction: Vector3,
        /// Radius \[mm\].
        radius: f64,
        /// Length of the surface \[mm\].
        length: f64,
    },
    /// A plane.
    Face {
        /// A point of it, on the axis of what it is turned about \[mm\].
        at: Point3,
        /// Out of the metal.
        normal: Vector3,
        /// Least and greatest radius about `at`, for a face that is turned \[mm\].
        ring: Option<[f64; 2]>,
    },
}

/// All surfaces of a name: one, or those of every member of a pattern. None if nothing is called so, or if what is called so
/// is neither a cylinder nor flat.
pub fn spots(recipe: &Recipe, name: &str) -> Vec<Spot> {
    let mut found = match &recipe.body {
        Body::Turned(nodes) => chain(nodes, true, &Place::upright(), name),
        Body::Plate { outline, thickness, .. } => plate(outline, *thickness, name),
    };
    for feature in &recipe.features {
        found.extend(of_feature(feature, name));
    }
    found
}

/// Origin and direction of a run of turned surfaces, and whether it adds metal.
struct Place {
    origin: Point3,
    direction: Vector3,
    /// Sign of the normals of flats: 1 where metal is added, -1 where it is taken away.
    adds: f64,
}

impl Place {
    /// The body's own axis.
    fn upright() -> Self {
        Self { origin: Point3::origin(), direction: Vector3::unit_z(), adds: 1.0 }
    }
}

/// Surfaces of one name in a run.
fn chain(nodes: &[ProfileNode], closed: bool, place: &Place, name: &str) -> Vec<Spot> {
    let n = nodes.len();
    let count = if closed { n } else { n.saturating_sub(1) };
    let named = (0..count).filter(|i| nodes[*i].tag.as_ref().is_some_and(|t| t.name == name));
    named.filter_map(|i| surface(&nodes[i], &nodes[(i + 1) % n], place)).collect()
}

/// A cylinder or flat between two nodes.
fn surface(a: &ProfileNode, b: &ProfileNode, place: &Place) -> Option<Spot> {
    if a.leave != Leave::Line {
        return None;
    }
    let at = |z: f64| place.origin + place.direction * z;
    if (a.r - b.r).abs() < 1e-9 {
        let direction = place.direction * (b.z - a.z).signum();
        return Some(Spot::Axis { origin: at(a.z), direction, radius: a.r, length: (b.z - a.z).abs() });
    }
    let ring = Some([a.r.min(b.r), a.r.max(b.r)]);
    // a body runs with its metal on the left, a boss from its foot outwards, a hole from its mouth into the metal
    let normal = place.direction * (a.r - b.r).signum() * place.adds;
    ((a.z - b.z).abs() < 1e-9).then(|| Spot::Face { at: at(a.z), normal, ring })
}

/// Surfaces of a feature: those whose tag has the name, else the first cylinder of a feature that bears it.
fn of_feature(feature: &Feature, name: &str) -> Vec<Spot> {
    let (origin, direction) = (feature.axis.origin, feature.axis.direction);
    match &feature.kind {
        Kind::Bore { chain: nodes, .. } | Kind::Boss { chain: nodes } => {
            let adds = if matches!(feature.kind, Kind::Boss { .. }) { 1.0 } else { -1.0 };
            let place = Place { origin, direction, adds };
            let found = chain(nodes, false, &place, name);
            if !found.is_empty() || feature.name != name {
                return found;
            }
            let first = nodes.windows(2).find_map(|w| surface(&w[0], &w[1], &place).filter(is_axis));
            first.into_iter().collect()
        }
        Kind::Pad { outline, height } if feature.name == name => {
            let radius = farthest(outline);
            vec![Spot::Axis { origin, direction, radius, length: *height }]
        }
        Kind::Pocket { .. } | Kind::Pad { .. } => Vec::new(),
    }
}

fn is_axis(spot: &Spot) -> bool {
    matches!(spot, Spot::Axis { .. })
}

/// Radius of the circle about the origin that the outermost points of an outline lie on \[mm\].
fn farthest(outline: &Loop) -> f64 {
    let ends = outline.pieces().into_iter().flat_map(|p| [p.at(0.0), p.at(1.0)]);
    ends.map(|p| p.to_vec().magnitude()).fold(0.0, f64::max)
}

/// Surfaces of a plate itself: faces, straight edges, the rim of a disc.
fn plate(outline: &Outline, thickness: f64, name: &str) -> Vec<Spot> {
    let up = Vector3::unit_z();
    let flat = |z: f64, normal| vec![Spot::Face { at: Point3::new(0.0, 0.0, z), normal, ring: None }];
    match (name, outline) {
        (LOWER_FACE, _) => flat(0.0, -up),
        (UPPER_FACE, _) => flat(thickness, up),
        (TOP_EDGE, _) => edge(outline, Vector3::unit_y()),
        (RIGHT_EDGE, _) => edge(outline, Vector3::unit_x()),
        (_, Outline::Disc { centre, diameter, tag }) if tag.name == name => {
            let origin = Point3::new(centre.x, centre.y, 0.0);
            vec![Spot::Axis { origin, direction: up, radius: diameter / 2.0, length: thickness }]
        }
        _ => Vec::new(),
    }
}

/// The straight edge that reaches farthest along a direction, if it is square to it.
fn edge(outline: &Outline, out: Vector3) -> Vec<Spot> {
    let boundary = outline.boundary();
    let far = |p: Point2| p.x * out.x + p.y * out.y;
    let (low, high) = boundary.bounds();
    let most = far(low).max(far(high));
    let there = boundary.pieces().into_iter().find_map(|piece| match piece {
        Piece::Line { from, to } if (far(from) - most).abs() < 1e-9 && (far(to) - most).abs() < 1e-9 => {
            Some(piece.at(0.5))
        }
        _ => None,
    });
    let face = |p: Point2| Spot::Face { at: Point3::new(p.x, p.y, 0.0), normal: out, ring: None };
    there.map(face).into_iter().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::recipe::{Axis, End, Place as Told, Tag};

    fn tagged(r: f64, z: f64, name: &str) -> ProfileNode {
        ProfileNode::new(r, z).tag(Tag::new(name))
    }

    fn tube() -> Recipe {
        let nodes = vec![
            tagged(10.0, 0.0, "low"),
            tagged(20.0, 0.0, "outside"),
            tagged(20.0, 30.0, "high"),
            tagged(10.0, 30.0, "bore"),
        ];
        Recipe { body: Body::Turned(nodes), features: Vec::new() }
    }

    #[test]
    fn faces_of_a_tube_look_away_from_each_other_and_its_bore_lies_on_the_axis() {
        let normal = |name: &str| match spots(&tube(), name)[..] {
            [Spot::Face { normal, ring: Some([10.0, 20.0]), .. }] => normal.z,
            ref other => panic!("{name}: {other:?}"),
        };
        assert_eq!((normal("low"), normal("high")), (-1.0, 1.0));
        let bore = spots(&tube(), "bore");
        assert!(matches!(bore[..], [Spot::Axis { radius: 10.0, length: 30.0, .. }]), "{bore:?}");
        assert!(spots(&tube(), "nothing").is_empty());
    }

    #[test]
    fn the_floor_of_a_hole_looks_out_of_it_and_the_end_of_a_boss_away_from_its_foot() {
        let run = vec![tagged(5.0, 0.0, "wall"), tagged(5.0, 8.0, "floor"), ProfileNode::new(0.0, 8.0)];
        let feature = |kind, z: f64| Feature {
            name: "it".into(),
            axis: Axis { origin: Point3::new(1.0, 2.0, 10.0), direction: Vector3::new(0.0, 0.0, z) },
            x_axis: Vector3::unit_x(),
            kind,
            place: Told::Central,
        };
        let hole = feature(Kind::Bore { chain: run.clone(), end: End::Blind, thread: None }, -1.0);
        let boss = feature(Kind::Boss { chain: run }, 1.0);
        let floor = |f: &Feature| match of_feature(f, "floor")[..] {
            [Spot::Face { at, normal, .. }] => (at.z, normal.z),
            ref other => panic!("{other:?}"),
        };
        assert_eq!((floor(&hole), floor(&boss)), ((2.0, 1.0), (18.0, 1.0)));
    }
}
