//! The lettering as a font inside the document (ISO 32000-1, 9.6.5): each letter is a small drawing with the strokes of our own
//! alphabet, so that the text that is seen is text, no other font is needed and none can be missing.
//!
//! The alphabet is part of the program and free like it (MIT OR Apache-2.0); [`LICENCE`] says so in the document.

use super::DrawingError;
use crate::drawing::board::Label;
use crate::drawing::lettering::{self, Letter};
use crate::drawing::sheet::Sheet;
use pdf_writer::types::{FontFlags, LineCapStyle, LineJoinStyle, SystemInfo, UnicodeCmap};
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, Str};
use std::collections::{BTreeMap, BTreeSet};

/// Name of the font in the document.
const NAME: &str = "SweptLettering";
/// What the document says of its lettering.
pub const LICENCE: &str =
    "lettering: SweptLettering, a single-stroke alphabet embedded as a Type 3 font, MIT OR Apache-2.0";
/// Units of a letter's drawing in the height of capitals; a point is off by 0.0005 h at most.
const UNITS: f64 = 1000.0;
/// First code of the characters beyond ASCII, and how many of them one font holds.
const BEYOND: usize = 0x80;

/// Where a character is found: which font holds it, and its code there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Place {
    page: usize,
    code: u8,
}

/// The fonts that a document needs: one for each line width in proportion to the height, and more of them where a document
/// uses more than 128 characters beyond ASCII.
#[derive(Debug)]
pub struct Fonts {
    places: BTreeMap<char, Place>,
    /// Width of the pen for each, in thousandths of the height of capitals.
    weights: Vec<u32>,
    pages: usize,
}

/// Width of the pen in thousandths of the height.
fn weight(height: f64) -> u32 {
    (lettering::line_width(height) / height * 1e3).round() as u32
}

impl Fonts {
    /// The fonts for all that is written on some sheets.
    ///
    /// # Errors
    /// [`DrawingError::UnknownCharacter`] for a character that the alphabet lacks.
    pub fn of(sheets: &[Sheet]) -> Result<Self, DrawingError> {
        let mut used = BTreeSet::new();
        let mut weights = BTreeSet::new();
        for label in sheets.iter().flat_map(|s| &s.board.labels) {
            for character in label.text.chars() {
                if !used.contains(&character) && lettering::letter(character).is_none() {
                    return Err(DrawingError::UnknownCharacter { character, text: label.text.clone() });
                }
                used.insert(character);
            }
            weights.insert(weight(label.height));
        }
        let beyond = used.iter().filter(|c| !c.is_ascii()).enumerate();
        let place = |n: usize| Place { page: n / BEYOND, code: (BEYOND + n % BEYOND) as u8 };
        let mut places: BTreeMap<char, Place> = beyond.map(|(n, c)| (*c, place(n))).collect();
        let ascii = used.iter().filter(|c| c.is_ascii());
        places.extend(ascii.map(|c| (*c, Place { page: 0, code: *c as u8 })));
        let pages = places.values().map(|p| p.page + 1).max().unwrap_or(0);
        Ok(Self { places, weights: weights.into_iter().collect(), pages })
    }

    /// How many fonts there are.
    fn count(&self) -> usize {
        self.pages * self.weights.len()
    }

    /// Name of a font in the resources of a page.
    fn name(font: usize) -> String {
        format!("F{font}")
    }

    /// Names and objects of the fonts, for the resources of a page; `first` is the first object that is free.
    pub fn resources(&self, first: i32) -> Vec<(String, Ref)> {
        (0..self.count()).map(|i| (Self::name(i), Ref::new(first + i as i32))).collect()
    }

    /// Writes texts.
    pub fn show(&self, page: &mut Content, labels: &[Label], rounded: &dyn Fn(f64) -> f32) {
        page.begin_text();
        let mut set = None;
        for label in labels {
            let (x, y) = (rounded(label.at.x), rounded(label.at.y));
            let turned = if label.upright { [0.0, 1.0, -1.0, 0.0, x, y] } else { [1.0, 0.0, 0.0, 1.0, x, y] };
            page.set_text_matrix(turned);
            let of_weight = self.weights.iter().position(|w| *w == weight(label.height)).unwrap_or(0);
            for (font, codes) in self.runs(&label.text) {
                let wanted = (of_weight * self.pages + font, label.height as f32);
                if set != Some(wanted) {
                    page.set_font(Name(Self::name(wanted.0).as_bytes()), wanted.1);
                    set = Some(wanted);
                }
                page.show(Str(&codes));
            }
        }
        page.end_text();
    }

    /// A text as codes, font by font.
    fn runs(&self, text: &str) -> Vec<(usize, Vec<u8>)> {
        let mut runs: Vec<(usize, Vec<u8>)> = Vec::new();
        for place in text.chars().filter_map(|c| self.places.get(&c)) {
            match runs.last_mut() {
                Some((page, codes)) if *page == place.page => codes.push(place.code),
                _ => runs.push((place.page, vec![place.code])),
            }
        }
        runs
    }

    /// Writes the fonts as objects from `first` on.
    pub fn write(&self, pdf: &mut Pdf, first: i32) {
        let mut free = first + self.count() as i32;
        let mut next = || {
            free += 1;
            Ref::new(free - 1)
        };
        for (i, weight) in self.weights.iter().enumerate() {
            for page in 0..self.pages {
                let chars = self.places.iter().filter(|(_, place)| place.page == page);
                let mut chars: Vec<(u8, char)> = chars.map(|(c, place)| (place.code, *c)).collect();
                chars.sort_unstable();
                let font = Ref::new(first + (i * self.pages + page) as i32);
                write_font(pdf, font, &chars, *weight, &mut next);
            }
        }
    }
}

/// One font with its letters, widths and what each code means.
fn write_font(pdf: &mut Pdf, id: Ref, chars: &[(u8, char)], weight: u32, next: &mut dyn FnMut() -> Ref) {
    let (Some((low, _)), Some((high, _))) = (chars.first(), chars.last()) else { return };
    let (descriptor, meaning) = (next(), next());
    let letters: Vec<(u8, char, Letter, Ref)> =
        chars.iter().filter_map(|(code, c)| Some((*code, *c, lettering::letter(*c)?, next()))).collect();
    let name = if weight == REGULAR { NAME.to_owned() } else { format!("{NAME}-{weight}") };
    let bounds = bounds(&letters, weight);
    let mut font = pdf.type3_font(id);
    font.name(Name(name.as_bytes())).bbox(bounds).first_char(*low).last_char(*high);
    font.matrix([1.0 / UNITS as f32, 0.0, 0.0, 1.0 / UNITS as f32, 0.0, 0.0]);
    let width = |code: u8| letters.iter().find(|l| l.0 == code).map_or(0.0, |l| units(l.2.advance));
    font.widths((*low..=*high).map(width));
    let mut procs = font.char_procs();
    letters.iter().for_each(|(_, c, _, glyph)| {
        procs.pair(Name(glyph_name(*c).as_bytes()), *glyph);
    });
    procs.finish();
    let mut encoding = font.encoding_custom();
    let mut differences = encoding.differences();
    for (i, (code, c, ..)) in letters.iter().enumerate() {
        let name = glyph_name(*c);
        match i > 0 && letters[i - 1].0 + 1 == *code {
            true => {
                differences.item(Name(name.as_bytes()));
            }
            false => {
                differences.consecutive(*code, [Name(name.as_bytes())]);
            }
        }
    }
    differences.finish();
    encoding.finish();
    font.font_descriptor(descriptor).to_unicode(meaning);
    font.resources();
    font.finish();
    pdf.font_descriptor(descriptor)
        .name(Name(name.as_bytes()))
        .flags(FontFlags::NON_SYMBOLIC)
        .bbox(bounds)
        .italic_angle(0.0)
        .ascent(bounds.y2)
        .descent(bounds.y1)
        .cap_height(UNITS as f32);
    let system = SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"UCS"), supplement: 0 };
    let mut map = UnicodeCmap::<u8>::new(Name(b"Adobe-Identity-UCS"), system);
    chars.iter().for_each(|(code, c)| map.pair(*code, *c));
    let map = miniz_oxide::deflate::compress_to_vec_zlib(&map.finish(), super::EFFORT);
    pdf.stream(meaning, &map).filter(Filter::FlateDecode);
    letters.iter().for_each(|(.., letter, glyph)| {
        pdf.stream(*glyph, &drawn(letter, weight));
    });
}

/// Width of the pen of common lettering, in thousandths of the height.
const REGULAR: u32 = 100;

/// A length of a letter, given in heights.
fn units(value: f64) -> f32 {
    (value * UNITS).round() as f32
}

/// Name of a letter after the Adobe Glyph List, from which readers without the map of codes take its meaning.
fn glyph_name(c: char) -> String {
    match c as u32 {
        _ if c.is_ascii_alphabetic() => c.to_string(),
        code if code > 0xFFFF => format!("u{code:X}"),
        code => format!("uni{code:04X}"),
    }
}

/// The drawing of a letter. It is started as one that may have colours (`d0`), so that readers draw it like any other line and
/// keep no bitmap of it, which they would put on whole pixels.
fn drawn(letter: &Letter, weight: u32) -> Vec<u8> {
    let mut page = Content::new();
    page.start_color_glyph(units(letter.advance));
    if !letter.strokes.is_empty() {
        page.set_line_width(weight as f32 * (UNITS / 1e3) as f32);
        page.set_line_cap(LineCapStyle::RoundCap).set_line_join(LineJoinStyle::RoundJoin);
        for stroke in letter.strokes {
            super::page::path(&mut page, stroke, &|p| (units(p.x), units(p.y)));
        }
        page.stroke();
    }
    page.finish().to_vec()
}

/// The rectangle around all letters, with the width of the pen.
fn bounds(letters: &[(u8, char, Letter, Ref)], weight: u32) -> Rect {
    let pen = weight as f32 * (UNITS / 1e3) as f32 / 2.0;
    let points = letters.iter().flat_map(|l| l.2.strokes.iter().flatten());
    let grow = |r: Rect, p: &crate::shape::Point2| {
        let (x, y) = (units(p.x), units(p.y));
        Rect::new(r.x1.min(x - pen), r.y1.min(y - pen), r.x2.max(x + pen), r.y2.max(y + pen))
    };
    points.fold(Rect::new(0.0, 0.0, 0.0, 0.0), grow)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::board::Board;

    fn sheet(texts: &[(&str, f64)]) -> Sheet {
        let mut board = Board::default();
        texts.iter().for_each(|(text, height)| board.write(Label::level(text, 0.0, 0.0, *height)));
        Sheet { name: "s".into(), title: "S".into(), size_mm: [210.0, 297.0], board }
    }

    #[test]
    fn ascii_keeps_its_codes_and_the_rest_follows_in_order() {
        let fonts = Fonts::of(&[sheet(&[("bore ⌀5", 3.5), ("±2°", 2.5)])]).unwrap();
        assert_eq!((fonts.pages, &*fonts.weights), (1, &[100][..]));
        // ° U+00B0, ± U+00B1, ⌀ U+2300
        assert_eq!(fonts.runs("⌀5°±"), [(0, vec![0x82, b'5', 0x80, 0x81])]);
    }

    #[test]
    fn a_text_over_two_fonts_is_shown_in_runs_and_a_lighter_pen_has_its_own() {
        let place = |page| Place { page, code: b'x' };
        let places = [('a', place(0)), ('b', place(1))].into();
        let fonts = Fonts { places, weights: vec![50, 100], pages: 2 };
        assert_eq!(fonts.runs("aab"), [(0, vec![b'x'; 2]), (1, vec![b'x'])]);
        assert_eq!(fonts.resources(7).last().unwrap(), &("F3".to_owned(), Ref::new(10)));
        // above 5 mm the pen grows no wider: 0.5 mm in 10 mm
        assert_eq!(weight(10.0), 50);
    }

    #[test]
    fn a_character_without_strokes_is_an_error() {
        assert!(matches!(
            Fonts::of(&[sheet(&[("漢", 3.5)])]),
            Err(DrawingError::UnknownCharacter { character: '漢', .. })
        ));
    }

    /// I: width 0.1 h and a gap of 0.2 h, one stroke from the base line to the top.
    #[test]
    fn a_letter_is_its_strokes_in_thousandths_of_the_height() {
        let text = String::from_utf8(drawn(&lettering::letter('I').unwrap(), REGULAR)).unwrap();
        assert_eq!(text, "300 0 d0\n100 w\n1 J\n1 j\n50 0 m\n50 1000 l\nS");
    }
}
