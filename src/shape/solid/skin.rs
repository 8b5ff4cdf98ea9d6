//! Faces while the solid is being built, and the names of the topology used.

use super::curve::Curve;
use super::error::SolidError;
use super::frame::Frame;
use super::surface::Surface;
use crate::shape::loops::{Leave, Loop, Node};
use crate::shape::{InnerSpace, Point2, Point3};
use std::f64::consts::{PI, TAU};

/// Vertex of a solid.
pub type Vertex = truck_topology::Vertex<Point3>;
/// Edge of a solid.
pub type Edge = truck_topology::Edge<Point3, Curve>;
/// Closed run of edges.
pub type Wire = truck_topology::Wire<Point3, Curve>;
/// Face of a solid; its orientation says whether the natural side of its surface is the outside.
pub type Face = truck_topology::Face<Point3, Curve, Surface>;
/// Closed set of faces.
pub type Shell = truck_topology::Shell<Point3, Curve, Surface>;

/// A face under construction: loops run counter-clockwise seen from outside, the outer one first.
#[derive(Clone)]
pub(super) struct Skin {
    pub surface: Surface,
    pub outward: bool,
    pub loops: Vec<Wire>,
    /// 0 for the body, otherwise the number of the feature counted from 1.
    pub maker: usize,
}

/// An edge between two different vertices.
pub(super) fn edge(from: &Vertex, to: &Vertex, curve: Curve) -> Result<Edge, SolidError> {
    Edge::try_new(from, to, curve).map_err(|e| SolidError::Open(e.to_string()))
}

/// A straight edge.
pub(super) fn straight(from: &Vertex, to: &Vertex) -> Result<Edge, SolidError> {
    edge(from, to, Curve::Line { from: from.point(), to: to.point() })
}

/// The curve of an edge in the direction in which the edge is run.
pub fn directed(edge: &Edge) -> Curve {
    let curve = edge.curve();
    if edge.orientation() { curve } else { curve.reversed() }
}

impl Skin {
    /// The finished face.
    pub fn face(self) -> Result<Face, SolidError> {
        let open = |e: truck_topology::errors::Error| SolidError::Open(e.to_string());
        if self.outward {
            return Face::try_new(self.loops, self.surface).map_err(open);
        }
        let loops = self.loops.iter().map(Wire::inverse).collect();
        let mut face = Face::try_new(loops, self.surface).map_err(open)?;
        face.invert();
        Ok(face)
    }

    /// A wire as a loop in the plane of the face, or on the unrolled cylinder \[mm\].
    pub fn outline(&self, wire: &Wire) -> Loop {
        match &self.surface {
            Surface::Cylinder { .. } => self.unrolled(wire),
            surface => Loop::Path(wire.iter().map(|e| flat_node(e, surface.frame())).collect()),
        }
    }

    /// A point in the coordinates of [`Skin::outline`] \[mm\].
    pub fn place(&self, p: Point3) -> Point2 {
        let frame = self.surface.frame();
        let Surface::Cylinder { radius, .. } = self.surface else { return frame.flat(p) };
        let turned = (frame.angle(p) - self.middle(frame) + PI).rem_euclid(TAU) - PI;
        Point2::new(turned * radius, frame.local(p).z)
    }

    /// Loop on the unrolled cylinder, measured from the middle of the face; splines become chords.
    fn unrolled(&self, wire: &Wire) -> Loop {
        let node = |p: Point3| Node { at: self.place(p), leave: Leave::Line };
        let nodes = |e: &Edge| {
            let curve = directed(e);
            let steps = if matches!(curve, Curve::Spline(_)) { 64 } else { 1 };
            (0..steps).map(move |i| curve.at(f64::from(i) / f64::from(steps))).collect::<Vec<_>>()
        };
        Loop::Path(wire.iter().flat_map(nodes).map(node).collect())
    }

    /// Angle of the middle of a cylinder's face about its axis \[rad\], from the arcs or splines round it.
    fn middle(&self, frame: &Frame) -> f64 {
        let round = self.loops[0].iter().map(directed).find(|c| !matches!(c, Curve::Line { .. }));
        round.map_or(0.0, |c| frame.angle(c.at(0.5)))
    }
}

fn flat_node(edge: &Edge, frame: &Frame) -> Node {
    let at: Point2 = frame.flat(edge.front().point());
    let leave = match directed(edge) {
        Curve::Arc(arc) => {
            Leave::Arc { centre: frame.flat(arc.frame.origin), ccw: arc.frame.z.dot(frame.z) > 0.0 }
        }
        _ => Leave::Line,
    };
    Node { at, leave }
}
