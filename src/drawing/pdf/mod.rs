//! Sheets as one PDF (ISO 32000-1): true size, an outline and page labels with the names of the sheets, no scaling by the
//! printer unless the reader insists.
//!
//! Lettering is text in our own alphabet, which the document carries as a font: it can be searched, selected and
//! copied, and no font can be missing.

mod font;
mod page;

use super::DrawingError;
use super::sheet::Sheet;
use font::Fonts;
use page::content;
use pdf_writer::types::OutlineItemFlags;
use pdf_writer::writers::PageLabel;
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, TextStr};
use rayon::prelude::*;

/// Points of a PDF in a millimetre.
const POINTS_PER_MM: f64 = 72.0 / 25.4;
/// Effort of the packing: sheets are mostly numbers, more effort gains little.
const EFFORT: u8 = 3;

/// What the document says of itself.
#[derive(Clone, Copy, Debug)]
pub struct About<'a> {
    /// Title.
    pub title: &'a str,
    /// Who made it; may be empty.
    pub author: &'a str,
}

/// Numbers of the objects of a document with so many sheets.
struct Numbers {
    count: usize,
}

impl Numbers {
    const CATALOG: i32 = 1;
    const PAGES: i32 = 2;
    const INFO: i32 = 3;
    const OUTLINE: i32 = 4;
    const FIRST: i32 = 5;

    fn page(&self, index: usize) -> Ref {
        Ref::new(Self::FIRST + index as i32)
    }

    fn content(&self, index: usize) -> Ref {
        self.page(self.count + index)
    }

    fn item(&self, index: usize) -> Ref {
        self.page(2 * self.count + index)
    }

    fn label(&self, index: usize) -> Ref {
        self.page(3 * self.count + index)
    }

    /// The first that is free for fonts.
    fn fonts(&self) -> i32 {
        Self::FIRST + 4 * self.count as i32
    }
}

/// The document.
///
/// # Errors
/// [`DrawingError::UnknownCharacter`] for a character that the alphabet lacks.
pub fn write(sheets: &[Sheet], about: &About) -> Result<Vec<u8>, DrawingError> {
    let fonts = Fonts::of(sheets)?;
    let packed: Vec<Vec<u8>> = sheets
        .par_iter()
        .map(|s| miniz_oxide::deflate::compress_to_vec_zlib(&content(s, &fonts), EFFORT))
        .collect();
    let numbers = Numbers { count: sheets.len() };
    let mut pdf = Pdf::new();
    catalog(&mut pdf, sheets, &numbers);
    pdf.pages(Ref::new(Numbers::PAGES))
        .kids((0..sheets.len()).map(|i| numbers.page(i)))
        .count(sheets.len() as i32);
    let mut info = pdf.document_info(Ref::new(Numbers::INFO));
    info.title(TextStr(about.title)).producer(TextStr(concat!("swept ", env!("CARGO_PKG_VERSION"))));
    info.keywords(TextStr(font::LICENCE));
    if !about.author.is_empty() {
        info.author(TextStr(about.author));
    }
    info.finish();
    fonts.write(&mut pdf, numbers.fonts());
    let resources = fonts.resources(numbers.fonts());
    outline(&mut pdf, sheets, &numbers);
    for (i, (sheet, packed)) in sheets.iter().zip(packed).enumerate() {
        let [width, height] = sheet.size_mm.map(|mm| (mm * POINTS_PER_MM) as f32);
        let mut page = pdf.page(numbers.page(i));
        page.media_box(Rect::new(0.0, 0.0, width, height))
            .parent(Ref::new(Numbers::PAGES))
            .contents(numbers.content(i));
        let mut listed = page.resources();
        let mut named = listed.fonts();
        resources.iter().for_each(|(name, font)| {
            named.pair(Name(name.as_bytes()), *font);
        });
        named.finish();
        listed.finish();
        page.finish();
        pdf.stream(numbers.content(i), &packed).filter(Filter::FlateDecode);
    }
    Ok(pdf.finish())
}

/// The root, with page labels and the wish not to be scaled.
fn catalog(pdf: &mut Pdf, sheets: &[Sheet], numbers: &Numbers) {
    let mut catalog = pdf.catalog(Ref::new(Numbers::CATALOG));
    catalog.pages(Ref::new(Numbers::PAGES)).outlines(Ref::new(Numbers::OUTLINE));
    catalog.viewer_preferences().display_doc_title(true).pair(Name(b"PrintScaling"), Name(b"None"));
    let mut labels = catalog.page_labels();
    let mut names = labels.nums();
    for i in 0..sheets.len() {
        names.insert(i as i32, numbers.label(i));
    }
    names.finish();
    labels.finish();
    catalog.finish();
    for (i, sheet) in sheets.iter().enumerate() {
        pdf.indirect(numbers.label(i)).start::<PageLabel>().prefix(TextStr(&sheet.name));
    }
}

/// The outline: a line for each sheet.
fn outline(pdf: &mut Pdf, sheets: &[Sheet], numbers: &Numbers) {
    let root = Ref::new(Numbers::OUTLINE);
    let last = sheets.len().saturating_sub(1);
    let mut top = pdf.outline(root);
    top.count(sheets.len() as i32);
    if !sheets.is_empty() {
        top.first(numbers.item(0)).last(numbers.item(last));
    }
    top.finish();
    for (i, sheet) in sheets.iter().enumerate() {
        let mut item = pdf.outline_item(numbers.item(i));
        item.title(TextStr(&sheet.title)).parent(root).flags(OutlineItemFlags::empty());
        if i > 0 {
            item.prev(numbers.item(i - 1));
        }
        if i < last {
            item.next(numbers.item(i + 1));
        }
        item.dest().page(numbers.page(i)).fit();
    }
}
