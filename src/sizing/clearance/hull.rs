//! Exact distance of convex outlines: hulls of discs. A con rod is the hull of two discs, a plate that of four points.
//!
//! Two convex sets A and B are apart by the greatest value, over all directions u, of −h_A(u) − h_B(−u) with h the support
//! function (the width of the widest strip that fits between them; separation of convex sets, any text on convex
//! geometry). Negative where they overlap: by how much one must move to come free.

/// Convex hull of discs in a plane.
#[derive(Clone, Debug, PartialEq)]
pub struct Hull {
    /// Centre and radius of each disc \[mm\].
    pub discs: Vec<([f64; 2], f64)>,
}

impl Hull {
    /// A disc.
    pub fn disc(centre: [f64; 2], radius_mm: f64) -> Self {
        Self { discs: vec![(centre, radius_mm)] }
    }

    /// Band about two discs.
    pub fn band(a: ([f64; 2], f64), b: ([f64; 2], f64)) -> Self {
        Self { discs: vec![a, b] }
    }

    /// An upright rectangle between two corners.
    pub fn rectangle(low: [f64; 2], high: [f64; 2]) -> Self {
        let corners = [low, [high[0], low[1]], high, [low[0], high[1]]];
        Self { discs: corners.into_iter().map(|c| (c, 0.0)).collect() }
    }

    /// How far it reaches in a direction \[mm\].
    fn support(&self, u: [f64; 2]) -> f64 {
        let reach = |(c, r): &([f64; 2], f64)| c[0] * u[0] + c[1] * u[1] + r;
        self.discs.iter().map(reach).fold(f64::NEG_INFINITY, f64::max)
    }

    /// Directions along which two discs reach equally far: square to the edges of the hull.
    fn edge_normals(&self) -> Vec<[f64; 2]> {
        let mut found = Vec::new();
        for (i, (a, r)) in self.discs.iter().enumerate() {
            for (b, s) in &self.discs[i + 1..] {
                let (x, y) = (a[0] - b[0], a[1] - b[1]);
                let apart = x.hypot(y);
                let along = (s - r) / apart;
                if along.abs() <= 1.0 {
                    let across = (1.0 - along * along).sqrt();
                    let (x, y) = (x / apart, y / apart);
                    found.push([along * x - across * y, along * y + across * x]);
                    found.push([along * x + across * y, along * y - across * x]);
                }
            }
        }
        found
    }

    /// Least distance to another hull \[mm\]; negative where they overlap.
    ///
    /// Exact: the strip between both is widest along a line of two centres or square to an edge, so only these are tried.
    pub fn gap_mm(&self, other: &Self) -> f64 {
        let apart = |u: [f64; 2]| -self.support(u) - other.support([-u[0], -u[1]]);
        let mut best = apart([1.0, 0.0]);
        for (a, _) in &self.discs {
            for (b, _) in &other.discs {
                let (x, y) = (a[0] - b[0], a[1] - b[1]);
                let length = x.hypot(y);
                if length > 0.0 {
                    best = best.max(apart([-x / length, -y / length]));
                }
            }
        }
        let own = self.edge_normals().into_iter();
        let theirs = other.edge_normals().into_iter().map(|u| [-u[0], -u[1]]);
        own.chain(theirs).map(apart).fold(best, f64::max)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::Point2;
    use crate::shape::gap::loop_gap;
    use crate::shape::outline;
    use std::f64::consts::TAU;

    /// Against the exact distance of lines and arcs of the cut outlines, another method.
    #[test]
    fn bands_are_as_far_apart_as_their_outlines() {
        let band = |a: [f64; 2], r: f64, b: [f64; 2], s: f64| {
            let exact = outline::hull(&[(Point2::new(a[0], a[1]), r), (Point2::new(b[0], b[1]), s)]);
            (Hull::band((a, r), (b, s)), exact)
        };
        let first = band([0.0, 0.0], 11.0, [3.0, 70.0], 9.0);
        for i in 0..24 {
            let (sin, cos) = (f64::from(i) * TAU / 24.0).sin_cos();
            let second = band([60.0 + 16.0 * sin, 16.0 * cos], 11.0, [60.0, 72.0], 9.5);
            let (ours, exact) = (first.0.gap_mm(&second.0), loop_gap(&first.1, &second.1));
            assert!((ours - exact).abs() < 1e-9, "{i}: {ours} and {exact}");
        }
    }

    #[test]
    fn corners_and_overlaps() {
        let a = Hull::rectangle([0.0, 0.0], [4.0, 3.0]);
        let b = Hull::rectangle([7.0, 7.0], [9.0, 9.0]);
        assert!((a.gap_mm(&b) - 5.0).abs() < 1e-9, "{}", a.gap_mm(&b));
        let c = Hull::disc([4.0, 1.5], 1.0);
        assert!((a.gap_mm(&c) + 1.0).abs() < 1e-9, "{}", a.gap_mm(&c));
    }
}
