//! Lists on sheets of A4: the parts list (its columns after ISO 7573) and the stock to buy.

use super::board::{Board, Frame, Label};
use super::options::{Paper, SheetOptions};
use super::pen::Pen;
use super::sheet::Sheet;
use super::title::{Subject, fill, wrap};
use super::{DrawingError, lettering, paper};
use crate::parts::items::{in_order, item_numbers};
use crate::parts::part::{PartSet, Supply};
use crate::shape::{Point2, Vector2};

/// Height of the lettering \[mm\] (ISO 3098-1), and from line to line as a multiple of it.
const TEXT: f64 = 2.5;
const LEADING: f64 = 1.6;
/// Air beside and above texts in a field \[mm\].
const BESIDE: f64 = 1.5;
const ABOVE: f64 = 1.2;
/// Air to the frame \[mm\]: clear of the centring marks.
const SIDE: f64 = 7.0;
const AIR: f64 = 6.0;

/// A list: columns with their widths \[mm\], and rows.
#[derive(Clone, Debug, PartialEq)]
pub struct List {
    /// Name in kebab case, as in the names of its files.
    pub name: &'static str,
    /// Title.
    pub title: &'static str,
    /// Heads and widths of the columns \[mm\]; together no wider than 166.
    pub columns: Vec<(&'static str, f64)>,
    /// Texts of each row.
    pub rows: Vec<Vec<String>>,
}

impl List {
    /// The parts list of a set (ISO 7573): item number, sheet of the drawing of a made part, quantity, title, name, and
    /// material or standard designation.
    pub fn of_parts(set: &PartSet) -> Self {
        let numbers = item_numbers(set);
        let row = |part: &&crate::parts::part::Part| {
            let what = match &part.supply {
                Supply::Make => part.material.name.clone(),
                Supply::Buy { designation } => designation.clone(),
            };
            let number = numbers.get(&part.name).map(usize::to_string).unwrap_or_default();
            let sheet = set.sheet_of(&part.name).map(|n| n.to_string()).unwrap_or_default();
            vec![number, sheet, part.quantity.to_string(), part.title.clone(), part.name.clone(), what]
        };
        Self {
            name: "parts-list",
            title: "Parts list",
            columns: vec![
                ("Item", 10.5),
                ("Sheet", 11.5),
                ("Qty", 9.0),
                ("Title", 42.0),
                ("Name", 41.0),
                ("Material or designation", 52.0),
            ],
            rows: in_order(set).iter().map(row).collect(),
        }
    }
}

/// Lists laid out on sheets.
#[derive(Clone, Debug)]
pub struct Lists(Vec<(&'static str, &'static str, Vec<Board>)>);

impl Lists {
    /// Lays lists out, each on sheets of its own; an empty list gets none.
    ///
    /// # Errors
    /// [`DrawingError`]: a row that no sheet holds, a template that cannot be read.
    pub fn of(lists: &[List], options: &SheetOptions) -> Result<Self, DrawingError> {
        let space = paper::space(Paper::A4);
        let laid = lists.iter().filter(|list| !list.rows.is_empty()).map(|list| {
            let title = fill(&subject(list.name, list.title), options, "-", Paper::A4.name())?;
            let room = space.height() - title.height - 2.0 * AIR;
            Ok((list.name, list.title, tables(list, room)?))
        });
        laid.collect::<Result<_, _>>().map(Self)
    }

    /// How many sheets there are.
    pub fn count(&self) -> usize {
        self.0.iter().map(|(.., sheets)| sheets.len()).sum()
    }

    /// The sheets, in order; `options.sheet` is the number of the first.
    ///
    /// # Errors
    /// [`DrawingError`]: a character without a glyph, a template that cannot be read.
    pub fn sheets(self, options: &SheetOptions) -> Result<Vec<Sheet>, DrawingError> {
        let all = self.0.into_iter().flat_map(|(name, title, tables)| {
            tables.into_iter().enumerate().map(move |(i, table)| (name, title, i, table))
        });
        all.enumerate()
            .map(|(n, (name, title, i, table))| {
                let numbered = SheetOptions { sheet: options.sheet + n, mass_g: None, ..options.clone() };
                sheet(name, title, i, table, &numbered)
            })
            .collect()
    }
}

fn subject<'a>(name: &'a str, title: &'a str) -> Subject<'a> {
    Subject { document: "List", name, title, material: "-", quantity: 1, machined: false }
}

/// One sheet with its table.
fn sheet(
    name: &str,
    title: &str,
    index: usize,
    mut table: Board,
    options: &SheetOptions,
) -> Result<Sheet, DrawingError> {
    let space = paper::space(Paper::A4);
    let mut board = fill(&subject(name, title), options, "-", Paper::A4.name())?.draw(options.projection)?;
    board.shift(Vector2::new(space.low.x, space.low.y));
    board.append(paper::draw(Paper::A4));
    table.shift(Vector2::new(space.low.x + SIDE, space.high.y - AIR));
    board.append(table);
    Ok(Sheet {
        name: format!("{name}-{}", index + 1),
        title: format!("{title}, {}", index + 1),
        size_mm: Paper::A4.size_mm().into(),
        board,
    })
}

/// The tables of a list, each with its head, no taller than `room` \[mm\]; their upper left corners lie at the origin.
fn tables(list: &List, room: f64) -> Result<Vec<Board>, DrawingError> {
    let head = Row::of(&list.columns.iter().map(|(head, _)| (*head).to_owned()).collect::<Vec<_>>(), list);
    let mut sheets: Vec<Vec<Row>> = vec![Vec::new()];
    let mut used = head.tall;
    for texts in &list.rows {
        let row = Row::of(texts, list);
        if head.tall + row.tall > room {
            return Err(DrawingError::DoesNotFit { part: texts.join(", ") });
        }
        if used + row.tall > room {
            sheets.push(Vec::new());
            used = head.tall;
        }
        used += row.tall;
        if let Some(sheet) = sheets.last_mut() {
            sheet.push(row);
        }
    }
    Ok(sheets.iter().map(|rows| ruled(list, &head, rows)).collect())
}

/// A row, wrapped.
struct Row {
    cells: Vec<Vec<String>>,
    tall: f64,
}

impl Row {
    fn of(texts: &[String], list: &List) -> Self {
        let cells: Vec<Vec<String>> = texts
            .iter()
            .zip(&list.columns)
            .map(|(text, (_, wide))| lines(text, wide - 2.0 * BESIDE))
            .collect();
        let most = cells.iter().map(Vec::len).max().unwrap_or(1).max(1);
        Self { cells, tall: 2.0 * ABOVE + TEXT + LEADING * TEXT * (most as f64 - 1.0) }
    }
}

/// A table with head, rules and frame.
fn ruled(list: &List, head: &Row, rows: &[Row]) -> Board {
    let mut board = Board::default();
    let width: f64 = list.columns.iter().map(|(_, w)| w).sum();
    let mut y = 0.0;
    for (i, row) in std::iter::once(head).chain(rows).enumerate() {
        let mut x = 0.0;
        for (cell, (_, wide)) in row.cells.iter().zip(&list.columns) {
            for (line, text) in cell.iter().enumerate() {
                let base = y - ABOVE - TEXT - LEADING * TEXT * line as f64;
                board.write(Label::level(text, x + BESIDE, base, TEXT));
            }
            x += wide;
        }
        y -= row.tall;
        let pen = if i == 0 { Pen::Box } else { Pen::Rule };
        board.line(pen, Point2::new(0.0, y), Point2::new(width, y));
    }
    let mut x = 0.0;
    for (_, wide) in &list.columns[..list.columns.len() - 1] {
        x += wide;
        board.line(Pen::Rule, Point2::new(x, y), Point2::new(x, 0.0));
    }
    board.frame(Pen::Box, &Frame::new(0.0, y, width, -y));
    board
}

/// A text in lines that fit; a word wider than its column is broken where it must be.
fn lines(text: &str, room: f64) -> Vec<String> {
    if let Some(lines) = wrap(text, TEXT, room) {
        return lines;
    }
    let mut lines = vec![String::new()];
    for letter in text.chars() {
        let last = lines.last().map(|l| format!("{l}{letter}")).unwrap_or_default();
        match lines.last_mut() {
            Some(line) if lettering::width(&last, TEXT) <= room => *line = last,
            _ => lines.push(letter.to_string()),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn list(rows: usize, text: &str) -> List {
        let rows = (0..rows).map(|i| vec![i.to_string(), text.to_owned()]).collect();
        List { name: "list", title: "List", columns: vec![("No", 20.0), ("Text", 60.0)], rows }
    }

    #[test]
    fn rows_go_on_to_the_next_sheet_under_the_same_head() {
        let options = SheetOptions { sheet: 5, ..SheetOptions::default() };
        let all = Lists::of(&[list(100, "word"), list(0, ""), list(3, "word")], &options).unwrap();
        let count = all.count();
        let sheets = all.sheets(&options).unwrap();
        assert_eq!((count, sheets.len()), (4, 4), "a hundred rows of 4.9 mm on three sheets");
        let written: Vec<&str> =
            sheets.iter().flat_map(|s| &s.board.labels).map(|l| l.text.as_str()).collect();
        assert_eq!(written.iter().filter(|t| **t == "Text").count(), 4, "a head on each");
        for number in 0..100 {
            let wanted = if number < 3 { 2 } else { 1 };
            let found = sheets.iter().flat_map(|s| &s.board.labels);
            let found = found.filter(|l| l.text == number.to_string() && l.height == TEXT && l.at.x < 46.0);
            assert_eq!(found.count(), wanted, "row {number}");
        }
    }

    #[test]
    fn a_long_word_is_broken_and_nothing_is_lost() {
        let long = "x".repeat(200);
        let broken = lines(&long, 57.0);
        assert!(broken.len() > 1 && broken.iter().all(|l| lettering::width(l, TEXT) <= 57.0));
        assert_eq!(broken.concat(), long);
        let tall = list(1, &"word ".repeat(2000));
        assert!(matches!(Lists::of(&[tall], &SheetOptions::default()), Err(DrawingError::DoesNotFit { .. })));
    }
}
