//! The face on which a feature starts or comes out, found by place, and whether the feature fits in it.

use super::chain::PLACE;
use super::error::SolidError;
use super::skin::{Skin, Wire};
use super::surface::Surface;
use crate::shape::gap::loop_gap;
use crate::shape::loops::Loop;
use crate::shape::{InnerSpace, Point3, Vector3};

/// Least metal between two loops of a face \[mm\].
const WEB: f64 = 1e-3;

/// How a new outline lies in a face.
struct Verdict {
    /// Metal left at the tightest place, or how far it lies outside (negative) \[mm\].
    margin: f64,
    /// Openings of the face that lie inside the outline.
    swallowed: Vec<usize>,
}

/// Where a feature goes in: number of the face and the openings that it goes round.
pub(super) struct Host {
    pub face: usize,
    pub swallowed: Vec<usize>,
}

/// Flat faces through a point, looking along `out`.
pub(super) fn flats(skins: &[Skin], at: Point3, out: Vector3) -> Vec<usize> {
    let fits = |s: &Skin| match &s.surface {
        Surface::Plane(f) => f.z.dot(out) > 1.0 - 1e-9 && (at - f.origin).dot(f.z).abs() < PLACE,
        _ => false,
    };
    (0..skins.len()).filter(|i| fits(&skins[*i])).collect()
}

/// Picks the candidate in which the outline lies best, and refuses it if it does not lie wholly inside.
pub(super) fn pick(
    skins: &[Skin],
    candidates: &[usize],
    wire: &Wire,
    what: &str,
) -> Result<Host, SolidError> {
    let verdicts = candidates.iter().map(|i| (*i, judge(&skins[*i], wire)));
    let better = |a: &(usize, Verdict), b: &(usize, Verdict)| a.1.margin.total_cmp(&b.1.margin);
    let Some((face, verdict)) = verdicts.max_by(better) else {
        return Err(no_face(what, "no face there".to_owned()));
    };
    let (feature, words) = (what.to_owned(), skins[face].surface.words());
    match verdict.margin {
        m if m < -1e-9 => Err(SolidError::BreaksOut { feature, face: words, distance_mm: -m }),
        m if m < WEB => Err(SolidError::ThinWeb { feature, face: words, web_mm: m.max(0.0) }),
        _ => Ok(Host { face, swallowed: verdict.swallowed }),
    }
}

/// Refuses a feature that goes round openings.
pub(super) fn nothing_swallowed(skins: &[Skin], host: &Host, what: &str) -> Result<(), SolidError> {
    if host.swallowed.is_empty() {
        return Ok(());
    }
    Err(SolidError::Swallows { feature: what.to_owned(), face: skins[host.face].surface.words() })
}

pub(super) fn no_face(what: &str, problem: String) -> SolidError {
    SolidError::NoFace { feature: what.to_owned(), problem }
}

fn judge(skin: &Skin, wire: &Wire) -> Verdict {
    let outline = skin.outline(wire);
    let mut margin = clearance(&outline, &skin.outline(&skin.loops[0]), true);
    let mut swallowed = Vec::new();
    for (i, inner) in skin.loops.iter().enumerate().skip(1) {
        let opening = skin.outline(inner);
        let apart = loop_gap(&outline, &opening);
        if apart > 0.0 && outline.contains(opening.pieces()[0].at(0.0)) {
            swallowed.push(i);
            margin = margin.min(apart);
        } else {
            margin = margin.min(clearance(&outline, &opening, false));
        }
    }
    Verdict { margin, swallowed }
}

/// Distance to a boundary, negative by how far the outline lies on its wrong side \[mm\].
fn clearance(outline: &Loop, boundary: &Loop, inside: bool) -> f64 {
    let pieces = outline.pieces();
    let wrong = |p| boundary.contains(p) != inside;
    let gap = loop_gap(outline, boundary);
    if gap > 0.0 && !wrong(pieces[0].at(0.0)) {
        // Loops that do not meet lie wholly on one side of each other.
        return gap;
    }
    let steps = (720 / pieces.len().max(1)).max(8);
    let points = pieces.iter().flat_map(|piece| (0..steps).map(move |i| piece.at(i as f64 / steps as f64)));
    let out = points.filter(|p| wrong(*p)).map(|p| boundary.distance(p)).fold(0.0, f64::max);
    if out > 1e-9 { -out } else { gap }
}
