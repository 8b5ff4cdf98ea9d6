//! Inside corners and slots against the smallest milling cutter of the workshop.
//!
//! A cutter leaves its own radius in an inside corner of a pocket and cannot enter a slot narrower than itself. Turned
//! shapes are left to lathe tools, tooth spaces of pulleys to a form cutter, sheet to laser or knife.

use crate::design::Workshop;
use crate::parts::part::{Part, PartSet, Supply};
use crate::shape::loops::{Loop, Piece};
use crate::shape::outline::Outline;
use crate::shape::recipe::{Body, End, Kind, ProfileNode, Recipe};
use crate::shape::{InnerSpace, Point2};
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit;

/// One check for each milled part that has inside corners or slots.
pub fn check(set: &PartSet, shop: &Workshop) -> Vec<Check> {
    let cutter = shop.smallest_cutter_mm.value;
    let milled = set.parts.iter().filter(|p| p.supply == Supply::Make && !p.flat);
    milled.filter_map(|part| of_part(part, cutter)).collect()
}

fn of_part(part: &Part, cutter_mm: f64) -> Option<Check> {
    let (largest, feature) = largest_cutter_mm(part.recipe.as_ref()?)?;
    let what = format!("{}: largest cutter that makes its inside corners and slots ({feature})", part.title);
    Some(
        Check::at_least(
            &format!("cutter-{}", part.name),
            &what,
            largest,
            Unit::Millimetre,
            cutter_mm,
            cutter_mm,
        )
        .source("plain geometry, against workshop.smallest_cutter")
        .at("workshop.smallest_cutter")
        .of(&[&part.name])
        .hint("give a smaller workshop.smallest_cutter if you have one, or make the slot wider"),
    )
}

/// Diameter of the largest cutter that makes everything milled in a recipe \[mm\], and the feature that asks for it.
pub fn largest_cutter_mm(recipe: &Recipe) -> Option<(f64, String)> {
    let mut all: Vec<(f64, String)> = Vec::new();
    for f in &recipe.features {
        match &f.kind {
            Kind::Pocket { outline, .. } => all.push((inside(outline), f.name.clone())),
            Kind::Bore { chain, end: End::Island, .. } => all.push((groove(chain), f.name.clone())),
            _ => {}
        }
    }
    if let Body::Plate { outline: Outline::Free { boundary, .. }, .. } = &recipe.body {
        all.extend(slot(boundary).map(|mm| (mm, "slot".to_owned())));
    }
    all.into_iter().min_by(|a, b| a.0.total_cmp(&b.0))
}

/// Diameter of the largest cutter inside a pocket: twice its smallest inside radius, 0 with a sharp corner, and not wider
/// than its narrowest place \[mm\].
fn inside(outline: &Loop) -> f64 {
    let pieces = outline.pieces();
    let sign = outline.area().signum();
    let radius = pieces.iter().filter_map(|piece| match piece {
        Piece::Arc { radius, sweep, .. } if sweep.signum() == sign => Some(2.0 * radius),
        _ => None,
    });
    let sharp = corners(&pieces).filter(|turn| turn * sign > 1e-6).map(|_| 0.0);
    radius.chain(sharp).fold(f64::INFINITY, f64::min)
}

/// Turns at the joints of the pieces \[rad\], positive to the left.
fn corners(pieces: &[Piece]) -> impl Iterator<Item = f64> + '_ {
    (0..pieces.len()).map(|i| {
        let (a, b) = (heading(&pieces[i], 1.0), heading(&pieces[(i + 1) % pieces.len()], 0.0));
        let turn = (a.0 * b.1 - a.1 * b.0).atan2(a.0 * b.0 + a.1 * b.1);
        if turn.abs() < 1e-4 { 0.0 } else { turn }
    })
}

/// Direction of a piece at its start (0) or end (1).
fn heading(piece: &Piece, t: f64) -> (f64, f64) {
    let near = if t > 0.5 { (1.0 - 1e-6, 1.0) } else { (0.0, 1e-6) };
    let (a, b): (Point2, Point2) = (piece.at(near.0), piece.at(near.1));
    let d = b - a;
    (d.x / d.magnitude(), d.y / d.magnitude())
}

/// Width of a ring-shaped groove \[mm\].
fn groove(chain: &[ProfileNode]) -> f64 {
    let radii = || chain.iter().map(|n| n.r);
    radii().fold(0.0, f64::max) - radii().fold(f64::INFINITY, f64::min)
}

/// Width of the open slots of an outline: the shortest straight bottom between two inside corners \[mm\]. A cutter that goes
/// down the slot leaves its bottom square.
fn slot(boundary: &Loop) -> Option<f64> {
    let pieces = boundary.pieces();
    let turns: Vec<f64> = corners(&pieces).collect();
    let sign = boundary.area().signum();
    let n = pieces.len();
    let bottoms = (0..n).filter(|&i| turns[(i + n - 1) % n] * sign < -1e-6 && turns[i] * sign < -1e-6);
    bottoms.map(|i| pieces[i].length()).min_by(f64::total_cmp)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::loops::Node;

    #[test]
    fn a_pocket_wants_a_cutter_of_its_corners() {
        let round = crate::shape::outline::rectangle(Point2::new(0.0, 0.0), Point2::new(20.0, 10.0), 2.5);
        assert!((inside(&round) - 5.0).abs() < 1e-9);
        assert!((inside(&round.reversed()) - 5.0).abs() < 1e-9);
        let sharp = crate::shape::outline::rectangle(Point2::new(0.0, 0.0), Point2::new(20.0, 10.0), 0.0);
        assert_eq!(inside(&sharp), 0.0);
        assert!((inside(&Loop::circle(1.0, 2.0, 3.0)) - 6.0).abs() < 1e-9);
    }

    #[test]
    fn a_fork_wants_a_cutter_not_wider_than_its_slot() {
        let fork = [
            (-6.0, 0.0),
            (-3.0, 0.0),
            (-3.0, 8.0),
            (3.0, 8.0),
            (3.0, 0.0),
            (6.0, 0.0),
            (6.0, 20.0),
            (-6.0, 20.0),
        ];
        let fork = Loop::Path(fork.iter().map(|(x, y)| Node::line(*x, *y)).collect());
        assert!((slot(&fork).unwrap() - 6.0).abs() < 1e-9);
    }
}
