//! Which parts of a sheet are taken, on a grid of small cells, so that room for tables is found quickly.

use super::board::{Board, Frame};
use crate::shape::{InnerSpace, Point2};

/// Side of a cell \[mm\].
const CELL: f64 = 1.5;

/// Counts of taken cells, summed from the lower left corner.
pub struct Occupancy {
    low: Point2,
    columns: usize,
    rows: usize,
    taken: Vec<u32>,
    sums: Vec<u32>,
}

impl Occupancy {
    /// Marks everything drawn on a board inside `space`.
    pub fn new(board: &Board, space: &Frame) -> Self {
        let columns = (space.width() / CELL).ceil() as usize + 1;
        let rows = (space.height() / CELL).ceil() as usize + 1;
        let mut taken = vec![0_u32; columns * rows];
        let low = space.low;
        let cell = |p: Point2| {
            let (i, j) = ((p.x - low.x) / CELL, (p.y - low.y) / CELL);
            let inside = i >= 0.0 && j >= 0.0 && (i as usize) < columns && (j as usize) < rows;
            inside.then(|| j as usize * columns + i as usize)
        };
        for stroke in &board.strokes {
            let steps = (stroke.piece.length() / (CELL * 0.5)).ceil().max(1.0) as usize;
            for k in 0..=steps {
                if let Some(c) = cell(stroke.piece.at(k as f64 / steps as f64)) {
                    taken[c] = 1;
                }
            }
        }
        for label in &board.labels {
            let f = label.frame();
            let across = (f.width() / CELL).ceil() as usize + 1;
            let up = (f.height() / CELL).ceil() as usize + 1;
            for i in 0..=across {
                for j in 0..=up {
                    let t = (i as f64 / across as f64, j as f64 / up as f64);
                    if let Some(c) = cell(Point2::new(f.low.x + f.width() * t.0, f.low.y + f.height() * t.1))
                    {
                        taken[c] = 1;
                    }
                }
            }
        }
        let sums = summed(&taken, columns, rows);
        Self { low, columns, rows, taken, sums }
    }

    /// Marks a whole rectangle as taken.
    pub fn take(&mut self, f: &Frame) {
        for j in 0..self.rows {
            for i in 0..self.columns {
                let p =
                    Point2::new(self.low.x + CELL * (i as f64 + 0.5), self.low.y + CELL * (j as f64 + 0.5));
                if f.grown(CELL).holds_point(p) {
                    self.taken[j * self.columns + i] = 1;
                }
            }
        }
        self.sums = summed(&self.taken, self.columns, self.rows);
    }

    /// Whether nothing is drawn inside a rectangle.
    pub fn is_free(&self, f: &Frame) -> bool {
        let clamp = |v: f64, most: usize| (v.max(0.0) as usize).min(most);
        let (i0, j0) = (
            clamp((f.low.x - self.low.x) / CELL, self.columns),
            clamp((f.low.y - self.low.y) / CELL, self.rows),
        );
        let (i1, j1) = (
            clamp((f.high.x - self.low.x) / CELL + 1.0, self.columns),
            clamp((f.high.y - self.low.y) / CELL + 1.0, self.rows),
        );
        let at = |i: usize, j: usize| self.sums[j * (self.columns + 1) + i];
        at(i1, j1) + at(i0, j0) == at(i0, j1) + at(i1, j0)
    }

    /// The free place of a block of the given size nearest to a corner of `room`, as its lower left corner.
    pub fn nearest(&self, room: &Frame, size: (f64, f64), air: f64, corner: Point2) -> Option<Point2> {
        let (w, h) = size;
        if w > room.width() || h > room.height() {
            return None;
        }
        let steps = |from: f64, to: f64| {
            let n = ((to - from) / 2.0).floor() as usize;
            (0..=n).map(move |i| from + 2.0 * i as f64).chain([to])
        };
        let mut best: Option<(f64, Point2)> = None;
        for x in steps(room.low.x, room.high.x - w) {
            for y in steps(room.low.y, room.high.y - h) {
                let away = (Point2::new(x + w / 2.0, y + h / 2.0) - corner).magnitude();
                let nearer = best.is_none_or(|b| away < b.0);
                if nearer && self.is_free(&Frame::new(x, y, w, h).grown(air)) {
                    best = Some((away, Point2::new(x, y)));
                }
            }
        }
        best.map(|b| b.1)
    }
}

/// Sums over all cells to the lower left, with a border of zeros.
fn summed(taken: &[u32], columns: usize, rows: usize) -> Vec<u32> {
    let wide = columns + 1;
    let mut sums = vec![0_u32; wide * (rows + 1)];
    for j in 0..rows {
        for i in 0..columns {
            sums[(j + 1) * wide + i + 1] =
                taken[j * columns + i] + sums[j * wide + i + 1] + sums[(j + 1) * wide + i]
                    - sums[j * wide + i];
        }
    }
    sums
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::pen::Pen;

    #[test]
    fn the_nearest_free_corner_is_found_beside_a_line() {
        let space = Frame::new(0.0, 0.0, 100.0, 60.0);
        let mut board = Board::default();
        board.line(Pen::Visible, Point2::new(60.0, 0.0), Point2::new(60.0, 60.0));
        let taken = Occupancy::new(&board, &space);
        assert!(!taken.is_free(&Frame::new(50.0, 10.0, 20.0, 10.0)));
        let right = taken.nearest(&space, (30.0, 20.0), 2.0, Point2::new(100.0, 60.0)).unwrap();
        assert!(right.x > 60.0 && right.y > 30.0, "{right:?}");
        assert!(taken.nearest(&space, (50.0, 20.0), 2.0, Point2::new(100.0, 60.0)).unwrap().x < 10.0);
    }
}
