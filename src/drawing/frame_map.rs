//! From the axis of a feature or a body to the plane of a view.

use super::section::{Rim, Section};
use super::surface::{Form, Surface};
use crate::shape::loops::{Leave, Loop, Node};
use crate::shape::recipe::{End, ProfileNode};
use crate::shape::{Point2, Vector2};

/// An axis lying in the plane of a view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlaneAxis {
    /// Where the axis starts.
    pub origin: Point2,
    /// Unit direction of the axis.
    pub along: Vector2,
}

impl PlaneAxis {
    /// The z axis of a turned body, lying level with z to the right.
    pub const LEVEL: PlaneAxis =
        PlaneAxis { origin: Point2 { x: 0.0, y: 0.0 }, along: Vector2 { x: 1.0, y: 0.0 } };

    /// Direction of growing radius on the side +1 or -1.
    pub fn outward(&self, side: f64) -> Vector2 {
        Vector2::new(-self.along.y, self.along.x) * side
    }

    /// A point (r, z) of the axis on the side +1 or -1.
    pub fn point(&self, p: Point2, side: f64) -> Point2 {
        self.origin + self.along * p.y + self.outward(side) * p.x
    }

    /// A corner brought into the plane; the turning sense follows the side.
    fn node(&self, n: &ProfileNode, side: f64) -> Node {
        let at = self.point(Point2::new(n.r, n.z), side);
        let leave = match n.leave {
            Leave::Line => Leave::Line,
            Leave::Arc { centre, ccw } => {
                Leave::Arc { centre: self.point(centre, side), ccw: ccw != (side > 0.0) }
            }
        };
        Node { at, leave }
    }

    /// The closed profile of a turned body on one side of the axis.
    pub fn body(&self, nodes: &[ProfileNode], side: f64) -> Loop {
        Loop::Path(nodes.iter().map(|n| self.node(n, side)).collect())
    }

    /// The half shape that a chain of a bore or a boss covers on one side of the axis.
    pub fn chain(&self, nodes: &[ProfileNode], end: End, side: f64) -> Loop {
        let mut path: Vec<Node> = nodes.iter().map(|n| self.node(n, side)).collect();
        if let Some(last) = path.last_mut() {
            last.leave = Leave::Line;
        }
        let on_axis = |z: f64| {
            let p = self.point(Point2::new(0.0, z), side);
            Node::line(p.x, p.y)
        };
        if let (End::Through, Some(last)) = (end, nodes.last()) {
            path.push(on_axis(last.z));
        }
        if end != End::Island {
            path.push(on_axis(nodes.first().map_or(0.0, |n| n.z)));
        }
        Loop::Path(path)
    }

    /// Adds the edges of steps of a run of surfaces, from one side of the axis to the other.
    pub fn rims(&self, list: &[Surface], closed: bool, section: &mut Section) {
        let n = list.len();
        for i in 0..n {
            let before = if i > 0 || closed { Some(&list[(i + n - 1) % n]) } else { None };
            let soft = before.is_some_and(|b| b.form != Form::Axis && b.is_tangent_to(&list[i]));
            let starts_rim = list[i].a.x > 1e-9 && !soft;
            if starts_rim {
                section.rims.push(self.rim(list[i].a));
            }
        }
        if let (false, Some(last)) = (closed, list.last()) {
            section.rims.push(self.rim(last.b));
        }
    }

    /// The rim at a corner.
    fn rim(&self, corner: Point2) -> Rim {
        Rim { from: self.point(corner, 1.0), to: self.point(corner, -1.0) }
    }
}
