//! Pieces of parts that move past each other: prisms along the crankshafts (Y) with a convex outline in X and Z.
//!
//! Between prisms the distance is exact: that of the outlines and that along Y, squared and added. A round body stands as
//! the box about it, which is exact wherever its faces across the axis meet a flat.

use super::hull::Hull;

/// A convex piece of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Name of the instance in the assembly.
    pub part: &'static str,
    /// From and to along Y \[mm\].
    pub y_mm: [f64; 2],
    /// Outline in X and Z \[mm\].
    pub outline: Hull,
}

impl Piece {
    /// A piece.
    pub fn new(part: &'static str, y_mm: [f64; 2], outline: Hull) -> Self {
        Self { part, y_mm, outline }
    }

    /// Least distance to another piece \[mm\]; negative where they overlap.
    pub fn gap_mm(&self, other: &Self) -> f64 {
        let along = (other.y_mm[0] - self.y_mm[1]).max(self.y_mm[0] - other.y_mm[1]);
        let across = self.outline.gap_mm(&other.outline);
        match (along > 0.0, across > 0.0) {
            (true, true) => along.hypot(across),
            _ => along.max(across),
        }
    }
}

/// Two parts that pass each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// Names of both in the assembly.
    pub parts: [&'static str; 2],
    /// Gap beside it that stays the same over the turn, of round parts one in the other \[mm\].
    pub beside_mm: Option<f64>,
    /// Clearance wanted and least \[mm\].
    pub wanted_mm: [f64; 2],
    /// Path of the number that decides it.
    pub path: &'static str,
}

impl Pair {
    /// Name of its check.
    pub fn name(&self) -> String {
        format!("clearance-{}-{}", self.parts[0], self.parts[1])
    }
}

/// Least distance between any piece of one part and any of another \[mm\].
pub fn gap_mm(pieces: &[Piece], one: &str, other: &str) -> f64 {
    let of = |name: &str| pieces.iter().filter(move |p| p.part == name).collect::<Vec<_>>();
    let others = of(other);
    let all = of(one).into_iter().flat_map(|a| others.iter().map(|b| a.gap_mm(b)).collect::<Vec<_>>());
    all.fold(f64::INFINITY, f64::min)
}

/// Where a pair comes nearest over the turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// Least distance \[mm\].
    pub gap_mm: f64,
    /// Crank angle there \[deg\].
    pub angle_deg: f64,
}

/// Steps over the turn; the least of a smooth motion is missed by less than a thousandth of the stroke.
const STEPS: usize = 180;
/// Angle between two of them \[deg\].
const STEP_DEG: f64 = 360.0 / STEPS as f64;

/// Where everything that moves is at each step of a turn.
pub struct Turn<F> {
    at: F,
    steps: Vec<Vec<Piece>>,
}

impl<F: Fn(f64) -> Vec<Piece>> Turn<F> {
    /// A turn of what `at` gives at a crank angle \[deg\].
    pub fn of(at: F) -> Self {
        let steps = (0..STEPS).map(|i| at(i as f64 * STEP_DEG)).collect();
        Self { at, steps }
    }

    /// Least distance of two parts over the turn, closed in around the smallest of the steps.
    pub fn nearest(&self, one: &str, other: &str) -> Nearest {
        let coarse = self.steps.iter().zip(0..);
        let coarse = coarse.map(|(pieces, i)| Nearest {
            gap_mm: gap_mm(pieces, one, other),
            angle_deg: f64::from(i) * STEP_DEG,
        });
        let less = |a: Nearest, b: Nearest| if b.gap_mm < a.gap_mm { b } else { a };
        let best = coarse.reduce(less).unwrap_or(Nearest { gap_mm: f64::INFINITY, angle_deg: 0.0 });
        let fine = (-20..=20).map(|i| {
            let angle_deg = (best.angle_deg + STEP_DEG * f64::from(i) / 20.0).rem_euclid(360.0);
            Nearest { gap_mm: gap_mm(&(self.at)(angle_deg), one, other), angle_deg }
        });
        fine.fold(best, less)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prisms_beside_each_other_are_apart_by_pythagoras() {
        let a = Piece::new("a", [0.0, 6.0], Hull::rectangle([0.0, 0.0], [10.0, 10.0]));
        let b = Piece::new("b", [9.0, 12.0], Hull::disc([18.0, 5.0], 4.0));
        assert!((a.gap_mm(&b) - 5.0).abs() < 1e-9);
        let c = Piece::new("c", [6.5, 12.0], Hull::disc([5.0, 5.0], 4.0));
        assert!((a.gap_mm(&c) - 0.5).abs() < 1e-9);
        assert!((gap_mm(&[a, b, c], "a", "c") - 0.5).abs() < 1e-9);
    }

    #[test]
    fn the_least_over_the_turn_is_found_between_the_steps() {
        let disc = |part, x: f64, r: f64| Piece::new(part, [0.0, 1.0], Hull::disc([x, 0.0], r));
        let turn = Turn::of(|deg| {
            vec![disc("still", 0.0, 1.0), disc("moving", 4.0 - (deg - 33.3).to_radians().cos(), 1.0)]
        });
        let found = turn.nearest("still", "moving");
        assert!((found.gap_mm - 1.0).abs() < 1e-6 && (found.angle_deg - 33.3).abs() < 0.1);
    }
}
