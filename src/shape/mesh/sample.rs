//! Points on the edges of a solid, each edge sampled once.

use crate::shape::solid::{Curve, Edge, Spline, Vertex, Wire};
use crate::shape::{InnerSpace, Point3};
use std::collections::HashMap;

/// Longest step of a sampled turn \[rad\]: 5°. A polygon of step θ lacks about θ²/6 of its circle, here 0.13 %, so that a
/// thin pin too keeps its volume within 0.2 %.
const LONGEST: f64 = std::f64::consts::PI / 36.0;

/// Angle whose chord lies `chord_mm` under a circle of radius `radius` \[rad\].
pub(super) fn step(radius: f64, chord_mm: f64) -> f64 {
    if radius <= chord_mm { LONGEST } else { (2.0 * (1.0 - chord_mm / radius).acos()).min(LONGEST) }
}

/// All points of the mesh; keys are truck's own identities and only looked up.
pub(super) struct Samples {
    pub points: Vec<Point3>,
    vertices: HashMap<truck_topology::VertexID<Point3>, u32>,
    edges: HashMap<truck_topology::EdgeID<Curve>, Vec<u32>>,
    chord_mm: f64,
}

impl Samples {
    pub fn new(chord_mm: f64) -> Self {
        Self { points: Vec::new(), vertices: HashMap::new(), edges: HashMap::new(), chord_mm }
    }

    /// Numbers of the points along a wire, in its direction; the last leads to the first.
    pub fn ring(&mut self, wire: &Wire) -> Vec<u32> {
        let mut ring = Vec::new();
        for edge in wire.iter() {
            ring.push(self.vertex(edge.front()));
            let inner = self.inner(edge);
            if edge.orientation() { ring.extend(inner) } else { ring.extend(inner.iter().rev()) }
        }
        ring
    }

    fn vertex(&mut self, vertex: &Vertex) -> u32 {
        let next = self.points.len() as u32;
        let number = *self.vertices.entry(vertex.id()).or_insert(next);
        if number == next {
            self.points.push(vertex.point());
        }
        number
    }

    /// Points between the ends of an edge, in the direction of its curve.
    fn inner(&mut self, edge: &Edge) -> Vec<u32> {
        if let Some(known) = self.edges.get(&edge.id()) {
            return known.clone();
        }
        let found: Vec<Point3> = between(&edge.curve(), self.chord_mm);
        let first = self.points.len() as u32;
        let numbers: Vec<u32> = (0..found.len() as u32).map(|i| first + i).collect();
        self.points.extend(found);
        self.edges.insert(edge.id(), numbers.clone());
        numbers
    }
}

/// Points between the ends of a curve.
fn between(curve: &Curve, chord_mm: f64) -> Vec<Point3> {
    let n = match curve {
        Curve::Line { .. } => 1,
        Curve::Arc(arc) => (arc.sweep / step(arc.radius, chord_mm)).ceil().max(1.0) as usize,
        Curve::Spline(s) => s.pieces() * pieces_of(s, chord_mm),
    };
    (1..n).map(|i| curve.at(i as f64 / n as f64)).collect()
}

/// Into how many chords a piece of a spline is cut: the chord error of a curve over a step h of its parameter is at most
/// h²/8 times its second derivative, which is largest at an end of a cubic piece.
fn pieces_of(spline: &Spline, chord_mm: f64) -> usize {
    let bend = |i: usize| {
        let [a, b, c, d] = spline.bezier(i);
        let [first, last] = [(a - b) + (c - b), (b - c) + (d - c)].map(|v| 6.0 * v.magnitude());
        first.max(last)
    };
    let most = (0..spline.pieces()).map(bend).fold(0.0, f64::max);
    (most / (8.0 * chord_mm)).sqrt().ceil().max(1.0) as usize
}
