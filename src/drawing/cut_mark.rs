//! The cutting line in the front view of a plate: wide ends with arrows and letters, steps with wide corners (ISO 128-3).

use super::board::{Board, Label};
use super::callout::Row;
use super::cut::Cut;
use super::lettering;
use super::pen::Pen;
use super::views::{Scale, Views};
use crate::shape::{InnerSpace, Point2, Vector2};

/// Length of a wide corner of a step \[mm\].
const CORNER: f64 = 3.0;

/// Draws the cutting line, its ends as near to the outline as there is room.
pub fn draw(views: &mut Views, cut: &Cut, scale: &Scale, frame: &super::board::Frame) {
    let place = |along: f64, across: f64| {
        scale.point(if cut.level { Point2::new(along, across) } else { Point2::new(across, along) })
    };
    let [first, last] = [cut.steps[0], cut.steps[cut.steps.len() - 1]].map(|s| place(0.0, s.at));
    let ends = match cut.level {
        true => [(Point2::new(frame.low.x, first.y), -1.0), (Point2::new(frame.high.x, last.y), 1.0)],
        false => [(Point2::new(first.x, frame.low.y), -1.0), (Point2::new(last.x, frame.high.y), 1.0)],
    };
    let mut line = Vec::new();
    for (end, side) in ends {
        let found = (0..40)
            .map(|i| CutEnd::new(cut, end, side, f64::from(i) * 1.5))
            .find(|e| e.is_open(&views.board));
        match found {
            Some(mark) => {
                line.push(mark.inner);
                mark.draw(&mut views.board);
            }
            None => views.homeless.push(Row::new("A", &[])),
        }
    }
    if let [a, b] = line[..] {
        let corners = cut.steps.windows(2).flat_map(|w| [place(w[0].to, w[0].at), place(w[0].to, w[1].at)]);
        let path: Vec<Point2> = std::iter::once(a).chain(corners).chain([b]).collect();
        path.windows(2).for_each(|w| views.board.line(Pen::Centre, w[0], w[1]));
        path.windows(3).for_each(|w| corner(&mut views.board, w));
    }
}

/// The wide corner of a step, as long on both sides as there is room.
fn corner(board: &mut Board, path: &[Point2]) {
    for end in [path[0], path[2]] {
        let d = end - path[1];
        let long = CORNER.min(d.magnitude() / 2.0);
        board.line(Pen::Cut, path[1], path[1] + d.normalize() * long);
    }
}

/// One end of the cutting line.
struct CutEnd {
    start: Point2,
    inner: Point2,
    outer: Point2,
    tip: Point2,
    look: Vector2,
    letter: Label,
}

impl CutEnd {
    /// The end that lies `away` \[mm\] farther out than usual.
    fn new(cut: &Cut, end: Point2, side: f64, away: f64) -> Self {
        let out = if cut.level { Vector2::new(side, 0.0) } else { Vector2::new(0.0, side) };
        let look = if cut.level { Vector2::new(0.0, cut.rise()) } else { Vector2::new(cut.rise(), 0.0) };
        let (inner, outer) = (end + out * (2.0 + away), end + out * (7.0 + away));
        let width = lettering::width("A", 5.0);
        // on the side from which it is seen, beyond the line
        let place = match (cut.level, cut.far) {
            (true, false) => Point2::new(outer.x - width / 2.0, outer.y + 1.6),
            (true, true) => Point2::new(outer.x - width / 2.0, outer.y - 6.6),
            (false, false) => Point2::new(outer.x - width - 1.6, outer.y - 2.5),
            (false, true) => Point2::new(outer.x + 1.6, outer.y - 2.5),
        };
        Self {
            start: end,
            inner,
            outer,
            tip: outer + look * 7.0,
            look,
            letter: Label::level("A", place.x, place.y, 5.0),
        }
    }

    /// Whether nothing is in its way.
    fn is_open(&self, board: &Board) -> bool {
        board.is_clear(self.start, self.outer)
            && board.is_clear(self.outer, self.tip)
            && board.is_free(&self.letter.frame())
            && board.crossings(self.outer, self.tip) == 0
    }

    /// Draws it.
    fn draw(self, board: &mut Board) {
        board.line(Pen::Cut, self.inner, self.outer);
        board.line(Pen::Leader, self.outer, self.tip);
        board.arrow(self.tip, self.look);
        board.write(self.letter);
    }
}
