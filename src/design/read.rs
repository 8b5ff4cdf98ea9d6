//! Reading a design file: all mistakes at once, each with its place.

use super::draft::Draft;
use super::key::Table;
use super::keys::Design;
use super::shelf::Shelf;
use super::value::{AllValues, Values};
use super::{missing, on_shelf, overrides, rules, syntax, walk};
use crate::catalogue::Catalogue;
use crate::diagnostic::{Diagnostic, Place, Severity};
use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::Arc;

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
    read_with(file_name, bytes, sets, None)
}

/// As [`read`], with the shelf file that the design names ([`shelf_named`]).
///
/// # Errors
/// As [`read`]; and when the design names a shelf file and there is none here.
pub fn read_with(
    file_name: &str,
    bytes: &[u8],
    sets: &[(String, String)],
    shelf: Option<&Shelf>,
) -> Result<(Design, Vec<Diagnostic>), Vec<Diagnostic>> {
    let (draft, said) = read_draft_with(file_name, bytes, sets, shelf)?;
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
    read_draft_with(file_name, bytes, sets, None)
}

/// As [`read_draft`], with the shelf file that the design names.
///
/// # Errors
/// As [`read_with`].
pub fn read_draft_with(
    file_name: &str,
    bytes: &[u8],
    sets: &[(String, String)],
    shelf: Option<&Shelf>,
) -> Result<(Draft, Vec<Diagnostic>), Vec<Diagnostic>> {
    let text = decode(file_name, bytes).map_err(|error| vec![error])?;
    let mut reader = Reader::new(file_name, text, Design::TABLES);
    if let Some(shelf) = shelf {
        reader.catalogue = Arc::clone(&shelf.catalogue);
    }
    walk::file(&mut reader);
    overrides::apply(&mut reader, sets);
    on_shelf::put(&mut reader, shelf);
    missing::report(&mut reader);
    missing::fill(&mut reader.values);
    rules::check(&mut reader);
    reader.finish()
}

/// Name of the shelf file that a design or an override names, so that it can be read before the design is. A file that
/// is no TOML names none.
pub fn shelf_named(bytes: &[u8], sets: &[(String, String)]) -> Option<String> {
    let set = sets.iter().rev().find(|(key, _)| key.trim() == "workshop.shelf");
    if let Some((_, name)) = set {
        return Some(overrides::unquoted(name.trim()).into());
    }
    let root: toml::Table = toml::from_str(std::str::from_utf8(bytes).ok()?).ok()?;
    Some(root.get("workshop")?.get("shelf")?.as_str()?.into())
}

/// What is known while a file is read.
pub(super) struct Reader<'a> {
    pub file: &'a str,
    pub text: &'a str,
    /// Tables that the file may have.
    pub known: &'static [Table],
    /// What names are looked up in.
    pub catalogue: Arc<Catalogue>,
    /// This is a shelf file and not a design.
    pub is_shelf: bool,
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
    pub fn new(file: &'a str, text: &'a str, known: &'static [Table]) -> Self {
        Self {
            file,
            text,
            known,
            catalogue: Arc::clone(Catalogue::standard()),
            is_shelf: false,
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
        self.sort();
        if self.said.iter().any(|said| said.severity == Severity::Error) {
            return Err(self.said);
        }
        Ok((Draft::new(self.file, self.text, self.values, self.catalogue)?, self.said))
    }

    /// Brings what is said into the order of the file.
    pub fn sort(&mut self) {
        let of_file = |said: &Diagnostic| said.place.as_ref().is_some_and(|place| place.file == self.file);
        self.said
            .sort_by_key(|said| (!of_file(said), said.place.as_ref().map_or(0, |place| place.span.start)));
        self.said.extend(more(self.unsaid, self.said.last()));
    }
}

/// What is said in place of the mistakes that are only counted.
fn more(unsaid: usize, last: Option<&Diagnostic>) -> Option<Diagnostic> {
    let place = last.and_then(|last| last.place.clone());
    let diagnostic = Diagnostic::error("swept::more", format!("{unsaid} more mistakes are not shown"))
        .hint("mend these first and read the file again");
    (unsaid > 0).then_some(Diagnostic { place, ..diagnostic })
}

pub(super) fn decode<'a>(file: &str, bytes: &'a [u8]) -> Result<&'a str, Diagnostic> {
    if bytes.len() > LARGEST_FILE {
        let error = Diagnostic::error("swept::size", format!("the file is larger than {LARGEST_FILE} bytes"))
            .allowed(format!("a design file of at most {LARGEST_FILE} bytes"))
            .hint("is this the right file? `swept new` writes a small starter");
        return Err(error.at(Place::in_text(file, "", 0..0)));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| not_utf8(file, bytes, error.valid_up_to()))?;
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        let error = Diagnostic::error("swept::empty", "the file is empty")
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
