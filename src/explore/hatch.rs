//! Hatching of areas on a chart: lines at 45° that go on from one area into the next.

use crate::drawing::board::Board;
use crate::drawing::pen::Pen;
use crate::shape::Point2;
use std::collections::BTreeMap;

/// Distance of the lines \[mm\].
const SPACING: f64 = 2.0;

/// Gap up to which two pieces of a line are one \[mm\].
const TOUCH: f64 = 1e-6;

/// Hatches convex areas \[mm\] that do not overlap.
pub fn hatch(board: &mut Board, areas: &[Vec<Point2>]) {
    let mut pieces: BTreeMap<i64, Vec<(f64, f64)>> = BTreeMap::new();
    // A hatching line has the same y - x everywhere and is cut by the side of an area.
    let number = |p: &Point2| (p.y - p.x) / SPACING / std::f64::consts::SQRT_2;
    for area in areas {
        let low = area.iter().map(number).fold(f64::INFINITY, f64::min);
        let high = area.iter().map(number).fold(f64::NEG_INFINITY, f64::max);
        for k in low.ceil() as i64..=high.floor() as i64 {
            pieces.entry(k).or_default().extend(cut(area, k as f64, &number));
        }
    }
    for (k, mut run) in pieces {
        run.sort_by(|a, b| a.0.total_cmp(&b.0));
        let rise = k as f64 * SPACING * std::f64::consts::SQRT_2;
        for (from, to) in joined(&run) {
            board.line(Pen::Hatch, Point2::new(from, from + rise), Point2::new(to, to + rise));
        }
    }
}

/// Least and greatest x of the part of line `k` in an area.
fn cut(area: &[Point2], k: f64, number: &impl Fn(&Point2) -> f64) -> Option<(f64, f64)> {
    let sides = (0..area.len()).map(|i| (area[i], area[(i + 1) % area.len()]));
    let crossings = sides.filter_map(|(a, b)| {
        let (na, nb) = (number(&a), number(&b));
        let t = (k - na) / (nb - na);
        (na != nb && (0.0..=1.0).contains(&t)).then_some(a.x + (b.x - a.x) * t)
    });
    let (low, high) =
        crossings.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| (low.min(x), high.max(x)));
    (high - low > TOUCH).then_some((low, high))
}

/// Sorted pieces of a line, those that touch joined.
fn joined(pieces: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut runs: Vec<(f64, f64)> = Vec::new();
    for (from, to) in pieces {
        match runs.last_mut() {
            Some(last) if *from <= last.1 + TOUCH => last.1 = last.1.max(*to),
            _ => runs.push((*from, *to)),
        }
    }
    runs
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Lines at a distance d that cover an area A have together the length A / d.
    #[test]
    fn the_lines_cover_the_area_and_run_on_from_part_to_part() {
        let part = |x: f64| {
            [(x, 0.0), (x + 20.0, 0.0), (x + 20.0, 40.0), (x, 40.0)].map(|(x, y)| Point2::new(x, y)).to_vec()
        };
        let mut board = Board::default();
        hatch(&mut board, &[part(0.0), part(20.0)]);
        let length: f64 = board.strokes.iter().map(|s| s.line.length()).sum();
        assert!((length - 40.0 * 40.0 / SPACING).abs() < 0.05 * length, "{length}");
        let mut whole = Board::default();
        let square = [(0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)];
        hatch(&mut whole, &[square.map(|(x, y)| Point2::new(x, y)).to_vec()]);
        assert_eq!(board.strokes.len(), whole.strokes.len());
    }
}
