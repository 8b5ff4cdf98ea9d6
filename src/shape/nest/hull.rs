//! Convex sets as their supports in fixed directions: sums and moves of sets are sums of numbers then.
//!
//! A set stands for the polygon of its supporting lines, which holds it: what keeps clear of that polygon keeps clear of
//! the set. For a circle the polygon is larger than the radius by one part in eight hundred.

use crate::shape::loops::{Loop, Piece, polar, wrap};
use crate::shape::{Point2, Vector2};
use std::f64::consts::TAU;

/// Directions; a multiple of four, so that the axes are among them.
pub const WAYS: usize = 64;

/// Points nearer than this are one \[mm\].
const SAME_MM: f64 = 1e-9;

/// Greatest x·u of a set for each direction u \[mm\].
#[derive(Clone, Debug, PartialEq)]
pub struct Hull(pub [f64; WAYS]);

/// The directions as unit vectors.
pub struct Ways(pub [Vector2; WAYS]);

impl Ways {
    /// Counter-clockwise from +X; the axes are exact.
    pub fn new() -> Self {
        let one = |i: usize| {
            let (sin, cos) = (TAU * i as f64 / WAYS as f64).sin_cos();
            let exact = |v: f64| if (v - v.round()).abs() < 1e-12 { v.round() } else { v };
            Vector2::new(exact(cos), exact(sin))
        };
        Self(std::array::from_fn(one))
    }

    /// The hull of a loop.
    pub fn hull(&self, of: &Loop) -> Hull {
        let pieces = of.pieces();
        Hull(std::array::from_fn(|i| {
            let angle = TAU * i as f64 / WAYS as f64;
            pieces.iter().map(|p| reach(p, self.0[i], angle)).fold(f64::NEG_INFINITY, f64::max)
        }))
    }

    /// The set moved.
    pub fn moved(&self, hull: &Hull, by: Vector2) -> Hull {
        Hull(std::array::from_fn(|i| hull.0[i] + along(by, self.0[i])))
    }

    /// Places \[mm\] at which a set may stand so that it stays `gap` away from the boundary of `within`, seen from inside.
    pub fn room(&self, within: &Hull, hull: &Hull, gap: f64) -> Hull {
        Hull(std::array::from_fn(|i| within.0[i] - hull.0[i] - gap))
    }

    /// Places \[mm\] at which a set comes nearer than `gap` to another one: the inside of what is given.
    pub fn taken(&self, other: &Hull, hull: &Hull, gap: f64) -> Hull {
        Hull(std::array::from_fn(|i| other.0[i] + hull.0[(i + WAYS / 2) % WAYS] + gap))
    }

    /// Whether a place lies inside or on the border.
    pub fn holds(&self, hull: &Hull, p: Point2) -> bool {
        let v = Vector2::new(p.x, p.y);
        hull.0.iter().zip(&self.0).all(|(h, u)| along(v, *u) <= h + SAME_MM)
    }

    /// Whether a place lies inside, not on the border.
    pub fn covers(&self, hull: &Hull, p: Point2) -> bool {
        let v = Vector2::new(p.x, p.y);
        hull.0.iter().zip(&self.0).all(|(h, u)| along(v, *u) < h - 2.0 * SAME_MM)
    }

    /// Sides of the polygon; none when it is empty.
    pub fn sides(&self, hull: &Hull) -> Vec<[Point2; 2]> {
        let mut sides = Vec::new();
        for (i, u) in self.0.iter().enumerate() {
            // a line as long as the polygon can be, cut by all others
            let foot = Point2::new(u.x * hull.0[i], u.y * hull.0[i]);
            let way = Vector2::new(-u.y, u.x);
            if let Some([a, b]) = self.cut(hull, foot, way, [f64::NEG_INFINITY, f64::INFINITY]) {
                sides.push([foot + way * a, foot + way * b]);
            }
        }
        sides
    }

    /// The stretch of a line that lies in the polygon, as two parameters.
    pub fn cut(&self, hull: &Hull, from: Point2, way: Vector2, range: [f64; 2]) -> Option<[f64; 2]> {
        let [mut a, mut b] = range;
        for (h, u) in hull.0.iter().zip(&self.0) {
            let (there, slope) = (h - (from.x * u.x + from.y * u.y), along(way, *u));
            if slope.abs() < 1e-12 {
                if there < -SAME_MM {
                    return None;
                }
            } else if slope > 0.0 {
                b = b.min(there / slope);
            } else {
                a = a.max(there / slope);
            }
            if a > b + SAME_MM {
                return None;
            }
        }
        Some([a, b.max(a)])
    }
}

impl Hull {
    /// Width and height \[mm\].
    pub fn size(&self) -> [f64; 2] {
        [self.0[0] + self.0[WAYS / 2], self.0[WAYS / 4] + self.0[3 * WAYS / 4]]
    }

    /// Whether the boxes of the set and of a line from `a` to `b` meet.
    pub fn meets_box(&self, a: Point2, b: Point2) -> bool {
        let [right, top, left, bottom] = [0, 1, 2, 3].map(|i| self.0[i * WAYS / 4]);
        a.x.min(b.x) <= right && a.y.min(b.y) <= top && a.x.max(b.x) >= -left && a.y.max(b.y) >= -bottom
    }

    /// A rectangle with its lower left corner at the origin.
    pub fn rectangle(ways: &Ways, width: f64, height: f64) -> Self {
        let corners = [Vector2::new(0.0, 0.0), Vector2::new(width, 0.0), Vector2::new(0.0, height)];
        let far = Vector2::new(width, height);
        Self(std::array::from_fn(|i| {
            corners.iter().map(|c| along(*c, ways.0[i])).fold(along(far, ways.0[i]), f64::max)
        }))
    }

    /// A polygon inside a circle.
    pub fn in_circle(ways: &Ways, centre: Point2, radius: f64) -> Self {
        let inner = radius * (TAU / 2.0 / WAYS as f64).cos();
        let c = Vector2::new(centre.x, centre.y);
        Self(std::array::from_fn(|i| along(c, ways.0[i]) + inner))
    }
}

fn along(v: Vector2, u: Vector2) -> f64 {
    v.x * u.x + v.y * u.y
}

/// How far a piece reaches along a direction \[mm\].
fn reach(piece: &Piece, u: Vector2, angle: f64) -> f64 {
    let of = |p: Point2| p.x * u.x + p.y * u.y;
    let ends = of(piece.at(0.0)).max(of(piece.at(1.0)));
    match *piece {
        Piece::Arc { centre, radius, start, sweep }
            if wrap((angle - start) * sweep.signum()) <= sweep.abs() =>
        {
            ends.max(of(polar(centre, radius, angle)))
        }
        _ => ends,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hull_holds_its_loop_and_is_hardly_larger() {
        let ways = Ways::new();
        let hull = ways.hull(&Loop::circle(3.0, 4.0, 10.0));
        let size = hull.size();
        assert!((size[0] - 20.0).abs() < 1e-12 && (size[1] - 20.0).abs() < 1e-12);
        for i in 0..1000 {
            let p = polar(Point2::new(3.0, 4.0), 10.0, f64::from(i));
            assert!(ways.holds(&hull, p));
            let out = polar(Point2::new(3.0, 4.0), 10.0 * 1.0013, f64::from(i));
            assert!(!ways.covers(&hull, out));
        }
        let inner = Hull::in_circle(&ways, Point2::new(3.0, 4.0), 10.0);
        for side in ways.sides(&inner) {
            assert!((side[0] - Point2::new(3.0, 4.0)).x.hypot(side[0].y - 4.0) <= 10.0 + 1e-9);
        }
    }

    #[test]
    fn room_in_a_rectangle_is_a_smaller_rectangle() {
        let ways = Ways::new();
        let sheet = Hull::rectangle(&ways, 100.0, 60.0);
        let disc = ways.hull(&Loop::circle(0.0, 0.0, 10.0));
        let room = ways.room(&sheet, &disc, 2.0);
        assert!(ways.holds(&room, Point2::new(12.0, 48.0)) && !ways.holds(&room, Point2::new(11.9, 30.0)));
        let sides = ways.sides(&room);
        let long = sides.iter().map(|[a, b]| (b.x - a.x).hypot(b.y - a.y)).sum::<f64>();
        assert!((long - 2.0 * (76.0 + 36.0)).abs() < 1e-6, "{long}");
        let none = ways.room(&Hull::rectangle(&ways, 20.0, 60.0), &disc, 2.0);
        assert!(ways.sides(&none).is_empty());
    }
}
