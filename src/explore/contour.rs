//! Lines of equal value on a grid, by marching squares: along each side of a square the value goes straight from corner
//! to corner. (W. E. Lorensen and H. E. Cline, "Marching Cubes", Computer Graphics 21(4), 1987, in two dimensions; from
//! memory.) A square with one unknown corner is halved; with more it holds no line.

use std::collections::{BTreeMap, BTreeSet};

/// Values over a grid of two inputs.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    /// Ascending places along the first input.
    pub x: Vec<f64>,
    /// Ascending places along the second input.
    pub y: Vec<f64>,
    /// Values, `x.len()` rows of `y.len()`; `None` where there is none.
    pub z: Vec<Option<f64>>,
}

/// A node of the grid: its place along both inputs.
type Node = (usize, usize);
/// A side of a square or of half a square, the lesser node first.
type Side = (Node, Node);

impl Grid {
    /// Value at a node.
    pub fn at(&self, (i, j): (usize, usize)) -> Option<f64> {
        self.z.get(i * self.y.len() + j).copied().flatten()
    }

    /// Corners of all squares, counter-clockwise from the lower left.
    pub fn squares(&self) -> impl Iterator<Item = [(usize, usize); 4]> {
        let (across, up) = (self.x.len().saturating_sub(1), self.y.len().saturating_sub(1));
        let corners = |(i, j): (usize, usize)| [(i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)];
        (0..across).flat_map(move |i| (0..up).map(move |j| corners((i, j))))
    }

    /// Where the line of `level` meets a side of which one end is above it.
    fn crossing(&self, (a, b): Side, level: f64) -> Option<[f64; 2]> {
        let (za, zb) = (self.at(a)?, self.at(b)?);
        let t = (level - za) / (zb - za);
        let between = |from: f64, to: f64| from + (to - from) * t;
        Some([between(self.x[a.0], self.x[b.0]), between(self.y[a.1], self.y[b.1])])
    }
}

/// Lines along which the grid has the value `level`; a closed line ends where it begins.
pub fn contours(grid: &Grid, level: f64) -> Vec<Vec<[f64; 2]>> {
    let segments: Vec<[Side; 2]> = grid.squares().flat_map(|square| in_square(grid, square, level)).collect();
    let place = |sides: Vec<Side>| sides.iter().filter_map(|side| grid.crossing(*side, level)).collect();
    chains(&segments).into_iter().map(place).collect()
}

/// Pieces of the line in a square.
fn in_square(grid: &Grid, square: [Node; 4], level: f64) -> Vec<[Side; 2]> {
    let known: Vec<Node> = square.into_iter().filter(|node| grid.at(*node).is_some()).collect();
    let above = |node: &Node| grid.at(*node).is_some_and(|z| z >= level);
    let sides: Vec<Side> = (0..known.len()).map(|k| side(known[k], known[(k + 1) % known.len()])).collect();
    let crossed: Vec<Side> = sides.into_iter().filter(|(a, b)| above(a) != above(b)).collect();
    match (known.len(), crossed.len()) {
        (3 | 4, 2) => vec![[crossed[0], crossed[1]]],
        (4, 4) => {
            // The middle says which corners belong together; the line cuts off the two others.
            let middle = known.iter().filter_map(|node| grid.at(*node)).sum::<f64>() / 4.0;
            let pairs =
                if (middle >= level) == above(&known[0]) { [[0, 1], [2, 3]] } else { [[3, 0], [1, 2]] };
            pairs.map(|pair| pair.map(|k| crossed[k])).to_vec()
        }
        _ => Vec::new(),
    }
}

fn side(a: Node, b: Node) -> Side {
    if a < b { (a, b) } else { (b, a) }
}

/// Joins pieces that share a side to long lines; a line that ends nowhere comes back to its first side.
fn chains(segments: &[[Side; 2]]) -> Vec<Vec<Side>> {
    let mut meeting: BTreeMap<Side, Vec<usize>> = BTreeMap::new();
    for (number, segment) in segments.iter().enumerate() {
        segment.iter().for_each(|side| meeting.entry(*side).or_default().push(number));
    }
    let ends = meeting.iter().filter(|(_, pieces)| pieces.len() == 1).map(|(side, _)| *side);
    let starts: Vec<Side> = ends.chain(meeting.keys().copied()).collect();
    let mut used = BTreeSet::new();
    let mut lines = Vec::new();
    for start in starts {
        let line = follow(segments, &meeting, &mut used, start);
        if line.len() > 1 {
            lines.push(line);
        }
    }
    lines
}

/// Follows unused pieces from a side until there is none left.
fn follow(
    segments: &[[Side; 2]],
    meeting: &BTreeMap<Side, Vec<usize>>,
    used: &mut BTreeSet<usize>,
    start: Side,
) -> Vec<Side> {
    let mut line = vec![start];
    let mut at = start;
    while let Some(next) = meeting[&at].iter().copied().find(|piece| !used.contains(piece)) {
        used.insert(next);
        let [a, b] = segments[next];
        at = if a == at { b } else { a };
        line.push(at);
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grid(nodes: usize, half: f64, value: impl Fn(f64, f64) -> Option<f64>) -> Grid {
        let places: Vec<f64> =
            (0..nodes).map(|i| half * (2.0 * i as f64 / (nodes - 1) as f64 - 1.0)).collect();
        let z = places.iter().flat_map(|x| places.iter().map(|y| value(*x, *y))).collect();
        Grid { x: places.clone(), y: places, z }
    }

    fn length(line: &[[f64; 2]]) -> f64 {
        line.windows(2).map(|p| (p[1][0] - p[0][0]).hypot(p[1][1] - p[0][1])).sum()
    }

    /// Analytic geometry: x² + y² = R² is a circle. Along a side of length h the straight line between the corners is off
    /// from the square by h²/4 at most (error of linear interpolation, h²/8 times the second derivative 2), so every
    /// corner of the line has |r² - R²| <= h²/4.
    #[test]
    fn a_circle_comes_out_round() {
        let (nodes, half, radius) = (41, 1.5, 1.0_f64);
        let lines = contours(&grid(nodes, half, |x, y| Some(x * x + y * y)), radius * radius);
        assert_eq!(lines.len(), 1);
        let h = 2.0 * half / (nodes - 1) as f64;
        for [x, y] in &lines[0] {
            assert!((x * x + y * y - radius * radius).abs() <= h * h / 4.0 + 1e-12, "{x} {y}");
        }
        assert_eq!(lines[0].first(), lines[0].last(), "closed");
        assert!((length(&lines[0]) / std::f64::consts::TAU - 1.0).abs() < 2e-3);
        let finer = contours(&grid(161, half, |x, y| Some(x * x + y * y)), radius * radius);
        let off = |line: &[[f64; 2]]| (length(line) / std::f64::consts::TAU - 1.0).abs();
        assert!(off(&finer[0]) < off(&lines[0]) / 4.0, "a finer grid is rounder");
    }

    /// A plane is met exactly: x + 2 y = 0.3 is one straight line from border to border.
    #[test]
    fn a_plane_gives_a_straight_line() {
        let lines = contours(&grid(11, 1.0, |x, y| Some(x + 2.0 * y)), 0.3);
        assert_eq!(lines.len(), 1);
        assert!(lines[0].iter().all(|[x, y]| (x + 2.0 * y - 0.3).abs() < 1e-12));
        let (first, last) = (lines[0][0], lines[0][lines[0].len() - 1]);
        let across = (first[0] - last[0]).abs();
        assert!((across - 2.0).abs() < 1e-12, "from {first:?} to {last:?}");
    }

    /// The hyperbola x y = c has two branches, in the first and third quadrant for c > 0.
    #[test]
    fn a_saddle_has_two_branches_that_do_not_cross() {
        for level in [0.04, -0.04] {
            let lines = contours(&grid(10, 1.0, |x, y| Some(x * y)), level);
            assert_eq!(lines.len(), 2, "{level}");
            for line in lines {
                let sign = line[0][0].signum();
                assert!(line.iter().all(|[x, _]| x.signum() == sign));
            }
        }
    }

    #[test]
    fn no_line_enters_what_is_unknown() {
        let known = |x: f64, y: f64| (x < 0.31).then_some(y);
        let lines = contours(&grid(21, 1.0, known), 0.05);
        assert_eq!(lines.len(), 1);
        assert!(lines[0].iter().all(|[x, y]| *x < 0.31 && (y - 0.05).abs() < 1e-12));
        assert!(contours(&grid(5, 1.0, |_, _| None), 0.0).is_empty());
        assert!(contours(&grid(5, 1.0, |_, _| Some(1.0)), 1.0).is_empty(), "flat");
    }
}
