//! Paper templates at 1:1: gaskets, plates and ring blanks to cut around, bolt circles to drill through.

mod tiles;

pub use tiles::{TemplatePaper, pages};

use super::board::{Board, Label};
use super::pen::Pen;
use crate::export::cutfile::CutFile;
use crate::export::holes::{Hole, holes};
use crate::parts::part::Part;
use crate::shape::recipe::{Body, ProfileNode, Recipe};
use crate::shape::{Point2, Vector2};

/// Half the length of the arms of a centre cross \[mm\].
const CROSS_MM: f64 = 3.0;
/// Height of the words beside holes \[mm\] (ISO 3098-1).
const WORDS_MM: f64 = 2.5;

/// What is printed, in the plane of the paper, before it is cut into pages.
#[derive(Clone, Debug)]
pub struct Template {
    /// Name of its file.
    pub name: String,
    /// Title for people.
    pub title: String,
    /// What to do with it.
    pub notes: Vec<String>,
    board: Board,
}

impl Template {
    /// A flat part: its contours to cut along, small holes as crosses for the punch.
    pub fn of_flat(file: &CutFile) -> Self {
        let mut board = Board::default();
        for contour in file.contours() {
            contour.boundary.pieces().into_iter().for_each(|piece| board.draw(Pen::Template, piece));
        }
        for stroke in &file.mark {
            stroke.windows(2).for_each(|ends| board.line(Pen::Ruling, ends[0], ends[1]));
        }
        for mark in &file.punch {
            cross(&mut board, mark.at);
            let word = format!("⌀{}", crate::numerals::short(mark.diameter_mm, 2));
            beside(&mut board, mark.at, 0.0, &word);
        }
        Self { name: file.part.clone(), title: file.title.clone(), notes: file.notes.clone(), board }
    }

    /// Drilling templates of a part, one for each flat face from which holes go in; none where a drill needs none. Faces of a
    /// turned part that lie one behind the other have one each: a drill must not go through both.
    pub fn drilling(part: &Part) -> Vec<Self> {
        let Some(recipe) = part.recipe.as_ref().filter(|_| !part.flat) else { return Vec::new() };
        let all = holes(recipe);
        let sides = [("top", -1.0), ("bottom", 1.0)].into_iter();
        sides.flat_map(|side| of_sides(part, recipe, &all, side)).collect()
    }
}

/// Heights that agree to this are one \[mm\].
const SAME: f64 = 1e-6;

/// The templates of the faces that are drilled along `down` · Z, the outermost first.
fn of_sides(part: &Part, recipe: &Recipe, all: &[Hole], (side, down): (&str, f64)) -> Vec<Template> {
    let here: Vec<&Hole> = all.iter().filter(|h| h.direction[2] == down).collect();
    let mut levels: Vec<f64> = match recipe.body {
        Body::Turned(_) => here.iter().map(|h| h.at_mm[2]).collect(),
        Body::Plate { .. } => vec![0.0],
    };
    levels.sort_by(|a, b| (a * down).total_cmp(&(b * down)));
    levels.dedup_by(|a, b| (*a - *b).abs() < SAME);
    let on = |z: f64| -> Vec<&Hole> {
        let turned = matches!(recipe.body, Body::Turned(_));
        here.iter().copied().filter(|h| !turned || (h.at_mm[2] - z).abs() < SAME).collect()
    };
    let found = levels.into_iter().filter_map(|z| of_face(part, recipe, &on(z), (side, down)));
    let number = |(i, t): (usize, Template)| match i {
        0 => t,
        _ => Template {
            name: format!("{}-{}", t.name, i + 1),
            title: format!("{}, face {}", t.title, i + 1),
            ..t
        },
    };
    found.enumerate().map(number).collect()
}

/// The template of one face; none where nothing is drilled beside the axis.
fn of_face(part: &Part, recipe: &Recipe, here: &[&Hole], (side, down): (&str, f64)) -> Option<Template> {
    let aside = here.iter().filter(|h| h.at_mm[0].hypot(h.at_mm[1]) > 1e-6).count();
    if aside < 2 {
        return None;
    }
    // from below, left and right change places
    let seen = |x: f64, y: f64| Point2::new(-down * x, y);
    let mut board = Board::default();
    outline(&mut board, &recipe.body, down, here);
    for hole in here {
        let at = seen(hole.at_mm[0], hole.at_mm[1]);
        board.circle(Pen::Template, at, hole.diameter_mm / 2.0);
        cross(&mut board, at);
        beside(&mut board, at, hole.diameter_mm / 2.0, &hole.label);
    }
    let notes = std::iter::once(format!("{}: drilling template, {side} face", part.name))
        .chain(told(here))
        .chain(lies(&recipe.body, here));
    Some(Template {
        name: format!("{}-drilling-{side}", part.name),
        title: format!("{}, drilling template, {side}", part.title),
        notes: notes.collect(),
        board,
    })
}

/// Inner and outer radius of the flat face of a turned profile in which a hole beside the axis begins \[mm\].
fn face(nodes: &[ProfileNode], here: &[&Hole]) -> Option<[f64; 2]> {
    let hole = here.iter().find(|h| h.at_mm[0].hypot(h.at_mm[1]) > SAME)?;
    let (r, z) = (hole.at_mm[0].hypot(hole.at_mm[1]), hole.at_mm[2]);
    let pairs = nodes.iter().zip(nodes.iter().cycle().skip(1));
    let flat = pairs.filter(|(a, b)| (a.z - z).abs() < SAME && (b.z - z).abs() < SAME);
    flat.map(|(a, b)| [a.r.min(b.r), a.r.max(b.r)]).find(|[inner, outer]| *inner < r && r < *outer)
}

/// Where the template of a face of a turned part lies.
fn lies(body: &Body, here: &[&Hole]) -> Option<String> {
    let Body::Turned(nodes) = body else { return None };
    let z = here.first()?.at_mm[2];
    let [inner, outer] = face(nodes, here)?.map(|r| crate::numerals::short(2.0 * r, 2));
    Some(format!(
        "lies on the face at Z {}, cut out between ⌀{inner} and ⌀{outer}",
        crate::numerals::short(z, 2)
    ))
}

/// The outside of a body seen along Z; of a turned one the face in which the holes begin.
fn outline(board: &mut Board, body: &Body, down: f64, here: &[&Hole]) {
    match body {
        Body::Turned(nodes) => {
            let widest = nodes.iter().map(|n| n.r).fold(0.0, f64::max);
            let [inner, outer] = face(nodes, here).unwrap_or([0.0, widest]);
            for r in [inner, outer].into_iter().filter(|r| *r > SAME) {
                board.circle(Pen::Template, Point2::new(0.0, 0.0), r);
            }
            cross(board, Point2::new(0.0, 0.0));
        }
        Body::Plate { outline, .. } => {
            let boundary = outline.boundary();
            let seen = if down < 0.0 { boundary } else { boundary.mapped(|p| Point2::new(-p.x, p.y), true) };
            seen.pieces().into_iter().for_each(|piece| board.draw(Pen::Template, piece));
        }
    }
}

/// One line for each group of holes: labels, diameter, thread, depth.
fn told(holes: &[&Hole]) -> Vec<String> {
    let mut lines: Vec<(String, String, usize)> = Vec::new();
    for hole in holes {
        let mut words = format!("⌀{}", crate::numerals::short(hole.diameter_mm, 2));
        match hole.depth_mm {
            Some(depth) => words += &format!(" depth {}", crate::numerals::short(depth, 2)),
            None => words += " through",
        }
        if let Some(thread) = &hole.thread {
            words += &format!(", {thread}");
        }
        let letters: String = hole.label.chars().take_while(|c| c.is_alphabetic()).collect();
        match lines.iter_mut().find(|(l, w, _)| *l == letters && *w == words) {
            Some((.., n)) => *n += 1,
            None => lines.push((letters, words, 1)),
        }
    }
    lines.into_iter().map(|(letters, words, n)| format!("{letters}: {n} x {words}")).collect()
}

/// A cross for the centre punch.
fn cross(board: &mut Board, at: Point2) {
    for arm in [Vector2::new(CROSS_MM, 0.0), Vector2::new(0.0, CROSS_MM)] {
        board.line(Pen::Ruling, at - arm, at + arm);
    }
}

/// A word above and right of a hole.
fn beside(board: &mut Board, at: Point2, radius: f64, word: &str) {
    let aside = 0.75 * radius + 1.0;
    board.write(Label::level(word, at.x + aside, at.y + aside, WORDS_MM));
}

#[cfg(test)]
mod tests;
