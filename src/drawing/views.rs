//! The views of a part on one board, and what was found while drawing them.

use super::board::{Board, Frame, Label};
use super::callout::{self, Callout, Row};
use super::frames::{self, Frames};
use super::lanes::{self, Linear, Side};
use super::lettering;
use super::pen::Pen;
use super::section::Section;
use super::units::Units;
use crate::shape::loops::Piece;
use crate::shape::project::Flat;
use crate::shape::{Point2, Vector2};

/// Views with their dimensions, not yet placed on a sheet.
#[derive(Clone, Debug, Default)]
pub struct Views {
    /// What is drawn.
    pub board: Board,
    /// Rows of the hole table: heading, or label with X and Y.
    pub holes: Vec<HoleRow>,
    /// Sizes told in a table, for outlines that have too many corners for dimensions: name and text.
    pub sizes: Vec<(String, String)>,
    /// Texts that found no place in the views.
    pub homeless: Vec<Row>,
    /// Details at a larger scale, each with its sizes, to be placed anywhere on the sheet.
    pub details: Vec<Board>,
    /// Geometrical tolerances and datums that are still to be told.
    pub frames: Frames,
    /// Units of the sizes.
    pub units: Units,
}

/// A row of the hole table.
#[derive(Clone, Debug, PartialEq)]
pub enum HoleRow {
    /// A group: its letter and what is told of its size.
    Group(String, Vec<Row>),
    /// A member: label, X, Y, sizes that these tell, and whether they are exact ones in boxes.
    Member(String, String, String, Vec<String>, bool),
}

impl Views {
    /// Without anything yet: the units, and what is to be told of geometrical tolerances.
    pub fn telling(frames: Frames, units: Units) -> Self {
        Self { frames, units, ..Self::default() }
    }

    /// With its tables in the units of the sheet.
    pub fn finished(mut self) -> Self {
        let units = self.units;
        for row in std::mem::take(&mut self.holes) {
            self.holes.push(match row {
                HoleRow::Group(letter, rows) => HoleRow::Group(letter, units.rows(&rows)),
                HoleRow::Member(label, x, y, names, bracketed) => {
                    HoleRow::Member(label, units.told(&x), units.told(&y), names, bracketed)
                }
            });
        }
        self.sizes.iter_mut().for_each(|(_, text)| *text = units.told(text));
        self
    }

    /// Places linear dimensions on one side of a view and remembers those that could not be.
    pub fn lanes(&mut self, side: Side, edge: f64, list: Vec<Linear>, bars: &[f64]) {
        let told = |l: Linear| Linear { text: self.units.told(&l.text), ..l };
        let list = list.into_iter().map(told).collect();
        self.homeless.extend(lanes::place(&mut self.board, side, edge, list, bars));
    }

    /// Places a call-out at the first of a row of places if that can be, else at any of them.
    pub fn call_out_first(&mut self, callout: &Callout, first: Vec<Point2>, keep_out: &Frame) {
        self.put(callout, Some(first), keep_out);
    }

    /// Places a call-out and remembers if it could not be.
    pub fn call_out(&mut self, callout: &Callout, keep_out: &Frame) {
        self.put(callout, None, keep_out);
    }

    /// Places a call-out with all that hangs on it, at the `first` of its targets if these are given and have room.
    fn put(&mut self, callout: &Callout, first: Option<Vec<Point2>>, keep_out: &Frame) {
        frames::settle(self);
        let callout = self.frames.dressed(callout);
        let told = Callout { rows: self.units.rows(&callout.rows), ..callout.clone() };
        let near = first.map(|targets| Callout { targets, ..told.clone() });
        let mut tries = near.iter().chain([&told]);
        if !tries.any(|c| callout::place(&mut self.board, c, keep_out)) {
            let words = callout.rows.iter().flat_map(Row::in_words);
            let units = self.units;
            self.homeless.extend(words.map(|r| Row { text: units.told(&r.text), ..r }));
        }
    }
}

/// From model millimetres to paper millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Paper over model.
    pub factor: f64,
    /// Where the origin of the model comes to lie on the paper \[mm\].
    pub origin: Point2,
}

impl Scale {
    /// With the model's origin at the paper's.
    pub fn new(factor: f64) -> Self {
        Self { factor, origin: Point2::new(0.0, 0.0) }
    }

    /// A point on the paper.
    pub fn point(&self, p: Point2) -> Point2 {
        self.origin + Vector2::new(p.x, p.y) * self.factor
    }

    /// A projected line on the paper.
    pub fn flat(&self, line: &Flat) -> Flat {
        line.placed(self.factor, Vector2::new(self.origin.x, self.origin.y))
    }

    /// A line or arc on the paper.
    pub fn piece(&self, piece: &Piece) -> Piece {
        match *piece {
            Piece::Line { from, to } => Piece::Line { from: self.point(from), to: self.point(to) },
            Piece::Arc { centre, radius, start, sweep } => {
                Piece::Arc { centre: self.point(centre), radius: radius * self.factor, start, sweep }
            }
        }
    }
}

/// Draws the cut surface of a section: its edges as those of the view with this number, its hatching. Returns its frame on
/// the paper.
pub fn draw_section(
    board: &mut Board,
    sections: &[Section],
    edges: &[Piece],
    scale: &Scale,
    view: usize,
) -> Frame {
    let frame = frame_of(edges, scale);
    let spacing = (0.04 * frame.width().max(frame.height())).clamp(1.6, 3.0);
    for (a, b) in sections.iter().flat_map(|s| s.hatching(spacing / scale.factor)) {
        board.line(Pen::Hatch, scale.point(a), scale.point(b));
    }
    for piece in edges {
        board.edge(Pen::Visible, Flat::Piece(scale.piece(piece)), view);
    }
    frame
}

/// The frame of pieces on the paper.
pub fn frame_of(pieces: &[Piece], scale: &Scale) -> Frame {
    pieces.iter().fold(Frame::EMPTY, |f, e| {
        let e = scale.piece(e);
        [0.0, 0.25, 0.5, 0.75, 1.0].iter().fold(f, |f, t| f.with(e.at(*t)))
    })
}

/// A centre line between two points of the paper, with 4 mm of overshoot (ISO 128-2: 3 to 5 mm).
pub fn centre_line(board: &mut Board, from: Point2, to: Point2) {
    use crate::shape::InnerSpace;
    let d = to - from;
    let over = if d.magnitude() < 1e-9 { Vector2::new(0.0, 0.0) } else { d.normalize() * 4.0 };
    board.line(Pen::Centre, from - over, to + over);
}

/// The thread of a hole seen along its axis: a narrow three quarters of a circle of `radius` \[mm of paper\] (ISO 6410-1).
pub fn thread_circle(board: &mut Board, centre: Point2, radius: f64) {
    board.draw(Pen::Thread, Piece::Arc { centre, radius, start: 0.1, sweep: 1.5 * std::f64::consts::PI });
}

/// Writes a title over the middle of a frame, `air` \[mm\] above it or as much higher as what stands there asks for.
pub fn title_above(board: &mut Board, text: &str, frame: &Frame, air: f64) {
    let x = frame.centre().x - lettering::width(text, TITLE) / 2.0;
    let label = |y: f64| Label::level(text, x, y, TITLE);
    let free = (0..80).map(|i| label(frame.high.y + air + f64::from(i))).find(|l| board.is_free(&l.frame()));
    let label = free.unwrap_or_else(|| label(board.bounds().high.y + air));
    board.write(label);
}

/// Height of the titles of views \[mm\].
const TITLE: f64 = 5.0;

/// A cross of centre lines on a circle of `radius` \[mm of paper\].
pub fn centre_cross(board: &mut Board, centre: Point2, radius: f64) {
    let over = if radius < 6.0 { 2.0 } else { 4.0 };
    for d in [Vector2::new(radius + over, 0.0), Vector2::new(0.0, radius + over)] {
        board.line(Pen::Centre, centre - d, centre + d);
    }
}
