//! Where two pieces (lines and arcs) meet, in closed form; no chords.

use super::loops::{Piece, wrap};
use super::{EuclideanSpace, InnerSpace, Point2, Vector2};
use std::f64::consts::TAU;

/// What two pieces have in common.
#[derive(Clone, Debug, PartialEq)]
pub enum Meeting {
    /// Single points \[mm\], none if they stay apart.
    Points(Vec<Point2>),
    /// They lie on the same line or circle and share a stretch of this length \[mm\].
    Stretch(f64),
}

/// Where two pieces meet, with places within `tolerance` \[mm\] of a piece counted as on it.
///
/// Lines are intersected by determinant; a line and a circle by the foot of the perpendicular; two
/// circles by their radical axis.
pub fn meeting(a: &Piece, b: &Piece, tolerance: f64) -> Meeting {
    if let Some(length) = shared(a, b, tolerance) {
        return Meeting::Stretch(length);
    }
    let candidates = candidates(a, b, tolerance);
    // Ends that only touch the other piece are found here, whatever the conditioning above.
    let ends = [a.at(0.0), a.at(1.0), b.at(0.0), b.at(1.0)];
    let on_both = |p: &Point2| a.distance(*p) <= tolerance && b.distance(*p) <= tolerance;
    let mut points: Vec<Point2> = Vec::new();
    for p in candidates.into_iter().chain(ends).filter(on_both) {
        if points.iter().all(|q| (q - p).magnitude() > tolerance) {
            points.push(p);
        }
    }
    Meeting::Points(points)
}

/// Where the lines and circles of two pieces cross, whether on the pieces or beyond.
fn candidates(a: &Piece, b: &Piece, tolerance: f64) -> Vec<Point2> {
    match (a, b) {
        (Piece::Line { from: p, to: q }, Piece::Line { from: r, to: s }) => lines(*p, q - p, *r, s - r),
        (Piece::Line { from, to }, Piece::Arc { centre, radius, .. })
        | (Piece::Arc { centre, radius, .. }, Piece::Line { from, to }) => {
            line_circle(*from, to - from, *centre, *radius, tolerance)
        }
        (Piece::Arc { centre: c, radius: r, .. }, Piece::Arc { centre: d, radius: s, .. }) => {
            circles(*c, *r, *d, *s, tolerance)
        }
    }
}

/// How near a place lies on a piece that is to be split there \[mm\].
const ON_PIECE: f64 = 1e-6;

/// A piece cut where others cross it, touch it or end on it.
pub fn split(piece: &Piece, others: &[Piece]) -> Vec<Piece> {
    let mut cuts: Vec<f64> = others.iter().flat_map(|o| places(piece, o)).collect();
    cuts.extend([0.0, 1.0]);
    cuts.sort_by(f64::total_cmp);
    let long = piece.length();
    cuts.dedup_by(|a, b| (*a - *b) * long < 1e-7);
    cuts.windows(2).map(|w| piece.part(w[0], w[1])).collect()
}

/// Fractions of `piece` at which `other` crosses it or ends on it.
pub fn places(piece: &Piece, other: &Piece) -> Vec<f64> {
    let ends = [other.at(0.0), other.at(1.0)];
    let on_both = |p: &Point2| other.distance(*p) < ON_PIECE && piece.distance(*p) < ON_PIECE;
    let points = candidates(piece, other, 1e-9).into_iter().chain(ends).filter(on_both);
    points.map(|p| fraction(piece, p)).filter(|t| (0.0..=1.0).contains(t)).collect()
}

/// Where along a piece a point on it lies.
fn fraction(piece: &Piece, p: Point2) -> f64 {
    match *piece {
        Piece::Line { from, to } => (p - from).dot(to - from) / (to - from).magnitude2(),
        Piece::Arc { centre, start, sweep, .. } => {
            let v = p - centre;
            wrap((v.y.atan2(v.x) - start) * sweep.signum()) / sweep.abs()
        }
    }
}

/// Crossing of two straight lines given by point and direction.
fn lines(p: Point2, d: Vector2, r: Point2, e: Vector2) -> Vec<Point2> {
    let det = d.perp_dot(e);
    if det.abs() <= f64::EPSILON * d.magnitude() * e.magnitude() {
        return Vec::new();
    }
    vec![p + d * ((r - p).perp_dot(e) / det)]
}

/// Crossings of a straight line with a circle; a line within the tolerance of tangency touches once.
fn line_circle(p: Point2, d: Vector2, centre: Point2, radius: f64, tolerance: f64) -> Vec<Point2> {
    let u = d.normalize();
    let foot = p + u * (centre - p).dot(u);
    let away = (foot - centre).magnitude();
    if away > radius + tolerance {
        return Vec::new();
    }
    let half = (radius * radius - away * away).max(0.0).sqrt();
    if (away - radius).abs() <= tolerance {
        return vec![foot, foot - u * half, foot + u * half];
    }
    vec![foot - u * half, foot + u * half]
}

/// Crossings of two circles.
fn circles(c: Point2, r: f64, d: Point2, s: f64, tolerance: f64) -> Vec<Point2> {
    let v = d - c;
    let apart = v.magnitude();
    let out_of_reach = apart > r + s + tolerance || apart < (r - s).abs() - tolerance;
    if out_of_reach || apart <= tolerance {
        return Vec::new();
    }
    let u = v / apart;
    let along = (apart * apart + r * r - s * s) / (2.0 * apart);
    let half = (r * r - along * along).max(0.0).sqrt();
    let foot = c + u * along;
    let side = Vector2::new(-u.y, u.x) * half;
    vec![foot + side, foot - side, c + u * r, c - u * r]
}

/// Length \[mm\] of the stretch that two pieces on the same line or circle share, if longer than the
/// tolerance.
fn shared(a: &Piece, b: &Piece, tolerance: f64) -> Option<f64> {
    let length = match (a, b) {
        (Piece::Line { from, to }, Piece::Line { from: r, to: s }) => {
            line_overlap(*from, *to, *r, *s, tolerance)
        }
        (Piece::Arc { centre: c, radius: r, .. }, Piece::Arc { centre: d, radius: s, .. }) => {
            let same = (c - d).magnitude() <= tolerance && (r - s).abs() <= tolerance;
            if same { arc_overlap(a, b) * r } else { 0.0 }
        }
        _ => 0.0,
    };
    (length > tolerance).then_some(length)
}

/// Overlap of two straight pieces \[mm\], 0 unless the shorter lies along the longer.
fn line_overlap(p: Point2, q: Point2, r: Point2, s: Point2, tolerance: f64) -> f64 {
    let u = (q - p).normalize();
    let aside = |x: Point2| (x - p).perp_dot(u).abs();
    if aside(r) > tolerance || aside(s) > tolerance {
        return 0.0;
    }
    let (i, j) = ((r - p).dot(u), (s - p).dot(u));
    (i.max(j).min((q - p).magnitude()) - i.min(j).max(0.0)).max(0.0)
}

/// Overlap of two arcs of one circle \[rad\].
fn arc_overlap(a: &Piece, b: &Piece) -> f64 {
    let span = |p: &Piece| match *p {
        Piece::Arc { start, sweep, .. } => (wrap(start + sweep.min(0.0)), sweep.abs()),
        Piece::Line { .. } => (0.0, 0.0),
    };
    let ((s, n), (t, m)) = (span(a), span(b));
    let from = |d: f64| (n.min(d + m) - d.max(0.0)).max(0.0);
    let d = wrap(t - s);
    from(d) + from(d - TAU)
}

/// Whether a point is finite.
pub fn finite(p: Point2) -> bool {
    p.to_vec().x.is_finite() && p.to_vec().y.is_finite()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    const TOL: f64 = 1e-7;

    fn line(a: f64, b: f64, c: f64, d: f64) -> Piece {
        Piece::Line { from: Point2::new(a, b), to: Point2::new(c, d) }
    }

    fn arc(x: f64, y: f64, radius: f64, start: f64, sweep: f64) -> Piece {
        Piece::Arc { centre: Point2::new(x, y), radius, start, sweep }
    }

    fn points(a: &Piece, b: &Piece) -> Vec<Point2> {
        match meeting(a, b, TOL) {
            Meeting::Points(p) => p,
            Meeting::Stretch(l) => panic!("a stretch of {l}"),
        }
    }

    #[test]
    fn lines_cross_once_or_never() {
        let found = points(&line(0.0, 0.0, 10.0, 10.0), &line(0.0, 10.0, 10.0, 0.0));
        assert!(found.len() == 1 && (found[0] - Point2::new(5.0, 5.0)).magnitude() < 1e-12);
        assert!(points(&line(0.0, 0.0, 4.0, 4.0), &line(0.0, 10.0, 10.0, 0.0)).is_empty());
    }

    #[test]
    fn line_and_circle_of_pythagoras() {
        let found = points(&line(-10.0, 3.0, 10.0, 3.0), &arc(0.0, 0.0, 5.0, 0.0, TAU));
        assert_eq!(found.len(), 2);
        assert!(found.iter().all(|p| (p.x.abs() - 4.0).abs() < 1e-12));
        assert!(points(&line(-10.0, 3.0, 10.0, 3.0), &arc(0.0, 0.0, 5.0, -PI, PI)).is_empty());
        assert_eq!(points(&line(-10.0, 5.0, 10.0, 5.0), &arc(0.0, 0.0, 5.0, 0.0, TAU)).len(), 1);
    }

    #[test]
    fn circles_of_pythagoras() {
        let found = points(&arc(0.0, 0.0, 5.0, 0.0, TAU), &arc(6.0, 0.0, 5.0, 0.0, TAU));
        assert_eq!(found.len(), 2);
        assert!(found.iter().all(|p| (p.x - 3.0).abs() < 1e-12 && (p.y.abs() - 4.0).abs() < 1e-12));
        assert_eq!(points(&arc(0.0, 0.0, 5.0, 0.0, TAU), &arc(8.0, 0.0, 3.0, 0.0, TAU)).len(), 1);
        assert!(points(&arc(0.0, 0.0, 5.0, 0.0, TAU), &arc(0.0, 0.0, 3.0, 0.0, TAU)).is_empty());
    }

    #[test]
    fn stretches_in_common_are_told() {
        assert_eq!(
            meeting(&line(0.0, 0.0, 10.0, 0.0), &line(12.0, 0.0, 7.0, 0.0), TOL),
            Meeting::Stretch(3.0)
        );
        let Meeting::Stretch(l) = meeting(&arc(0.0, 0.0, 2.0, 0.0, PI), &arc(0.0, 0.0, 2.0, PI, -PI), TOL)
        else {
            panic!("the same arc run the other way")
        };
        assert!((l - TAU).abs() < 1e-12);
        assert_eq!(points(&arc(0.0, 0.0, 2.0, 0.0, PI), &arc(0.0, 0.0, 2.0, PI, PI)).len(), 2);
        assert_eq!(points(&line(0.0, 0.0, 5.0, 0.0), &line(5.0, 0.0, 9.0, 0.0)).len(), 1);
    }
}
