//! Call-outs: a few rows of text on a shelf, joined by a leader to the place they speak of. The place of
//! the text is searched around the target so that nothing is covered and nothing covers it.

use super::board::{Board, Frame, Label};
use super::frames::{self, Under};
use super::lanes::TEXT;
use super::lettering;
use super::pen::Pen;
use crate::shape::{InnerSpace, Point2, Vector2};

/// Distance between base lines of rows \[mm\] (ISO 3098-1 type B: 1.5 h).
const ROW: f64 = 5.25;
/// Air between the text and its shelf \[mm\].
const GAP: f64 = 0.9;

/// Air between a size or the shelf and the frame below it \[mm\].
const UNDER_GAP: f64 = 1.0;
/// Air around the text of an exact size in its box \[mm\].
const BOX_AIR: f64 = 0.8;

/// How many targets are tried.
const MOST_TARGETS: usize = 9;

/// How a leader ends at its target.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tip {
    /// An arrow head on a line.
    Arrow,
    /// A dot on a surface.
    Dot,
    /// Nothing: the line that is led out is itself the dimension line.
    Bare,
}

/// One row of a call-out.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it says.
    pub text: String,
    /// Sizes that it tells.
    pub sizes: Vec<String>,
    /// Frames of tolerances and datums that hang below it.
    pub under: Vec<Under>,
    /// It is a theoretically exact size and stands in a box (ISO 1101).
    pub boxed: bool,
}

/// A call-out to be placed.
#[derive(Clone, Debug, PartialEq)]
pub struct Callout {
    /// Rows from top to bottom.
    pub rows: Vec<Row>,
    /// Places on the feature to which the leader may point \[mm of paper\].
    pub targets: Vec<Point2>,
    /// End of the leader.
    pub tip: Tip,
    /// The leader may only leave in this direction (for extended dimension lines), if given.
    pub along: Option<Vector2>,
}

/// A place that was found.
struct Found {
    target: Point2,
    knee: Point2,
    shelf_end: Point2,
    text: Frame,
}

impl Row {
    /// A row that tells sizes.
    pub fn new(text: impl Into<String>, sizes: &[String]) -> Self {
        Self { text: text.into(), sizes: sizes.to_vec(), under: Vec::new(), boxed: false }
    }

    /// Makes it an exact size.
    pub fn put_in_box(&mut self) {
        self.boxed = true;
    }

    /// What it says and what hangs below it, each in words.
    pub fn in_words(&self) -> Vec<Row> {
        let under = self.under.iter().map(|u| Row::new(u.text(), &[u.tells()]));
        std::iter::once(Row::new(self.text.clone(), &self.sizes)).chain(under).collect()
    }

    /// Width of the text with its box, and of what hangs below it \[mm\].
    fn width(&self) -> f64 {
        let around = if self.boxed { 2.0 * BOX_AIR } else { 0.0 };
        (lettering::width(&self.text, TEXT) + around).max(frames::size(&self.under).x)
    }

    /// Height of what hangs below it with the air above \[mm\].
    fn hangs(&self) -> f64 {
        if self.under.is_empty() { 0.0 } else { frames::size(&self.under).y + UNDER_GAP }
    }

    /// From its base line to that of the row `below` it \[mm\].
    fn pitch(&self, below: &Row) -> f64 {
        let hung = if self.under.is_empty() { 0.0 } else { self.hangs() + UNDER_GAP };
        ROW + hung + if self.boxed || below.boxed { BOX_AIR } else { 0.0 }
    }
}

/// Places a call-out outside `keep_out` (the view), and says whether a place was found.
pub fn place(board: &mut Board, callout: &Callout, keep_out: &Frame) -> bool {
    let size = Extent::of(callout);
    let found = search(board, callout, size, keep_out, 2..16)
        .filter(|(cost, _)| *cost < GOOD)
        .or_else(|| search(board, callout, size, keep_out, 2..64));
    let Some((_, found)) = found else { return false };
    draw(board, callout, &found);
    true
}

/// Cost under which a place near by is taken without looking farther \[mm\].
const GOOD: f64 = 60.0;

/// The best place with a leader of so many steps.
fn search(
    board: &Board,
    callout: &Callout,
    size: Extent,
    keep_out: &Frame,
    reach: std::ops::Range<u32>,
) -> Option<(f64, Found)> {
    let bounds = board.bounds();
    let mut candidates = candidates(callout, size, keep_out, reach);
    candidates.iter_mut().for_each(|(cost, f)| *cost += growth(&bounds, &f.text));
    let crossed =
        |f: &Found| board.crossings(shy(f.target, f.knee), f.knee) + board.crossings(f.knee, f.shelf_end);
    cheapest(candidates, TRIED, &|f| is_open(board, f), &crossed)
}

/// How many places with room are looked at more closely.
const TRIED: usize = 300;
/// What crossing a line costs \[mm of leader\].
const CROSSING: f64 = 13.0;

/// The cheapest of places with their costs that is open, lines that its leader crosses counted; of the open ones only
/// about the first `most` are looked at.
pub fn cheapest<T>(
    mut all: Vec<(f64, T)>,
    most: usize,
    open: &dyn Fn(&T) -> bool,
    crossed: &dyn Fn(&T) -> usize,
) -> Option<(f64, T)> {
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut best: Option<(f64, T)> = None;
    let mut tried = 0;
    for (cost, place) in all {
        if best.as_ref().is_some_and(|b| b.0 <= cost) || tried > most {
            break;
        }
        if open(&place) {
            tried += 1;
            let total = cost + CROSSING * crossed(&place) as f64;
            if best.as_ref().is_none_or(|b| total < b.0) {
                best = Some((total, place));
            }
        }
    }
    best
}

/// A point a little off the target, so that the line it touches is not counted as crossed.
fn shy(target: Point2, knee: Point2) -> Point2 {
    let d = knee - target;
    if d.magnitude() < 0.5 { target } else { target + d.normalize() * 0.2 }
}

/// Room that the rows take \[mm\].
#[derive(Clone, Copy)]
struct Extent {
    width: f64,
    /// Above the shelf.
    above: f64,
    /// Below it: what hangs below the last row hangs from the shelf.
    below: f64,
}

impl Extent {
    fn of(callout: &Callout) -> Self {
        let rows = &callout.rows;
        let earlier = rows.windows(2).map(|w| w[0].pitch(&w[1])).sum::<f64>();
        let top = if rows.first().is_some_and(|r| r.boxed) { BOX_AIR } else { 0.0 };
        Self {
            width: rows.iter().map(Row::width).fold(0.0, f64::max),
            above: earlier + TEXT * 1.05 + lift(callout) + top,
            below: rows.last().map_or(0.0, Row::hangs),
        }
    }
}

/// From the shelf to the base line of the last row \[mm\].
fn lift(callout: &Callout) -> f64 {
    let Some(last) = callout.rows.last() else { return GAP };
    GAP + lettering::depth(&last.text, TEXT) + if last.boxed { BOX_AIR } else { 0.0 }
}

/// All places worth trying, each with its cost.
fn candidates(
    callout: &Callout,
    size: Extent,
    keep_out: &Frame,
    reach: std::ops::Range<u32>,
) -> Vec<(f64, Found)> {
    let mut list = Vec::new();
    let step = callout.targets.len().div_ceil(MOST_TARGETS).max(1);
    for target in callout.targets.iter().step_by(step) {
        for knee in knees(*target, callout.along, reach.clone()) {
            for right in [true, false] {
                let found = at(*target, knee, size, right);
                list.push((cost(&found, keep_out), found));
            }
        }
    }
    list
}

/// Knees around a target.
fn knees(target: Point2, along: Option<Vector2>, reach: std::ops::Range<u32>) -> Vec<Point2> {
    let reach = reach.map(|i| f64::from(i) * 3.0);
    match along {
        Some(d) => reach.map(|r| target + d * r).collect(),
        None => {
            let turn = |r: f64| {
                (0..24).filter(|i| i % 6 != 0).map(move |i| {
                    let a = f64::from(i) * 15.0_f64.to_radians();
                    target + Vector2::new(a.cos(), a.sin()) * r
                })
            };
            reach.flat_map(turn).collect()
        }
    }
}

/// The place with the shelf running to the right or to the left of the knee.
fn at(target: Point2, knee: Point2, size: Extent, right: bool) -> Found {
    let run = size.width + 2.0;
    let (low, end) = match right {
        true => (knee.x + 1.5, knee.x + run),
        false => (knee.x - run + 0.5, knee.x - run),
    };
    Found {
        target,
        knee,
        shelf_end: Point2::new(end, knee.y),
        text: Frame::new(low, knee.y + 0.3 - size.below, size.width, size.above + size.below),
    }
}

/// Cost of a place: length of the leader, with a surcharge inside the view and for folding back.
fn cost(f: &Found, keep_out: &Frame) -> f64 {
    let leader = (f.knee - f.target).magnitude();
    let folded = (f.shelf_end.x - f.knee.x) * (f.knee.x - f.target.x) < -1e-9;
    let inside = f.text.overlaps(keep_out);
    let within = (0..10).filter(|i| {
        keep_out.grown(-0.2).holds_point(f.target + (f.knee - f.target) * (f64::from(*i) / 10.0))
    });
    let covered = leader * within.count() as f64 / 10.0;
    leader + covered + if folded { 60.0 } else { 0.0 } + if inside { 70.0 } else { 0.0 }
}

/// Surcharge for making the drawing wider than an A4 sheet holds, or much larger than it is.
pub fn growth(bounds: &Frame, text: &Frame) -> f64 {
    let all = bounds.joined(text);
    let (dw, dh) = (all.width() - bounds.width(), all.height() - bounds.height());
    let too_wide = (all.width() - 168.0).max(0.0).min(dw);
    0.1 * (dw + dh) + 0.5 * too_wide
}

/// Whether text and leader have room.
fn is_open(board: &Board, f: &Found) -> bool {
    board.is_clear(f.target, f.knee)
        && board.is_clear(f.knee, f.shelf_end)
        && !f.text.grown(0.3).crossed(f.target, f.knee)
        && board.is_free(&f.text)
}

/// Draws a call-out in its place.
fn draw(board: &mut Board, callout: &Callout, f: &Found) {
    board.line(Pen::Leader, f.target, f.knee);
    board.line(Pen::Leader, f.knee, f.shelf_end);
    let back = f.target - f.knee;
    match callout.tip {
        Tip::Arrow if back.magnitude() > 1e-6 => board.arrow(f.target, back.normalize()),
        Tip::Dot => board.dot(f.target),
        _ => {}
    }
    let mut y = f.knee.y + lift(callout);
    let rows = &callout.rows;
    for (i, row) in rows.iter().enumerate().rev() {
        let last = i + 1 == rows.len();
        y += rows.get(i + 1).map_or(0.0, |below| row.pitch(below));
        write(board, row, Point2::new(f.text.low.x, y));
        let top = if last { f.knee.y } else { y - frames_gap(row) };
        hang(board, row, Point2::new(f.text.low.x, top), !last);
    }
}

/// Writes the text of a row, with its box.
fn write(board: &mut Board, row: &Row, at: Point2) {
    let inset = if row.boxed { BOX_AIR } else { 0.0 };
    let label = Label::level(&row.text, at.x + inset, at.y, TEXT).telling(&row.sizes);
    if row.boxed {
        board.frame(Pen::Leader, &label.frame().grown(BOX_AIR * 0.75));
    }
    board.write(label);
}

/// From a row's base line down to what hangs below it \[mm\].
fn frames_gap(row: &Row) -> f64 {
    lettering::depth(&row.text, TEXT).max(UNDER_GAP) + UNDER_GAP * 0.5
}

/// Draws what hangs below a row: a frame a little below, a datum from the shelf or from a line under the text.
fn hang(board: &mut Board, row: &Row, top: Point2, underline: bool) {
    let Some(first) = row.under.first() else { return };
    let on_line = matches!(first, Under::Datum(_));
    if on_line && underline {
        board.line(Pen::Leader, top, top + Vector2::new(lettering::width(&row.text, TEXT), 0.0));
    }
    let gap = if on_line || underline { 0.0 } else { UNDER_GAP };
    frames::draw(board, &row.under, top - Vector2::new(0.0, gap));
}
