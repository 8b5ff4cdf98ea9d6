//! Turned chains and profiles checked and made ready: finite, not negative, no empty or doubled pieces,
//! arcs of at most half a turn.

use super::error::SolidError;
use crate::shape::gap::self_crossing;
use crate::shape::loops::{Leave, Loop, Node, Piece, piece};
use crate::shape::recipe::{End, ProfileNode};
use crate::shape::{InnerSpace, Point2};
use std::f64::consts::{PI, TAU};

/// Lengths below this are nothing \[mm\].
pub(super) const TINY: f64 = 1e-9;
/// Places must agree to this \[mm\].
pub(super) const PLACE: f64 = 1e-6;

/// Longest arc of a profile left in one piece \[rad\]: less than half a turn, so that no ball face has two poles.
const PROFILE_ARC: f64 = PI - 1e-6;
/// Longest arc of an outline left in one piece \[rad\]: all but full circles, so that no split line lies
/// where a side hole may come.
const OUTLINE_ARC: f64 = 0.99 * TAU;

/// A corner of a checked chain: x is the radius, y the place along the axis.
pub(super) type Corner = Node;

/// Checks a closed profile in (r, z): counter-clockwise, not across the axis, not across itself.
pub(super) fn closed(nodes: &[ProfileNode], what: &str) -> Result<Vec<Corner>, SolidError> {
    let corners = checked(&profile_loop(nodes), PROFILE_ARC, what)?;
    let path = Loop::Path(corners.clone());
    if let Some(low) = Some(path.bounds().0.x).filter(|x| *x < -TINY) {
        return Err(number(what, format!("the profile reaches over the axis to radius {low:.4} mm")));
    }
    Ok(corners.into_iter().map(snapped).collect())
}

/// Checks a chain that starts at depth or height 0 and ends as told.
pub(super) fn open(nodes: &[ProfileNode], end: End, what: &str) -> Result<Vec<Corner>, SolidError> {
    let mut corners: Vec<Corner> = nodes.iter().map(node).collect();
    finite(&corners, what)?;
    let Some(last) = corners.last_mut() else { return Err(profile(what, "the chain is empty")) };
    last.leave = Leave::Line;
    let last = *last;
    let corners: Vec<Corner> = tidy(corners, false, PROFILE_ARC, what)?.into_iter().map(snapped).collect();
    ends(&corners, end, what)?;
    let mut round = corners.clone();
    if end != End::Island {
        round.extend([Node::line(0.0, last.at.y), Node::line(0.0, 0.0)]);
    }
    simple(&tidy(round, true, PROFILE_ARC, what)?, what)?;
    Ok(corners)
}

/// Checks a counter-clockwise outline.
pub(super) fn outline(boundary: &Loop, what: &str) -> Result<Vec<Node>, SolidError> {
    checked(boundary, OUTLINE_ARC, what)
}

fn checked(boundary: &Loop, longest: f64, what: &str) -> Result<Vec<Node>, SolidError> {
    let Loop::Path(nodes) = boundary else { return Err(profile(what, "a circle is no chain")) };
    finite(nodes, what)?;
    let nodes = tidy(nodes.clone(), true, longest, what)?;
    simple(&nodes, what)?;
    Ok(nodes)
}

/// The chain run from its other end.
pub(super) fn backwards(corners: &[Corner]) -> Vec<Corner> {
    let Loop::Path(nodes) = Loop::Path(corners.to_vec()).reversed() else { return Vec::new() };
    nodes
}

pub(super) fn number(what: &str, problem: String) -> SolidError {
    SolidError::Number { what: what.to_owned(), problem }
}

pub(super) fn profile(what: &str, problem: &str) -> SolidError {
    SolidError::Profile { what: what.to_owned(), problem: problem.to_owned() }
}

fn node(n: &ProfileNode) -> Node {
    Node { at: Point2::new(n.r, n.z), leave: n.leave }
}

fn profile_loop(nodes: &[ProfileNode]) -> Loop {
    Loop::Path(nodes.iter().map(node).collect())
}

fn snapped(mut corner: Corner) -> Corner {
    if corner.at.x.abs() < TINY {
        corner.at.x = 0.0;
    }
    corner
}

fn finite(nodes: &[Node], what: &str) -> Result<(), SolidError> {
    let fine = |n: &Node| {
        let centre = match n.leave {
            Leave::Line => n.at,
            Leave::Arc { centre, .. } => centre,
        };
        [n.at.x, n.at.y, centre.x, centre.y].iter().all(|v| v.is_finite())
    };
    match nodes.iter().position(|n| !fine(n)) {
        Some(i) => Err(number(what, format!("corner {} has a coordinate that is not a number", i + 1))),
        None => Ok(()),
    }
}

/// Drops pieces without length, checks arcs and splits those that are too long.
fn tidy(nodes: Vec<Node>, closed: bool, longest: f64, what: &str) -> Result<Vec<Node>, SolidError> {
    let n = nodes.len();
    let mut kept: Vec<Node> = Vec::new();
    for (i, node) in nodes.iter().enumerate() {
        let next = nodes[(i + 1) % n];
        let ends_here = !closed && i + 1 == n;
        if !ends_here && n > 1 && (next.at - node.at).magnitude() < TINY {
            continue;
        }
        kept.push(*node);
        if let (Leave::Arc { centre, ccw }, false) = (node.leave, ends_here) {
            arc(node, centre, next.at, what)?;
            if let Some(at) = half_way(node, next.at, longest) {
                kept.push(Node { at, leave: Leave::Arc { centre, ccw } });
            }
        }
    }
    Ok(kept)
}

fn arc(node: &Node, centre: Point2, to: Point2, what: &str) -> Result<(), SolidError> {
    let (a, b) = ((node.at - centre).magnitude(), (to - centre).magnitude());
    if (a - b).abs() < PLACE && a > PLACE {
        return Ok(());
    }
    let (x, y) = (node.at.x, node.at.y);
    Err(number(
        what,
        format!("the arc from ({x:.4}, {y:.4}) starts at radius {a:.6} and ends at radius {b:.6} mm"),
    ))
}

fn half_way(node: &Node, to: Point2, longest: f64) -> Option<Point2> {
    let piece = piece(node.at, node.leave, to);
    let Piece::Arc { sweep, .. } = piece else { return None };
    (sweep.abs() > longest).then(|| piece.at(0.5))
}

fn simple(nodes: &[Node], what: &str) -> Result<(), SolidError> {
    let path = Loop::Path(nodes.to_vec());
    if let Some(at) = self_crossing(&path.pieces()) {
        return Err(profile(what, &format!("the outline crosses itself at ({:.4}, {:.4})", at.x, at.y)));
    }
    if path.area() < TINY {
        return Err(profile(what, "the outline runs backwards or encloses nothing"));
    }
    Ok(())
}

fn ends(corners: &[Corner], end: End, what: &str) -> Result<(), SolidError> {
    let fail = |text: String| Err(profile(what, &text));
    let [first, .., last] = corners else { return fail("the chain needs two corners at least".to_owned()) };
    if first.at.y.abs() > PLACE {
        return fail(format!("the chain starts at depth {:.4} mm and not at 0", first.at.y));
    }
    let inner = &corners[1..corners.len() - 1];
    if let Some(c) = corners.iter().find(|c| c.at.x < 0.0) {
        return Err(number(what, format!("radius {:.4} mm is negative", c.at.x)));
    }
    if let Some(c) = inner.iter().chain([first]).find(|c| c.at.x <= TINY) {
        return fail(format!("the chain reaches its axis at depth {:.4} mm before its end", c.at.y));
    }
    if let Some(c) = inner.iter().find(|c| c.at.y <= TINY) {
        return fail(format!("the chain runs backwards to depth {:.4} mm", c.at.y));
    }
    match end {
        End::Blind if last.at.x > TINY => fail("a blind chain must end on its axis (radius 0)".to_owned()),
        End::Through if last.at.x <= TINY => fail("a through chain must not end on its axis".to_owned()),
        End::Island if last.at.x <= TINY || last.at.y.abs() > PLACE || last.at.x >= first.at.x => {
            fail("a ring groove must come back to depth 0 at a smaller radius".to_owned())
        }
        End::Blind | End::Through if last.at.y <= TINY => fail("the chain has no depth".to_owned()),
        _ => Ok(()),
    }
}
