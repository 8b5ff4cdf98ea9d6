//! A projected line: straight, an arc, an ellipse, or a chain of cubics.

use super::turning;
use crate::shape::crossing::places;
use crate::shape::loops::{Piece, wrap};
use crate::shape::{EuclideanSpace, InnerSpace, Point2, Vector2};
use std::f64::consts::TAU;

/// Shape of a projected line, run from parameter 0 to 1.
#[derive(Clone, Debug, PartialEq)]
pub enum Flat {
    /// A straight line or a circular arc.
    Piece(Piece),
    /// centre + u cos a + v sin a for a from `start` to `start + sweep` \[rad\]: half axes u and v at right angles.
    Ellipse {
        /// Centre \[mm\].
        centre: Point2,
        /// Long half axis \[mm\].
        u: Vector2,
        /// Short half axis \[mm\].
        v: Vector2,
        /// Angle at the start \[rad\].
        start: f64,
        /// Turned angle \[rad\].
        sweep: f64,
    },
    /// Cubic Bézier curves, each starting where the one before ends \[mm\].
    Cubics(Vec<[Point2; 4]>),
}

/// The box around a line.
#[derive(Clone, Copy, Debug)]
pub struct Bounds {
    low: Point2,
    high: Point2,
}

impl Bounds {
    /// Around points.
    pub fn of(points: impl IntoIterator<Item = Point2>) -> Self {
        let start = Self {
            low: Point2::new(f64::INFINITY, f64::INFINITY),
            high: Point2::new(f64::NEG_INFINITY, f64::NEG_INFINITY),
        };
        points.into_iter().fold(start, |b, p| Self {
            low: Point2::new(b.low.x.min(p.x), b.low.y.min(p.y)),
            high: Point2::new(b.high.x.max(p.x), b.high.y.max(p.y)),
        })
    }

    /// Whether a point lies in the box or at most `air` beside it.
    pub fn near(&self, p: Point2, air: f64) -> bool {
        p.x > self.low.x - air && p.x < self.high.x + air && p.y > self.low.y - air && p.y < self.high.y + air
    }

    /// Whether two boxes come within `air` of one another.
    pub fn meets(&self, other: &Bounds, air: f64) -> bool {
        self.low.x < other.high.x + air
            && other.low.x < self.high.x + air
            && self.low.y < other.high.y + air
            && other.low.y < self.high.y + air
    }

    /// The middle.
    pub fn centre(&self) -> Point2 {
        self.low + (self.high - self.low) * 0.5
    }

    /// Width and height \[mm\].
    pub fn size(&self) -> Vector2 {
        self.high - self.low
    }

    /// Larger by `air` on each side.
    pub fn grown(&self, air: f64) -> Self {
        let d = Vector2::new(air, air);
        Self { low: self.low - d, high: self.high + d }
    }

    /// Around both.
    pub fn joined(&self, other: &Bounds) -> Self {
        Self::of([self.low, self.high, other.low, other.high])
    }
}

impl Flat {
    /// An ellipse from any two conjugate half diameters, given that the point at `start` and the turn are kept
    /// (half axes by Rytz's construction in its analytic form; any text on descriptive geometry).
    pub fn ellipse(centre: Point2, p: Vector2, q: Vector2, sweep: f64) -> Self {
        let shift = 0.5 * (2.0 * p.dot(q)).atan2(p.magnitude2() - q.magnitude2());
        let (u, v) = (p * shift.cos() + q * shift.sin(), q * shift.cos() - p * shift.sin());
        Flat::Ellipse { centre, u, v, start: -shift, sweep }
    }

    /// Point at the fraction `t` \[mm\].
    pub fn at(&self, t: f64) -> Point2 {
        match self {
            Flat::Piece(piece) => piece.at(t),
            Flat::Ellipse { centre, u, v, start, sweep } => {
                let a = start + sweep * t;
                centre + u * a.cos() + v * a.sin()
            }
            Flat::Cubics(list) => {
                let place = (t * list.len() as f64).clamp(0.0, list.len() as f64 - 1e-12);
                cubic(&list[place as usize], place.fract())
            }
        }
    }

    /// Length, of ellipses and cubics by chords \[mm\].
    pub fn length(&self) -> f64 {
        match self {
            Flat::Piece(piece) => piece.length(),
            _ => self.samples().windows(2).map(|w| (w[1] - w[0]).magnitude()).sum(),
        }
    }

    /// Points close enough together to stand for the line.
    pub fn samples(&self) -> Vec<Point2> {
        let n = match self {
            Flat::Piece(Piece::Line { .. }) => 1,
            Flat::Piece(Piece::Arc { sweep, .. }) | Flat::Ellipse { sweep, .. } => {
                (sweep.abs() / 0.1).ceil().max(1.0) as usize
            }
            Flat::Cubics(list) => 4 * list.len(),
        };
        (0..=n).map(|i| self.at(i as f64 / n as f64)).collect()
    }

    /// Points at which to ask whether the whole line lies on another: about one a millimetre.
    pub fn probes(&self) -> impl Iterator<Item = Point2> + '_ {
        let n = self.length().ceil().clamp(5.0, 60.0);
        (0..n as usize).map(move |i| self.at((i as f64 + 0.47) / n))
    }

    /// The box around it.
    pub fn bounds(&self) -> Bounds {
        let bulge = match self {
            Flat::Piece(Piece::Line { .. }) => 0.0,
            _ => 2e-3 * self.length(),
        };
        Bounds::of(self.samples()).grown(bulge)
    }

    /// Least distance from a point \[mm\].
    pub fn distance(&self, p: Point2) -> f64 {
        match self {
            Flat::Piece(piece) => piece.distance(p),
            _ => {
                let n = self.samples().len() - 1;
                let away = |t: f64| (self.at(t) - p).magnitude();
                let best = (0..=n).map(|i| i as f64 / n as f64).min_by(|a, b| away(*a).total_cmp(&away(*b)));
                let (mut low, mut high) =
                    (best.unwrap_or(0.0) - 1.0 / n as f64, best.unwrap_or(0.0) + 1.0 / n as f64);
                for _ in 0..40 {
                    let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
                    if away(a.clamp(0.0, 1.0)) < away(b.clamp(0.0, 1.0)) { high = b } else { low = a }
                }
                away(((low + high) / 2.0).clamp(0.0, 1.0))
            }
        }
    }

    /// The same line turned by nothing, `factor` times as large and moved.
    pub fn placed(&self, factor: f64, by: Vector2) -> Self {
        let point = |p: Point2| Point2::from_vec(p.to_vec() * factor + by);
        match self {
            Flat::Piece(Piece::Line { from, to }) => {
                Flat::Piece(Piece::Line { from: point(*from), to: point(*to) })
            }
            Flat::Piece(Piece::Arc { centre, radius, start, sweep }) => Flat::Piece(Piece::Arc {
                centre: point(*centre),
                radius: radius * factor,
                start: *start,
                sweep: *sweep,
            }),
            Flat::Ellipse { centre, u, v, start, sweep } => Flat::Ellipse {
                centre: point(*centre),
                u: u * factor,
                v: v * factor,
                start: *start,
                sweep: *sweep,
            },
            Flat::Cubics(list) => Flat::Cubics(list.iter().map(|c| c.map(point)).collect()),
        }
    }

    /// Its parts inside a circle.
    pub fn inside(&self, centre: Point2, radius: f64) -> Vec<Self> {
        let away = |t: f64| (self.at(t) - centre).magnitude() - radius;
        let n = 4 * self.samples().len().max(16);
        let mut cuts: Vec<f64> = match self {
            Flat::Piece(piece) => places(piece, &Piece::Arc { centre, radius, start: 0.0, sweep: TAU }),
            _ => {
                let at = |i: usize| i as f64 / n as f64;
                (0..n).filter_map(|i| turning(at(i), at(i + 1), &away)).collect()
            }
        };
        cuts.extend([0.0, 1.0]);
        cuts.sort_by(f64::total_cmp);
        let runs = cuts.windows(2).filter(|w| w[1] - w[0] > 1e-9 && away((w[0] + w[1]) / 2.0) < 0.0);
        runs.map(|w| self.part(w[0], w[1])).collect()
    }

    /// The part between two fractions of an ellipse or a piece; cubics are cut by de Casteljau's rule.
    pub fn part(&self, from: f64, to: f64) -> Self {
        match self {
            Flat::Piece(piece) => Flat::Piece(piece.part(from, to)),
            Flat::Ellipse { centre, u, v, start, sweep } => Flat::Ellipse {
                centre: *centre,
                u: *u,
                v: *v,
                start: wrap(start + sweep * from) % TAU,
                sweep: sweep * (to - from),
            },
            Flat::Cubics(list) => {
                let n = list.len() as f64;
                let (a, b) = (from * n, to * n);
                let piece = |i: usize| {
                    let (lo, hi) = ((a - i as f64).max(0.0), (b - i as f64).min(1.0));
                    (hi - lo > 1e-9).then(|| cut(&list[i], lo, hi))
                };
                Flat::Cubics((0..list.len()).filter_map(piece).collect())
            }
        }
    }
}

/// Point of a cubic Bézier curve.
fn cubic(c: &[Point2; 4], t: f64) -> Point2 {
    let s = 1.0 - t;
    let w = [s * s * s, 3.0 * s * s * t, 3.0 * s * t * t, t * t * t];
    Point2::from_vec(c.iter().zip(w).fold(Vector2::new(0.0, 0.0), |sum, (p, w)| sum + p.to_vec() * w))
}

/// The part of a cubic between two parameters.
fn cut(c: &[Point2; 4], from: f64, to: f64) -> [Point2; 4] {
    let slope = |t: f64| {
        let s = 1.0 - t;
        ((c[1] - c[0]) * (s * s) + (c[2] - c[1]) * (2.0 * s * t) + (c[3] - c[2]) * (t * t)) * 3.0
    };
    let third = (to - from) / 3.0;
    let (a, d) = (cubic(c, from), cubic(c, to));
    [a, a + slope(from) * third, d - slope(to) * third, d]
}
