//! Putting the parser's complaints into words that help.

use crate::diagnostic::{Diagnostic, shown};
use std::ops::Range;

/// What the parser found wrong, and where.
pub(super) fn explain(text: &str, error: &toml::de::Error) -> (Range<usize>, Diagnostic) {
    let span = error.span().unwrap_or(text.len()..text.len());
    let message = error.message().lines().next().unwrap_or("not TOML");
    if message.contains("duplicate key") {
        let name = text.get(span.clone()).unwrap_or("a key");
        let diagnostic =
            Diagnostic::error("swept::duplicate", format!("`{}` is written a second time", shown(name)))
                .label("written before")
                .allowed("every key and every table once")
                .hint("leave one of the two out");
        return (span, diagnostic);
    }
    if let Some(control) = control_at(text, span.start) {
        let name = control.escape_default();
        let diagnostic =
            Diagnostic::error("swept::syntax", format!("a control character ({name}) stands in the file"))
                .label("here")
                .allowed("visible characters, blanks, tabs and line ends")
                .hint("delete the control character");
        return (span, diagnostic);
    }
    let line = line_at(text, span.start);
    let diagnostic = Diagnostic::error("swept::syntax", format!("this is not TOML: {message}"))
        .label("here")
        .allowed("lines `key = \"value\"` under a line `[table]`")
        .hint(hint(line));
    (span, diagnostic)
}

/// The control character at a byte; line ends are none.
fn control_at(text: &str, byte: usize) -> Option<char> {
    let found = text.get(byte..)?.chars().next()?;
    (found.is_control() && !matches!(found, '\n' | '\r' | '\t')).then_some(found)
}

fn line_at(text: &str, byte: usize) -> &str {
    let byte = text.floor_char_boundary(byte.min(text.len()));
    let start = text[..byte].rfind('\n').map_or(0, |at| at + 1);
    text[start..].lines().next().unwrap_or("")
}

fn hint(line: &str) -> String {
    let value =
        line.split_once('=').map(|(key, value)| (key.trim(), value.split('#').next().unwrap_or("").trim()));
    match value {
        Some((_, "")) => "write a value after the equals sign".into(),
        Some((key, value)) if is_bare(value) => {
            format!("text and quantities stand in quotation marks: {key} = \"{value}\"")
        }
        Some((_, value)) if value.matches('"').count() % 2 == 1 => "a quotation mark is missing".into(),
        Some((_, value)) if value.matches('\'').count() % 2 == 1 => "a quotation mark is missing".into(),
        None if line.trim_start().starts_with('[') && !line.trim_end().ends_with(']') => {
            "close the table's name with ]".into()
        }
        None => "write `key = \"value\"`, or begin the line with # if it is a remark".into(),
        Some(_) => "write `key = \"value\"`; quantities stand in quotation marks".into(),
    }
}

/// A value that looks like text or a quantity without quotation marks.
fn is_bare(value: &str) -> bool {
    let short = value.len() <= 40 && !value.contains(['"', '\'', '[', '{', '\\']);
    short && value.chars().any(|c| c.is_alphabetic() || !c.is_ascii()) && !value.chars().any(char::is_control)
}
