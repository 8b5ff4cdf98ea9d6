//! Showing diagnostics: what, where with an excerpt, what is allowed, what to do.

use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};
use swept::diagnostic::{Diagnostic, Place, Severity};

/// Diagnostics as text with colours; what writes it takes the colours away where they are not wanted.
pub fn render(diagnostics: &[Diagnostic]) -> String {
    let renderer = Renderer::styled();
    let texts: Vec<String> = diagnostics.iter().map(|said| renderer.render(&[group(said)])).collect();
    texts.join("\n\n")
}

fn group(said: &Diagnostic) -> Group<'_> {
    let level = match said.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Note => Level::NOTE,
    };
    let mut group = Group::with_title(level.primary_title(&*said.message).id(said.code));
    if let Some(place) = &said.place {
        group = with_place(group, place, said.label.as_deref());
    }
    let more = [("allowed here", &said.allowed), ("hint", &said.hint)];
    for (name, text) in more.into_iter().filter_map(|(name, text)| Some((name, text.as_deref()?))) {
        group = group.element(Level::NOTE.with_name(name).message(text));
    }
    group
}

/// An excerpt with a caret. A text without lines (a file too large to show) has only its name.
fn with_place<'a>(group: Group<'a>, place: &'a Place, label: Option<&'a str>) -> Group<'a> {
    let column = place.excerpt.get(..place.caret.start).map_or(0, |before| before.chars().count()) + 1;
    if place.excerpt.is_empty() || column != place.column {
        let origin = Origin::path(&*place.file).line(place.line).char_column(place.column);
        if place.excerpt.is_empty() {
            return group.element(origin);
        }
        return group.element(origin).element(excerpt(place, label));
    }
    group.element(excerpt(place, label).path(&*place.file))
}

fn excerpt<'a>(place: &'a Place, label: Option<&'a str>) -> Snippet<'a, annotate_snippets::Annotation<'a>> {
    let annotation = AnnotationKind::Primary.span(place.caret.clone()).label(label);
    Snippet::source(&*place.excerpt).line_start(place.line).annotation(annotation)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(diagnostics: &[Diagnostic]) -> String {
        anstream::adapter::strip_str(&render(diagnostics)).to_string()
    }

    #[test]
    fn an_error_shows_what_where_allowed_and_hint() {
        let text = "[displacer]\n\ngap = \"0.05 mm\" # tight\n";
        let at = text.find('"').unwrap();
        let said = Diagnostic::error("swept::range", "displacer.gap is too small")
            .label("0.05 mm is too small")
            .allowed("0.35 mm to 1.2 mm")
            .hint("set gap to \"0.5 mm\"")
            .at(Place::in_text("fan.toml", text, at..at + 9));
        let shown = plain(&[said]);
        let wanted = "\
error[swept::range]: displacer.gap is too small
 --> fan.toml:3:7
  |
3 | gap = \"0.05 mm\" # tight
  |       ^^^^^^^^^ 0.05 mm is too small
  |
  = allowed here: 0.35 mm to 1.2 mm
  = hint: set gap to \"0.5 mm\"";
        assert_eq!(shown, wanted);
    }

    #[test]
    fn the_true_column_is_told_when_only_a_part_of_the_line_is_shown() {
        let text = format!("key = \"{}\"", "x".repeat(500));
        let said = Diagnostic::error("swept::text", "too long").at(Place::in_text("f.toml", &text, 400..410));
        assert!(plain(&[said]).contains("f.toml:1:401"));
    }

    #[test]
    fn a_file_without_lines_is_named_all_the_same() {
        let said = Diagnostic::error("swept::size", "too large").at(Place::in_text("big.toml", "", 0..0));
        assert!(plain(&[said]).contains("big.toml:1:1"));
    }
}
