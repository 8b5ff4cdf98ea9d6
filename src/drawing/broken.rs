//! Broken-out sections (ISO 128-3): a view from outside in which a hole is laid open, with a thin wavy line around what has
//! been broken away.

use super::board::Board;
use super::bore;
use super::cut::{in_front, radius_at, shrunk};
use super::frame_map::PlaneAxis;
use super::group::Group;
use super::pen::Pen;
use super::section::Section;
use super::views::Scale;
use crate::shape::crossing::split;
use crate::shape::loops::{Loop, Node};
use crate::shape::recipe::{End, Feature, Kind};
use crate::shape::{InnerSpace, Point2, Vector2};

/// Metal shown around a hole on the paper \[mm\].
const AROUND: f64 = 3.0;
/// Length of half a wave on the paper \[mm\].
const WAVE: f64 = 2.6;
/// Height of a wave on the paper \[mm\].
const RISE: f64 = 0.35;

/// The border around a hole on an axis in the view, for a drawing at a scale.
pub fn border(f: &Feature, axis: &PlaneAxis, factor: f64) -> Option<Loop> {
    let (chain, ..) = bore::turned(f)?;
    let air = AROUND / factor;
    let (r, deep) = (bore::widest(chain) + air, bore::deepest(chain) + air);
    let corners = [(r, -air), (r, deep), (-r, deep), (-r, -air)];
    Some(wavy(&corners.map(|(r, z)| axis.point(Point2::new(r, z), 1.0)), factor))
}

/// A closed line along corners in waves of arcs.
fn wavy(corners: &[Point2], factor: f64) -> Loop {
    let (wave, rise) = (WAVE / factor, RISE / factor);
    let mut nodes = Vec::new();
    for (a, b) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        let count = ((b - a).magnitude() / wave).round().max(1.0);
        let chord = (b - a) / count;
        let radius = (chord.magnitude2() / 4.0 + rise * rise) / (2.0 * rise);
        let across = Vector2::new(-chord.y, chord.x).normalize() * (radius - rise);
        for i in 0..count as usize {
            let from = a + chord * i as f64;
            let left = i % 2 == 0;
            let centre = from + chord * 0.5 + if left { across } else { -across };
            nodes.push(Node::arc(from.x, from.y, centre.x, centre.y, left));
        }
    }
    Loop::Path(nodes)
}

/// Draws the wavy line where it runs through metal.
pub fn draw_border(board: &mut Board, section: &Section, scale: &Scale) {
    for piece in section.border() {
        board.draw(Pen::Leader, scale.piece(&piece));
    }
}

/// The section of a plate parallel to its faces, at a height \[mm\].
pub fn face_section(outline: &Loop, groups: &[Group], z: f64) -> Section {
    let mut section = Section::default();
    section.add(outline.clone());
    for f in groups.iter().flat_map(|g| &g.members) {
        add(&mut section, f, z);
    }
    section
}

/// Takes out what a feature takes at a height.
fn add(section: &mut Section, f: &Feature, z: f64) {
    let (o, d) = (f.axis.origin, f.axis.direction);
    let depth = (z - o.z) * d.z;
    match (bore::turned(f), &f.kind) {
        (Some((chain, _, false)), _) if d.z.abs() > 0.5 => {
            if let Some(r) = radius_at(chain, depth) {
                section.cut(Loop::circle(o.x, o.y, r));
            }
        }
        (Some((chain, end, false)), _) if (o.z - z).abs() < bore::widest(chain) - 1e-6 => {
            let axis = in_face(f);
            let mut chain = shrunk(chain, (o.z - z).abs());
            // into a bore the hole ends on its curved wall: the rest is air anyway
            if let (End::Through, Some(last)) = (end, chain.last_mut()) {
                last.z += last.r;
            }
            for side in [1.0, -1.0] {
                section.cut(axis.chain(&chain, end, side));
            }
        }
        (None, Kind::Pocket { outline, depth: deep, .. })
            if d.z.abs() > 0.5 && depth > 0.0 && depth < *deep =>
        {
            section.cut(in_front(f, outline));
        }
        _ => {}
    }
}

/// The axis of a hole across, in the front view.
pub fn in_face(f: &Feature) -> PlaneAxis {
    let (o, d) = (f.axis.origin, f.axis.direction);
    PlaneAxis { origin: Point2::new(o.x, o.y), along: Vector2::new(d.x, d.y) }
}

/// Whether the ways of two borders cross or one lies in the other.
pub fn collide(a: &Loop, b: &Loop) -> bool {
    let cuts = b.pieces();
    a.pieces().iter().any(|piece| split(piece, &cuts).len() > 1 || b.contains(piece.at(0.0)))
        || cuts.iter().any(|piece| a.contains(piece.at(0.0)))
}
