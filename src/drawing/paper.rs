//! The sheet itself (ISO 5457): trimmed edge, frame, centring marks and grid references.

use super::board::{Board, Frame, Label};
use super::options::Paper;
use super::pen::Pen;
use crate::shape::Point2;

/// Margin on the left for filing, and on the other sides \[mm\] (ISO 5457).
const LEFT: f64 = 20.0;
const OTHER: f64 = 10.0;
/// Width of the strip of grid references \[mm\].
const STRIP: f64 = 5.0;
/// Length of a field of the grid \[mm\] (ISO 5457).
const FIELD: f64 = 50.0;

/// The drawing space inside the frame.
pub fn space(paper: Paper) -> Frame {
    let (w, h) = paper.size_mm();
    Frame::new(LEFT, OTHER, w - LEFT - OTHER, h - 2.0 * OTHER)
}

/// Draws frame, centring marks and grid.
pub fn draw(paper: Paper) -> Board {
    let mut board = Board::default();
    let inner = space(paper);
    board.frame(Pen::Frame, &inner);
    let outer = inner.grown(STRIP);
    board.frame(Pen::Grid, &outer);
    centring_marks(&mut board, &inner, &outer);
    let upright = paper == Paper::A4;
    fields(&mut board, &inner, &outer, true, !upright);
    fields(&mut board, &inner, &outer, false, !upright);
    board.write(Label::level(paper.name(), inner.high.x - 6.0, outer.low.y + 1.0, 2.5));
    board
}

/// Marks in the middle of each side, from the border of the grid to 5 mm inside the frame.
/// (ISO 5457 gives 10 mm beyond the frame; half of it leaves the drawing space usable.)
fn centring_marks(board: &mut Board, inner: &Frame, outer: &Frame) {
    let (c, inside) = (inner.centre(), 5.0);
    let mut mark =
        |a: (f64, f64), b: (f64, f64)| board.line(Pen::Frame, Point2::new(a.0, a.1), Point2::new(b.0, b.1));
    mark((c.x, outer.high.y), (c.x, inner.high.y - inside));
    mark((c.x, outer.low.y), (c.x, inner.low.y));
    mark((outer.low.x, c.y), (inner.low.x + inside, c.y));
    mark((outer.high.x, c.y), (inner.high.x - inside, c.y));
}

/// Ticks and names of the fields along one direction, counted from the middle outwards in steps of 50 mm.
fn fields(board: &mut Board, inner: &Frame, outer: &Frame, level: bool, both: bool) {
    let (low, high, middle) = match level {
        true => (outer.low.x, outer.high.x, inner.centre().x),
        false => (outer.low.y, outer.high.y, inner.centre().y),
    };
    let steps = ((high - middle) / FIELD).floor() as i32;
    let mut ticks: Vec<f64> = (-steps..=steps).map(|i| middle + FIELD * f64::from(i)).collect();
    ticks.retain(|t| *t > low + 8.0 && *t < high - 8.0);
    let borders: Vec<f64> = std::iter::once(low).chain(ticks.iter().copied()).chain([high]).collect();
    let count = borders.len() - 1;
    let sides = if both { vec![true, false] } else { vec![true] };
    for far in sides {
        for t in ticks.iter().filter(|t| (**t - middle).abs() > 1.0) {
            tick(board, inner, outer, level, far, *t);
        }
        for (i, pair) in borders.windows(2).enumerate() {
            let name = if level { (i + 1).to_string() } else { letter(count - 1 - i) };
            write(board, inner, outer, level, far, (pair[0] + pair[1]) / 2.0, &name);
        }
    }
}

/// One tick of the grid.
fn tick(board: &mut Board, inner: &Frame, outer: &Frame, level: bool, far: bool, at: f64) {
    let (a, b) = match (level, far) {
        (true, true) => (Point2::new(at, inner.high.y), Point2::new(at, outer.high.y)),
        (true, false) => (Point2::new(at, outer.low.y), Point2::new(at, inner.low.y)),
        (false, true) => (Point2::new(inner.high.x, at), Point2::new(outer.high.x, at)),
        (false, false) => (Point2::new(outer.low.x, at), Point2::new(inner.low.x, at)),
    };
    board.line(Pen::Grid, a, b);
}

/// One name of the grid, in the middle of its strip.
fn write(board: &mut Board, inner: &Frame, outer: &Frame, level: bool, far: bool, at: f64, name: &str) {
    let h = 3.5;
    let w = super::lettering::width(name, h);
    let base = STRIP / 2.0 - h / 2.0;
    let (x, y) = match (level, far) {
        (true, true) => (at - w / 2.0, inner.high.y + base),
        (true, false) => (at - w / 2.0, outer.low.y + base),
        (false, true) => (inner.high.x + (STRIP - w) / 2.0, at - h / 2.0),
        (false, false) => (outer.low.x + (STRIP - w) / 2.0, at - h / 2.0),
    };
    board.write(Label::level(name, x, y, h));
}

/// Letter of a row from the top, without I and O (ISO 5457).
fn letter(index: usize) -> String {
    "ABCDEFGHJKLMNPQRSTUVWXYZ".chars().nth(index).map_or_else(|| index.to_string(), String::from)
}
