//! The board as an SVG file: 1 user unit = 1 mm, y flipped by coordinates, fixed count of decimals.

use super::DrawingError;
use super::board::{Board, Label};
use super::lettering;
use super::pen::Pen;
use crate::shape::Point2;
use crate::shape::loops::Piece;
use std::fmt::Write;
use svg::Document;
use svg::node::element::{Group, Path, Title};

/// Writes a board of `width` × `height` \[mm\].
///
/// # Errors
/// [`DrawingError::UnknownCharacter`] for a character that the alphabet lacks.
pub fn write(board: &Board, width: f64, height: f64, title: &str) -> Result<String, DrawingError> {
    let mut document = Document::new()
        .set("width", format!("{}mm", number(width)))
        .set("height", format!("{}mm", number(height)))
        .set("viewBox", format!("0 0 {} {}", number(width), number(height)))
        .add(Title::new(title));
    for pen in Pen::ALL {
        let data = lines(board, pen, height);
        if !data.is_empty() {
            document = document.add(pen_group(pen).add(Path::new().set("d", data)));
        }
    }
    document = document.add(fills(board, height));
    let mut texts = Group::new()
        .set("id", "lettering")
        .set("fill", "none")
        .set("stroke", "black")
        .set("stroke-linecap", "round")
        .set("stroke-linejoin", "round");
    for label in &board.labels {
        texts = texts.add(text(label, height)?);
    }
    Ok(format!("{}\n", document.add(texts)))
}

/// A number with at most four decimals and no negative zero.
pub fn number(value: f64) -> String {
    crate::numerals::short(value, 4)
}

/// The group of all lines of one pen.
fn pen_group(pen: Pen) -> Group {
    let group = Group::new()
        .set("id", pen.name())
        .set("fill", "none")
        .set("stroke", "black")
        .set("stroke-linecap", if pen.dashes().is_empty() { "round" } else { "butt" })
        .set("stroke-width", number(pen.width()));
    match pen.dashes() {
        [] => group,
        dashes => {
            let list: Vec<String> = dashes.iter().map(|d| number(*d)).collect();
            group.set("stroke-dasharray", list.join(" "))
        }
    }
}

/// Path data of all lines of one pen; a line that goes on from the one before is joined to it.
fn lines(board: &Board, pen: Pen, height: f64) -> String {
    let mut data = String::new();
    let mut at = String::new();
    for stroke in board.strokes.iter().filter(|s| s.pen == pen) {
        let start = point(stroke.piece.at(0.0), height);
        if start != at {
            let _ = write!(data, "M{start}");
        }
        at = point(stroke.piece.at(1.0), height);
        piece(&mut data, &stroke.piece, height);
    }
    data
}

/// Adds one line or arc to path data.
fn piece(data: &mut String, piece: &Piece, height: f64) {
    match piece {
        Piece::Line { to, .. } => {
            let _ = write!(data, "L{}", point(*to, height));
        }
        Piece::Arc { radius, sweep, .. } => {
            let parts = if sweep.abs() > 6.0 { 2 } else { 1 };
            let large = i32::from(sweep.abs() / f64::from(parts) > std::f64::consts::PI);
            // y points down in the file, so a counter-clockwise arc has the sweep flag 0.
            let flag = i32::from(*sweep < 0.0);
            for i in 1..=parts {
                let end = point(piece.at(f64::from(i) / f64::from(parts)), height);
                let r = number(*radius);
                let _ = write!(data, "A{r} {r} 0 {large} {flag} {end}");
            }
        }
    }
}

/// A point of the file.
fn point(p: Point2, height: f64) -> String {
    format!("{} {}", number(p.x), number(height - p.y))
}

/// Arrow heads and dots.
fn fills(board: &Board, height: f64) -> Group {
    let shape = |f: &Vec<Point2>| {
        let points: Vec<String> = f.iter().map(|p| point(*p, height)).collect();
        format!("M{}Z", points.join("L"))
    };
    let data: String = board.fills.iter().map(shape).collect();
    Group::new()
        .set("id", "arrows")
        .set("fill", "black")
        .set("stroke", "none")
        .add(Path::new().set("d", data))
}

/// One text: strokes for the eye, title and label for searching.
fn text(label: &Label, height: f64) -> Result<Group, DrawingError> {
    let strokes = lettering::strokes(&label.text, label.height)
        .map_err(|e| DrawingError::UnknownCharacter { character: e.0, text: label.text.clone() })?;
    let place = |p: &Point2| point(label.place(*p), height);
    let line = |s: &Vec<Point2>| format!("M{}", s.iter().map(place).collect::<Vec<_>>().join("L"));
    let data: String = strokes.iter().map(line).collect();
    let mut group = Group::new()
        .set("aria-label", label.text.as_str())
        .set("role", "img")
        .set("stroke-width", number(lettering::line_width(label.height)))
        .add(Title::new(label.text.as_str()))
        .add(Path::new().set("d", data));
    if !label.sizes.is_empty() {
        group = group.set("data-sizes", label.sizes.join(" "));
    }
    Ok(group)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_never_minus_zero() {
        assert_eq!(number(-0.000_01), "0");
        assert_eq!(number(12.5), "12.5");
        assert_eq!(number(-3.0), "-3");
        assert_eq!(number(100.0), "100");
    }

    #[test]
    fn y_is_flipped_by_coordinates_and_texts_can_be_found() {
        let mut board = Board::default();
        board.line(Pen::Visible, Point2::new(1.0, 2.0), Point2::new(3.0, 2.0));
        board.write(Label::level("⌀5 <x>", 1.0, 1.0, 3.5).telling(&["bore".to_owned()]));
        let file = write(&board, 10.0, 20.0, "t").unwrap();
        assert!(file.contains("M1 18L3 18") && !file.contains("transform"));
        assert!(file.contains("viewBox=\"0 0 10 20\"") && file.contains("width=\"10mm\""));
        assert!(file.contains("data-sizes=\"bore\"") && file.contains("⌀5 &lt;x&gt;"));
    }
}
