//! Blocks of text on the sheet: hole table, table of sizes, notes and cautions. Each is drawn with its
//! lower left corner at the origin and placed afterwards.

use super::board::{Board, Frame, Label};
use super::callout::Row;
use super::lettering;
use super::pen::Pen;
use super::title::wrap;
use super::views::HoleRow;
use crate::shape::{Point2, Vector2};

/// Height of a row \[mm\].
const ROW: f64 = 6.0;
/// Height of the lettering \[mm\].
const TEXT: f64 = 3.5;
/// Air beside a text in its column \[mm\].
const AIR: f64 = 1.5;
/// Air around an exact size in its box \[mm\].
const EXACT_AIR: f64 = 0.7;
/// Rows after which a table goes on in a second column.
const TALL: usize = 26;

/// A table whose rows are texts in columns; `None` in the second place spans the row.
#[derive(Clone)]
struct Line {
    texts: Vec<String>,
    sizes: Vec<Vec<String>>,
    /// All but the first stand in boxes, as theoretically exact sizes do (ISO 1101).
    exact: bool,
}

/// The hole table.
pub fn holes(rows: &[HoleRow]) -> Option<Board> {
    if rows.is_empty() {
        return None;
    }
    let mut lines = vec![Line {
        texts: ["Hole", "X", "Y"].map(String::from).to_vec(),
        sizes: vec![Vec::new(); 3],
        exact: false,
    }];
    for row in rows {
        match row {
            HoleRow::Member(label, x, y, names, exact) => {
                let one = |i: usize| names.get(i).cloned().into_iter().collect();
                lines.push(Line {
                    texts: vec![label.clone(), x.clone(), y.clone()],
                    sizes: vec![Vec::new(), one(0), one(1)],
                    exact: *exact,
                });
            }
            HoleRow::Group(letter, rows) => {
                for (i, row) in rows.iter().enumerate() {
                    let text = if i == 0 { format!("{letter}: {}", row.text) } else { row.text.clone() };
                    lines.push(Line { texts: vec![text], sizes: vec![row.sizes.clone()], exact: false });
                }
            }
        }
    }
    Some(columns(lines, [14.0, 22.0, 22.0], true))
}

/// The table of sizes of a free outline.
pub fn sizes(rows: &[(String, String)]) -> Option<Board> {
    if rows.is_empty() {
        return None;
    }
    let line = |(name, text): &(String, String)| Line {
        texts: vec![name.replace('-', " "), text.clone()],
        sizes: vec![Vec::new(), vec![name.clone()]],
        exact: false,
    };
    let head = Line {
        texts: ["Size", "Value"].map(String::from).to_vec(),
        sizes: vec![Vec::new(); 2],
        exact: false,
    };
    Some(columns(std::iter::once(head).chain(rows.iter().map(line)).collect(), [40.0, 22.0, 0.0], true))
}

/// Sizes that found no place in the views, with their names in place of a leader.
pub fn homeless(rows: &[Row]) -> Option<Board> {
    let told = rows.iter().filter(|r| !r.sizes.is_empty());
    let line = |row: &Row| Line {
        texts: vec![row.sizes[0].replace('-', " "), row.text.clone()],
        sizes: vec![Vec::new(), row.sizes.clone()],
        exact: false,
    };
    let lines: Vec<Line> = told.map(line).collect();
    (!lines.is_empty()).then(|| columns(lines, [40.0, 22.0, 0.0], false))
}

/// Sets lines into one or more columns of a table.
fn columns(lines: Vec<Line>, least: [f64; 3], headed: bool) -> Board {
    let mut widths = least;
    for line in lines.iter().filter(|l| l.texts.len() > 1) {
        for (w, text) in widths.iter_mut().zip(&line.texts) {
            *w = w.max(lettering::width(text, TEXT) + 2.0 * AIR);
        }
    }
    let spans = lines.iter().filter(|l| l.texts.len() == 1);
    let widest = spans.map(|l| lettering::width(&l.texts[0], TEXT) + 2.0 * AIR).fold(0.0, f64::max);
    let total = widths.iter().sum::<f64>().max(widest);
    if let Some(last) = widths.iter_mut().rev().find(|w| **w > 0.0) {
        *last += 0.0_f64.max(total - least.iter().sum::<f64>().max(total));
    }
    let mut board = Board::default();
    let parts = lines.len().div_ceil(TALL);
    let tall = lines.len().div_ceil(parts);
    // every column of a table with a head has it
    let tall = tall + usize::from(headed && parts > 1);
    let (head, rows) = lines.split_at(usize::from(headed));
    for (i, rows) in rows.chunks(tall - head.len()).enumerate() {
        let chunk: Vec<Line> = head.iter().chain(rows).cloned().collect();
        let mut column = column(&chunk, &widths, total);
        column.shift(Vector2::new(i as f64 * (total + 4.0), -(chunk.len() as f64) * ROW));
        board.append(column);
    }
    board.shift(Vector2::new(0.0, tall as f64 * ROW));
    board
}

/// One column of a table, its lower left corner at the origin.
fn column(lines: &[Line], widths: &[f64; 3], total: f64) -> Board {
    let mut board = Board::default();
    let top = lines.len() as f64 * ROW;
    board.frame(Pen::Box, &Frame::new(0.0, 0.0, total, top));
    for (i, line) in lines.iter().enumerate() {
        let y = top - (i as f64 + 1.0) * ROW;
        if i + 1 < lines.len() {
            board.line(Pen::Rule, Point2::new(0.0, y), Point2::new(total, y));
        }
        let mut x = 0.0;
        for (j, text) in line.texts.iter().enumerate() {
            let label = Label::level(text, x + AIR, y + 1.3, TEXT).telling(&line.sizes[j]);
            if line.exact && j > 0 {
                board.frame(Pen::Leader, &label.frame().grown(EXACT_AIR));
            }
            board.write(label);
            x += widths[j];
            if j + 1 < line.texts.len() {
                board.line(Pen::Rule, Point2::new(x, y), Point2::new(x, y + ROW));
            }
        }
    }
    board
}

/// Notes, numbered, wrapped to `width` \[mm\].
pub fn notes(list: &[String], width: f64) -> Option<Board> {
    let mut lines = vec!["Notes".to_owned()];
    for (i, note) in list.iter().enumerate() {
        let wrapped = wrap(note, TEXT, width - 8.0).unwrap_or_else(|| vec![note.clone()]);
        let first = format!("{}  ", i + 1);
        lines.extend(
            wrapped
                .into_iter()
                .enumerate()
                .map(|(j, l)| if j == 0 { first.clone() + &l } else { format!("      {l}") }),
        );
    }
    (!list.is_empty()).then(|| block(&lines, 0.0))
}

/// Cautions in a framed block, wrapped to `width` \[mm\].
pub fn cautions(list: &[String], width: f64) -> Option<Board> {
    let mut lines = vec!["CAUTION".to_owned()];
    for caution in list {
        lines.extend(wrap(caution, TEXT, width - 6.0).unwrap_or_else(|| vec![caution.clone()]));
    }
    (!list.is_empty()).then(|| {
        let mut board = block(&lines, 3.0);
        let b = board.bounds();
        board.frame(Pen::Box, &Frame::new(0.0, 0.0, b.high.x + 3.0, b.high.y + 3.0));
        board
    })
}

/// Lines of text one above the other.
fn block(lines: &[String], air: f64) -> Board {
    let mut board = Board::default();
    for (i, line) in lines.iter().rev().enumerate() {
        let indent = line.chars().take_while(|c| *c == ' ').count() as f64;
        let x = air + if indent > 0.0 { 5.0 } else { 0.0 };
        board.write(Label::level(line.trim_start(), x, air + 1.1 + 5.6 * i as f64, TEXT));
    }
    board
}
