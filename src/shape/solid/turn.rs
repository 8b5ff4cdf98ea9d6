//! Faces turned about an axis, each full turn in two parts, so that no seam edge is needed.

use super::chain::{Corner, TINY, profile};
use super::curve::{Arc, Curve};
use super::error::SolidError;
use super::frame::Frame;
use super::skin::{Edge, Skin, Vertex, Wire, edge};
use super::surface::Surface;
use crate::shape::loops::{Leave, wrap};
use crate::shape::{InnerSpace, Point2};
use std::f64::consts::TAU;

/// What turns about an axis: the axis, the two angles at which every full turn is split, whose it is.
#[derive(Clone, Copy)]
pub(super) struct Turning<'a> {
    pub frame: Frame,
    pub angles: [f64; 2],
    pub maker: usize,
    pub what: &'a str,
}

/// A corner of a chain once turned: a ring of two edges, counter-clockwise about the axis, or a pole.
#[derive(Clone)]
pub(super) struct Station {
    pub r: f64,
    pub z: f64,
    /// Least and greatest z of the ring; they differ where it lies on another cylinder.
    pub reach: [f64; 2],
    pub vertices: Vec<Vertex>,
    pub edges: Vec<Edge>,
}

impl Station {
    /// The ring as a loop, counter-clockwise about the axis.
    pub fn wire(&self) -> Wire {
        self.edges.iter().cloned().collect()
    }

    fn vertex(&self, k: usize) -> &Vertex {
        &self.vertices[k % self.vertices.len()]
    }
}

impl Turning<'_> {
    /// Angle that part `k` of a turn spans \[rad\].
    pub fn span(&self, k: usize) -> f64 {
        let turned = wrap(self.angles[(k + 1) % 2] - self.angles[k]);
        if turned < TINY { TAU } else { turned }
    }

    /// Ring, or pole where the radius is 0.
    pub fn station(&self, r: f64, z: f64) -> Result<Station, SolidError> {
        let centre = self.frame.raised(z);
        if r <= TINY {
            return Ok(Station {
                r,
                z,
                reach: [z, z],
                vertices: vec![Vertex::new(centre.origin)],
                edges: Vec::new(),
            });
        }
        let vertices: Vec<Vertex> =
            self.angles.iter().map(|a| Vertex::new(centre.origin + centre.radial(*a) * r)).collect();
        let arc = |k: usize| {
            let frame = Frame { x: centre.radial(self.angles[k]), ..centre };
            Curve::Arc(Arc { frame, radius: r, sweep: self.span(k) })
        };
        let edges = (0..2)
            .map(|k| edge(&vertices[k], &vertices[(k + 1) % 2], arc(k)))
            .collect::<Result<Vec<_>, _>>()?;
        Ok(Station { r, z, reach: [z, z], vertices, edges })
    }

    /// All faces along a run of stations; the metal lies on the left of the run.
    pub fn faces(&self, stations: &[Station], leaves: &[Leave]) -> Result<Vec<Skin>, SolidError> {
        let mut skins = Vec::new();
        for (pair, leave) in stations.windows(2).zip(leaves) {
            skins.extend(self.strip(&pair[0], &pair[1], *leave)?);
        }
        Ok(skins)
    }

    fn strip(&self, a: &Station, b: &Station, leave: Leave) -> Result<Vec<Skin>, SolidError> {
        if let Leave::Arc { centre, ccw } = leave {
            let surface = self.round(a, centre)?;
            return self.parts(a, b, surface, ccw, &|k| self.meridian(a, k, centre, b, ccw));
        }
        if a.r <= TINY && b.r <= TINY {
            return Ok(Vec::new());
        }
        if (a.z - b.z).abs() < TINY {
            return Ok(vec![self.flat(a, b)]);
        }
        let surface = self.straight_surface(a, b);
        let line = |k: usize| Curve::Line { from: a.vertex(k).point(), to: b.vertex(k).point() };
        self.parts(a, b, surface, b.z > a.z, &line)
    }

    /// The flat ring or disc between two rings of the same z.
    fn flat(&self, a: &Station, b: &Station) -> Skin {
        let up = b.r < a.r;
        let frame = self.frame.raised(a.z);
        let surface = Surface::Plane(Frame { z: if up { frame.z } else { -frame.z }, ..frame });
        let mut loops = vec![a.wire(), b.wire().inverse()];
        if !up {
            loops.reverse();
        }
        loops.retain(|w| !w.is_empty());
        Skin { surface, outward: true, loops, maker: self.maker }
    }

    fn straight_surface(&self, a: &Station, b: &Station) -> Surface {
        let x = self.frame.radial(self.angles[0]);
        if (a.r - b.r).abs() < TINY {
            return Surface::Cylinder { frame: Frame { x, ..self.frame.raised(a.z.min(b.z)) }, radius: a.r };
        }
        let (small, large) = if a.r < b.r { (a, b) } else { (b, a) };
        let along = large.z - small.z;
        let frame = Frame { x, z: self.frame.z * along.signum(), ..self.frame.raised(small.z) };
        Surface::Cone { frame, radius: small.r, half_angle: (large.r - small.r).atan2(along.abs()) }
    }

    fn round(&self, a: &Station, centre: Point2) -> Result<Surface, SolidError> {
        let minor = (Point2::new(a.r, a.z) - centre).magnitude();
        let frame = Frame { x: self.frame.radial(self.angles[0]), ..self.frame.raised(centre.y) };
        if centre.x.abs() < TINY {
            return Ok(Surface::Sphere { frame, radius: minor });
        }
        if centre.x < minor {
            return Err(profile(
                self.what,
                "an arc whose full circle reaches over the axis must have its centre on the axis",
            ));
        }
        Ok(Surface::Torus { frame, major: centre.x, minor })
    }

    /// Arc of the profile in the plane of split angle `k`.
    fn meridian(&self, a: &Station, k: usize, centre: Point2, b: &Station, ccw: bool) -> Curve {
        let out = self.frame.radial(self.angles[k]);
        let axis = out.cross(self.frame.z) * if ccw { 1.0 } else { -1.0 };
        let local = |s: &Station| {
            let d = Point2::new(s.r, s.z) - centre;
            d.y.atan2(d.x)
        };
        let turned = wrap(if ccw { local(b) - local(a) } else { local(a) - local(b) });
        let origin = self.frame.raised(centre.y).origin + out * centre.x;
        let start = Point2::new(a.r, a.z) - centre;
        let x = (out * start.x + self.frame.z * start.y).normalize();
        Curve::Arc(Arc { frame: Frame { origin, x, z: axis }, radius: start.magnitude(), sweep: turned })
    }

    fn parts(
        &self,
        a: &Station,
        b: &Station,
        surface: Surface,
        outward: bool,
        meridian: &dyn Fn(usize) -> Curve,
    ) -> Result<Vec<Skin>, SolidError> {
        let sides =
            (0..2).map(|k| edge(a.vertex(k), b.vertex(k), meridian(k))).collect::<Result<Vec<_>, _>>()?;
        let part = |k: usize| {
            let mut wire = Wire::new();
            wire.extend(a.edges.get(k).cloned());
            wire.push_back(sides[(k + 1) % 2].clone());
            wire.extend(b.edges.get(k).map(Edge::inverse));
            wire.push_back(sides[k].inverse());
            Skin { surface, outward, loops: vec![wire], maker: self.maker }
        };
        Ok((0..2).map(part).collect())
    }
}

/// Ways in which the corners of a chain are left, one for each piece.
pub(super) fn leaves(corners: &[Corner]) -> Vec<Leave> {
    corners.iter().map(|c| c.leave).collect()
}
