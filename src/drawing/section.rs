//! The cut surface of a part in one plane: shapes that add or take away metal, the lines that bound
//! what is left, and its hatching. Lines stay lines and arcs stay arcs.

use crate::shape::crossing::split;
use crate::shape::loops::{Inside, Loop, Piece};
use crate::shape::{InnerSpace, Point2, Vector2};

/// Distance to either side of a line at which it is asked whether there is metal \[mm\].
const BESIDE: f64 = 5e-4;

/// A closed shape in the plane of the section.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Its outline \[mm\].
    pub pieces: Vec<Piece>,
    /// Adds metal, or takes it away. Later shapes win over earlier ones.
    pub adds: bool,
    inside: Inside,
    low: Point2,
    high: Point2,
}

impl Shape {
    /// A shape with its bounds.
    fn new(outline: &Loop, adds: bool) -> Self {
        let (low, high) = outline.bounds();
        Self { pieces: outline.pieces(), adds, inside: Inside::of(outline), low, high }
    }

    /// Whether a point lies inside. It is lifted by a hair, so that it does not stand level with corners.
    fn contains(&self, p: Point2) -> bool {
        let p = Point2::new(p.x, p.y + LIFT);
        let in_bounds = p.x > self.low.x && p.x < self.high.x && p.y > self.low.y && p.y < self.high.y;
        in_bounds && self.inside.contains(p)
    }
}

/// How far a point is lifted \[mm\].
const LIFT: f64 = 1.234_567e-7;

/// The edge of a step seen beyond the section: from a corner straight towards the axis or as far as
/// there is air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rim {
    /// The corner \[mm\].
    pub from: Point2,
    /// Its mirror image across the axis \[mm\].
    pub to: Point2,
}

/// Everything in one section plane.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Section {
    /// Shapes in the order in which they are made.
    pub shapes: Vec<Shape>,
    /// Edges of steps that may be seen beyond.
    pub rims: Vec<Rim>,
    /// Where the part is cut at all: everywhere if `None`.
    within: Option<Shape>,
}

impl Section {
    /// Adds metal.
    pub fn add(&mut self, outline: Loop) {
        self.shapes.push(Shape::new(&outline, true));
    }

    /// Takes metal away.
    pub fn cut(&mut self, outline: Loop) {
        self.shapes.push(Shape::new(&outline, false));
    }

    /// The section inside a loop only; its border is no edge.
    pub fn within(mut self, border: &Loop) -> Self {
        self.within = Some(Shape::new(border, true));
        self
    }

    /// Whether the part is cut at a point.
    fn is_cut(&self, p: Point2) -> bool {
        self.within.as_ref().is_none_or(|border| border.contains(p))
    }

    /// Whether there is metal at a point that is cut.
    pub fn is_metal(&self, p: Point2) -> bool {
        self.is_cut(p) && self.is_filled(p)
    }

    /// Whether there is metal at a point of the whole plane.
    pub fn is_filled(&self, p: Point2) -> bool {
        self.shapes.iter().rev().find(|s| s.contains(p)).is_some_and(|s| s.adds)
    }

    /// All lines of the plane and of the border.
    fn pieces(&self) -> Vec<Piece> {
        self.shapes.iter().chain(&self.within).flat_map(|s| s.pieces.iter().copied()).collect()
    }

    /// Lines between metal and air.
    pub fn edges(&self) -> Vec<Piece> {
        let all = self.pieces();
        let mut kept: Vec<Piece> = Vec::new();
        for piece in self.shapes.iter().flat_map(|s| &s.pieces) {
            for part in split(piece, &all) {
                if self.is_cut(part.at(0.5))
                    && self.parts_metal_from_air(&part)
                    && !kept.iter().any(|k| same(k, &part))
                {
                    kept.push(part);
                }
            }
        }
        kept
    }

    /// Whether exactly one side of a piece is metal.
    fn parts_metal_from_air(&self, piece: &Piece) -> bool {
        let (left, right) = beside(piece);
        self.is_filled(left) != self.is_filled(right)
    }

    /// The border of the section where it runs through metal.
    pub fn border(&self) -> Vec<Piece> {
        let all = self.pieces();
        let border = self.within.iter().flat_map(|b| &b.pieces);
        border.flat_map(|piece| split(piece, &all)).filter(|part| self.is_filled(part.at(0.5))).collect()
    }

    /// Edges of steps that show in the air beyond the section.
    pub fn seen_rims(&self) -> Vec<Piece> {
        let all = self.pieces();
        let mut seen: Vec<Piece> = Vec::new();
        for rim in &self.rims {
            let middle = rim.from + (rim.to - rim.from) * 0.5;
            for (start, end) in [(rim.from, middle), (rim.to, middle)] {
                for part in self.walk(start, end, &all) {
                    if !seen.iter().any(|s| same(s, &part)) {
                        seen.push(part);
                    }
                }
            }
        }
        seen
    }

    /// Parts of the line from a corner inwards with air on both sides, as far as the air reaches on
    /// at least one side.
    fn walk(&self, start: Point2, end: Point2, all: &[Piece]) -> Vec<Piece> {
        let mut open = [true, true];
        let mut found = Vec::new();
        for part in split(&Piece::Line { from: start, to: end }, all) {
            let (left, right) = beside(&part);
            let metal = [self.is_filled(left), self.is_filled(right)];
            open = [open[0] && !metal[0], open[1] && !metal[1]];
            if open == [false, false] {
                break;
            }
            if metal == [false, false] && self.is_cut(part.at(0.5)) {
                found.push(part);
            }
        }
        found
    }

    /// Hatching at 45° with the given spacing \[mm\], as straight lines.
    pub fn hatching(&self, spacing: f64) -> Vec<(Point2, Point2)> {
        let bounds: Vec<(Point2, Point2)> =
            self.shapes.iter().filter(|s| s.adds).map(|s| (s.low, s.high)).collect();
        let fold = |f: fn(f64, f64) -> f64, start, values: Vec<f64>| values.into_iter().fold(start, f);
        let low = fold(f64::min, f64::INFINITY, bounds.iter().map(|b| b.0.y - b.1.x).collect());
        let high = fold(f64::max, f64::NEG_INFINITY, bounds.iter().map(|b| b.1.y - b.0.x).collect());
        let left = fold(f64::min, f64::INFINITY, bounds.iter().map(|b| b.0.x).collect());
        let right = fold(f64::max, f64::NEG_INFINITY, bounds.iter().map(|b| b.1.x).collect());
        let all = self.pieces();
        let step = spacing * std::f64::consts::SQRT_2;
        let count = ((high - low) / step).floor().max(0.0) as usize;
        let line = |i: usize| {
            let c = low + step * (i as f64 + 0.5);
            (Point2::new(left - 1.0, left - 1.0 + c), Point2::new(right + 1.0, right + 1.0 + c))
        };
        (0..count).flat_map(|i| self.inside(line(i), &all)).collect()
    }

    /// Parts of a straight line that run in metal.
    fn inside(&self, (from, to): (Point2, Point2), all: &[Piece]) -> Vec<(Point2, Point2)> {
        let mut runs: Vec<(Point2, Point2)> = Vec::new();
        for part in split(&Piece::Line { from, to }, all) {
            if self.is_metal(part.at(0.5)) {
                match runs.last_mut().filter(|last| (last.1 - part.at(0.0)).magnitude() < 1e-6) {
                    Some(last) => last.1 = part.at(1.0),
                    None => runs.push((part.at(0.0), part.at(1.0))),
                }
            }
        }
        runs
    }
}

/// Points just to the left and to the right of the middle of a piece.
fn beside(piece: &Piece) -> (Point2, Point2) {
    let (m, ahead) = (piece.at(0.5), piece.at(0.5 + 1e-6) - piece.at(0.5 - 1e-6));
    let n = Vector2::new(-ahead.y, ahead.x).normalize() * BESIDE;
    (m + n, m - n)
}

/// Whether two pieces are the same line, whichever way they run.
fn same(a: &Piece, b: &Piece) -> bool {
    let near = |p: Point2, q: Point2| (p - q).magnitude() < 1e-6;
    let ends = (near(a.at(0.0), b.at(0.0)) && near(a.at(1.0), b.at(1.0)))
        || (near(a.at(0.0), b.at(1.0)) && near(a.at(1.0), b.at(0.0)));
    ends && near(a.at(0.5), b.at(0.5))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::outline::rectangle;

    fn plate_with_hole() -> Section {
        let mut section = Section::default();
        section.add(rectangle(Point2::new(0.0, 0.0), Point2::new(40.0, 10.0), 0.0));
        section.cut(rectangle(Point2::new(15.0, 0.0), Point2::new(25.0, 10.0), 0.0));
        section
    }

    #[test]
    fn a_hole_opens_both_faces() {
        let length: f64 = plate_with_hole().edges().iter().map(Piece::length).sum();
        // Two blocks of 15 x 10: 2 (15 + 10) each.
        assert!((length - 100.0).abs() < 1e-6, "{length}");
    }

    #[test]
    fn the_rim_of_a_hole_shows_across_its_mouth() {
        let mut section = plate_with_hole();
        section.rims.push(Rim { from: Point2::new(15.0, 10.0), to: Point2::new(25.0, 10.0) });
        section.rims.push(Rim { from: Point2::new(0.0, 5.0), to: Point2::new(40.0, 5.0) });
        let seen: f64 = section.seen_rims().iter().map(Piece::length).sum();
        assert!((seen - 10.0).abs() < 1e-6, "{seen}");
    }

    #[test]
    fn hatching_covers_the_metal_alone() {
        let hatch = plate_with_hole().hatching(0.01);
        // Length of dense hatching times its spacing is the area.
        let area: f64 = hatch.iter().map(|(a, b)| (*b - *a).magnitude() * 0.01).sum();
        assert!((area - 300.0).abs() < 1.0, "{area}");
    }
}
