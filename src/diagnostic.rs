//! What is wrong or worth saying, where it stands and what to do about it. The library collects these and never
//! prints.

use serde::Serialize;
use std::ops::Range;

/// How much it matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The work cannot go on.
    Error,
    /// The work goes on; the user should know.
    Warning,
    /// Said for information.
    Note,
}

/// A place in a text that the user wrote.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Place {
    /// Name of the file as the user gave it; `--set` for a value given on the command line.
    pub file: String,
    /// Bytes in the text.
    pub span: Range<usize>,
    /// Line, counted from 1.
    pub line: usize,
    /// Column in characters, counted from 1.
    pub column: usize,
    /// The line that holds the place, or a part of it when the line is very long.
    pub excerpt: String,
    /// Bytes in the excerpt that are meant.
    pub caret: Range<usize>,
}

/// Longest part of a line that is shown \[bytes\].
const EXCERPT: usize = 160;

impl Place {
    /// The place of a range of bytes in a text. A range beyond the text is moved to its end; one that goes over several
    /// lines is shown on the first.
    pub fn in_text(file: &str, text: &str, span: Range<usize>) -> Self {
        let start = floor(text, span.start);
        let end = floor(text, span.end).max(start);
        let line_start = text[..start].rfind('\n').map_or(0, |at| at + 1);
        let line_end = text[start..].find('\n').map_or(text.len(), |at| start + at);
        let from = floor(text, line_start.max(start.saturating_sub(EXCERPT / 2)));
        let to = floor(text, line_end.min(from + EXCERPT)).max(start);
        Self {
            file: file.into(),
            line: text[..start].matches('\n').count() + 1,
            column: text[line_start..start].chars().count() + 1,
            excerpt: text[from..to].trim_end_matches('\r').into(),
            caret: start - from..end.min(to) - from,
            span: start..end,
        }
    }
}

/// The nearest start of a character at or before a byte.
fn floor(text: &str, byte: usize) -> usize {
    text.floor_char_boundary(byte.min(text.len()))
}

/// One thing to say to the user.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Diagnostic {
    /// How much it matters.
    pub severity: Severity,
    /// Stable name, for example `swept::range`.
    pub code: &'static str,
    /// What is wrong, one line.
    pub message: String,
    /// Where.
    pub place: Option<Place>,
    /// What to write under the place.
    pub label: Option<String>,
    /// What would be allowed.
    pub allowed: Option<String>,
    /// What to do.
    pub hint: Option<String>,
}

impl Diagnostic {
    /// An error without a place yet.
    pub fn error(code: &'static str, message: impl Into<String>) -> Self {
        Self {
            severity: Severity::Error,
            code,
            message: message.into(),
            place: None,
            label: None,
            allowed: None,
            hint: None,
        }
    }

    /// A warning without a place yet.
    pub fn warning(code: &'static str, message: impl Into<String>) -> Self {
        Self { severity: Severity::Warning, ..Self::error(code, message) }
    }

    /// The same at a place.
    #[must_use]
    pub fn at(self, place: Place) -> Self {
        Self { place: Some(place), ..self }
    }

    /// The same with words under the place.
    #[must_use]
    pub fn label(self, label: impl Into<String>) -> Self {
        Self { label: Some(label.into()), ..self }
    }

    /// The same with what is allowed.
    #[must_use]
    pub fn allowed(self, allowed: impl Into<String>) -> Self {
        Self { allowed: Some(allowed.into()), ..self }
    }

    /// The same with a hint.
    #[must_use]
    pub fn hint(self, hint: impl Into<String>) -> Self {
        Self { hint: Some(hint.into()), ..self }
    }
}

/// A text of the user as it may be shown: control characters are written out and a long text is cut.
pub fn shown(text: &str) -> String {
    const LONGEST: usize = 60;
    let plain: String = text
        .chars()
        .take(LONGEST)
        .flat_map(|c| if c.is_control() { c.escape_default().collect::<Vec<_>>() } else { vec![c] })
        .collect();
    if text.chars().count() > LONGEST { format!("{plain}…") } else { plain }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_counts_lines_and_characters_from_one() {
        let text = "a = 1\n# °C äö\nkey = \"°C\" # x\n";
        let at = text.find("\"°C\"").unwrap();
        let place = Place::in_text("f.toml", text, at..at + 5);
        assert_eq!((place.line, place.column), (3, 7));
        assert_eq!(&place.excerpt[place.caret.clone()], "\"°C\"");
        assert_eq!(place.excerpt, "key = \"°C\" # x");
    }

    #[test]
    fn a_place_stays_inside_its_text_and_its_line() {
        let text = "one\ntwo";
        let beyond = Place::in_text("f", text, 100..200);
        assert_eq!((beyond.line, beyond.column, beyond.caret), (2, 4, 3..3));
        let over = Place::in_text("f", text, 1..6);
        assert_eq!((over.excerpt.as_str(), over.caret), ("one", 1..3));
        let inside = Place::in_text("f", "ä", 1..2);
        assert_eq!(inside.column, 1);
    }

    #[test]
    fn a_very_long_line_is_shown_in_part() {
        let text = format!("{}x{}", "é".repeat(5000), "é".repeat(5000));
        let place = Place::in_text("f", &text, 10_000..10_001);
        assert!(place.excerpt.len() <= EXCERPT + 2);
        assert_eq!(&place.excerpt[place.caret.clone()], "x");
        assert_eq!(place.column, 5001);
    }

    #[test]
    fn names_of_the_user_cannot_move_the_cursor() {
        assert_eq!(shown("a\u{1b}[31mb"), "a\\u{1b}[31mb");
        assert_eq!(shown(&"x".repeat(1000)).chars().count(), 61);
    }
}
