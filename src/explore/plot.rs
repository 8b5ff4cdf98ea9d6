//! A field with two axes: frame, ruling, ticks and their numbers.

use super::axis::Axis;
use super::page::SMALL;
use crate::drawing::board::{Board, Frame, Label};
use crate::drawing::lettering::width;
use crate::drawing::pen::Pen;
use crate::shape::Point2;

/// Length of a tick outside the frame \[mm\].
const TICK: f64 = 1.2;
/// Air between a tick and its number \[mm\].
const AIR: f64 = 1.0;

/// Two axes.
#[derive(Clone, Debug, PartialEq)]
pub struct Plot {
    /// Level axis.
    pub x: Axis,
    /// Upright axis.
    pub y: Axis,
}

impl Plot {
    /// Place of two values on the paper \[mm\].
    pub fn at(&self, x: f64, y: f64) -> Point2 {
        Point2::new(self.x.at(x), self.y.at(y))
    }

    /// The frame on the paper.
    pub fn frame(&self) -> Frame {
        let [left, right] = self.x.paper;
        let [low, high] = self.y.paper;
        Frame::new(left, low, right - left, high - low)
    }

    /// Draws frame, ruling and ticks, with the numbers of the level axis if `numbered`.
    pub fn draw(&self, board: &mut Board, numbered: bool) {
        let f = self.frame();
        for tick in &self.x.ticks {
            let x = self.x.at(*tick);
            inner(x, self.x.paper, || {
                board.line(Pen::Ruling, Point2::new(x, f.low.y), Point2::new(x, f.high.y))
            });
            board.line(Pen::Axis, Point2::new(x, f.low.y), Point2::new(x, f.low.y - TICK));
            if numbered {
                let text = self.x.text(*tick);
                let left = x - width(&text, SMALL) / 2.0;
                board.write(Label::level(&text, left, f.low.y - TICK - AIR - SMALL, SMALL));
            }
        }
        for tick in &self.y.ticks {
            let y = self.y.at(*tick);
            inner(y, self.y.paper, || {
                board.line(Pen::Ruling, Point2::new(f.low.x, y), Point2::new(f.high.x, y))
            });
            board.line(Pen::Axis, Point2::new(f.low.x, y), Point2::new(f.low.x - TICK, y));
            let text = self.y.text(*tick);
            let left = f.low.x - TICK - AIR - width(&text, SMALL);
            board.write(Label::level(&text, left, y - SMALL / 2.0, SMALL));
        }
        board.frame(Pen::Axis, &f);
    }

    /// Writes the name of the level axis under its numbers.
    pub fn name_x(&self, board: &mut Board, text: &str) {
        let f = self.frame();
        let left = f.centre().x - width(text, SMALL) / 2.0;
        board.write(Label::level(text, left, f.low.y - TICK - 2.0 * AIR - 2.0 * SMALL - 1.5, SMALL));
    }

    /// Writes the name of the upright axis, lettered smaller when the axis is short.
    pub fn name_y(&self, board: &mut Board, text: &str) {
        let f = self.frame();
        let height = SMALL * (f.height() / width(text, SMALL).max(1e-9)).min(1.0);
        let low = f.centre().y - width(text, height) / 2.0;
        board.write(Label::upright(text, f.low.x - 14.0, low, height));
    }
}

/// Draws unless the place lies on the frame.
fn inner(at: f64, [low, high]: [f64; 2], draw: impl FnOnce()) {
    if at > low + 0.1 && at < high - 0.1 {
        draw();
    }
}
