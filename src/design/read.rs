//! Reading a design file: all mistakes at once, each with its place.

use super::draft::Draft;
use super::keys::Design;
use super::value::{AllValues, Values};
use super::{missing, overrides, rules, syntax, walk};
use crate::diagnostic::{Diagnostic, Place, Severity};
use std::collections::BTreeSet;
use std::ops::Range;

/// Largest design file that is read \[bytes\].
pub const LARGEST_FILE: usize = 1_000_000;

/// Most things that are said about one file.
const MOST: usize = 100;

/// Reads a design from the bytes of a file and from overrides (`piston.stroke`, `28 mm`). Returns the design and what
/// should be said about it; `Design::record` lists the defaults that were taken.
///
/// # Errors
/// Everything that is wrong with the file and the overrides, in the order of the file; a value that is left open.
pub fn read(
    file_name: &str,
    bytes: &[u8],
    sets: &[(String, String)],
) -> Result<(Design, Vec<Diagnostic>), Vec<Diagnostic>> {
    let (draft, said) = read_draft(file_name, bytes, sets)?;
    Ok((draft.closed()?, said))
}

/// As [`read`], for a design that may leave values open: the search decides them.
///
/// # Errors
/// Everything that is wrong with the file and the overrides, in the order of the file.
pub fn read_draft(
    file_name: &str,
    bytes: &[u8],
    sets: &[(String, String)],
) -> Result<(Draft, Vec<Diagnostic>), Vec<Diagnostic>> {
    let text = decode(file_name, bytes).map_err(|error| vec![error])?;
    let mut reader = Reader::new(file_name, text);
    walk::file(&mut reader);
    overrides::apply(&mut reader, sets);
    missing::report(&mut reader);
    missing::fill(&mut reader.values);
    rules::check(&mut reader);
    reader.finish()
}

/// What is known while a file is read.
pub(super) struct Reader<'a> {
    pub file: &'a str,
    pub text: &'a str,
    pub said: Vec<Diagnostic>,
    pub values: AllValues,
    /// Tables and keys that were written, right or wrong: these are not missing.
    pub written: BTreeSet<(&'static str, &'static str)>,
    /// Where each table stands.
    pub tables: Vec<(&'static str, Range<usize>)>,
    /// The file is no TOML, so nothing can be said to be missing.
    pub broken: bool,
    /// Mistakes beyond the most that are said.
    pub unsaid: usize,
}

impl<'a> Reader<'a> {
    fn new(file: &'a str, text: &'a str) -> Self {
        Self {
            file,
            text,
            said: Vec::new(),
            values: AllValues::new(),
            written: BTreeSet::new(),
            tables: Vec::new(),
            broken: false,
            unsaid: 0,
        }
    }

    /// The place of some bytes of the file.
    pub fn place(&self, span: Range<usize>) -> Place {
        Place::in_text(self.file, self.text, span)
    }

    /// Says something at some bytes of the file. Beyond a number that nobody reads, mistakes are only counted.
    pub fn say(&mut self, span: Range<usize>, diagnostic: Diagnostic) {
        if self.said.len() >= MOST {
            self.unsaid += 1;
            return;
        }
        let place = self.place(span);
        self.said.push(diagnostic.at(place));
    }

    /// Values of a table.
    pub fn table(&mut self, name: &'static str) -> &mut Values {
        self.values.entry(name).or_default()
    }

    fn finish(mut self) -> Result<(Draft, Vec<Diagnostic>), Vec<Diagnostic>> {
        let of_file = |said: &Diagnostic| said.place.as_ref().is_some_and(|place| place.file == self.file);
        self.said
            .sort_by_key(|said| (!of_file(said), said.place.as_ref().map_or(0, |place| place.span.start)));
        self.said.extend(more(self.unsaid, self.said.last()));
        if self.said.iter().any(|said| said.severity == Severity::Error) {
            return Err(self.said);
        }
        Ok((Draft::new(self.file, self.text, self.values)?, self.said))
    }
}

/// What is said in place of the mistakes that are only counted.
fn more(unsaid: usize, last: Option<&Diagnostic>) -> Option<Diagnostic> {
    let place = last.and_then(|last| last.place.clone());
    let diagnostic = Diagnostic::error("swept::more", format!("{unsaid} more mistakes are not shown"))
        .hint("mend these first and read the file again");
    (unsaid > 0).then_some(Diagnostic { place, ..diagnostic })
}

fn decode<'a>(file: &str, bytes: &'a [u8]) -> Result<&'a str, Diagnostic> {
    if bytes.len() > LARGEST_FILE {
        let error = Diagnostic::error("swept::size", format!("the file is larger than {LARGEST_FILE} bytes"))
            .allowed(format!("a design file of at most {LARGEST_FILE} bytes"))
            .hint("is this the right file? `swept new` writes a small starter");
        return Err(error.at(Place::in_text(file, "", 0..0)));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| not_utf8(file, bytes, error.valid_up_to()))?;
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        let error = Diagnostic::error("swept::empty", "the design file is empty")
            .label("nothing here")
            .hint("`swept new` writes a commented starter");
        return Err(error.at(Place::in_text(file, text, 0..0)));
    }
    Ok(text)
}

fn not_utf8(file: &str, bytes: &[u8], at: usize) -> Diagnostic {
    let lossy = String::from_utf8_lossy(bytes);
    let wide = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
    let encoding = if wide { "it looks like UTF-16: save" } else { "save" };
    Diagnostic::error(
        "swept::encoding",
        format!("the file is not UTF-8 text: byte {at} is {:#04x}", bytes[at]),
    )
    .label("not UTF-8 from here on")
    .allowed("text in UTF-8")
    .hint(format!("{encoding} the file as UTF-8 in your editor, or check that it is a design file"))
    .at(Place::in_text(file, &lossy, at..at + 1))
}

/// Says what the parser found wrong.
pub(super) fn say_syntax(reader: &mut Reader<'_>, errors: &[toml::de::Error]) {
    reader.broken = !errors.is_empty();
    reader.unsaid += errors.len().saturating_sub(MOST);
    for error in errors.iter().take(MOST) {
        let (span, diagnostic) = syntax::explain(reader.text, error);
        reader.say(span, diagnostic);
    }
}
