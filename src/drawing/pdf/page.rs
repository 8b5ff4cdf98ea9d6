//! The content of one page: lines, arcs as Bézier curves, fills, lettering.

use super::{DrawingError, FONT, POINTS_PER_MM};
use crate::drawing::board::{Board, Label};
use crate::drawing::lettering;
use crate::drawing::pen::Pen;
use crate::drawing::sheet::Sheet;
use crate::shape::loops::Piece;
use crate::shape::project::Flat;
use crate::shape::{Point2, Vector2};
use pdf_writer::types::{LineCapStyle, LineJoinStyle, TextRenderingMode};
use pdf_writer::{Content, Str};

/// The most that one Bézier curve turns \[rad\]: an eighth of a turn leaves the arc by 4e-6 of its radius.
const MOST_TURN: f64 = std::f64::consts::FRAC_PI_4;

/// A length in the file \[mm\]: to the micrometre, so that numbers stay short.
fn mm(value: f64) -> f32 {
    ((value * 1e3).round() / 1e3) as f32
}

/// Everything on a sheet, in millimetres.
pub fn content(sheet: &Sheet) -> Result<Vec<u8>, DrawingError> {
    let scale = POINTS_PER_MM as f32;
    let mut page = Content::new();
    page.transform([scale, 0.0, 0.0, scale, 0.0, 0.0]);
    page.set_line_join(LineJoinStyle::RoundJoin);
    for pen in Pen::ALL {
        lines(&mut page, &sheet.board, pen);
    }
    for fill in &sheet.board.fills {
        path(&mut page, fill);
        page.close_path().fill_nonzero();
    }
    page.set_line_cap(LineCapStyle::RoundCap).set_dash_pattern([], 0.0);
    for label in &sheet.board.labels {
        text(&mut page, label)?;
    }
    Ok(page.finish().to_vec())
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
    // as they are written: what a rounding parts in memory is one in the file
    let place = |p: Point2| (mm(p.x), mm(p.y));
    let mut at = None;
    for stroke in strokes {
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

fn path(page: &mut Content, points: &[Point2]) {
    for (i, p) in points.iter().enumerate() {
        if i == 0 {
            page.move_to(mm(p.x), mm(p.y))
        } else {
            page.line_to(mm(p.x), mm(p.y))
        };
    }
}

/// One text: strokes for the eye, invisible words for searching.
fn text(page: &mut Content, label: &Label) -> Result<(), DrawingError> {
    let strokes = lettering::strokes(&label.text, label.height)
        .map_err(|e| DrawingError::UnknownCharacter { character: e.0, text: label.text.clone() })?;
    page.set_line_width(lettering::line_width(label.height) as f32);
    for stroke in &strokes {
        let placed: Vec<Point2> = stroke.iter().map(|p| label.place(*p)).collect();
        path(page, &placed);
        page.stroke();
    }
    let words = latin(&label.text);
    let (x, y) = (mm(label.at.x), mm(label.at.y));
    let turned = if label.upright { [0.0, 1.0, -1.0, 0.0, x, y] } else { [1.0, 0.0, 0.0, 1.0, x, y] };
    // capitals of Helvetica are 0.718 of the size high (its metrics, Adobe Core 14)
    page.begin_text()
        .set_text_rendering_mode(TextRenderingMode::Invisible)
        .set_font(FONT, (label.height / 0.718) as f32)
        .set_text_matrix(turned)
        .show(Str(&words))
        .end_text();
    Ok(())
}

/// A text in the Windows Latin alphabet of the invisible font; what it lacks becomes the nearest that people type.
fn latin(text: &str) -> Vec<u8> {
    let mut out = Vec::new();
    for c in text.chars() {
        match c {
            '⌀' => out.push(0xD8),
            '−' | '–' => out.push(b'-'),
            '≤' => out.extend(b"<="),
            '≥' => out.extend(b">="),
            'μ' => out.push(0xB5),
            '→' => out.extend(b"->"),
            c if (c as u32) < 0x80 || (0xA0..0x100).contains(&(c as u32)) => out.push(c as u32 as u8),
            _ => out.push(b'?'),
        }
    }
    out
}
