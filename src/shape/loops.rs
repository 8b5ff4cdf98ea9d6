//! Closed loops of straight lines and circular arcs in a plane (millimetres).
//!
//! A loop is never a polyline of a circle: circles and arcs stay what they are up to the file.

use super::{InnerSpace, Point2, Vector2};
use std::f64::consts::TAU;

/// How the boundary goes on from a node to the next one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Leave {
    /// A straight line.
    Line,
    /// A circular arc about `centre` \[mm\]; `ccw` says whether it turns counter-clockwise.
    Arc {
        /// Centre of the arc \[mm\].
        centre: Point2,
        /// Counter-clockwise from this node to the next.
        ccw: bool,
    },
}

/// A corner of a path and the way in which the path leaves it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Node {
    /// Place of the corner \[mm\].
    pub at: Point2,
    /// Shape of the boundary from here to the next corner.
    pub leave: Leave,
}

/// A closed loop.
#[derive(Clone, Debug, PartialEq)]
pub enum Loop {
    /// A full circle.
    Circle {
        /// Centre \[mm\].
        centre: Point2,
        /// Radius \[mm\].
        radius: f64,
    },
    /// A chain of lines and arcs; the last node leaves to the first.
    Path(Vec<Node>),
}

/// One piece of a loop with both ends known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// A straight line between two points \[mm\].
    Line {
        /// Start \[mm\].
        from: Point2,
        /// End \[mm\].
        to: Point2,
    },
    /// A circular arc.
    Arc {
        /// Centre \[mm\].
        centre: Point2,
        /// Radius \[mm\].
        radius: f64,
        /// Angle of the start about the centre \[rad\].
        start: f64,
        /// Signed turned angle \[rad\], positive counter-clockwise; a full circle is ±2π.
        sweep: f64,
    },
}

impl Piece {
    /// Point at the fraction `t` (0..1) of the piece \[mm\].
    pub fn at(&self, t: f64) -> Point2 {
        match *self {
            Piece::Line { from, to } => from + (to - from) * t,
            Piece::Arc { centre, radius, start, sweep } => polar(centre, radius, start + sweep * t),
        }
    }

    /// The part between two fractions.
    pub fn part(&self, from: f64, to: f64) -> Self {
        match *self {
            Piece::Line { .. } => Piece::Line { from: self.at(from), to: self.at(to) },
            Piece::Arc { centre, radius, start, sweep } => {
                Piece::Arc { centre, radius, start: start + sweep * from, sweep: sweep * (to - from) }
            }
        }
    }

    /// Length of the piece \[mm\].
    pub fn length(&self) -> f64 {
        match *self {
            Piece::Line { from, to } => (to - from).magnitude(),
            Piece::Arc { radius, sweep, .. } => radius * sweep.abs(),
        }
    }

    /// Least distance from a point to the piece \[mm\].
    pub fn distance(&self, p: Point2) -> f64 {
        match *self {
            Piece::Line { from, to } => {
                let d = to - from;
                let t = ((p - from).dot(d) / d.magnitude2()).clamp(0.0, 1.0);
                (p - (from + d * t)).magnitude()
            }
            Piece::Arc { centre, radius, start, sweep } => {
                let v = p - centre;
                let turned = wrap((v.y.atan2(v.x) - start) * sweep.signum());
                if turned <= sweep.abs() {
                    return (v.magnitude() - radius).abs();
                }
                let ends = [self.at(0.0), self.at(1.0)];
                ends.iter().map(|e| (p - *e).magnitude()).fold(f64::INFINITY, f64::min)
            }
        }
    }
}

/// Angle brought into 0..2π \[rad\].
pub fn wrap(angle: f64) -> f64 {
    angle.rem_euclid(TAU)
}

/// Point at `radius` \[mm\] and `angle` \[rad\] about `centre`.
pub fn polar(centre: Point2, radius: f64, angle: f64) -> Point2 {
    centre + Vector2::new(angle.cos(), angle.sin()) * radius
}

impl Node {
    /// A corner left by a straight line.
    pub fn line(x: f64, y: f64) -> Self {
        Self { at: Point2::new(x, y), leave: Leave::Line }
    }

    /// A corner left by an arc about (`cx`, `cy`).
    pub fn arc(x: f64, y: f64, cx: f64, cy: f64, ccw: bool) -> Self {
        Self { at: Point2::new(x, y), leave: Leave::Arc { centre: Point2::new(cx, cy), ccw } }
    }
}

impl Loop {
    /// A full circle about (`x`, `y`) \[mm\].
    pub fn circle(x: f64, y: f64, radius: f64) -> Self {
        Loop::Circle { centre: Point2::new(x, y), radius }
    }

    /// The pieces in order; a circle is one arc of +2π.
    pub fn pieces(&self) -> Vec<Piece> {
        match self {
            Loop::Circle { centre, radius } => {
                vec![Piece::Arc { centre: *centre, radius: *radius, start: 0.0, sweep: TAU }]
            }
            Loop::Path(nodes) => (0..nodes.len())
                .map(|i| piece(nodes[i].at, nodes[i].leave, nodes[(i + 1) % nodes.len()].at))
                .collect(),
        }
    }

    /// Signed area \[mm²\], positive when the loop runs counter-clockwise.
    pub fn area(&self) -> f64 {
        self.pieces().iter().map(piece_area).sum()
    }

    /// Length of the boundary \[mm\].
    pub fn length(&self) -> f64 {
        self.pieces().iter().map(Piece::length).sum()
    }

    /// The same loop run the other way.
    pub fn reversed(&self) -> Self {
        let Loop::Path(nodes) = self else { return self.clone() };
        let n = nodes.len();
        let flip = |leave: Leave| match leave {
            Leave::Line => Leave::Line,
            Leave::Arc { centre, ccw } => Leave::Arc { centre, ccw: !ccw },
        };
        let node = |i: usize| Node { at: nodes[n - 1 - i].at, leave: flip(nodes[(2 * n - 2 - i) % n].leave) };
        Loop::Path((0..n).map(node).collect())
    }

    /// The loop in another plane coordinate system; a mirrored one turns its arcs the other way.
    pub fn mapped(&self, place: impl Fn(Point2) -> Point2, mirrored: bool) -> Self {
        let leave = |leave: Leave| match leave {
            Leave::Line => Leave::Line,
            Leave::Arc { centre, ccw } => Leave::Arc { centre: place(centre), ccw: ccw != mirrored },
        };
        match self {
            Loop::Circle { centre, radius } => Loop::Circle { centre: place(*centre), radius: *radius },
            Loop::Path(nodes) => {
                Loop::Path(nodes.iter().map(|n| Node { at: place(n.at), leave: leave(n.leave) }).collect())
            }
        }
    }

    /// The same loop moved by (`dx`, `dy`) \[mm\].
    pub fn moved(&self, dx: f64, dy: f64) -> Self {
        let d = Vector2::new(dx, dy);
        self.mapped(|p| p + d, false)
    }

    /// Least and greatest x and y \[mm\], as (lower left, upper right).
    pub fn bounds(&self) -> (Point2, Point2) {
        let mut lo = Point2::new(f64::INFINITY, f64::INFINITY);
        let mut hi = Point2::new(f64::NEG_INFINITY, f64::NEG_INFINITY);
        let mut add = |p: Point2| {
            lo = Point2::new(lo.x.min(p.x), lo.y.min(p.y));
            hi = Point2::new(hi.x.max(p.x), hi.y.max(p.y));
        };
        for piece in self.pieces() {
            add(piece.at(0.0));
            add(piece.at(1.0));
            if let Piece::Arc { centre, radius, start, sweep } = piece {
                (0..4)
                    .map(|q| f64::from(q) * TAU / 4.0)
                    .filter(|a| wrap((a - start) * sweep.signum()) <= sweep.abs())
                    .for_each(|a| add(polar(centre, radius, a)));
            }
        }
        (lo, hi)
    }

    /// Least distance from a point to the boundary \[mm\].
    pub fn distance(&self, p: Point2) -> f64 {
        self.pieces().iter().map(|piece| piece.distance(p)).fold(f64::INFINITY, f64::min)
    }

    /// Whether the point lies inside. Who asks often makes an [`Inside`] first.
    pub fn contains(&self, p: Point2) -> bool {
        Inside::of(self).contains(p)
    }
}

/// A loop made ready to be asked whether points lie inside.
#[derive(Clone, Debug, PartialEq)]
pub enum Inside {
    /// A circle: centre and radius \[mm\].
    Circle(Point2, f64),
    /// A chain of lines and arcs.
    Chain(Vec<Chord>),
}

/// The chord of a line or of an arc of at most half a turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chord {
    from: Point2,
    to: Point2,
    /// Centre, radius and sense of the arc.
    arc: Option<(Point2, f64, i32)>,
}

impl Inside {
    /// Takes a loop apart.
    pub fn of(outline: &Loop) -> Self {
        let nodes = match outline {
            Loop::Circle { centre, radius } => return Self::Circle(*centre, *radius),
            Loop::Path(nodes) => nodes,
        };
        let next = nodes.iter().cycle().skip(1);
        // chords that meet share the very same point, so that no ray slips through between them
        let chords = nodes.iter().zip(next).flat_map(|(a, b)| match piece(a.at, a.leave, b.at) {
            Piece::Line { from, to } => vec![Chord { from, to, arc: None }],
            arc @ Piece::Arc { centre, radius, sweep, .. } => {
                let middle = arc.at(0.5);
                let arc = Some((centre, radius, if sweep > 0.0 { 1 } else { -1 }));
                vec![Chord { from: a.at, to: middle, arc }, Chord { from: middle, to: b.at, arc }]
            }
        });
        Self::Chain(chords.collect())
    }

    /// Whether the point lies inside: whether the loop turns around it (winding number, exact for lines and arcs).
    pub fn contains(&self, p: Point2) -> bool {
        match self {
            Self::Circle(centre, radius) => (p - centre).magnitude2() < radius * radius,
            Self::Chain(chords) => chords.iter().map(|chord| chord.turns(p)).sum::<i32>() != 0,
        }
    }
}

impl Chord {
    /// Crossings of the ray from `p` along x, upwards counted positive; one more between a chord and its arc.
    fn turns(&self, p: Point2) -> i32 {
        let left = self.is_left(p);
        let upwards = self.from.y <= p.y && self.to.y > p.y && left;
        let downwards = self.from.y > p.y && self.to.y <= p.y && !left;
        let crossed = i32::from(upwards) - i32::from(downwards);
        match self.arc {
            // the arc bulges to the right of its chord when it turns to the left
            Some((centre, radius, sense)) if left == (sense < 0) => {
                crossed + if (p - centre).magnitude2() < radius * radius { sense } else { 0 }
            }
            _ => crossed,
        }
    }

    /// Whether `p` lies on the left. The same for the chord and its reverse but for the sign, also on the chord itself.
    fn is_left(&self, p: Point2) -> bool {
        let rising = (self.from.y, self.from.x) < (self.to.y, self.to.x);
        let (low, high) = if rising { (self.from, self.to) } else { (self.to, self.from) };
        let (u, v) = (high - low, p - low);
        (u.x * v.y - u.y * v.x > 0.0) == rising
    }
}

/// The piece that leaves `from` by `leave` towards `to`.
pub fn piece(from: Point2, leave: Leave, to: Point2) -> Piece {
    match leave {
        Leave::Line => Piece::Line { from, to },
        Leave::Arc { centre, ccw } => {
            let a = from - centre;
            let b = to - centre;
            let (start, end) = (a.y.atan2(a.x), b.y.atan2(b.x));
            let turned = wrap(if ccw { end - start } else { start - end });
            let turned = if turned < 1e-12 { TAU } else { turned };
            Piece::Arc { centre, radius: a.magnitude(), start, sweep: if ccw { turned } else { -turned } }
        }
    }
}

/// Part of the signed area that Green's theorem gives to one piece \[mm²\].
fn piece_area(piece: &Piece) -> f64 {
    match *piece {
        Piece::Line { from, to } => 0.5 * (from.x * to.y - to.x * from.y),
        Piece::Arc { centre, radius, sweep, .. } => {
            let (a, b) = (piece.at(0.0), piece.at(1.0));
            0.5 * (radius * radius * sweep + centre.x * (b.y - a.y) - centre.y * (b.x - a.x))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn half_disc() -> Loop {
        Loop::Path(vec![Node::arc(5.0, 0.0, 0.0, 0.0, true), Node::line(-5.0, 0.0)])
    }

    #[test]
    fn area_of_a_half_disc_is_the_textbook_one() {
        let area = half_disc().area();
        assert!((area - 12.5 * std::f64::consts::PI).abs() < 1e-12, "{area}");
    }

    #[test]
    fn reversal_changes_only_the_sign_of_the_area() {
        let there = half_disc();
        let back = there.reversed();
        assert!((there.area() + back.area()).abs() < 1e-12);
        assert_eq!(back.reversed(), there);
    }

    #[test]
    fn inside_bounds_and_distance_agree_with_geometry() {
        let l = half_disc();
        assert!(l.contains(Point2::new(0.0, 2.0)));
        assert!(!l.contains(Point2::new(0.0, -0.1)));
        assert!(l.contains(Point2::new(3.0, 3.9999)) && !l.contains(Point2::new(3.0, 4.0001)));
        assert!(Loop::circle(1.0, 0.0, 2.0).contains(Point2::new(2.9999, 0.0)));
        // points on the line that cuts arcs in two, and on the line between two corners
        let ring =
            Loop::Path(vec![Node::arc(2.0, 0.0, 0.0, 0.0, true), Node::arc(-2.0, 0.0, 0.0, 0.0, true)]);
        for x in [-1.9, -0.5, 0.0, 0.3, 1.9] {
            assert!(
                ring.contains(Point2::new(x, 0.0)) && ring.reversed().contains(Point2::new(x, 0.0)),
                "{x}"
            );
            assert!(ring.contains(Point2::new(0.0, x)) && !ring.contains(Point2::new(x + 4.0, 0.0)), "{x}");
        }
        let (lo, hi) = l.bounds();
        assert!((lo.x + 5.0).abs() < 1e-12 && (hi.y - 5.0).abs() < 1e-12);
        assert!((l.distance(Point2::new(0.0, 2.0)) - 2.0).abs() < 1e-12);
    }
}
