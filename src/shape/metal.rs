//! Where a recipe has metal: is a point inside the part?
//!
//! For questions that need no solid, such as how much is left behind a hole or whether a key fits between two parts.

use super::loops::{Inside, Leave, Loop, Node};
use super::recipe::{Axis, Body, End, Feature, Kind, ProfileNode, Recipe};
use super::{InnerSpace, Point2, Point3, Vector3};

/// The metal of a part, ready to be asked.
#[derive(Clone, Debug)]
pub struct Metal {
    body: Solid,
    features: Vec<(bool, Solid)>,
}

/// One shape in its own frame, with bounds for a quick no.
#[derive(Clone, Debug)]
struct Solid {
    axis: Axis,
    x_axis: Vector3,
    y_axis: Vector3,
    /// Turned about the axis in (radius, depth), or an outline in (x, y) over a range of depths.
    turned: bool,
    inside: Inside,
    depth: [f64; 2],
    /// Least and greatest coordinate of the outline.
    low: Point2,
    high: Point2,
}

/// How far an opening right through reaches beyond its last node \[mm\], so that no skin of rounding is left.
const BEYOND_MM: f64 = 1e-6;

/// How near to an axis a point still counts as beside it \[mm\].
const AXIS_MM: f64 = 1e-7;

impl Metal {
    /// The metal of a recipe.
    pub fn of(recipe: &Recipe) -> Self {
        let up = Axis { origin: Point3::new(0.0, 0.0, 0.0), direction: Vector3::new(0.0, 0.0, 1.0) };
        let x = Vector3::new(1.0, 0.0, 0.0);
        let body = match &recipe.body {
            Body::Turned(nodes) => Solid::new(up, x, true, path(nodes), [f64::NEG_INFINITY, f64::INFINITY]),
            Body::Plate { outline, thickness, .. } => {
                Solid::new(up, x, false, outline.boundary(), [0.0, *thickness])
            }
        };
        Self { body, features: recipe.features.iter().map(feature).collect() }
    }

    /// Which feature takes the metal away at a point; `None` where there is metal, or nothing of the part at all.
    pub fn opening(&self, p: Point3) -> Option<usize> {
        let last = self.features.iter().enumerate().rev().find(|(_, (_, solid))| solid.contains(p));
        last.and_then(|(i, (adds, _))| (!adds).then_some(i))
    }

    /// Whether there is metal at a point of the part's coordinates \[mm\].
    pub fn contains(&self, p: Point3) -> bool {
        // the last feature that reaches here decides
        match self.features.iter().rev().find(|(_, solid)| solid.contains(p)) {
            Some((adds, _)) => *adds,
            None => self.body.contains(p),
        }
    }
}

/// A feature: whether it adds metal, and its shape.
fn feature(f: &Feature) -> (bool, Solid) {
    let everywhere = [f64::NEG_INFINITY, f64::INFINITY];
    match &f.kind {
        Kind::Bore { chain, end, .. } => {
            (false, Solid::new(f.axis, f.x_axis, true, path(&closed(chain, *end)), everywhere))
        }
        Kind::Boss { chain } => {
            (true, Solid::new(f.axis, f.x_axis, true, path(&closed(chain, End::Blind)), everywhere))
        }
        Kind::Pocket { outline, depth, through } => {
            let bottom = if *through { depth + BEYOND_MM } else { *depth };
            (false, Solid::new(f.axis, f.x_axis, false, outline.clone(), [-BEYOND_MM, bottom]))
        }
        Kind::Pad { outline, height } => {
            (true, Solid::new(f.axis, f.x_axis, false, outline.clone(), [0.0, *height]))
        }
    }
}

/// A run of turned surfaces closed to the axis, or for an island to its own face.
fn closed(chain: &[ProfileNode], end: End) -> Vec<ProfileNode> {
    let mut nodes = chain.to_vec();
    if end == End::Island {
        return nodes;
    }
    if let (End::Through, Some(last)) = (end, chain.last()) {
        nodes.push(ProfileNode::new(last.r, last.z + BEYOND_MM));
        nodes.push(ProfileNode::new(0.0, last.z + BEYOND_MM));
    }
    nodes.push(ProfileNode::new(0.0, 0.0));
    nodes
}

fn path(nodes: &[ProfileNode]) -> Loop {
    Loop::Path(
        nodes.iter().map(|n| Node { at: Point2::new(n.r, n.z), leave: n.leave }).filter(real).collect(),
    )
}

/// Guards against nodes that are no numbers, which no question can be asked of.
fn real(node: &Node) -> bool {
    let centre = match node.leave {
        Leave::Line => node.at,
        Leave::Arc { centre, .. } => centre,
    };
    [node.at.x, node.at.y, centre.x, centre.y].iter().all(|v| v.is_finite())
}

impl Solid {
    fn new(axis: Axis, x_axis: Vector3, turned: bool, outline: Loop, depth: [f64; 2]) -> Self {
        let (low, high) = outline.bounds();
        let inside = Inside::of(&outline);
        Self { axis, x_axis, y_axis: axis.direction.cross(x_axis), turned, inside, depth, low, high }
    }

    fn contains(&self, p: Point3) -> bool {
        let v = p - self.axis.origin;
        let along = v.dot(self.axis.direction);
        let q = if self.turned {
            // a point on the axis lies in the loop, not on its edge
            Point2::new((v - self.axis.direction * along).magnitude().max(AXIS_MM), along)
        } else {
            if along < self.depth[0] || along > self.depth[1] {
                return false;
            }
            Point2::new(v.dot(self.x_axis), v.dot(self.y_axis))
        };
        let within = q.x >= self.low.x && q.x <= self.high.x && q.y >= self.low.y && q.y <= self.high.y;
        within && self.inside.contains(q)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::outline::Outline;
    use crate::shape::recipe::{Place, Tag};

    fn plate(features: Vec<Feature>) -> Metal {
        let outline = Outline::Rectangle {
            low: Point2::new(-20.0, -10.0),
            high: Point2::new(20.0, 10.0),
            corner: 2.0,
            tags: [Tag::new("width"), Tag::new("height")],
        };
        let body = Body::Plate { outline, thickness: 8.0, tag: Tag::new("thickness") };
        Metal::of(&Recipe { body, features })
    }

    fn bore(at: [f64; 3], direction: [f64; 3], chain: &[(f64, f64)], end: End) -> Feature {
        let v = |a: [f64; 3]| Vector3::new(a[0], a[1], a[2]);
        Feature {
            name: "hole".into(),
            axis: Axis { origin: Point3::new(at[0], at[1], at[2]), direction: v(direction) },
            x_axis: Vector3::new(1.0, 0.0, 0.0),
            kind: Kind::Bore {
                chain: chain.iter().map(|(r, z)| ProfileNode::new(*r, *z)).collect(),
                end,
                thread: None,
            },
            place: Place::Central,
        }
    }

    #[test]
    fn holes_are_empty_and_the_rest_is_metal() {
        let down = [0.0, 0.0, -1.0];
        let through = bore([5.0, 0.0, 8.0], down, &[(3.0, 0.0), (3.0, 8.0)], End::Through);
        let blind = bore([-5.0, 0.0, 8.0], down, &[(2.0, 0.0), (2.0, 4.0), (0.0, 5.0)], End::Blind);
        let ring =
            bore([-12.0, 0.0, 8.0], down, &[(4.0, 0.0), (4.0, 3.0), (2.0, 3.0), (2.0, 0.0)], End::Island);
        let metal = plate(vec![through, blind, ring]);
        let at = |x: f64, y: f64, z: f64| metal.contains(Point3::new(x, y, z));
        assert!(!at(5.0, 2.9, 1.0) && at(5.0, 3.1, 1.0));
        assert!(!at(-5.0, 0.0, 3.2) && at(-5.0, 0.0, 2.9));
        assert!(at(-12.0, 1.9, 7.0) && !at(-12.0, 3.0, 7.0) && at(-12.0, 3.0, 4.9));
        assert!(!at(19.9, 9.9, 4.0), "a round corner");
        assert!(!at(0.0, 0.0, 8.1) && !at(0.0, 0.0, -0.1));
    }

    #[test]
    fn a_boss_adds_and_a_hole_in_it_takes_away() {
        let mut boss = bore([0.0, 0.0, 8.0], [0.0, 0.0, 1.0], &[], End::Blind);
        boss.kind = Kind::Boss {
            chain: [(4.0, 0.0), (4.0, 6.0), (0.0, 6.0)].map(|(r, z)| ProfileNode::new(r, z)).to_vec(),
        };
        let hole =
            bore([0.0, 0.0, 14.0], [0.0, 0.0, -1.0], &[(1.0, 0.0), (1.0, 5.0), (0.0, 5.0)], End::Blind);
        let metal = plate(vec![boss, hole]);
        let at = |x: f64, z: f64| metal.contains(Point3::new(x, 0.0, z));
        assert!(at(3.9, 13.9) && !at(4.1, 9.0) && !at(0.5, 10.0) && at(0.5, 8.5));
    }
}
