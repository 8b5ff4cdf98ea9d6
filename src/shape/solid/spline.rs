//! A cubic spline with continuous curvature, for the curve in which two cylinders meet.

use crate::shape::{EuclideanSpace, Point3, Vector3};

/// Cubic pieces over equal steps of the parameter 0..1, joined with continuous curvature.
#[derive(Clone, Debug, PartialEq)]
pub struct Spline {
    /// Points at the ends of the pieces \[mm\].
    points: Vec<Point3>,
    /// Slopes there, per piece \[mm\].
    slopes: Vec<Vector3>,
}

impl Spline {
    /// Spline through points (two at least) with the given slopes per piece at its two ends \[mm\].
    ///
    /// Continuous curvature asks m₍ᵢ₋₁₎ + 4 mᵢ + m₍ᵢ₊₁₎ = 3 (p₍ᵢ₊₁₎ − p₍ᵢ₋₁₎), solved by elimination
    /// (de Boor, A Practical Guide to Splines, 1978, chapter IV; from memory).
    pub fn through(points: Vec<Point3>, first: Vector3, last: Vector3) -> Self {
        let n = points.len();
        let mut slopes = vec![first; n];
        slopes[n - 1] = last;
        let mut pivot = vec![4.0; n];
        let mut right: Vec<Vector3> = (0..n)
            .map(|i| if i == 0 || i == n - 1 { first } else { (points[i + 1] - points[i - 1]) * 3.0 })
            .collect();
        if n > 2 {
            right[1] -= first;
            right[n - 2] -= last;
        }
        for i in 2..n.saturating_sub(1) {
            let f = 1.0 / pivot[i - 1];
            pivot[i] -= f;
            let before = right[i - 1];
            right[i] -= before * f;
        }
        for i in (1..n.saturating_sub(1)).rev() {
            let after = if i == n - 2 { right[i] } else { right[i] - slopes[i + 1] };
            slopes[i] = after / pivot[i];
        }
        Self { points, slopes }
    }

    /// Number of pieces.
    pub fn pieces(&self) -> usize {
        self.points.len() - 1
    }

    /// Points at the ends of the pieces \[mm\].
    pub fn points(&self) -> &[Point3] {
        &self.points
    }

    /// The four control points of one piece \[mm\].
    pub fn bezier(&self, i: usize) -> [Point3; 4] {
        let (a, b) = (self.points[i], self.points[i + 1]);
        [a, a + self.slopes[i] / 3.0, b - self.slopes[i + 1] / 3.0, b]
    }

    /// Point at the fraction `t` \[mm\].
    pub fn at(&self, t: f64) -> Point3 {
        let (i, s) = self.place(t);
        blossom(self.bezier(i), [s, s, s])
    }

    /// Change of the point with `t` \[mm\].
    pub fn slope(&self, t: f64) -> Vector3 {
        let (i, s) = self.place(t);
        let b = self.bezier(i);
        let d = (b[1] - b[0]) * (1.0 - s).powi(2)
            + (b[2] - b[1]) * (2.0 * s * (1.0 - s))
            + (b[3] - b[2]) * (s * s);
        d * (3.0 * self.pieces() as f64)
    }

    /// The same spline moved \[mm\].
    pub fn moved(&self, by: Vector3) -> Self {
        Self { points: self.points.iter().map(|p| p + by).collect(), slopes: self.slopes.clone() }
    }

    /// The same spline in other coordinates: how a point and how a direction is brought there.
    pub fn mapped(&self, place: &dyn Fn(Point3) -> Point3, turn: &dyn Fn(Vector3) -> Vector3) -> Self {
        Self {
            points: self.points.iter().map(|p| place(*p)).collect(),
            slopes: self.slopes.iter().map(|s| turn(*s)).collect(),
        }
    }

    /// The same spline run the other way.
    pub fn reversed(&self) -> Self {
        Self {
            points: self.points.iter().rev().copied().collect(),
            slopes: self.slopes.iter().rev().map(|m| *m * -1.0).collect(),
        }
    }

    /// Control points of the same curve as a B-spline over the knots 0, 1, 2 … with fourfold ends \[mm\].
    ///
    /// A control point is the blossom of any piece at three knots that follow one another.
    pub fn control_points(&self) -> Vec<Point3> {
        let n = self.pieces() as i64;
        let knot = |j: i64| j.clamp(0, n) as f64;
        (-3..n)
            .map(|j| {
                let piece = j.clamp(0, n - 1);
                let own = |k: i64| knot(j + k) - piece as f64;
                blossom(self.bezier(piece as usize), [own(1), own(2), own(3)])
            })
            .collect()
    }

    fn place(&self, t: f64) -> (usize, f64) {
        let n = self.pieces();
        let s = t * n as f64;
        let i = (s.max(0.0) as usize).min(n - 1);
        (i, s - i as f64)
    }
}

/// Symmetric three-argument form of a cubic given by its control points (de Casteljau's scheme).
fn blossom(b: [Point3; 4], u: [f64; 3]) -> Point3 {
    let mix = |p: Point3, q: Point3, s: f64| Point3::from_vec(p.to_vec() * (1.0 - s) + q.to_vec() * s);
    let [p, q, r] = [0, 1, 2].map(|i| mix(b[i], b[i + 1], u[0]));
    let (s, t) = (mix(p, q, u[1]), mix(q, r, u[1]));
    mix(s, t, u[2])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::InnerSpace;

    fn quarter(n: usize) -> Spline {
        let h = std::f64::consts::FRAC_PI_2 / n as f64;
        let at = |i: usize| Point3::new((h * i as f64).cos(), (h * i as f64).sin(), 0.0);
        Spline::through((0..=n).map(at).collect(), Vector3::unit_y() * h, -Vector3::unit_x() * h)
    }

    #[test]
    fn a_circle_is_met_to_the_fourth_power_of_the_step() {
        let off = |s: &Spline| {
            (0..997)
                .map(|i| (s.at(f64::from(i) / 996.0).to_vec().magnitude() - 1.0).abs())
                .fold(0.0, f64::max)
        };
        let (coarse, fine) = (off(&quarter(8)), off(&quarter(16)));
        assert!(fine < 1e-6 && coarse / fine > 10.0, "{coarse} {fine}");
    }

    #[test]
    fn control_points_give_the_same_curve_by_de_boor() {
        let s = quarter(6);
        let d = s.control_points();
        assert_eq!(d.len(), 9);
        let knot = |j: usize| (j as f64 - 3.0).clamp(0.0, 6.0);
        let x: f64 = 2.3;
        let k = 5;
        let mut w: Vec<Point3> = (0..4).map(|j| d[j + k - 3]).collect();
        for r in 1..4 {
            for j in (r..4).rev() {
                let (lo, hi) = (knot(j + k - 3), knot(j + 1 + k - r));
                let a = (x - lo) / (hi - lo);
                w[j] = w[j - 1] + (w[j] - w[j - 1]) * a;
            }
        }
        assert!((w[3] - s.at(x / 6.0)).magnitude() < 1e-12);
    }
}
