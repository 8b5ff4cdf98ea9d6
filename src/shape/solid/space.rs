//! The space that a feature takes up: metal taken away or added, before it is spliced in.

use super::chain::Corner;
use super::frame::Frame;
use super::wall::Sweep;
use crate::shape::loops::{Leave, Loop, Node, Piece, piece};
use crate::shape::{InnerSpace, Point2, Point3};
use std::f64::consts::TAU;

/// Points nearer to the border than this count as outside \[mm\].
const INSIDE: f64 = 1e-4;
/// Lines drawn along the border of a turned space.
const LINES: u32 = 32;

/// Space of one feature.
pub(super) enum Space {
    /// A closed region in (r, z) turned about the frame's z, and the open run of its surfaces.
    Turned { frame: Frame, region: Loop, run: Vec<Piece>, reach: Point2 },
    /// A loop in the frame's xy plane, from z = 0 to the height.
    Prism { frame: Frame, base: Loop, height: f64 },
}

impl Space {
    /// Space of a chain.
    pub fn turned(frame: Frame, corners: &[Corner]) -> Self {
        let run = corners.windows(2).map(|w| piece(w[0].at, w[0].leave, w[1].at)).collect();
        let mut nodes = corners.to_vec();
        if let Some(last) = nodes.last_mut() {
            last.leave = Leave::Line;
            let (r, z) = (last.at.x, last.at.y);
            if z > 0.0 {
                nodes.extend((r > 0.0).then(|| Node::line(0.0, z)));
                nodes.push(Node::line(0.0, 0.0));
            }
        }
        let region = Loop::Path(nodes);
        let reach = region.bounds().1;
        Self::Turned { frame, region, run, reach }
    }

    /// Space under an outline.
    pub fn prism(sweep: &Sweep, outline: &Loop) -> Self {
        Self::Prism { frame: sweep.turning.frame, base: outline.clone(), height: sweep.height }
    }

    /// Whether a point lies inside, by more than a hair.
    pub fn contains(&self, p: Point3) -> bool {
        match self {
            Self::Turned { frame, region, reach, .. } => {
                let q = frame.local(p);
                let place = Point2::new(q.x.hypot(q.y), q.z);
                if place.x > reach.x || place.y > reach.y || place.y < 0.0 {
                    return false;
                }
                // Near the axis only, the region's border is no border of the space.
                let border = if place.x < INSIDE { Point2::new(2.0 * INSIDE, place.y) } else { place };
                region.contains(border) && self.off_border(border) > INSIDE
            }
            Self::Prism { frame, base, height } => {
                let q = frame.local(p);
                let place = Point2::new(q.x, q.y);
                q.z > INSIDE && q.z < height - INSIDE && base.contains(place) && base.distance(place) > INSIDE
            }
        }
    }

    fn off_border(&self, place: Point2) -> f64 {
        let Self::Turned { region, .. } = self else { return 0.0 };
        let pieces = region.pieces();
        let real = |p: &&Piece| p.at(0.0).x.max(p.at(1.0).x) > 1e-9;
        pieces.iter().filter(real).map(|p| p.distance(place)).fold(f64::INFINITY, f64::min)
    }

    /// Lines that lie on the border of the space.
    pub fn lines(&self) -> Vec<[Point3; 2]> {
        match self {
            Self::Turned { frame, run, .. } => {
                let chords: Vec<[Point2; 2]> = run.iter().flat_map(chords).collect();
                let at = |p: Point2, a: f64| frame.origin + frame.radial(a) * p.x + frame.z * p.y;
                (0..LINES)
                    .map(|k| f64::from(k) * TAU / f64::from(LINES))
                    .flat_map(|a| chords.iter().map(move |c| c.map(|p| at(p, a))))
                    .collect()
            }
            Self::Prism { frame, base, height } => {
                let post = |p: Point2| [frame.point(p.x, p.y, 0.0), frame.point(p.x, p.y, *height)];
                base.pieces()
                    .iter()
                    .flat_map(|p| (0..8).map(|i| p.at(f64::from(i) / 8.0)))
                    .map(post)
                    .collect()
            }
        }
    }

    /// Centre and radius of a ball round the space \[mm\].
    pub fn ball(&self) -> (Point3, f64) {
        let points: Vec<Point3> = self.lines().into_iter().flatten().collect();
        let frame = match self {
            Self::Turned { frame, .. } | Self::Prism { frame, .. } => frame,
        };
        let far = |c: Point3| points.iter().map(|p| (p - c).magnitude()).fold(0.0, f64::max);
        let deep = points.iter().map(|p| frame.local(*p).z).fold(0.0, f64::max);
        let centre = frame.raised(deep / 2.0).origin;
        (centre, far(centre))
    }
}

fn chords(piece: &Piece) -> Vec<[Point2; 2]> {
    let n = if matches!(piece, Piece::Line { .. }) { 1 } else { 8 };
    (0..n).map(|i| [f64::from(i), f64::from(i + 1)].map(|t| piece.at(t / f64::from(n)))).collect()
}
