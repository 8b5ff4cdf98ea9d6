//! Which parts of a sheet are taken, on a grid of small cells, so that room for tables is found quickly.

use super::board::{Board, Frame};
use crate::shape::{EuclideanSpace, InnerSpace, Point2, Vector2};

/// Side of a cell \[mm\].
const CELL: f64 = 2.0;

/// Points that cover everything drawn on a board, close enough to meet every cell on the way.
pub struct Marks(Vec<Point2>);

/// Counts of taken cells, summed from the lower left corner.
pub struct Occupancy {
    low: Point2,
    columns: usize,
    rows: usize,
    taken: Vec<u32>,
    sums: Vec<u32>,
}

impl Marks {
    /// Covers a board.
    pub fn of(board: &Board) -> Self {
        let mut points = Vec::new();
        for stroke in &board.strokes {
            let steps = (stroke.line.length() / (CELL * 0.5)).ceil().max(1.0) as usize;
            points.extend((0..=steps).map(|k| stroke.line.at(k as f64 / steps as f64)));
        }
        for label in &board.labels {
            let f = label.frame();
            let across = (f.width() / CELL).ceil() as usize + 1;
            let up = (f.height() / CELL).ceil() as usize + 1;
            let at = |i: usize, j: usize| {
                let t = (i as f64 / across as f64, j as f64 / up as f64);
                Point2::new(f.low.x + f.width() * t.0, f.low.y + f.height() * t.1)
            };
            points.extend((0..=across).flat_map(|i| (0..=up).map(move |j| (i, j))).map(|(i, j)| at(i, j)));
        }
        Self(points)
    }
}

impl Occupancy {
    /// Takes the cells of boards, each moved, inside `space`.
    pub fn new(boards: &[(&Marks, Vector2)], space: &Frame) -> Self {
        let columns = (space.width() / CELL).ceil() as usize + 1;
        let rows = (space.height() / CELL).ceil() as usize + 1;
        let mut taken = vec![0_u32; columns * rows];
        for (marks, by) in boards {
            let from = *by - space.low.to_vec();
            for p in &marks.0 {
                let (i, j) = ((p.x + from.x) / CELL, (p.y + from.y) / CELL);
                if i >= 0.0 && j >= 0.0 && (i as usize) < columns && (j as usize) < rows {
                    taken[j as usize * columns + i as usize] = 1;
                }
            }
        }
        let sums = summed(&taken, columns, rows);
        Self { low: space.low, columns, rows, taken, sums }
    }

    /// Marks a whole rectangle as taken.
    pub fn take(&mut self, f: &Frame) {
        let cell = |v: f64, most: usize| ((v / CELL).floor().max(0.0) as usize).min(most);
        let (i0, i1) = (
            cell(f.low.x - self.low.x - CELL, self.columns),
            cell(f.high.x - self.low.x + CELL, self.columns - 1),
        );
        let (j0, j1) =
            (cell(f.low.y - self.low.y - CELL, self.rows), cell(f.high.y - self.low.y + CELL, self.rows - 1));
        for j in j0..=j1 {
            for i in i0..=i1 {
                self.taken[j * self.columns + i] = 1;
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
        let (below, above) = sums.split_at_mut((j + 1) * wide);
        let below = &below[j * wide + 1..];
        let row = &taken[j * columns..(j + 1) * columns];
        let mut along = 0;
        for ((sum, under), cell) in above[1..].iter_mut().zip(below).zip(row) {
            along += cell;
            *sum = under + along;
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
        let taken = Occupancy::new(&[(&Marks::of(&board), Vector2::new(0.0, 0.0))], &space);
        assert!(!taken.is_free(&Frame::new(50.0, 10.0, 20.0, 10.0)));
        let right = taken.nearest(&space, (30.0, 20.0), 2.0, Point2::new(100.0, 60.0)).unwrap();
        assert!(right.x > 60.0 && right.y > 30.0, "{right:?}");
        assert!(taken.nearest(&space, (50.0, 20.0), 2.0, Point2::new(100.0, 60.0)).unwrap().x < 10.0);
    }
}
