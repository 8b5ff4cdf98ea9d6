//! The table of revisions: index, date of issue, what changed. It stands on the sheets of parts that were changed since their
//! first issue, near the title block, which has the newest index (ISO 7200).

use super::board::{Board, Frame, Label};
use super::lettering;
use super::pen::Pen;
use super::title::wrap;
use crate::export::revision::Revision;
use crate::shape::{Point2, Vector2};

/// Height of the lettering, from line to line, and air beside a text \[mm\].
const TEXT: f64 = 2.5;
const LINE: f64 = 4.0;
const AIR: f64 = 1.5;
/// Least width of the column of the index, and width of that of the changes \[mm\].
const INDEX: f64 = 9.0;
const CHANGE: f64 = 84.0;
/// Newest entries that are shown, and most changes that are told of each; `build.json` has all.
const ENTRIES: usize = 4;
const CHANGES: usize = 8;

/// A row: index, date, lines of what changed.
type Entry = (String, String, Vec<String>);

/// The table with its lower left corner at the origin; none for a first issue.
pub fn table(revisions: &[Revision]) -> Option<Board> {
    if revisions.iter().all(|r| r.changes.is_empty()) {
        return None;
    }
    let skipped = revisions.len().saturating_sub(ENTRIES);
    let mut rows: Vec<Entry> = vec![("Rev.".into(), "Date".into(), vec!["Change".into()])];
    if skipped > 0 {
        rows.push((String::new(), String::new(), vec![format!("{skipped} earlier: see build.json")]));
    }
    rows.extend(revisions[skipped..].iter().map(|r| (r.index.clone(), r.date.clone(), words(r))));
    let wide = |of: &dyn Fn(&Entry) -> String, least: f64| {
        rows.iter().map(|r| lettering::width(&of(r), TEXT) + 2.0 * AIR).fold(least, f64::max)
    };
    let dated = revisions[skipped..].iter().any(|r| !r.date.is_empty());
    let index = wide(&|r| r.0.clone(), INDEX);
    let date = if dated { wide(&|r| r.1.clone(), 0.0) } else { 0.0 };
    Some(draw(&rows, [index, date, CHANGE]))
}

/// What changed in lines that fit the column.
fn words(revision: &Revision) -> Vec<String> {
    let all = &revision.changes;
    if all.is_empty() {
        return vec!["first issue".to_owned()];
    }
    let mut told = all[..all.len().min(CHANGES)].join("; ");
    if all.len() > CHANGES {
        told += &format!("; and {} more: see build.json", all.len() - CHANGES);
    }
    wrap(&told, TEXT, CHANGE - 2.0 * AIR).unwrap_or_else(|| vec![told.clone()])
}

/// Draws the rows from the top.
fn draw(rows: &[Entry], widths: [f64; 3]) -> Board {
    let mut board = Board::default();
    let total: f64 = widths.iter().sum();
    let mut y = 0.0;
    for (i, (index, date, lines)) in rows.iter().enumerate() {
        if i > 0 {
            board.line(Pen::Rule, Point2::new(0.0, y), Point2::new(total, y));
        }
        let first = y - LINE;
        for (text, x) in [(index, 0.0), (date, widths[0])].into_iter().filter(|(t, _)| !t.is_empty()) {
            if x == 0.0 || widths[1] > 0.0 {
                board.write(Label::level(text, x + AIR, first, TEXT));
            }
        }
        for (j, line) in lines.iter().enumerate() {
            let x = widths[0] + widths[1] + AIR;
            board.write(Label::level(line, x, first - LINE * j as f64, TEXT));
        }
        y -= LINE * lines.len() as f64 + AIR;
    }
    let mut x = 0.0;
    for width in &widths[..2] {
        x += width;
        if *width > 0.0 {
            board.line(Pen::Rule, Point2::new(x, 0.0), Point2::new(x, y));
        }
    }
    board.frame(Pen::Box, &Frame::new(0.0, y, total, -y));
    board.shift(Vector2::new(0.0, -y));
    board
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Sheet;
    use crate::drawing::audit::unreadable;

    fn revision(index: &str, date: &str, changes: usize) -> Revision {
        let changes = (0..changes).map(|i| format!("bore-diameter-{i} 32 → 34")).collect();
        Revision { index: index.into(), date: date.into(), changes }
    }

    fn texts(board: &Board) -> Vec<&str> {
        board.labels.iter().map(|l| l.text.as_str()).collect()
    }

    #[test]
    fn a_first_issue_has_no_table() {
        assert_eq!(table(&[revision("A", "", 0)]), None);
        assert_eq!(table(&[]), None);
    }

    #[test]
    fn each_entry_has_index_date_and_change() {
        let board = table(&[revision("A", "2026-04-01", 0), revision("B", "2026-05-01", 1)]).unwrap();
        let wanted = [
            "Rev.",
            "Date",
            "Change",
            "A",
            "2026-04-01",
            "first issue",
            "B",
            "2026-05-01",
            "bore-diameter-0 32 → 34",
        ];
        assert_eq!(texts(&board), wanted);
        let undated = table(&[revision("A", "", 0), revision("B", "", 1)]).unwrap();
        assert!(!texts(&undated).contains(&"Date"));
    }

    #[test]
    fn a_long_history_stays_short_and_can_be_read() {
        let all: Vec<Revision> = ["A", "B", "C", "D", "E", "F"].map(|i| revision(i, "2026-05-01", 20)).into();
        let board = table(&all).unwrap();
        let told = texts(&board);
        assert!(told.contains(&"2 earlier: see build.json") && !told.contains(&"B") && told.contains(&"C"));
        assert!(told.iter().any(|t| t.contains("and 12 more")), "{told:?}");
        let sheet = Sheet { name: "s".into(), title: "S".into(), size_mm: [210.0, 297.0], board };
        assert_eq!(unreadable(&sheet), []);
    }
}
