//! Frames of tolerances and symbols of datums, one below the other, as they hang below the size that they speak of.

use crate::drawing::board::{Board, Frame, Label};
use crate::drawing::lanes::TEXT;
use crate::drawing::lettering;
use crate::drawing::pen::Pen;
use crate::shape::{Point2, Vector2};

/// Height of a frame and of a datum's box: twice that of the lettering \[mm\] (ISO 7083, from memory).
pub const HIGH: f64 = 2.0 * TEXT;
/// Air beside the text in its compartment \[mm\].
const AIR: f64 = 1.4;
/// Triangle of a datum: base and height \[mm\] (ISO 7083: about the height of the lettering, from memory).
const TRIANGLE: [f64; 2] = [3.5, 3.0];
/// Where the stem of a hanging datum stands from the left end, and its box from the stem \[mm\].
const STEM: [f64; 2] = [3.5, 2.5];
/// How far the middle of a hanging datum's box lies below what it hangs from \[mm\].
const HANG: f64 = 5.0;

/// One thing that hangs below a size.
#[derive(Clone, Debug, PartialEq)]
pub enum Under {
    /// The frame of a tolerance: what stands in its compartments, and what it tells.
    Frame(Vec<String>, String),
    /// The symbol of a datum: its letter.
    Datum(char),
}

impl Under {
    /// Under which name the audit counts it.
    pub fn tells(&self) -> String {
        match self {
            Self::Frame(_, tells) => tells.clone(),
            Self::Datum(letter) => datum_name(*letter),
        }
    }

    /// In words, for what finds no place on the sheet.
    pub fn text(&self) -> String {
        match self {
            Self::Frame(cells, _) => cells.join(" "),
            Self::Datum(letter) => datum_name(*letter),
        }
    }

    fn size(&self) -> Vector2 {
        match self {
            Self::Frame(cells, _) => Vector2::new(cells.iter().map(|c| cell(c)).sum(), HIGH),
            Self::Datum(_) => Vector2::new(STEM[0] + STEM[1] + HIGH, HANG + HIGH / 2.0),
        }
    }
}

/// Under which name the audit counts a datum.
pub fn datum_name(letter: char) -> String {
    format!("datum {letter}")
}

/// Width of a compartment \[mm\]: square for a symbol or letter.
fn cell(text: &str) -> f64 {
    (lettering::width(text, TEXT) + 2.0 * AIR).max(HIGH)
}

/// Width and height of a stack \[mm\].
pub fn size(stack: &[Under]) -> Vector2 {
    stack.iter().map(Under::size).fold(Vector2::new(0.0, 0.0), |a, s| Vector2::new(a.x.max(s.x), a.y + s.y))
}

/// Draws a stack with its upper left corner at `top`; a datum hangs from the frame above it, or from the line at `top`.
pub fn draw(board: &mut Board, stack: &[Under], top: Point2) {
    let mut y = top.y;
    for under in stack {
        match under {
            Under::Frame(cells, tells) => frame(board, cells, tells, Point2::new(top.x, y - HIGH)),
            Under::Datum(letter) => hanging(board, *letter, Point2::new(top.x + STEM[0], y)),
        }
        y -= under.size().y;
    }
}

/// A frame with its lower left corner at `low`.
fn frame(board: &mut Board, cells: &[String], tells: &str, low: Point2) {
    let mut x = low.x;
    for (i, text) in cells.iter().enumerate() {
        let wide = cell(text);
        board.frame(Pen::Control, &Frame::new(x, low.y, wide, HIGH));
        let names = if i == 0 { vec![tells.to_owned()] } else { Vec::new() };
        board.write(centred(text, Point2::new(x + wide / 2.0, low.y + HIGH / 2.0)).telling(&names));
        x += wide;
    }
}

/// A text about its middle.
fn centred(text: &str, middle: Point2) -> Label {
    Label::level(text, middle.x - lettering::width(text, TEXT) / 2.0, middle.y - TEXT / 2.0, TEXT)
}

/// A datum below a level line: triangle, stem round the corner, box.
fn hanging(board: &mut Board, letter: char, at: Point2) {
    triangle(board, at, Vector2::new(0.0, -1.0));
    let corner = at - Vector2::new(0.0, HANG);
    board.line(Pen::Control, at - Vector2::new(0.0, TRIANGLE[1]), corner);
    board.line(Pen::Control, corner, corner + Vector2::new(STEM[1], 0.0));
    boxed(board, letter, corner + Vector2::new(STEM[1] + HIGH / 2.0, 0.0));
}

/// The filled triangle of a datum with its base on what it stands on.
pub fn triangle(board: &mut Board, at: Point2, out: Vector2) {
    let side = Vector2::new(-out.y, out.x) * (TRIANGLE[0] / 2.0);
    board.fills.push(vec![at + side, at - side, at + out * TRIANGLE[1]]);
}

/// The letter of a datum in its box.
fn boxed(board: &mut Board, letter: char, middle: Point2) {
    let low = middle - Vector2::new(HIGH / 2.0, HIGH / 2.0);
    board.frame(Pen::Control, &Frame::new(low.x, low.y, HIGH, HIGH));
    board.write(centred(&letter.to_string(), middle).telling(&[datum_name(letter)]));
}

/// A datum whose triangle stands at `at`, its box `away` \[mm\] along `out`.
pub fn standing(board: &mut Board, letter: char, at: Point2, out: Vector2, away: f64) {
    triangle(board, at, out);
    board.line(Pen::Control, at + out * TRIANGLE[1], at + out * away);
    boxed(board, letter, at + out * (away + HIGH / 2.0));
}

/// The rectangle of that box.
pub fn standing_frame(at: Point2, out: Vector2, away: f64) -> Frame {
    let middle = at + out * (away + HIGH / 2.0);
    Frame::new(middle.x - HIGH / 2.0, middle.y - HIGH / 2.0, HIGH, HIGH)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn compartments_are_square_for_letters_and_as_wide_as_their_text_else() {
        let one = Under::Frame(["⌖", "⌀0.25", "S"].map(String::from).to_vec(), "position of hole".into());
        let wide = lettering::width("⌀0.25", TEXT) + 2.0 * AIR;
        let mut board = Board::default();
        draw(&mut board, &[one.clone(), Under::Datum('T')], Point2::new(0.0, 0.0));
        let size = size(&[one, Under::Datum('T')]);
        assert!((size.x - 2.0 * HIGH - wide).abs() < 1e-9 && wide > HIGH);
        let bounds = board.bounds();
        assert!((bounds.low.y + size.y).abs() < 1e-6 && bounds.high.y.abs() < 1e-6, "{bounds:?} {size:?}");
        let told: Vec<_> = board.labels.iter().flat_map(|l| &l.sizes).collect();
        assert_eq!(told, ["position of hole", "datum T"]);
    }
}
