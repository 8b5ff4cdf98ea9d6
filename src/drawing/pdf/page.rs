//! The content of one page: lines, arcs as Bézier curves, fills, lettering.

use super::POINTS_PER_MM;
use super::font::Fonts;
use crate::drawing::board::Board;
use crate::drawing::pen::Pen;
use crate::drawing::sheet::Sheet;
use crate::shape::loops::Piece;
use crate::shape::project::Flat;
use crate::shape::{Point2, Vector2};
use pdf_writer::Content;
use pdf_writer::types::{LineCapStyle, LineJoinStyle};

/// The most that one Bézier curve turns \[rad\]: an eighth of a turn leaves the arc by 4e-6 of its radius.
const MOST_TURN: f64 = std::f64::consts::FRAC_PI_4;

/// A length in the file \[mm\]: to the micrometre, so that numbers stay short.
fn mm(value: f64) -> f32 {
    ((value * 1e3).round() / 1e3) as f32
}

/// Everything on a sheet, in millimetres.
pub fn content(sheet: &Sheet, fonts: &Fonts) -> Vec<u8> {
    let scale = POINTS_PER_MM as f32;
    let mut page = Content::new();
    page.transform([scale, 0.0, 0.0, scale, 0.0, 0.0]);
    page.set_line_join(LineJoinStyle::RoundJoin);
    for pen in Pen::ALL {
        lines(&mut page, &sheet.board, pen);
    }
    for fill in &sheet.board.fills {
        path(&mut page, fill, &place);
        page.close_path().fill_nonzero();
    }
    // letters are drawn with the pen as the page leaves it
    page.set_line_cap(LineCapStyle::RoundCap).set_dash_pattern([], 0.0);
    fonts.show(&mut page, &sheet.board.labels, &mm);
    page.finish().to_vec()
}

/// A point as it is written.
fn place(p: Point2) -> (f32, f32) {
    (mm(p.x), mm(p.y))
}

/// All lines of one pen.
fn lines(page: &mut Content, board: &Board, pen: Pen) {
    let mut strokes = board.strokes.iter().filter(|s| s.pen == pen).peekable();
    if strokes.peek().is_none() {
        return;
    }
    let cap = if pen.dashes().is_empty() { LineCapStyle::RoundCap } else { LineCapStyle::ButtCap };
    page.set_line_width(pen.width() as f32).set_line_cap(cap);
    page.set_dash_pattern(pen.dashes().iter().map(|d| *d as f32), 0.0);
    let mut at = None;
    for stroke in strokes {
        // as they are written: what a rounding parts in memory is one in the file
        let (x, y) = place(stroke.line.at(0.0));
        if at != Some((x, y)) {
            page.move_to(x, y);
        }
        curve(page, &stroke.line);
        at = Some(place(stroke.line.at(1.0)));
    }
    page.stroke();
}

/// Goes on along a line.
fn curve(page: &mut Content, line: &Flat) {
    match line {
        Flat::Piece(Piece::Line { to, .. }) => {
            page.line_to(mm(to.x), mm(to.y));
        }
        Flat::Piece(Piece::Arc { centre, radius, start, sweep }) => {
            let axes = [Vector2::new(*radius, 0.0), Vector2::new(0.0, *radius)];
            arc(page, *centre, axes, *start, *sweep);
        }
        Flat::Ellipse { centre, u, v, start, sweep } => arc(page, *centre, [*u, *v], *start, *sweep),
        Flat::Cubics(list) => list.iter().for_each(|c| cubic(page, c[1], c[2], c[3])),
    }
}

/// An arc of an ellipse given by its half axes.
fn arc(page: &mut Content, centre: Point2, [u, v]: [Vector2; 2], start: f64, sweep: f64) {
    let count = (sweep.abs() / MOST_TURN - 1e-9).ceil().max(1.0);
    let turn = sweep / count;
    // length of the handles that makes the middle of the curve lie on the arc (any text on Bézier curves)
    let handle = 4.0 / 3.0 * (turn / 4.0).tan();
    let on = |a: f64| centre + u * a.cos() + v * a.sin();
    let ahead = |a: f64| (v * a.cos() - u * a.sin()) * handle;
    for i in 0..count as usize {
        let (a, b) = (start + turn * i as f64, start + turn * (i + 1) as f64);
        cubic(page, on(a) + ahead(a), on(b) - ahead(b), on(b));
    }
}

fn cubic(page: &mut Content, p: Point2, q: Point2, end: Point2) {
    page.cubic_to(mm(p.x), mm(p.y), mm(q.x), mm(q.y), mm(end.x), mm(end.y));
}

/// Straight lines through points, each written as `place` says.
pub fn path(page: &mut Content, points: &[Point2], place: &dyn Fn(Point2) -> (f32, f32)) {
    for (i, (x, y)) in points.iter().map(|p| place(*p)).enumerate() {
        if i == 0 {
            page.move_to(x, y)
        } else {
            page.line_to(x, y)
        };
    }
}
