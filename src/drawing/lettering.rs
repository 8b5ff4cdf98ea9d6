//! Lettering: a single-stroke alphabet of our own, proportioned after ISO 3098-1 type B
//! (line 0.1 h, gap between characters 0.2 h, between words 0.6 h).
//!
//! Text is geometry, so that no font is needed and none can be missing. A character that the alphabet
//! lacks is an error, never a gap.

use crate::shape::Point2;
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// Gap between characters as a fraction of the height (ISO 3098-1, type B).
const CHARACTER_GAP: f64 = 0.2;
/// Gap between words as a fraction of the height (ISO 3098-1, type B).
const WORD_GAP: f64 = 0.6;
/// Width that an unknown character is given while measuring; drawing it fails.
const UNKNOWN_WIDTH: f64 = 0.6;

/// Line width as a fraction of the height (ISO 3098-1, type B), and the widest pen \[mm\].
const LINE: f64 = 0.1;
const WIDEST_MM: f64 = 0.5;

/// Width of the pen for capitals of `height` \[mm\].
pub fn line_width(height: f64) -> f64 {
    (height * LINE).min(WIDEST_MM)
}

/// One or more points joined by straight strokes of the pen.
pub type Polyline = Vec<Point2>;

/// A character that the alphabet lacks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UnknownCharacter(pub char);

/// Strokes of one character on a capital height of 1, and its width.
struct Glyph {
    width: f64,
    /// How far it reaches below the base line.
    depth: f64,
    strokes: Vec<Polyline>,
}

impl Glyph {
    fn new(width: f64, strokes: Vec<Polyline>) -> Self {
        let lowest = strokes.iter().flatten().map(|p| p.y).fold(0.0, f64::min);
        Self { width, depth: -lowest, strokes }
    }
}

/// Accents: the base letter and the mark put over it.
const ACCENTED: &[(&str, char, &str)] = &[
    ("dots", '\u{308}', "ÄAÖOÜUäaöoüuëeïıËEÏI"),
    ("acute", '\u{301}', "éeáaíıóoúuÉEÁAÍIÓOÚUśsŚSńnŃN"),
    ("grave", '\u{300}', "èeàaùuòoìıÈEÀA"),
    ("hat", '\u{302}', "êeâaîıôoûuÊEÂA"),
    ("tilde", '\u{303}', "ñnãaõoÑN"),
    ("ring", '\u{30a}', "åaÅAůu"),
    ("caron", '\u{30c}', "čcšsžzřrěeČCŠSŽZ"),
    ("cedilla", '\u{327}', "çcÇC"),
];

/// Strokes of a text whose base line starts at (0, 0), `height` \[mm\] being that of the capitals.
///
/// # Errors
/// [`UnknownCharacter`] for a character that the alphabet lacks.
pub fn strokes(text: &str, height: f64) -> Result<Vec<Polyline>, UnknownCharacter> {
    let mut pen = 0.0;
    let mut drawn = Vec::new();
    for character in text.chars() {
        if character != ' ' {
            let glyph = alphabet().get(&character).ok_or(UnknownCharacter(character))?;
            let moved = |p: &Point2| Point2::new((pen + p.x) * height, p.y * height);
            drawn.extend(glyph.strokes.iter().map(|s| s.iter().map(moved).collect::<Polyline>()));
        }
        pen += advance(character);
    }
    Ok(drawn)
}

/// Width of a text \[mm\] lettered `height` \[mm\] high.
pub fn width(text: &str, height: f64) -> f64 {
    let run: f64 = text.chars().map(advance).sum();
    (run - CHARACTER_GAP).max(0.0) * height
}

/// How far below the base line a text reaches \[mm\].
pub fn depth(text: &str, height: f64) -> f64 {
    let depth = |c: char| alphabet().get(&c).map_or(0.0, |g| g.depth);
    text.chars().map(depth).fold(0.0, f64::max) * height
}

/// One character as a font needs it, on a capital height of 1.
#[derive(Clone, Copy, Debug)]
pub struct Letter {
    /// How far the pen moves on.
    pub advance: f64,
    /// Its strokes from the base line at (0, 0); none for a space.
    pub strokes: &'static [Polyline],
}

/// A character of the alphabet; `None` for one that it lacks.
pub fn letter(character: char) -> Option<Letter> {
    let strokes = match character {
        ' ' => &[],
        known => alphabet().get(&known)?.strokes.as_slice(),
    };
    Some(Letter { advance: advance(character), strokes })
}

/// How far the pen moves on after a character, in heights.
fn advance(character: char) -> f64 {
    match character {
        ' ' => WORD_GAP - CHARACTER_GAP,
        known => alphabet().get(&known).map_or(UNKNOWN_WIDTH, |g| g.width) + CHARACTER_GAP,
    }
}

/// The alphabet, read once.
fn alphabet() -> &'static BTreeMap<char, Glyph> {
    static ALPHABET: OnceLock<BTreeMap<char, Glyph>> = OnceLock::new();
    ALPHABET.get_or_init(|| {
        let mut table: BTreeMap<char, Glyph> =
            include_str!("alphabet.txt").lines().filter_map(glyph).collect();
        for (_, mark, pairs) in ACCENTED {
            let letters: Vec<char> = pairs.chars().collect();
            for pair in letters.chunks_exact(2) {
                let made = table.get(&pair[1]).map(|base| accented(base, *mark));
                table.extend(made.map(|g| (pair[0], g)));
            }
        }
        let same = table.get(&'µ').map(|g| Glyph::new(g.width, g.strokes.clone()));
        table.extend(same.map(|g| ('μ', g)));
        table
    })
}

/// One line of the alphabet's file; `None` for a remark or an empty line.
fn glyph(line: &str) -> Option<(char, Glyph)> {
    let mut parts = line.splitn(3, ' ');
    let mut name = parts.next()?.chars();
    let character = name.next()?;
    let width: f64 = parts.next()?.parse().ok()?;
    let strokes = parts.next()?.split(" ; ").map(stroke).collect();
    Some((character, Glyph::new(width / 10.0, strokes)))
}

/// A stroke of the alphabet's file: points and arcs.
fn stroke(text: &str) -> Polyline {
    let mut points = Polyline::new();
    for token in text.split_whitespace() {
        let numbers = |s: &str| -> Vec<f64> { s.split(',').filter_map(|n| n.parse().ok()).collect() };
        match token.strip_prefix('@') {
            None => {
                points.extend(numbers(token).chunks_exact(2).map(|p| Point2::new(p[0] / 10.0, p[1] / 10.0)))
            }
            Some(arc) => points.extend(arc_points(&numbers(arc))),
        }
    }
    points
}

/// Points of an arc given as cx, cy, rx, ry, from, to.
fn arc_points(n: &[f64]) -> Polyline {
    let &[cx, cy, rx, ry, from, to] = n else { return Polyline::new() };
    let steps = ((to - from).abs() / 18.0).ceil() as usize;
    let at = |i: usize| {
        let a = (from + (to - from) * i as f64 / steps as f64).to_radians();
        Point2::new((cx + rx * a.cos()) / 10.0, (cy + ry * a.sin()) / 10.0)
    };
    (0..=steps).map(at).collect()
}

/// A letter with a mark over (or under) it.
fn accented(base: &Glyph, mark: char) -> Glyph {
    let top = base.strokes.iter().flatten().map(|p| p.y).fold(0.0, f64::max);
    let (x, y) = (base.width / 2.0, top + 0.12);
    let p = |dx: f64, dy: f64| Point2::new(x + dx, y + dy);
    let marks = match mark {
        '\u{308}' => vec![vec![p(-0.12, 0.05), p(-0.12, 0.13)], vec![p(0.12, 0.05), p(0.12, 0.13)]],
        '\u{301}' => vec![vec![p(-0.05, 0.0), p(0.1, 0.18)]],
        '\u{300}' => vec![vec![p(0.05, 0.0), p(-0.1, 0.18)]],
        '\u{302}' => vec![vec![p(-0.13, 0.02), p(0.0, 0.16), p(0.13, 0.02)]],
        '\u{303}' => vec![vec![p(-0.16, 0.04), p(-0.06, 0.12), p(0.06, 0.05), p(0.16, 0.13)]],
        '\u{30a}' => vec![arc_points(&[x * 10.0, y * 10.0 + 1.0, 1.0, 1.0, 0.0, 360.0])],
        '\u{30c}' => vec![vec![p(-0.13, 0.16), p(0.0, 0.02), p(0.13, 0.16)]],
        _ => vec![vec![Point2::new(x, 0.0), Point2::new(x + 0.08, -0.12), Point2::new(x - 0.06, -0.24)]],
    };
    Glyph::new(base.width, base.strokes.iter().cloned().chain(marks).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_character_that_a_drawing_may_need_is_there() {
        let needed = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789\
            .,:;!?()[]/+-=<>%&'\"*#_ ⌀±°×↧⌴⌵µμ–—ÄÖÜäöüßéèàçñåøØł√→²³";
        assert!(strokes(needed, 3.5).is_ok(), "{:?}", strokes(needed, 3.5).err());
    }

    #[test]
    fn an_unknown_character_is_an_error() {
        assert_eq!(strokes("bore 漢", 3.5), Err(UnknownCharacter('漢')));
    }

    /// ISO 3098-1 type B: capitals 10/10 h, small letters 7/10 h, tails 3/10 h.
    #[test]
    fn proportions_are_those_of_iso_3098() {
        let top = |t: &str| strokes(t, 10.0).unwrap().concat().iter().map(|p| p.y).fold(0.0, f64::max);
        assert!((top("H") - 10.0).abs() < 1e-9 && (top("x") - 7.0).abs() < 1e-9);
        assert!((depth("p", 10.0) - 3.0).abs() < 1e-9);
        let gap = width("HH", 10.0) - 2.0 * width("H", 10.0);
        assert!((gap - 2.0).abs() < 1e-9, "{gap}");
        assert!((width("H H", 10.0) - 2.0 * width("H", 10.0) - 6.0).abs() < 1e-9);
    }
}
