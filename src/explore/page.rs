//! The page of a chart: what stands over it in words.

use crate::drawing::board::{Board, Label};
use crate::drawing::lettering;
use crate::drawing::pen::Pen;
use crate::shape::Point2;

/// Height of the title's capitals \[mm\] (ISO 3098-1).
const TITLE: f64 = 3.5;
/// Height of all other capitals \[mm\] (ISO 3098-1).
pub const SMALL: f64 = 2.5;
/// Distance of two lines of text \[mm\].
const LINE: f64 = 5.0;
/// Width of the page \[mm\]: what an upright A4 sheet holds between its margins.
pub const WIDTH: f64 = 170.0;
/// Free margin \[mm\].
const MARGIN: f64 = 4.0;

/// What stands before a line of the heading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// Nothing.
    Plain,
    /// The mark of the best point.
    Best,
    /// A sample of the hatching.
    Hatched,
}

/// Height that a heading takes \[mm\].
pub fn heading_height(lines: &[(Sign, String)]) -> f64 {
    MARGIN + TITLE + lines.len() as f64 * LINE + 5.0
}

/// Writes title and lines under the upper edge `top` \[mm\].
pub fn heading(board: &mut Board, top: f64, title: &str, lines: &[(Sign, String)]) {
    let mut y = top - MARGIN - TITLE;
    write(board, title, MARGIN, y, TITLE);
    for (sign, text) in lines {
        y -= LINE;
        let x = match sign {
            Sign::Plain => MARGIN,
            Sign::Best => {
                best_mark(board, Point2::new(MARGIN + 1.5, y + SMALL / 2.0));
                MARGIN + 5.0
            }
            Sign::Hatched => {
                let corners = [(0.0, -0.5), (7.0, -0.5), (7.0, 3.0), (0.0, 3.0)];
                let box_ = corners.map(|(dx, dy)| Point2::new(MARGIN + dx, y + dy)).to_vec();
                (0..4).for_each(|i| board.line(Pen::Hatch, box_[i], box_[(i + 1) % 4]));
                super::hatch::hatch(board, &[box_]);
                MARGIN + 9.0
            }
        };
        write(board, text, x, y, SMALL);
    }
}

/// A text that is lettered smaller when it would leave the page.
fn write(board: &mut Board, text: &str, x: f64, y: f64, height: f64) {
    let room = WIDTH - MARGIN - x;
    let fitted = height * (room / lettering::width(text, height).max(1e-9)).min(1.0);
    board.write(Label::level(text, x, y, fitted));
}

/// Marks the best point.
pub fn best_mark(board: &mut Board, at: Point2) {
    board.circle(Pen::Curve, at, 1.4);
    board.dot(at);
}
