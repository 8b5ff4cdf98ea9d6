//! The drawing board: everything that is drawn, in millimetres of paper with y up, and the question
//! whether a place is still free.

use super::lettering;
use super::pen::Pen;
use crate::shape::loops::{Piece, polar};
use crate::shape::project::{Flat, View};
use crate::shape::{Point2, Point3, Vector2};

/// Air kept around a text \[mm\].
const TEXT_AIR: f64 = 0.8;

/// An upright rectangle on the paper \[mm\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Lower left corner.
    pub low: Point2,
    /// Upper right corner.
    pub high: Point2,
}

impl Frame {
    /// The rectangle of which nothing is known yet.
    pub const EMPTY: Frame = Frame {
        low: Point2 { x: f64::INFINITY, y: f64::INFINITY },
        high: Point2 { x: f64::NEG_INFINITY, y: f64::NEG_INFINITY },
    };

    /// From the lower left corner, with width and height.
    pub fn new(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self { low: Point2::new(x, y), high: Point2::new(x + width, y + height) }
    }

    /// Width \[mm\].
    pub fn width(&self) -> f64 {
        self.high.x - self.low.x
    }

    /// Height \[mm\].
    pub fn height(&self) -> f64 {
        self.high.y - self.low.y
    }

    /// The middle.
    pub fn centre(&self) -> Point2 {
        Point2::new((self.low.x + self.high.x) / 2.0, (self.low.y + self.high.y) / 2.0)
    }

    /// Larger by `air` on each side.
    pub fn grown(&self, air: f64) -> Self {
        let d = Vector2::new(air, air);
        Self { low: self.low - d, high: self.high + d }
    }

    /// Whether two rectangles share an area.
    pub fn overlaps(&self, other: &Frame) -> bool {
        self.low.x < other.high.x
            && other.low.x < self.high.x
            && self.low.y < other.high.y
            && other.low.y < self.high.y
    }

    /// Whether `other` lies wholly inside.
    #[cfg(test)]
    pub fn holds(&self, other: &Frame) -> bool {
        self.low.x <= other.low.x + 1e-9
            && self.low.y <= other.low.y + 1e-9
            && self.high.x >= other.high.x - 1e-9
            && self.high.y >= other.high.y - 1e-9
    }

    /// Whether a point lies inside.
    pub fn holds_point(&self, p: Point2) -> bool {
        self.low.x <= p.x && p.x <= self.high.x && self.low.y <= p.y && p.y <= self.high.y
    }

    /// The smallest rectangle around this one and a point.
    pub fn with(&self, p: Point2) -> Self {
        Self {
            low: Point2::new(self.low.x.min(p.x), self.low.y.min(p.y)),
            high: Point2::new(self.high.x.max(p.x), self.high.y.max(p.y)),
        }
    }

    /// The smallest rectangle around both.
    pub fn joined(&self, other: &Frame) -> Self {
        self.with(other.low).with(other.high)
    }

    /// Whether a straight line from `a` to `b` enters the rectangle (slab test).
    pub fn crossed(&self, a: Point2, b: Point2) -> bool {
        let d = b - a;
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (start, step, low, high) in
            [(a.x, d.x, self.low.x, self.high.x), (a.y, d.y, self.low.y, self.high.y)]
        {
            if step.abs() < 1e-12 {
                if start <= low || start >= high {
                    return false;
                }
                continue;
            }
            let (t1, t2) = ((low - start) / step, (high - start) / step);
            from = from.max(t1.min(t2));
            to = to.min(t1.max(t2));
        }
        from < to
    }
}

/// A line of the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// With which pen.
    pub pen: Pen,
    /// Its shape.
    pub line: Flat,
    /// Of which view of [`Board::views`] it is an edge.
    pub view: Option<usize>,
    frame: Frame,
}

/// A view of a part that stands on the board.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// What it is called.
    pub name: &'static str,
    /// From where the part is seen, and where it is cut.
    pub view: View,
    /// Paper over model.
    pub factor: f64,
    /// Where the origin of the view lies on the paper \[mm\].
    pub origin: Point2,
    /// Centre and radius of the circle to which it is limited, in the view \[mm\]; all of it if `None`.
    pub limit: Option<(Point2, f64)>,
}

impl Look {
    /// Where a point of the part comes to lie on the paper.
    pub fn place(&self, p: Point3) -> Point2 {
        let flat = self.view.frame.flat(p);
        self.origin + Vector2::new(flat.x, flat.y) * self.factor
    }
}

/// A dimension line that stands on the board.
#[derive(Clone, Debug, PartialEq)]
pub struct DimensionLine {
    /// Sizes that it tells.
    pub sizes: Vec<String>,
    /// Its two ends, between the arrow heads.
    pub ends: [Point2; 2],
    /// How far it is drawn beyond them.
    pub reach: [Point2; 2],
}

/// A text of the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// What it says.
    pub text: String,
    /// Start of the base line \[mm\].
    pub at: Point2,
    /// Height of capitals \[mm\].
    pub height: f64,
    /// Reads upwards (from the right-hand side of the sheet).
    pub upright: bool,
    /// Names of the sizes that it tells; empty for plain text.
    pub sizes: Vec<String>,
    cover: Frame,
}

impl Label {
    /// A level text.
    pub fn level(text: &str, x: f64, y: f64, height: f64) -> Self {
        Self::new(text, Point2::new(x, y), height, false)
    }

    /// A text reading upwards, its base line to the right of it.
    pub fn upright(text: &str, x: f64, y: f64, height: f64) -> Self {
        Self::new(text, Point2::new(x, y), height, true)
    }

    /// With the sizes that it tells.
    pub fn telling(mut self, sizes: &[String]) -> Self {
        self.sizes = sizes.to_vec();
        self
    }

    /// A text and the rectangle that it covers.
    fn new(text: &str, at: Point2, height: f64, upright: bool) -> Self {
        let (w, d) = (lettering::width(text, height), lettering::depth(text, height));
        let h = height * 1.05;
        let cover = match upright {
            false => Frame::new(at.x, at.y - d, w, h + d),
            true => Frame::new(at.x - h, at.y, h + d, w),
        };
        Self { text: text.to_owned(), at, height, upright, sizes: Vec::new(), cover }
    }

    /// Where a point of the lettering, which starts at the origin, lies on the paper.
    pub fn place(&self, p: Point2) -> Point2 {
        match self.upright {
            false => Point2::new(self.at.x + p.x, self.at.y + p.y),
            true => Point2::new(self.at.x - p.y, self.at.y + p.x),
        }
    }

    /// The rectangle that the text covers.
    pub fn frame(&self) -> Frame {
        self.cover
    }
}

/// Everything drawn so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Board {
    /// Lines and arcs.
    pub strokes: Vec<Stroke>,
    /// Filled shapes: arrow heads and dots.
    pub fills: Vec<Vec<Point2>>,
    /// Texts.
    pub labels: Vec<Label>,
    /// Ways that lines still to be drawn will take, kept clear of text.
    pub kept: Vec<(Point2, Point2)>,
    /// Views of which edges are drawn.
    pub views: Vec<Look>,
    /// Dimension lines beside the views.
    pub dimensions: Vec<DimensionLine>,
}

impl Board {
    /// Draws a line or arc.
    pub fn draw(&mut self, pen: Pen, piece: Piece) {
        self.stroke(pen, Flat::Piece(piece), None);
    }

    /// Draws an edge of a view, given on the paper.
    pub fn edge(&mut self, pen: Pen, line: Flat, view: usize) {
        self.stroke(pen, line, Some(view));
    }

    /// Draws a line of an axonometric view of the engine.
    pub fn push_picture(&mut self, line: Flat) {
        self.stroke(Pen::Picture, line, None);
    }

    /// Notes a view; its edges are drawn with the number that is returned.
    pub fn look(&mut self, look: Look) -> usize {
        self.views.push(look);
        self.views.len() - 1
    }

    /// Draws a line as part of a view, or of none.
    pub fn stroke(&mut self, pen: Pen, line: Flat, view: Option<usize>) {
        let frame = frame_of(&line);
        self.strokes.push(Stroke { pen, line, view, frame });
    }

    /// Draws a straight line.
    pub fn line(&mut self, pen: Pen, from: Point2, to: Point2) {
        self.draw(pen, Piece::Line { from, to });
    }

    /// Draws a full circle.
    pub fn circle(&mut self, pen: Pen, centre: Point2, radius: f64) {
        self.draw(pen, Piece::Arc { centre, radius, start: 0.0, sweep: std::f64::consts::TAU });
    }

    /// Draws an upright rectangle.
    pub fn frame(&mut self, pen: Pen, f: &Frame) {
        let (a, b) = (f.low, f.high);
        let corners = [a, Point2::new(b.x, a.y), b, Point2::new(a.x, b.y)];
        (0..4).for_each(|i| self.line(pen, corners[i], corners[(i + 1) % 4]));
    }

    /// A filled arrow head with its tip at `tip`, pointing along `towards`
    /// (ISO 129-1: closed, filled; 3 mm long, about 20°).
    pub fn arrow(&mut self, tip: Point2, towards: Vector2) {
        let (back, side) = (tip - towards * ARROW, Vector2::new(-towards.y, towards.x) * ARROW * 0.176);
        self.fills.push(vec![tip, back + side, back - side]);
    }

    /// A filled dot, for a leader that ends on a surface.
    pub fn dot(&mut self, at: Point2) {
        self.fills
            .push((0..12).map(|i| polar(at, 0.5, f64::from(i) * std::f64::consts::TAU / 12.0)).collect());
    }

    /// Writes a text.
    pub fn write(&mut self, label: Label) {
        self.labels.push(label);
    }

    /// Whether a text could stand in `place`: no other text there, no line through it.
    pub fn is_free(&self, place: &Frame) -> bool {
        let wide = place.grown(TEXT_AIR);
        !self.labels.iter().any(|l| l.frame().overlaps(&place.grown(2.0 * TEXT_AIR)))
            && !self.kept.iter().any(|(a, b)| wide.crossed(*a, *b))
            && !self.strokes.iter().any(|s| s.crosses(&wide))
            && !self.fills.iter().any(|f| f.iter().fold(Frame::EMPTY, |a, p| a.with(*p)).overlaps(&wide))
    }

    /// Whether a straight line runs clear of every text.
    pub fn is_clear(&self, from: Point2, to: Point2) -> bool {
        !self.labels.iter().any(|l| l.frame().grown(TEXT_AIR).crossed(from, to))
    }

    /// How many drawn lines (hatching aside) a straight line would cross.
    pub fn crossings(&self, from: Point2, to: Point2) -> usize {
        let way = Frame::EMPTY.with(from).with(to).grown(1e-6);
        let real = |s: &&Stroke| s.pen != Pen::Hatch && s.frame.overlaps(&way);
        self.strokes
            .iter()
            .filter(real)
            .filter(|s| chords(&s.line).any(|(a, b)| meet(a, b, from, to)))
            .count()
    }

    /// The rectangle around everything drawn.
    pub fn bounds(&self) -> Frame {
        let lines = self.strokes.iter().fold(Frame::EMPTY, |f, s| f.joined(&s.frame));
        let fills = self.fills.iter().flatten().fold(lines, |f, p| f.with(*p));
        self.labels.iter().fold(fills, |f, l| f.joined(&l.frame()))
    }

    /// The rectangle around the edges of a view.
    pub fn view_frame(&self, view: usize) -> Frame {
        self.strokes.iter().filter(|s| s.view == Some(view)).fold(Frame::EMPTY, |f, s| f.joined(&s.frame))
    }

    /// Joins centre lines that lie on one another, so that their dashes stay visible.
    pub fn join_centre_lines(&mut self) {
        let (centres, rest): (Vec<Stroke>, Vec<Stroke>) =
            std::mem::take(&mut self.strokes).into_iter().partition(|s| s.pen == Pen::Centre);
        self.strokes = rest;
        let mut runs: Vec<(bool, f64, f64, f64)> = Vec::new();
        for stroke in centres {
            match run_of(&stroke.line) {
                Some(run) => runs.push(run),
                None => self.strokes.push(stroke),
            }
        }
        runs.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.total_cmp(&b.2)));
        let mut joined: Vec<(bool, f64, f64, f64)> = Vec::new();
        for run in runs {
            match joined.last_mut() {
                Some(l) if l.0 == run.0 && (l.1 - run.1).abs() < 0.05 && run.2 < l.3 + 0.5 => {
                    l.3 = l.3.max(run.3)
                }
                _ => joined.push(run),
            }
        }
        for (level, across, from, to) in joined {
            let at = |v: f64| if level { Point2::new(v, across) } else { Point2::new(across, v) };
            self.line(Pen::Centre, at(from), at(to));
        }
    }

    /// Moves everything.
    pub fn shift(&mut self, by: Vector2) {
        self.strokes.iter_mut().for_each(|s| {
            s.line = s.line.placed(1.0, by);
            s.frame = Frame { low: s.frame.low + by, high: s.frame.high + by };
        });
        self.views.iter_mut().for_each(|v| v.origin += by);
        let lines = self.dimensions.iter_mut();
        lines.flat_map(|d| d.ends.iter_mut().chain(&mut d.reach)).for_each(|p| *p += by);
        self.fills.iter_mut().flatten().for_each(|p| *p += by);
        self.labels.iter_mut().for_each(|l| {
            l.at += by;
            l.cover = Frame { low: l.cover.low + by, high: l.cover.high + by };
        });
    }

    /// Takes over everything of another board.
    pub fn append(&mut self, mut other: Board) {
        let before = self.views.len();
        other.strokes.iter_mut().for_each(|s| s.view = s.view.map(|i| i + before));
        self.views.append(&mut other.views);
        self.dimensions.append(&mut other.dimensions);
        self.strokes.append(&mut other.strokes);
        self.fills.append(&mut other.fills);
        self.labels.append(&mut other.labels);
    }
}

/// Length of an arrow head \[mm\] (ISO 129-1: six times the wide line).
pub const ARROW: f64 = 3.0;

impl Stroke {
    /// Whether the line passes through a rectangle.
    pub fn crosses(&self, f: &Frame) -> bool {
        self.frame.grown(1e-6).overlaps(f) && chords(&self.line).any(|(a, b)| f.crossed(a, b))
    }
}

/// Straight chords of a line, fine enough to tell what it crosses.
fn chords(line: &Flat) -> impl Iterator<Item = (Point2, Point2)> + '_ {
    let steps = match line {
        Flat::Piece(Piece::Line { .. }) => 1,
        Flat::Piece(Piece::Arc { sweep, .. }) | Flat::Ellipse { sweep, .. } => {
            (sweep.abs() / 0.2).ceil().max(1.0) as usize
        }
        Flat::Cubics(list) => 4 * list.len(),
    };
    let at = move |i: usize| line.at(i as f64 / steps as f64);
    (0..steps).map(move |i| (at(i), at(i + 1)))
}

/// A level or upright line as: level, place across, from, to.
fn run_of(line: &Flat) -> Option<(bool, f64, f64, f64)> {
    let Flat::Piece(Piece::Line { from, to }) = line else { return None };
    if (from.y - to.y).abs() < 1e-6 {
        return Some((true, from.y, from.x.min(to.x), from.x.max(to.x)));
    }
    ((from.x - to.x).abs() < 1e-6).then(|| (false, from.x, from.y.min(to.y), from.y.max(to.y)))
}

/// Whether two straight lines cross.
fn meet(a: Point2, b: Point2, c: Point2, d: Point2) -> bool {
    let turn = |p: Point2, q: Point2, r: Point2| (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    turn(a, b, c) * turn(a, b, d) < 0.0 && turn(c, d, a) * turn(c, d, b) < 0.0
}

/// The rectangle around a line.
fn frame_of(line: &Flat) -> Frame {
    chords(line).fold(Frame::EMPTY, |f, (a, b)| f.with(a).with(b))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_finds_its_place_taken_by_a_line_or_a_text() {
        let mut board = Board::default();
        board.line(Pen::Visible, Point2::new(0.0, 0.0), Point2::new(100.0, 0.0));
        board.write(Label::level("bore", 10.0, 10.0, 3.5));
        assert!(!board.is_free(&Frame::new(5.0, -2.0, 10.0, 4.0)));
        assert!(!board.is_free(&Frame::new(12.0, 11.0, 1.0, 1.0)));
        assert!(board.is_free(&Frame::new(40.0, 5.0, 10.0, 4.0)));
        assert!(!board.is_clear(Point2::new(12.0, 0.0), Point2::new(12.0, 30.0)));
    }
}
