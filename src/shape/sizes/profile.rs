//! Sizes of turned profiles and chains.

use super::List;
use crate::shape::InnerSpace;
use crate::shape::loops::{Leave, Piece, piece};
use crate::shape::recipe::{End, ProfileNode, Tag};
use crate::shape::{Point2, Vector2};

const SAME: f64 = 1e-9;

/// What the surface between two corners is.
#[derive(Clone, Copy, PartialEq)]
enum Sort {
    /// Nothing: a stretch of the axis.
    Axis,
    Round,
    Flat,
    Slant,
    Arc(f64),
}

/// A surface of the profile with what is needed to size it.
struct Surface<'a> {
    from: Point2,
    to: Point2,
    leave: Leave,
    sort: Sort,
    tag: Option<&'a Tag>,
}

/// Sizes of a closed profile.
pub(super) fn turned(list: &mut List, nodes: &[ProfileNode]) {
    let n = nodes.len();
    let surfaces: Vec<Surface> = (0..n).map(|i| surface(&nodes[i], &nodes[(i + 1) % n])).collect();
    let mut count = Count::default();
    for (i, s) in surfaces.iter().enumerate() {
        one(list, s, &mut count, "", "length");
        let next = &surfaces[(i + 1) % n];
        joint(list, s, next, &format!("corner-{}", i + 1));
        tip(list, s, next, i);
    }
}

/// Sizes of the chain of a bore or boss; `along` is the word for places along the axis.
pub(super) fn chain(list: &mut List, name: &str, nodes: &[ProfileNode], end: End, along: &str) {
    let surfaces: Vec<Surface> = nodes.windows(2).map(|w| surface(&w[0], &w[1])).collect();
    let mut count =
        Count { single: surfaces.iter().filter(|s| s.sort == Sort::Round).count() == 1, ..Count::default() };
    if let Some(first) = surfaces.first().filter(|s| s.sort != Sort::Round) {
        list.plain(&format!("{name}-mouth-diameter"), 2.0 * first.from.x, "mm");
    }
    for (i, s) in surfaces.iter().enumerate() {
        one(list, s, &mut count, name, along);
        let next = surfaces.get(i + 1);
        let ends_in_metal = next.is_some_and(|n| n.sort != Sort::Flat);
        if s.sort == Sort::Round && ends_in_metal && end != End::Island {
            list.plain(&format!("{name}-{along}"), s.to.y, "mm");
        }
        if let Some(next) = next {
            joint(list, s, next, &format!("{name}-corner-{}", i + 1));
        }
    }
}

/// How many surfaces of each kind have been named.
#[derive(Default)]
struct Count {
    round: usize,
    flat: usize,
    slant: usize,
    arc: usize,
    single: bool,
}

fn surface<'a>(from: &'a ProfileNode, to: &ProfileNode) -> Surface<'a> {
    let (a, b) = (Point2::new(from.r, from.z), Point2::new(to.r, to.z));
    let sort = match from.leave {
        Leave::Arc { centre, .. } => Sort::Arc((a - centre).magnitude()),
        Leave::Line if a.x < SAME && b.x < SAME => Sort::Axis,
        Leave::Line if (a.x - b.x).abs() < SAME => Sort::Round,
        Leave::Line if (a.y - b.y).abs() < SAME => Sort::Flat,
        Leave::Line => Sort::Slant,
    };
    Surface { from: a, to: b, leave: from.leave, sort, tag: from.tag.as_ref() }
}

/// The size of one surface by itself.
fn one(list: &mut List, s: &Surface, count: &mut Count, owner: &str, along: &str) {
    let none = Tag::default();
    let tag = s.tag.unwrap_or(&none);
    match s.sort {
        Sort::Axis => {}
        Sort::Round => {
            count.round += 1;
            let other = if count.single {
                own(owner, "diameter")
            } else {
                own(owner, &format!("diameter-{}", count.round))
            };
            list.tagged(tag, &other, 2.0 * s.from.x);
        }
        Sort::Flat => {
            count.flat += 1;
            // measured from another face, the way counts and not its direction
            let place = tag.from_z.map_or(s.from.y, |z| (s.from.y - z).abs());
            if s.tag.is_some() || place.abs() > SAME {
                list.tagged(tag, &own(owner, &format!("{along}-{}", count.flat)), place);
            }
        }
        Sort::Slant => {
            count.slant += 1;
            slant(list, s, tag, &own(owner, &format!("slant-{}", count.slant)));
        }
        Sort::Arc(radius) => {
            count.arc += 1;
            list.tagged(tag, &own(owner, &format!("radius-{}", count.arc)), radius);
        }
    }
}

/// Length along the axis and angle to the axis of a chamfer or cone.
fn slant(list: &mut List, s: &Surface, tag: &Tag, other: &str) {
    let d = s.to - s.from;
    let name = if tag.name.is_empty() { other } else { &tag.name };
    let sized = Tag { name: format!("{name}-length"), ..tag.clone() };
    list.tagged(&sized, other, d.y.abs());
    list.plain(&format!("{name}-angle"), d.x.abs().atan2(d.y.abs()).to_degrees(), "deg");
}

/// Where an arc joins its neighbour without a common tangent (or two arcs join), the corner needs its place.
fn joint(list: &mut List, before: &Surface, after: &Surface, name: &str) {
    let arc = |s: &Surface| matches!(s.sort, Sort::Arc(_));
    let both = arc(before) && arc(after);
    let smooth = direction(before, 1.0).dot(direction(after, 0.0)) > 1.0 - SAME;
    if !(arc(before) || arc(after)) || (smooth && !both) || before.to.x < SAME {
        return;
    }
    if before.sort != Sort::Round && after.sort != Sort::Round {
        list.plain(&format!("{name}-diameter"), 2.0 * before.to.x, "mm");
    }
    if before.sort != Sort::Flat && after.sort != Sort::Flat {
        list.plain(&format!("{name}-place"), before.to.y, "mm");
    }
}

/// Where a cone or a ball reaches the axis.
fn tip(list: &mut List, before: &Surface, after: &Surface, i: usize) {
    let slants = |s: &Surface| matches!(s.sort, Sort::Slant | Sort::Arc(_));
    if before.to.x < SAME && (slants(before) || slants(after)) {
        list.unless_zero(&format!("tip-{}", i + 1), before.to.y);
    }
}

fn own(owner: &str, name: &str) -> String {
    if owner.is_empty() { name.to_owned() } else { format!("{owner}-{name}") }
}

/// Direction in which a surface is run at its start (0) or end (1).
fn direction(s: &Surface, t: f64) -> Vector2 {
    match piece(s.from, s.leave, s.to) {
        Piece::Line { from, to } if (to - from).magnitude() > SAME => (to - from).normalize(),
        Piece::Line { .. } => Vector2::new(0.0, 0.0),
        Piece::Arc { start, sweep, .. } => {
            let a = start + sweep * t;
            Vector2::new(-a.sin(), a.cos()) * sweep.signum()
        }
    }
}
