//! Pages of a template: true size, check bars in both directions, and where it is larger than the paper tiles that overlap,
//! with crosses that meet and lines to trim along.

use super::Template;
use crate::drawing::board::{Board, Frame, Label};
use crate::drawing::pen::Pen;
use crate::drawing::sheet::Sheet;
use crate::shape::crossing::split;
use crate::shape::loops::Piece;
use crate::shape::project::Flat;
use crate::shape::{Point2, Vector2};

/// Paper of a printer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TemplatePaper {
    /// 210 × 297 mm (ISO 216).
    A4,
    /// 8.5 × 11 in (ANSI/ASME Y14.1).
    Letter,
}

impl TemplatePaper {
    /// Width and height, upright \[mm\].
    pub fn size_mm(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0, 297.0],
            Self::Letter => [215.9, 279.4],
        }
    }
}

/// What a printer leaves white on each side \[mm\]; common practice, no source.
const MARGIN: f64 = 10.0;
/// Strips for the bar on the left and below, and for the words above \[mm\].
const LEFT: f64 = 8.0;
const BELOW: f64 = 12.0;
/// Height of lettering, and from line to line \[mm\].
const WORDS: f64 = 2.5;
const LINE: f64 = 4.5;
/// By how much tiles overlap \[mm\].
const OVERLAP: f64 = 10.0;
/// Air around the template \[mm\].
const AIR: f64 = 3.0;
/// Length of the check bars \[mm\], and of the one in inches.
const BAR: f64 = 50.0;
const INCHES: f64 = 2.0 * 25.4;
/// Half the arms of a match cross \[mm\].
const MATCH: f64 = 4.0;

/// How a template lies on its pages.
struct Grid {
    paper: [f64; 2],
    window: Frame,
    /// Columns and rows.
    count: [usize; 2],
}

impl Grid {
    /// The way of the paper that needs fewer pages.
    fn of(paper: TemplatePaper, size: [f64; 2], lines: usize) -> Self {
        let [w, h] = paper.size_mm();
        let ways = [[w, h], [h, w]].map(|paper| Self::on(paper, size, lines));
        let [upright, level] = ways;
        if level.count[0] * level.count[1] < upright.count[0] * upright.count[1] { level } else { upright }
    }

    fn on(paper: [f64; 2], size: [f64; 2], lines: usize) -> Self {
        let above = LINE * (lines as f64 + 1.0) + 2.0;
        let low = Point2::new(MARGIN + LEFT, MARGIN + BELOW);
        let high = Point2::new(paper[0] - MARGIN, paper[1] - MARGIN - above);
        let window = Frame { low, high };
        let needed = |long: f64, room: f64| ((long - OVERLAP) / (room - OVERLAP)).ceil().max(1.0) as usize;
        let count = [needed(size[0], window.width()), needed(size[1], window.height())];
        Self { paper, window, count }
    }

    /// Where the template's lower left corner comes to lie on the page of a tile.
    fn place(&self, tile: [usize; 2]) -> Point2 {
        let step = [self.window.width() - OVERLAP, self.window.height() - OVERLAP];
        let low = self.window.low;
        Point2::new(low.x - tile[0] as f64 * step[0], low.y - tile[1] as f64 * step[1])
    }
}

/// The pages of a template.
pub fn pages(template: &Template, paper: TemplatePaper, project: &str) -> Vec<Sheet> {
    let bounds = template.board.bounds().grown(AIR);
    let grid = Grid::of(paper, [bounds.width(), bounds.height()], template.notes.len());
    let [columns, rows] = grid.count;
    let total = columns * rows;
    // rows from the top, as one reads
    let tiles = (0..rows).rev().flat_map(|row| (0..columns).map(move |column| [column, row]));
    let page = |(i, tile): (usize, [usize; 2])| {
        let mut board = Board::default();
        let by = grid.place(tile) - bounds.low;
        clipped(&mut board, &template.board, by, &grid.window);
        furniture(&mut board, template, &grid, project, (i + 1, total));
        if total > 1 {
            seams(&mut board, &grid, tile);
        }
        let number = if total > 1 { format!("-{}", i + 1) } else { String::new() };
        Sheet {
            name: format!("{}{number}", template.name),
            title: template.title.clone(),
            size_mm: grid.paper,
            board,
        }
    };
    tiles.enumerate().map(page).collect()
}

/// What of a template lies in the window of a page.
fn clipped(to: &mut Board, from: &Board, by: Vector2, window: &Frame) {
    let (a, b) = (window.low, window.high);
    let corners = [a, Point2::new(b.x, a.y), b, Point2::new(a.x, b.y)];
    let border: Vec<Piece> =
        (0..4).map(|i| Piece::Line { from: corners[i], to: corners[(i + 1) % 4] }).collect();
    let mut whole = from.clone();
    whole.shift(by);
    for stroke in &whole.strokes {
        let inside = |part: &Piece| window.holds_point(part.at(0.5));
        // templates are cut along lines and arcs alone
        if let Flat::Piece(piece) = &stroke.line {
            split(piece, &border).into_iter().filter(inside).for_each(|part| to.draw(stroke.pen, part));
        }
    }
    let shown = |label: &Label| window.holds_point(label.frame().centre());
    whole.labels.into_iter().filter(shown).for_each(|label| to.write(label));
}

/// Words above, check bars below and on the left.
fn furniture(
    board: &mut Board,
    template: &Template,
    grid: &Grid,
    project: &str,
    (number, total): (usize, usize),
) {
    let top = grid.paper[1] - MARGIN - WORDS;
    let left = MARGIN;
    let head = format!("{project}, {}: 1:1, print at 100 %, page {number} of {total}", template.title);
    board.write(Label::level(&head, left, top, WORDS));
    for (i, note) in template.notes.iter().enumerate() {
        board.write(Label::level(note, left, top - LINE * (i as f64 + 1.0), WORDS));
    }
    let low = Point2::new(MARGIN + LEFT, MARGIN + 3.0);
    bar(board, low, Vector2::new(1.0, 0.0), BAR, 5);
    board.write(Label::level("50 mm", low.x, low.y + 2.5, WORDS));
    let inch = Point2::new(low.x + BAR + 15.0, low.y);
    bar(board, inch, Vector2::new(1.0, 0.0), INCHES, 2);
    board.write(Label::level("2 in", inch.x, inch.y + 2.5, WORDS));
    let up = Point2::new(MARGIN + 2.0, MARGIN + BELOW);
    bar(board, up, Vector2::new(0.0, 1.0), BAR, 5);
    board.write(Label::upright("50 mm", up.x + 5.0, up.y, WORDS));
}

/// A bar with ticks.
fn bar(board: &mut Board, from: Point2, along: Vector2, length: f64, parts: usize) {
    board.line(Pen::Ruling, from, from + along * length);
    let across = Vector2::new(-along.y, along.x);
    for i in 0..=parts {
        let at = from + along * (length * i as f64 / parts as f64);
        board.line(Pen::Ruling, at - across, at + across);
    }
}

/// Lines to trim along in the middle of each overlap, with crosses that lie on those of the next page.
fn seams(board: &mut Board, grid: &Grid, tile: [usize; 2]) {
    let w = grid.window;
    let half = OVERLAP / 2.0;
    let thirds = |low: f64, high: f64| [low + (high - low) / 3.0, high - (high - low) / 3.0];
    for (i, x) in [w.low.x + half, w.high.x - half].into_iter().enumerate() {
        let meets = if i == 0 { tile[0] > 0 } else { tile[0] + 1 < grid.count[0] };
        if meets {
            board.line(Pen::Ruling, Point2::new(x, w.low.y), Point2::new(x, w.high.y));
            thirds(w.low.y, w.high.y).into_iter().for_each(|y| matching(board, Point2::new(x, y)));
        }
    }
    for (i, y) in [w.low.y + half, w.high.y - half].into_iter().enumerate() {
        let meets = if i == 0 { tile[1] > 0 } else { tile[1] + 1 < grid.count[1] };
        if meets {
            board.line(Pen::Ruling, Point2::new(w.low.x, y), Point2::new(w.high.x, y));
            thirds(w.low.x, w.high.x).into_iter().for_each(|x| matching(board, Point2::new(x, y)));
        }
    }
}

/// A match mark: a cross in a circle.
fn matching(board: &mut Board, at: Point2) {
    board.circle(Pen::Ruling, at, MATCH / 2.0);
    for arm in [Vector2::new(MATCH, 0.0), Vector2::new(0.0, MATCH)] {
        board.line(Pen::Ruling, at - arm, at + arm);
    }
}
