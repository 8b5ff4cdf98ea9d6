//! A cut file as SVG at 1:1: one user unit is one millimetre.
//!
//! The Y axis is turned by turning coordinates, never by a mirrored transform, which would mirror
//! lettering too. Circles and arcs stay circles and arcs.

use super::cutfile::{Contour, CutFile, PunchMark, Stroke};
use super::layers::{Action, Layers};
use crate::shape::Point2;
use crate::shape::loops::{Loop, Piece};
use std::f64::consts::TAU;
use svg::Document;
use svg::node::element::{Circle, Description, Group, Path, Title};

/// Width of all lines \[mm\]: a hair line, thin enough that drivers which cut hair lines and engrave
/// thicker ones take it for a cut (common practice, no source).
const HAIR_MM: f64 = 0.025;

/// The most that one `A` command turns \[rad\].
const MOST_TURN: f64 = TAU / 3.0;

/// Half the length of the arms of a punch cross \[mm\].
const CROSS_MM: f64 = 1.0;

/// The bytes of the SVG file, with the check bars on the reference layer.
pub fn svg(file: &CutFile, layers: &Layers) -> Vec<u8> {
    let flip = Flip { height: file.page[1] };
    let [w, h] = file.page.map(number);
    let mut document = Document::new()
        .set("width", format!("{w}mm"))
        .set("height", format!("{h}mm"))
        .set("viewBox", format!("0 0 {w} {h}"))
        .add(Title::new(file.title.clone()))
        .add(Description::new().add(svg::node::Text::new(described(file))));
    for action in Action::ALL {
        let layer = layers.of(action);
        let group = Group::new()
            .set("id", layer.name.clone())
            .set("fill", "none")
            .set("stroke", layer.hex())
            .set("stroke-width", number(HAIR_MM));
        document = document.add(filled(group, file, action, &flip));
    }
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{document}\n").into_bytes()
}

/// The notes as plain text.
fn described(file: &CutFile) -> String {
    let mut text = vec!["millimetres, 1:1".to_owned()];
    text.extend(file.notes.iter().cloned());
    text.join("; ")
}

/// The group of an action with what belongs to it.
fn filled(mut group: Group, file: &CutFile, action: Action, flip: &Flip) -> Group {
    match action {
        Action::Cut => {
            for c in file.contours() {
                group = contour(group, c, flip);
            }
            group
        }
        Action::Punch => file.punch.iter().fold(group, |g, m| cross(g, m, flip)),
        Action::Mark => file.mark.iter().fold(group, |g, s| stroke(g, s, flip)),
        Action::Reference => {
            file.reference.iter().chain(&file.check_bars).fold(group, |g, s| stroke(g, s, flip))
        }
    }
}

/// Turns Y up into Y down.
struct Flip {
    /// Height of the page \[mm\].
    height: f64,
}

impl Flip {
    /// A place as `x y`.
    fn at(&self, p: Point2) -> String {
        format!("{} {}", number(p.x), number(self.height - p.y))
    }
}

/// A contour as a circle or a closed path.
fn contour(group: Group, c: &Contour, flip: &Flip) -> Group {
    match &c.boundary {
        Loop::Circle { centre, radius } => group.add(
            Circle::new()
                .set("cx", number(centre.x))
                .set("cy", number(flip.height - centre.y))
                .set("r", number(*radius)),
        ),
        Loop::Path(_) => group.add(Path::new().set("d", path(&c.boundary, flip))),
    }
}

/// Path data of a loop; the last piece, when straight, is drawn by closing.
fn path(l: &Loop, flip: &Flip) -> String {
    let pieces = l.pieces();
    let mut d = format!("M {}", flip.at(pieces[0].at(0.0)));
    for (i, piece) in pieces.iter().enumerate() {
        match *piece {
            Piece::Line { .. } if i + 1 == pieces.len() => {}
            Piece::Line { to, .. } => d.push_str(&format!(" L {}", flip.at(to))),
            Piece::Arc { radius, sweep, .. } => {
                let r = number(radius);
                // Counter-clockwise with Y up is sweep-flag 0 with Y down.
                let flag = u8::from(sweep < 0.0);
                for end in arc_ends(piece, pieces[(i + 1) % pieces.len()].at(0.0)) {
                    d.push_str(&format!(" A {r} {r} 0 0 {flag} {}", flip.at(end)));
                }
            }
        }
    }
    d + " Z"
}

/// Ends of the parts of an arc, the last being `end`, so that contours close to the last digit.
///
/// An `A` command gives ends and radius, not the centre. Near half a turn the centre then moves by the
/// root of the rounding (0.01 mm for four decimals), so no part turns more than a third.
fn arc_ends(piece: &Piece, end: Point2) -> Vec<Point2> {
    let Piece::Arc { sweep, .. } = *piece else { return vec![end] };
    let parts = (sweep.abs() / MOST_TURN - 1e-9).ceil().max(1.0) as usize;
    (1..parts).map(|i| piece.at(i as f64 / parts as f64)).chain([end]).collect()
}

/// A stroke as an open path.
fn stroke(group: Group, s: &Stroke, flip: &Flip) -> Group {
    let Some((first, rest)) = s.split_first() else { return group };
    let mut d = format!("M {}", flip.at(*first));
    for p in rest {
        d.push_str(&format!(" L {}", flip.at(*p)));
    }
    group.add(Path::new().set("d", d))
}

/// A punch cross, both arms in one path.
fn cross(group: Group, mark: &PunchMark, flip: &Flip) -> Group {
    let at = |dx: f64, dy: f64| flip.at(Point2::new(mark.at.x + dx, mark.at.y + dy));
    let (l, r) = (at(-CROSS_MM, 0.0), at(CROSS_MM, 0.0));
    let (b, t) = (at(0.0, -CROSS_MM), at(0.0, CROSS_MM));
    group.add(Path::new().set("d", format!("M {l} L {r} M {b} L {t}")))
}

/// A number with four decimals and never a minus before zero.
fn number(value: f64) -> String {
    crate::numerals::fixed(value, 4)
}
