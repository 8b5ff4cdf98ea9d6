//! Walls over an outline: the sides of plates, pads and pockets.

use super::chain;
use super::curve::{Arc, Curve};
use super::error::SolidError;
use super::frame::Frame;
use super::skin::{Edge, Skin, Vertex, Wire, edge, straight};
use super::surface::Surface;
use super::turn::Turning;
use crate::shape::loops::{Loop, Piece};
use crate::shape::{InnerSpace, Point3};

/// Walls with the wires at their two ends, both counter-clockwise about the direction of the sweep.
pub(super) struct Walls {
    pub base: Wire,
    pub top: Wire,
    pub skins: Vec<Skin>,
}

/// What is swept: from the turning's frame along its z by `height`; `metal_inside` for plates and pads.
pub(super) struct Sweep<'a> {
    pub turning: Turning<'a>,
    pub height: f64,
    pub metal_inside: bool,
}

impl Sweep<'_> {
    /// The walls over an outline.
    pub fn walls(&self, outline: &Loop) -> Result<Walls, SolidError> {
        let pieces = self.pieces(outline)?;
        let [base, top] = [0.0, self.height].map(|h| self.ring(&pieces, h));
        let (base, top) = (base?, top?);
        let n = pieces.len();
        let posts =
            (0..n).map(|i| straight(base[i].front(), top[i].front())).collect::<Result<Vec<_>, _>>()?;
        let skins = (0..n)
            .map(|i| self.wall(&pieces[i], &base[i], &top[i], &posts[i], &posts[(i + 1) % n]))
            .collect();
        Ok(Walls { base, top, skins })
    }

    fn pieces(&self, outline: &Loop) -> Result<Vec<Piece>, SolidError> {
        let what = self.turning.what;
        match outline {
            Loop::Circle { centre, radius } => {
                if !(centre.x.is_finite()
                    && centre.y.is_finite()
                    && *radius > chain::TINY
                    && radius.is_finite())
                {
                    return Err(chain::number(what, format!("circle of radius {radius} mm")));
                }
                let half = |k: usize| Piece::Arc {
                    centre: *centre,
                    radius: *radius,
                    start: self.turning.angles[k],
                    sweep: self.turning.span(k),
                };
                Ok(vec![half(0), half(1)])
            }
            Loop::Path(_) => {
                let forward = if outline.area() < 0.0 { outline.reversed() } else { outline.clone() };
                Ok(Loop::Path(chain::outline(&forward, what)?).pieces())
            }
        }
    }

    /// The outline as a wire at a height.
    fn ring(&self, pieces: &[Piece], height: f64) -> Result<Wire, SolidError> {
        let frame = self.turning.frame.raised(height);
        let place = |p: &Piece| {
            let at = p.at(0.0);
            Vertex::new(frame.point(at.x, at.y, 0.0))
        };
        let corners: Vec<Vertex> = pieces.iter().map(place).collect();
        let n = pieces.len();
        (0..n)
            .map(|i| {
                let (from, to) = (&corners[i], &corners[(i + 1) % n]);
                edge(from, to, lifted(&pieces[i], &frame, from.point(), to.point()))
            })
            .collect()
    }

    fn wall(&self, piece: &Piece, base: &Edge, top: &Edge, near: &Edge, far: &Edge) -> Skin {
        let mut wire: Wire = [base.clone(), far.clone(), top.inverse(), near.inverse()].into_iter().collect();
        if !self.metal_inside {
            wire.invert();
        }
        let (surface, outward) = self.surface(piece, base);
        Skin { surface, outward, loops: vec![wire], maker: self.turning.maker }
    }

    fn surface(&self, piece: &Piece, base: &Edge) -> (Surface, bool) {
        let frame = self.turning.frame;
        match *piece {
            Piece::Arc { centre, radius, sweep, .. } => {
                let origin = frame.point(centre.x, centre.y, 0.0);
                (
                    Surface::Cylinder { frame: Frame { origin, ..frame }, radius },
                    (sweep > 0.0) == self.metal_inside,
                )
            }
            Piece::Line { .. } => {
                let along = (base.back().point() - base.front().point()).normalize();
                let out = along.cross(frame.z) * if self.metal_inside { 1.0 } else { -1.0 };
                (Surface::Plane(Frame { origin: base.front().point(), x: along, z: out }), true)
            }
        }
    }
}

/// A piece of an outline as a curve in space.
fn lifted(piece: &Piece, frame: &Frame, from: Point3, to: Point3) -> Curve {
    match *piece {
        Piece::Line { .. } => Curve::Line { from, to },
        Piece::Arc { centre, radius, start, sweep } => {
            let origin = frame.point(centre.x, centre.y, 0.0);
            let z = frame.z * sweep.signum();
            Curve::Arc(Arc { frame: Frame { origin, x: frame.radial(start), z }, radius, sweep: sweep.abs() })
        }
    }
}
