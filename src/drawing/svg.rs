//! The board as an SVG file: 1 user unit = 1 mm, y flipped by coordinates, fixed count of decimals.

use super::DrawingError;
use super::board::{Board, Label};
use super::lettering;
use super::pen::Pen;
use crate::shape::loops::{Loop, Piece};
use crate::shape::project::Flat;
use crate::shape::{InnerSpace, Point2};
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
        let views = std::iter::once(None).chain((0..board.views.len()).map(Some));
        let paths: Vec<Path> = views.filter_map(|view| path_of(board, pen, view, height)).collect();
        if !paths.is_empty() {
            document = document.add(paths.into_iter().fold(pen_group(pen), Group::add));
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

/// The path of all lines of one pen that are edges of one view, or of none. A view says from where the part is seen: which
/// of its directions run to the right and upwards, where its origin lies, the scale, and the depth of the cut.
fn path_of(board: &Board, pen: Pen, view: Option<usize>, height: f64) -> Option<Path> {
    let data = lines(board, pen, view, height);
    let path = (!data.is_empty()).then(|| Path::new().set("d", data))?;
    let Some(look) = view.map(|i| &board.views[i]) else { return Some(path) };
    let f = &look.view.frame;
    let list = |v: [f64; 3]| v.map(|x| crate::numerals::short(x, 9)).join(" ");
    let path = path
        .set("data-view", look.name)
        .set("data-right", list([f.x.x, f.x.y, f.x.z]))
        .set("data-up", list([f.y().x, f.y().y, f.y().z]))
        .set("data-origin", point(look.origin, height))
        .set("data-scale", crate::numerals::short(look.factor, 9));
    let path = match look.limit {
        Some((centre, radius)) => path.set("data-limit", list([centre.x, centre.y, radius])),
        None => path,
    };
    Some(match &look.view.taken[..] {
        [] => path,
        taken => {
            let depths: Vec<String> = taken.iter().map(|t| number(t.depth)).collect();
            let loops: Vec<String> = taken.iter().map(|t| within(t.within.as_ref())).collect();
            let path = path.set("data-cut", depths.join(" "));
            if loops.iter().all(String::is_empty) { path } else { path.set("data-within", loops.join(";")) }
        }
    })
}

/// A loop of a view in its own millimetres, y down as everywhere in the file; nothing for one that is everywhere.
fn within(outline: Option<&Loop>) -> String {
    let pieces = outline.map(Loop::pieces).unwrap_or_default();
    let mut board = Board::default();
    pieces.into_iter().for_each(|piece| board.draw(Pen::Visible, piece));
    lines(&board, Pen::Visible, None, 0.0)
}

/// Path data; a line that goes on from the one before is joined to it.
fn lines(board: &Board, pen: Pen, view: Option<usize>, height: f64) -> String {
    let mut data = String::new();
    let mut at = String::new();
    for stroke in board.strokes.iter().filter(|s| s.pen == pen && s.view == view) {
        let start = point(stroke.line.at(0.0), height);
        if start != at {
            let _ = write!(data, "M{start}");
        }
        at = point(stroke.line.at(1.0), height);
        curve(&mut data, &stroke.line, height);
    }
    data
}

/// Adds one line to path data.
fn curve(data: &mut String, line: &Flat, height: f64) {
    match line {
        Flat::Piece(Piece::Line { to, .. }) => {
            let _ = write!(data, "L{}", point(*to, height));
        }
        Flat::Piece(Piece::Arc { radius, sweep, .. }) => {
            arc(data, line, [*radius, *radius], 0.0, *sweep, height);
        }
        Flat::Ellipse { u, v, sweep, .. } => {
            let turns_left = u.perp_dot(*v) > 0.0;
            let sweep = if turns_left { *sweep } else { -sweep };
            // y points down in the file, so that angles turn the other way
            let tilt = -u.y.atan2(u.x).to_degrees();
            arc(data, line, [u.magnitude(), v.magnitude()], tilt, sweep, height);
        }
        Flat::Cubics(list) => {
            for c in list {
                let _ =
                    write!(data, "C{} {} {}", point(c[1], height), point(c[2], height), point(c[3], height));
            }
        }
    }
}

/// The most that one arc of the file turns \[rad\]: by its ends alone, a half turn would leave its centre open.
const MOST_TURN: f64 = 1.7;

/// Adds an arc of a circle or an ellipse, a long one in parts.
fn arc(data: &mut String, line: &Flat, [u, v]: [f64; 2], tilt: f64, sweep: f64, height: f64) {
    let parts = (sweep.abs() / MOST_TURN).ceil().max(1.0) as u32;
    // y points down in the file, so a counter-clockwise arc has the sweep flag 0
    let flag = i32::from(sweep < 0.0);
    let shape = format!("{} {} {}", number(u), number(v), number(tilt));
    for i in 1..=parts {
        let end = point(line.at(f64::from(i) / f64::from(parts)), height);
        let _ = write!(data, "A{shape} 0 {flag} {end}");
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
